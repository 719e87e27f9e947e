package core

import (
	"slices"
	"strings"
	"time"
)

// Job is one piece of work for one owner: a whole vehicle, some of its units, or one unit on the bench.
type Job struct {
	ID      string    `json:"id"`
	Number  string    `json:"number"` // as spoken and printed, e.g. "J-001"; unique in the shop
	Title   string    `json:"title"`
	Opened  time.Time `json:"opened"` // UTC
	State   string    `json:"state"`  // enquiry, arrived, strip agreed, ... (words, never codes)
	Owner   Party     `json:"owner"`
	Vehicle *Vehicle  `json:"vehicle,omitempty"` // nil: a unit on the bench, no vehicle
	Units   []Unit    `json:"units"`
	Brief   Brief     `json:"brief"`
	Extent  Extent    `json:"extent"`
	Pins    []Pin     `json:"pins,omitempty"`
	Left    []Left    `json:"left,omitempty"`
	// Overrides are this job's own limits, first in the order of model 2.
	Overrides []SubsystemOverride `json:"overrides,omitempty"`
	// Payers share what the job costs; none: the owner pays it all.
	Payers []Payer `json:"payers,omitempty"`
	// Stages are those in which the job is paid; none: the usual ones.
	Stages []StageShare `json:"stages,omitempty"`
	// Speakers are those beside owner and payers who may speak for the owner.
	Speakers []string `json:"speakers,omitempty"`
	// Labour is work that somebody does at an hour's charge of their own: the owner, a volunteer.
	Labour []Labour `json:"labour,omitempty"`
	// Moved are parts of one unit that go into another.
	Moved []Transplant `json:"moved,omitempty"`
	// Seed of the budget's trials: kept so that paper and screen agree.
	Seed uint64 `json:"seed"`
}

// Labour is the work of a subsystem that one person does at their own charge.
type Labour struct {
	Subsystem string `json:"subsystem"`
	Who       string `json:"who"`
	Hour      Money  `json:"hour,omitzero"` // zero: the hours are kept, nothing is charged
}

// Transplant is a part of one unit that is used in another: what was found on it there counts here.
type Transplant struct {
	From Place  `json:"from"`
	To   Place  `json:"to"`
	Why  string `json:"why"`
	By   string `json:"by"`
}

// Vehicle is what stands in the yard, by its plate.
type Vehicle struct {
	Title string `json:"title"`
	Pack  string `json:"pack,omitempty"` // vehicle pack id; "" if there is none
	Marks []Mark `json:"marks,omitempty"`
}

// Unit is a complete assembly with an identity of its own. What matters is the unit
// that is there, not the plate on the bulkhead.
type Unit struct {
	ID    string `json:"id"`   // unique in the job, e.g. "engine", "gearbox-2"
	Kind  string `json:"kind"` // engine, gearbox, ...: joins it to the sheets of that kind
	Title string `json:"title"`
	Pack  string `json:"pack,omitempty"` // unit pack id; "" if there is none
	Marks []Mark `json:"marks,omitempty"`
	Facts []Fact `json:"facts,omitempty"` // facts read off this very unit; win over its pack
	// Role is where it stands: one of UnitRoles; "" is in the job's work.
	Role string `json:"role,omitempty"`
	// Belongs is what the owner decided of a unit that another vehicle left with: one of BelongsWords, or "" while undecided.
	Belongs string `json:"belongs,omitempty"`
	Worth   *Money `json:"worth,omitempty"` // of a unit that is sold on, or may be
}

// The roles of a unit.
const (
	UnitSpare = "spare" // looked at, its parts may go into another; not rebuilt
	UnitOut   = "out"   // taken out of the job: sold on, or put aside
)

// UnitRoles are what a unit may be to a job.
var UnitRoles = []string{"", UnitSpare, UnitOut}

// BelongsWords are what an owner may decide of a unit that does not belong.
var BelongsWords = []string{"kept as is", "corrected", "kept but noted", "sold on"}

// Extent says how far the vehicle comes apart. Outside it nothing is reserved.
type Extent struct {
	Kind string `json:"kind"` // one of the Extent constants
	// Names are unit ids or subsystem names, for ExtentNamed.
	Names []string `json:"names,omitempty"`
	// Apart are steps done before the job arrived: they cost refit only.
	Apart []string `json:"apart,omitempty"`
}

// The extents.
const (
	ExtentBareFrame = "to the bare frame"
	ExtentNamed     = "named units or subsystems"
	ExtentAsNeeded  = "as needed"
	ExtentBench     = "one unit on the bench" // no vehicle: steps of the vehicle do not exist
)

// Brief is what the owner wants and how the vehicle has lived.
type Brief struct {
	Use          string   `json:"use"`
	Originality  int      `json:"originality"` // 1 usable .. 4 conserve (levels O1-O4)
	HorizonKM    float64  `json:"horizon_km"`
	HorizonYears float64  `json:"horizon_years"`
	Stored       string   `json:"stored,omitempty"` // dry, damp, outdoors, water; "" unknown
	Ran          string   `json:"ran,omitempty"`    // within 2 years, longer, never seen
	Worked       string   `json:"worked,omitempty"` // hard, light
	ServiceKM    *float64 `json:"service_km,omitempty"`
	AgeYears     *float64 `json:"age_years,omitempty"`
	// OriginalityOf are the levels of subsystems that are to be kept otherwise than the rest.
	OriginalityOf []SubsystemLevel `json:"originality_of,omitempty"`
	Most          *Money           `json:"most,omitempty"`       // the most to be spent, expected, before tax; nil: not said
	WeekWorth     *Money           `json:"week_worth,omitempty"` // what a week less of waiting is worth to the owner; nil: nothing
}

// SubsystemLevel is the originality asked for in one subsystem, 1 usable .. 4 conserve.
type SubsystemLevel struct {
	Subsystem string `json:"subsystem"`
	Level     int    `json:"level"`
}

// Of is the brief as it stands for one subsystem.
func (b Brief) Of(subsystem string) Brief {
	for _, l := range b.OriginalityOf {
		if l.Subsystem == subsystem {
			b.Originality = l.Level
		}
	}
	return b
}

// Place is a part of a unit of a subsystem: the address of a condition and of a choice.
type Place struct {
	Subsystem string `json:"subsystem"`
	Unit      string `json:"unit"`
	Target
}

// String gives "subsystem/part/position", with "@unit" after the subsystem if the unit is not named after it.
func (p Place) String() string { return p.Bench() + "/" + p.Target.String() }

// Words is the place as it is spoken of where the sheet's own names are not at hand: "bottom end: crankpin P4".
func (p Place) Words() string {
	return strings.TrimSpace(strings.ReplaceAll(p.Subsystem+": "+p.Part, "-", " ") + " " + p.Position)
}

// Bench is the subsystem as it is addressed: "gearbox", or "gearbox@gearbox-2" if the unit is not named after it.
func (p Place) Bench() string {
	if p.Unit == "" || p.Unit == p.Subsystem {
		return p.Subsystem
	}
	return p.Subsystem + "@" + p.Unit
}

// Target is a part and its position within one subsystem; Position is "" for a single part.
type Target struct {
	Part     string `json:"part"`
	Position string `json:"position"`
}

// String gives "part/position" or "part".
func (t Target) String() string {
	if t.Position == "" {
		return t.Part
	}
	return t.Part + "/" + t.Position
}

// Pin is the mechanic's own choice for a part, with the reason. It never reopens what safety closed.
type Pin struct {
	Place
	Remedy string `json:"remedy"`
	Reason string `json:"reason"`
	By     string `json:"by"`
}

// Left is the owner's recorded word that a part is left as it is.
type Left struct {
	Place
	Reason string `json:"reason"`
	By     string `json:"by"`
	Safety bool   `json:"safety,omitempty"` // the part is safety-critical: the vehicle leaves on a trailer
}

// SayLeast says what the least money is that a plan of the job may come to.
func (j Job) SayLeast() string {
	if slices.ContainsFunc(j.Left, func(l Left) bool { return l.Safety }) {
		return "the least with every safety item done but what the owner leaves"
	}
	return "the least with every safety item done"
}

// SubsystemOverride is one limit of one check, by the job or by a pack.
type SubsystemOverride struct {
	Subsystem string `json:"subsystem"`
	Override
}
