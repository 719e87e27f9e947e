package core

import (
	"context"
	"strings"
)

// Selection is the choice put as sums (model 6): indices into its own slices, money in minor units of
// one currency. It is what a Decider is given; Planner builds it from assessments and prices.
type Selection struct {
	Parts      []SelectPart
	Operations []SelectOperation
	Steps      []SelectStep
	Sets       []SelectSet
	Bonds      []Bond
	// Events are the register entries that speak of parts: their states hang on one draw.
	Events []SelectEvent
	// Cap, if not nil, is the most that the expected money may be: then the least risk under it is sought.
	Cap *int64
	// Bare asks for no Marginals under a Cap: they take most of the time.
	Bare bool
}

// Unsuited is the error of a Decider where no remedies of some parts go together.
type Unsuited struct {
	Err   *Error
	Parts []int // of the Selection
}

// Error says which parts they are.
func (u *Unsuited) Error() string { return u.Err.Error() }

// Unwrap gives the error with its code and its advice.
func (u *Unsuited) Unwrap() error { return u.Err }

// SelectPart is one part with the remedies that some state allows.
type SelectPart struct {
	ID      string // Place.String(), for ties
	Name    string // in messages; "": the ID
	Options []SelectOption
	States  []SelectState // at least one; chances sum to 1
}

// SelectOption is one remedy of a part.
type SelectOption struct {
	ID         string
	Name       string // in messages; "": the ID
	Kind       RemedyKind
	Operations []int   // needed, sorted
	Steps      []int   // to be open, sorted; predecessors are the decider's to close over
	Risk       int64   // q x redo, minor units
	Yields     []Yield // for sets that agree
}

// SelectState is one thing the part may turn out to be.
type SelectState struct {
	Chance  float64
	Options []int // feasible, sorted; never empty
	Event   int   // index of the event whose happening is this state; -1: none
	// NotEvent marks the state that holds when that event does not happen.
	NotEvent bool
	Grade    Grade
	// Prior is the chance before what this job has shown, for a bad state of an unseen part; 0 for the others.
	Prior float64
}

// SelectEvent is one draw shared by the states that name it.
type SelectEvent struct {
	ID     string
	Chance float64
}

// SelectOperation is an operation and what it costs, paid once if needed and not included by another that is needed.
type SelectOperation struct {
	ID       string
	Cost     int64 // expected, minor units
	Includes []int // closed transitively
}

// SelectStep is a step and what it costs to open and close.
type SelectStep struct {
	ID    string
	Cost  int64 // strip + refit, minor units; only what is still to be paid
	AllOf []int
	AnyOf [][]int
	Open  bool // open whatever is chosen (the extent)
}

// SelectSet binds parts: same kind, or agreement on a yielded key. Options without the key agree with nothing
// but each other.
type SelectSet struct {
	ID       string
	Name     string // in messages; "": the ID
	Members  []int
	SameKind bool
	AgreeOn  string
}

// Bond is a requires or an excludes between two remedies: x <= x', or x + x' <= 1.
type Bond struct {
	Part, Option           int
	OtherPart, OtherOption int
	Excludes               bool
}

// Infeasible is the value of a sum that no choice reaches.
const Infeasible = int64(1) << 62

// Selected is a Decider's answer. Parts are as in the Selection. Under a Cap, Value, Bound and Marginals are sums of
// risk alone (Money is within the cap), Without is Infeasible, and Marginals may be nil where they would take too long.
type Selected struct {
	// Choice is the option of each part; -1 for a part that is undecided or belongs to a block that
	// is drawn state by state and differs between them.
	Choice []int
	// Steps and Operations open and paid in the optimum over parts with one state, extent included.
	Steps      []bool
	Operations []bool // paid: needed and not included by another needed one
	Value      int64  // the optimum: money + risk
	Money      int64  // its money alone
	Bound      int64  // no choice is cheaper than this
	Proven     bool   // Value = Bound
	Width      int    // induced width after branching on any-of clauses
	// Marginals holds for each part of the optimum and each option the least value with that option taken; Infeasible
	// if none; nil for a part that is not in the optimum.
	Marginals [][]int64
	// AtLeast holds, under a Cap, what no marginal is under, for each part of the optimum and each option.
	AtLeast [][]int64
	// Without holds for each operation the optimum when it may not be used; Infeasible if none. It is
	// computed for the operations that the optimum pays; 0 for the others.
	Without []int64
	// Blocks are the parts joined by sets and bonds with an unseen member, each with its joint options in
	// the order in which a trial takes the first feasible one.
	Blocks []Block
}

// Block is a set of parts that must be decided together, at least one of them not yet known (model 7).
type Block struct {
	Parts   []int
	Options []BlockOption // in order of operations + risk + steps beyond the optimum's
}

// BlockOption is one joint choice of a block.
type BlockOption struct {
	Choice     []int // per member, the option index
	Operations []int // needed, sorted
	Steps      []int // beyond the optimum's, predecessors included, sorted
	Value      int64 // operations + risk + steps beyond
}

// Decider chooses. It never fails on a well-formed Selection: an infeasible one is an *Error of code Invalid that
// names the parts in conflict. It does not change its argument. Ties: reuse, rebuild, replace, then id.
type Decider interface {
	Decide(ctx context.Context, s Selection) (Selected, error)
}

// Curver is a Decider that answers for many caps at once, sharing what they have in common: the curve of money against
// risk. Caps are minor units, in any order; the answers stand in the order of the caps, whatever sel.Cap is. Each is
// what Decide gives under that cap, but with Marginals nil throughout. Where nothing is as cheap as a cap its answer
// has a nil Choice, and Bound is the least money that would do; where none was found in time, Bound is no more than the
// cap. The error is one that holds whatever the cap is.
type Curver interface {
	Curve(ctx context.Context, sel Selection, caps []int64) ([]Selected, error)
}

// Choice is what was chosen for one part, and why.
type Choice struct {
	Place
	PartName  string     `json:"part_name"`
	Kind      RemedyKind `json:"choice"`
	Remedy    string     `json:"remedy"` // "" when undecided
	Name      string     `json:"name"`   // the remedy in words
	Reasons   []Reason   `json:"reasons"`
	RunnerUp  *RunnerUp  `json:"runner_up"`
	Unweighed bool       `json:"unweighed,omitempty"` // other remedies are open, and which of them is next was not worked out: it hangs on parts that are not seen, or takes too long
	FlipPrice *Money     `json:"flip_price"`          // at this price of its dearest operation the choice turns
	FlipOn    string     `json:"flip_on,omitempty"`
	Pinned    *Pin       `json:"pinned,omitempty"`
	PinCosts  *Money     `json:"pin_costs,omitempty"` // over the unpinned optimum
	Drags     []string   `json:"drags,omitempty"`     // parts whose labour is done with this one's, in whole or in part
	Shared    *Shared    `json:"shared,omitempty"`    // the labour of it that is done once for it and for others; nil: none worth telling
	Later     *Money     `json:"later,omitempty"`     // what it would cost to open it again later and replace it; nil for a part that needs no opening
	States    []State    `json:"states,omitempty"`    // when undecided
}

// Title is the part as it is spoken of: "Crankpin P4".
func (c Choice) Title() string { return strings.TrimSpace(c.PartName + " " + c.Position) }

// RunnerUp is the next best remedy and what it would cost more, risk counted in. Under a cap it may cost no more: then it is said what more it
// risks instead.
type RunnerUp struct {
	Remedy    string `json:"remedy"`
	Name      string `json:"name"`
	CostsMore *Money `json:"costs_more,omitempty"`
	RisksMore *Money `json:"risks_more,omitempty"`
	AtLeast   bool   `json:"at_least,omitempty"` // it may risk more than that: it would take too long to say exactly
}
