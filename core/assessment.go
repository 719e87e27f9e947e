package core

import (
	"context"
	"encoding/json"
	"fmt"
)

// Grade is how a part stands against its limits (model 3). The order is the order of badness:
// a part takes the largest of its checks' grades.
type Grade int

// The grades, from best to worst.
const (
	GradeNone    Grade = iota
	WithinNew          // better than or equal to the new limit
	WornFit            // 0 < w <= .5
	NearLimit          // .5 < w <= 1
	NotSeen            // a reading needed for reuse is not there
	MeasureAgain       // the true value may lie on either side of the limit
	TooTight           // beyond new on the tight side
	PastLimit          // past the wear limit with a chance of .95 or more
	Missing            // the part is not there
	Failed             // a no-reuse rule, or a class past the worst allowed
)

var gradeWords = [...]string{"", "within new", "worn, fit", "near limit", "not seen", "measure again", "too tight", "past limit", "missing", "failed"}

// String is the grade in the words printed.
func (g Grade) String() string {
	if g < 0 || int(g) >= len(gradeWords) {
		return fmt.Sprintf("grade %d", int(g))
	}
	return gradeWords[g]
}

// MarshalJSON writes the word.
func (g Grade) MarshalJSON() ([]byte, error) { return json.Marshal(g.String()) }

// UnmarshalJSON reads the word.
func (g *Grade) UnmarshalJSON(b []byte) error {
	var s string
	if err := json.Unmarshal(b, &s); err != nil {
		return err
	}
	for i, w := range gradeWords {
		if w == s {
			*g = Grade(i)
			return nil
		}
	}
	return fmt.Errorf("no grade %q", s)
}

// ClosesReuse reports whether the grade rules out reuse, for an ordinary or a safety-critical part (model 3).
// MeasureAgain on an ordinary part keeps reuse while p_past < .5: the caller decides that.
func (g Grade) ClosesReuse(safetyCritical bool) bool {
	switch g {
	case Failed, PastLimit, TooTight, Missing:
		return true
	case NearLimit, MeasureAgain, NotSeen:
		return safetyCritical
	}
	return false
}

// RemedyKind is what becomes of a part.
type RemedyKind string

// The kinds. Left and Undecided are the host's, never a plugin's.
const (
	Reuse     RemedyKind = "reuse"
	Rebuild   RemedyKind = "rebuild"
	Replace   RemedyKind = "replace"
	LeftAsIs  RemedyKind = "left"
	Undecided RemedyKind = "undecided"
)

// Rank orders kinds for ties: reuse, rebuild, replace, left.
func (k RemedyKind) Rank() int {
	switch k {
	case Reuse:
		return 0
	case Rebuild:
		return 1
	case Replace:
		return 2
	}
	return 3
}

// Reason is one sentence of why, with the ids behind it.
type Reason struct {
	Text       string   `json:"text"`
	FindingIDs []string `json:"finding_ids,omitempty"`
	Check      string   `json:"check,omitempty"`
	Rule       string   `json:"rule,omitempty"`
	Source     string   `json:"source,omitempty"`
}

// Yield is something a remedy leaves behind that others must agree with, e.g. main-undersize = .020.
type Yield struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// RemedyRef names a remedy of another part of the same subsystem.
type RemedyRef struct {
	Target Target `json:"target"`
	Remedy string `json:"remedy"`
}

// Remedy is one way to deal with one part.
type Remedy struct {
	ID                   string      `json:"id"`
	Target               Target      `json:"target"`
	Kind                 RemedyKind  `json:"kind"`
	Name                 string      `json:"name"`
	Feasible             bool        `json:"feasible"`
	Why                  []Reason    `json:"why,omitempty"`
	Operations           []string    `json:"operations,omitempty"`
	Steps                []string    `json:"steps,omitempty"` // beyond the part's reach
	WearAfter            *float64    `json:"wear_after,omitempty"`
	ResidualChance       float64     `json:"residual_chance"`
	CollateralOperations []string    `json:"collateral_operations,omitempty"`
	Yields               []Yield     `json:"yields,omitempty"`
	Requires             []RemedyRef `json:"requires,omitempty"`
	Excludes             []RemedyRef `json:"excludes,omitempty"`
	OriginalityMin       int         `json:"originality_min,omitempty"` // 0: any
	OriginalityMax       int         `json:"originality_max,omitempty"` // 0: any
	PinOnly              bool        `json:"pin_only,omitempty"`        // touches an identity: never chosen, only pinned
}

// Condition is how one part at one position was found.
type Condition struct {
	Target         Target   `json:"target"`
	Grade          Grade    `json:"grade"`
	Wear           *float64 `json:"wear"`   // w of model 3; nil where it has none
	WearU          *float64 `json:"wear_u"` // its standard uncertainty
	PPast          *float64 `json:"p_past"` // chance that the true value is past the limit
	GoverningCheck string   `json:"governing_check"`
	Reasons        []Reason `json:"reasons"`
	ChecksNotRead  []string `json:"checks_not_read,omitempty"`
	ReadingsTaken  int      `json:"readings_taken"`
	ReadingsNeeded int      `json:"readings_needed"`
	States         []State  `json:"states"`
	Facts          []Fact   `json:"facts,omitempty"` // what was worked out on the way, e.g. out-of-round
}

// Severity of a problem.
type Severity string

// The severities.
const (
	SeverityError   Severity = "error"
	SeverityWarning Severity = "warning"
	SeverityNote    Severity = "note"
)

// Problem is something wrong with the data or with a subsystem, pinned to its place. It is part of the
// answer; a Go error means that the call itself failed.
type Problem struct {
	Severity  Severity `json:"severity"`
	Subsystem string   `json:"subsystem,omitempty"`
	Unit      string   `json:"unit,omitempty"`
	Summary   string   `json:"summary"`
	Detail    string   `json:"detail,omitempty"`
	Next      string   `json:"next,omitempty"`
	FindingID string   `json:"finding_id,omitempty"`
	Target    Target   `json:"target,omitzero"`
	Check     string   `json:"check,omitempty"`
	Lacks     string   `json:"lacks,omitempty"` // what a sum is made without: LacksRate or LacksPrice
}

// What a sum may be made without.
const (
	LacksRate  = "rate"
	LacksPrice = "price"
)

// Assessment is what a subsystem says of one unit.
type Assessment struct {
	Conditions []Condition `json:"conditions"`
	Remedies   []Remedy    `json:"remedies"`
	Operations []Operation `json:"operations"` // concrete: instanced per piece, pair, axle or set
	Problems   []Problem   `json:"problems"`
}

// AssessRequest is what a subsystem is given to judge one unit.
type AssessRequest struct {
	Unit      string
	Facts     []Fact
	Brief     Brief
	Overrides []Override
	Findings  []Finding // live ones, of this unit and subsystem only
}

// Assessor judges one subsystem. The same input gives the same output, byte for byte.
type Assessor interface {
	// Describe gives the sheet for these facts. Bad facts are problems; an error means the call failed.
	Describe(ctx context.Context, facts []Fact) (Sheet, []Problem, error)
	// Assess judges one unit. Bad findings are problems; an error means the call failed.
	Assess(ctx context.Context, req AssessRequest) (Assessment, error)
}
