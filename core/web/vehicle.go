package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Vehicles tells how what came stands, and what it is by its marks.
type Vehicles interface {
	// Standing is every subsystem of a job's extent as assessed, in bench order. One that cannot be assessed stands there as failed.
	Standing(ctx context.Context, job string) ([]core.UnitSheet, error)
	// Kinds are the kinds of unit that subsystems are served for, in bench order.
	Kinds(ctx context.Context) []string
	// Mark writes an identity mark down on a unit of a job, or on "vehicle".
	Mark(ctx context.Context, job, by, unit string, m core.Mark) error
	// AddUnit brings a unit into a job.
	AddUnit(ctx context.Context, job, by string, u core.Unit) error
	// Decide records what the owner decided of a unit that another vehicle left with. Worth is an amount, or "".
	Decide(ctx context.Context, job, by, unit, words, worth string) error
}

// vehiclePage shows what came, what it is by its marks, and how each subsystem of it stands.
type vehiclePage struct {
	frame
	Story      core.Story
	Waits      []string
	Drawing    *drawing // nil: no vehicle came
	Subsystems []stands
	Units      []unitShown
	Before     *core.Story // the last job of the same vehicle; nil: none is known
	Kinds      []string
	Faults     []told
	Form       unitForm
}

// stands is a subsystem of a unit in the list.
type stands struct {
	Bench, Title string
	standing
}

// unitShown is a unit, or the vehicle itself, with its marks.
type unitShown struct {
	ID, Title, Kind string
	Role            string // in work, spare, out; "" of the vehicle
	Belongs         string
	Ask             bool // the owner is to be asked
	Worth           *core.Money
	Marks           []core.Mark
}

// unitForm is what was typed of a mark, a unit or a decision.
type unitForm struct {
	Open  string // which form was sent: mark, unit, decision; "" none
	On    string // the unit that it is about
	Mark  core.Mark
	Unit  core.Unit
	Words string
	Worth string
}

// MarkWords are what a mark may say.
func (unitForm) MarkWords() []string { return core.MarkWords }

// BelongsWords are what an owner may decide.
func (unitForm) BelongsWords() []string { return core.BelongsWords }

// usualUnitForm stands in the forms before anybody types.
var usualUnitForm = unitForm{Mark: core.Mark{Says: core.MarkAgrees}}

func (s *Server) showVehicle(w http.ResponseWriter, r *http.Request) error {
	return s.vehicle(w, r, http.StatusOK, usualUnitForm, nil)
}

func (s *Server) vehicle(w http.ResponseWriter, r *http.Request, status int, f unitForm, faults []told) error {
	ctx := r.Context()
	story, err := s.Stories.Story(ctx, r.PathValue("job"))
	if err != nil {
		return err
	}
	sheets, err := s.Vehicles.Standing(ctx, story.Job.Number)
	if err != nil {
		return err
	}
	p := vehiclePage{frame: s.jobFrame(r, whole(&story.Job), &story.Job), Story: story, Waits: story.Waits(), Units: unitsOf(story.Job), Kinds: s.Vehicles.Kinds(ctx), Faults: faults, Form: f}
	for _, us := range sheets {
		st := stands{benchOf(us), cmp.Or(us.Sheet.Title, core.Capital(plain(us.Subsystem))), standingOf(us, "")}
		if st.Bench != us.Subsystem && several(sheets, us.Subsystem) {
			st.Title += ", " + us.Unit
		}
		p.Subsystems = append(p.Subsystems, st)
	}
	if story.Job.Vehicle != nil {
		d := drawingOf(story.Job, sheets)
		p.Drawing = &d
		if p.Before, err = s.before(ctx, story.Job); err != nil {
			return err
		}
	}
	return s.show(w, status, "vehicle", p)
}

func several(sheets []core.UnitSheet, subsystem string) bool {
	n := 0
	for _, us := range sheets {
		if us.Subsystem == subsystem {
			n++
		}
	}
	return n > 1
}

// before finds the last job of the same vehicle.
func (s *Server) before(ctx context.Context, job core.Job) (*core.Story, error) {
	all, err := s.Stories.Stories(ctx)
	if err != nil {
		return nil, err
	}
	var jobs []core.Job
	for _, st := range all {
		jobs = append(jobs, st.Job)
	}
	i := slices.IndexFunc(jobs, func(j core.Job) bool { return j.Number == job.Before(jobs) })
	if i < 0 {
		return nil, nil
	}
	return &all[i], nil
}

// unitsOf lists the vehicle and the units of a job.
func unitsOf(j core.Job) []unitShown {
	var out []unitShown
	if v := j.Vehicle; v != nil {
		out = append(out, unitShown{ID: cameVehicle, Title: v.Title, Kind: cameVehicle, Marks: v.Marks})
	}
	for _, u := range j.Units {
		out = append(out, unitShown{ID: u.ID, Title: cmp.Or(u.Title, u.ID), Kind: u.Kind, Role: cmp.Or(u.Role, "in work"), Belongs: u.Belongs,
			Ask: u.Belongs == "" && slices.ContainsFunc(u.Marks, core.Mark.Foreign), Worth: u.Worth, Marks: u.Marks})
	}
	return out
}

// typed gives what a field holds, without blanks at its ends.
func typed(r *http.Request, name string) string { return strings.TrimSpace(r.PostFormValue(name)) }

// addMark writes a mark down.
func (s *Server) addMark(w http.ResponseWriter, r *http.Request) error {
	f := unitForm{Open: "mark", On: typed(r, "on"), Mark: core.Mark{Where: typed(r, "where"), Text: typed(r, "text"), Expected: typed(r, "expected"), Says: typed(r, "says"),
		Note: typed(r, "note"), Told: typed(r, "told")}}
	return s.unitDone(w, r, f, s.Vehicles.Mark(r.Context(), r.PathValue("job"), s.by(r), f.On, f.Mark))
}

// addUnit brings a unit in.
func (s *Server) addUnit(w http.ResponseWriter, r *http.Request) error {
	f := usualUnitForm
	f.Open, f.Unit = "unit", core.Unit{ID: strings.ReplaceAll(strings.ToLower(typed(r, "id")), " ", "-"), Kind: typed(r, "kind"), Title: typed(r, "title")}
	if typed(r, "spare") != "" {
		f.Unit.Role = core.UnitSpare
	}
	f.Unit.ID = cmp.Or(f.Unit.ID, f.Unit.Kind)
	f.Unit.Title = cmp.Or(f.Unit.Title, core.Capital(plain(f.Unit.ID)))
	if f.Unit.Kind == "" {
		return s.unitDone(w, r, f, core.Errorf(core.Invalid, "choose its kind", "it is not said what kind of unit it is"))
	}
	return s.unitDone(w, r, f, s.Vehicles.AddUnit(r.Context(), r.PathValue("job"), s.by(r), f.Unit))
}

// decideUnit records what the owner decided.
func (s *Server) decideUnit(w http.ResponseWriter, r *http.Request) error {
	f := usualUnitForm
	f.Open, f.On, f.Words, f.Worth = "decision", typed(r, "on"), typed(r, "words"), typed(r, "worth")
	return s.unitDone(w, r, f, s.Vehicles.Decide(r.Context(), r.PathValue("job"), s.by(r), f.On, f.Words, f.Worth))
}

// unitDone goes back to the units, or asks again with what was typed.
func (s *Server) unitDone(w http.ResponseWriter, r *http.Request, f unitForm, err error) error {
	switch code := core.ErrorCode(err); code {
	case "":
		http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"#units", http.StatusSeeOther)
		return nil
	case core.Invalid, core.Conflict, core.NotFound:
		return s.vehicle(w, r, statuses[code], f, faultsOf(err))
	}
	return err
}
