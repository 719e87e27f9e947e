package core

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func ptr[T any](v T) *T { return &v }

func TestParseReading(t *testing.T) {
	for _, c := range []struct {
		text  string
		value float64
		unit  string
	}{
		{"24.87 mm", 24.87, "mm"}, {"3.5 thou", 3.5, "thou"}, {"1 1/2 in", 1.5, "in"}, {`9/16"`, .5625, "in"}, {"12 ft lbf", 12, "lbf-ft"},
		{"-.002", -.002, ""}, {"+6.4 thou", 6.4, "thou"}, {"2.4946in", 2.4946, "in"}, {"24,87 mm", 24.87, "mm"}, {"1-1/2 in", 1.5, "in"},
		{"½ in", .5, "in"}, {"1½ in", 1.5, "in"}, {"85 %", 85, "%"}, {"48 lbf in", 48, "lbf-in"}, {"− 3 thou", -3, "thou"}, {".0012", .0012, ""},
	} {
		r, err := ParseReading(c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.value, r.Value, 1e-12, c.text)
		require.Equal(t, c.unit, r.Unit, c.text)
	}
	for _, text := range []string{"", "mm", "1/0 in", "1,500", "1.2.3", "NaN", "Inf", "0x10", "1e5 in", "3 furlongs", "1/2.5 in", "--3", "."} {
		_, err := ParseReading(text)
		require.Error(t, err, text)
		require.Equal(t, Invalid, ErrorCode(err), text)
		require.NotEmpty(t, ErrorNext(err), text)
	}
}

// An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
func TestConvert(t *testing.T) {
	v, err := Convert(1, "in", "mm")
	require.NoError(t, err)
	require.Equal(t, 25.4, v)
	v, err = Convert(2.0/32, "in", "mm")
	require.NoError(t, err)
	require.InDelta(t, 1.5875, v, 1e-9)
	v, err = Convert(77, "degF", "degC")
	require.NoError(t, err)
	require.InDelta(t, 25, v, 1e-9)
	v, err = ConvertSpan(9, "degF", "degC")
	require.NoError(t, err)
	require.InDelta(t, 5, v, 1e-9)
	_, err = Convert(1, "in", "lbf")
	require.Equal(t, Invalid, ErrorCode(err))
}

func TestConvertThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(measureUnits).Draw(t, "from")
		b := rapid.SampledFrom(measureUnits).Draw(t, "to")
		v := rapid.Float64Range(-1e4, 1e4).Draw(t, "value")
		there, err := Convert(v, a.Name, b.Name)
		if a.Dimension != b.Dimension {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		back, err := Convert(there, b.Name, a.Name)
		require.NoError(t, err)
		require.InDelta(t, v, back, 1e-9*math.Max(1, math.Abs(v))+1e-6)
	})
}

func TestBareNumbers(t *testing.T) {
	journal := ReadingContext{CheckUnit: "in", PlausibleLow: ptr(2.4), PlausibleHigh: ptr(2.51), Nominal: ptr(2.5)}
	q, err := journal.Read("2.4946")
	require.NoError(t, err)
	require.Equal(t, "in", q.Unit)

	q, err = journal.Read("63.363 mm")
	require.NoError(t, err)
	require.Equal(t, Quantity{Value: 63.363, Unit: "mm"}, q)

	// A signed reading is against nominal where it is not plausible by itself.
	q, err = journal.Read("-5.4 thou")
	require.NoError(t, err)
	require.InDelta(t, 2494.6, q.Value, 1e-9)
	require.Equal(t, "thou", q.Unit)

	_, err = journal.Read("63.363")
	require.ErrorContains(t, err, "63.363 in is not plausible here; 63.363 mm would be")
	_, err = journal.Read("24.946")
	require.ErrorContains(t, err, "not plausible")

	// Half an inch of end float is absurd, half a millimetre is not: asked back, never guessed.
	float := ReadingContext{CheckUnit: "in", PlausibleLow: ptr(0.), PlausibleHigh: ptr(.1)}
	_, err = float.Read("0.05")
	require.ErrorContains(t, err, "0.05 could be in or mm here")
	float.InstrumentUnit = "mm"
	q, err = float.Read("0.05")
	require.NoError(t, err)
	require.Equal(t, "mm", q.Unit)
}

func TestBounds(t *testing.T) {
	c := ReadingContext{CheckUnit: "in", Bound: .0001, BoundUnit: "in"}
	q, err := c.Read("63.363 mm")
	require.NoError(t, err)
	require.InDelta(t, .00254, q.Bound, 1e-9)
	c = ReadingContext{CheckUnit: "lbf", Bound: 5, BoundUnit: "%"}
	q, err = c.Read("20 lbf")
	require.NoError(t, err)
	require.InDelta(t, 1, q.Bound, 1e-12)
}

func TestReadValue(t *testing.T) {
	for _, c := range []struct {
		kind CheckKind
		text string
		want Value
	}{
		{Judged, "class 2", Value{Kind: ValueClass, Class: 2}}, {Judged, "light", Value{Kind: ValueClass, Class: 1}}, {Judged, "0", Value{Kind: ValueClass}},
		{GoNoGo, "pass", Value{Kind: ValuePass, Pass: true}}, {GoNoGo, "Fails", Value{Kind: ValuePass}}, {Counted, "21", Value{Kind: ValueCount, Count: 21}},
		{Measured, "could not reach", Value{Kind: ValueNotRead, NotRead: CouldNotReach}}, {GoNoGo, "Missing", Value{Kind: ValueNotRead, NotRead: PartMissing}},
	} {
		v, err := ReadValue(Check{Kind: c.kind, Unit: "in"}, ReadingContext{CheckUnit: "in"}, c.text)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, v, c.text)
	}
	for _, c := range []struct {
		kind CheckKind
		text string
	}{{Judged, "4"}, {Judged, "-1"}, {GoNoGo, "OK-ish"}, {Counted, "2.5"}, {Counted, "-1"}, {Measured, " "}} {
		_, err := ReadValue(Check{Kind: c.kind, Unit: "in"}, ReadingContext{CheckUnit: "in"}, c.text)
		require.Equal(t, Invalid, ErrorCode(err), c.text)
	}
}

func FuzzParseReading(f *testing.F) {
	for _, s := range []string{"24.87 mm", "1 1/2 in", `9/16"`, "-.002", "½", "1,5", "1/3/4", "+", "12 ft lbf", "1e9", "∞ in", "0/1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseReading(s)
		if err != nil {
			require.Equal(t, Invalid, ErrorCode(err))
			return
		}
		require.False(t, math.IsNaN(r.Value) || math.IsInf(r.Value, 0))
		if r.Unit != "" {
			_, ok := FindUnit(r.Unit)
			require.True(t, ok)
		}
	})
}
