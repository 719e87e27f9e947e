package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// benchesPage lists the subsystems of a job.
type benchesPage struct {
	frame
	Subsystems []Subsystem
}

func (s *Server) showBenches(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	names, err := s.Readings.Subsystems(r.Context(), story.Job.Number)
	if err != nil {
		return err
	}
	return s.show(w, http.StatusOK, "benches", benchesPage{s.jobFrame(r, "Bench", &story.Job), names})
}

// benchPage is one subsystem with all that is asked of it, in bench order.
type benchPage struct {
	frame
	Subsystem   string // "gearbox" or "gearbox@gearbox-2"
	SheetTitle  string
	Silent      bool        // it is not assessed at present
	Why         []benchNote // it is not
	Parts       []benchPart
	Notes       []benchNote // of no part in particular
	Cautions    []core.Caution
	Instruments []Zeroed
	Read, Asked int
}

// benchPart is a part at a position, with its grade as it stands.
type benchPart struct {
	core.Place
	Name      string
	Safety    bool
	Grade     string // in words; with how many are read where that matters
	Why       string // what the governing check found
	Gauge     *core.Gauge
	Groups    []benchGroup // that begin with it
	Notes     []benchNote
	Questions []question
}

// Anchor is the part's name within the page.
func (p benchPart) Anchor() string { return strings.ReplaceAll(p.Target.String(), "/", "-") }

// question is one check at one station: what to read, with what, against which limit, and what was read.
type question struct {
	core.Place
	Part    string // its name
	Check   core.Check
	Station string
	Limit   core.Limit
	Nominal string // the figure that the last digits are typed against; "" if there is none
	Direct  bool   // the page can work out by itself how far a reading is worn
	Before  bool   // it can only be read before the unit comes apart
	Answers []core.Finding
	Worked  string // what was worked out from other readings; "" where it was not
}

// Derived reports that it is worked out from other readings, though it may be read besides.
func (q question) Derived() bool { return q.Check.Kind == core.Derived && q.Station == "" }

// Answered says what was read, the last first; both stand where two disagree. What was worked out is said where nothing was read.
func (q question) Answered() string {
	if len(q.Answers) == 0 && q.Worked != "" {
		return q.Worked + ", worked out"
	}
	var words []string
	for _, f := range slices.Backward(q.Answers) {
		if s := f.AsTyped; !slices.Contains(words, s) {
			words = append(words, s)
		}
	}
	return strings.Join(words, " and ")
}

// Differing are the readings of it where they do not agree.
func (q question) Differing() []core.Finding {
	for _, f := range q.Answers {
		if f.AsTyped != q.Answers[0].AsTyped {
			return q.Answers
		}
	}
	return nil
}

// Key names the question within its subsystem: "crankpin/P1 diameter FV".
func (q question) Key() string {
	return strings.TrimRight(strings.Join([]string{q.Target.String(), q.Check.ID, q.Station}, " "), " ")
}

// sheetOf is the job and the subsystem that an address names, with what was found.
func (s *Server) sheetOf(r *http.Request) (story core.Story, sheet core.UnitSheet, findings []core.Finding, err error) {
	if story, err = s.Stories.Story(r.Context(), r.PathValue("job")); err == nil {
		sheet, findings, err = s.Readings.Bench(r.Context(), story.Job.Number, r.PathValue("subsystem"))
	}
	return story, sheet, findings, err
}

func (s *Server) showBench(w http.ResponseWriter, r *http.Request) error {
	story, sheet, findings, err := s.sheetOf(r)
	if err != nil {
		return err
	}
	instruments, err := s.Office.Zeroed(r.Context())
	if err != nil {
		return err
	}
	p := benchPage{frame: s.jobFrame(r, "Bench", &story.Job), Subsystem: r.PathValue("subsystem"), SheetTitle: TitleOf(sheet), Cautions: sheet.Sheet.Cautions, Instruments: instruments}
	p.Title = p.SheetTitle + ", " + story.Job.Number
	p.fill(sheet, findings)
	return s.show(w, http.StatusOK, "bench", p)
}

// Questions counts what a sheet asks to be read of a unit, and how much of it is.
func Questions(us core.UnitSheet, findings []core.Finding) (read, asked int) {
	var p benchPage
	p.fill(us, findings)
	return p.Read, p.Asked
}

// fill lays the sheet out, with what was found.
func (p *benchPage) fill(us core.UnitSheet, findings []core.Finding) {
	p.Silent = us.Failed
	for i := range us.Sheet.Parts {
		part := &us.Sheet.Parts[i]
		for _, t := range part.Targets() {
			place := core.Place{Subsystem: us.Subsystem, Unit: us.Unit, Target: t}
			b := benchPart{Place: place, Name: strings.TrimSpace(part.Name + " " + t.Position), Safety: part.SafetyCritical, Grade: "not graded yet"}
			var found core.Condition
			if k := slices.IndexFunc(us.Assessment.Conditions, func(c core.Condition) bool { return c.Target == t }); k >= 0 {
				found = us.Assessment.Conditions[k]
				b.grade(us, part, found)
			}
			for _, c := range part.Checks {
				b.ask(us, found, c, findings)
			}
			for _, q := range b.Questions {
				if q.Derived() {
					continue
				}
				p.Asked++
				if len(q.Answers) > 0 {
					p.Read++
				}
			}
			if len(b.Questions) > 0 {
				p.Parts = append(p.Parts, b)
			}
		}
	}
	p.notes(us)
}

// grade says how a part stands.
func (b *benchPart) grade(us core.UnitSheet, part *core.Part, c core.Condition) {
	b.Grade = c.Grade.String()
	if alwaysNew(us, c) {
		b.Grade = "always new"
	}
	if c.Grade == core.NotSeen {
		b.Grade = count(c.ReadingsTaken, "of", "of") + " " + count(c.ReadingsNeeded, "read", "read")
	}
	if c.Grade != core.WithinNew && c.Grade != core.NotSeen { // as new needs no reason, and what is to be read stands below
		for _, reason := range c.Reasons {
			if reason.Check == c.GoverningCheck {
				b.Why = reason.Text
				break
			}
		}
	}
	b.Gauge = core.GaugeOf(us, part, c)
}

// ask adds what a check asks, a question a station.
func (b *benchPart) ask(us core.UnitSheet, found core.Condition, c core.Check, findings []core.Finding) {
	if c.Kind == core.OneUse {
		return
	}
	stations := c.Stations
	if len(stations) == 0 {
		stations = []string{""}
	}
	limit := core.LimitFor(c, b.Target, us.Overrides)
	for _, station := range stations {
		q := question{Place: b.Place, Part: b.Name, Check: c, Station: station, Limit: limit, Before: c.BeforeStrip,
			Direct: c.Kind == core.Measured && c.Formula == ""}
		if n := limit.Nominal(); n != nil && c.Kind == core.Measured {
			q.Nominal = strconv.FormatFloat(*n, 'f', decimals(limit), 64)
		}
		for _, f := range findings {
			if f.Target == b.Target && f.Check == c.ID && f.Station == station {
				q.Answers = append(q.Answers, f)
			}
		}
		if i := slices.IndexFunc(found.Facts, func(f core.Fact) bool { return f.Name == c.ID && f.Value.Kind == core.ValueQuantity }); i >= 0 && q.Derived() {
			q.Worked = found.Facts[i].Value.Quantity.String()
		}
		b.Questions = append(b.Questions, q)
	}
}

// decimals is how many figures after the point a limit is written with: those that a reading against it has.
func decimals(l core.Limit) int {
	most := 0
	for _, v := range []*float64{l.NewLow, l.NewHigh, l.WearLow, l.WearHigh} {
		if v != nil {
			_, after, _ := strings.Cut(core.FormatNumber(*v), ".")
			most = max(most, len(after))
		}
	}
	return most
}

// benchData is how a page is told what is asked: enough to answer it without a signal.
type benchData struct {
	Subsystem string     `json:"subsystem"`
	Unit      string     `json:"unit"`
	Parts     []partData `json:"parts"`
	With      []toolData `json:"with"` // the shop's instruments
	Beside    besides    `json:"beside"`
}

// besides are the measures that stand beside a reading in the other system, by its own.
type besides map[string]besideData

type besideData struct {
	To      string  `json:"to"`
	By      float64 `json:"by"`
	Plus    float64 `json:"plus"`
	Figures int     `json:"figures"` // behind the point, more or less than typed
}

// besidesOf gives them; they are the same on every page.
func besidesOf() besides {
	out := besides{}
	for _, x := range []struct {
		unit, to string
		figures  int
	}{{"in", "mm", -1}, {"mm", "in", 2}, {"thou", "mm", 3}, {"lbf-in", "N m", 1}, {"lbf-ft", "N m", 0}, {"lbf", "N", 0}, {"lbf/in", "N/mm", 2}, {"psi", "kPa", 0}, {"inHg", "kPa", 0}, {"lb", "kg", 2}, {"oz", "g", 0}, {"degF", "degC", 0}} {
		by, err := core.ConvertSpan(1, x.unit, x.to)
		plus, other := core.Convert(0, x.unit, x.to)
		if err == nil && other == nil {
			out[x.unit] = besideData{x.to, by, plus, x.figures}
		}
	}
	return out
}

// toolData is an instrument, with the last look at its zero.
type toolData struct {
	Name string `json:"name"`
	Unit string `json:"unit,omitempty"` // that it reads in
	Zero string `json:"zero,omitempty"` // RFC 3339; "" if nobody has looked yet
	Off  string `json:"off,omitempty"`  // as it read then; "" on zero
}

type partData struct {
	Part     string      `json:"part"`
	Position string      `json:"position,omitempty"`
	Name     string      `json:"name"`
	Checks   []checkData `json:"checks"`
}

// checkData is a check of a part; of a measured one the page works out by itself how far a reading is worn.
type checkData struct {
	Check      string      `json:"check"`
	Name       string      `json:"name"`
	Kind       string      `json:"kind"`
	Measure    string      `json:"measure,omitempty"` // unit of measure of a bare number
	Nominal    string      `json:"nominal,omitempty"`
	New        *[2]*number `json:"new,omitempty"` // low and high
	Wear       *[2]*number `json:"wear,omitempty"`
	Wanted     string      `json:"wanted,omitempty"` // new and limit, in words
	How        string      `json:"how,omitempty"`
	Instrument string      `json:"instrument,omitempty"`
	Tool       string      `json:"tool,omitempty"`     // the shop's instrument that it names
	TwoSided   bool        `json:"twoSided,omitempty"` // outside new on either side is not fit
	Stations   []string    `json:"stations,omitempty"`
}

type number = float64

// Data is the page's questions for its script.
func (p benchPage) Data() benchData {
	d := benchData{With: []toolData{}, Parts: []partData{}, Beside: besidesOf()}
	var instruments []core.Instrument
	for _, i := range p.Instruments {
		instruments = append(instruments, i.Instrument)
		t := toolData{Name: i.Name, Unit: i.Unit}
		if i.Zero != nil {
			t.Zero, t.Off = i.Zero.At.UTC().Format(time.RFC3339), i.Zero.Off
		}
		d.With = append(d.With, t)
	}
	for _, b := range p.Parts {
		d.Subsystem, d.Unit = b.Subsystem, b.Unit
		part := partData{Part: b.Part, Position: b.Position, Name: b.Name}
		for _, q := range b.Questions {
			n := len(part.Checks) - 1
			if n < 0 || part.Checks[n].Check != q.Check.ID {
				c := checkData{Check: q.Check.ID, Name: q.Check.Name, Kind: string(q.Check.Kind), Measure: q.Check.Unit, Nominal: q.Nominal, Instrument: q.Check.Instrument,
					Wanted: q.Check.Wanted(q.Limit), How: q.Check.How, TwoSided: q.Check.TwoSided}
				if tool, ok := core.FindInstrument(instruments, q.Check.Instrument); ok {
					c.Tool = tool.Name
				}
				if q.Direct {
					c.New, c.Wear = &[2]*number{q.Limit.NewLow, q.Limit.NewHigh}, &[2]*number{q.Limit.WearLow, q.Limit.WearHigh}
				}
				part.Checks, n = append(part.Checks, c), n+1
			}
			if q.Station != "" {
				part.Checks[n].Stations = append(part.Checks[n].Stations, q.Station)
			}
		}
		d.Parts = append(d.Parts, part)
	}
	return d
}

// typedAt reads the time that a device gives a reading; one that is no time, or lies ahead, is now.
func (s *Server) typedAt(text string) time.Time {
	now := s.Clock().UTC()
	at, err := time.Parse(time.RFC3339, text)
	if err != nil || at.After(now.Add(time.Minute)) {
		return now
	}
	return at.UTC()
}
