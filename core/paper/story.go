package paper

import (
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// StoryInput is what a paper of a job's story is made from.
type StoryInput struct {
	Story    core.Story
	Plan     core.Plan // for StripAuthority and BuyingList; the others need none
	Shop     Shop
	Number   string
	Revision string
	Replaces string
	Date     time.Time
	Zone     *time.Location // the shop's; nil: UTC
	Letter   bool           // US letter instead of A4
	// Photos are the titles of the pictures that belong to the job, in the order taken.
	Photos   []string
	Views    core.ArrivalList // what the shop photographs and asks of what comes
	Weighing core.Weighing    // for Weighing alone
	Steps    core.StripPlan   // names the steps that were done
}

// sheet is the input that the parts common to all papers are made from.
func (in StoryInput) sheet() Input {
	p := in.Plan
	p.Job = in.Story.Job
	return Input{Plan: p, Shop: in.Shop, Number: in.Number, Revision: in.Revision, Replaces: in.Replaces, Date: in.Date, Zone: in.Zone, Letter: in.Letter}
}

// open begins a paper: the shop, the paper's facts, and those of its own after them.
func (in StoryInput) open(title string, own ...Fact) Document {
	d := in.sheet().document(title)
	head := in.sheet().letterhead(title)
	head.Facts = append(head.Facts, own...)
	d.Blocks = []Block{head}
	return d
}

// day writes a day in the shop's zone; a zero time is blank.
func (in StoryInput) day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return in.sheet().date(t)
}

// minute writes a day with its time, for what somebody said or signed.
func (in StoryInput) minute(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(in.sheet().zone()).Format("2 January 2006, 15:04")
}

// agreedLines are the lines of the scope agreed to, or else of the one issued last; the paper they stand on, or nil.
func (in StoryInput) agreedLines() ([]core.Line, *core.Issued) {
	p := in.Story.LastScope()
	if a := in.Story.Agreed(core.GateBudget); a != nil {
		p = in.Story.Issued(a.Paper, a.Revision)
	}
	if p == nil {
		return nil, nil
	}
	return p.Lines, p
}

// lineName names a line of the order by its id: as the scope does, or as the change does that added it.
func (in StoryInput) lineName(id string) string {
	lines, _ := in.agreedLines()
	for _, l := range append(slices.Clone(lines), in.Plan.WorkOrder.Lines...) {
		if l.ID == id {
			return l.Name
		}
	}
	for _, s := range in.Story.Surprises {
		for _, o := range s.Options {
			if slices.Contains(o.Lines, id) {
				return s.ID + ", " + lower(o.Do)
			}
		}
	}
	return id
}

// lineNames names several lines, each once.
func (in StoryInput) lineNames(ids []string) string {
	var names []string
	for _, id := range ids {
		names = append(names, in.lineName(id))
	}
	return strings.Join(unique(names), "; ")
}

// tagWords names a tag by its number and what hangs on it.
func (in StoryInput) tagWords(number string) string {
	t := in.Story.Tag(number)
	if t == nil {
		return number
	}
	return strings.TrimSpace(number + " " + tagName(*t))
}

// tagName is what a tag hangs on, in words.
func tagName(t core.Tag) string {
	if t.What != "" {
		return t.What
	}
	return lower(targetWords(t.Subsystem, t.Target))
}

// targetWords name a part without its sheet: "Main journal M2".
func targetWords(subsystem string, t core.Target) string {
	if t.Part == "" {
		return core.Capital(strings.ReplaceAll(subsystem, "-", " "))
	}
	return named(strings.ReplaceAll(t.Part, "-", " "), t.Position)
}

// said gives what was said, or that nothing was.
func said(s string) string {
	if strings.TrimSpace(s) == "" {
		return "not said"
	}
	return s
}

// joined puts what is not blank side by side.
func joined(sep string, ss ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(ss), func(s string) bool { return strings.TrimSpace(s) == "" }), sep)
}

// bothSign is a signature of the owner and the shop under one statement.
func bothSign(statement string) Signature {
	return Signature{Statement: statement, Signers: []Signer{
		{"For the owner", []string{"Name", "Signed as (owner, or by what right)", "Signature", "Date"}}, {"For the shop", []string{"Name", "Signature", "Date"}}}}
}
