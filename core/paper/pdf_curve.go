package paper

import "codeberg.org/go-pdf/fpdf"

// curve draws chance against money with the marks dropped to both axes.
func (p *printer) curve(c Curve) {
	pl, ok := c.plot(paperFrame.Ticks)
	if !ok {
		p.paragraph(Paragraph{Small: true, Text: "The budget has no spread to draw: every trial gave the same sum."})
		return
	}
	p.gap(2)
	p.need(curveHeight + 4)
	x, y, w, h := p.left+13, p.y+5, p.width-20, curveHeight-19
	px := func(v float64) float64 { return x + v*w }
	py := func(v float64) float64 { return y + h - v*h }
	p.curveAxes(pl, c.Label, x, y, w, h)
	var area []fpdf.PointType
	for _, q := range pl.Points {
		area = append(area, fpdf.PointType{X: px(q.X), Y: py(q.Y)})
	}
	end := area[len(area)-1]
	if pl.RunsOn {
		end.X = x + w
	}
	fill := append(append([]fpdf.PointType{}, area...), end, fpdf.PointType{X: end.X, Y: y + h}, fpdf.PointType{X: area[0].X, Y: y + h})
	p.f.SetFillColor(wash.R, wash.G, wash.B)
	p.f.Polygon(fill, "F")
	p.f.SetDrawColor(rust.R, rust.G, rust.B)
	p.f.SetLineWidth(.7)
	for i := 1; i < len(area); i++ {
		p.f.Line(area[i-1].X, area[i-1].Y, area[i].X, area[i].Y)
	}
	p.line(area[len(area)-1].X, end.Y, end.X, end.Y, rust, .7)
	for _, m := range pl.Marks {
		p.f.SetDashPattern([]float64{1, 1}, 0)
		p.line(px(m.X), y+h, px(m.X), py(m.Y), ink, .3)
		p.line(x, py(m.Y), px(m.X), py(m.Y), ink, .3)
		p.f.SetDashPattern(nil, 0)
		p.f.SetFillColor(ink.R, ink.G, ink.B)
		p.f.Circle(px(m.X), py(m.Y), .9, "F")
	}
	for _, m := range pl.Marks { // over the lines of all marks
		label := m.Name + "  " + m.Amount
		at := min(px(m.X)+2.5, x+w-p.measure(strong, label))
		p.f.SetFillColor(wash.R, wash.G, wash.B)
		p.f.Rect(at-.5, py(m.Y)+.8, p.measure(strong, label)+1, strong.height()-.4, "F")
		p.text(at, py(m.Y)+.6, label, strong)
	}
	p.y += curveHeight + 2
}

func (p *printer) curveAxes(pl plot, label string, x, y, w, h float64) {
	small := face{size: 7.5, colour: grey}
	p.line(x, y+h, x+w, y+h, ink, .25)
	p.line(x, y, x, y+h, ink, .25)
	for _, v := range pl.Levels {
		p.text(x-2-p.measure(small, v.Text), y+h-v.Height*h-small.height()/2, v.Text, small)
	}
	p.text(p.left, p.y-.5, pl.Side, small)
	for _, t := range pl.Ticks {
		p.line(x+t.X*w, y+h, x+t.X*w, y+h+1.2, ink, .25)
		p.text(x+t.X*w-p.measure(small, t.Text)/2, y+h+1.5, t.Text, small)
	}
	p.fit(x, y+h+6, w, label, small, true)
}
