package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Arrival is the receipt for what came: what was in it, in what state, with which marks. Both sides sign it.
func Arrival(in StoryInput) Document {
	a := in.Story.Arrival
	var own []Fact
	if a != nil {
		own = []Fact{{"Arrived", in.day(a.At)}, {"Taken in by", a.By}}
	}
	d := in.open("Arrival receipt", own...)
	if a == nil {
		d.Blocks = append(d.Blocks, Notice{"No arrival is recorded", []string{"What stands below was not counted or looked at on arrival. Fill it in by hand, or take it in first."}})
	}
	d.Blocks = append(d.Blocks, Heading{1, "What came"}, Facts{in.came(a)})
	d.Blocks = append(d.Blocks, in.marks()...)
	d.Blocks = append(d.Blocks, in.pictures()...)
	d.Blocks = append(d.Blocks, Heading{1, "What this receipt says"},
		Paragraph{Text: "It says what was seen without taking anything apart. What is not named here was not counted. It is no judgement of the condition, and no agreement to any work."},
		bothSign("This is what came, as far as both of us could see."))
	return d
}

// came lists what was asked on arrival with the answers; what was not said is called so.
func (in StoryInput) came(a *core.Arrival) []Fact {
	j := in.Story.Job
	var facts []Fact
	if j.Vehicle != nil {
		facts = append(facts, Fact{"Vehicle", said(j.Vehicle.Title)})
	}
	for _, u := range j.Units {
		if u.Role != core.UnitOut {
			facts = append(facts, Fact{"Unit", joined(", ", u.Title, u.Role)})
		}
	}
	ask := []Fact{{"Keys", core.AskKeys}, {"Boxes of parts", core.AskBoxes}, {"Loose in it", core.AskLoose}, {"Fuel, oil, water", core.AskFluids}, {"Papers", core.AskPapers}}
	if j.Vehicle != nil {
		ask = append([]Fact{{"Mileage shown", core.AskMileage}, {"Running", core.AskRuns}}, ask...)
	}
	for _, q := range ask {
		facts = append(facts, Fact{q.Name, said(a.Says(q.Text))})
	}
	if a == nil {
		return facts
	}
	for _, x := range a.Answers {
		name := core.Capital(strings.ReplaceAll(x.Key, "-", " "))
		for _, q := range in.Views.Asked {
			if q.Key == x.Key {
				name = core.Capital(q.Ask)
			}
		}
		facts = append(facts, Fact{name, said(x.Words)})
	}
	if a.Note != "" {
		facts = append(facts, Fact{"Noted", a.Note})
	}
	return append(facts, Fact{"Signed in by", said(a.Signed)})
}

// marks are the identity marks as read, and those looked for in vain.
func (in StoryInput) marks() []Block {
	j := in.Story.Job
	t := Table{Columns: []Column{{Head: "On", Share: 3}, {Head: "Where", Share: 4}, {Head: "Read", Share: 4}, {Head: "What it says", Share: 5}}}
	add := func(on string, ms []core.Mark) {
		for _, m := range ms {
			says := Cell{Text: core.Capital(m.Says), Note: joined("; ", strings.TrimSuffix(m.Note, "."), prefixed("expected ", m.Expected), prefixed("the owner was told in writing: ", m.Told))}
			text := m.Text
			if text == "" {
				text = "nothing read"
			}
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: on}, {Text: m.Where}, {Lead: text}, says}})
		}
	}
	if j.Vehicle != nil {
		add("Vehicle", j.Vehicle.Marks)
	}
	for _, u := range j.Units {
		if u.Role != core.UnitOut {
			add(core.Capital(strings.ReplaceAll(u.ID, "-", " ")), u.Marks)
		}
	}
	bs := []Block{Heading{1, "Identity marks"}}
	if len(t.Rows) > 0 {
		bs = append(bs, t)
	}
	if bare := j.Unmarked(); len(bare) > 0 {
		bs = append(bs, Paragraph{Text: "No mark is written down of: " + and(bare) + "."})
	}
	return bs
}

// prefixed puts words before a text that is not blank.
func prefixed(words, s string) string {
	if s == "" {
		return ""
	}
	return words + s
}

// pictures says what was photographed, and which views of the shop's list are still wanted.
func (in StoryInput) pictures() []Block {
	bs := []Block{Heading{1, "Pictures kept with the job"}}
	switch titles := unique(in.Photos); {
	case len(in.Photos) == 0:
		bs = append(bs, Paragraph{Text: "None yet. Boxes of parts are photographed open, before anything is moved."})
	case len(titles) == 0:
		bs = append(bs, Paragraph{Text: count(len(in.Photos), "picture") + ", without a title."})
	default:
		bs = append(bs, Paragraph{Text: fmt.Sprintf("%s: %s.", count(len(in.Photos), "picture"), strings.Join(titles, "; "))})
	}
	var wanted []string
	for _, m := range in.Views.For(in.Story.Job, in.Story.Arrival).Missing(in.Photos) {
		s := lower(m.Name)
		if n := m.Count - m.Taken; n > 1 {
			s += fmt.Sprintf(" (%d)", n)
		}
		wanted = append(wanted, s)
	}
	if len(wanted) > 0 {
		bs = append(bs, Paragraph{Small: true, Text: "As found, not photographed: " + strings.Join(wanted, "; ") + "."})
	}
	return bs
}
