package paper

import "strings"

const (
	shortHead = 16.0 // a head of numbers no longer than this is not broken
	cellGap   = 3.0  // between columns
	rowPad    = .9   // above and below the text of a row
)

// set is how the rows of a table are set: its faces, and the room above and below.
type set struct {
	text, strong, note, head face
	pad                      float64
}

var (
	wideSet    = set{plain, strong, note, head, rowPad}
	compactSet = set{face{size: 8.5, colour: ink}, face{style: "B", size: 8.5, colour: ink}, face{size: 7.5, colour: grey}, face{style: "B", size: 7.5, colour: grey}, .4}
)

func (t Table) set() set {
	if t.Compact {
		return compactSet
	}
	return wideSet
}

// laid is a table with its columns measured and its rows broken into lines.
type laid struct {
	head band
	rows [][]band
	tail int // rows from here on, the totals, stay together with the row before
}

func (p *printer) table(t Table) {
	l := p.layout(t)
	p.gap(1)
	p.need(p.tableLead(l))
	p.draw(l.head)
	again := func() { p.draw(l.head) }
	for i, bands := range l.rows {
		want := p.height(bands)
		switch {
		case i == l.tail-1:
			want = p.heightFrom(l, i)
		case i == len(l.rows)-2: // the last row is never alone on a page
			want += p.height(l.rows[i+1])
		case t.Rows[i].Group && i+1 < len(l.rows):
			want += p.height(l.rows[i+1])
		}
		if want <= p.body()-l.head.height() && p.need(want) {
			again()
		}
		for _, b := range bands {
			p.put(b, again)
		}
	}
	p.y += 1 + 2*t.set().pad
}

// tableLead is what a table must have room for where it begins: all of a short one, else its head and first rows.
func (p *printer) tableLead(l laid) float64 {
	if h := l.head.height() + p.heightFrom(l, 0); h < p.body()*.2 {
		return h
	}
	return l.head.height() + p.first(l)
}

// first is the height of the rows that must stand under the head.
func (p *printer) first(l laid) float64 {
	h := 0.0
	for i := 0; i < len(l.rows) && i < 2; i++ {
		h += p.height(l.rows[i])
	}
	return min(h, p.body()/2)
}

func (p *printer) heightFrom(l laid, i int) float64 {
	h := 0.0
	for _, bands := range l.rows[i:] {
		h += p.height(bands)
	}
	return h
}

// layout measures the columns and breaks every row into lines.
func (p *printer) layout(t Table) laid {
	xs, ws := p.columns(t)
	how := t.set()
	l := laid{head: band{above: how.pad, below: how.pad + .3}, tail: -1}
	for i, c := range t.Columns {
		l.head.fields = append(l.head.fields, field{x: xs[i], w: ws[i], runs: p.runs(how.head, c.Head, ws[i]), right: c.Right})
	}
	l.head.extra = func(y, h float64) { p.line(p.left, y+h, p.left+p.width, y+h, ink, .3) }
	widest := widestColumn(t)
	for i, r := range t.Rows {
		if r.Sum && l.tail < 0 && len(t.Rows)-i <= 10 {
			l.tail = i
		}
		l.rows = append(l.rows, p.row(t, r, xs, ws, xs[widest]))
	}
	return l
}

// widestColumn is the first of the columns with the largest share: notes stand under it.
func widestColumn(t Table) int {
	widest := 0
	for i, c := range t.Columns {
		if !c.Right && c.Share > t.Columns[widest].Share {
			widest = i
		}
	}
	return widest
}

func (p *printer) row(t Table, r Row, xs, ws []float64, indent float64) []band {
	how := t.set()
	b := band{above: how.pad, below: how.pad, hair: len(r.Notes) == 0 && !r.Group, over: r.Sum}
	text, first := how.text, 0.0
	if r.Sum || r.Group {
		text = how.strong
	}
	if r.Group {
		b.above, b.below, b.fill, first = how.pad+.7, how.pad+.3, true, 1
	}
	for i, c := range r.Cells {
		if i == len(t.Columns) {
			break
		}
		x, w := xs[i], ws[i]
		if i == 0 && (r.Sum || r.Group) {
			x, w = x+first, p.sumWidth(r, xs, ws)-first
		}
		runs := append(p.runs(how.strong, c.Lead, w), p.runs(text, c.Text, w)...)
		b.fields = append(b.fields, field{x: x, w: w, runs: append(runs, p.runs(how.note, c.Note, w)...), right: t.Columns[i].Right, box: c.Box})
	}
	if len(r.Notes) == 0 {
		return []band{b}
	}
	b.below = 0
	if len(r.Cells) == 0 {
		b.above, indent = 0, 0
	}
	w := p.width - indent
	under := band{above: how.pad * .3, below: how.pad + .2, hair: true, fields: []field{{x: indent, w: w}}}
	for _, n := range r.Notes {
		under.fields[0].runs = append(under.fields[0].runs, p.runs(how.note, n, w)...)
	}
	return []band{b, under}
}

// sumWidth lets the name of a total run over the empty fields beside it.
func (p *printer) sumWidth(r Row, xs, ws []float64) float64 {
	w := ws[0]
	for i := 1; i < len(ws) && (i >= len(r.Cells) || r.Cells[i] == (Cell{})); i++ {
		w = xs[i] + ws[i] - xs[0]
	}
	return w
}

// columns gives each column its place and width: numbers take what they need, the rest is shared.
func (p *printer) columns(t Table) (xs, ws []float64) {
	n := len(t.Columns)
	xs, ws = make([]float64, n), make([]float64, n)
	left, shares := p.width-cellGap*float64(n-1), 0.0
	for i, c := range t.Columns {
		if !c.Right {
			shares += c.Share
			continue
		}
		ws[i] = min(p.natural(t, i), p.width*.3)
		left -= ws[i]
	}
	x := 0.0
	for i, c := range t.Columns {
		if !c.Right && shares > 0 {
			ws[i] = max(left*c.Share/shares, 4)
		}
		xs[i] = x
		x += ws[i] + cellGap
	}
	return xs, ws
}

// natural is the width of a column's widest field, or of the longest word of its head.
func (p *printer) natural(t Table, i int) float64 {
	how := t.set()
	w := min(p.measure(how.head, t.Columns[i].Head), shortHead)
	for _, word := range strings.Fields(t.Columns[i].Head) {
		w = max(w, p.measure(how.head, word))
	}
	for _, r := range t.Rows {
		if i >= len(r.Cells) {
			continue
		}
		w = max(w, p.measure(how.strong, printable(r.Cells[i].Text)), p.measure(how.note, printable(r.Cells[i].Note)))
	}
	return w + .1
}
