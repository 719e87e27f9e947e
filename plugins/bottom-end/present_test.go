package bottomend

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

func (b *bench) tenUnder() *bench {
	for _, m := range []string{"M1", "M2", "M3"} {
		b.journal("main-journal", m, 2.4900, 2.4897, 2.4896, 2.4895)
	}
	return b
}

// Mains at 2.4895 to 2.4900, marked -.010, are as new at that size: used again with -.010 shells. The trade's rule,
// common practice; the band of a step by TM 5-3805-262-34.
func TestMarkedTenUnderIsAsNewThere(t *testing.T) {
	inches := func(v float64) core.Value {
		return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in"}}
	}
	for name, b := range map[string]*bench{
		"by a mark on one journal": newBench(t).tenUnder().find("main-journal", "M1", "present-undersize", "", inches(-.010)),
		"by a fact of the engine":  newBench(t).tenUnder().fact("main_undersize", inches(.010)),
	} {
		t.Run(name, func(t *testing.T) {
			a := b.assess()
			for _, m := range []string{"M1", "M2", "M3"} {
				c := a.condition("main-journal", m)
				require.Equal(t, core.WithinNew, max(core.WithinNew, gradeOf(c, "diameter")), "%v", c.Reasons)
				require.Equal(t, core.WornFit, c.Grade, "out-of-round and taper are worn and fit")
				require.Contains(t, a.open("main-journal", m), "reuse")
				reuse := a.remedy("main-journal", m, "reuse")
				require.Equal(t, []core.Yield{{Key: "main-undersize", Value: ".010"}}, reuse.Yields)
				require.Contains(t, reuse.Name, "new -.010 shells")
				require.NotContains(t, a.open("main-journal", m), "regrind-010")
			}
			require.Equal(t, ".010", a.agreed(mains, "M1", "M2", "M3"))
			require.Empty(t, a.problems())
		})
	}
}

// gradeOf is the grade that a check's reason ends in.
func gradeOf(c core.Condition, check string) core.Grade {
	for _, r := range c.Reasons {
		if r.Check != check {
			continue
		}
		for g := core.WithinNew; g <= core.Failed; g++ {
			if len(r.Text) > len(g.String()) && r.Text[len(r.Text)-len(g.String()):] == g.String() {
				return g
			}
		}
	}
	return core.GradeNone
}

func TestUnmarkedTenUnderIsPastItsLimit(t *testing.T) {
	a := newBench(t).tenUnder().assess()
	require.Equal(t, core.PastLimit, a.condition("main-journal", "M1").Grade)
	require.NotContains(t, a.open("main-journal", "M1"), "reuse")
	require.Contains(t, a.problems(), "every journal reads as -.010, but there is no mark")
}

func TestMarkThatDoesNotAgree(t *testing.T) {
	a := newBench(t).mains().find("main-journal", "M1", "present-undersize", "", core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .020, Unit: "in"}}).assess()
	require.Contains(t, a.problems(), "mains: marked -.020, but M1 reads 2.4985")
	require.Equal(t, core.PastLimit, a.condition("main-journal", "M2").Grade, "graded against standard")
	require.Equal(t, ".010", a.agreed(mains, "M1", "M2", "M3"))
}
