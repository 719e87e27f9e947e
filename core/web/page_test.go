package web

import (
	"compress/gzip"
	"context"
	"encoding/json"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/jba/templatecheck"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Every template is made for a type, and asks that type for nothing that it does not have.
func TestTemplatesFitTheirTypes(t *testing.T) {
	pages, err := readPages(time.UTC)
	require.NoError(t, err)
	for name, p := range pages {
		data, ok := pageTypes[name]
		require.True(t, ok, "templates/%s.html has no type in pageTypes", name)
		require.NoError(t, templatecheck.CheckHTML(p.Template, data), name)
	}
	for name := range pageTypes {
		require.Contains(t, pages, name, "pageTypes names a template that is not there")
	}
}

// elsewhere finds addresses of other machines; the name of a drawing's language is none.
var elsewhere = regexp.MustCompile(`https?://[a-zA-Z0-9.-]+|(?:src|href)="//`)

// Nothing is asked of any other machine when the bench runs.
func TestNothingComesFromElsewhere(t *testing.T) {
	for _, files := range []fs.FS{templateFiles, staticFiles} {
		require.NoError(t, fs.WalkDir(files, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || path.Base(p) == "htmx.js" || path.Ext(p) == ".LICENSE" {
				return err
			}
			b, err := fs.ReadFile(files, p)
			for _, found := range elsewhere.FindAllString(string(b), -1) {
				require.Equal(t, "http://www.w3.org", found, p)
			}
			return err
		}))
	}
}

// shop is a shop of one job, for the handler alone.
type shop struct {
	changed int64
	story   func(*core.Story) // changes the one job's; nil: nothing has happened to it
	planned func(*core.Plan)  // changes the one job's plan
	newJobs
	weighed *core.Weighing // nil: it is under way
	keptPlans
	agreed     []core.Agreement
	received   []Receiving
	deliveries []core.Delivery
	fitted     []Fitting
	ended      []any
	again      []string // subsystems
	silent     bool     // the box does not answer

	unitActs
	arrivals
	officeActs
}

func (s *shop) Stories(context.Context) ([]core.Story, error) {
	one := core.Story{Job: core.Job{Number: "J-001", Title: "One <gearbox>", Owner: core.Party{Name: "M. Wellbeck"}, State: core.StateArrived}, Papers: []core.Issued{scopeAt}, Outwork: []core.Outwork{sentOut}, Purchases: []core.Purchase{ordered}, Tags: tagsOfShop()}
	if s.story != nil {
		s.story(&one)
	}
	return []core.Story{one}, nil
}

func (s *shop) Story(ctx context.Context, job string) (core.Story, error) {
	all, _ := s.Stories(ctx)
	if job != "J-001" {
		return core.Story{}, core.Errorf(core.NotFound, "see: the yard", "no job %q", job)
	}
	return all[0], nil
}

func (s *shop) Plan(context.Context, string) (core.Plan, error) {
	p := onePlan()
	if s.planned != nil {
		s.planned(&p)
	}
	return p, nil
}
func (s *shop) Changed(context.Context) (int64, error) { return s.changed, nil }
func (s *shop) Subsystems(context.Context, string) ([]Subsystem, error) {
	return []Subsystem{{Name: "gearbox", Silent: s.silent}}, nil
}
func (s *shop) TakeBack(context.Context, string, string, string) error { return nil }
func (s *shop) Again(subsystem string)                                 { s.again = append(s.again, subsystem) }
func (s *shop) Bench(_ context.Context, _, subsystem string) (core.UnitSheet, []core.Finding, error) {
	if s.silent {
		return core.UnitSheet{Subsystem: subsystem, Failed: true, Assessment: core.Assessment{Problems: []core.Problem{{Summary: "not assessed: its sheet has changed", Next: "accept it as it is"}}}}, nil, nil
	}
	if subsystem == "box" {
		sheet, findings := boxSheet()
		return sheet, findings, nil
	}
	return core.UnitSheet{}, nil, os.ErrDeadlineExceeded
}

// Record refuses every second reading.
func (s *shop) Record(_ context.Context, _ string, typed []core.Typed) ([]error, error) {
	errs := make([]error, len(typed))
	for i := range typed {
		if i%2 == 1 {
			errs[i] = core.Errorf(core.Invalid, "write it again", "%q is no number", typed[i].Value)
		}
	}
	return errs, nil
}

func handlerOf(t *testing.T, x *shop) http.Handler {
	t.Helper()
	s, err := New(t.Context(), Config{Name: "Hollow Lane Works", Zone: time.UTC, Clock: time.Now, By: "Jory", Stories: x, Plans: x, Readings: x, Changes: x, Jobs: x, Yard: x,
		Vehicles: x, Arriving: x, Office: x,
		Stripping: x, Tagging: x, Photos: x, Looking: x, Choosing: x, Reckoning: x, Papers: x, Outgoing: x, Building: x, Ending: x})
	require.NoError(t, err)
	return s
}

func ask(t *testing.T, method, address, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	return askOf(t, &shop{}, method, address, body, headers...)
}

// askOf asks a shop that remembers what was written into it.
func askOf(t *testing.T, x *shop, method, address, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), method, address, strings.NewReader(body))
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	handlerOf(t, x).ServeHTTP(w, r)
	return w
}

func TestAPageIsGuarded(t *testing.T) {
	w := ask(t, "GET", "/", "")
	require.Equal(t, 200, w.Code)
	require.Contains(t, w.Body.String(), "One &lt;gearbox&gt;")
	csp := w.Header().Get("Content-Security-Policy")
	require.Contains(t, csp, "default-src 'none'")
	require.NotContains(t, csp, "unsafe")
	require.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))

	// Another site's page may not write in a user's name.
	w = ask(t, "POST", "/jobs/J-001/readings", `{"readings":[]}`, "Content-Type", "application/json", "Sec-Fetch-Site", "cross-site")
	require.Equal(t, 403, w.Code)
}

func TestAFaultSaysWhatAndWhatNext(t *testing.T) {
	w := ask(t, "GET", "/jobs/J-009", "")
	require.Equal(t, 404, w.Code)
	require.Contains(t, w.Body.String(), "No job &#34;J-009&#34;")
	require.Contains(t, w.Body.String(), "Next: see: the yard")
	w = ask(t, "GET", "/jobs/J-009", "", "Accept", "application/json")
	require.JSONEq(t, `{"faults":[{"what":"no job \"J-009\"","next":"see: the yard"}]}`, w.Body.String())
	require.Equal(t, 404, ask(t, "GET", "/nothing", "").Code)
	// What failed within is not shown to the browser.
	w = ask(t, "GET", "/jobs/J-001/bench/gearbox", "")
	require.Equal(t, 500, w.Code)
	require.NotContains(t, w.Body.String(), os.ErrDeadlineExceeded.Error())
}

// Each reading stands or falls by itself.
func TestReadingsAreTakenOneByOne(t *testing.T) {
	id := "0b0e7a3c-6d0c-4a52-9a0c-3f1f0a6f2b11"
	w := ask(t, "POST", "/jobs/J-001/readings", `{"readings":[{"id":"`+id+`","value":"1"},{"value":"x"},{"id":"not-an-id","value":"2"}]}`, "Content-Type", "application/json", "Accept", "application/json")
	require.Equal(t, 200, w.Code)
	var got struct{ Readings []taken }
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
	require.Len(t, got.Readings, 3)
	require.Equal(t, taken{ID: id, OK: true}, got.Readings[0])
	require.Equal(t, taken{What: `"x" is no number`, Next: "write it again"}, got.Readings[1])
	require.False(t, got.Readings[2].OK)
	require.NotEmpty(t, got.Readings[2].What)

	require.Equal(t, 422, ask(t, "POST", "/jobs/J-001/readings", `{"readings":[{"colour":"red"}]}`, "Accept", "application/json").Code)
}

// What is sent is made small, and is the same when it is unpacked.
func TestAPageIsSentSmall(t *testing.T) {
	plain := ask(t, "GET", "/static/x/device.js", "")
	small := ask(t, "GET", "/static/x/device.js", "", "Accept-Encoding", "gzip, br")
	require.Equal(t, "gzip", small.Header().Get("Content-Encoding"))
	require.Less(t, small.Body.Len(), plain.Body.Len()/2)
	z, err := gzip.NewReader(small.Body)
	require.NoError(t, err)
	unpacked, err := io.ReadAll(z)
	require.NoError(t, err)
	require.Equal(t, plain.Body.String(), string(unpacked))
	require.Equal(t, 404, ask(t, "GET", "/jobs/J-009", "", "Accept-Encoding", "gzip").Code)
}

// A file that a browser keeps for a year has its version in its address.
func TestStaticFilesAreKept(t *testing.T) {
	w := ask(t, "GET", "/static/"+staticVersion+"/bench.css", "")
	require.Equal(t, 200, w.Code)
	require.Contains(t, w.Header().Get("Cache-Control"), "immutable")
	require.Equal(t, 404, ask(t, "GET", "/static/x/htmx.LICENSE", "").Code)
	require.Contains(t, ask(t, "GET", "/worker.js", "").Body.String(), `const version = "`+staticVersion+`"`)
	require.Equal(t, "application/manifest+json", ask(t, "GET", "/manifest.webmanifest", "").Header().Get("Content-Type"))
}
