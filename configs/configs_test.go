// Package configs_test reads every data file that is embedded, and holds it against the sheets that are served.
package configs_test

import (
	"context"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/cmd/fettle-subsystems/builtin"
	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/sdk"
)

func read(t *testing.T, name string) []byte {
	t.Helper()
	b, err := configs.Files.ReadFile(name)
	require.NoError(t, err)
	return b
}

func strip(t *testing.T) core.StripPlan {
	t.Helper()
	p, err := config.ReadStripPlan(read(t, "strip/generic.yaml"), "strip/generic.yaml")
	require.NoError(t, err)
	return p
}

func packs(t *testing.T) (ps []core.Pack) {
	t.Helper()
	names, err := fs.Glob(configs.Files, "packs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, n := range names {
		p, err := config.ReadPack(read(t, n), n)
		require.NoError(t, err, n)
		ps = append(ps, p)
	}
	return ps
}

// served gives the subsystems that are built in.
func served(t *testing.T) []core.Named {
	t.Helper()
	var all []core.Named
	for _, b := range builtin.All() {
		p, err := sdk.New(b.Subsystem())
		require.NoError(t, err)
		all = append(all, core.Named{Subsystem: b.Name, Assessor: p})
	}
	return all
}

// sheets are the served sheets with the facts of a pack; no fact may be strange to them, missing or out of bounds.
func sheets(t *testing.T, p core.Pack) map[string]core.Sheet {
	t.Helper()
	all := map[string]core.Sheet{}
	for _, n := range served(t) {
		facts := p.FactsFor(n.Subsystem)
		if p.Kind == "unit" && len(facts) == 0 {
			continue // another kind of unit
		}
		sheet, problems, err := n.Assessor.Describe(context.Background(), facts)
		require.NoError(t, err)
		require.Empty(t, problems, "%s with the facts of %s", n.Subsystem, p.ID)
		all[n.Subsystem] = sheet
	}
	return all
}

func packhorse(t *testing.T) core.Pack {
	t.Helper()
	for _, p := range packs(t) {
		if p.ID == "packhorse-mark-b" {
			return p
		}
	}
	require.Fail(t, "the demo's vehicle has no pack")
	return core.Pack{}
}

// TestEveryFileIsReadWithoutFaults leaves no embedded file out: one of a new kind has to be given its reader here.
func TestEveryFileIsReadWithoutFaults(t *testing.T) {
	err := fs.WalkDir(configs.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data := read(t, name)
		switch {
		case path.Dir(name) == "strip":
			_, err = config.ReadStripPlan(data, name)
		case path.Dir(name) == "packs":
			_, err = config.ReadPack(data, name)
		case name == "instruments.yaml":
			_, err = config.ReadInstruments(data, name)
		case name == "arrival.yaml":
			var list core.ArrivalList
			list, err = config.ReadArrival(data, name)
			plan := strip(t)
			views := 0
			for _, p := range list.Photos {
				require.True(t, p.Step == "" || plan.Step(p.Step) != nil, "%s: the strip plan has no step %q", p.Key, p.Step)
				if p.On != core.OnBench {
					views += p.Count
				}
			}
			require.GreaterOrEqual(t, views, 40, "of a whole vehicle")
		case name == "demo/fettle.yaml":
			_, err = config.ReadSettings(data, name, nil)
		case name == "demo/prices.csv":
			_, faults := config.ReadPrices([]byte(strings.ReplaceAll(string(data), "THREE-WEEKS-AGO", "2026-11-04")), name)
			err = faults.Err()
		case strings.HasPrefix(name, "demo/") && path.Ext(name) == ".csv":
			_, faults := config.ReadFindings(data, name, time.UTC)
			err = faults.Err()
		default:
			require.Fail(t, "nothing reads it", name)
		}
		require.NoError(t, err, name)
		return nil
	})
	require.NoError(t, err)
}

// TestStripHours checks the sum of the plan, each step at each of its positions. Common practice: 53.8 low, 89.8 likely, 169.8 high for the
// listed steps, without the two small ways in that stand in for a bigger step (the bonnet alone, the wires at the unit).
func TestStripHours(t *testing.T) {
	var sum core.Range3
	for _, s := range strip(t).Steps {
		if s.ID != "bonnet-off" && s.ID != "wires-off-unit" {
			sum = sum.Add(s.StripHours)
		}
	}
	require.InDelta(t, 53.8, sum.Low, 1e-9)
	require.InDelta(t, 89.8, sum.Likely, 1e-9)
	require.InDelta(t, 169.8, sum.High, 1e-9)
}

// TestSharedAccess works the access example out: front swivels, brakes and hubs, counted from the washed vehicle. One by one 13.9 h likely,
// together 8.3 h (common practice figures).
func TestSharedAccess(t *testing.T) {
	plan := strip(t)
	common := open(&plan, map[string]bool{}, "wash-down")
	jobs := [][]string{{"swivel-off/LF", "swivel-off/RF"}, {"brake-off/LF", "brake-off/RF"}, {"hub-off/LF", "hub-off/RF"}}
	together := map[string]bool{}
	var apart float64
	for _, j := range jobs {
		alone := map[string]bool{}
		for _, id := range j {
			open(&plan, alone, id)
			open(&plan, together, id)
		}
		apart += likely(&plan, alone, common)
	}
	require.InDelta(t, 13.9, apart, 1e-9)
	require.InDelta(t, 8.3, likely(&plan, together, common), 1e-9)
	var steps []string
	for id := range together {
		if !common[id] {
			steps = append(steps, id)
		}
	}
	require.ElementsMatch(t, []string{"wheels-off", "hub-off/LF", "hub-off/RF", "brake-off/LF", "brake-off/RF", "links-off", "swivel-off/LF", "swivel-off/RF"}, steps)
}

// open adds a step and everything that has to be done before it. It leaves the clauses of which one is enough to the caller.
func open(p *core.StripPlan, steps map[string]bool, id string) map[string]bool {
	steps[id] = true
	for _, before := range p.Step(id).AllOf {
		if !steps[before] {
			open(p, steps, before)
		}
	}
	return steps
}

func likely(p *core.StripPlan, steps, without map[string]bool) (sum float64) {
	for id := range steps {
		if !without[id] {
			sum += p.Step(id).StripHours.Likely
		}
	}
	return sum
}

// TestHeadOffInPlace: the small ways in make a head a matter of 5.7 h likely, not of the 17.3 that the whole front and the wiring take
// (common practice figures).
func TestHeadOffInPlace(t *testing.T) {
	plan := strip(t)
	washed := open(&plan, map[string]bool{}, "wash-down")
	small := open(&plan, map[string]bool{}, "head-off")
	large := open(&plan, map[string]bool{}, "head-off")
	for step := range small {
		for _, clause := range plan.Step(step).AnyOf {
			require.Len(t, clause, 2, step)
			open(&plan, large, clause[0])
			open(&plan, small, clause[1])
		}
	}
	require.InDelta(t, 5.7, likely(&plan, small, washed), 1e-9)
	require.InDelta(t, 17.3, likely(&plan, large, washed), 1e-9)
}

// TestDestroysNamesChecks: a step may warn only of readings that exist; of subsystems that are not served yet nothing is known.
func TestDestroysNamesChecks(t *testing.T) {
	all := sheets(t, packhorse(t))
	for _, s := range strip(t).Steps {
		for _, d := range s.Destroys {
			subsystem, rest, _ := strings.Cut(d, "/")
			part, check, _ := strings.Cut(rest, "/")
			sheet, ok := all[subsystem]
			if !ok {
				continue
			}
			p := sheet.Part(part)
			require.NotNil(t, p, "%s destroys %s", s.ID, d)
			c := p.Check(check)
			require.NotNil(t, c, "%s destroys %s", s.ID, d)
			require.True(t, c.BeforeStrip, "%s destroys %s, which the sheet lets be read afterwards", s.ID, d)
		}
	}
}

// TestReachIsInThePlan: what a part needs open is a step of the generic plan or of its own sheet.
func TestReachIsInThePlan(t *testing.T) {
	plan := strip(t)
	for name, sheet := range sheets(t, packhorse(t)) {
		known := func(id string) bool {
			return plan.Step(id) != nil || slices.ContainsFunc(sheet.Steps, func(s core.Step) bool { return s.ID == id })
		}
		for _, p := range sheet.Parts {
			require.NotEmpty(t, p.Reach, "%s/%s", name, p.ID)
			for _, id := range p.Reach {
				for _, at := range p.Targets() {
					require.True(t, known(strings.ReplaceAll(id, "{position}", at.Position)), "%s/%s reaches through %s", name, at, id)
				}
			}
		}
	}
}

// TestPacksFitTheSheets: facts are facts of the sheets, limits are of checks that exist, weights are of loads that the plan lifts.
func TestPacksFitTheSheets(t *testing.T) {
	var loads []string
	for _, s := range strip(t).Steps {
		loads = append(loads, s.Load)
	}
	for _, p := range packs(t) {
		all := sheets(t, p)
		for _, o := range p.Overrides {
			sheet, ok := all[o.Subsystem]
			require.True(t, ok, "%s: a limit of %s", p.ID, o.Subsystem)
			part := sheet.Part(o.Target.Part)
			require.NotNil(t, part, "%s: %s/%s", p.ID, o.Subsystem, o.Target)
			require.NotNil(t, part.Check(o.Check), "%s: %s/%s/%s", p.ID, o.Subsystem, o.Target, o.Check)
		}
		for _, w := range p.Weights {
			require.Contains(t, loads, w.Key, p.ID)
			require.NotEmpty(t, w.Source, "%s: %s", p.ID, w.Key)
		}
		for _, f := range p.Facts {
			require.Contains(t, all, f.Subsystem, "%s: the fact %s", p.ID, f.Name)
		}
	}
}

// TestInstrumentsOfTheSheetsAreKnown: a bound is taken from the instrument that a check names for a reading, so the name has to be in the list.
func TestInstrumentsOfTheSheetsAreKnown(t *testing.T) {
	instruments, err := config.ReadInstruments(read(t, "instruments.yaml"), "instruments.yaml")
	require.NoError(t, err)
	for name, sheet := range sheets(t, packhorse(t)) {
		for _, p := range sheet.Parts {
			for _, c := range p.Checks {
				if c.Kind != core.Measured || c.Instrument == "read the stamp" { // a stamp is read as it stands: there is no +/-
					continue
				}
				_, ok := core.FindInstrument(instruments, c.Instrument)
				require.True(t, ok, "%s/%s/%s is measured with %q", name, p.ID, c.ID, c.Instrument)
			}
		}
	}
}
