package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// unitActs is what was written down of units; stands is how the one job stands.
type unitActs struct {
	stands []core.UnitSheet
	wrote  []string
}

func (s *shop) Standing(context.Context, string) ([]core.UnitSheet, error) { return s.stands, nil }
func (s *shop) Mark(_ context.Context, job, by, unit string, m core.Mark) error {
	if err := m.Check(); err != nil {
		return err
	}
	s.wrote = append(s.wrote, job+" "+by+" "+unit+" "+m.Where+"="+m.Text+" "+m.Says+" "+m.Expected)
	return nil
}

func (s *shop) AddUnit(_ context.Context, job, by string, u core.Unit) error {
	if u.ID == "gearbox" {
		return core.Errorf(core.Conflict, "give it another id", "%s has a unit %q", job, u.ID)
	}
	s.wrote = append(s.wrote, job+" "+by+" "+u.ID+" "+u.Kind+" "+u.Title+" "+u.Role)
	return nil
}

func (s *shop) Decide(_ context.Context, job, by, unit, words, worth string) error {
	s.wrote = append(s.wrote, job+" "+by+" "+unit+" "+words+" "+worth)
	return nil
}

func (s *shop) Kinds(context.Context) []string { return []string{"engine", "gearbox"} }

func graded(subsystem, unit string, grades map[string]core.Grade) core.UnitSheet {
	us := core.UnitSheet{Subsystem: subsystem, Unit: unit, Sheet: core.Sheet{Title: "The " + subsystem, UnitKind: unit}}
	for position, g := range grades {
		us.Assessment.Conditions = append(us.Assessment.Conditions, core.Condition{Target: core.Target{Part: "part", Position: position}, Grade: g, ReadingsNeeded: 2})
	}
	us.Assessment.Conditions = append(us.Assessment.Conditions, core.Condition{Target: core.Target{Part: "seal"}, Grade: core.WornFit}) // always new
	us.Sheet.Parts = append(us.Sheet.Parts, core.Part{ID: "hose", Checks: []core.Check{{ID: "always-new", Kind: core.OneUse}, {ID: "condition", Kind: core.Judged}}})
	us.Assessment.Conditions = append(us.Assessment.Conditions, core.Condition{Target: core.Target{Part: "hose"}, Grade: core.WornFit, ReadingsNeeded: 1}) // always new too, and looked at
	return us
}

// The worst of what was seen is said, with how much is not; nothing seen is an empty outline, and each corner stands for itself.
func TestAVehicleStandsByItsWorstPart(t *testing.T) {
	brakes := graded("brakes", "vehicle", map[string]core.Grade{"LF": core.PastLimit, "RF": core.WornFit, "LR": core.NotSeen, "RR": core.MeasureAgain})
	require.Equal(t, standing{Worst: core.PastLimit, Pattern: patternPast, NotSeen: 1, Past: 1, Near: 1, Parts: 4}, standingOf(brakes, ""))
	require.Equal(t, "past limit", standingOf(brakes, "LF").Words())
	require.Equal(t, patternFit, standingOf(brakes, "RF").Pattern)
	require.Equal(t, standing{Pattern: patternNone, NotSeen: 1, Parts: 1}, standingOf(brakes, "LR"))
	require.Equal(t, "not seen", standingOf(brakes, "LR").Words())
	require.Empty(t, standingOf(brakes, "LR").Rest())
	require.Equal(t, patternNear, standingOf(brakes, "RR").Pattern)
	require.Equal(t, "1 not seen", standingOf(brakes, "").Rest())
	require.Equal(t, "not assessed", standingOf(core.UnitSheet{Failed: true}, "").Words())

	x := &shop{unitActs: unitActs{stands: []core.UnitSheet{brakes, graded("gearbox", "gearbox", map[string]core.Grade{"": core.NotSeen}), graded("gearbox", "gearbox-2", map[string]core.Grade{"": core.Failed})}}}
	x.story = func(s *core.Story) {
		s.Job.Vehicle = &core.Vehicle{Title: "An old one", Marks: []core.Mark{{Where: "frame stamp", Text: "A-1", Says: core.MarkAgrees}}}
		s.Job.Units = []core.Unit{{ID: "gearbox-2", Kind: "gearbox", Role: core.UnitSpare}, {ID: "gearbox", Kind: "gearbox", Marks: []core.Mark{{Where: "case", Text: "29", Expected: "28", Says: core.MarkOtherModel}}}}
	}
	page := askOf(t, x, "GET", "/jobs/J-001", "").Body.String()
	for _, s := range []string{`href="/jobs/J-001/bench/brakes@vehicle" aria-label="Brake LF: past limit"`, `aria-label="Brake LR: not seen"`, `aria-label="Gearbox: not seen"`, "not in this job",
		"The gearbox, gearbox-2<small>failed · 1 not fit · of 1 part", "Ask the owner", "Frame stamp", "should be 28"} {
		require.Contains(t, page, s)
	}
	// A unit on the bench has no frame to be drawn in.
	x.story = nil
	require.NotContains(t, askOf(t, x, "GET", "/jobs/J-001", "").Body.String(), "Frame and drive line")
}

func TestMarksAndUnitsAreWrittenDown(t *testing.T) {
	x := &shop{}
	h := handlerOf(t, x)
	w := postTo(t, h, "/jobs/J-001/marks", url.Values{"on": {"vehicle"}, "where": {"frame stamp"}, "text": {"PK-1"}, "says": {"from another model"}, "expected": {"PK-2"}})
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, "/jobs/J-001#units", w.Header().Get("Location"))
	require.Equal(t, http.StatusSeeOther, postTo(t, h, "/jobs/J-001/units", url.Values{"kind": {"gearbox"}, "id": {"Gearbox 2"}, "spare": {"yes"}}).Code)
	require.Equal(t, http.StatusSeeOther, postTo(t, h, "/jobs/J-001/belongs", url.Values{"on": {"gearbox"}, "words": {"sold on"}, "worth": {"120"}}).Code)
	require.Equal(t, []string{"J-001 Jory vehicle frame stamp=PK-1 from another model PK-2", "J-001 Jory gearbox-2 gearbox Gearbox 2 spare", "J-001 Jory gearbox sold on 120"}, x.wrote)

	// What cannot be written down is asked again, its form open and what was typed in it.
	w = postTo(t, h, "/jobs/J-001/marks", url.Values{"on": {"vehicle"}, "where": {""}, "text": {"PK-3"}, "says": {"agrees"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), "The mark stands nowhere")
	require.Contains(t, w.Body.String(), `value="PK-3"`)
	require.Contains(t, w.Body.String(), "<details open><summary>Write a mark down")
	w = postTo(t, h, "/jobs/J-001/units", url.Values{"kind": {"gearbox"}})
	require.Equal(t, http.StatusConflict, w.Code)
	require.Contains(t, w.Body.String(), "give it another id")
	require.Contains(t, postTo(t, h, "/jobs/J-001/units", url.Values{}).Body.String(), "not said what kind of unit")
	require.Equal(t, http.StatusNotFound, postTo(t, h, "/jobs/J-009/units", url.Values{}).Code)
	require.Len(t, x.wrote, 3)
}

// The drawing fits a phone: shapes as high as a glove needs, none over another.
func TestTheDrawingIsInOrder(t *testing.T) {
	require.Len(t, spots, 12+4*3+3)
	for i, a := range spots {
		require.LessOrEqual(t, a.x+a.w, 360, a.name)
		require.False(t, slices.ContainsFunc(spots[i+1:], func(b spot) bool {
			return a.x < b.x+b.w && b.x < a.x+a.w && a.y < b.y+drawnHigh && b.y < a.y+drawnHigh
		}), a.name)
	}
}
