package paper

import (
	"bytes"
	"fmt"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"

	"github.com/fettle-tools/fettle/core"
)

// PDF prints a document on A4 or letter with its fonts embedded: page x of y, table heads repeated on every page,
// no heading left alone at a foot. The same document gives the same bytes. A block kind it does not know is an
// *core.Error of code Internal.
func PDF(d Document) ([]byte, error) {
	p := newPrinter(d)
	p.page()
	for i, b := range d.Blocks {
		if err := p.print(b, d.Blocks[i+1:]); err != nil {
			return nil, err
		}
	}
	p.headsAndFeet()
	var out bytes.Buffer
	if err := p.f.Output(&out); err != nil {
		return nil, fmt.Errorf("print %s: %w", d.Reference(), err)
	}
	return out.Bytes(), nil
}

// Page measures in mm.
const (
	marginSide = 17
	marginHead = 20
	marginFoot = 19
	family     = "paper"
	mmPerPoint = 25.4 / 72
)

// printer lays blocks down the page. Lengths are mm.
type printer struct {
	f      *fpdf.Fpdf
	d      Document
	left   float64
	width  float64
	bottom float64 // lowest y that text may reach
	y      float64
	glyphs map[string]map[rune]float64 // by style: widths in thousandths of the size
}

func newPrinter(d Document) *printer {
	size := "A4"
	if d.Letter {
		size = "Letter"
	}
	f := fpdf.New("P", "mm", size, "")
	f.SetCatalogSort(true)
	f.SetCreationDate(d.Date)
	f.SetModificationDate(d.Date)
	f.SetTitle(d.Title+" "+d.Reference(), true)
	f.SetAuthor(d.Author, true)
	f.SetSubject(d.Subject, true)
	f.SetCreator("fettle", true)
	f.SetProducer("fettle", true)
	f.SetLang("en")
	f.AddUTF8FontFromBytes(family, "", liberationsansregular.TTF)
	f.AddUTF8FontFromBytes(family, "B", liberationsansbold.TTF)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(marginSide, marginHead, marginSide)
	w, h := f.GetPageSize()
	return &printer{f: f, d: d, left: marginSide, width: w - 2*marginSide, bottom: h - marginFoot, glyphs: map[string]map[rune]float64{}}
}

// page begins the next page.
func (p *printer) page() {
	p.f.AddPage()
	p.y = marginHead
}

// body is the height that a page has for blocks.
func (p *printer) body() float64 { return p.bottom - marginHead }

// fresh says that nothing stands on the page yet.
func (p *printer) fresh() bool { return p.y <= marginHead+1e-6 }

// need begins a new page unless h is left on this one. What is higher than a page begins where it is.
func (p *printer) need(h float64) bool {
	if p.y+h <= p.bottom+1e-6 || p.fresh() || h > p.body() {
		return false
	}
	p.page()
	return true
}

// gap leaves room above a block, but none at the head of a page.
func (p *printer) gap(h float64) {
	if !p.fresh() {
		p.y += h
	}
}

// print draws one block; rest are those after it, for a heading to stay with.
func (p *printer) print(b Block, rest []Block) error {
	switch b := b.(type) {
	case Letterhead:
		p.letterhead(b)
	case Heading:
		p.heading(b, rest)
	case Paragraph:
		p.paragraph(b)
	case Facts:
		p.facts(b)
	case List:
		p.list(b)
	case Notice:
		p.notice(b)
	case Cautions:
		p.cautions(b)
	case Table:
		p.table(b)
	case Gauges:
		p.gauges(b)
	case Curve:
		p.curve(b)
	case Initials:
		p.initials(b)
	case Boxes:
		p.boxes(b)
	case Signature:
		p.signature(b)
	case Break:
		if !p.fresh() {
			p.page()
		}
	case Pictures:
		p.pictures(b)
	case LabelSheet:
		p.labels(b)
	default:
		return core.Errorf(core.Internal, "this is a fault of the program: report it", "PDF does not know the block kind %T", b)
	}
	return nil
}

// lead is the least height of a block that a heading must have below it on its page.
func (p *printer) lead(bs []Block) float64 {
	if len(bs) == 0 {
		return 0
	}
	switch b := bs[0].(type) {
	case Heading:
		return p.headingHeight(b) + p.lead(bs[1:])
	case Paragraph:
		// A paragraph stays with the next, and with the first rows of the table or the signature that it introduces.
		h := min(p.height(p.paragraphBands(b)), 30)
		if len(bs) > 1 {
			switch bs[1].(type) {
			case Paragraph, Notice, Table, Gauges, Curve, Initials, Signature:
				h += p.lead(bs[1:])
			}
		}
		return min(h, p.body()*.6)
	case Table:
		l := p.layout(b)
		return p.tableLead(l) + 3
	case Gauges:
		return 28
	case Curve:
		return curveHeight + 6
	case Notice:
		h := min(p.height(p.noticeBands(b)), 30) + 4
		if len(bs) > 1 {
			h += p.lead(bs[1:])
		}
		return min(h, p.body()*.6)
	case Signature:
		return p.signatureHeight(b)
	case Cautions:
		return 30
	case Pictures:
		return p.pictureRow(b.Items[:min(len(b.Items), picturesAbreast)]).height()
	}
	return 16
}

// headsAndFeet writes the line at the head and at the foot of every page, when their number is known.
func (p *printer) headsAndFeet() {
	n := p.f.PageCount()
	_, h := p.f.GetPageSize()
	small := face{size: 8, colour: grey}
	for i := 1; i <= n; i++ {
		p.f.SetPage(i)
		p.f.SetFont(family, "", 1) // a page that is taken up again starts without a font
		half := p.width/2 - 3
		if p.d.Mark != "" {
			half = p.width/2 - 20
		}
		if i > 1 {
			p.fit(p.left, 9, half, p.d.Title+", "+p.d.Reference(), small, false)
			p.fit(p.left+p.width-half, 9, half, p.d.Author, small, true)
			p.line(p.left, 14.5, p.left+p.width, 14.5, rule, .2)
		}
		if p.d.Mark != "" {
			mark := face{style: "B", size: 9, colour: ink}
			w := p.measure(mark, p.d.Mark) + 6
			x := p.left + (p.width-w)/2
			p.f.SetLineWidth(.5)
			p.f.SetDrawColor(ink.R, ink.G, ink.B)
			p.f.SetFillColor(255, 255, 255)
			p.f.Rect(x, 8, w, 5.5, "FD")
			p.text(x+3, 8.6, p.d.Mark, mark)
		}
		p.line(p.left, h-14, p.left+p.width, h-14, rule, .2)
		foot := p.d.Reference()
		if i == 1 {
			foot = p.d.Title + ", " + foot
		}
		p.fit(p.left, h-12.5, half, foot, small, false)
		p.fit(p.left+p.width-half, h-12.5, half, fmt.Sprintf("page %d of %d", i, n), small, true)
	}
}
