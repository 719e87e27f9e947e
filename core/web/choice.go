package web

import (
	"cmp"
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// Choosing writes down what mechanic and owner decide of a part. Each names the part by its place, "gearbox/gear-pair/third"; what is not there is
// NotFound, what may not be, Invalid.
type Choosing interface {
	// Pin fixes the remedy of a part; no remedy takes the pin out.
	Pin(ctx context.Context, job, place, remedy, reason, by string) error
	// Leave leaves a part as it is by the owner's word; no reason takes that back.
	Leave(ctx context.Context, job, place, reason, by string) error
}

// choicesPage says, subsystem by subsystem, what becomes of the parts.
type choicesPage struct {
	frame
	Areas   []choicesArea
	Pins    []pinned
	Left    []leftPart
	Without []Subsystem // that do not answer
	Lacks   string      // what the sums are made without; "" for nothing
	Costs   *core.Money // of all pins together; nil: none, or it cannot be said
	Faults  []told      // why there is no plan; then what is decided is all that can be shown
}

// choicesArea is a subsystem with how many of its parts end how.
type choicesArea struct {
	Name, Title                                      string
	Failed                                           bool
	Rebuilt, New, Open, Left, Pinned, Reused, OneUse int
}

type pinned struct {
	core.Pin
	Name, Does string // the part and the remedy, in words
}

type leftPart struct {
	core.Left
	Name string
}

func (s *Server) showChoices(w http.ResponseWriter, r *http.Request) error {
	story, plan, err := s.planned(r)
	if core.ErrorCode(err) == core.Invalid {
		return s.showUnplanned(w, r, story, err)
	}
	if err != nil {
		return err
	}
	p := choicesPage{frame: s.jobFrame(r, "Choices", &story.Job), Without: without(plan), Lacks: plan.Lacks()}
	at := map[[2]string]int{}
	oneUse := map[[3]string]bool{}
	for _, us := range plan.Sheets {
		at[[2]string{us.Subsystem, us.Unit}] = len(p.Areas)
		p.Areas = append(p.Areas, choicesArea{Name: core.Place{Subsystem: us.Subsystem, Unit: us.Unit}.Bench(), Title: us.Title(), Failed: us.Failed})
		for _, part := range us.Sheet.Parts {
			oneUse[[3]string{us.Subsystem, us.Unit, part.ID}] = part.OneUse
		}
	}
	for _, c := range plan.Choices {
		if k, ok := at[[2]string{c.Subsystem, c.Unit}]; ok {
			p.Areas[k].count(c, oneUse[[3]string{c.Subsystem, c.Unit, c.Part}])
		}
		name := c.Title()
		if c.Pinned != nil {
			p.Pins, p.Costs = append(p.Pins, pinned{*c.Pinned, name, c.Name}), c.PinCosts
		}
		if i := slices.IndexFunc(story.Job.Left, func(l core.Left) bool { return l.Place == c.Place }); i >= 0 {
			p.Left = append(p.Left, leftPart{story.Job.Left[i], name})
		}
	}
	return s.show(w, http.StatusOK, "choices", p)
}

// showUnplanned shows what is decided of a job that no plan can be made of, so that it can be taken back.
func (s *Server) showUnplanned(w http.ResponseWriter, r *http.Request, story core.Story, err error) error {
	p := choicesPage{frame: s.jobFrame(r, "Choices", &story.Job), Faults: faultsOf(err)}
	name := func(at core.Place) string { return core.Capital(plain(strings.TrimSpace(at.Part + " " + at.Position))) }
	for _, x := range story.Job.Pins {
		p.Pins = append(p.Pins, pinned{x, name(x.Place), plain(x.Remedy)})
	}
	for _, x := range story.Job.Left {
		p.Left = append(p.Left, leftPart{x, name(x.Place)})
	}
	return s.show(w, http.StatusOK, "choices", p)
}

func (a *choicesArea) count(c core.Choice, oneUse bool) {
	if c.Pinned != nil {
		a.Pinned++
	}
	switch {
	case oneUse:
		a.OneUse++
	case c.Kind == core.Reuse:
		a.Reused++
	case c.Kind == core.Rebuild:
		a.Rebuilt++
	case c.Kind == core.Replace:
		a.New++
	case c.Kind == core.LeftAsIs:
		a.Left++
	default:
		a.Open++
	}
}

// planned gives the job that a page is about, with its plan.
func (s *Server) planned(r *http.Request) (core.Story, core.Plan, error) {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return story, core.Plan{}, err
	}
	plan, err := s.Plans.Plan(r.Context(), story.Job.Number)
	return story, plan, err
}

// chosenPage is what becomes of the parts of one subsystem.
type chosenPage struct {
	frame
	SheetTitle string
	Bench      string
	Failed     bool
	Lacks      string // what the sums are made without; "" for nothing
	core.Told
	Ways     []paper.Way
	Problems []partProblem
}

// partProblem is a problem with the names of the parts that share it.
type partProblem struct {
	core.Problem
	Names []string
}

// Parts names them, or the first of many.
func (p partProblem) Parts() string {
	if n := len(p.Names); n > 4 {
		return fmt.Sprintf("%s and %d more", p.Names[0], n-1)
	}
	return strings.Join(p.Names, ", ")
}

// problemsOf are those of one subsystem, each once. What the sums lack is told above them.
func problemsOf(plan core.Plan, us core.UnitSheet) (out []partProblem) {
	for _, x := range plan.Problems {
		if x.Lacks != "" || x.Subsystem != us.Subsystem || x.Unit != us.Unit && x.Unit != "" {
			continue
		}
		x.Next = spoken(x.Next)
		i := slices.IndexFunc(out, func(y partProblem) bool { return y.Summary == x.Summary && y.Next == x.Next })
		if i < 0 {
			i = len(out)
			out = append(out, partProblem{Problem: x})
		}
		if part := us.Sheet.Part(x.Target.Part); part != nil {
			out[i].Names = append(out[i].Names, strings.TrimSpace(part.Name+" "+x.Target.Position))
		}
	}
	return out
}

// choicePage is one part: the way from what was found to what it costs, and what may be decided otherwise.
type choicePage struct {
	frame
	core.Chain
	Name   string
	Bench  string // where its first question stands
	Of     string // the subsystem, as it is addressed
	OfName string
	Others []core.Place // the part's other positions, and this one
	Open   []core.Remedy
	Owner  string
	Left   *core.Left
	Lacks  string            // what the sums are made without; "" for nothing
	Stands []core.Problem    // with this part
	titles map[string]string // of all parts, as Dragged has them
	Typed  choiceForm
	Faults []told
	If     *Supposed // what it would do to decide otherwise; nil: not asked
}

// choiceForm is what is typed to decide otherwise.
type choiceForm struct{ Do, Remedy, Reason, By string }

// Because is the reason that the grade hangs on, with its limit and source.
func (p choicePage) Because() string { return p.Condition.Governing(p.Choice).Text }

// Besides are the other checks' reasons.
func (p choicePage) Besides() []string {
	var out []string
	for _, r := range p.Condition.Reasons {
		if r.Text != p.Because() {
			out = append(out, r.Text)
		}
	}
	return out
}

// DecidedBy are the reasons of the choice itself.
func (p choicePage) DecidedBy() []string { return p.Choice.OwnReasons(p.Condition) }

// Along are the parts whose labour is in this one's.
func (p choicePage) Along() []string {
	var out []string
	for _, t := range p.Dragged() {
		out = append(out, cmp.Or(p.titles[t], plain(strings.ReplaceAll(t, "/", " "))))
	}
	return out
}

// Found lists what was read.
func (p choicePage) Found() []string {
	var read []string
	for _, f := range p.Findings {
		read = append(read, strings.Join(strings.Fields(plain(f.Check)+" "+f.Station+" "+f.AsTyped), " "))
	}
	return read
}

func (s *Server) showChoice(w http.ResponseWriter, r *http.Request) error {
	place := r.PathValue("place")
	if place == "" {
		return s.showChoices(w, r)
	}
	if !strings.Contains(place, "/") {
		return s.showChosen(w, r, place)
	}
	f := choiceForm{Do: r.FormValue("do"), Remedy: r.FormValue("remedy"), Reason: r.FormValue("reason"), By: r.FormValue("by")}
	p, err := s.choicePage(r, f)
	if err != nil {
		return err
	}
	status := http.StatusOK
	if f.Do == "try-pin" || f.Do == "try-leave" {
		suppose := Supposition{Place: place, Leave: f.Do == "try-leave", Remedy: f.Remedy}
		if is, err := s.Reckoning.Suppose(r.Context(), p.Job.Number, suppose); err == nil {
			p.If = is.shortened()
		} else if core.ErrorCode(err) == core.Invalid {
			p.Faults, status = faultsOf(err), http.StatusUnprocessableEntity
		} else {
			return err
		}
	}
	return s.show(w, status, "choice", p)
}

// showChosen shows one subsystem.
func (s *Server) showChosen(w http.ResponseWriter, r *http.Request, name string) error {
	story, plan, err := s.planned(r)
	if err != nil {
		return err
	}
	for _, us := range plan.Sheets {
		if (core.Place{Subsystem: us.Subsystem, Unit: us.Unit}).Bench() != name && us.Subsystem != name {
			continue
		}
		p := chosenPage{frame: s.jobFrame(r, "Choices", &story.Job), SheetTitle: us.Title(), Bench: benchOf(us), Failed: us.Failed, Lacks: plan.Lacks(), Told: plan.Tell(us), Ways: paper.OpenWays(plan, us.Subsystem, us.Unit), Problems: problemsOf(plan, us)}
		p.Title = p.SheetTitle + ", " + story.Job.Number
		return s.show(w, http.StatusOK, "chosen", p)
	}
	return core.Errorf(core.NotFound, "see the choices for what lies in this job", "no subsystem %q is in this job", name)
}

// choicePage makes the page of a part, with what was typed.
func (s *Server) choicePage(r *http.Request, f choiceForm) (choicePage, error) {
	story, plan, err := s.planned(r)
	if err != nil {
		return choicePage{}, err
	}
	place := r.PathValue("place")
	i := slices.IndexFunc(plan.Choices, func(c core.Choice) bool { return c.Place.String() == place })
	if i < 0 {
		return choicePage{}, core.Errorf(core.NotFound, "see the choices for what lies in this job", "no part %q in this job", place)
	}
	c := plan.Choices[i]
	p := choicePage{frame: s.jobFrame(r, "Choices", &story.Job), Chain: plan.Chain(c), Name: c.Title(), Bench: benchPath(story.Job, c.Place),
		Of: c.Place.Bench(), OfName: plain(c.Subsystem), Owner: story.Job.Owner.Name, Lacks: plan.Lacks(), Typed: f}
	p.Title = p.Name + ", " + story.Job.Number
	if us := plan.SheetOf(c.Place); us != nil {
		p.OfName, p.Open = us.Title(), us.PinsOpen(c.Target)
		if part := us.Sheet.Part(c.Part); part != nil && len(part.Checks) > 0 && part.Checks[0].Kind != core.OneUse {
			p.Bench = questionPath(plan, core.LookedAt{Place: c.Place, Checks: []core.LookCheck{{Check: part.Checks[0].ID}}})
		}
	}
	p.titles = map[string]string{}
	for _, x := range plan.Choices {
		p.titles[x.Place.String()] = x.Title()
		if x.Subsystem == c.Subsystem && x.Unit == c.Unit {
			p.titles[x.Target.String()] = x.Title()
		}
		if x.Subsystem == c.Subsystem && x.Unit == c.Unit && x.Part == c.Part && x.Position != "" {
			p.Others = append(p.Others, x.Place)
		}
	}
	if k := slices.IndexFunc(story.Job.Left, func(l core.Left) bool { return l.Place == c.Place }); k >= 0 {
		p.Left = &story.Job.Left[k]
	}
	for _, problem := range plan.Problems {
		if problem.Lacks != core.LacksRate && problem.Subsystem == c.Subsystem && (problem.Unit == c.Unit || problem.Unit == "") && problem.Target == c.Target {
			problem.Next = spoken(problem.Next)
			p.Stands = append(p.Stands, problem)
		}
	}
	return p, nil
}

// changeChoice writes down what is decided of a part; what may not be is told above the form.
func (s *Server) changeChoice(w http.ResponseWriter, r *http.Request) error {
	ctx, job, place := r.Context(), r.PathValue("job"), r.PathValue("place")
	f := choiceForm{Do: r.FormValue("do"), Remedy: r.FormValue("remedy"), Reason: strings.TrimSpace(r.FormValue("reason")), By: strings.TrimSpace(r.FormValue("by"))}
	var err error
	switch f.Do {
	case "pin":
		if f.Remedy == "" {
			err = core.Errorf(core.Invalid, "choose one of those that are open", "no remedy is chosen")
			break
		}
		err = s.Choosing.Pin(ctx, job, place, f.Remedy, f.Reason, f.By)
	case "unpin":
		err = s.Choosing.Pin(ctx, job, place, "", "", s.by(r))
	case "leave":
		if f.Reason == "" {
			err = core.Errorf(core.Invalid, "write the owner's words: they are printed", "no reason is given")
			break
		}
		err = s.Choosing.Leave(ctx, job, place, f.Reason, f.By)
	case "unleave":
		err = s.Choosing.Leave(ctx, job, place, "", s.by(r))
	default:
		err = core.Errorf(core.Invalid, "load the page again", "nothing is to be done")
	}
	if err == nil {
		at := "/jobs/" + job + "/choices/" + place
		if f.Do == "unpin" || f.Do == "unleave" {
			if _, _, err := s.planned(r); err != nil {
				at = "/jobs/" + job + "/choices" // the part has no page while there is no plan
			}
		}
		http.Redirect(w, r, at, http.StatusSeeOther)
		return nil
	}
	if code := core.ErrorCode(err); code != core.Invalid && code != core.Conflict {
		return err
	}
	p, bad := s.choicePage(r, f)
	if bad != nil {
		return bad
	}
	p.Faults = faultsOf(err)
	return s.show(w, statuses[core.ErrorCode(err)], "choice", p)
}
