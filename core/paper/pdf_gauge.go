package paper

import (
	"codeberg.org/go-pdf/fpdf"

	"github.com/fettle-tools/fettle/core"
)

const (
	barHeight   = 3.6
	curveHeight = 54.0
)

// gauges are drawn in four fields: part and check, bar, reading, what it means.
func (p *printer) gauges(b Gauges) {
	w := p.width - 3*cellGap
	ws := []float64{w * .27, w * .26, w * .215, w * .255}
	xs := []float64{0, ws[0] + cellGap, ws[0] + ws[1] + 2*cellGap, ws[0] + ws[1] + ws[2] + 3*cellGap}
	top := band{above: rowPad, below: rowPad + .3, extra: func(y, h float64) { p.line(p.left, y+h, p.left+p.width, y+h, ink, .3) }}
	for i, h := range []string{"Part and check", "New to limit", "Reading", "Found, and the limit's source"} {
		top.fields = append(top.fields, field{x: xs[i], w: ws[i], runs: p.runs(compactSet.head, h, ws[i])})
	}
	p.gap(1)
	p.need(top.height() + 14)
	p.draw(top)
	for _, r := range b.Rows {
		p.put(p.gaugeBand(r, xs, ws), func() { p.draw(top) })
	}
	p.y += 2.5
}

func (p *printer) gaugeBand(r GaugeRow, xs, ws []float64) band {
	if r.Group {
		return band{above: 1.6, below: 1.2, fill: true, fields: []field{{x: 1, w: p.width - 2, runs: p.runs(compactSet.strong, r.Part, p.width-2)}}}
	}
	b := band{above: compactSet.pad, below: compactSet.pad, hair: true}
	add := func(i int, runs ...[]run) {
		f := field{x: xs[i], w: ws[i]}
		for _, rs := range runs {
			f.runs = append(f.runs, rs...)
		}
		b.fields = append(b.fields, f)
	}
	add(0, p.runs(compactSet.text, r.Part, ws[0]), p.runs(compactSet.note, r.Check, ws[0]))
	s, drawn := shapeOf(r.Gauge)
	if !drawn && !r.Unseen {
		wide := ws[1] + cellGap + ws[2]
		words := p.runs(compactSet.note, r.Note, wide)
		if r.Gauge != nil {
			words = append(p.runs(compactSet.text, reading(*r.Gauge)+", "+limit(*r.Gauge), wide), words...)
		}
		b.fields = append(b.fields, field{x: xs[1], w: wide, runs: words})
		add(3, p.runs(compactSet.text, r.Grade, ws[3]))
		return b
	}
	switch {
	case r.Gauge != nil && !r.Unseen:
		add(2, p.runs(compactSet.text, reading(*r.Gauge), ws[2]), p.runs(compactSet.note, limit(*r.Gauge), ws[2]))
	case r.Unseen && r.Gauge != nil:
		add(2, p.runs(compactSet.note, limit(*r.Gauge), ws[2]))
	}
	add(3, p.runs(compactSet.text, r.Grade, ws[3]), p.runs(compactSet.note, r.Note, ws[3]))
	if r.Unseen || drawn {
		b.least = barHeight + 5.4
		b.extra = func(y, _ float64) { p.bar(r, s, p.left+xs[1], y+1.4, ws[1]) }
	}
	return b
}

// bar draws the gauge; without a reading it is an empty outline.
func (p *printer) bar(r GaugeRow, s shape, x, y, w float64) {
	p.f.SetLineWidth(.2)
	if r.Unseen {
		p.f.SetDrawColor(grey.R, grey.G, grey.B)
		p.f.Rect(x, y, w, barHeight, "D")
		return
	}
	edge := x + s.Limit*w
	for i := range bands {
		c := wearColour((float64(i) + .5) / bands)
		p.f.SetFillColor(c.R, c.G, c.B)
		p.f.Rect(x+float64(i)*s.Limit*w/bands, y, s.Limit*w/bands+.05, barHeight, "F")
	}
	p.hatch(edge, y, x+w-edge)
	p.f.SetDrawColor(ink.R, ink.G, ink.B)
	p.f.SetLineWidth(.2)
	p.f.Rect(x, y, w, barHeight, "D")
	p.line(edge, y-.7, edge, y+barHeight+.7, ink, .35)
	p.tick(s, x, y, w)
	g := r.Gauge
	small := face{size: 6.5, colour: grey}
	from, to := "from "+core.FormatNumber(g.New), core.FormatNumber(g.Limit)
	if g.New == 0 {
		from = "0"
	}
	at := min(edge-p.measure(small, to)/2, x+w-p.measure(small, to))
	p.text(at, y+barHeight+.9, to, small)
	if x+p.measure(small, from)+1 < at {
		p.text(x, y+barHeight+.9, from, small)
	}
}

// hatch fills what lies past the limit with slanting lines.
func (p *printer) hatch(x, y, w float64) {
	p.f.SetFillColor(255, 255, 255)
	p.f.Rect(x, y, w, barHeight, "F")
	p.f.ClipRect(x, y, w, barHeight, false)
	for d := x - barHeight; d < x+w; d += 1.1 {
		p.line(d, y+barHeight, d+barHeight, y, rust, .3)
	}
	p.f.ClipEnd()
}

// tick draws the reading and its whisker, each with a white edge so that both show on any ground; a reading that is
// off the bar is an arrow at its end.
func (p *printer) tick(s shape, x, y, w float64) {
	mid, at := y+barHeight/2, x+s.Reading*w
	white := colour{255, 255, 255}
	for _, pass := range []struct {
		c     colour
		extra float64
	}{{white, .55}, {ink, 0}} {
		from, to := x+s.From*w, x+s.To*w
		if to-from > .3 {
			p.line(from, mid, to, mid, pass.c, .35+pass.extra)
			p.line(from, mid-.9, from, mid+.9, pass.c, .35+pass.extra)
			p.line(to, mid-.9, to, mid+.9, pass.c, .35+pass.extra)
		}
		p.line(at, y-1.1, at, y+barHeight+1.1, pass.c, .7+pass.extra)
	}
	arrow := 0.0
	if s.Over {
		arrow = 1.8
	} else if s.Under {
		arrow = -1.8
	}
	if arrow != 0 {
		p.f.SetFillColor(ink.R, ink.G, ink.B)
		p.f.Polygon([]fpdf.PointType{{X: at, Y: mid - 1.3}, {X: at + arrow, Y: mid}, {X: at, Y: mid + 1.3}}, "F")
	}
}
