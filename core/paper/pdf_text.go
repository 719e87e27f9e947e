package paper

import (
	"strings"
	"unicode"
)

// face is how a piece of text is set. Size is in points.
type face struct {
	style  string // "" or "B"
	size   float64
	colour colour
}

// height of a line of the face, in mm.
func (f face) height() float64 { return f.size * mmPerPoint * 1.32 }

// The faces used.
var (
	plain   = face{size: 9.5, colour: ink}
	strong  = face{style: "B", size: 9.5, colour: ink}
	note    = face{size: 8, colour: grey}
	head    = face{style: "B", size: 8, colour: grey}
	section = face{style: "B", size: 13, colour: rust}
	part    = face{style: "B", size: 10.5, colour: ink}
)

// printable replaces what the fonts cannot hold: controls by spaces, runes beyond the basic plane by a question mark.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case unicode.IsControl(r):
			return ' '
		case r > 0xFFFF || r == unicode.ReplacementChar:
			return '?'
		}
		return r
	}, s)
}

// measure is the width of a text in mm.
func (p *printer) measure(f face, s string) float64 {
	g := p.glyphs[f.style]
	if g == nil {
		g = map[rune]float64{}
		p.glyphs[f.style] = g
	}
	var w float64
	for _, r := range s {
		v, ok := g[r]
		if !ok {
			p.f.SetFont(family, f.style, f.size)
			v = float64(p.f.GetStringSymbolWidth(string(r)))
			g[r] = v
		}
		w += v
	}
	return w * f.size * mmPerPoint / 1000
}

// text writes one line with its top at y.
func (p *printer) text(x, y float64, s string, f face) {
	p.f.SetFont(family, f.style, f.size)
	p.f.SetTextColor(f.colour.R, f.colour.G, f.colour.B)
	p.f.Text(x, y+f.height()/2+f.size*mmPerPoint*.35, s)
}

// fit writes one line into a width: smaller if it must be, at last with its end left off (a running head or foot only,
// whose whole text stands on the first page).
func (p *printer) fit(x, y, w float64, s string, f face, right bool) {
	s = printable(strings.ReplaceAll(s, "\n", " "))
	for f.size > 6 && p.measure(f, s) > w {
		f.size -= .5
	}
	if p.measure(f, s) > w {
		rs := []rune(s)
		for len(rs) > 1 && p.measure(f, string(rs)+"…") > w {
			rs = rs[:len(rs)-1]
		}
		s = string(rs) + "…"
	}
	if right {
		x += w - p.measure(f, s)
	}
	p.text(x, y, s, f)
}

// line draws a rule.
func (p *printer) line(x1, y1, x2, y2 float64, c colour, w float64) {
	p.f.SetDrawColor(c.R, c.G, c.B)
	p.f.SetLineWidth(w)
	p.f.Line(x1, y1, x2, y2)
}

// wrap breaks a text into lines no wider than w: at spaces, and inside a word only where the word alone is too wide.
func (p *printer) wrap(f face, s string, w float64) []string {
	var out []string
	for para := range strings.SplitSeq(printable(s), "\n") {
		line := ""
		for word := range strings.FieldsFuncSeq(para, func(r rune) bool { return r == ' ' || r == '\t' }) {
			try := word
			if line != "" {
				try = line + " " + word
			}
			if p.measure(f, try) <= w {
				line = try
				continue
			}
			if line != "" {
				out = append(out, line)
			}
			pieces := p.hack(f, word, w)
			out = append(out, pieces[:len(pieces)-1]...)
			line = pieces[len(pieces)-1]
		}
		if line != "" {
			out = append(out, line)
		}
	}
	return out
}

// hack breaks one word that is too wide, after a mark where there is one in the second half of the line.
func (p *printer) hack(f face, word string, w float64) []string {
	var out []string
	rs := []rune(word)
	for p.measure(f, string(rs)) > w && len(rs) > 1 {
		n := 1
		for n < len(rs) && p.measure(f, string(rs[:n+1])) <= w {
			n++
		}
		for k := n; k > n/2 && k > 1; k-- {
			if strings.ContainsRune("/-_,;.–", rs[k-1]) {
				n = k
				break
			}
		}
		out = append(out, string(rs[:n]))
		rs = rs[n:]
	}
	return append(out, string(rs))
}

// run is one line of text, ready to be set.
type run struct {
	text string
	face face
}

// runs wraps a text.
func (p *printer) runs(f face, s string, w float64) []run {
	var rs []run
	for _, l := range p.wrap(f, s, w) {
		rs = append(rs, run{l, f})
	}
	return rs
}
