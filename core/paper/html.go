package paper

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

//go:embed html.tmpl
var htmlText string

//go:embed html.css
var styleText string

// pageTemplate holds one named template a block kind, and the page.
var pageTemplate = template.Must(template.New("paper").Parse(htmlText))

// htmlPage is what the page's template is given.
type htmlPage struct {
	Document
	Style template.CSS
	Sand  template.CSS
	Rust  template.CSS
	Body  []template.HTML
	Ways  []htmlPlace
	Parts []htmlPlace
	Day   string // for machines
}

// htmlPlace is a part of the page that can be gone to.
type htmlPlace struct{ ID, Name string }

// htmlHeading is a heading with what it is gone to by; "" if nothing leads there.
type htmlHeading struct {
	Heading
	ID string
}

// longPaper is how many sections are too many to find one by scrolling on a phone.
const longPaper = 6

// HTML prints a document as one page with nothing outside it: style and drawings inline, all text from data escaped.
// It reads on a phone and prints. A block kind it does not know is an *core.Error of code Internal.
func HTML(d Document) ([]byte, error) {
	page := htmlPage{Document: d, Style: template.CSS(styleText), Sand: template.CSS(sand.CSS()), Rust: template.CSS(rust.CSS()), Day: d.Date.Format("2006-01-02")}
	page.place(d)
	for i, b := range d.Blocks {
		if h, ok := b.(Heading); ok {
			b = htmlHeading{h, headingID(i)}
		}
		h, err := htmlBlock(b)
		if err != nil {
			return nil, err
		}
		page.Body = append(page.Body, h)
	}
	var out bytes.Buffer
	if err := pageTemplate.ExecuteTemplate(&out, "page", page); err != nil {
		return nil, fmt.Errorf("print %s: %w", d.Reference(), err)
	}
	return out.Bytes(), nil
}

func headingID(block int) string { return fmt.Sprintf("part-%d", block) }

func (htmlHeading) block() {}

// place notes where the sections and the ways of a long document are.
func (p *htmlPage) place(d Document) {
	var ways []htmlPlace
	for i, b := range d.Blocks {
		h, ok := b.(Heading)
		if !ok {
			continue
		}
		if h.Level <= 1 {
			p.Parts = append(p.Parts, htmlPlace{headingID(i), h.Text})
		}
		for _, w := range d.Ways {
			if w.Text == h.Text {
				ways = append(ways, htmlPlace{headingID(i), w.Name})
			}
		}
	}
	if len(p.Parts) < longPaper {
		p.Parts = nil
		return
	}
	p.Ways = append(ways, htmlPlace{"contents", "Contents"})
}

// htmlBlock fills the template of a block's kind.
func htmlBlock(b Block) (template.HTML, error) {
	name, data := "", any(b)
	switch b := b.(type) {
	case Letterhead:
		name = "letterhead"
	case htmlHeading:
		name = "heading"
	case Paragraph:
		name = "paragraph"
	case Facts:
		name = "facts"
	case List:
		name = "list"
	case Notice:
		name = "notice"
	case Cautions:
		name = "cautions"
	case Table:
		name, data = "table", htmlTableOf(b)
	case Gauges:
		name, data = "gauges", htmlGauges(b)
	case Curve:
		name, data = "curve", htmlCurveOf(b, paperFrame)
	case Initials:
		name = "initials"
	case Boxes:
		name = "boxes"
	case Signature:
		name = "signature"
	case Break:
		name = "break"
	case Pictures:
		name, data = "pictures", htmlPictures(b)
	case LabelSheet:
		name, data = "labels", htmlLabels(b)
	default:
		return "", core.Errorf(core.Internal, "this is a fault of the program: report it", "HTML does not know the block kind %T", b)
	}
	var out strings.Builder
	if err := pageTemplate.ExecuteTemplate(&out, name, data); err != nil {
		return "", fmt.Errorf("print a %s: %w", name, err)
	}
	return template.HTML(out.String()), nil
}

// htmlTable is a table with the head beside every field, for narrow screens.
type htmlTable struct {
	Columns []htmlColumn
	Rows    []htmlRow
	Span    int
	Compact bool
}

type htmlColumn struct {
	Column
	Width int // per cent; 0: as wide as its numbers
}

type htmlRow struct {
	Row
	Fields []htmlField
	Ends   string // what a heading within the table has in its last column
}

type htmlField struct {
	Cell
	Head  string
	Right bool
	Empty bool
	Title bool // the field that a narrow screen shows first and large
}

func htmlTableOf(t Table) htmlTable {
	h := htmlTable{Span: len(t.Columns), Compact: t.Compact}
	shares, room := 0.0, 100.0
	for _, c := range t.Columns {
		if c.Right {
			room -= 10
			continue
		}
		shares += c.Share
	}
	for _, c := range t.Columns {
		col := htmlColumn{Column: c}
		if !c.Right && shares > 0 {
			col.Width = int(max(room, 30) * c.Share / shares)
		}
		h.Columns = append(h.Columns, col)
	}
	first := slices.IndexFunc(t.Columns, func(c Column) bool { return c.Head != "" && !c.Right })
	for _, r := range t.Rows {
		row := htmlRow{Row: r}
		if n := len(t.Columns); r.Group && n > 1 && len(r.Cells) == n {
			row.Ends = r.Cells[n-1].Text
		}
		if !r.Group {
			for i, c := range t.Columns {
				f := htmlField{Head: c.Head, Right: c.Right, Title: i == first}
				if i < len(r.Cells) {
					f.Cell = r.Cells[i]
				}
				f.Empty = f.Cell == Cell{}
				row.Fields = append(row.Fields, f)
			}
		}
		h.Rows = append(h.Rows, row)
	}
	return h
}

// htmlPicture is a picture with its bytes in the page itself.
type htmlPicture struct {
	Picture
	Source template.URL
}

func htmlPictures(b Pictures) []htmlPicture {
	var out []htmlPicture
	for _, it := range b.Items {
		// The bytes are of our own encoder, whatever the camera's file was.
		out = append(out, htmlPicture{it, template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(it.JPEG))}) //nolint:gosec // see above
	}
	return out
}

// htmlGauge is a gauge row with its bar in units of the drawing, 200 wide.
type htmlGauge struct {
	GaugeRow
	Drawn                  bool
	Reading, Limit         string
	New, LimitEnd          string
	Edge, At, From, To     float64
	Past                   float64
	Over, Under, Whiskered bool
}

func htmlGauges(b Gauges) []htmlGauge {
	var out []htmlGauge
	for _, r := range b.Rows {
		out = append(out, htmlGaugeOf(r))
	}
	return out
}

func htmlGaugeOf(r GaugeRow) htmlGauge {
	g := htmlGauge{GaugeRow: r}
	if r.Gauge != nil {
		g.Limit = limit(*r.Gauge)
		if !r.Unseen {
			g.Reading = reading(*r.Gauge)
		}
	}
	if s, ok := shapeOf(r.Gauge); ok && !r.Unseen {
		const w = 200
		g.Drawn, g.Over, g.Under = true, s.Over, s.Under
		g.Edge, g.At, g.From, g.To, g.Past = s.Limit*w, s.Reading*w, s.From*w, s.To*w, (1-s.Limit)*w
		g.Whiskered = g.To-g.From > 1
		g.New, g.LimitEnd = core.FormatNumber(r.Gauge.New), core.FormatNumber(r.Gauge.Limit)
	}
	return g
}

// htmlCurve is the curve in units of its drawing: a frame of 560 by 200 at (60, 20).
type htmlCurve struct {
	Drawn bool
	frame
	Label  string
	Side   string
	Path   string
	Area   string
	Marks  []htmlMark
	Marked []htmlMark // ticks along the money
	Steps  []htmlMark
}

type htmlMark struct {
	X, Y       float64
	Name, Text string
	Left       bool // the label stands to the left of the point
}

// frame is where the axes of a curve stand in its picture.
type frame struct{ X, Y, W, H, Ticks int }

// paperFrame is as wide as a page; screenFrame is legible on a phone.
var paperFrame, screenFrame = frame{60, 20, 560, 200, 8}, frame{56, 20, 310, 190, 4}

// Wide and High are the size of the whole picture.
func (f frame) Wide() int { return f.X + f.W + 20 }
func (f frame) High() int { return f.Y + f.H + 42 }

// Right and Foot are the far ends of the axes.
func (f frame) Right() int { return f.X + f.W }
func (f frame) Foot() int  { return f.Y + f.H }

// TickText and LabelText are where the words under the money axis stand.
func (f frame) TickText() int  { return f.Foot() + 18 }
func (f frame) LabelText() int { return f.Foot() + 37 }

func htmlCurveOf(c Curve, f frame) htmlCurve {
	x, y, w, h := float64(f.X), float64(f.Y), float64(f.W), float64(f.H)
	pl, ok := c.plot(f.Ticks)
	out := htmlCurve{Drawn: ok, frame: f, Label: c.Label}
	if !ok {
		return out
	}
	var path strings.Builder
	for i, p := range pl.Points {
		op := "L"
		if i == 0 {
			op = "M"
		}
		fmt.Fprintf(&path, "%s%.1f %.1f", op, x+p.X*w, y+h-p.Y*h)
	}
	end := pl.Points[len(pl.Points)-1]
	if pl.RunsOn {
		end.X = 1
		fmt.Fprintf(&path, "L%d %.4g", f.Right(), y+h-end.Y*h)
	}
	out.Path, out.Side = path.String(), pl.Side
	out.Area = fmt.Sprintf("%sL%.4g %dL%.1f %dZ", out.Path, x+end.X*w, f.Foot(), x+pl.Points[0].X*w, f.Foot())
	for _, m := range pl.Marks {
		out.Marks = append(out.Marks, htmlMark{X: x + m.X*w, Y: y + h - m.Y*h, Name: m.Name, Text: m.Amount, Left: m.X > .8})
	}
	for _, t := range pl.Ticks {
		out.Marked = append(out.Marked, htmlMark{X: x + t.X*w, Y: y + h, Text: t.Text})
	}
	for _, v := range pl.Levels {
		out.Steps = append(out.Steps, htmlMark{X: x - 6, Y: y + h - v.Height*h, Text: v.Text})
	}
	return out
}
