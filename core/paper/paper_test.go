package paper

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// -update rewrites testdata/scope.txt and testdata/work-order.txt from what is made now: look at the difference
// before it is committed. -out DIR keeps the printed papers there, to be looked at.
var (
	update = flag.Bool("update", false, "rewrite the golden texts in testdata")
	outDir = flag.String("out", "", "folder to keep the printed papers in")
)

// papers of the fixture.
func papers() map[string]Document {
	return map[string]Document{"scope": Scope(input()), "work-order": WorkOrder(input())}
}

// everyKind is a document with each kind of block.
func everyKind() Document {
	b := budget(order(lines()))
	return Document{Title: "Every kind", Number: "T-1", Author: "Ashdyke Vehicle Works", Date: time.Date(2026, 3, 17, 9, 0, 0, 0, time.UTC), Blocks: []Block{
		Letterhead{Shop: Shop{Name: "sample-letterhead"}, Title: "Every kind", Facts: []Fact{{"Number", "T-1"}}},
		Heading{1, "sample-heading"}, Paragraph{Text: "sample-paragraph"}, Facts{[]Fact{{"name", "sample-facts"}}}, List{[]string{"sample-list"}},
		Notice{"sample-notice", []string{"line"}}, Cautions{[]string{"sample-cautions"}},
		Table{Columns: []Column{{Head: "Part", Share: 1}, {Head: "Sum", Right: true}}, Rows: []Row{{Group: true, Cells: []Cell{{Text: "group"}}}, {Cells: []Cell{{Text: "sample-table"}, {Text: "1.00"}}, Notes: []string{"note"}}, {Sum: true, Cells: []Cell{{Text: "total"}, {Text: "1.00"}}}}},
		Gauges{[]GaugeRow{{Part: "sample-gauges", Gauge: inch("d", "diameter", 2, 1.9, 1.95, practice), Grade: "worn"}, {Part: "unseen", Unseen: true}, {Part: "group", Group: true}}},
		Curve{Points: b.Curve, Marks: []CurveMark{{"P50", b.P50, .5}}, Label: "sample-curve"}, Initials{Items: []string{"sample-initials"}, Leads: []string{"lead"}},
		Boxes{"sample-boxes", []string{"yes", "no"}}, Break{}, Pictures{[]Picture{{Title: "sample-pictures", Fault: "damaged"}, {Title: "whole", JPEG: testJPEG(8, 6), Width: 8, Height: 6}}}, Signature{"sample-signature", []Signer{{"owner", []string{"Name"}}}},
	}}
}

func TestEveryBlockKindIsPrintedByBoth(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "document.go", nil, 0)
	require.NoError(t, err)
	d := everyKind()
	sampled := map[string]bool{}
	for _, b := range d.Blocks {
		if _, blank := b.(Break); blank {
			continue
		}
		sampled[strings.TrimPrefix(typeName(b), "paper.")] = true
	}
	for _, decl := range f.Decls {
		if fn, ok := decl.(*ast.FuncDecl); ok && fn.Name.Name == "block" {
			kind := fn.Recv.List[0].Type.(*ast.Ident).Name
			if kind == "Break" { // nothing of it is text: see TestBreakBeginsAPage
				continue
			}
			require.True(t, sampled[kind], "%s is a block kind that this test does not print", kind)
		}
	}
	pdf, err := PDF(d)
	require.NoError(t, err)
	html, err := HTML(d)
	require.NoError(t, err)
	for kind := range sampled {
		require.Contains(t, string(html), "sample-"+strings.ToLower(kind), "HTML leaves out %s", kind)
	}
	text := pdfText(t, pdf)
	for kind := range sampled {
		require.Contains(t, text, "sample-"+strings.ToLower(kind), "PDF leaves out %s", kind)
	}
}

func typeName(b Block) string {
	switch b.(type) {
	case Letterhead:
		return "Letterhead"
	case Heading:
		return "Heading"
	case Paragraph:
		return "Paragraph"
	case Facts:
		return "Facts"
	case List:
		return "List"
	case Notice:
		return "Notice"
	case Cautions:
		return "Cautions"
	case Table:
		return "Table"
	case Gauges:
		return "Gauges"
	case Curve:
		return "Curve"
	case Initials:
		return "Initials"
	case Boxes:
		return "Boxes"
	case Signature:
		return "Signature"
	case Pictures:
		return "Pictures"
	}
	return ""
}

// strange is a block that no printer knows.
type strange struct{}

func (strange) block() {}

func TestUnknownBlockKindFails(t *testing.T) {
	d := Document{Number: "T-2", Blocks: []Block{strange{}}}
	_, err := PDF(d)
	require.Equal(t, core.Internal, core.ErrorCode(err))
	_, err = HTML(d)
	require.Equal(t, core.Internal, core.ErrorCode(err))
}

func TestSameBytesTwice(t *testing.T) {
	a, b := papers(), papers()
	for name := range a {
		require.Equal(t, a[name], b[name], "%s: the documents differ", name)
		p1, err := PDF(a[name])
		require.NoError(t, err)
		p2, err := PDF(b[name])
		require.NoError(t, err)
		require.True(t, string(p1) == string(p2), "%s: the PDF differs", name)
		h1, err := HTML(a[name])
		require.NoError(t, err)
		h2, err := HTML(b[name])
		require.NoError(t, err)
		require.True(t, string(h1) == string(h2), "%s: the HTML differs", name)
		keep(t, name+".pdf", p1)
		keep(t, name+".html", h1)
	}
}

func keep(t *testing.T, name string, b []byte) {
	t.Helper()
	if *outDir == "" {
		return
	}
	require.NoError(t, os.MkdirAll(*outDir, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(*outDir, name), b, 0o600))
}

func TestGoldenTexts(t *testing.T) {
	for name, d := range papers() {
		golden(t, name, plainText(d))
	}
}

// golden compares words with those kept in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got, "%s has changed: see the -update flag at the head of paper_test.go", path)
}

// plainText writes a document's words, a line a statement, for comparison and for searching.
func plainText(d Document) string {
	var b strings.Builder
	w := func(ss ...string) {
		for i, s := range ss {
			if i > 0 {
				b.WriteString(" | ")
			}
			b.WriteString(strings.ReplaceAll(s, "\u00a0", " "))
		}
		b.WriteString("\n")
	}
	w(d.Title, d.Reference(), d.Mark)
	for _, x := range d.Blocks {
		switch x := x.(type) {
		case Letterhead:
			w(append(append([]string{x.Shop.Name}, x.Shop.Address...), x.Shop.Contact...)...)
			for _, f := range x.Facts {
				w(f.Name, f.Text)
			}
		case Heading:
			w("\n" + strings.Repeat("#", x.Level) + " " + x.Text)
		case Paragraph:
			w(x.Text)
		case Facts:
			for _, f := range x.Items {
				w(f.Name, f.Text)
			}
		case List:
			w(strings.Join(x.Items, "\n"))
		case Notice:
			w("! " + x.Title)
			w(strings.Join(x.Lines, "\n"))
		case Cautions:
			w("caution: " + strings.Join(x.Items, "\ncaution: "))
		case Table:
			plainTable(w, x)
		case Gauges:
			for _, r := range x.Rows {
				g := ""
				if r.Gauge != nil {
					g = reading(*r.Gauge) + ", " + limit(*r.Gauge)
				}
				w(r.Part, r.Check, g, r.Grade, r.Note)
			}
		case Curve:
			for _, m := range x.Marks {
				w("curve", m.Name, toFive(m.Amount))
			}
		case Initials:
			for i, item := range x.Items {
				w(unique([]string{x.Lead(i), item + " ____"})...)
			}
		case Boxes:
			w(x.Question, strings.Join(x.Answers, " | "))
		case Break:
			w("----")
		case Pictures:
			for _, it := range x.Items {
				w("picture", it.Title, it.Text, it.Fault)
			}
		case Signature:
			w(x.Statement)
			for _, s := range x.Signers {
				w(append([]string{s.Role}, s.Fields...)...)
			}
		}
	}
	return b.String()
}

func plainTable(w func(...string), t Table) {
	var heads []string
	for _, c := range t.Columns {
		heads = append(heads, c.Head)
	}
	w(heads...)
	for _, r := range t.Rows {
		var cells []string
		for _, c := range r.Cells {
			cells = append(cells, strings.TrimSpace(strings.Join(unique([]string{c.Lead, c.Text, c.Note}), " / ")))
		}
		w(cells...)
		for _, n := range r.Notes {
			w("  " + n)
		}
	}
}
