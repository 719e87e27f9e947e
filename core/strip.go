package core

// Step is one step of coming apart and going back together.
type Step struct {
	ID          string     `json:"id"`   // public name, instanced by position: "hub-off/LF"
	Name        string     `json:"name"` // in the words of the trade
	StripHours  Range3     `json:"strip_hours"`
	RefitHours  Range3     `json:"refit_hours"`        // zero: strip x 1.2 / 1.35 / 1.5 (common practice)
	NoRefit     bool       `json:"no_refit,omitempty"` // nothing goes back (a photograph, a wash)
	People      int        `json:"people"`
	Skill       string     `json:"skill"`
	AllOf       []string   `json:"all_of,omitempty"`
	AnyOf       [][]string `json:"any_of,omitempty"`   // of each clause at least one
	Destroys    []string   `json:"destroys,omitempty"` // readings lost: "subsystem/part/check"
	OneUse      []Item     `json:"one_use,omitempty"`
	Cautions    []Caution  `json:"cautions,omitempty"`
	Scope       string     `json:"scope,omitempty"`        // "vehicle", or a unit kind whose bench work it is
	BareFrame   bool       `json:"bare_frame,omitempty"`   // open when the extent is to the bare frame
	ConfirmHelp string     `json:"confirm_help,omitempty"` // what must be confirmed before it is offered
	Load        string     `json:"load,omitempty"`         // key of the weight lifted, in the pack
}

// RefitFactors turn strip hours into refit hours where a plan gives none (common practice, no source).
var RefitFactors = Range3{1.2, 1.35, 1.5}

// Refit gives the step's refit hours, by the factors if none are stated.
func (s Step) Refit() Range3 {
	if s.NoRefit {
		return Range3{}
	}
	if s.RefitHours != (Range3{}) {
		return s.RefitHours
	}
	return Range3{s.StripHours.Low * RefitFactors.Low, s.StripHours.Likely * RefitFactors.Likely, s.StripHours.High * RefitFactors.High}
}

// StripPlan is how a vehicle comes apart.
type StripPlan struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Steps []Step `json:"steps"`
	// BeforeAgreement are the steps that take nothing apart and so need nobody's yes: taking in, checks as found.
	BeforeAgreement []string `json:"before_agreement,omitempty"`
}

// Step returns a step by id, or nil.
func (p *StripPlan) Step(id string) *Step {
	for i := range p.Steps {
		if p.Steps[i].ID == id {
			return &p.Steps[i]
		}
	}
	return nil
}
