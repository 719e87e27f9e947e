package core

// Pack holds what is known of one vehicle model or one kind of unit: facts, limits, weights, marks.
type Pack struct {
	ID        string              `json:"id"`
	Title     string              `json:"title"`
	Kind      string              `json:"kind"`      // vehicle or unit
	UnitKind  string              `json:"unit_kind"` // for a unit pack: engine, gearbox ...
	Source    string              `json:"source"`
	Facts     []PackFact          `json:"facts,omitempty"`
	Overrides []SubsystemOverride `json:"overrides,omitempty"`
	Weights   []Weight            `json:"weights,omitempty"`
	Marks     []Mark              `json:"marks,omitempty"` // expected marks
	Steps     []Step              `json:"steps,omitempty"` // replace or extend the generic plan's, by id
	Sets      []CrossSet          `json:"sets,omitempty"`  // matched sets across subsystems
}

// PackFact is a fact for one subsystem.
type PackFact struct {
	Subsystem string `json:"subsystem"`
	Fact
}

// Weight is what a load weighs. Without one there is no sling, stand or castor figure.
type Weight struct {
	Key    string   `json:"key"`
	Weight Quantity `json:"weight"`
	Source string   `json:"source"`
}

// CrossSet is a matched set whose members lie in several subsystems.
type CrossSet struct {
	ID       string  `json:"id"`
	Name     string  `json:"name"`
	Members  []Place `json:"members"`
	SameKind bool    `json:"same_kind,omitempty"`
	AgreeOn  string  `json:"agree_on,omitempty"`
	Source   string  `json:"source"`
}

// FactsFor lists the pack's facts for a subsystem.
func (p *Pack) FactsFor(subsystem string) []Fact {
	var fs []Fact
	if p == nil {
		return nil
	}
	for _, f := range p.Facts {
		if f.Subsystem == subsystem {
			fs = append(fs, f.Fact)
		}
	}
	return fs
}
