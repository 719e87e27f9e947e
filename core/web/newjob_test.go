package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// newJobs is what was opened.
type newJobs struct {
	opened   core.Job
	openedBy string
}

func (s *shop) Choices(context.Context) (Choices, error) {
	return Choices{Owners: []string{"M. Wellbeck"}, Kinds: []string{"engine", "transfer-box"}, Subsystems: []Subsystem{{Name: "brakes", Title: "Brakes"}},
		Packs: []core.Pack{{ID: "t", Title: "A transfer box", Kind: "unit"}, {ID: "v", Title: "A vehicle", Kind: "vehicle"}}}, nil
}

// OpenJob knows no pack but one, and keeps the job.
func (s *shop) OpenJob(_ context.Context, by string, j core.Job) (core.Job, error) {
	if j.Vehicle != nil && j.Vehicle.Pack == "none" {
		return j, core.Errorf(core.NotFound, "put it into the packs folder", "there is no pack %q", "none")
	}
	j.Number = "J-002"
	s.opened, s.openedBy = j, by
	return j, nil
}

func TestAJobIsOpenedFromAForm(t *testing.T) {
	x := &shop{}
	h := handlerOf(t, x)
	post := func(fields ...string) *httptest.ResponseRecorder {
		v := url.Values{}
		for i := 0; i < len(fields); i += 2 {
			v.Add(fields[i], fields[i+1])
		}
		return postTo(t, h, "/new", v)
	}
	w := post("owner", "A. Otter", "came", "unit", "kind", "transfer-box", "use", "farm tracks", "horizon-km", "30 000", "horizon-years", "12", "unit-pack", "t", "originality", "2")
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	require.Equal(t, "/jobs/J-002/begin", w.Header().Get("Location"))
	require.Equal(t, core.Job{Number: "J-002", Title: "Transfer box", Owner: core.Party{Name: "A. Otter"}, Units: []core.Unit{{ID: "transfer-box", Kind: "transfer-box", Title: "Transfer box", Pack: "t"}},
		Extent: core.Extent{Kind: core.ExtentBench}, Brief: core.Brief{Use: "farm tracks", HorizonKM: 30000, HorizonYears: 12, Originality: 2}}, x.opened)
	require.Equal(t, "Jory", x.openedBy)

	w = post("owner", "A. Otter", "came", "vehicle", "vehicle", "An old one", "extent", core.ExtentNamed, "name", "brakes", "years", "70", "title", "Stops badly", "horizon-km", "10 000 miles")
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	require.InDelta(t, 16093.44, x.opened.Brief.HorizonKM, 1e-6)
	require.Equal(t, "Stops badly", x.opened.Title)
	require.Equal(t, []string{"brakes"}, x.opened.Extent.Names)
	require.InDelta(t, 70, *x.opened.Brief.AgeYears, 0)

	// All that is missing is told at once, and what was typed stays.
	w = post("came", "vehicle", "extent", core.ExtentNamed, "horizon-km", "far", "use", "shows & <fairs>", "stored", "wet")
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	for _, s := range []string{"Nobody is named whose it is", "not said what vehicle came", "nothing is named", "“far” is no number", "does not say how it was stored", "shows &amp; &lt;fairs&gt;"} {
		require.Contains(t, w.Body.String(), s)
	}
	require.Contains(t, post("came", "unit", "owner", "x").Body.String(), "not said what kind of unit came")
	// What the shop does not know is told on the form too.
	w = post("owner", "x", "came", "vehicle", "vehicle", "y", "vehicle-pack", "none", "extent", core.ExtentAsNeeded)
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), "There is no pack &#34;none&#34;")
}

// A folder without a shop has one page, which makes the shop or says what is wrong.
func TestAShopIsMadeFromAForm(t *testing.T) {
	var made []FirstShop
	h, err := NewOpening(Opening{Folder: "/somewhere/yard", Zone: "Europe/London", Clock: time.Now, Make: func(_ context.Context, f FirstShop) error {
		switch f.Name {
		case "":
			return core.Errorf(core.Invalid, "write what stands above its door", "the shop has no name")
		case "twice":
			return core.Errorf(core.Conflict, "go to the yard", "the shop is made already")
		}
		made = append(made, f)
		return nil
	}})
	require.NoError(t, err)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/", nil))
	require.Contains(t, w.Body.String(), "/somewhere/yard")
	require.Contains(t, w.Body.String(), `value="Europe/London"`)
	w = postTo(t, h, "/", url.Values{"name": {" Hollow Lane "}, "currency": {"usd"}, "rate": {"85"}})
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, "/new", w.Header().Get("Location"))
	require.Equal(t, []FirstShop{{"Hollow Lane", "USD", "85", ""}}, made)
	w = postTo(t, h, "/", url.Values{"currency": {"gbp"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), "The shop has no name")
	require.Contains(t, w.Body.String(), `value="GBP"`)
	require.Equal(t, http.StatusConflict, postTo(t, h, "/", url.Values{"name": {"twice"}}).Code)
	// Any other address leads there.
	w = httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/jobs/J-001", nil))
	require.Equal(t, "/", w.Header().Get("Location"))
	// No other site's page may make a shop.
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader("name=x"))
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	w = httptest.NewRecorder()
	h.ServeHTTP(w, r)
	require.Equal(t, http.StatusForbidden, w.Code)
}

func postTo(t *testing.T, h http.Handler, address string, v url.Values) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, address, strings.NewReader(v.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}
