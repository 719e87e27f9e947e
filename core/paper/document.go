package paper

import (
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Document is a paper before it is printed: who issues it, what it is, and its blocks in order.
type Document struct {
	Title    string // "Scope of work"
	Subject  string // the job in one line
	Author   string // the shop's name
	Number   string
	Revision string
	Date     time.Time // in the shop's zone; the only time on the paper
	Letter   bool      // US letter instead of A4
	Mark     string    // printed large at the top of every page, e.g. NOT AUTHORISED; "" for none
	Ways     []Fact    // what a reader of a long paper goes to first, with the heading that it stands under; on a screen alone
	Blocks   []Block
}

// Reference is the number and the revision as spoken, e.g. "S-014 revision 2".
func (d Document) Reference() string {
	if d.Revision == "" {
		return d.Number
	}
	return d.Number + " revision " + d.Revision
}

// Block is one of the kinds below. A printer that does not know a kind fails; it never leaves one out.
type Block interface{ block() }

// Letterhead opens the paper: the shop on one side, the paper's own facts on the other.
type Letterhead struct {
	Shop  Shop
	Title string
	Facts []Fact
}

// Fact is a name and what it is.
type Fact struct{ Name, Text string }

// Heading opens a section (level 1) or a part of one (level 2). It is never the last thing on a page.
type Heading struct {
	Level int
	Text  string
}

// Paragraph is running text. Small is for what supports it: sources, conditions.
type Paragraph struct {
	Text  string
	Small bool
}

// Facts are names with their texts, in two columns.
type Facts struct{ Items []Fact }

// List is short statements, one a line.
type List struct{ Items []string }

// Notice is what must not be overlooked, in a ruled box.
type Notice struct {
	Title string
	Lines []string
}

// Cautions are the usual warnings, marked as such.
type Cautions struct{ Items []string }

// Column of a table. Share is its part of the width that is left when the number columns have taken theirs.
type Column struct {
	Head  string
	Right bool // numbers: to the right, never broken
	Share float64
}

// Cell is what stands in one field: a lead in bold, text, and a smaller note, each on its own lines. Box is a square to
// tick in place of them.
type Cell struct {
	Lead, Text, Note string
	Box              bool
}

// Row of a table. Cells may be fewer than the columns. Notes run under the row over its whole width.
type Row struct {
	Cells []Cell
	Notes []string
	Group bool // a heading within the table: its first cell runs over the empty ones beside it
	Sum   bool // a total: ruled above, in bold
}

// Table has a head that is repeated on every page it runs over. A compact one is set smaller and closer.
type Table struct {
	Columns []Column
	Rows    []Row
	Compact bool
}

// Break begins a new page.
type Break struct{}

// Picture is a photograph as printed: JPEG, no larger than it is shown, nothing of the camera's own notes in it. Fault,
// if it is not "", stands in its place. No two of a document are as wide as one another: see shrink.
type Picture struct {
	JPEG          []byte
	Width, Height int
	Title, Text   string
	Fault         string
}

// Pictures are photographs with what they show, a few abreast.
type Pictures struct{ Items []Picture }

// GaugeRow is a part's condition with its wear gauge.
type GaugeRow struct {
	Part   string
	Check  string
	Gauge  *core.Gauge // nil: nothing that a bar could show
	Unseen bool        // not seen: an empty outline
	Grade  string
	Note   string // the limit's source, or why there is no bar
	Group  bool   // a heading: Part over the whole width
}

// Gauges are wear gauges under one head.
type Gauges struct{ Rows []GaugeRow }

// Curve is something against money: the chance that the cost stays within a sum, or else what Heights say.
type Curve struct {
	Points []core.Money // rising: the quantiles 0, 1 .. 100 %, or the sums that Heights stand over
	Marks  []CurveMark
	Label  string // along the money axis
	// Heights are shares of the frame, 0 to 1, one a point; none: chances, even from the first point to the last.
	Heights []float64
	Levels  []CurveLevel // along the other axis; none: chances in per cent
	Side    string       // what the other axis shows; "": the chance of costing no more
}

// CurveMark is a line drawn up to the curve. Height is a share of the frame, 0 to 1: of a chance, the chance.
type CurveMark struct {
	Name   string
	Amount core.Money
	Height float64
}

// CurveLevel is a tick of the axis beside the frame.
type CurveLevel struct {
	Height float64
	Text   string
}

// Initials are statements, each with a short line for the signer's initials. Leads, if there are any, stand in bold above
// the statement of the same place.
type Initials struct {
	Items []string
	Leads []string
}

// Lead is what stands above a statement; "" for nothing.
func (b Initials) Lead(i int) string {
	if i < len(b.Leads) {
		return b.Leads[i]
	}
	return ""
}

// Boxes is a question with answers to tick.
type Boxes struct {
	Question string
	Answers  []string
}

// Signature is a statement with lines to fill in, one set a signer.
type Signature struct {
	Statement string
	Signers   []Signer
}

// Signer is one who signs, and the fields beside the name.
type Signer struct {
	Role   string
	Fields []string
}

func (Letterhead) block() {}
func (Heading) block()    {}
func (Paragraph) block()  {}
func (Facts) block()      {}
func (List) block()       {}
func (Notice) block()     {}
func (Cautions) block()   {}
func (Table) block()      {}
func (Gauges) block()     {}
func (Curve) block()      {}
func (Initials) block()   {}
func (Boxes) block()      {}
func (Signature) block()  {}
func (Break) block()      {}
func (Pictures) block()   {}
