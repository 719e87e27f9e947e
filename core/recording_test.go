package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func bookSheet() Recorder {
	journal := Part{ID: "main-journal", Name: "Crankshaft main journal", Positions: []string{"M1", "M2"}, Checks: []Check{
		{ID: "diameter", Name: "diameter", Kind: Measured, Unit: "in", Stations: []string{"FV", "FH"}, PlausibleLow: ptr(2.4), PlausibleHigh: ptr(2.51), Instrument: "micrometer", Limit: Limit{NewHigh: ptr(2.5), WearLow: ptr(2.4985)}},
		{ID: "score-depth", Name: "depth of the deepest score", Kind: Measured, Unit: "in", PlausibleLow: ptr(0.), PlausibleHigh: ptr(.05)}}}
	lock := Part{ID: "interlock", Name: "Interlock plungers", Checks: []Check{{ID: "working", Name: "all present and working", Kind: GoNoGo}}}
	return Recorder{Sheets: []UnitSheet{{Subsystem: "bottom-end", Unit: "engine", Sheet: Sheet{Parts: []Part{journal}}}, {Subsystem: "gearbox", Unit: "gearbox", Sheet: Sheet{Parts: []Part{lock}}}},
		Instruments: []Instrument{{Name: "micrometer", Aliases: []string{"mic"}, Unit: "in", Bound: .0001, BoundUnit: "in"}}}
}

func record(t *testing.T, line string) (fs []Finding, errs []error) {
	t.Helper()
	r := bookSheet()
	typed, errs := r.ReadLine(line, "")
	for _, x := range typed {
		f, err := r.Finding(x)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		fs = append(fs, f)
	}
	return fs, errs
}

func TestReadLine(t *testing.T) {
	fs, errs := record(t, "bottom-end main-journal m2 diameter FV 2.4950 FH -3.2 thou with mic by Jory; M1 score depth could not reach; gearbox interlock working fails note one short, again")
	require.Empty(t, errs)
	require.Len(t, fs, 4)
	require.Equal(t, Place{"bottom-end", "engine", Target{"main-journal", "M2"}}, fs[0].Place())
	require.Equal(t, "FV", fs[0].Station)
	require.Equal(t, Quantity{2.4950, "in", .0001}, fs[0].Value.Quantity)
	require.Equal(t, "micrometer", fs[0].Instrument)
	require.Equal(t, "Jory", fs[0].By)
	require.InDelta(t, 2496.8, fs[1].Value.Quantity.Value, 1e-9)
	require.Equal(t, "-3.2 thou", fs[1].AsTyped)
	require.Equal(t, Value{Kind: ValueNotRead, NotRead: CouldNotReach}, fs[2].Value)
	require.Equal(t, "M1", fs[2].Target.Position)
	require.Equal(t, "one short, again", fs[3].Note)
	require.False(t, fs[3].Value.Pass)
}

// What a clause leaves out it takes from the one before: the position too.
func TestReadLineGoesOn(t *testing.T) {
	fs, errs := record(t, "bottom-end main-journal M1 diameter FV 2.4950; FH 2.4960; M2 FV 2.4970; score-depth could not reach")
	require.Empty(t, errs)
	require.Len(t, fs, 4)
	require.Equal(t, "M1", fs[1].Target.Position)
	require.Equal(t, "FH", fs[1].Station)
	require.Equal(t, "M2", fs[2].Target.Position)
	require.Equal(t, Target{"main-journal", "M2"}, fs[3].Target)
	require.Equal(t, "score-depth", fs[3].Check)
}

func TestReadLineFaults(t *testing.T) {
	for line, want := range map[string]string{
		"main-journal M1 diameter FV 2.5":                         "no subsystem is named",
		"bottom-end main-jurnal M1 diameter FV 2.5":               `no part called "main-jurnal"`,
		"bottom-end main-journal diameter FV 2.5":                 "which Crankshaft main journal?",
		"bottom-end main-journal M1 diametre FV 2.5":              `no check of Crankshaft main journal called "diametre"`,
		"bottom-end main-journal M1 diameter XV 2.5":              `no station "XV"`,
		"bottom-end main-journal M1 diameter FV":                  "no value is given",
		"bottom-end main-journal M1 diameter FV 25":               "not plausible",
		"bottom-end main-journal M1 diameter FV 2.5 with a ruler": `no instrument "a ruler"`,
		"gearbox interlock 1 working fails":                       "neither pass nor fails",
	} {
		fs, errs := record(t, line)
		require.Empty(t, fs, line)
		require.Len(t, errs, 1, line)
		require.ErrorContains(t, errs[0], want)
		require.NotEmpty(t, ErrorNext(errs[0]), line)
	}
	_, errs := record(t, "bottom-end main-jurnal M1 diameter FV 2.5")
	require.Contains(t, ErrorNext(errs[0]), `did you mean "main-journal"?`)
}

func FuzzReadLine(f *testing.F) {
	for _, s := range []string{"bottom-end main-journal M2 diameter FV 2.4950 FH 2.4968", ";;", "gearbox interlock working fails note x", "with", "by eye", "gearbox interlock by eye", "bottom-end with by note"} {
		f.Add(s)
	}
	r := bookSheet()
	f.Fuzz(func(t *testing.T, line string) {
		typed, errs := r.ReadLine(line, "")
		for _, x := range typed {
			_, _ = r.Finding(x)
		}
		for _, e := range errs {
			require.NotEmpty(t, e.Error())
		}
	})
}
