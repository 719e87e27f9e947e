package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand from q = Phi(ln(H pace / (1 - w)) / sigma) (common practice, no source).
func TestFailChance(t *testing.T) {
	life := &Life{Typical: 150_000, Unit: "km", Sigma: .5}
	b := Brief{HorizonKM: 30_000, HorizonYears: 10}
	require.InDelta(t, .03345, failChance(b, life, ptr(.5), WornFit, false), 1e-4, "age unknown: pace 1/L; ln(.2/.5)/.5 = -1.8326")
	require.InDelta(t, .00064, failChance(b, life, ptr(-1.), WithinNew, false), 1e-4, "better than new counts as new; ln(.2)/.5 = -3.2189")
	require.Equal(t, 1., failChance(b, life, ptr(1.), NearLimit, false))
	b.ServiceKM = ptr(100_000.)
	// pace = (.5 + .5) / (100 000 + 75 000); ln(30 000 / 175 000 / .5) / .5 = -2.1412.
	require.InDelta(t, .01613, failChance(b, life, ptr(.5), WornFit, false), 1e-4)
	years := &Life{Typical: 10, Unit: "a", Sigma: .5}
	require.InDelta(t, .5, failChance(b, years, ptr(0.), WithinNew, true), 1e-9, "a horizon of one life: an even chance")
	require.Equal(t, .10, failChance(b, nil, ptr(.3), WornFit, false), "no life: by grade")
	require.Equal(t, .30, failChance(b, life, nil, NearLimit, false), "no wear: by grade")
	require.Zero(t, failChance(b, nil, nil, GradeNone, true))
}

// What is rebuilt has not served yet: however long the vehicle has, it wears from now on like what is new. What is reused keeps its pace.
func TestARebuiltPartHasNotServedYet(t *testing.T) {
	life, c := &Life{Typical: 10, Unit: "a", Sigma: .5}, Condition{Wear: ptr(.5), Grade: WornFit}
	b := Brief{HorizonYears: 5, AgeYears: ptr(70.)}
	rebuilt := Remedy{Kind: Rebuild, WearAfter: ptr(0.)}
	renewed := Remedy{Kind: Replace, WearAfter: ptr(0.)}
	// Pace 1/L: ln(5 / 10) / .5 = -1.3863.
	require.InDelta(t, .08283, remedyChance(b, life, c, rebuilt), 1e-4)
	require.Equal(t, remedyChance(b, life, c, renewed), remedyChance(b, life, c, rebuilt))
	// Pace (.5 + .5) / (70 + 5): ln(5 / 75 / .5) / .5 = -4.0298.
	require.InDelta(t, .00003, remedyChance(b, life, c, Remedy{Kind: Reuse}), 1e-5)
}

func TestHistory(t *testing.T) {
	require.InDelta(t, 1.3, historyFactor(Brief{Stored: "outdoors"}, []string{"water"}), 1e-12)
	require.InDelta(t, 1., historyFactor(Brief{Stored: "dry"}, []string{"water"}), 1e-12)
	require.InDelta(t, .7, historyFactor(Brief{Ran: "within 2 years", Worked: "light"}, []string{"good-oil"}), 1e-12)
	require.InDelta(t, 1., historyFactor(Brief{Ran: "within 2 years", Worked: "hard"}, []string{"good-oil"}), 1e-12)
}

// M ~ Gamma(4 + k, 4 + sum p): two parts seen whose chances were .5 and .3, one of them past its limit: mean 5 / 4.8.
func TestOutlookLearnsFromWhatIsSeen(t *testing.T) {
	part := func(id string, p float64) Part {
		return Part{ID: id, Outlook: []State{{Chance: 1 - p, Grade: WornFit}, {Chance: p, Grade: PastLimit}}}
	}
	seen := func(id string, g Grade) Condition {
		return Condition{Target: Target{Part: id}, Grade: g, ReadingsTaken: 1, States: []State{{Chance: 1, Grade: g}}}
	}
	s := UnitSheet{Sheet: Sheet{Parts: []Part{part("a", .5), part("b", .3), part("c", .9)}, Hidden: []Hidden{{ID: "R", Chance: .9, Parts: []Target{{Part: "c"}}, HistoryKeys: []string{"water"}}}},
		Assessment: Assessment{Conditions: []Condition{seen("a", PastLimit), seen("b", WornFit)}}}
	o := newOutlook(Brief{Stored: "damp"}, s)
	require.InDelta(t, 5/4.8, o.multiplier(), 1e-12)
	require.InDelta(t, .2*5/4.8, o.now(.2), 1e-12)
	require.Equal(t, .95, o.chances[0], ".9 x 1.3 is capped")
	require.False(t, o.happened[0])
}
