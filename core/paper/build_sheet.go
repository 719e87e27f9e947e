package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// BuildSheet keeps what was put together: sizes as fitted against the limits of new, torques, shims, one-use items, by whom and who checked it.
func BuildSheet(in StoryInput) Document {
	d := in.open("Build sheet")
	if open := in.Story.Unchecked(); len(open) > 0 {
		for i := range open {
			open[i] = core.Capital(in.spoken(open[i]))
		}
		d.Blocks = append(d.Blocks, Notice{"Not checked by a second person", open})
	}
	d.Blocks = append(d.Blocks, in.fitted(1)...)
	d.Blocks = append(d.Blocks, in.runs()...)
	d.Blocks = append(d.Blocks, Paragraph{Small: true, Text: competent})
	return d
}

// fitted lists every fit, by subsystem and unit in the order first built.
func (in StoryInput) fitted(level int) []Block {
	bs := []Block{Heading{level, "Sizes as fitted"}}
	if len(in.Story.Fits) == 0 {
		return append(bs, Paragraph{Text: "Nothing is written down as built yet."})
	}
	var keys []string
	by := map[string][]core.Fit{}
	for _, f := range in.Story.Fits {
		k := lineOf(core.Line{Subsystem: f.Subsystem, Unit: f.Unit})
		if k == "" {
			k = "Other"
		}
		if by[k] == nil {
			keys = append(keys, k)
		}
		by[k] = append(by[k], f)
	}
	for _, k := range keys {
		t := Table{Columns: []Column{{Head: "Part", Share: 4}, {Head: "As fitted", Share: 5}, {Head: "Limits of new", Share: 4}, {Head: "Done by", Share: 3.2}, {Head: "Checked by", Share: 3.2}}}
		for _, f := range by[k] {
			t.Rows = append(t.Rows, in.fitRows(f)...)
		}
		bs = append(bs, Heading{level + 1, k}, t)
	}
	return bs
}

// fitRows is one fit: a row for each reading and torque, with what else went in under the last.
func (in StoryInput) fitRows(f core.Fit) []Row {
	who := Cell{Text: f.By, Note: in.day(f.At)}
	second := Cell{Text: f.Second}
	if f.Safety && (f.Second == "" || strings.EqualFold(f.Second, f.By)) {
		second = Cell{Lead: "nobody yet"}
	}
	name := Cell{Text: fitName(f), Note: f.Tag}
	var rows []Row
	row := func(got, limits Cell) {
		r := Row{Cells: []Cell{{}, got, limits}}
		if len(rows) == 0 {
			r.Cells = []Cell{name, got, limits, who, second}
		}
		rows = append(rows, r)
	}
	for _, r := range f.Readings {
		row(Cell{Lead: r.As, Text: lower(joined(" ", readingName(r), r.Station))}, newLimits(r))
	}
	for _, q := range f.Torques {
		note := prefixed("by ", q.By)
		if q.Again {
			note = joined(", ", "second torque, after running", note)
		}
		row(Cell{Lead: q.Value.String(), Text: q.Fastener, Note: note}, Cell{})
	}
	if len(rows) == 0 {
		row(Cell{Text: "no size or torque is written down"}, Cell{})
	}
	last := &rows[len(rows)-1]
	if len(f.Shims) > 0 {
		last.Notes = append(last.Notes, "Shims, from the outside: "+shimWords(f.Shims))
	}
	if len(f.OneUse) > 0 {
		last.Notes = append(last.Notes, "New, used once: "+strings.Join(f.OneUse, ", "))
	}
	if f.Why != "" {
		last.Notes = append(last.Notes, "Why it will do: "+f.Why)
	}
	return rows
}

// spoken names in words what was fitted, where a text names it by its place.
func (in StoryInput) spoken(text string) string {
	for _, f := range in.Story.Fits {
		if f.Target.Part != "" {
			at := core.Place{Subsystem: f.Subsystem, Unit: f.Unit, Target: f.Target}.String()
			text = strings.ReplaceAll(text, at, lower(targetWords(f.Subsystem, f.Target))+prefixed(" of the ", f.Unit))
		}
	}
	return text
}

func fitName(f core.Fit) string {
	if f.Target.Part != "" {
		return joined(": ", targetWords(f.Subsystem, f.Target), f.What)
	}
	return core.Capital(f.What)
}

func readingName(r core.Fitted) string {
	if r.Name != "" {
		return r.Name
	}
	return strings.ReplaceAll(r.Check, "-", " ")
}

// newLimits says what a reading is held against; a reading outside them is called so.
func newLimits(r core.Fitted) Cell {
	c := Cell{Text: askedRange(core.Asked{Low: r.Low, High: r.High, Unit: r.Unit}), Note: r.Source}
	if r.Low == nil && r.High == nil {
		c.Text = "none known"
	}
	if !r.New {
		c.Lead = "outside new"
	}
	return c
}

// shimWords lists a pack in its order.
func shimWords(ss []core.Shim) string {
	var out []string
	side := ""
	for _, s := range ss {
		if s.Side == side {
			out = append(out, s.Thickness.String())
			continue
		}
		side = s.Side
		out = append(out, joined(" ", side, s.Thickness.String()))
	}
	return fmt.Sprintf("%s (%s)", strings.Join(out, ", "), count(len(ss), "shim"))
}

// runs is the first start, the road test and the snags.
func (in StoryInput) runs() []Block {
	bs := []Block{Heading{1, "Run and road test"}}
	if len(in.Story.Tests) == 0 {
		bs = append(bs, Paragraph{Text: "No run is written down."})
	}
	again := false
	for _, r := range in.Story.Tests {
		facts := []Fact{{"On", joined(", ", in.day(r.At), prefixed("by ", r.By))}}
		if r.Distance != "" {
			facts = append(facts, Fact{"How far", r.Distance})
		}
		for _, x := range r.Readings {
			facts = append(facts, Fact{core.Capital(x.What), x.As})
		}
		if len(r.SecondTorque) > 0 {
			again = true
			facts = append(facts, Fact{"Tightened again", strings.Join(r.SecondTorque, ", ")})
		}
		bs = append(bs, Heading{2, core.Capital(r.What)}, Facts{facts})
	}
	if !again && in.Story.Job.Vehicle != nil && len(in.Story.Fits) > 0 {
		bs = append(bs, Notice{"No second torque is written down", []string{"What was tightened is tightened again after running."}})
	}
	return append(bs, in.snags()...)
}

func (in StoryInput) snags() []Block {
	if len(in.Story.Snags) == 0 {
		return nil
	}
	t := Table{Columns: []Column{{Head: "Snag", Share: 1.6}, {Head: "What", Share: 6}, {Head: "Is", Share: 5}}}
	for _, g := range in.Story.Snags {
		is := Cell{Lead: "open"}
		switch {
		case g.Cleared != "":
			is = Cell{Text: "put right: " + g.Cleared}
		case g.Owner != "":
			is = Cell{Text: "left, on the word of " + g.Owner}
		}
		what := Cell{Text: g.What}
		if g.Safety {
			what.Note = "lives hang on it"
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Lead: g.ID}, what, is}})
	}
	return []Block{Heading{2, "Snags"}, t}
}
