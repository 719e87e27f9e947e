package paper

import (
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// tool finds a program of poppler-utils. Without it the test is skipped in plain words, or fails where everything is
// mandatory.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("FETTLE_MANDATORY") == "1" {
		t.Fatalf("%s is not installed: apt-get install poppler-utils", name)
	}
	t.Skipf("%s is not installed, so what is printed was not read back: apt-get install poppler-utils", name)
	return ""
}

func poppler(t *testing.T, name string, pdf []byte, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "paper.pdf")
	require.NoError(t, os.WriteFile(path, pdf, 0o600))
	cmd := exec.Command(tool(t, name), append(args, path)...) //nolint:gosec // a fixed program and a file of our own
	if name == "pdftotext" {
		cmd.Args = append(cmd.Args, "-")
	}
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return string(out)
}

// pdfText reads a PDF back as text.
func pdfText(t *testing.T, pdf []byte) string {
	t.Helper()
	return strings.ReplaceAll(poppler(t, "pdftotext", pdf, "-layout"), "\u00a0", " ")
}

// word is a printed word with its box in points.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

type printedPage struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"word"`
}

// boxes reads every printed word's place.
func boxesOf(t *testing.T, pdf []byte) []printedPage {
	t.Helper()
	var doc struct {
		Pages []printedPage `xml:"body>doc>page"`
	}
	out := poppler(t, "pdftotext", pdf, "-bbox")
	d := xml.NewDecoder(strings.NewReader(out))
	d.Strict = false
	d.Entity = xml.HTMLEntity
	require.NoError(t, d.Decode(&doc))
	require.NotEmpty(t, doc.Pages)
	return doc.Pages
}

// clean fails where a word leaves the margins, or two words lie on one another.
func clean(t *testing.T, pages []printedPage) {
	t.Helper()
	const side = marginSide/mmPerPoint - 1
	for n, p := range pages {
		for i, a := range p.Words {
			require.True(t, a.XMin >= side && a.XMax <= p.Width-side, "page %d: %q leaves the margin (%.0f to %.0f)", n+1, a.Text, a.XMin, a.XMax)
			require.True(t, a.YMin >= 15 && a.YMax <= p.Height-15, "page %d: %q leaves the page", n+1, a.Text)
			for _, b := range p.Words[i+1:] {
				across := min(a.XMax, b.XMax) - max(a.XMin, b.XMin)
				down := min(a.YMax, b.YMax) - max(a.YMin, b.YMin)
				require.False(t, across > .8 && down > 3, "page %d: %q and %q lie on one another", n+1, a.Text, b.Text)
			}
		}
	}
}

func TestPapersLieCleanOnBothSizes(t *testing.T) {
	for _, letter := range []bool{false, true} {
		in := input()
		in.Letter = letter
		for _, d := range []Document{Scope(in), WorkOrder(in)} {
			pdf, err := PDF(d)
			require.NoError(t, err)
			pages := boxesOf(t, pdf)
			clean(t, pages)
			width := 595.28 // ISO 216 A4, 210 mm
			if letter {
				width = 612 // 8.5 in
			}
			require.InDelta(t, width, pages[0].Width, .5)
		}
	}
}

// crowded is a plan with many lines, names longer than a page is wide, and words that cannot be broken.
func crowded() Input {
	in := input()
	long := "left-hand " + strings.Repeat("inner-", 40) + "bush of the " + strings.Repeat("swivel and its housing ", 12)
	for i := range 200 {
		l := lines()[i%len(lines())]
		l.ID = fmt.Sprintf("extra-%d", i)
		l.Name = fmt.Sprintf("%s (%d)", l.Name, i)
		if i%17 == 0 {
			l.Name = long
			l.Outwork = strings.Repeat("Oakshott", 30)
		}
		in.Plan.WorkOrder.Lines = append(in.Plan.WorkOrder.Lines, l)
	}
	for i := range 200 {
		c := conditions()[i%20]
		c.Place.Position = fmt.Sprintf("X%d", i*2)
		c.Condition.Target = c.Place.Target
		c.PartName = long[:60+i]
		in.Plan.Conditions = append(in.Plan.Conditions, c)
	}
	in.Plan.Job.Title, in.Number, in.Shop.Name = long, strings.Repeat("S-014/", 30), long
	in.Plan.WorkOrder.Total = usd("123456789012.34")
	in.Plan.Job.Brief.Use = strings.Repeat(long, 20)
	in.Terms = append(in.Terms, strings.Repeat(long, 40))
	return in
}

func TestLongNamesAndManyLinesDoNotOverflow(t *testing.T) {
	for _, d := range []Document{Scope(crowded()), WorkOrder(crowded())} {
		pdf, err := PDF(d)
		require.NoError(t, err)
		pages := boxesOf(t, pdf)
		require.Greater(t, len(pages), 15)
		clean(t, pages)
		text := pdfText(t, pdf)
		require.Contains(t, text, fmt.Sprintf("page %d of %d", len(pages), len(pages)))
		require.Contains(t, strings.Join(strings.Fields(text), ""), "(199)", "the last of the lines is lost")
	}
}

func TestTableHeadsAreRepeated(t *testing.T) {
	rows := make([]Row, 200)
	for i := range rows {
		rows[i] = Row{Cells: []Cell{{Text: fmt.Sprintf("row-%d", i)}, {Text: "1,234.50"}}}
	}
	pdf, err := PDF(Document{Title: "Long", Number: "T-3", Date: time.Date(2026, 3, 17, 0, 0, 0, 0, time.UTC), Blocks: []Block{Table{Columns: []Column{{Head: "HeadOfTable", Share: 1}, {Head: "Money", Right: true}}, Rows: rows}}})
	require.NoError(t, err)
	pages := boxesOf(t, pdf)
	require.Greater(t, len(pages), 3)
	for n, p := range pages {
		heads, right := 0, map[int]bool{}
		for _, w := range p.Words {
			if w.Text == "HeadOfTable" {
				heads++
			}
			if w.Text == "1,234.50" {
				right[int(w.XMax+.5)] = true
			}
		}
		require.Equal(t, 1, heads, "page %d", n+1)
		require.Len(t, right, 1, "page %d: numbers do not end in one line", n+1)
	}
}

func TestNoHeadingIsLeftAtTheFoot(t *testing.T) {
	for filler := 28; filler < 46; filler++ { // a page holds 41 such lines
		d := Document{Title: "Foot", Number: "T-4", Date: time.Date(2026, 3, 17, 0, 0, 0, 0, time.UTC)}
		for range filler {
			d.Blocks = append(d.Blocks, Paragraph{Text: "filler"})
		}
		d.Blocks = append(d.Blocks, Heading{1, "Section"}, Heading{2, "Partname"}, Paragraph{Text: "introduction"}, Paragraph{Text: "second"},
			Table{Columns: []Column{{Head: "HeadOfTable", Share: 1}}, Rows: []Row{{Cells: []Cell{{Text: "first-row"}}}}})
		pdf, err := PDF(d)
		require.NoError(t, err)
		for _, page := range strings.Split(poppler(t, "pdftotext", pdf), "\f") {
			for _, h := range []string{"Section", "Partname", "introduction", "HeadOfTable"} {
				require.Equal(t, strings.Contains(page, h), strings.Contains(page, "first-row"), "%q is left alone after %d lines", h, filler)
			}
		}
	}
}

// TestFontsHoldTheTradesSigns reads back what a paper may need: units, fractions, the arrows and dashes of the papers
// themselves, and names in the scripts of Europe.
func TestFontsHoldTheTradesSigns(t *testing.T) {
	const signs = "± ° µ Ω ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ × → – “ ” … é ß ø Ł ğ Ж Δ £ €"
	pdf, err := PDF(Document{Title: "Signs", Number: "T-5", Date: time.Date(2026, 3, 17, 0, 0, 0, 0, time.UTC), Blocks: []Block{Paragraph{Text: signs}, Notice{Title: signs}}})
	require.NoError(t, err)
	together := strings.ReplaceAll(signs, " ", "")
	require.Equal(t, 2, strings.Count(strings.Join(strings.Fields(pdfText(t, pdf)), ""), together))
	p := newPrinter(Document{})
	for _, f := range []face{plain, strong} {
		missing := p.measure(f, "￾")
		for _, r := range together {
			require.NotEqual(t, missing, p.measure(f, string(r)), "%q is as wide as a glyph that is missing", r)
		}
	}
}

func TestPDFSaysWhatItIs(t *testing.T) {
	pdf, err := PDF(Scope(input()))
	require.NoError(t, err)
	info := poppler(t, "pdfinfo", pdf, "-isodates")
	require.Contains(t, info, "Scope of work S-014 revision 2")
	require.Regexp(t, `Author:\s+Ashdyke Vehicle Works`, info)
	require.Regexp(t, `Subject:\s+Job J-001`, info)
	require.Regexp(t, `CreationDate:\s+2026-03-17T1`, info)
	require.NotRegexp(t, `emb\s+no`, poppler(t, "pdffonts", pdf))
	for _, l := range strings.Split(strings.TrimSpace(poppler(t, "pdffonts", pdf)), "\n")[2:] {
		require.Contains(t, l, "yes", "a font is not embedded: %s", l)
	}
}
