package core

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// FitReading judges a reading of something fitted against the size that was agreed with an outworker whose work was accepted, else against the
// sheet's limits of new; never against wear limits: what is only just not worn out is not fitted new. Where no limit of new is known it counts
// as new, and Source is "". Not having read it is Invalid.
func (s *Story) FitReading(u UnitSheet, f Finding) (Fitted, error) {
	p := u.Sheet.Part(f.Target.Part)
	c := u.Sheet.Check(f.Target.Part, f.Check)
	if p == nil || c == nil {
		return Fitted{}, Errorf(NotFound, "see: fettle sheet "+u.Subsystem, "%s has no check %s of %s", u.Subsystem, f.Check, f.Target)
	}
	limit := LimitFor(*c, f.Target, u.Overrides)
	r := Fitted{Check: f.Check, Name: c.Name, Station: f.Station, As: f.AsTyped, Low: limit.NewLow, High: limit.NewHigh, Unit: limit.Unit}
	if limit.NewLow != nil || limit.NewHigh != nil {
		r.Source = limit.Source
	}
	switch f.Value.Kind {
	case ValuePass:
		r.Got, r.New, r.Low, r.High, r.Unit, r.Source = Quantity{Unit: "1"}, f.Value.Pass, nil, nil, "", c.Limit.Source
		if f.Value.Pass {
			r.Got.Value = 1
		} else {
			r.Past = "it has to pass"
		}
		return r, nil
	case ValueClass: // new is without damage, or as the sheet says, whatever class would still be left in use
		r.Got, r.Source = Quantity{Value: float64(f.Value.Class), Unit: "1"}, limit.Source
		if limit.WorstClass != nil && f.Value.Class > *limit.WorstClass {
			r.Past = fmt.Sprintf("worst allowed class %d", *limit.WorstClass)
		}
		r.New = f.Value.Class == 0 || limit.NewHigh != nil && within(r.Got.Value, nil, limit.NewHigh)
		r.Low, r.High, r.Unit = nil, nil, ""
		return r, nil
	case ValueCount:
		r.Got = Quantity{Value: float64(f.Value.Count), Unit: "1"}
		r.Past = limit.past(r.Got.Value)
		r.New = within(r.Got.Value, r.Low, r.High)
		return r, nil
	case ValueQuantity:
	default:
		return Fitted{}, Errorf(Invalid, "measure it before it is closed up", "%s %s is fitted: %s is no size", f.Place(), c.Name, f.Value)
	}
	r.Got = f.Value.Quantity
	if x, err := Convert(r.Got.Value, r.Got.Unit, limit.Unit); err == nil {
		r.Past = limit.past(x)
	}
	r.hold(s.askedFor(u, *p, *c, f.Target))
	if r.Unit == "" {
		r.Unit = r.Got.Unit
	}
	got, err := Convert(r.Got.Value, r.Got.Unit, r.Unit)
	if err != nil {
		return Fitted{}, err
	}
	if r.New = within(got, r.Low, r.High); r.New {
		r.Past = "" // what came back as asked, to an undersize, is not worn
	}
	return r, nil
}

// past names the wear limit that a size in the limit's unit is past; "" for none.
func (l Limit) past(x float64) string {
	switch {
	case !within(x, l.WearLow, nil):
		return "limit " + FormatNumber(*l.WearLow) + " " + l.Unit + " at least"
	case !within(x, nil, l.WearHigh):
		return "limit " + FormatNumber(*l.WearHigh) + " " + l.Unit + " at most"
	}
	return ""
}

// HeldTo gives what a size of something fitted is held against, as FitReading does, before it is read.
func (s *Story) HeldTo(u UnitSheet, p Part, c Check, t Target) Fitted {
	limit := LimitFor(c, t, u.Overrides)
	r := Fitted{Check: c.ID, Name: c.Name, Low: limit.NewLow, High: limit.NewHigh, Unit: limit.Unit, Source: limit.Source}
	r.hold(s.askedFor(u, p, c, t))
	return r
}

// hold takes the size that was asked of outwork for the limits of new, if one was.
func (r *Fitted) hold(o *Outwork, a *Asked) {
	if o != nil {
		r.Low, r.High, r.Unit, r.Source = a.Low, a.High, a.Unit, o.ID+", as asked of "+o.To
	}
}

// within compares with the relative slack; a bound that is nil is open.
func within(x float64, low, high *float64) bool {
	slack := Slack * math.Abs(x)
	return (low == nil || x >= *low-slack) && (high == nil || x <= *high+slack)
}

// askedFor finds the size that accepted outwork on the unit was to come back to: what was asked is named "M1 diameter",
// "main journal M1 diameter", or "main journal diameter" for all of them. The last asked counts.
func (s *Story) askedFor(u UnitSheet, p Part, c Check, t Target) (*Outwork, *Asked) {
	var called []string
	for _, part := range []string{"", p.ID + " ", p.Name + " "} {
		for _, check := range []string{c.ID, c.Name} {
			called = append(called, plainWords(part+t.Position+" "+check))
			if part != "" {
				called = append(called, plainWords(part+check))
			}
		}
	}
	of := func(line string) bool { return strings.Contains(line, ":"+u.Subsystem+"@"+u.Unit+":") }
	for i := len(s.Outwork) - 1; i >= 0; i-- {
		o := &s.Outwork[i]
		if o.State != OutworkAccepted || !slices.ContainsFunc(o.Lines, of) {
			continue
		}
		for k := range o.Asked {
			if o.Asked[k].Unit != "" && slices.Contains(called, plainWords(o.Asked[k].What)) {
				return o, &o.Asked[k]
			}
		}
	}
	return nil, nil
}

// plainWords writes an id or a name in small letters with single blanks.
func plainWords(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(s, "-", " ")), " "))
}

// Range says the limits of new, "0.002 to 0.006 in"; "" if none are known.
func (r Fitted) Range() string {
	if r.Low == nil && r.High == nil {
		return ""
	}
	return Asked{Low: r.Low, High: r.High, Unit: r.Unit}.Range()
}

// FittedPart is one part as it stands fitted: the last word on each of its sizes, fasteners and shims.
type FittedPart struct {
	What      string   `json:"what"` // the place, or the tag with words
	Subsystem string   `json:"subsystem,omitempty"`
	Tag       string   `json:"tag,omitempty"`
	Readings  []Fitted `json:"readings"`
	Torques   []Torque `json:"torques"`
	Shims     []Shim   `json:"shims"`
	OneUse    []string `json:"one_use"`
	Safety    bool     `json:"safety"`
	Second    string   `json:"second,omitempty"` // who looked it over since it was last fitted
	Why       []string `json:"why"`              // why what is not new will do
	Fitted    Stamp    `json:"fitted"`
}

// BuildSheet is what was fitted, to which sizes and by whom, in the order it was first fitted.
func (s *Story) BuildSheet() []FittedPart {
	sheet := []FittedPart{}
	open := s.Unchecked()
	for _, f := range s.Fits {
		i := slices.IndexFunc(sheet, func(p FittedPart) bool { return p.What == f.Words() })
		if i < 0 {
			i = len(sheet)
			sheet = append(sheet, FittedPart{What: f.Words(), Subsystem: f.Subsystem, Readings: []Fitted{}, Torques: []Torque{}, Shims: []Shim{}, OneUse: []string{}, Why: []string{}})
		}
		sheet[i].add(f)
	}
	for i := range sheet {
		if slices.Contains(open, sheet[i].What) {
			sheet[i].Second = ""
		}
	}
	return sheet
}

// add lays a fit over what was fitted before. What only looks it over changes nobody's work.
func (p *FittedPart) add(f Fit) {
	if f.Second != "" {
		p.Second = f.Second
	}
	p.Safety = p.Safety || f.Safety
	if f.looksOver() && !p.Fitted.At.IsZero() {
		return
	}
	p.Fitted = f.Stamp
	if f.Tag != "" {
		p.Tag = f.Tag
	}
	for _, r := range f.Readings {
		p.Readings = standing(p.Readings, r, func(r Fitted) string { return r.Check + "/" + r.Station })
	}
	for _, t := range f.Torques {
		p.Torques = standing(p.Torques, t, func(t Torque) string { return strings.ToLower(t.Fastener) })
	}
	if len(f.Shims) > 0 {
		p.Shims = f.Shims
	}
	for _, o := range f.OneUse {
		p.OneUse = appendNew(p.OneUse, o)
	}
	if f.Why != "" {
		p.Why = append(p.Why, f.Why)
	}
}

// OneUseLeft names the one-use items that the agreed work on a part, the part itself and opening it up call for, and that were not named as
// used there: a reminder, no refusal.
func (s *Story) OneUseLeft(u UnitSheet, t Target, used []string) []string {
	place := Place{Subsystem: u.Subsystem, Unit: u.Unit, Target: t}
	var want []string
	ask := func(key, name string) {
		if !slices.ContainsFunc(used, func(w string) bool { return namesItem(w, key, name) }) {
			want = appendNew(want, name)
		}
	}
	for _, f := range s.Fits {
		if f.Subsystem == u.Subsystem && f.Unit == u.Unit && f.Target == t {
			used = append(slices.Clip(used), f.OneUse...)
		}
	}
	for _, l := range s.AgreedOrder().Lines {
		if l.Kind == LineReserve || !slices.Contains(l.Places, place) {
			continue
		}
		for _, i := range l.Items {
			if i.OneUse {
				ask(i.Key, i.Name)
			}
		}
	}
	p := u.Sheet.Part(t.Part)
	if p == nil {
		return want
	}
	if p.OneUse {
		ask(p.ID, p.Name)
	}
	for _, step := range u.Sheet.Steps {
		if !slices.Contains(p.Reach, step.ID) {
			continue
		}
		for _, i := range step.OneUse {
			ask(i.Key, i.Name)
		}
	}
	return want
}

// namesItem reports whether words mean an item: its key, or enough of its name.
func namesItem(words, key, name string) bool {
	w, k, n := plainWords(words), plainWords(key), plainWords(name)
	return w != "" && (w == k || strings.Contains(n, w) || strings.Contains(w, n))
}
