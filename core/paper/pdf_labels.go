package paper

// Labels in mm: two abreast, seven down a page, to be cut along the lines.
const (
	labelHeight = 35.0
	labelPad    = 2.5
)

// labels lays labels two abreast, with lines to cut along.
func (p *printer) labels(b LabelSheet) {
	w := p.width / 2
	for i := 0; i < len(b.Items); i += 2 {
		p.need(labelHeight)
		for k := 0; k < 2 && i+k < len(b.Items); k++ {
			p.label(b.Items[i+k], p.left+float64(k)*w, w)
		}
		p.y += labelHeight
	}
}

func (p *printer) label(l Label, x, w float64) {
	p.f.SetDrawColor(rule.R, rule.G, rule.B)
	p.f.SetLineWidth(.2)
	p.f.Rect(x, p.y, w, labelHeight, "D")
	size := labelHeight - 2*labelPad
	room := w - 2*labelPad
	if n := len(l.Code); n > 0 {
		module := size / float64(n)
		p.f.SetFillColor(0, 0, 0)
		for _, r := range runsOf(l.Code) {
			p.f.Rect(x+w-labelPad-size+float64(r.X)*module, p.y+labelPad+float64(r.Y)*module, float64(r.Width)*module, module, "F")
		}
		room -= size
	}
	left, y := x+labelPad, p.y+labelPad
	number := face{style: "B", size: 17, colour: ink}
	p.fit(left, y, room, l.Number, number, false)
	y += number.height()
	if l.Kind != "tag" {
		p.fit(left, y, room, l.Kind, strong, false)
		y += strong.height()
	}
	y += .5
	for _, line := range p.runs(strong, l.Name, room) {
		if y+line.face.height() > p.y+labelHeight-labelPad {
			return
		}
		p.text(left, y, line.text, line.face)
		y += line.face.height()
	}
	for _, s := range l.Lines {
		for _, line := range p.runs(note, s, room) {
			if y+line.face.height() > p.y+labelHeight-labelPad {
				return
			}
			p.text(left, y, line.text, line.face)
			y += line.face.height()
		}
	}
}
