package web

import (
	"context"
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// arrivals is what was taken in.
type arrivals struct {
	arrived core.Arrival
	said    []string
	brief   *core.Brief
}

func (s *shop) AsFound(context.Context, core.Story) (AsFound, error) {
	return AsFound{Asked: []core.ArrivalQuestion{{Key: "mileage", Ask: "Mileage"}, {Key: "keys", Ask: "Keys counted"}, {Key: "loose", Ask: "What lies loose"}, {Key: "runs", Ask: "Runs"}, {Key: "dog", Ask: "Is the dog in it"}},
		Missing: []core.PhotoMissing{{PhotoItem: core.PhotoItem{Key: "dash", Name: "Dash", Count: 2}, Taken: 1}}, Photos: 3, Wanted: 5, Unmarked: []string{"vehicle"}, NotAsked: []string{"transfer-box"},
		Unread: []core.Unread{{Place: core.Place{Subsystem: "gearbox", Unit: "gearbox-2", Target: core.Target{Part: "shaft"}}, PartName: "Shaft", Name: "end float"}}}, nil
}

func (s *shop) Arrive(_ context.Context, _, _ string, a core.Arrival, answers []string, b *core.Brief) error {
	if a.Runs == "sort of" {
		return core.Errorf(core.Invalid, "say one of: runs", "%q says nothing about its running", a.Runs)
	}
	s.arrived, s.said, s.brief = a, answers, b
	return nil
}

// What came is laid over what was said before: what is left blank stays, none at all is a count, and history changes only where it differs.
func TestWhatCameIsTakenIn(t *testing.T) {
	x := &shop{story: func(s *core.Story) {
		s.Job.Brief.Stored = "dry"
		s.Arrival = &core.Arrival{Mileage: "43210 miles", Boxes: 2, Counted: []string{"boxes"}, Loose: []string{"jack"}, Answers: []core.ArrivalAnswer{{Key: "dog", Words: "no"}}}
	}}
	h := handlerOf(t, x)
	page := askOf(t, x, "GET", "/jobs/J-001/arrive", "").Body.String()
	for _, s := range []string{`value="43210 miles"`, "jack</textarea>", `value="no"`, "3 of 5 as-found photographs", "Dash, 1 of 2", "No mark read yet: vehicle", "transfer box could not be asked", `/bench/gearbox@gearbox-2"`, "end float"} {
		require.Contains(t, page, s)
	}
	w := postTo(t, h, "/jobs/J-001/arrive", url.Values{"ask-keys": {"0"}, "ask-loose": {" jack \n\nwheel brace"}, "ask-dog": {"yes"}, "ask-mileage": {""}, "stored": {"dry"}, "note": {"came on a trailer"}})
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	require.Equal(t, "43210 miles", x.arrived.Mileage)
	require.Equal(t, []string{"boxes", "keys"}, x.arrived.Counted)
	require.Equal(t, 2, x.arrived.Boxes)
	require.Equal(t, []string{"jack", "wheel brace"}, x.arrived.Loose)
	require.Equal(t, "came on a trailer", x.arrived.Note)
	require.Equal(t, []string{"dog=yes"}, x.said)
	require.Nil(t, x.brief)
	postTo(t, h, "/jobs/J-001/arrive", url.Values{"stored": {"dry"}, "ran": {"longer"}})
	require.Equal(t, "longer", x.brief.Ran)

	for _, wrong := range []url.Values{{"ask-keys": {"a few"}, "note": {"kept <as> typed"}}, {"ask-runs": {"sort of"}, "note": {"kept <as> typed"}}} {
		w = postTo(t, h, "/jobs/J-001/arrive", wrong)
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
		require.Contains(t, w.Body.String(), "kept &lt;as&gt; typed")
		require.Contains(t, w.Body.String(), `role="alert"`)
	}
}
