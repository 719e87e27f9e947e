package core

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// The gates: what the owner, or who may speak for the owner, must have agreed to before it happens.
const (
	GateStrip  = "strip-down"
	GateBudget = "main budget"
	GateChange = "change"
	GateFinish = "finish choices"
)

// Gates are all of them, in the order of a job.
var Gates = []string{GateStrip, GateBudget, GateChange, GateFinish}

// Ways are how an agreement may be given.
var Ways = []string{"signed", "message", "phone", "in person"}

// Issued is a paper of the job as issued, and what it priced.
type Issued struct {
	Kind       string     `json:"kind"` // scope, work order, change note ...
	Number     string     `json:"number"`
	Revision   int        `json:"revision"`
	At         time.Time  `json:"at"`
	ValidUntil time.Time  `json:"valid_until,omitzero"` // zero: no end
	Lines      []Line     `json:"lines,omitempty"`      // of a scope: id, amount, places, what is behind
	Total      Money      `json:"total,omitzero"`       // of a scope: with tax
	Expected   Money      `json:"expected,omitzero"`    // of a scope: before tax
	Left       []LeftPart `json:"left,omitempty"`       // of a scope: parts left to keep within what may be spent
	// Contingency of a scope: P80 less expected.
	Contingency Money `json:"contingency,omitzero"`
}

// Agreement is what somebody agreed to at a gate. An agreement is never changed: a later one of the same gate stands in its place.
type Agreement struct {
	Gate     string `json:"gate"`
	Paper    string `json:"paper,omitempty"` // number of the issued paper agreed to
	Revision int    `json:"revision,omitempty"`
	Who      string `json:"who"`
	Capacity string `json:"capacity,omitempty"` // owner, agent, insurer ...
	How      string `json:"how"`                // one of Ways
	// Sum is what is authorised, tax included; beyond it the shop asks.
	Sum     Money    `json:"sum,omitzero"`
	Refused []string `json:"refused,omitempty"` // ids of lines, or places, said no to; initialled
	Words   string   `json:"words,omitempty"`
	Stamp
}

// Kind is "agreement".
func (a *Agreement) Kind() string { return "agreement" }

// Check refuses an agreement to what was not issued, by nobody who may, or over what they may authorise.
func (a *Agreement) Check(s *Story) error {
	if faults := a.Faults(s); len(faults) > 0 {
		return faults[0]
	}
	return nil
}

// Faults are all that Check refuses it for. Of who may authorise what it says something only where that is said.
func (a *Agreement) Faults(s *Story) (faults []error) {
	if err := s.working("agreement"); err != nil {
		return []error{err}
	}
	tell := func(is bool, err error) {
		if is {
			faults = append(faults, err)
		}
	}
	if !slices.Contains(Gates, a.Gate) {
		return []error{Errorf(Invalid, "use one of: "+strings.Join(Gates, ", "), "%q is no gate", a.Gate)}
	}
	tell(blank(a.Who), Errorf(Invalid, "name who agreed", "an agreement is somebody's"))
	tell(blank(a.How), Errorf(Invalid, "say one: "+strings.Join(Ways, ", "), "how was it agreed? It is not said"))
	tell(!blank(a.How) && !slices.Contains(Ways, a.How), Errorf(Invalid, "use one of: "+strings.Join(Ways, ", "), "how was it agreed? %q is no way", a.How))
	tell(Minor(a.Sum) <= 0 && a.Gate != GateFinish, Errorf(Invalid, "say the sum, tax included, beyond which you ask again", "no sum is authorised"))
	tell(a.Gate == GateChange, Errorf(Invalid, "fettle change "+s.Job.Number+" NOTE --answer C-001=1 --who NAME --how phone", "a change is agreed by answering its note"))
	if a.Gate == GateBudget {
		err := a.checkScope(s)
		tell(err != nil, err)
	}
	if len(faults) > 0 {
		return faults
	}
	if err := s.unaltered("agreed"); err != nil {
		return []error{err}
	}
	if err := s.mayAuthorise(a.Who, a.Sum); err != nil {
		return []error{err}
	}
	return nil
}

func (a *Agreement) checkScope(s *Story) error {
	p := s.Issued(a.Paper, a.Revision)
	if p == nil || p.Kind != "scope" {
		return Errorf(Conflict, "issue it: fettle scope "+s.Job.Number+" --issue", "there is no issued scope %s revision %d to agree to", a.Paper, a.Revision)
	}
	if last := s.LastScope(); last.Revision != p.Revision {
		return Errorf(Conflict, fmt.Sprintf("agree to revision %d, or issue the older one's content again", last.Revision), "%s revision %d was replaced by revision %d", a.Paper, a.Revision, last.Revision)
	}
	for _, r := range a.Refused {
		if !slices.ContainsFunc(p.Lines, func(l Line) bool { return l.Concerns(r) }) {
			return Errorf(Invalid, "name a line of the scope, or a part like gearbox/case", "nothing on %s revision %d is called %q", p.Number, p.Revision, r)
		}
	}
	return nil
}

// unaltered refuses what may not be done while a mark looks altered and the owner has not been told in writing.
func (s *Story) unaltered(what string) error {
	where := s.Job.Altered()
	if where == "" {
		return nil
	}
	return Errorf(Conflict, "tell the owner in writing, then write the mark down once more, with how and when the owner was told: fettle job mark ... --told", "a mark looks altered (%s): nothing is %s before the owner is told", where, what)
}

func (a *Agreement) fold(s *Story, at Stamp) {
	b := *a
	b.Stamp = at
	s.Agreements = append(s.Agreements, b)
}

func (a *Agreement) leads(s *Story) string {
	switch {
	case a.Gate == GateStrip && (s.Job.State == StateArrived || s.Job.State == StateInspected):
		return StateStripAgreed
	case a.Gate == GateBudget && s.Job.State == StateScopeOut:
		return StateAgreed
	}
	return ""
}

// Concerns reports whether a line goes by a name: its id, or a part it serves.
func (l Line) Concerns(name string) bool {
	return l.ID == name || slices.ContainsFunc(l.Places, func(p Place) bool {
		return p.String() == name || Place{Subsystem: p.Subsystem, Target: p.Target}.String() == name
	})
}

// Agreed gives the agreement in force at a gate, or nil.
func (s *Story) Agreed(gate string) *Agreement {
	for i := len(s.Agreements) - 1; i >= 0; i-- {
		if s.Agreements[i].Gate == gate {
			return &s.Agreements[i]
		}
	}
	return nil
}

// Issued finds an issued paper; revision 0 means the last.
func (s *Story) Issued(number string, revision int) *Issued {
	for i := len(s.Papers) - 1; i >= 0; i-- {
		if p := &s.Papers[i]; p.Number == number && (revision == 0 || p.Revision == revision) {
			return p
		}
	}
	return nil
}

// LastScope is the scope issued last, or nil.
func (s *Story) LastScope() *Issued {
	for i := len(s.Papers) - 1; i >= 0; i-- {
		if s.Papers[i].Kind == "scope" {
			return &s.Papers[i]
		}
	}
	return nil
}

// needs refuses what has no agreement at a gate.
func (s *Story) needs(gate, what string) error {
	if s.Agreed(gate) != nil {
		return nil
	}
	next := "record it: fettle agree " + s.Job.Number + " strip-down --who NAME --how signed --sum AMOUNT"
	if gate == GateBudget {
		next = "issue the scope, and record the answer: fettle agree " + s.Job.Number + " budget --who NAME --how signed --sum AMOUNT"
	}
	return Errorf(Conflict, next, "nobody has agreed to the %s yet: not %s", gate, what)
}

// Covered refuses a line of the order that no agreement covers: not on the agreed scope or an approved change note, or refused there.
func (s *Story) Covered(line string) error {
	a := s.Agreed(GateBudget)
	if a == nil {
		return s.needs(GateBudget, "ordered")
	}
	if err := s.unaltered("ordered"); err != nil {
		return err
	}
	covers := func(n Note) bool { return n.covers(line) }
	if slices.ContainsFunc(s.notesSince(GateBudget), covers) {
		return nil
	}
	p := s.Issued(a.Paper, a.Revision)
	i := -1
	if p != nil {
		i = slices.IndexFunc(p.Lines, func(l Line) bool { return l.ID == line })
	}
	if i < 0 && slices.ContainsFunc(s.Notes, covers) {
		return nil
	}
	if i < 0 {
		return Errorf(Conflict, "put it into a change note: fettle change "+s.Job.Number, "%s is not on what was agreed (%s revision %d)", lineWords(line), a.Paper, a.Revision)
	}
	if p.Lines[i].Kind == LineReserve {
		return Errorf(Conflict, "look at what is not seen yet, then put it into a change note: fettle change "+s.Job.Number, "%s was only held in reserve", p.Lines[i].Name)
	}
	for _, r := range a.Refused {
		if p.Lines[i].Concerns(r) {
			return Errorf(Conflict, "it needs a new agreement", "%s refused it: %s", a.Who, p.Lines[i].Name)
		}
	}
	return nil
}

// lineWords is a line as it is spoken of where only its id is known: "work:head@engine:reface" is "head: reface".
func lineWords(id string) string {
	parts := strings.Split(id, ":")
	if len(parts) < 3 {
		return id
	}
	subsystem, _, _ := strings.Cut(parts[1], "@")
	return plainWords(subsystem + ": " + strings.Join(parts[2:], " "))
}

// mayAuthorise refuses who may not speak for the job, or not for so much. The owner may for any sum, unless the shop's book of parties says less.
func (s *Story) mayAuthorise(who string, sum Money) error {
	var p *Party
	for i := range s.Parties {
		if strings.EqualFold(s.Parties[i].Name, who) {
			p = &s.Parties[i]
		}
	}
	owner := strings.EqualFold(s.Job.Owner.Name, who)
	named := owner || slices.ContainsFunc(s.Job.Payers, func(q Payer) bool { return strings.EqualFold(q.Party, who) }) ||
		slices.ContainsFunc(s.Job.Speakers, func(q string) bool { return strings.EqualFold(q, who) })
	if !named {
		return Errorf(Conflict, fmt.Sprintf("the owner %s may, or name %s as one who may: fettle job speaker %s %q", s.Job.Owner.Name, who, s.Job.Number, who),
			"%s may not speak for %s", who, s.Job.Number)
	}
	if p == nil || p.MayAuthorise == nil {
		return nil
	}
	if p.MayAuthorise.CurrencyCode() != sum.CurrencyCode() || Minor(sum) > Minor(*p.MayAuthorise) {
		return Errorf(Conflict, "ask for the owner's own word, or a lower sum", "%s may authorise up to %s, not %s", who, p.MayAuthorise, sum)
	}
	return nil
}
