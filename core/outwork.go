package core

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Outwork is work sent to somebody else: what goes, to which size, for how much, when it is promised.
type Outwork struct {
	ID      string    `json:"number"` // O-001; the number its ticket bears
	To      string    `json:"to"`     // the outworker
	Lines   []string  `json:"lines"`  // ids of lines of the agreed order it carries out
	Tags    []string  `json:"tags"`   // what is sent, as a set
	Work    string    `json:"work"`   // in words
	Asked   []Asked   `json:"asked,omitempty"`
	Price   Money     `json:"price,omitzero"`
	Type    string    `json:"price_type"` // fixed, estimate
	Due     time.Time `json:"due,omitzero"`
	Parts   string    `json:"parts,omitempty"` // who supplies the parts
	State   string    `json:"state"`           // out, accepted, refused
	Results []Result  `json:"results,omitempty"`
	Charged *Money    `json:"charged,omitempty"`
	Why     string    `json:"why,omitempty"` // of a refusal, or of accepting what is off size
	Sent    Stamp     `json:"sent"`
	Back    Stamp     `json:"back,omitzero"`
}

// Asked is one size or condition that what comes back must meet.
type Asked struct {
	What string   `json:"what"` // "M1 diameter"
	Low  *float64 `json:"low,omitempty"`
	High *float64 `json:"high,omitempty"`
	Unit string   `json:"unit,omitempty"` // "" : judged in words
}

// Result is what was measured of one thing asked, on receipt.
type Result struct {
	What string   `json:"what"`
	Got  Quantity `json:"got"`
	As   string   `json:"as_typed"`
	OK   bool     `json:"ok"`
}

// The states of outwork.
const (
	OutworkOut      = "out"
	OutworkAccepted = "accepted"
	OutworkRefused  = "refused"
)

// How an outworker's or supplier's price binds.
const (
	PriceFixed    = "fixed"
	PriceEstimate = "estimate"
)

// PriceTypes are all of them.
var PriceTypes = []string{PriceFixed, PriceEstimate}

// Kind is "outwork".
func (o *Outwork) Kind() string { return "outwork" }

// Number is the ticket's.
func (o *Outwork) Number() string { return o.ID }

// Prefix is "O-".
func (o *Outwork) Prefix() string { return "O-" }

// SetNumber gives it a number.
func (o *Outwork) SetNumber(n string) { o.ID = n }

// Check refuses what no agreement covers, what is not there to be sent, and what goes beyond the sum authorised.
func (o *Outwork) Check(s *Story) error {
	if faults := o.Faults(s); len(faults) > 0 {
		return faults[0]
	}
	return nil
}

// Faults are all that Check refuses it for. Of a sum it says something only where all its lines are covered.
func (o *Outwork) Faults(s *Story) (faults []error) {
	if err := s.working("outwork"); err != nil {
		return []error{err}
	}
	tell := func(is bool, err error) {
		if is {
			faults = append(faults, err)
		}
	}
	tell(blank(o.To), Errorf(Invalid, "name the outworker: --to NAME", "nobody is named to send it to"))
	tell(len(o.Lines) == 0, Errorf(Invalid, "name the part or the line of the order: --for PART", "the outwork carries out no line of the order"))
	tell(!o.asksInOrder(), Errorf(Invalid, "write it like \"M1 diameter 2.4790..2.4795 in\"", "a size is asked for twice, or from more to less"))
	tell(len(o.Tags) == 0, Errorf(Invalid, "tag the pieces first, then name them: --tags NUMBERS", "nothing is named to be sent"))
	tell(!slices.Contains(PriceTypes, o.Type), Errorf(Invalid, "use one of: "+strings.Join(PriceTypes, ", "), "%q says not how the price binds", o.Type))
	covered := true
	for _, l := range o.Lines {
		err := s.Covered(l)
		tell(err != nil, err)
		covered = covered && err == nil
	}
	for _, n := range o.Tags {
		err := s.maySend(n)
		tell(err != nil, err)
	}
	if covered {
		err := s.mayCommit(o.Price, o.Lines...)
		tell(err != nil, err)
	}
	return faults
}

// maySend refuses a tag that is not there to be sent.
func (s *Story) maySend(number string) error {
	t := s.Tag(number)
	switch {
	case t == nil:
		return Errorf(NotFound, "see: fettle tag "+s.Job.Number, "%s has no tag %s", s.Job.Number, number)
	case t.State == TagOut:
		return Errorf(Conflict, "receive it first", "%s is out already, %s", t.words(), t.Lies)
	case t.State == TagOnVehicle || t.State == TagFitted || t.Gone():
		return Errorf(Conflict, "say where it is: fettle tag "+s.Job.Number+" "+number, "%s is %s", t.words(), t.State)
	}
	return nil
}

// asksInOrder reports whether each thing is asked once, its low bound not above its high one.
func (o *Outwork) asksInOrder() bool {
	for i, a := range o.Asked {
		if a.Low != nil && a.High != nil && *a.Low > *a.High {
			return false
		}
		if slices.ContainsFunc(o.Asked[:i], func(b Asked) bool { return strings.EqualFold(a.What, b.What) }) {
			return false
		}
	}
	return true
}

func (o *Outwork) fold(s *Story, at Stamp) {
	p := *o
	p.Sent, p.State = at, OutworkOut
	s.Outwork = standing(s.Outwork, p, func(o Outwork) string { return o.ID })
	for _, n := range o.Tags {
		if t := s.Tag(n); t != nil {
			t.State, t.Lies = TagOut, "out at "+o.To
		}
	}
}

func (o *Outwork) leads(s *Story) string { return s.intoWork() }

// Received is what came back of outwork, measured before it goes on the shelf.
type Received struct {
	Outwork  string   `json:"outwork"`
	Results  []Result `json:"results,omitempty"`
	Accepted bool     `json:"accepted"`
	Why      string   `json:"why,omitempty"`
	Charged  *Money   `json:"charged,omitempty"` // what is charged, if not the price asked
	Lies     string   `json:"lies,omitempty"`    // where what came back is put; refused pieces go out again
}

// Kind is "received".
func (r *Received) Kind() string { return "received" }

// Check refuses taking in what was not measured against what was asked, or is off size without a reason.
func (r *Received) Check(s *Story) error {
	if s.Job.State == StateHandedOver {
		return s.working("receiving")
	}
	o := s.Sent(r.Outwork)
	switch {
	case o == nil:
		return Errorf(NotFound, "see: fettle send "+s.Job.Number, "%s has no outwork %s", s.Job.Number, r.Outwork)
	case o.State == OutworkAccepted:
		return Errorf(Conflict, "fettle undo "+s.Job.Number+", if that was wrong", "%s was accepted already", o.ID)
	case !r.Accepted && blank(r.Why):
		return Errorf(Invalid, "say why: --why WORDS", "a refusal has no reason")
	case r.Accepted && blank(r.Lies):
		return Errorf(Invalid, "say where it is put: --lies \"rack 2\"", "%s comes back and nobody could find it", o.ID)
	case r.Charged != nil && o.Type == PriceFixed && Minor(*r.Charged) > Minor(o.Price) && blank(r.Why):
		return Errorf(Conflict, "leave --charged out, or say why it is right: --why WORDS", "the price was fixed at %s, and %s is charged", o.Price, *r.Charged)
	}
	if !r.Accepted {
		return nil
	}
	var missing, off []string
	for _, a := range o.Asked {
		i := slices.IndexFunc(r.Results, func(x Result) bool { return strings.EqualFold(x.What, a.What) })
		switch {
		case i < 0:
			missing = append(missing, a.What)
		case !r.Results[i].met(a):
			off = append(off, fmt.Sprintf("%s %s, asked %s", a.What, r.Results[i].As, a.Range()))
		}
	}
	switch {
	case len(missing) > 0:
		return Errorf(Conflict, "measure it, before it goes on the shelf", "%s was asked to size and is not measured: %s", o.ID, strings.Join(missing, ", "))
	case len(off) > 0 && blank(r.Why):
		return Errorf(Conflict, "refuse it: --refuse WHY; or say why it will do: --why WORDS", "%s is not as asked: %s", o.ID, strings.Join(off, "; "))
	}
	return nil
}

// met reports whether what was measured is as asked. A reading speaks for itself; what has none is judged in words.
func (r Result) met(a Asked) bool {
	if r.Got.Unit == "" || a.Unit == "" {
		return r.OK
	}
	ok, err := a.Meets(r.Got)
	return ok && err == nil
}

func (r *Received) fold(s *Story, at Stamp) {
	o := s.Sent(r.Outwork)
	if o == nil {
		return
	}
	o.Results, o.Why, o.Charged, o.Back = r.Results, r.Why, r.Charged, at
	o.State = OutworkRefused
	state, lies := TagOut, "out at "+o.To+", refused"
	if r.Accepted {
		o.State, state, lies = OutworkAccepted, TagBack, r.Lies
	}
	for _, n := range o.Tags {
		if t := s.Tag(n); t != nil && t.State == TagOut {
			t.State, t.Lies = state, lies
		}
	}
}

// charge is what outwork costs: as charged, or as priced.
func (o Outwork) charge() Money {
	if o.Charged != nil {
		return *o.Charged
	}
	return o.Price
}

// Range says what was asked, "2.4790 to 2.4795 in".
func (a Asked) Range() string {
	switch {
	case a.Low != nil && a.High != nil:
		return FormatNumber(*a.Low) + " to " + FormatNumber(*a.High) + " " + a.Unit
	case a.Low != nil:
		return "at least " + FormatNumber(*a.Low) + " " + a.Unit
	case a.High != nil:
		return "at most " + FormatNumber(*a.High) + " " + a.Unit
	}
	return "as agreed"
}

// Meets reports whether a reading is within what was asked; the bound of the instrument counts for neither side.
func (a Asked) Meets(q Quantity) (bool, error) {
	if a.Unit == "" {
		return true, nil
	}
	x, err := Convert(q.Value, q.Unit, a.Unit)
	if err != nil {
		return false, err
	}
	return within(x, a.Low, a.High), nil
}

// Sent finds outwork by its number, or nil.
func (s *Story) Sent(number string) *Outwork {
	return named(s.Outwork, number, func(o Outwork) string { return o.ID })
}

// intoWork is the state that ordering, sending and working lead to.
func (s *Story) intoWork() string {
	if s.Job.State == StateAgreed {
		return StateInWork
	}
	return ""
}

// Late reports whether it is out and was promised for an earlier day.
func (o Outwork) Late(now time.Time) bool { return o.State == OutworkOut && pastDue(o.Due, now) }

// pastDue reports whether a day ended before now; no day never ends.
func pastDue(due, now time.Time) bool { return !due.IsZero() && !now.Before(due.Add(24*time.Hour)) }
