package core

import (
	"context"
	"slices"
)

// Named is an Assessor with the subsystem it was asked for.
type Named struct {
	Subsystem string
	UnitKind  string // kind of unit that its sheet is of, where that is known before it is asked; "" if it is not
	Assessor  Assessor
}

// Planner is the one place that is the journey: it holds the three interfaces, and Plan is five visible calls. The Looker is for LookNext
// alone.
type Planner struct {
	Assessors []Named
	Decider   Decider
	Budgeter  Budgeter
	Looker    Looker
	// Timekeeper tells when the job may be done; nil: a plan says nothing of it.
	Timekeeper Timekeeper
}

// PlanRequest is everything a plan is made from. The same request gives the same plan.
type PlanRequest struct {
	Job         Job
	Findings    []Finding // live ones
	Strip       StripPlan // the vehicle's own steps already merged in
	VehiclePack *Pack
	UnitPacks   []Pack
	Terms       Terms
	People      int     // hands present; 0: not said
	Trials      int     // 0: the Budgeter's default
	StripSpent  float64 // hours spent on steps that are done: in none of the plan's sums
	leaving     bool    // ordinary parts may be left as they are
	offered     []Place // parts whose remedies are offered whatever originality is asked for: no others go together
	Pace        Pace    // hours a week of the bench; without them nothing is said of the finish
	Begun       []Begun // lines of the order that are begun: they count for the finish alone
	Learned     Learned // of other jobs that were closed
}

// Plan assesses, decides, prices, budgets and orders. Bad data and dead subsystems are problems in the plan; an error means that
// no plan could be made.
func (p *Planner) Plan(ctx context.Context, req PlanRequest) (Plan, error) {
	sheets, problems := p.assess(ctx, req)
	settled, err := p.settle(ctx, req, sheets)
	if err != nil {
		return Plan{}, err
	}
	bench, selected, due := settled.bench, settled.sel, settled.due
	choices := bench.choices(selected, due.ch, p.pinCosts(ctx, bench, selected))
	bench.share(due, choices)
	order, more := bench.order(due, choices)
	order.Left = settled.left()
	choices = append(choices, bench.followers(due)...)
	forecast := bench.forecast(due)
	budget, err := p.budget(ctx, bench, forecast, order)
	if err != nil {
		return Plan{}, err
	}
	finish, err := p.finish(ctx, bench, due, forecast)
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Job: req.Job, Sheets: sheets, Choices: choices, Budget: budget, WorkOrder: order, Findings: req.Findings,
		Problems: slices.Concat(problems, bench.problems, more, markProblems(req), bench.tooFewHands(due), outsideEnvelope(req, order)), Steps: bench.plannedSteps(due),
		Proof:  Proof{Value: bench.money(selected.Value), Bound: bench.money(selected.Bound), Proven: selected.Proven, Width: selected.Width, OfRisk: bench.req.leaving},
		Risk:   bench.money(bench.risk(selected)),
		Within: settled.within, Wait: settled.wait}
	if plan.Within != nil {
		plan.Within.Enough = budget.Enough(plan.Within.Most)
		plan.Problems = append(plan.Problems, plan.Within.problems()...)
	}
	plan.StripSpent, plan.Finish, plan.Learned = req.StripSpent, finish, req.Learned.Here(sheets)
	plan.Conditions = conditions(sheets)
	plan.NotSeen = bench.notSeen(due, order)
	plan.Cautions = bench.cautions(due)
	plan.OldPrices = oldPrices(order)
	return plan, nil
}

// price turns the answer into what falls due, for certain or at a chance.
func (b *bench) price(sel Selected) *due { return b.due(sel, b.chancesOf(sel.Blocks)) }

// Plan is the whole answer: what was found, what is chosen, what it costs and how sure that is.
type Plan struct {
	Job        Job             `json:"job"`
	Sheets     []UnitSheet     `json:"-"`
	Conditions []UnitCondition `json:"conditions"`
	Choices    []Choice        `json:"choices"`
	Budget     Budget          `json:"budget"`
	WorkOrder  WorkOrder       `json:"work_order"`
	NotSeen    []NotSeenItem   `json:"not_seen"`
	Problems   []Problem       `json:"problems"`
	Steps      []PlannedStep   `json:"steps"`
	Proof      Proof           `json:"proof"`
	Risk       Money           `json:"risk"` // what doing things again within the horizon is expected to cost: in none of the sums
	Cautions   []Caution       `json:"cautions"`
	OldPrices  []string        `json:"old_prices"`                  // items whose price is older than PriceOldDays
	Within     *Within         `json:"within,omitempty"`            // nil: the owner has not said what may be spent
	Wait       *Wait           `json:"wait,omitempty"`              // nil: the owner has not said what a week is worth
	StripSpent float64         `json:"strip_spent_hours,omitempty"` // on steps that are done: in none of the sums
	Finish     *Finish         `json:"finish,omitempty"`            // nil: nobody was asked, or the bench's hours a week are not known
	Learned    *LearnedHere    `json:"learned,omitempty"`           // what closed jobs have taught of it; nil: none was closed
	Findings   []Finding       `json:"-"`
}

// UnitSheet is the sheet as described for one unit's facts, with what was said of it.
type UnitSheet struct {
	Subsystem  string
	Unit       string
	Sheet      Sheet
	Facts      []Fact
	Overrides  []Override
	Assessment Assessment
	Failed     bool // not assessed: the problem says why
}

// UnitCondition is a condition with its address and the names a person reads.
type UnitCondition struct {
	Place
	PartName       string `json:"part_name"`
	SafetyCritical bool   `json:"safety_critical"`
	Condition
	Gauge *Gauge `json:"gauge,omitempty"`
}

// Gauge is what a wear gauge shows: a bar from new to limit with the reading's tick and its uncertainty. Values are in Unit.
type Gauge struct {
	Check   string  `json:"check"`
	Name    string  `json:"name"`
	Unit    string  `json:"unit"`
	New     float64 `json:"new"`   // the near edge of new
	Limit   float64 `json:"limit"` // the wear limit; smaller than New where smaller is worse
	Reading float64 `json:"reading"`
	Bound   float64 `json:"bound"` // +/- of the reading
	Source  string  `json:"source"`
}

// NotSeenItem is a part that a reading is missing for, and what is held back for it.
type NotSeenItem struct {
	Place
	PartName string   `json:"part_name"`
	Taken    int      `json:"readings_taken"`
	Needed   int      `json:"readings_needed"`
	Checks   []string `json:"checks"`
	Reserve  Money    `json:"reserve"` // expected cost of what it may turn out to need
}

// PlannedStep is a step that the plan opens, with its hours and what it warns of.
type PlannedStep struct {
	Step
	Unit     string   `json:"unit,omitempty"` // for a bench step of a unit
	Done     bool     `json:"done"`           // it arrived apart: refit only
	Lost     []string `json:"lost,omitempty"` // readings about to be lost that are not taken yet
	ServedBy int      `json:"served"`         // how many parts need it
	Lift     *Lift    `json:"lift,omitempty"`
}

// Lift is what the weight of a load asks of slings and castors (trade practice; statics).
type Lift struct {
	Weight       Quantity `json:"weight"`
	Source       string   `json:"source"`
	Leg60        Quantity `json:"leg_60"` // tension of each of two legs at 60 degrees from the horizontal
	Leg45        Quantity `json:"leg_45"`
	LopSided45   Quantity `json:"lop_sided_45"` // each leg sized for the whole weight at 45 degrees
	CastorEach   Quantity `json:"castor_each"`  // 1.25 W / 3: three of four carry
	HoistAtLeast Quantity `json:"hoist"`        // 2 W
}

// Proof says how good the choice is known to be.
type Proof struct {
	Value  Money `json:"value"`
	Bound  Money `json:"bound"`
	Proven bool  `json:"proven"`
	Width  int   `json:"width"`
	OfRisk bool  `json:"of_risk,omitempty"` // Value and Bound are of the risk alone: the least within what may be spent
}
