package configs_test

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
)

func demoFindings(t *testing.T) (rows []config.Row) {
	t.Helper()
	for _, n := range []string{"demo/bottom-end.csv", "demo/cylinders.csv", "demo/head.csv", "demo/clutch.csv", "demo/gearbox.csv", "demo/transfer-box.csv", "demo/prop-shafts.csv", "demo/rear-axle.csv", "demo/front-axle.csv", "demo/steering.csv", "demo/brakes.csv", "demo/cooling.csv", "demo/fuel.csv", "demo/electrics.csv", "demo/frame.csv", "demo/springs.csv", "demo/hubs-wheels.csv", "demo/body.csv"} {
		more, faults := config.ReadFindings(read(t, n), n, time.UTC)
		require.NoError(t, faults.Err())
		rows = append(rows, more...)
	}
	return rows
}

// TestDemoTellsAWholeStory: at least 90 findings in mixed units, some that could not be taken, one made again.
func TestDemoTellsAWholeStory(t *testing.T) {
	rows := demoFindings(t)
	require.GreaterOrEqual(t, len(rows), 90)
	count := func(holds func(config.Row) bool) (n int) {
		for _, r := range rows {
			if holds(r) {
				n++
			}
		}
		return n
	}
	require.NotZero(t, count(func(r config.Row) bool { return strings.Contains(r.Value, "mm") }), "millimetres")
	require.NotZero(t, count(func(r config.Row) bool { return strings.Contains(r.Value, "thou") }), "thous")
	require.NotZero(t, count(func(r config.Row) bool { return strings.Contains(r.Value, "/") }), "fractions")
	require.NotZero(t, count(func(r config.Row) bool { return r.Value == "could not reach" }))
	require.NotZero(t, count(func(r config.Row) bool { return r.Value == "not measured" }))
	require.NotZero(t, count(func(r config.Row) bool { return strings.Contains(r.Note, "again") }))
	for _, r := range rows {
		require.NotEmpty(t, r.By, "%s %s", r.Part, r.Check)
		require.False(t, r.Time.IsZero(), "%s %s", r.Part, r.Check)
	}
}

// TestDemoFindingsFitTheSheets: every row is understood by the sheets with the packs of the units that are there.
func TestDemoFindingsFitTheSheets(t *testing.T) {
	instruments, err := config.ReadInstruments(read(t, "instruments.yaml"), "instruments.yaml")
	require.NoError(t, err)
	r := core.Recorder{Instruments: instruments}
	for _, p := range packs(t) {
		for name, sheet := range sheets(t, p) {
			if sheet.UnitKind == "engine" && p.ID != "d4-1959" {
				continue // the engine that is there, not the one by the plate
			}
			r.Sheets = append(r.Sheets, core.UnitSheet{Subsystem: name, Unit: sheet.UnitKind, Sheet: sheet})
		}
	}
	for _, row := range demoFindings(t) {
		f, err := r.Finding(core.Typed{Subsystem: row.Subsystem, Part: row.Part, Position: row.Position, Check: row.Check, Station: row.Station, Value: row.Value,
			Measure: row.Unit, Instrument: row.Instrument, By: row.By, Note: row.Note, At: row.Time})
		require.NoError(t, err, "line %d: %s %s %s", row.Line, row.Part, row.Position, row.Check)
		require.Equal(t, row.Value, f.AsTyped, "it is kept as typed")
	}
}

// TestDemoRatesAndTaxesAreComplete: nothing in the demo asks for a rate or a tax.
func TestDemoRatesAndTaxesAreComplete(t *testing.T) {
	s, err := config.ReadSettings(read(t, "demo/fettle.yaml"), "demo/fettle.yaml", nil)
	require.NoError(t, err)
	for _, skill := range skills(t) {
		require.True(t, slices.ContainsFunc(s.Rates, func(r core.Rate) bool { return r.Skill == skill }), "no rate for a %s", skill)
	}
	for _, class := range []string{"labour", "parts", "outwork"} {
		require.True(t, slices.ContainsFunc(s.Taxes, func(x core.Tax) bool { return x.Class == class }), "no tax rate for %s", class)
	}
}

func skills(t *testing.T) (list []string) {
	t.Helper()
	for _, s := range strip(t).Steps {
		list = append(list, s.Skill)
	}
	for _, sheet := range sheets(t, packhorse(t)) {
		for _, o := range sheet.Operations {
			list = append(list, o.Skill)
		}
	}
	slices.Sort(list)
	return slices.DeleteFunc(slices.Compact(list), func(s string) bool { return s == "" })
}

// capitals finds words that could be a name.
var capitals = regexp.MustCompile(`\b[A-Z][a-z]{3,}\b`)

// invented are the names of the demo's world, and the words of the trade and of the calendar that are written with a capital inside a line.
// A capital that is not among them is looked at by whoever adds it: nothing here may name a maker, a model, a person or a place that exists.
var invented = []string{"Ashdyke", "Vehicle", "Works", "Forge", "Calder", "Finch", "Packhorse", "Mark", "Jory", "Wenna", "Kestrel", "Reproductions", "Wold", "Stock", "Spares",
	"Tern", "Lane", "Grinding", "Birch", "Yard", "Dismantlers", "Orme", "Radiator", "Repairs", "Selkirk", "Harness", "Makers", "Brampton", "Blast", "Coat"}

func TestDemoNamesAreInvented(t *testing.T) {
	sentence := regexp.MustCompile(`(^|[.:?"#\-{,]\s*)[A-Z][a-z]+`) // the first word of a text
	files := 0
	err := fs.WalkDir(configs.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Dir(name) == "strip" || name == "instruments.yaml" {
			return err
		}
		files++
		for n, line := range strings.Split(string(read(t, name)), "\n") {
			line = sentence.ReplaceAllStringFunc(line, func(s string) string {
				if slices.ContainsFunc(invented, func(w string) bool { return strings.HasSuffix(s, w) }) {
					return s
				}
				return strings.ToLower(s)
			})
			for _, w := range capitals.FindAllString(line, -1) {
				require.Contains(t, invented, w, "%s:%d: %s", name, n+1, line)
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, files, 5)
}
