package config

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestReadArrival(t *testing.T) {
	list, err := ReadArrival([]byte(`photos:
  - {key: hub, positions: [LF, RF], name: "Hub open, {position}", step: "hub-off/{position}", on: vehicle}
  - {key: door, positions: [left, right], name: Door}
  - {key: box, each: box, count: 2, name: Box}
asked:
  - {key: keys, ask: Keys counted, on: vehicle}
  - {key: dog, ask: Is there a dog in it}
`), "x")
	require.NoError(t, err)
	require.Equal(t, core.ArrivalList{
		Photos: []core.PhotoItem{{Key: "hub/LF", Name: "Hub open, LF", Count: 1, On: "vehicle", Step: "hub-off/LF"}, {Key: "hub/RF", Name: "Hub open, RF", Count: 1, On: "vehicle", Step: "hub-off/RF"},
			{Key: "door/left", Name: "Door, left", Count: 1}, {Key: "door/right", Name: "Door, right", Count: 1}, {Key: "box", Name: "Box", Count: 2, Each: "box"}},
		Asked: []core.ArrivalQuestion{{Key: "keys", Ask: "Keys counted", On: "vehicle"}, {Key: "dog", Ask: "Is there a dog in it"}}}, list)
}

func TestArrivalFaults(t *testing.T) {
	_, err := ReadArrival([]byte(`photos:
  - {key: hub, name: "Hub, {position}"}
  - {key: hub, name: Other, count: 0}
  - {key: nave, name: other, each: wheel, on: stage}
  - {key: unit, name: "{unit} whole"}
asked:
  - {key: keys, ask: How many}
  - {key: keys, ask: How many, why: 1}
`), "x")
	require.Equal(t, []string{"2:22: {position} in a view without positions", "3:11: the view hub stands here twice", "3:36: 0 is outside what can be meant here",
		`4:23: "other" names two views`, `4:36: "wheel" is no thing to count`, `4:47: "stage" is no sort of arrival`, "5:23: {unit} in a view that is not of each unit",
		`8:11: keys is asked twice`, `8:32: unknown key "why" in an entry of asked`}, told(t, err))
}
