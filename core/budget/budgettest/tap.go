package budgettest

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

// Tap is a Decider and a Budgeter that keep what was asked and answered in one plan of a job without pins. It is not for use by several
// goroutines.
type Tap struct {
	Decider   core.Decider
	Budgeter  core.Budgeter
	Selection core.Selection // as first asked
	Selected  core.Selected  // as last answered
	Forecast  core.Forecast
}

// Decide asks the Decider and keeps both sides.
func (t *Tap) Decide(ctx context.Context, s core.Selection) (core.Selected, error) {
	out, err := t.Decider.Decide(ctx, s)
	if t.Selected.Choice == nil {
		t.Selection = s
	}
	t.Selected = out
	return out, err
}

// Budget asks the Budgeter and keeps the question.
func (t *Tap) Budget(ctx context.Context, f core.Forecast) (core.Spread, error) {
	t.Forecast = f
	return t.Budgeter.Budget(ctx, f)
}
