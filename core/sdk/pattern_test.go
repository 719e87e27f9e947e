package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func pressed(position string, dry float64, wet ...float64) Pressed {
	p := Pressed{Position: position, Dry: &dry}
	if len(wet) > 0 {
		p.Wet = &wet[0]
	}
	return p
}

// 128, 131, 92, 126: 97.7, 100.0, 70.2 and 96.2 per cent of the best. With oil 96: 4.3 per cent more, so valves, not
// rings. The trade's worked example, from memory.
func TestCompressionPattern(t *testing.T) {
	all, neighbours := UsualCompression().Read([]Pressed{pressed("1", 128), pressed("2", 131), pressed("3", 92, 96), pressed("4", 126)})
	for i, want := range []float64{97.7, 100.0, 70.2, 96.2} {
		require.InDelta(t, want, all[i].OfBest, .05)
		require.Equal(t, i == 2, all[i].Low)
	}
	require.InDelta(t, 4.3, *all[2].Rise, .05)
	require.Equal(t, "valves", all[2].Points)
	require.Equal(t, "70.2 % of the best, 4.3 % more with oil: valves, not rings", all[2].Words())
	require.Empty(t, neighbours)
}

func TestCompressionOfWornRings(t *testing.T) {
	all, neighbours := UsualCompression().Read([]Pressed{pressed("1", 120), pressed("2", 80, 110), pressed("3", 82, 84), {Position: "4"}})
	require.Len(t, all, 3, "what was not read is not judged")
	require.Equal(t, "rings", all[1].Points)
	require.Empty(t, neighbours, "rings in one of them explain it")
}

func TestCompressionOfAJointBetweenTwo(t *testing.T) {
	_, neighbours := UsualCompression().Read([]Pressed{pressed("1", 120), pressed("2", 60, 62), pressed("3", 58, 60), pressed("4", 118)})
	require.Equal(t, [][2]string{{"2", "3"}}, neighbours)
	all, neighbours := UsualCompression().Read([]Pressed{{Position: "1"}, pressed("2", 0)})
	require.Empty(t, all)
	require.Empty(t, neighbours)
}

func TestWhereAirIsHeard(t *testing.T) {
	for heard, says := range map[string]string{"exhaust": "exhaust valve", "Carburettor": "inlet valve", "bubbles in the radiator": "head joint or a crack",
		"oil filler": "rings and bore", "next plug hole": "head joint between two cylinders"} {
		got, ok := LeakSays(heard)
		require.True(t, ok, heard)
		require.Equal(t, says, got)
	}
	_, ok := LeakSays("nowhere")
	require.False(t, ok)
}

// 62 lbf against 70 new: -11.4 per cent, past -10: the set of springs. The trade's worked example, common practice.
func TestSpringLoss(t *testing.T) { require.InDelta(t, -11.4, SpringLoss(62, 70), .05) }
