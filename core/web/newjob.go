package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/fettle-tools/fettle/core"
)

// Jobs opens jobs.
type Jobs interface {
	// Choices are what a new job may be made of.
	Choices(ctx context.Context) (Choices, error)
	// OpenJob opens a job. What it cannot be opened for is Invalid, all at once.
	OpenJob(ctx context.Context, by string, j core.Job) (core.Job, error)
}

// Choices are what a job may name.
type Choices struct {
	Owners     []string
	Kinds      []string    // of units, in bench order
	Subsystems []Subsystem // that are served; nothing is read of them
	Packs      []core.Pack
}

// VehiclePacks are those of a whole vehicle.
func (c Choices) VehiclePacks() []core.Pack { return c.packs("vehicle") }

// UnitPacks are those of a unit.
func (c Choices) UnitPacks() []core.Pack { return c.packs("unit") }

func (c Choices) packs(kind string) (out []core.Pack) {
	for _, p := range c.Packs {
		if p.Kind == kind {
			out = append(out, p)
		}
	}
	return out
}

// newJobPage asks what a job is.
type newJobPage struct {
	frame
	Choices
	Faults []told
	jobForm
}

// jobForm is what was typed of a new job.
type jobForm struct {
	JobTitle, Owner            string
	Came                       string // cameVehicle or cameUnit
	Vehicle, VehiclePack       string
	Kind, UnitTitle, UnitPack  string
	Extent                     string
	Names                      []string
	Use                        string
	Originality                string
	HorizonKM, HorizonYears    string
	Stored, Ran, Worked, Years string
}

// What may have come.
const (
	cameVehicle = "vehicle"
	cameUnit    = "unit"
)

// pick is one answer of several.
type pick struct{ Value, Words string }

// Extents are how far a vehicle may come apart.
func (jobForm) Extents() []pick {
	return []pick{{core.ExtentAsNeeded, "As far as the work needs"}, {core.ExtentNamed, "Only what is named below"}, {core.ExtentBareFrame, "To the bare frame"}}
}

// Levels are how original it is to be.
func (jobForm) Levels() []pick {
	return []pick{{"", "not said"}, {"1", "1, usable"}, {"2", "2, right to look at"}, {"3", "3, right type and dates"}, {"4", "4, keep what is old"}}
}

// StoredWords, RanWords and WorkedWords say how it has lived.
func (jobForm) StoredWords() []string { return core.StoredWords }

// RanWords say when it last ran.
func (jobForm) RanWords() []string { return core.RanWords }

// WorkedWords say how it was worked.
func (jobForm) WorkedWords() []string { return core.WorkedWords }

// Named reports that a subsystem was ticked.
func (f jobForm) Named(name string) bool { return slices.Contains(f.Names, name) }

// usualJob is what stands in the form before anybody types.
var usualJob = jobForm{Came: cameVehicle, Extent: core.ExtentAsNeeded, HorizonKM: "20000", HorizonYears: "10"}

func (s *Server) showNewJob(w http.ResponseWriter, r *http.Request) error {
	return s.askJob(w, r, http.StatusOK, usualJob, nil)
}

func (s *Server) askJob(w http.ResponseWriter, r *http.Request, status int, f jobForm, faults []told) error {
	c, err := s.Jobs.Choices(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, status, "newjob", newJobPage{s.frame(r, "A job comes in"), c, faults, f})
}

// openJob opens the job, or asks again with what was typed.
func (s *Server) openJob(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read: %v", err)
	}
	f := readJobForm(r)
	j, faults := f.job()
	if len(faults) == 0 {
		opened, err := s.Jobs.OpenJob(r.Context(), s.by(r), j)
		if err == nil {
			http.Redirect(w, r, "/jobs/"+opened.Number+"/begin", http.StatusSeeOther)
			return nil
		}
		if code := core.ErrorCode(err); code != core.Invalid && code != core.NotFound {
			return err
		}
		faults = faultsOf(err)
	}
	return s.askJob(w, r, http.StatusUnprocessableEntity, f, faults)
}

func readJobForm(r *http.Request) jobForm {
	said := func(name string) string { return typed(r, name) }
	return jobForm{JobTitle: said("title"), Owner: said("owner"), Came: said("came"), Vehicle: said("vehicle"), VehiclePack: said("vehicle-pack"), Kind: said("kind"), UnitTitle: said("unit"),
		UnitPack: said("unit-pack"), Extent: said("extent"), Names: r.PostForm["name"], Use: said("use"), Originality: said("originality"), HorizonKM: said("horizon-km"),
		HorizonYears: said("horizon-years"), Stored: said("stored"), Ran: said("ran"), Worked: said("worked"), Years: said("years")}
}

// job makes a job of what was typed, and tells what is missing from it.
func (f jobForm) job() (j core.Job, faults []told) {
	missing := func(what, next string) { faults = append(faults, told{what, next}) }
	number := func(text, what string) float64 {
		by, figures := 1., strings.TrimRightFunc(text, unicode.IsLetter)
		if u, ok := core.FindUnit(text[len(figures):]); ok && what == u.Dimension { // "10 000 miles"
			text, by = figures, u.Factor
		}
		n, err := strconv.ParseFloat(strings.ReplaceAll(strings.ReplaceAll(text, "\u00a0", ""), " ", ""), 64)
		if text == "" {
			return 0
		}
		if err != nil || n < 0 || n > 1e7 {
			missing(what+": “"+text+"” is no number", "write it in figures, like 20000")
		}
		return n * by
	}
	j = core.Job{Title: f.JobTitle, Owner: core.Party{Name: f.Owner}, Extent: core.Extent{Kind: f.Extent}, Brief: core.Brief{Use: f.Use, Stored: f.Stored, Ran: f.Ran, Worked: f.Worked}}
	if f.Owner == "" {
		missing("nobody is named whose it is", "write the owner's name")
	}
	switch f.Came {
	case cameUnit:
		j.Extent.Kind = core.ExtentBench
		if f.Kind == "" {
			missing("it is not said what kind of unit came", "choose its kind")
		}
		title := cmp.Or(f.UnitTitle, core.Capital(plain(f.Kind)))
		j.Units = []core.Unit{{ID: f.Kind, Kind: f.Kind, Title: title, Pack: f.UnitPack}}
		j.Title = cmp.Or(j.Title, title)
	default:
		if f.Vehicle == "" {
			missing("it is not said what vehicle came", "write what it is, in a few words")
		}
		j.Vehicle = &core.Vehicle{Title: f.Vehicle, Pack: f.VehiclePack}
		j.Title = cmp.Or(j.Title, f.Vehicle)
		if f.Extent == core.ExtentNamed {
			j.Extent.Names = f.Names
			if len(f.Names) == 0 {
				missing("only what is named comes apart, and nothing is named", "tick at least one")
			}
		}
	}
	j.Brief.HorizonKM, j.Brief.HorizonYears = number(f.HorizonKM, "distance"), number(f.HorizonYears, "years")
	if y := number(f.Years, "age"); y > 0 {
		j.Brief.AgeYears = &y
	}
	j.Brief.Originality, _ = strconv.Atoi(f.Originality)
	if err := j.Brief.CheckHistory(); err != nil {
		faults = append(faults, faultsOf(err)...)
	}
	return j, faults
}

// beginPage says what can be done first with a job that was just opened.
type beginPage struct{ frame }

func (s *Server) showBegin(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	return s.show(w, http.StatusOK, "begin", beginPage{s.jobFrame(r, "Begin", &story.Job)})
}
