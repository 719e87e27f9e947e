package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// vehicle is how a body-on-frame four-wheel-drive vehicle comes apart, common practice, no source: a step a line,
// its likely hundredths of an hour, what must be done before it; a bar parts the alternatives of an any-of.
const vehicle = `
arrival 300
running-checks 400 arrival
fluids-out 120 running-checks
wash 250 fluids-out
bonnet-off 20 wash
wires-off 60 wash
panels-off 350 wash
radiator-off 100 panels-off|bonnet-off
seats-off 200 wash
doors-off 300 wash
tank-out 150 fluids-out seats-off
wiring-out 400 panels-off seats-off doors-off
exhaust-off 80 wash
shafts-out 80 wash
levers-off 100 seats-off
ancillaries-off 150 radiator-off wiring-out|wires-off
engine-out 300 panels-off radiator-off exhaust-off levers-off ancillaries-off wiring-out|wires-off
gearbox-out 250 seats-off shafts-out levers-off
gearbox-split 100 gearbox-out
clutch-off 50 engine-out|gearbox-out
flywheel-off 80 engine-out clutch-off
column-out 200 panels-off wiring-out|wires-off
rods-off 120 wash
tub-off 500 panels-off seats-off doors-off tank-out wiring-out levers-off column-out
stands 50 wash
hub-off/LF 80 stands
hub-off/RF 80 stands
hub-off/LR 80 stands
hub-off/RR 80 stands
brake-off/LF 70 hub-off/LF
brake-off/RF 70 hub-off/RF
brake-off/LR 70 hub-off/LR
brake-off/RR 70 hub-off/RR
swivel-off/LF 180 hub-off/LF brake-off/LF rods-off
swivel-off/RF 180 hub-off/RF brake-off/RF rods-off
half-shaft/LR 50 stands
half-shaft/RR 50 stands
front-diff-out 150 swivel-off/LF swivel-off/RF shafts-out
rear-diff-out 150 half-shaft/LR half-shaft/RR shafts-out
front-axle-off 150 shafts-out rods-off stands
rear-axle-off 150 shafts-out stands
spring-off/LF 90 front-axle-off
spring-off/RF 90 front-axle-off
spring-off/LR 90 rear-axle-off
spring-off/RR 90 rear-axle-off
pipes-off 150 panels-off
bare-frame 200 engine-out gearbox-out column-out tub-off front-axle-off rear-axle-off spring-off/LF spring-off/RF spring-off/LR spring-off/RR pipes-off
head-off 150 radiator-off exhaust-off ancillaries-off panels-off|bonnet-off
sump-off 60 engine-out
pistons-out 120 head-off sump-off
timing-off 100 engine-out
crank-out 100 flywheel-off sump-off pistons-out timing-off
cam-out 90 head-off sump-off timing-off
gearbox-shafts 200 gearbox-split
transfer-shafts 200 gearbox-split
valves-out 100 head-off
front-pinion 120 front-diff-out
rear-pinion 120 rear-diff-out
`

// stepsOfVehicle reads the table.
func stepsOfVehicle(t testing.TB) []core.SelectStep {
	var steps []core.SelectStep
	index := map[string]int{}
	for line := range strings.Lines(strings.TrimSpace(vehicle)) {
		f := strings.Fields(line)
		s := core.SelectStep{ID: f[0]}
		_, err := fmt.Sscan(f[1], &s.Cost)
		require.NoError(t, err)
		for _, before := range f[2:] {
			var clause []int
			for name := range strings.SplitSeq(before, "|") {
				require.Contains(t, index, name)
				clause = append(clause, index[name])
			}
			if len(clause) == 1 {
				s.AllOf = append(s.AllOf, clause[0])
			} else {
				s.AnyOf = append(s.AnyOf, clause)
			}
		}
		index[s.ID] = len(steps)
		steps = append(steps, s)
	}
	return steps
}

// wholeVehicle puts four parts behind each step, with an operation shared by the parts of a step, one of its own
// each, and sets across left and right.
func wholeVehicle(t testing.TB, seed uint64) core.Selection {
	r := rand.New(rand.NewPCG(seed, 11))
	sel := core.Selection{Steps: stepsOfVehicle(t)}
	at := map[string][]int{}
	for s, step := range sel.Steps {
		shared := len(sel.Operations)
		sel.Operations = append(sel.Operations, core.SelectOperation{ID: "rebuild " + step.ID, Cost: 100 + r.Int64N(4000)})
		for k := range 4 {
			own := len(sel.Operations)
			sel.Operations = append(sel.Operations, core.SelectOperation{ID: fmt.Sprintf("new %s %d", step.ID, k), Cost: 100 + r.Int64N(6000)})
			name, _, _ := strings.Cut(step.ID, "/")
			at[fmt.Sprint(name, k)] = append(at[fmt.Sprint(name, k)], len(sel.Parts))
			sel.Parts = append(sel.Parts, seen(fmt.Sprintf("%s part %d", step.ID, k),
				core.SelectOption{ID: "reuse", Kind: core.Reuse, Risk: r.Int64N(3000)},
				core.SelectOption{ID: "rebuild", Kind: core.Rebuild, Operations: []int{shared}, Steps: []int{s}, Risk: r.Int64N(500)},
				core.SelectOption{ID: "replace", Kind: core.Replace, Operations: []int{own}, Steps: []int{s}, Risk: r.Int64N(100)}))
		}
	}
	for s, step := range sel.Steps {
		name, _, _ := strings.Cut(step.ID, "/")
		if members := at[fmt.Sprint(name, 0)]; len(members) > 1 && members[0] == 4*s {
			sel.Sets = append(sel.Sets, core.SelectSet{ID: name, Members: members, SameKind: true})
		}
	}
	return sel
}

// TestWholeVehicle: the strip plan of a whole vehicle, with 232 parts behind it, stays narrow, so its optimum is
// proven by tables alone.
func TestWholeVehicle(t *testing.T) {
	for seed := range uint64(5) {
		sel := wholeVehicle(t, seed)
		got, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(t, err)
		require.True(t, got.Proven)
		require.LessOrEqual(t, got.Width, 6)
		requireOpen(t, sel, got, seed)
		for p, row := range got.Marginals {
			require.Equal(t, got.Value, row[got.Choice[p]])
			require.Equal(t, got.Value, slices.Min(row))
		}
	}
}

// TestAlternatives: the head comes off by the bonnet and the wires at the unit, 5.6 hours of access, not by stripping
// panels and loom, unless those come off anyway.
func TestAlternatives(t *testing.T) {
	steps := stepsOfVehicle(t)
	named := func(id string) int {
		return slices.IndexFunc(steps, func(s core.SelectStep) bool { return s.ID == id })
	}
	for i := range steps[:4] {
		steps[i].Cost = 0 // arrival to wash belong to the whole job
	}
	head := seen("head", core.SelectOption{ID: "skim", Kind: core.Rebuild, Steps: []int{named("head-off")}})
	got, err := Solver{}.Decide(context.Background(), core.Selection{Parts: []core.SelectPart{head}, Steps: steps})
	require.NoError(t, err)
	require.Equal(t, int64(20+60+100+80+150+150), got.Money) // bonnet, wires, radiator, exhaust, ancillaries, head
	require.True(t, got.Steps[named("bonnet-off")])
	require.False(t, got.Steps[named("panels-off")])
	steps[named("tub-off")].Open = true
	got, err = Solver{}.Decide(context.Background(), core.Selection{Parts: []core.SelectPart{head}, Steps: steps})
	require.NoError(t, err)
	require.False(t, got.Steps[named("bonnet-off")])
	require.False(t, got.Steps[named("wires-off")])
}
