package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/web"
)

func TestAPartIsCalledByItsAddressItsNameOrTheEndOfItsAddress(t *testing.T) {
	parts := []web.Named{
		{Key: "bottom-end@B-2/main-journal", Name: "Crankshaft main journal"},
		{Key: "gearbox/interlock", Name: "Interlock plungers"},
		{Key: "gearbox/gear-pair", Name: "Gear pair"},
		{Key: "gearbox/gasket", Name: "Gasket set"},
		{Key: "transfer-box/gasket", Name: "Gaskets"},
	}
	for typed, want := range map[string]string{
		"gearbox/interlock":                "gearbox/interlock",
		" interlock PLUNGERS ":             "gearbox/interlock",
		"Interlock":                        "gearbox/interlock",
		"main-journal/M1":                  "bottom-end@B-2/main-journal/M1",
		"crankshaft main journal/M1":       "bottom-end@B-2/main-journal/M1",
		"bottom-end@B-2/main-journal/M1":   "bottom-end@B-2/main-journal/M1",
		"gear-pair/third":                  "gearbox/gear-pair/third",
		"Gear pair third":                  "gearbox/gear-pair/third",
		"Gaskets":                          "transfer-box/gasket",
		"the lid of the box":               "the lid of the box",
		"elsewhere/interlock-of-something": "elsewhere/interlock-of-something",
	} {
		got, err := addressOf(typed, parts)
		require.NoError(t, err)
		require.Equal(t, want, got, typed)
	}
	_, err := addressOf("gasket", parts)
	require.ErrorContains(t, err, `"gasket" is the name of 2 parts`)
}
