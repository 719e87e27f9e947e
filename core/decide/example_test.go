package decide

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// seen makes a part with one state, in which all its options may be taken.
func seen(id string, options ...core.SelectOption) core.SelectPart {
	p := core.SelectPart{ID: id, Options: options, States: []core.SelectState{{Chance: 1, Event: -1}}}
	for k := range options {
		p.States[0].Options = append(p.States[0].Options, k)
	}
	return p
}

// TestProjectSelection is the project selection problem as it is told in encyclopedias: projects earning 100, 200
// and 150, machines costing 200, 100 and 50; the first project needs machines 1 and 2, the second 2, the third 3.
// The least cut is 250 and the profit 450 - 250 = 200, by projects 2 and 3. What a project earns is lost by leaving
// it; machines are operations in one reading and steps in the other.
func TestProjectSelection(t *testing.T) {
	earns, costs := []int64{100, 200, 150}, []int64{200, 100, 50}
	needs := [][]int{{0, 1}, {1}, {2}}
	for _, asSteps := range []bool{false, true} {
		var sel core.Selection
		for _, c := range costs {
			if asSteps {
				sel.Steps = append(sel.Steps, core.SelectStep{Cost: c})
			} else {
				sel.Operations = append(sel.Operations, core.SelectOperation{Cost: c})
			}
		}
		for i, e := range earns {
			do := core.SelectOption{ID: "do", Kind: core.Rebuild, Operations: needs[i]}
			if asSteps {
				do.Operations, do.Steps = nil, needs[i]
			}
			sel.Parts = append(sel.Parts, seen("project", core.SelectOption{ID: "leave", Kind: core.LeftAsIs, Risk: e}, do))
		}
		got, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(t, err)
		require.Equal(t, int64(250), got.Value)
		require.Equal(t, int64(150), got.Money)
		require.Equal(t, []int{0, 1, 1}, got.Choice)
		require.True(t, got.Proven)
		if asSteps {
			require.Equal(t, []bool{false, true, true}, got.Steps)
		} else {
			require.Equal(t, []bool{false, true, true}, got.Operations)
			require.Equal(t, []int64{0, 350, 350}, got.Without) // both, then the third, cost more to leave
		}
		require.Equal(t, [][]int64{{250, 350}, {350, 250}, {350, 250}}, got.Marginals)
	}
}

// frontEnd is the strip plan of a front axle in hundredths of an hour, likely hours of common practice, no source:
// stands .5, each hub .8, each brake .7, rods 1.2, each swivel 1.8.
func frontEnd() []core.SelectStep {
	return []core.SelectStep{
		{ID: "stands", Cost: 50},
		{ID: "hub-off/LF", Cost: 80, AllOf: []int{0}},
		{ID: "hub-off/RF", Cost: 80, AllOf: []int{0}},
		{ID: "brake-off/LF", Cost: 70, AllOf: []int{1}},
		{ID: "brake-off/RF", Cost: 70, AllOf: []int{2}},
		{ID: "rods-off", Cost: 120},
		{ID: "swivel-off/LF", Cost: 180, AllOf: []int{1, 3, 5}},
		{ID: "swivel-off/RF", Cost: 180, AllOf: []int{2, 4, 5}},
	}
}

// TestSharedAccess is the worked example of access counted once: swivels, brakes and hubs by themselves take 8.3,
// 3.5 and 2.1 hours, 13.9 together; done once they take 8.3.
func TestSharedAccess(t *testing.T) {
	jobs := []core.SelectPart{
		seen("swivels", core.SelectOption{ID: "rebuild", Kind: core.Rebuild, Steps: []int{6, 7}}),
		seen("brakes", core.SelectOption{ID: "rebuild", Kind: core.Rebuild, Steps: []int{3, 4}}),
		seen("hubs", core.SelectOption{ID: "rebuild", Kind: core.Rebuild, Steps: []int{1, 2}}),
	}
	var single int64
	for i, hours := range []int64{830, 350, 210} {
		got, err := Solver{}.Decide(context.Background(), core.Selection{Parts: jobs[i : i+1], Steps: frontEnd()})
		require.NoError(t, err)
		require.Equal(t, hours, got.Money)
		single += got.Money
	}
	require.Equal(t, int64(1390), single)
	got, err := Solver{}.Decide(context.Background(), core.Selection{Parts: jobs, Steps: frontEnd()})
	require.NoError(t, err)
	require.Equal(t, int64(830), got.Money)
	require.Equal(t, int64(560), single-got.Money)
}

// TestWhileItIsOpen: work that is not worth opening up for is worth it once something else opens up.
func TestWhileItIsOpen(t *testing.T) {
	brakes := seen("brakes", core.SelectOption{ID: "reuse", Kind: core.Reuse, Risk: 300},
		core.SelectOption{ID: "reline", Kind: core.Rebuild, Operations: []int{0}, Steps: []int{3, 4}})
	swivels := seen("swivels", core.SelectOption{ID: "rebuild", Kind: core.Rebuild, Steps: []int{6, 7}})
	sel := core.Selection{Parts: []core.SelectPart{brakes}, Steps: frontEnd(), Operations: []core.SelectOperation{{ID: "reline", Cost: 200}}}
	got, err := Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{0}, got.Choice)
	require.Equal(t, [][]int64{{300, 550}}, got.Marginals)
	sel.Parts = append(sel.Parts, swivels)
	got, err = Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{1, 0}, got.Choice)
	require.Equal(t, []int64{1130, 1030}, got.Marginals[0])
	require.Equal(t, []int64{1130}, got.Without)
	sel.Steps[6].Open, sel.Steps[7].Open = true, true // the extent opens it anyway
	sel.Parts = sel.Parts[:1]
	got, err = Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{1}, got.Choice)
	require.Equal(t, int64(1030), got.Money)
}

// TestIncludedOperation: a full overhaul includes opening and resealing, so both are never paid.
func TestIncludedOperation(t *testing.T) {
	sel := core.Selection{
		Operations: []core.SelectOperation{{ID: "reseal", Cost: 400}, {ID: "overhaul", Cost: 900, Includes: []int{0}}},
		Parts: []core.SelectPart{
			seen("seal", core.SelectOption{ID: "new", Kind: core.Replace, Operations: []int{0}}),
			seen("rings", core.SelectOption{ID: "reuse", Kind: core.Reuse, Risk: 600}, core.SelectOption{ID: "new", Kind: core.Replace, Operations: []int{1}}),
		},
	}
	got, err := Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{0, 1}, got.Choice)
	require.Equal(t, []bool{false, true}, got.Operations)
	require.Equal(t, int64(900), got.Money)
	require.Equal(t, []int64{0, 1000}, got.Without)
	// An overhaul dearer than reseal and risk together is not bought for the reseal it includes.
	sel.Operations[1].Cost = 1001
	got, err = Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{0, 0}, got.Choice)
	require.Equal(t, []bool{true, false}, got.Operations)
	// Nor is one that is oddly cheaper than what it includes, unless a remedy names it.
	sel.Operations[1].Cost = 100
	sel.Parts[1].Options[0].Risk = 0
	sel.Parts[1].States[0].Options = []int{0}
	got, err = Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, int64(400), got.Money)
}

// TestTies: reuse before rebuild before replace, then the lower id, part by part in order.
func TestTies(t *testing.T) {
	four := []core.SelectOption{{ID: "b", Kind: core.Replace}, {ID: "a", Kind: core.Replace}, {ID: "z", Kind: core.Rebuild}, {ID: "y", Kind: core.Rebuild}}
	got, err := Solver{}.Decide(context.Background(), core.Selection{Parts: []core.SelectPart{seen("one", four...), seen("two", four[:2]...)}})
	require.NoError(t, err)
	require.Equal(t, []int{3, 1}, got.Choice)
	// Of two parts that may not both be rebuilt, the first in order gets what it prefers.
	sel := core.Selection{Parts: []core.SelectPart{seen("one", four...), seen("two", four...)}}
	for _, a := range []int{2, 3} {
		for _, b := range []int{2, 3} {
			sel.Bonds = append(sel.Bonds, core.Bond{Part: 1, Option: a, OtherPart: 0, OtherOption: b, Excludes: true})
		}
	}
	got, err = Solver{}.Decide(context.Background(), sel)
	require.NoError(t, err)
	require.Equal(t, []int{3, 1}, got.Choice)
}
