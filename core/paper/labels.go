package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/boombuler/barcode/qr"

	"github.com/fettle-tools/fettle/core"
)

// Label is one to be cut out and wired on, or put into a bag.
type Label struct {
	Number string   // read by the square code beside it
	Kind   string   // tag, bag
	Name   string   // what it hangs on
	Lines  []string // position, way round, what is in the bag
	Code   [][]bool // modules of the square code, row by row, its quiet zone included; nil: it has none
}

// LabelSheet is labels, two abreast.
type LabelSheet struct{ Items []Label }

func (LabelSheet) block() {}

// quietZone is how many modules stay blank round a code (ISO/IEC 18004, 4 modules).
const quietZone = 4

// Labels are those of the tags and the bags of a job, or of one tag. Nothing is printed for what is no longer in the shop's keeping. It fails
// if the job has no such tag.
func Labels(in StoryInput, number string) (Document, error) {
	d := in.sheet().document("Labels")
	tags := slices.Clone(in.Story.Tags)
	if number != "" {
		t := in.Story.Tag(number)
		if t == nil {
			return d, core.Errorf(core.NotFound, "see: fettle tag "+in.Story.Job.Number, "%s has no tag %s", in.Story.Job.Number, number)
		}
		tags = []core.Tag{*t}
	}
	slices.SortStableFunc(tags, func(a, b core.Tag) int { return compareTags(a.ID, b.ID) })
	var sheet LabelSheet
	for _, t := range tags {
		if t.Gone() && number == "" {
			continue
		}
		ls, err := in.labels(t)
		if err != nil {
			return d, err
		}
		sheet.Items = append(sheet.Items, ls...)
	}
	if len(sheet.Items) == 0 {
		return d, core.Errorf(core.NotFound, "tag something first: fettle tag "+in.Story.Job.Number+" PART --lies WHERE", "%s has no tag to print a label for", in.Story.Job.Number)
	}
	d.Blocks = []Block{sheet}
	return d, nil
}

// labels are that of a tag and one for each of its bags.
func (in StoryInput) labels(t core.Tag) ([]Label, error) {
	code, err := squareCode(t.ID)
	if err != nil {
		return nil, err
	}
	tag := Label{Number: t.ID, Kind: "tag", Name: core.Capital(tagName(t)), Code: code}
	for _, s := range []string{joined(", ", t.Unit, t.Position), prefixed("Way round: ", t.WayRound), prefixed("With ", strings.Join(t.Mates, ", ")), prefixed("Shims: ", shimsOr(t.Shims)), t.ShimSign} {
		if s != "" && !strings.EqualFold(s, tag.Name) {
			tag.Lines = append(tag.Lines, core.Capital(s))
		}
	}
	tag.Lines = append(tag.Lines, in.Story.Job.Number+", "+in.Story.Job.Owner.Name)
	ls := []Label{tag}
	for i, f := range t.Fasteners {
		bag := "bag " + f.Bag
		if f.Bag == "" {
			bag = fmt.Sprintf("bag %d of %d", i+1, len(t.Fasteners))
		}
		b := Label{Number: t.ID, Kind: bag, Name: strings.TrimSpace(fmt.Sprintf("%d × %s", f.In, joined(" ", f.Thread, f.Length))), Code: code}
		for _, s := range []string{prefixed("Heads: ", f.Head), core.Capital(f.Note), "Of: " + lower(tagName(t))} {
			if s != "" {
				b.Lines = append(b.Lines, s)
			}
		}
		b.Lines = append(b.Lines, "Counted in "+fmt.Sprint(f.In)+", counted out ____")
		ls = append(ls, b)
	}
	return ls, nil
}

func shimsOr(ss []core.Shim) string {
	if len(ss) == 0 {
		return ""
	}
	return shimWords(ss)
}

// squareCode gives the modules of a QR code (ISO/IEC 18004, level M), its quiet zone round it.
func squareCode(text string) ([][]bool, error) {
	code, err := qr.Encode(text, qr.M, qr.Auto)
	if err != nil {
		return nil, fmt.Errorf("code of %q: %w", text, err)
	}
	n := code.Bounds().Dx()
	out := make([][]bool, n+2*quietZone)
	for y := range out {
		out[y] = make([]bool, n+2*quietZone)
	}
	for y := range n {
		for x := range n {
			r, _, _, _ := code.At(x, y).RGBA()
			out[y+quietZone][x+quietZone] = r == 0
		}
	}
	return out, nil
}

// compareTags orders tags by their numbers, children after their parent: T-2, T-2-01, T-10.
func compareTags(a, b string) int {
	as, bs := strings.Split(a, "-"), strings.Split(b, "-")
	for i := range min(len(as), len(bs)) {
		if c := cmp.Or(cmp.Compare(len(as[i]), len(bs[i])), cmp.Compare(as[i], bs[i])); c != 0 {
			return c
		}
	}
	return cmp.Compare(len(as), len(bs))
}

// codeRun is a stretch of dark modules in one row of a code.
type codeRun struct{ X, Y, Width int }

// runsOf joins dark modules that lie side by side, so that no hairline is left between them.
func runsOf(code [][]bool) []codeRun {
	var out []codeRun
	for y, row := range code {
		for x := 0; x < len(row); x++ {
			if !row[x] {
				continue
			}
			r := codeRun{x, y, 1}
			for ; x+1 < len(row) && row[x+1]; x++ {
				r.Width++
			}
			out = append(out, r)
		}
	}
	return out
}
