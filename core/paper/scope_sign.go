package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// longest is the line with the longest likely lead; the first of equals.
func longest(lines []core.Line) (core.Line, bool) {
	best, ok := core.Line{}, false
	for _, l := range lines {
		if l.Kind != core.LineReserve && l.LeadWeeks.Likely > best.LeadWeeks.Likely {
			best, ok = l, true
		}
	}
	return best, ok
}

// longLead is from how many likely weeks on a wait is told to the customer (common practice, no source).
const longLead = 6

// waiting lists what takes weeks, and says when the job may be done.
func (in Input) waiting() []Block {
	t := Table{Compact: true, Columns: []Column{{Head: "What has to be waited for", Share: 5}, {Head: "From", Share: 3}, {Head: "Weeks, likely (range)", Right: true}}}
	for _, b := range bundles(in.Plan.WorkOrder.Lines) {
		if l := b.Lines[0]; l.Kind != core.LineReserve && l.LeadWeeks.Likely >= longLead {
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: b.Title()}, {Text: source(l)}, {Text: weeks(l.LeadWeeks)}}})
		}
	}
	bs := []Block{Heading{1, "What takes long"}}
	if len(t.Rows) > 0 {
		bs = append(bs, t, Paragraph{Small: true, Text: fmt.Sprintf("What is likely to be there within %d weeks is not listed.", longLead)})
	}
	if l, ok := longest(in.Plan.WorkOrder.Lines); ok {
		bs = append(bs, Paragraph{Text: fmt.Sprintf("The longest wait is for this: %s, %s from the day it is ordered. Nothing is ordered or sent before this scope is agreed.", l.Name, weeks(l.LeadWeeks))})
	} else {
		bs = append(bs, Paragraph{Text: "Nothing has to be waited for."})
	}
	return append(bs, in.finish()...)
}

// source is who a line waits for.
func source(l core.Line) string {
	if l.Outwork != "" {
		return core.Capital(l.Outwork)
	}
	var from []string
	for _, it := range l.Items {
		from = append(from, it.Supplier)
	}
	if s := strings.Join(unique(from), ", "); s != "" {
		return s
	}
	return "Supplier not chosen"
}

// agreement is what both sides hold to: what may be spent without asking, old parts, storage, terms.
func (in Input) agreement() []Block {
	rule := in.ApprovalRule
	if rule == "" {
		rule = "The shop asks before it spends anything beyond this scope."
	}
	storage := in.Storage
	if storage == "" {
		storage = "Not agreed yet: storage, insurance, stage payments and what is owed if the job stops half way."
	}
	old := "Old parts are kept until the job is handed over."
	if in.OldParts != "" {
		old = in.OldParts
	}
	bs := []Block{
		Heading{1, "What is agreed"},
		Heading{2, "What the shop may spend without asking"},
		Paragraph{Text: sentence(rule) + " Anything that touches safety is told the same day."},
		Heading{2, "Old parts"}, Paragraph{Text: sentence(old)},
		Boxes{Question: "Tick one:", Answers: []string{"returned to the owner", "released to the shop"}},
		Heading{2, "Storage, payment and stopping half way"}, Paragraph{Text: sentence(storage)},
		Paragraph{Text: "If the job stops, everything is tagged and listed, and the owner owes the hours, goods and outwork used up to that day."},
	}
	if len(in.Terms) == 0 {
		return bs
	}
	var terms []string
	for _, t := range in.Terms {
		terms = append(terms, strings.TrimSuffix(strings.TrimSpace(t), ".")+" "+checkedLocally+".")
	}
	return append(bs, Heading{2, "Terms"}, List{terms})
}

// sign is the authority, its validity and the lines to sign on.
func (in Input) sign() []Block {
	bs := []Block{Heading{1, signed}}
	if in.Plan.Job.Altered() != "" {
		bs = append(bs, Notice{"A mark looks altered", []string{"Nothing is ordered on this signature until the owner has been told in writing."}})
	}
	for _, u := range in.Plan.Sheets {
		if u.Failed {
			bs = append(bs, Paragraph{Text: fmt.Sprintf("%s is not assessed: this sum does not cover it.", title(in.Plan, u.Subsystem, u.Unit))})
		}
	}
	valid := "No last day is stated for signing."
	if !in.ValidUntil.IsZero() {
		valid = "Valid for signing until " + in.date(in.ValidUntil) + "."
	}
	if in.Revision != "" {
		valid += " This is revision " + in.Revision + "."
	}
	if in.Replaces != "" {
		valid += " It replaces " + in.Replaces + ", which no longer holds."
	}
	statement := fmt.Sprintf("I authorise work to %s including tax; beyond it, ask.", withCode(in.Plan.WorkOrder.Total))
	fields := []string{"Name", "Signature", "Date"}
	return append(bs, Paragraph{Text: valid + " The contingency is not in the sum: it is drawn only by a change note."},
		Signature{Statement: statement, Signers: []Signer{
			{"For the owner", []string{"Name", "Signed as (owner, or by what right)", "Signature", "Date"}}, {"For the shop", fields}}})
}
