package core

// CheckKind is how a check is answered.
type CheckKind string

// The kinds of check.
const (
	Measured CheckKind = "measured"
	Derived  CheckKind = "derived" // from stations or other checks, by a formula
	Counted  CheckKind = "counted"
	Judged   CheckKind = "judged" // damage class 0-3
	GoNoGo   CheckKind = "go/no-go"
	OneUse   CheckKind = "one-use" // always new; never fails, always on the order
)

// Limit is what a reading is judged against, and where it comes from. Absent bounds are nil.
type Limit struct {
	NewLow     *float64 `json:"new_low,omitempty"`
	NewHigh    *float64 `json:"new_high,omitempty"`
	WearLow    *float64 `json:"wear_low,omitempty"`  // under it: past limit
	WearHigh   *float64 `json:"wear_high,omitempty"` // over it: past limit
	WorstClass *int     `json:"worst_class,omitempty"`
	Unit       string   `json:"unit"`
	Source     string   `json:"source"`
	Confidence string   `json:"confidence"` // high, medium, low
	Origin     string   `json:"origin"`     // sheet, vehicle, unit, job
}

// Check is one question about a part.
type Check struct {
	ID              string    `json:"id"`
	Name            string    `json:"name"`
	Kind            CheckKind `json:"kind"`
	Unit            string    `json:"unit"`
	Stations        []string  `json:"stations,omitempty"`
	How             string    `json:"how"`
	Instrument      string    `json:"instrument"`
	Limit           Limit     `json:"limit"`
	TwoSided        bool      `json:"two_sided"`
	BeforeStrip     bool      `json:"before_strip"` // can only be read before the unit comes apart
	NeededForReuse  bool      `json:"needed_for_reuse"`
	Minutes         float64   `json:"minutes"`
	PlausibleLow    *float64  `json:"plausible_low,omitempty"`
	PlausibleHigh   *float64  `json:"plausible_high,omitempty"`
	Formula         string    `json:"formula,omitempty"` // CEL, for derived checks
	CountWhenFitted float64   `json:"count_when_fitted,omitempty"`
}

// Life is how long a part lasts: the typical distance or time, and the spread of its logarithm.
type Life struct {
	Typical float64 `json:"typical"`
	Unit    string  `json:"unit"` // km or a (years)
	Sigma   float64 `json:"sigma"`
	Source  string  `json:"source"`
}

// State is one thing a part may turn out to be.
type State struct {
	Chance     float64  `json:"chance"` // 0..1; the states of a part sum to 1
	Grade      Grade    `json:"grade"`
	Remedies   []string `json:"remedies"` // feasible in this state; never empty
	RegisterID string   `json:"register_id,omitempty"`
}

// Part is one kind of part of a subsystem, at each of its positions.
type Part struct {
	ID             string   `json:"id"`
	Name           string   `json:"name"`
	Positions      []string `json:"positions,omitempty"` // empty: a single part
	Count          int      `json:"count"`               // pieces per position
	SafetyCritical bool     `json:"safety_critical"`
	OneUse         bool     `json:"one_use"`
	Checks         []Check  `json:"checks"`
	Reach          []string `json:"reach,omitempty"` // steps that must be open to get at it
	Life           *Life    `json:"life,omitempty"`
	Outlook        []State  `json:"outlook,omitempty"` // before anything of it is seen
}

// Targets lists the part at each of its positions.
func (p Part) Targets() []Target {
	if len(p.Positions) == 0 {
		return []Target{{Part: p.ID}}
	}
	ts := make([]Target, len(p.Positions))
	for i, pos := range p.Positions {
		ts[i] = Target{p.ID, pos}
	}
	return ts
}

// Check returns the part's check by id, or nil.
func (p *Part) Check(id string) *Check {
	for i := range p.Checks {
		if p.Checks[i].ID == id {
			return &p.Checks[i]
		}
	}
	return nil
}

// Set binds parts that may only be used together.
type Set struct {
	ID                  string   `json:"id"`
	Name                string   `json:"name"`
	Members             []Target `json:"members"`
	SameKind            bool     `json:"same_kind,omitempty"` // all members take the same kind of remedy ...
	AgreeOn             string   `json:"agree_on,omitempty"`  // ... or agree on this yielded key
	CompleteBeforeOrder bool     `json:"complete_before_order"`
}

// NoReuse is a rule that nobody can override.
type NoReuse struct {
	ID      string       `json:"id"`
	Part    string       `json:"part"`
	Check   string       `json:"check"`
	Trigger Value        `json:"trigger"` // this value or worse
	Allowed []RemedyKind `json:"allowed"`
	Source  string       `json:"source"`
}

// Hidden is one row of the register of hidden damage.
type Hidden struct {
	ID          string   `json:"id"`
	Name        string   `json:"name"`
	Chance      float64  `json:"chance"`
	Parts       []Target `json:"parts,omitempty"`      // the parts it speaks of: it is their chance
	Operations  []string `json:"operations,omitempty"` // what it raises when it speaks of no part
	Times       float64  `json:"times"`                // how often the operations are paid
	HistoryKeys []string `json:"history_keys,omitempty"`
}

// Caution is a usual warning, shown where the step or the part is.
type Caution struct {
	Text   string `json:"text"`
	Part   string `json:"part,omitempty"`
	Step   string `json:"step,omitempty"`
	Source string `json:"source"`
}

// Range3 is low, likely and high, in the unit of its field.
type Range3 struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// Mean is the three-point mean (a + 4m + b) / 6.
func (r Range3) Mean() float64 { return (r.Low + 4*r.Likely + r.High) / 6 }

// Scale multiplies all three.
func (r Range3) Scale(k float64) Range3 { return Range3{r.Low * k, r.Likely * k, r.High * k} }

// Add adds low to low, likely to likely, high to high: they move together.
func (r Range3) Add(o Range3) Range3 {
	return Range3{r.Low + o.Low, r.Likely + o.Likely, r.High + o.High}
}

// longer is the range of the longer of two waits.
func (r Range3) longer(o Range3) Range3 {
	if o.Likely > r.Likely || o.Likely == r.Likely && o.High > r.High {
		return o
	}
	return r
}

// Money3 is a three-point price in decimal text; Currency is ISO 4217. All empty: no price.
type Money3 struct {
	Low      string `json:"low"`
	Likely   string `json:"likely"`
	High     string `json:"high"`
	Currency string `json:"currency"`
}

// Item is something bought or taken from the shelf for an operation.
type Item struct {
	Key         string  `json:"key"` // joins it to the price book
	Name        string  `json:"name"`
	Count       float64 `json:"count"`
	TypicalEach Money3  `json:"typical_each"`
	OneUse      bool    `json:"one_use"`
	TaxClass    string  `json:"tax_class"`
}

// Operation is work paid once a job however many remedies name it.
type Operation struct {
	ID          string    `json:"id"`
	Name        string    `json:"name"`
	Skill       string    `json:"skill"`
	Hours       Range3    `json:"hours"`
	Items       []Item    `json:"items,omitempty"`
	Outwork     Money3    `json:"outwork"`
	OutworkKind string    `json:"outwork_kind,omitempty"`
	LeadWeeks   Range3    `json:"lead_weeks"`
	ServedPer   string    `json:"served_per"`         // job, piece, pair, axle, set; unit: once a unit, also where another sheet of the unit has the same id
	Includes    []string  `json:"includes,omitempty"` // operations it makes unnecessary
	After       []string  `json:"after,omitempty"`    // operations of its sheet, whatever their pieces, that are done before it goes out or is begun
	Cautions    []Caution `json:"cautions,omitempty"`
}

// Sheet is what a subsystem asks the mechanic to look at, for one set of facts.
type Sheet struct {
	Subsystem     string      `json:"subsystem"`
	Title         string      `json:"title"`
	Version       string      `json:"version"`
	UnitKind      string      `json:"unit_kind"` // the kind of unit it describes: engine, gearbox, vehicle ...
	DefaultFacts  []Fact      `json:"default_facts,omitempty"`
	Parts         []Part      `json:"parts"`
	Steps         []Step      `json:"steps,omitempty"` // bench steps of its own, "gearbox:case-open"
	Sets          []Set       `json:"sets,omitempty"`
	NoReuse       []NoReuse   `json:"no_reuse,omitempty"`
	Hidden        []Hidden    `json:"hidden,omitempty"`
	Operations    []Operation `json:"operations"`
	Cautions      []Caution   `json:"cautions,omitempty"`
	OutlookWeight float64     `json:"outlook_weight"` // kappa of model 4; 0 means 4
}

// Part returns the sheet's part by id, or nil.
func (s *Sheet) Part(id string) *Part {
	for i := range s.Parts {
		if s.Parts[i].ID == id {
			return &s.Parts[i]
		}
	}
	return nil
}

// Check returns a check by part and id, or nil.
func (s *Sheet) Check(part, check string) *Check {
	if p := s.Part(part); p != nil {
		return p.Check(check)
	}
	return nil
}

// Override replaces one check's limit; Position "" means every position.
type Override struct {
	Target Target `json:"target"`
	Check  string `json:"check"`
	Limit  Limit  `json:"limit"`
}

// originRank orders where a limit comes from: this job's, the unit's pack, the vehicle's pack, the sheet.
func originRank(origin string) int {
	switch origin {
	case "job":
		return 3
	case "unit":
		return 2
	case "vehicle":
		return 1
	}
	return 0
}

// Rank orders overrides of one check, the larger wins: by origin, then the one for a position before the one for every position. It is 0 or
// 1 for an origin that no override can have.
func (o Override) Rank() int {
	rank := 2 * originRank(o.Limit.Origin)
	if o.Target.Position != "" {
		rank++
	}
	return rank
}

// LimitFor gives the limit that holds for a check at a target: the strongest override by origin, then the one for the position before the
// one for every position, else the check's own.
func LimitFor(c Check, t Target, overrides []Override) Limit {
	limit, best := c.Limit, -1
	for _, o := range overrides {
		if o.Check != c.ID || o.Target.Part != t.Part || o.Target.Position != "" && o.Target.Position != t.Position {
			continue
		}
		if rank := o.Rank(); rank > best {
			limit, best = o.Limit, rank
		}
	}
	if limit.Unit == "" {
		limit.Unit = c.Unit
	}
	return limit
}
