package sdk_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func describe(t *testing.T, facts ...core.Fact) (core.Sheet, []core.Problem) {
	t.Helper()
	s, ps, err := bench(t).Describe(context.Background(), facts)
	require.NoError(t, err)
	return s, ps
}

func TestDescribeScalesLimitsByFacts(t *testing.T) {
	s, ps := describe(t, nominal)
	require.Empty(t, ps)
	c := s.Check("journal", "diameter")
	require.InDelta(t, 2.4995, *c.Limit.NewLow, 1e-12)
	require.InDelta(t, 2.5, *c.Limit.NewHigh, 1e-12)
	require.InDelta(t, 2.4985, *c.Limit.WearLow, 1e-12)
	require.Nil(t, c.Limit.WearHigh)
	require.InDelta(t, 2.44, *c.PlausibleLow, 1e-12)
	require.Equal(t, "sheet", c.Limit.Origin)
	require.Equal(t, "in", c.Limit.Unit)
	require.Equal(t, []string{"M1", "M2", "M3"}, s.Part("journal").Positions)

	metric, ps := describe(t, core.Fact{Name: "D", Value: size(63.5, "mm")})
	require.Empty(t, ps)
	require.InDelta(t, 2.4985, *metric.Check("journal", "diameter").Limit.WearLow, 1e-9, "a nominal in mm is the same nominal")
}

func TestDescribeAsksForWhatItDoesNotKnow(t *testing.T) {
	s, ps := describe(t)
	l := s.Check("journal", "diameter").Limit
	require.Nil(t, l.NewLow)
	require.Nil(t, l.NewHigh)
	require.Nil(t, l.WearLow, "no invented figure")
	require.NotEmpty(t, l.Source)
	require.Nil(t, s.Check("journal", "diameter").PlausibleLow)
	require.NotNil(t, s.Check("journal", "out-of-round").Limit.WearHigh, "what does not scale is there")
	require.Len(t, ps, 1)
	require.Equal(t, "D is not known: journal nominal diameter", ps[0].Summary)
	require.Equal(t, "without it there is no limit for journal diameter; nothing can be worked out for journal ovality-share", ps[0].Detail)
	require.Contains(t, ps[0].Next, "give the fact D with its unit (in), from the unit's marks")
}

func TestDescribeCountsPositions(t *testing.T) {
	s, ps := describe(t, nominal, core.Fact{Name: "mains", Value: count(5)})
	require.Empty(t, ps)
	require.Len(t, s.Part("journal").Positions, 5)
	require.Len(t, s.Sets[0].Members, 5)
	require.Len(t, s.Hidden[0].Parts, 5)

	s, _ = describe(t, nominal, core.Fact{Name: "mains", Value: count(0)})
	require.Nil(t, s.Part("journal"), "none of them: the part is not there, and not a single one")
	require.NotEmpty(t, s.Sets)
	require.Equal(t, "M15", s.Sets[0].ID)
}

// A fact that cannot be meant is a problem, and is not used.
func TestDescribeBadFacts(t *testing.T) {
	for _, c := range []struct {
		name string
		fact core.Fact
		want string
	}{
		{"another dimension", core.Fact{Name: "D", Value: size(2.5, "kg")}, "kg is a mass"},
		{"not plausible", core.Fact{Name: "D", Value: size(25, "in")}, "not plausible"},
		{"a count for a size", core.Fact{Name: "D", Value: count(2)}, "a size with its unit (in) is wanted"},
		{"a size for a count", core.Fact{Name: "mains", Value: size(3, "in")}, "a whole number is wanted"},
		{"too many", core.Fact{Name: "mains", Value: count(1000)}, "not plausible"},
		{"a word", core.Fact{Name: "D", Value: core.Value{Kind: core.ValueWord, Word: "big"}}, "a size with its unit (in) is wanted"},
		{"a near name", core.Fact{Name: "main", Value: count(3)}, "not used here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, ps := describe(t, c.fact)
			require.NotEmpty(t, ps)
			require.Contains(t, ps[0].Summary, c.want)
			require.Nil(t, s.Check("journal", "diameter").Limit.WearLow)
			require.Len(t, s.Part("journal").Positions, 3)
		})
	}
}

func TestDescribeOutlook(t *testing.T) {
	s, _ := describe(t, nominal)
	require.Equal(t, []core.State{
		{Chance: .35, Grade: core.WornFit, Remedies: []string{"reuse", "polish", "regrind", "another"}},
		{Chance: .65, Grade: core.PastLimit, Remedies: []string{"regrind", "another"}, RegisterID: "H01"},
	}, s.Part("journal").Outlook, "the register's chance; a polish does not cure all that is needed")
	require.Equal(t, []core.State{{Chance: 1, Grade: core.WornFit, Remedies: []string{"new"}}}, s.Part("shell").Outlook)
}

func TestDescribeSteps(t *testing.T) {
	s, _ := describe(t, nominal)
	step := s.Steps[0]
	require.Equal(t, "bench:clean", step.ID)
	require.Equal(t, "engine", step.Scope)
	require.Equal(t, []string{"crankshaft-out"}, step.AllOf)
	require.Equal(t, [][]string{{"bonnet-off", "bench:lamp"}}, step.AnyOf)
	require.Equal(t, []string{"bench/gear/backlash"}, step.Destroys)
}

// No reading on a safety-critical part is optional that a go/no-go check asks for.
func TestDescribeSafetyGoNoGoIsNeeded(t *testing.T) {
	s, _ := describe(t, nominal)
	require.True(t, s.Check("arm", "crack").NeededForReuse)
}
