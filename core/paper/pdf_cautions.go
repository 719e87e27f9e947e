package paper

// manyCautions is from how many on they are set smaller and in two columns.
const manyCautions = 8

// cautions carry a triangle each; many are set in two columns, read down the left one first.
func (p *printer) cautions(b Cautions) {
	f, abreast := plain, 1
	if len(b.Items) > manyCautions {
		f, abreast = face{size: 8, colour: ink}, 2
		if len(b.Items) > 10*manyCautions {
			f.size = 7.5
		}
	}
	w := (p.width - cellGap*float64(abreast-1)) / float64(abreast)
	var bands []band
	for _, s := range b.Items {
		bands = append(bands, band{fields: []field{{x: 6, w: w - 6, runs: p.runs(f, s, w-6)}}, above: .2, below: .6,
			extra: func(y, _ float64) { p.triangle(p.left+.3, y+.5) }})
	}
	if abreast == 1 {
		for _, x := range bands {
			p.put(x, nil)
		}
	} else {
		p.twoColumns(bands, w+cellGap)
	}
	p.y += 1.5
}

// twoColumns sets short bands in two columns, step apart: as many as the page has room for, the rest on the next; on the last page
// both columns end at about the same height.
func (p *printer) twoColumns(bands []band, step float64) {
	least := 25.0
	for _, b := range bands {
		least = max(least, b.height())
	}
	for len(bands) > 0 {
		p.need(min(p.height(bands), least))
		room := min(p.bottom-p.y, p.height(bands)/2+bands[0].height())
		top, lowest, left := p.y, p.y, p.left
		for range 2 {
			p.y = top
			for n := 0; len(bands) > 0 && (n == 0 || p.y+bands[0].height() <= top+room); n++ {
				p.draw(bands[0])
				bands = bands[1:]
			}
			lowest = max(lowest, p.y)
			p.left += step
		}
		p.left, p.y = left, lowest
		if len(bands) > 0 {
			p.page()
		}
	}
}
