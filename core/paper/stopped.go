package paper

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Stopped says how a job stands that goes no further now: what is done, owed and out, and where every tag is.
func Stopped(in StoryInput) Document {
	s := in.Story
	var own []Fact
	for _, m := range slices.Backward(s.Moves) {
		if m.To == core.StateStopped {
			own = []Fact{{"Stopped", in.day(m.At)}, {"It was", m.From}}
			break
		}
	}
	d := in.open("Stopped-job statement", own...)
	d.Blocks = append(d.Blocks, in.whyStopped()...)
	d.Blocks = append(d.Blocks, in.moneyStands()...)
	d.Blocks = append(d.Blocks, in.owedToOthers()...)
	d.Blocks = append(d.Blocks, in.whatIsOut()...)
	if len(s.Purchases) > 0 {
		d.Blocks = append(d.Blocks, Heading{1, "Goods"}, in.purchases(s.Purchases))
	}
	d.Blocks = append(d.Blocks, in.whereTagsAre()...)
	d.Blocks = append(d.Blocks, in.takenApart()...)
	d.Blocks = append(d.Blocks, in.wasDone()...)
	d.Blocks = append(d.Blocks, in.wasNotDone()...)
	d.Blocks = append(d.Blocks, in.hoursByTask()...)
	if len(s.Fits) > 0 {
		d.Blocks = append(d.Blocks, in.fitted(1)...)
	}
	d.Blocks = append(d.Blocks, Paragraph{Small: true, Text: competent + " Storage, and what becomes of the job, are as agreed in the scope; where nothing was agreed, they are to be agreed now."},
		bothSign("This is how the job stands, and where its parts are."))
	return d
}

func (in StoryInput) whyStopped() []Block {
	for _, m := range slices.Backward(in.Story.Moves) {
		if m.To == core.StateStopped && in.Story.Job.State == core.StateStopped {
			return []Block{Notice{"Stopped", []string{sentence(m.Why)}}}
		}
	}
	return []Block{Notice{"Not stopped", []string{"The job is " + in.Story.Job.State + ". This is how it would stand if it stopped on the day of this paper."}}}
}

// owedToOthers is what the shop has to pay for the job.
func (in StoryInput) owedToOthers() []Block {
	a := in.Story.Account()
	if core.Minor(a.ForOthers) == 0 {
		return nil
	}
	return []Block{Paragraph{Text: "To outworkers and suppliers " + withCode(a.ForOthers) + " is still to be paid for goods that arrived, outwork accepted and exchange charges, before tax and less what they were paid."}}
}

// takenApart lists the steps that stand as done.
func (in StoryInput) takenApart() []Block {
	off := in.Story.Off()
	bs := []Block{Heading{1, "What is apart"}}
	if len(off) == 0 {
		return append(bs, Paragraph{Text: "No step of taking apart is written down."})
	}
	for i, key := range off {
		off[i] = in.stepName(key)
	}
	return append(bs, Paragraph{Text: "In the order in which it was done: " + strings.Join(off, "; ") + "."})
}

// stepName names a step as the strip plan does, or by its key.
func (in StoryInput) stepName(key string) string {
	if s := in.Steps.Step(key); s != nil {
		return lower(s.Name)
	}
	return strings.NewReplacer("-", " ", ":", " ", "/", ", ", "@", ", ").Replace(key)
}

// whereTagsAre lists every tag with where it lies and what goes with it.
func (in StoryInput) whereTagsAre() []Block {
	bs := []Block{Heading{1, "Where every tag is"}}
	if len(in.Story.Tags) == 0 {
		return append(bs, Paragraph{Text: "Nothing is tagged."})
	}
	tags := slices.Clone(in.Story.Tags)
	slices.SortStableFunc(tags, func(a, b core.Tag) int { return compareTags(a.ID, b.ID) })
	t := Table{Columns: []Column{{Head: "Tag", Share: 2}, {Head: "What", Share: 5}, {Head: "Is", Share: 2.4}, {Head: "Lies", Share: 4}, {Head: "Goes with it", Share: 4}}}
	for _, x := range tags {
		var with []string
		for _, f := range x.Fasteners {
			with = append(with, f.String())
		}
		if len(x.Shims) > 0 {
			with = append(with, "shims "+shimWords(x.Shims))
		}
		lies := x.Lies
		if lies == "" {
			lies = "not said"
			if x.State == core.TagOnVehicle || x.State == core.TagFitted {
				lies = "on the vehicle"
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Lead: x.ID}, {Text: core.Capital(tagName(x)), Note: joined("; ", x.Position, prefixed("way round: ", x.WayRound))}, {Text: x.State}, {Text: lies}, {Note: joined("; ", with...)}}})
	}
	bs = append(bs, t)
	if short := in.Story.Shortages(); len(short) > 0 {
		bs = append(bs, Notice{"Bags that came out short", short})
	}
	return bs
}
