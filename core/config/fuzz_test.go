package config

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// inFile checks that every fault lies in the file and says something.
func inFile(t *testing.T, data []byte, fs Faults) {
	t.Helper()
	end := 2 + bytes.Count(data, []byte("\n")) + bytes.Count(data, []byte("\r"))
	for _, f := range fs {
		require.NotEmpty(t, f.What)
		require.LessOrEqual(t, f.Line, end, f.String())
	}
}

// FuzzReadFindings: nothing brings the reader down, every row lies in the file, and what was read once is read the
// same from a clean copy of it.
func FuzzReadFindings(f *testing.F) {
	for _, s := range []string{"", header, header + "\na,p,,c,,9/16\",,,2026-03-02,\"x\ny\"\n", "sep=;\n" + strings.ReplaceAll(header, ",", ";") + "\na;p;;c;;1", "\ufeff" + header + ",unit\r\na,\"p\"\"\",,c,,1,,,,,in\r\n", "\"", header + "\n\"a\nb,c"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, faults := ReadFindings(data, "x", nil)
		inFile(t, data, faults)
		var clean strings.Builder
		clean.WriteString(header + ",unit\n")
		for _, r := range rows {
			require.NotEmpty(t, r.Value)
			cells := []string{r.Subsystem, r.Part, r.Position, r.Check, r.Station, r.Value, r.Instrument, r.By, r.At, r.Note, r.Unit}
			for i, c := range cells {
				cells[i] = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
			}
			clean.WriteString(strings.Join(cells, ",") + "\n")
		}
		again, faults := ReadFindings([]byte(clean.String()), "x", nil)
		require.Empty(t, faults)
		require.Len(t, again, len(rows))
		for i := range rows {
			require.Equal(t, rows[i].Normalised(), again[i].Normalised())
			require.Equal(t, rows[i].Nth, again[i].Nth)
			require.Equal(t, rows[i].Time, again[i].Time)
		}
	})
}

// FuzzReadPrices: nothing brings the reader down, and what is read is a price.
func FuzzReadPrices(f *testing.F) {
	head := strings.Join(PriceColumns, ",")
	for _, s := range []string{"", head, head + "\nrollers,Upper Yard,new,10,12.50,20,USD,5,1,4,16,2026-03-02,n\n", head + "\na,,used,,1e9,,JPY,,,NaN,,2026-03-02,"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		entries, faults := ReadPrices(data, "x")
		inFile(t, data, faults)
		for _, e := range entries {
			_, ok := e.Price.Minor3(e.Price.Currency)
			require.True(t, ok, "%+v", e)
		}
	})
}

// FuzzReadYAML: nothing brings a reader of YAML down; what has no fault holds what it must.
func FuzzReadYAML(f *testing.F) {
	for _, s := range []string{"", smallPlan, smallPack, smallSettings, "instruments:\n  - {name: m, unit: in, bound: .1}\n", "a: &a [*a]", "id: *x", "? [a]\n: b", "steps: {<<: *a}", "id: !!binary aGk=\ntitle: !x y\nsteps:", "\xff", "--- a\n--- b", "facts: [{value: {}}]"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		check := func(err error, whole bool) {
			var fs Faults
			require.True(t, err == nil || errors.As(err, &fs), "%v", err)
			inFile(t, data, fs)
			require.True(t, err != nil || whole)
		}
		plan, err := ReadStripPlan(data, "x")
		check(err, plan.ID != "")
		pack, err := ReadPack(data, "x")
		check(err, pack.ID != "" && pack.Source != "")
		list, err := ReadInstruments(data, "x")
		check(err, list != nil)
		s, err := ReadSettings(data, "x", nil)
		check(err, s.Currency != "" && s.Zone != nil)
	})
}
