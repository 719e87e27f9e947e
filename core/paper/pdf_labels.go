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
		pair := b.Items[i:min(i+2, len(b.Items))]
		h := labelHeight
		for _, l := range pair {
			h = max(h, p.labelText(l, 0, w, false)+2*labelPad)
		}
		p.need(h)
		for k, l := range pair {
			p.label(l, p.left+float64(k)*w, w, h)
		}
		p.y += h
	}
}

// codeSize is the side of a code, its quiet zone included.
const codeSize = labelHeight - 2*labelPad

func (p *printer) label(l Label, x, w, h float64) {
	p.f.SetDrawColor(rule.R, rule.G, rule.B)
	p.f.SetLineWidth(.2)
	p.f.Rect(x, p.y, w, h, "D")
	module := codeSize / float64(max(len(l.Code), 1))
	p.f.SetFillColor(0, 0, 0)
	for _, r := range runsOf(l.Code) {
		p.f.Rect(x+w-labelPad-codeSize+float64(r.X)*module, p.y+labelPad+float64(r.Y)*module, float64(r.Width)*module, module, "F")
	}
	p.labelText(l, x, w, true)
}

// labelText gives the height of a label's words, and writes them if asked to.
func (p *printer) labelText(l Label, x, w float64, write bool) float64 {
	room := w - 2*labelPad
	if len(l.Code) > 0 {
		room -= codeSize
	}
	runs := p.runs(face{style: "B", size: 17, colour: ink}, l.Number, room)
	if l.Kind != "tag" {
		runs = append(runs, p.runs(strong, l.Kind, room)...)
	}
	runs = append(runs, p.runs(strong, l.Name, room)...)
	for _, s := range l.Lines {
		runs = append(runs, p.runs(note, s, room)...)
	}
	y := 0.0
	for _, r := range runs {
		if write {
			p.text(x+labelPad, p.y+labelPad+y, r.text, r.face)
		}
		y += r.face.height()
	}
	return y
}
