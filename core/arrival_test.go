package core_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func arrivalList() core.ArrivalList {
	return core.ArrivalList{
		Photos: []core.PhotoItem{{Key: "corner/LF", Name: "Corner LF", Count: 1, On: core.OnVehicle}, {Key: "route", Name: "Wiring route", Count: 2, On: core.OnVehicle},
			{Key: "unit/left", Name: "{unit}, left", Count: 1, On: core.OnBench, Each: core.EachUnit}, {Key: "plate", Name: "Plate", Count: 1, Each: core.EachMark},
			{Key: "box", Name: "Box open", Count: 1, Each: core.EachBox}},
		Asked: []core.ArrivalQuestion{{Key: core.AskKeys, Ask: "Keys", On: core.OnVehicle}, {Key: core.AskBoxes, Ask: "Boxes"}, {Key: "dog", Ask: "Dog"}}}
}

func keysOf(missing []core.PhotoMissing) (keys []string) {
	for _, m := range missing {
		keys = append(keys, m.Key)
	}
	return keys
}

// TestTheListIsOfWhatCame: a vehicle's views for a vehicle, a unit's for each unit on the bench; boxes as counted, plates as found.
func TestTheListIsOfWhatCame(t *testing.T) {
	truck := core.Job{Vehicle: &core.Vehicle{Marks: []core.Mark{{Where: "frame", Says: "agrees"}, {Where: "plate", Says: "agrees"}, {Where: "block", Says: core.MarkNotFound}}},
		Units: []core.Unit{{ID: "engine", Kind: "engine"}}}
	list := arrivalList().For(truck, &core.Arrival{Boxes: 3})
	require.Equal(t, []string{"corner/LF", "route", "plate", "box"}, keysOf(list.Missing(nil)))
	require.Equal(t, 2, list.Photos[2].Count, "a mark that is not found yet cannot be photographed")
	require.Equal(t, 3, list.Photos[3].Count)
	require.Equal(t, []string{"vehicle: block"}, truck.MarksMissing())
	require.Equal(t, []string{"engine"}, truck.Unmarked())
	none := arrivalList().For(truck, &core.Arrival{Counted: []string{core.AskBoxes}})
	require.Equal(t, []string{"corner/LF", "route", "plate"}, keysOf(none.Missing(nil)), "no box came")

	bench := core.Job{Units: []core.Unit{{ID: "gearbox"}, {ID: "second", Role: core.UnitSpare}, {ID: "sold", Role: core.UnitOut}}}
	list = arrivalList().For(bench, nil)
	require.Equal(t, []string{"unit/left@gearbox", "unit/left@second", "plate", "box"}, keysOf(list.Missing(nil)))
	require.Equal(t, "second, left", list.Photos[1].Name)
	require.Equal(t, []core.ArrivalQuestion{{Key: core.AskBoxes, Ask: "Boxes"}, {Key: "dog", Ask: "Dog"}}, list.Unanswered(nil))
}

// TestAPictureBelongsToTheViewItIsNamedAfter: by name or key, in any case, with more after a colon; several of one view until there are enough.
func TestAPictureBelongsToTheViewItIsNamedAfter(t *testing.T) {
	list := arrivalList().For(core.Job{Vehicle: &core.Vehicle{}}, nil)
	missing := list.Missing([]string{"corner lf", "Wiring route: behind the dash", "T-014 gearbox", "route of no return"})
	require.Equal(t, []string{"route", "plate", "box"}, keysOf(missing))
	require.Equal(t, 1, missing[0].Taken)
	require.Equal(t, []string{"plate", "box"}, keysOf(list.Missing([]string{"CORNER/LF", "route", "Wiring route"})))
	require.Equal(t, []string{"corner/LF"}, list.Keys("corner"))
	require.Nil(t, list.Item(""))
}

// TestAnArrivalIsAddedTo: it came when it came; none at all is a count; what cannot be is refused.
func TestAnArrivalIsAddedTo(t *testing.T) {
	s := &core.Story{Job: core.Job{State: core.StateEnquiry}}
	monday := time.Date(2026, 11, 23, 9, 0, 0, 0, time.UTC)
	move, err := s.Do(&core.Arrival{Mileage: "43210 miles", Counted: []string{core.AskBoxes}}, core.Stamp{By: "Jory", At: monday})
	require.NoError(t, err)
	require.Equal(t, core.StateArrived, move.To)
	more := *s.Arrival
	more.Keys, more.Runs, more.Answers = 2, "not tried", []core.ArrivalAnswer{{Key: "dog", Words: "none"}}
	_, err = s.Do(&more, core.Stamp{By: "Wenna", At: monday.Add(time.Hour)})
	require.NoError(t, err)
	require.Equal(t, core.Stamp{By: "Jory", At: monday}, s.Arrival.Stamp)
	said := map[string]string{core.AskMileage: "43210 miles", core.AskKeys: "2", core.AskBoxes: "0", core.AskRuns: "not tried", core.AskLoose: "", "dog": "none", "cat": ""}
	for _, key := range append([]string{"dog", "cat"}, core.ArrivalKeys...) {
		require.Equal(t, said[key], s.Arrival.Says(key), key)
	}
	require.Empty(t, arrivalList().Unanswered(s.Arrival))
	for _, bad := range []core.Arrival{{Keys: -1}, {Boxes: -2}, {Runs: "sometimes"}} {
		require.Equal(t, core.Invalid, core.ErrorCode(bad.Check(s)))
	}
	s.Job.State = core.StateStopped
	require.Equal(t, core.Conflict, core.ErrorCode(more.Check(s)))
}

func TestHistory(t *testing.T) {
	require.Len(t, core.Brief{}.HistoryUnknown(), 3)
	require.Equal(t, []string{"when it last ran: --ran within 2 years|longer|never seen"}, core.Brief{Stored: "damp", Worked: "hard"}.HistoryUnknown())
	require.NoError(t, core.Brief{Stored: "water", Ran: "longer"}.CheckHistory())
	require.Equal(t, core.Invalid, core.ErrorCode(core.Brief{Ran: "lately"}.CheckHistory()))
}
