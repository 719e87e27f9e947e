package core

import "context"

// Forecast is what a Budgeter is given: every cost that may fall due, and what decides whether it does.
// Money is in minor units of one currency.
type Forecast struct {
	Costs    []ForecastCost
	Base     []int   // costs due whatever is found
	Includes [][]int // Includes[i]: costs that i makes unnecessary, closed transitively
	// Blocks hold the parts not yet known; a trial draws their states and takes the first option feasible in all.
	Blocks []ForecastBlock
	// Events are register entries: those that parts hang on, and those of their own.
	Events []ForecastEvent
	// Groups are the subsystems: one multiplier M of the chances each.
	Groups []ForecastGroup
	Ratio  LabourRatio
	Rho    float64 // common correlation of the lines; .3 by default
	Seed   uint64
	Trials int // 0: the default
}

// ForecastCost is one operation's, strip's or refit's cost.
type ForecastCost struct {
	ID         string
	Name       string
	Total      Range3 // low, likely and high together
	LabourLow  float64
	LabourHigh float64 // the labour in the low and in the high total; in between in proportion
	Expected   int64
}

// ForecastBlock is a block of parts to be drawn.
type ForecastBlock struct {
	Name    string
	Members []ForecastMember
	Options []ForecastOption // in the order of preference; at most 64
}

// ForecastMember is one part of a block.
type ForecastMember struct {
	Name   string
	Group  int // subsystem, for M
	States []ForecastState
}

// ForecastState is a state of a part. Feasible has bit k set if option k of the block is feasible in it.
type ForecastState struct {
	Chance   float64
	Bad      bool // its chance is multiplied by M
	Event    int  // -1, or the event whose happening (or not, by NotEvent) is this state
	NotEvent bool
	Feasible uint64
}

// ForecastOption is a joint option: the costs it adds beyond the base.
type ForecastOption struct {
	Name  string
	Costs []int
}

// ForecastEvent is one entry of the register of hidden damage.
type ForecastEvent struct {
	ID     string
	Name   string
	Group  int
	Chance float64
	Costs  []int   // due if it happens, for an event of its own
	Times  float64 // how often; 0 counts as 1
}

// ForecastGroup is what a subsystem has shown: M ~ Gamma(shape, rate).
type ForecastGroup struct {
	Name  string
	Shape float64 // kappa + k
	Rate  float64 // kappa + sum p
}

// LabourRatio is actual over expected hours, log-normal.
type LabourRatio struct {
	Median float64 // 1 by default
	SD     float64 // of the logarithm; .15 by default
	Jobs   float64 // what it is worth; 4 by default
}

// Percentile is one figure of the distribution with its standard error.
type Percentile struct {
	P     float64 `json:"p"`
	Value Money   `json:"value"`
	SE    Money   `json:"standard_error"`
}

// Widener is a line that widens the budget, by its share of the variance.
type Widener struct {
	Name  string  `json:"name"`
	Share float64 `json:"share"`
}

// Budget is what the job may cost, before tax: a distribution, not a number.
type Budget struct {
	Expected       Money     `json:"expected"` // the work order's total before tax
	P10            Money     `json:"p10"`
	P50            Money     `json:"p50"`
	P80            Money     `json:"p80"`
	P90            Money     `json:"p90"`
	Contingency    Money     `json:"contingency"`     // P80 less expected
	SumOfLikelies  Money     `json:"sum_of_likelies"` // named, never used as the price
	OverLikelies   Money     `json:"over_likelies"`   // P80 less the sum of likelies
	StandardErrors []Money   `json:"standard_errors"` // of P10, P50, P80, P90
	Mean           Money     `json:"simulated_mean"`  // beside expected, for the doubtful
	SD             Money     `json:"simulated_sd"`
	Curve          []Money   `json:"curve"` // the quantiles 0, 1 .. 100 %
	Widest         []Widener `json:"widest"`
	Trials         int       `json:"trials"`
	Seed           uint64    `json:"seed"`
}

// Spread is a Budgeter's answer, in minor units.
type Spread struct {
	Mean, SD           float64
	P10, P50, P80, P90 float64
	SE                 [4]float64 // of the four
	Curve              []float64  // 101 quantiles
	Widest             []Widener  // largest first
	Trials             int
	Seed               uint64
}

// Budgeter draws the distribution. The same Forecast gives the same Spread, bit for bit, on any number of processors.
type Budgeter interface {
	Budget(ctx context.Context, f Forecast) (Spread, error)
}

// ForecastPart is a member of a block of a Forecast.
type ForecastPart struct{ Block, Member int }

// ForecastLook is parts of a Forecast that are looked at together.
type ForecastLook []ForecastPart

// Looker says what looks would settle: for each the share of the variance of the Forecast's total, 0 to 1, that knowing the
// states of its parts explains, less what chance would explain. The same Forecast gives the same shares, bit for bit.
type Looker interface {
	Settles(ctx context.Context, f Forecast, looks []ForecastLook) ([]float64, error)
}
