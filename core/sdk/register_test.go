package sdk_test

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// drums gives the bench's sheet with a register entry for its drums.
func drums(t *testing.T, how string) *sdk.Plugin {
	t.Helper()
	b, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	s := strings.Replace(string(b), "outlook: {past: .15}", "outlook: {register: H32}", 1)
	s = strings.Replace(s, "register:\n", "register:\n  - {id: H32, name: Drum cracked, chance: .15, parts: [drum], "+how+"source: \"common practice, no source\"}\n", 1)
	p, err := sdk.New(sdk.Subsystem{Sheet: []byte(s)})
	require.NoError(t, err)
	return p
}

// An entry is one event; by groups or at each position it is several, which happen apart.
func TestRegisterByGroup(t *testing.T) {
	for _, c := range []struct {
		how    string
		events map[string][]string
		front  string // the event of LF
	}{
		{"", map[string][]string{"H32": {"LF", "RF", "LR", "RR"}}, "H32"},
		{"groups: {front: [LF, RF], rear: [LR, RR]}, ", map[string][]string{"H32/front": {"LF", "RF"}, "H32/rear": {"LR", "RR"}}, "H32/front"},
		{"groups: {front: [LF, RF]}, ", map[string][]string{"H32/front": {"LF", "RF"}, "H32/LR": {"LR"}, "H32/RR": {"RR"}}, "H32/front"},
		{"each: true, ", map[string][]string{"H32/LF": {"LF"}, "H32/RF": {"RF"}, "H32/LR": {"LR"}, "H32/RR": {"RR"}}, "H32/LF"},
	} {
		t.Run(c.how, func(t *testing.T) {
			p := drums(t, c.how)
			sheet, _, err := p.Describe(context.Background(), nil)
			require.NoError(t, err)
			events := map[string][]string{}
			for _, h := range sheet.Hidden {
				for _, m := range h.Parts {
					if m.Part == "drum" {
						require.InDelta(t, .15, h.Chance, 1e-9)
						events[h.ID] = append(events[h.ID], m.Position)
					}
				}
			}
			require.Equal(t, c.events, events)
			a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "x"})
			require.NoError(t, err)
			for _, cond := range a.Conditions {
				if cond.Target == (core.Target{Part: "drum", Position: "LF"}) {
					require.Len(t, cond.States, 2)
					require.Equal(t, c.front, cond.States[1].RegisterID)
					require.InDelta(t, .15, cond.States[1].Chance, 1e-9)
				}
			}
		})
	}
}

func TestRegisterByGroupFaults(t *testing.T) {
	b, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	for entry, want := range map[string]string{
		"parts: [drum], each: true, groups: {front: [LF, RF]}": "at each position, or at each group of them",
		"operations: [gallery], each: true":                    "speaks of parts",
		"parts: [drum], groups: {front: [LF, XF]}":             "no part of H32 has the position XF",
	} {
		s := strings.Replace(string(b), "register:\n", "register:\n  - {id: H32, name: Drum cracked, chance: .15, "+entry+", source: x}\n", 1)
		_, err := sdk.New(sdk.Subsystem{Sheet: []byte(s)})
		require.ErrorContains(t, err, want)
	}
}
