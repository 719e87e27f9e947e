package config

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestReadInstruments(t *testing.T) {
	list, err := ReadInstruments([]byte("instruments:\n  - {name: pull scale, aliases: [spring balance], unit: lbf, bound: 5, bound_unit: \"%\"}\n  - {name: mic, unit: inch, bound: .0001}\n"), "x")
	require.NoError(t, err)
	require.Equal(t, []core.Instrument{{Name: "pull scale", Aliases: []string{"spring balance"}, Unit: "lbf", Bound: 5, BoundUnit: "%"},
		{Name: "mic", Unit: "in", Bound: .0001, BoundUnit: "in"}}, list)
}

func TestInstrumentFaults(t *testing.T) {
	_, err := ReadInstruments([]byte("instruments:\n  - {name: mic, unit: furlong, bound: -1}\n  - {name: dial, aliases: [MIC], unit: in, bound: 1, bound_unit: psi}\n  - {name: rule, unit: in}\n"), "x")
	require.Equal(t, []string{`2:23: unknown unit "furlong"`, "2:39: -1 is outside what can be meant here", `3:28: "MIC" names two instruments`,
		"3:66: a reading in in cannot be off by so many psi", "4:5: an entry of instruments has no bound"}, told(t, err))
}
