package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// ISO 5753-1, radial clearance of deep groove ball bearings, as two vendors' tables give it.
func TestBearingClearance(t *testing.T) {
	for _, c := range []struct {
		bores []float64
		want  []ClearanceGroup
	}{
		{[]float64{10.1, 12, 18}, []ClearanceGroup{{"C2", 0, 9}, {"CN", 3, 18}, {"C3", 11, 25}, {"C4", 18, 33}}},
		{[]float64{25, 30}, []ClearanceGroup{{"C2", 1, 11}, {"CN", 5, 20}, {"C3", 13, 28}, {"C4", 23, 41}}},
		{[]float64{35, 40}, []ClearanceGroup{{"C2", 1, 11}, {"CN", 6, 20}, {"C3", 15, 33}, {"C4", 28, 46}}},
		{[]float64{55, 65}, []ClearanceGroup{{"C2", 1, 15}, {"CN", 8, 28}, {"C3", 23, 43}, {"C4", 38, 61}}},
		{[]float64{85, 100}, []ClearanceGroup{{"C2", 1, 18}, {"CN", 12, 36}, {"C3", 30, 58}, {"C4", 53, 84}}},
	} {
		for _, bore := range c.bores {
			row, ok := BearingClearanceOf(bore)
			require.True(t, ok)
			require.Equal(t, c.want, row.Groups, "bore %v", bore)
			require.Empty(t, row.Doubt)
		}
	}
	row, ok := BearingClearanceOf(20)
	require.True(t, ok)
	require.NotEmpty(t, row.Doubt, "copies of this row disagree on C3")
	for _, bore := range []float64{10, 100.1, 0, -1} {
		_, ok := BearingClearanceOf(bore)
		require.False(t, ok, "bore %v", bore)
	}
}

func TestBearingClearanceGroups(t *testing.T) {
	row, _ := BearingClearanceOf(40)
	require.Equal(t, []string{"CN", "C3"}, row.GroupsOf(17))
	require.Equal(t, []string{"C4"}, row.GroupsOf(46))
	require.Empty(t, row.GroupsOf(47))
	row.Groups[0].Low = -5
	again, _ := BearingClearanceOf(40)
	require.Equal(t, 1.0, again.Groups[0].Low, "the table is not the caller's to change")
}

// ISO 15243: six main modes.
func TestBearingDamage(t *testing.T) {
	var modes []string
	submodes := map[string]int{}
	for _, m := range BearingDamage() {
		modes = append(modes, m.Name)
		submodes[m.Name] = len(m.Submodes)
	}
	require.Equal(t, []string{"fatigue", "wear", "corrosion", "electrical erosion", "plastic deformation", "fracture and cracking"}, modes)
	require.Equal(t, map[string]int{"fatigue": 2, "wear": 2, "corrosion": 3, "electrical erosion": 2, "plastic deformation": 3, "fracture and cracking": 3}, submodes)
	require.Equal(t, []string{"overload", "indentation from debris", "indentation from handling"}, BearingDamage()[4].Submodes)
}
