package paper

// field of a band: lines of text under one another.
type field struct {
	x, w  float64 // from the left margin
	runs  []run
	right bool
	box   bool // a square to tick
}

func (f field) height() float64 {
	h := 0.0
	for _, r := range f.runs {
		h += r.face.height()
	}
	if f.box {
		h = max(h, plain.height())
	}
	return h
}

// band is a strip across the page: fields side by side. It is kept whole where a page can hold it, otherwise it is
// broken between lines.
type band struct {
	fields []field
	above  float64
	below  float64
	least  float64 // the least height
	fill   bool    // washed
	bar    bool    // a heavy bar at its left
	hair   bool    // a hairline below
	over   bool    // a rule above
	extra  func(y, h float64)
}

func (b band) height() float64 {
	h := 0.0
	for _, f := range b.fields {
		h = max(h, f.height())
	}
	return max(b.above+h+b.below, b.least)
}

func (p *printer) height(bs []band) float64 {
	h := 0.0
	for _, b := range bs {
		h += b.height()
	}
	return h
}

// put draws a band where it fits whole; onPage is called after a page break (a table's head), and may be nil.
func (p *printer) put(b band, onPage func()) {
	room := p.body()
	if onPage != nil {
		room -= 25
	}
	if b.height() <= room {
		if p.need(b.height()) && onPage != nil {
			onPage()
		}
		p.draw(b)
		return
	}
	for force := false; ; force = true {
		part, rest, more := p.cut(b, force)
		p.draw(part)
		if !more {
			return
		}
		b = rest
		p.page()
		if onPage != nil {
			onPage()
		}
	}
}

// cut takes from a band the lines that the page has room for; with force at least one.
func (p *printer) cut(b band, force bool) (part, rest band, more bool) {
	room := p.bottom - p.y - b.above - b.below
	part, rest = b, b
	part.fields, rest.fields = nil, nil
	for _, f := range b.fields {
		h, n := 0.0, 0
		for n < len(f.runs) && (h+f.runs[n].face.height() <= room || n == 0 && force) {
			h += f.runs[n].face.height()
			n++
		}
		a, z := f, f
		a.runs, z.runs, z.box = f.runs[:n], f.runs[n:], false
		part.fields, rest.fields = append(part.fields, a), append(rest.fields, z)
		more = more || len(z.runs) > 0
	}
	part.hair = part.hair && !more
	rest.over, rest.extra = false, nil
	return part, rest, more
}

// draw sets a band at the present place.
func (p *printer) draw(b band) {
	h := b.height()
	if b.fill {
		p.f.SetFillColor(wash.R, wash.G, wash.B)
		p.f.Rect(p.left, p.y, p.width, h, "F")
	}
	if b.bar {
		p.f.SetFillColor(ink.R, ink.G, ink.B)
		p.f.Rect(p.left, p.y, 1.2, h, "F")
	}
	if b.over {
		p.line(p.left, p.y, p.left+p.width, p.y, ink, .25)
	}
	for _, f := range b.fields {
		p.field(f, p.y+b.above)
	}
	if b.extra != nil {
		b.extra(p.y, h)
	}
	p.y += h
	if b.hair {
		p.line(p.left, p.y, p.left+p.width, p.y, rule, .15)
	}
}

func (p *printer) field(f field, y float64) {
	if f.box {
		p.f.SetDrawColor(ink.R, ink.G, ink.B)
		p.f.SetLineWidth(.25)
		p.f.Rect(p.left+f.x+.2, y+.7, 3.1, 3.1, "D")
	}
	for _, r := range f.runs {
		x := p.left + f.x
		if f.right {
			x += f.w - p.measure(r.face, r.text)
		}
		p.text(x, y, r.text, r.face)
		y += r.face.height()
	}
}
