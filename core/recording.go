package core

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Typed is one finding as somebody wrote it: words, not yet looked up.
type Typed struct {
	Subsystem, Unit string // Unit is a unit of the job; "" for its only one
	Part, Position  string
	Check, Station  string
	Value, Measure  string // Measure is a unit of measure given apart from the value; "" if none
	Instrument      string
	By, Note        string
	At              time.Time
	ID              string // "" for a live entry
}

// Recorder looks typed findings up against the sheets of a job. It never guesses: what it cannot place is asked back.
type Recorder struct {
	Sheets      []UnitSheet
	Instruments []Instrument
	Served      []string         // names to offer where one is wrong; those of Sheets if nil
	Silent      map[string]error // subsystems that do not answer at present, with why
}

// Finding turns words into a finding, with the value in its unit. Errors are of code Invalid or NotFound and name the nearest
// known word; a finding on a subsystem that does not answer is Unavailable, whatever the fault.
func (r Recorder) Finding(t Typed) (Finding, error) {
	s, err := r.sheet(t.Subsystem, t.Unit)
	if err != nil {
		return Finding{}, err
	}
	part, err := lookup("part", t.Part, s.Sheet.Parts, func(p Part) (string, string) { return p.ID, p.Name })
	if err != nil {
		return Finding{}, err
	}
	position, err := placePosition(*part, t.Position)
	if err != nil {
		return Finding{}, err
	}
	check, err := r.check(*part, t)
	if err != nil {
		return Finding{}, err
	}
	station, err := placeStation(*part, *check, t.Station)
	if err != nil {
		return Finding{}, err
	}
	f := Finding{ID: t.ID, Subsystem: s.Subsystem, Unit: s.Unit, Target: Target{part.ID, position}, Check: check.ID, Station: station,
		By: t.By, At: t.At.UTC(), Note: t.Note, AsTyped: strings.TrimSpace(t.Value)}
	text := t.Value
	if t.Measure != "" && !strings.HasSuffix(strings.TrimSpace(text), t.Measure) && !isNotRead(text) {
		text += " " + t.Measure
		f.AsTyped += " " + t.Measure
	}
	c, name, err := r.context(*check, t.Instrument)
	if err != nil {
		return Finding{}, err
	}
	if check.Kind == Derived && station != "" {
		c.PlausibleLow, c.PlausibleHigh, c.Nominal = nil, nil, nil // they are the result's, not the station's
	}
	f.Instrument = name
	if f.Value, err = ReadValue(*check, c, text); err != nil {
		return Finding{}, err
	}
	return f, nil
}

func isNotRead(text string) bool {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	return slices.Contains(NotReadWords, NotRead(s))
}

func (r Recorder) sheet(subsystem, unit string) (*UnitSheet, error) {
	name, at, _ := strings.Cut(subsystem, "@")
	if unit == "" {
		unit = at
	}
	var names []string
	for i := range r.Sheets {
		s := &r.Sheets[i]
		if s.Subsystem == name && (unit == "" || s.Unit == unit) {
			return s, nil
		}
		names = appendNew(names, s.Subsystem)
	}
	if r.Served != nil {
		names = r.Served
	}
	if why := r.Silent[name]; why != nil {
		return nil, &Error{Code: Unavailable, What: plainCause(why), Next: ErrorNext(why), Err: why}
	}
	if name == "" {
		return nil, Errorf(Invalid, "name one of: "+strings.Join(names, ", "), "no subsystem is named")
	}
	return nil, Errorf(NotFound, "use one of: "+strings.Join(names, ", "), "this job has no subsystem %q", subsystem)
}

func (r Recorder) check(p Part, t Typed) (*Check, error) {
	if t.Check == "" && isNotRead(t.Value) && len(p.Checks) > 0 {
		return &p.Checks[0], nil // "missing" is said of the part; its first check carries the word
	}
	if t.Check == "" && len(p.Checks) == 1 {
		return &p.Checks[0], nil
	}
	return lookup("check of "+p.Name, t.Check, p.Checks, func(c Check) (string, string) { return c.ID, c.Name })
}

// context gathers what is known where the reading is typed. The instrument given wins over the sheet's.
func (r Recorder) context(c Check, typed string) (ReadingContext, string, error) {
	rc := ReadingContext{CheckUnit: c.Unit, PlausibleLow: c.PlausibleLow, PlausibleHigh: c.PlausibleHigh, Nominal: c.Limit.Nominal()}
	name := typed
	if name == "" {
		name = c.Instrument
	}
	in, ok := FindInstrument(r.Instruments, name)
	if !ok && typed != "" && (c.Kind == Measured || c.Kind == Derived) {
		var names []string
		for _, i := range r.Instruments {
			names = append(names, i.Name)
		}
		return rc, "", Errorf(NotFound, "use one of: "+strings.Join(names, ", ")+", or add it to instruments.yaml in the shop folder", "no instrument %q: its +/- is not known", typed)
	}
	if !ok {
		return rc, typed, nil
	}
	rc.Bound, rc.BoundUnit = in.Bound, in.BoundUnit
	if typed != "" { // only an instrument that was named says what a bare number is in
		rc.InstrumentUnit = in.Unit
	}
	return rc, in.Name, nil
}

// Nominal is the size on the drawing as far as a limit tells it: the top of a shaft, the bottom of a hole.
func (l Limit) Nominal() *float64 {
	switch {
	case l.WearLow != nil && l.WearHigh == nil && l.NewHigh != nil:
		return l.NewHigh
	case l.WearHigh != nil && l.WearLow == nil && l.NewLow != nil && *l.NewLow != 0:
		return l.NewLow
	}
	return nil
}

func placePosition(p Part, typed string) (string, error) {
	if len(p.Positions) == 0 {
		if typed == "" || strings.EqualFold(typed, "single") {
			return "", nil
		}
		return "", Errorf(Invalid, "leave the position out", "%s has no positions, so %q is nowhere", p.Name, typed)
	}
	for _, q := range p.Positions {
		if strings.EqualFold(q, typed) {
			return q, nil
		}
	}
	what := fmt.Sprintf("%s has no position %q", p.Name, typed)
	if typed == "" {
		what = "which " + p.Name + "?"
	}
	return "", Errorf(Invalid, "use one of: "+strings.Join(p.Positions, ", "), "%s", what)
}

func placeStation(p Part, c Check, typed string) (string, error) {
	if typed == "" {
		return "", nil
	}
	for _, s := range c.Stations {
		if strings.EqualFold(s, typed) {
			return s, nil
		}
	}
	if len(c.Stations) == 0 {
		return "", Errorf(Invalid, "leave the station out", "%s: %s is read at one place only, not at %q", p.Name, c.Name, typed)
	}
	return "", Errorf(Invalid, "use one of: "+strings.Join(c.Stations, ", "), "%s: %s has no station %q", p.Name, c.Name, typed)
}

// lookup finds a thing by its id or its name, else names the nearest.
func lookup[T any](what, word string, list []T, names func(T) (id, name string)) (*T, error) {
	if word == "" {
		return nil, Errorf(Invalid, "see: fettle sheet NAME", "no %s is named", what)
	}
	var ids []string
	for i := range list {
		id, name := names(list[i])
		if strings.EqualFold(id, word) || strings.EqualFold(name, word) || strings.EqualFold(strings.ReplaceAll(id, "-", " "), word) {
			return &list[i], nil
		}
		ids = append(ids, id)
	}
	next := "see: fettle sheet NAME"
	if n := Nearest(word, ids); n != "" {
		next = fmt.Sprintf("did you mean %q?", n)
	}
	return nil, Errorf(NotFound, next, "no %s called %q", what, word)
}

// Nearest gives the word of a list that differs least from word, or "" if none is near (more than a third of its letters off).
func Nearest(word string, list []string) string {
	best, at := len(word)/3+2, ""
	for _, w := range list {
		if d := distance(strings.ToLower(word), strings.ToLower(w)); d < best {
			best, at = d, w
		}
	}
	return at
}

// distance is the number of letters to change, add or take out.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		last := row[0]
		row[0] = i + 1
		for j := range len(b) {
			d := last
			if a[i] != b[j] {
				d = 1 + min(last, row[j], row[j+1])
			}
			last, row[j+1] = row[j+1], d
		}
	}
	return row[len(b)]
}
