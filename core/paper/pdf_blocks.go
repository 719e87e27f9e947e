package paper

import (
	"math"

	"codeberg.org/go-pdf/fpdf"
)

func (p *printer) letterhead(b Letterhead) {
	half := p.width*.5 - 4
	name, title := face{style: "B", size: 12, colour: ink}, face{style: "B", size: 21, colour: rust}
	left := field{w: half, runs: p.runs(name, b.Shop.Name, half)}
	for _, l := range append(append([]string{}, b.Shop.Address...), b.Shop.Contact...) {
		left.runs = append(left.runs, p.runs(note, l, half)...)
	}
	x := p.width - half
	if p.d.Mark != "" {
		p.y += 2
	}
	p.put(band{fields: []field{left, {x: x, w: half, runs: p.runs(title, b.Title, half)}}}, nil)
	p.y += 1
	p.line(p.left, p.y, p.left+p.width, p.y, ink, .5)
	p.y += 2
	// The paper's own facts, two abreast.
	name2 := 21.0
	for i := 0; i < len(b.Facts); i += 2 {
		var fs []field
		for k := 0; k < 2 && i+k < len(b.Facts); k++ {
			f, at := b.Facts[i+k], float64(k)*x
			fs = append(fs, field{x: at, w: name2, runs: p.runs(note, f.Name, name2)}, field{x: at + name2 + 1, w: half - name2 - 1, runs: p.runs(strong, f.Text, half-name2-1)})
		}
		p.put(band{fields: fs, below: .5}, nil)
	}
	p.y += 2
}

func (p *printer) headingFace(b Heading) (f face, above, below float64) {
	if b.Level <= 1 {
		return section, 5, 1.2
	}
	return part, 3, .8
}

func (p *printer) headingHeight(b Heading) float64 {
	f, above, below := p.headingFace(b)
	return above + below + float64(len(p.wrap(f, b.Text, p.width)))*f.height()
}

func (p *printer) heading(b Heading, rest []Block) {
	f, above, below := p.headingFace(b)
	p.need(p.headingHeight(b) + p.lead(rest))
	p.gap(above)
	p.f.Bookmark(printable(b.Text), max(b.Level-1, 0), p.y)
	p.put(band{fields: []field{{w: p.width, runs: p.runs(f, b.Text, p.width)}}, below: below}, nil)
}

func (p *printer) paragraphBands(b Paragraph) []band {
	f, below := plain, 1.8
	if b.Small {
		f, below = note, 1.1
	}
	return []band{{fields: []field{{w: p.width, runs: p.runs(f, b.Text, p.width)}}, below: below}}
}

func (p *printer) paragraph(b Paragraph) {
	for _, x := range p.paragraphBands(b) {
		p.put(x, nil)
	}
}

func (p *printer) facts(b Facts) {
	w := 50.0
	var bs []band
	for _, f := range b.Items {
		bs = append(bs, band{fields: []field{{w: w, runs: p.runs(face{size: plain.size, colour: grey}, f.Name, w)},
			{x: w + cellGap, w: p.width - w - cellGap, runs: p.runs(plain, f.Text, p.width-w-cellGap)}}, above: .4, below: .7, hair: true})
	}
	if h := p.height(bs); h < p.body()*.4 {
		p.need(h)
	}
	for _, x := range bs {
		p.put(x, nil)
	}
	p.y += 2.5
}

func (p *printer) list(b List) {
	for _, s := range b.Items {
		p.put(band{fields: []field{{w: 3, runs: []run{{"–", plain}}}, {x: 4, w: p.width - 4, runs: p.runs(plain, s, p.width-4)}}, below: .9}, nil)
	}
	p.y += 1.5
}

func (p *printer) noticeBands(b Notice) []band {
	in, w := 4.5, p.width-8
	bs := []band{{fields: []field{{x: in, w: w, runs: p.runs(strong, b.Title, w)}}, above: 2, below: .8, fill: true, bar: true}}
	for i, l := range b.Lines {
		x := band{fields: []field{{x: in, w: w, runs: p.runs(plain, l, w)}}, below: 1, fill: true, bar: true}
		if i == len(b.Lines)-1 {
			x.below = 2.2
		}
		bs = append(bs, x)
	}
	return bs
}

func (p *printer) notice(b Notice) {
	p.gap(1)
	bs := p.noticeBands(b)
	if h := p.height(bs); h < p.body()*.6 {
		p.need(h)
	} else {
		p.need(p.height(bs[:min(2, len(bs))]))
	}
	for _, x := range bs {
		p.put(x, nil)
	}
	p.y += 3
}

// triangle is the mark of a caution.
func (p *printer) triangle(x, y float64) {
	p.f.SetDrawColor(ink.R, ink.G, ink.B)
	p.f.SetLineWidth(.3)
	p.f.Polygon([]fpdf.PointType{{X: x + 1.9, Y: y}, {X: x + 3.8, Y: y + 3.3}, {X: x, Y: y + 3.3}}, "D")
	p.line(x+1.9, y+1.2, x+1.9, y+2.2, ink, .35)
	p.line(x+1.9, y+2.6, x+1.9, y+2.75, ink, .35)
}

// initials is a statement with a short line at its right.
func (p *printer) initials(b Initials) {
	w, f := p.width-38, face{size: 9, colour: ink}
	for i, s := range b.Items {
		p.put(band{fields: []field{{w: w, runs: append(p.runs(strong, b.Lead(i), w), p.runs(f, s, w)...)}}, above: 2.2, below: 1.6, least: 9.5, hair: true, extra: func(y, h float64) {
			x := p.left + p.width - 32
			p.line(x, y+h-4.6, p.left+p.width, y+h-4.6, ink, .25)
			p.text(x, y+h-4.4, "initials", face{size: 6.5, colour: grey})
		}}, nil)
	}
	p.y += 2.5
}

// boxes is a question with squares to tick, as many on a line as fit.
func (p *printer) boxes(b Boxes) {
	p.put(band{fields: []field{{w: p.width, runs: p.runs(plain, b.Question, p.width)}}, below: .6}, nil)
	x := 0.0
	var fs []field
	flush := func() {
		if len(fs) > 0 {
			p.put(band{fields: fs, below: 1.2}, nil)
		}
		x, fs = 0, nil
	}
	for _, a := range b.Answers {
		w := min(p.measure(plain, printable(a))+.1, p.width-6)
		if x+6+w > p.width {
			flush()
		}
		fs = append(fs, field{x: x, w: 4, box: true}, field{x: x + 6, w: w, runs: p.runs(plain, a, w)})
		x += w + 14
	}
	flush()
	p.y += 1.5
}

const signField = 12.0 // height of one line to sign on

func (p *printer) signatureHeight(b Signature) float64 {
	h := float64(len(p.wrap(part, b.Statement, p.width-8)))*part.height() + 8
	for i := 0; i < len(b.Signers); i += 2 {
		fields := len(b.Signers[i].Fields)
		if i+1 < len(b.Signers) {
			fields = max(fields, len(b.Signers[i+1].Fields))
		}
		h += 7 + float64(fields)*signField
	}
	return h + 3
}

// signature is kept whole: a statement and the lines under it are never parted by a page.
func (p *printer) signature(b Signature) {
	p.gap(2)
	h := p.signatureHeight(b)
	p.need(h)
	top := p.y
	p.put(band{fields: []field{{x: 4, w: p.width - 8, runs: p.runs(part, b.Statement, p.width-8)}}, above: 3, below: 2}, nil)
	w := p.width/2 - 7
	for i := 0; i < len(b.Signers); i += 2 {
		most := 0
		for k := 0; k < 2 && i+k < len(b.Signers); k++ {
			s := b.Signers[i+k]
			p.signer(s, p.left+4+float64(k)*(w+6), w)
			most = max(most, len(s.Fields))
		}
		p.y += 7 + float64(most)*signField
	}
	p.f.SetDrawColor(ink.R, ink.G, ink.B)
	p.f.SetLineWidth(.4)
	if p.y-top <= p.body() && p.y >= top {
		p.f.Rect(p.left, top, p.width, math.Max(p.y-top+1, 0), "D")
	}
	p.y += 4
}

func (p *printer) signer(s Signer, x, w float64) {
	p.fit(x, p.y, w, s.Role, strong, false)
	y := p.y + 4
	for _, f := range s.Fields {
		y += signField
		p.line(x, y-4.2, x+w, y-4.2, ink, .25)
		p.fit(x, y-4, w, f, note, false)
	}
}
