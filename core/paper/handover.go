package paper

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Handover goes with the vehicle or unit: what was done, what was not done and not looked at, sizes as fitted, old parts, first service, road test and snags.
// It says what is recorded and judges nothing by it: no paper says that a vehicle is safe. It needs the plan.
func Handover(in StoryInput) Document {
	h := in.Story.Handover
	var own []Fact
	if h != nil {
		own = []Fact{{"Handed over", in.day(h.At)}, {"Signed by", h.Signed}}
	}
	d := in.open("Handover", own...)
	d.Blocks = append(d.Blocks, in.leaves(h)...)
	d.Blocks = append(d.Blocks, in.wasDone()...)
	d.Blocks = append(d.Blocks, in.wasNotDone()...)
	d.Blocks = append(d.Blocks, in.neverSeen()...)
	d.Blocks = append(d.Blocks, in.fitted(1)...)
	d.Blocks = append(d.Blocks, in.runs()...)
	d.Blocks = append(d.Blocks, in.oldParts(h)...)
	d.Blocks = append(d.Blocks, Heading{1, "First service"}, Paragraph{Text: in.firstService(h)})
	d.Blocks = append(d.Blocks, Heading{1, "Cautions"}, Cautions{[]string{
		competent,
		"This paper says what was done and measured. It does not say that the vehicle is fit for the road: that is for whoever inspects it and whoever drives it.",
		"What was not looked at may be in any condition. Look, listen and feel before each of the first drives, and stop if anything changes.",
	}})
	d.Blocks = append(d.Blocks, bothSign("Handed over and taken over as it is written here."))
	return d
}

// leaves says how it goes, and what was still open.
func (in StoryInput) leaves(h *core.Handover) []Block {
	var bs []Block
	if h == nil {
		bs = append(bs, Notice{"Not handed over", []string{"The job is " + in.Story.Job.State + ". This is how it stands on the day of this paper."}})
	} else if h.Stopped {
		bs = append(bs, Notice{"Handed over as it stood", []string{"The job was stopped and not finished."}})
	}
	why := in.Story.ByTrailer()
	if len(why) > 0 || h != nil && h.Trailer {
		lines := []string{"It is not driven away."}
		for _, w := range why {
			lines = append(lines, sentence(in.spoken(w)))
		}
		bs = append(bs, Notice{"Leaves on a trailer", lines})
	}
	open := slices.DeleteFunc(in.Story.OpenAtHandover(), func(o string) bool { return slices.Contains(why, o) }) // each is said once
	if len(open) == 0 && (h == nil || h.Told == "") {
		return bs
	}
	title := "Still open"
	lines := make([]string, 0, len(open)+1)
	for _, o := range open {
		lines = append(lines, sentence(in.spoken(o)))
	}
	if h != nil && h.Told != "" {
		lines = append(lines, "In the owner's words: "+sentence(h.Told))
	}
	return append(bs, Notice{title, lines})
}

// evidence is what shows that a line was carried out: outwork accepted; for what the shop does itself, hours spent on it or its part built. That a
// crankshaft was built in says nothing of a crack test that was to be sent out.
func (in StoryInput) evidence(l core.Line) string {
	var out []string
	total := 0.0
	for _, w := range in.Story.Hours {
		if w.Line == l.ID && l.Outwork == "" {
			total += w.Hours
		}
	}
	if total > 0 {
		out = append(out, number(total, 2)+" h spent on it")
	}
	for _, o := range in.Story.Outwork {
		if o.State == core.OutworkAccepted && slices.Contains(o.Lines, l.ID) {
			out = append(out, o.ID+" by "+o.To+", accepted "+in.day(o.Back.At))
		}
	}
	for _, f := range in.Story.Fits {
		if l.Outwork == "" && slices.ContainsFunc(l.Places, func(p core.Place) bool { return p.Subsystem == f.Subsystem && p.Unit == f.Unit && p.Target == f.Target }) {
			out = append(out, lower(fitName(f))+" built "+in.day(f.At))
			break
		}
	}
	return strings.Join(out, "; ")
}

// parted are the lines of work that were agreed to, with those refused and those never recorded as done apart.
func (in StoryInput) parted() (done, refused, open []core.Line) {
	lines, _ := in.agreedLines()
	a := in.Story.Agreed(core.GateBudget)
	for _, l := range lines {
		switch {
		case l.Kind != core.LineWork:
		case a != nil && slices.ContainsFunc(a.Refused, l.Concerns):
			refused = append(refused, l)
		case in.evidence(l) != "":
			done = append(done, l)
		default:
			open = append(open, l)
		}
	}
	return done, refused, open
}

// wasDone lists the work of the agreed scope that something shows to be done, and approved changes.
func (in StoryInput) wasDone() []Block {
	done, _, _ := in.parted()
	t := Table{Columns: []Column{{Head: "Work", Share: 6}, {Head: "What the book shows of it", Share: 6}}}
	for _, l := range done {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: core.Capital(l.Name), Note: lineOf(l)}, {Text: in.evidence(l)}}})
	}
	for _, n := range in.Story.Notes {
		for _, o := range n.Taken {
			if shows := in.shownOf(o); shows != "" {
				t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: core.Capital(o.Do), Note: "change note " + n.ID + ", agreed by " + joined(", ", n.Who, n.How, in.day(n.Closed.At))}, {Text: shows}}})
			}
		}
	}
	bs := []Block{Heading{1, "What was done"}}
	if len(t.Rows) == 0 {
		return append(bs, Paragraph{Text: "No work of an agreed scope is shown by the book to be done."})
	}
	return append(bs, t, Paragraph{Small: true, Text: "Hours spent on a piece of work do not say by themselves that it is finished."})
}

// shownOf is what shows that an option which was agreed to was carried out; "" if nothing does, or nothing was to be done.
func (in StoryInput) shownOf(o core.SurpriseOption) string {
	if o.Leaves {
		return ""
	}
	lines, _ := in.agreedLines()
	var shows []string
	for _, id := range o.Lines {
		l := core.Line{ID: id}
		for _, x := range append(slices.Clone(lines), in.Plan.WorkOrder.Lines...) {
			if x.ID == id {
				l = x
				break
			}
		}
		shows = append(shows, in.evidence(l))
	}
	return joined("; ", unique(shows)...)
}

func lineOf(l core.Line) string {
	if l.Unit == l.Subsystem {
		l.Unit = ""
	}
	return joined(", ", core.Capital(strings.ReplaceAll(l.Subsystem, "-", " ")), l.Unit)
}

// wasNotDone lists what was refused, left, declined, and what the book does not show to be done.
func (in StoryInput) wasNotDone() []Block {
	_, refused, open := in.parted()
	t := Table{Columns: []Column{{Head: "What", Share: 7}, {Head: "Why", Share: 6}}}
	for _, l := range refused {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: core.Capital(l.Name), Note: lineOf(l)}, {Text: "refused by " + in.Story.Agreed(core.GateBudget).Who}}})
	}
	for _, x := range in.Story.Job.Left {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: targetWords(x.Subsystem, x.Target), Note: lineOf(core.Line{Subsystem: x.Subsystem, Unit: x.Unit})}, {Text: "left as it is: " + x.Reason}}})
	}
	for _, x := range in.Story.LeftWithin() {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: x.String(), Note: lineOf(core.Line{Subsystem: x.Subsystem, Unit: x.Unit})}, {Text: "left as it is, to keep within what may be spent"}}})
	}
	for _, n := range in.Story.Notes {
		t.Rows = append(t.Rows, in.declined(n)...)
	}
	for _, s := range in.Story.Gathering() {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: core.Capital(s.Found), Note: s.ID}, {Text: "found, and not put to the owner"}}})
	}
	bs := []Block{Heading{1, "What was not done"}}
	if len(t.Rows) > 0 {
		bs = append(bs, t)
	}
	if len(open) > 0 {
		return append(bs, Heading{2, "Priced, and not shown by the book to be done"}, byUnit(open))
	}
	if len(t.Rows) == 0 {
		return append(bs, Paragraph{Text: "Nothing that was agreed or found is left, as far as the book shows."})
	}
	return bs
}

// neverSeen names the parts on which lives hang that were to be looked at, and of which the book shows neither that nor that they were fitted.
func (in StoryInput) neverSeen() []Block {
	var lines []core.Line
	for _, n := range in.Plan.NotSeen {
		i := slices.IndexFunc(in.Plan.Conditions, func(c core.UnitCondition) bool { return c.Place == n.Place })
		fitted := slices.ContainsFunc(in.Story.Fits, func(f core.Fit) bool { return f.Subsystem == n.Subsystem && f.Unit == n.Unit && f.Target == n.Target })
		if i >= 0 && in.Plan.Conditions[i].SafetyCritical && !fitted {
			lines = append(lines, core.Line{Subsystem: n.Subsystem, Unit: n.Unit, Name: strings.TrimSpace(n.PartName + " " + n.Position)})
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return []Block{Heading{1, "Not looked at"}, Notice{"Lives hang on it, and nobody has looked at it",
		[]string{"The book shows neither that these parts were looked at in full nor that they were fitted anew. Have them looked at before it is driven."}}, byUnit(lines)}
}

// byUnit gathers lines under their subsystem and unit, in the order of the lines.
func byUnit(lines []core.Line) Facts {
	var fs []Fact
	for _, l := range lines {
		name := lineOf(l)
		if name == "" {
			name = "Other"
		}
		i := slices.IndexFunc(fs, func(f Fact) bool { return f.Name == name })
		if i < 0 {
			fs = append(fs, Fact{name, core.Capital(l.Name)})
			continue
		}
		fs[i].Text += "; " + lower(l.Name)
	}
	return Facts{fs}
}

// declined are the matters of a note that were answered with nothing, or not at all, or whose answer nothing shows to be carried out.
func (in StoryInput) declined(n core.Note) []Row {
	var rows []Row
	for _, id := range n.Surprises {
		s := in.Story.Surprise(id)
		if s == nil || s.Note != n.ID { // a note that was withdrawn: another has it, or it gathers
			continue
		}
		why := ""
		i := slices.IndexFunc(n.Answered, func(a core.NoteAnswer) bool { return a.Surprise == id })
		switch {
		case n.State == core.NoteSent:
			why = n.ID + " is not answered"
		case n.State == core.NoteApproved && i >= 0 && n.Answered[i].Option > 0 && !s.Options[n.Answered[i].Option-1].Leaves:
			o := s.Options[n.Answered[i].Option-1]
			if in.shownOf(o) != "" {
				continue
			}
			rows = append(rows, Row{Cells: []Cell{{Text: core.Capital(o.Do), Note: id}, {Text: "agreed with " + n.ID + ", and not shown by the book to be done"}}})
			continue
		case n.State == core.NoteApproved && i >= 0 && n.Answered[i].Option > 0:
			why = joined(", ", "left by the answer to "+n.ID, n.Who, n.How)
		default:
			why = joined(", ", n.ID+" was "+n.State, n.Who, n.How, n.Why)
		}
		if s.Safety {
			why += "; it touches safety"
		}
		rows = append(rows, Row{Cells: []Cell{{Text: core.Capital(s.Found), Note: id}, {Text: why}}})
	}
	return rows
}

// oldParts says what became of them.
func (in StoryInput) oldParts(h *core.Handover) []Block {
	bs := []Block{Heading{1, "Old parts"}}
	if h != nil {
		bs = append(bs, Paragraph{Text: sentence(h.OldParts)})
	} else {
		bs = append(bs, Boxes{Question: "Not said yet. Tick one:", Answers: []string{"returned to the owner", "released to the shop"}})
	}
	var gone []string
	for _, t := range in.Story.Tags {
		if t.Gone() {
			gone = append(gone, joined(", ", t.ID+" "+tagName(t), t.State, t.Word))
		}
	}
	if len(gone) > 0 {
		bs = append(bs, List{gone})
	}
	return bs
}

func (in StoryInput) firstService(h *core.Handover) string {
	if h == nil || h.FirstService == "" {
		return "Nothing is written down of the first service: ask before it is driven far."
	}
	return sentence(h.FirstService)
}
