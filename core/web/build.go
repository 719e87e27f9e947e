package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Building writes down what is fitted, and hours. What is typed is read as the commands read it; all faults are told at once.
type Building interface {
	// Fitting begins what is fitted, named by a part's address or name or by a tag's number, and gives the sheet that the part is on; without parts where there is none.
	Fitting(ctx context.Context, job, what string) (core.Fit, core.UnitSheet, error)
	Fit(ctx context.Context, job, by string, t Fitting) error
	// Work writes hours down.
	Work(ctx context.Context, job, by string, t Working) error
}

// Fitting is what was fitted, as it is typed. With Second alone it was looked over.
type Fitting struct {
	What     string   // a part, or a tag's number
	Readings []string // "diameter FV 1.9976 in"
	Torques  []string // "main cap 60 lbf ft"
	Shims    []string // "outer: .003 .005 in"
	Used     []string // one-use items that went in new
	Second   string   // who looked it over
	Why      string   // why a size outside new will do
	With     string   // the instrument
	Again    bool     // it was tightened a second time, after running
}

// Working is hours as they are typed.
type Working struct{ Who, Task, Hours, Line, Rate string }

// buildPage shows what is fitted, and what is still to be written down.
type buildPage struct {
	frame
	Faults    []told
	Fitted    []core.FittedPart
	Unchecked []string
	Lie       []core.Tag // apart, and not built
	Parts     []offered  // to choose from
	What      string     // as typed
	Open      []openWork // agreed work that nothing fitted is written down for
	Of        string     // the subsystem whose parts are shown
	Worked    float64
	Agreed    float64 // hours
	Tasks     []core.TaskHours
	Typed     Working
}

// openWork is the parts of one subsystem.
type openWork struct {
	Subsystem string
	Places    []core.Place
}

func (s *Server) showBuild(w http.ResponseWriter, r *http.Request) error {
	return s.buildPage(w, r, http.StatusOK, Working{}, nil)
}

func (s *Server) buildPage(w http.ResponseWriter, r *http.Request, status int, typed Working, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	parts, err := s.Tagging.Parts(r.Context(), story.Job.Number)
	if err != nil {
		return err
	}
	p := buildPage{Parts: offers(parts), What: r.URL.Query().Get("what"), frame: s.jobFrame(r, "Build", &story.Job), Fitted: story.BuildSheet(), Unchecked: story.Unchecked(), Agreed: story.HoursAgreed(), Typed: typed, Of: r.URL.Query().Get("of"),
		Tasks: story.TaskHours(func(string, string) *core.Range3 { return nil })}
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	for _, t := range story.Tags {
		if t.Apart() && t.State != core.TagBuilt {
			p.Lie = append(p.Lie, t)
		}
	}
	p.Open = stillOpen(story, p.Fitted)
	for _, t := range p.Tasks {
		p.Worked += t.Hours
	}
	slices.Reverse(p.Tasks)
	p.Tasks = p.Tasks[:min(len(p.Tasks), mostTasks)]
	return s.show(w, status, "build", p)
}

// mostTasks is how many tasks are listed with their hours, those begun last.
const mostTasks = 12

// stillOpen lists the parts of agreed work that nothing fitted is written down for, by subsystem.
func stillOpen(story core.Story, fitted []core.FittedPart) []openWork {
	seen := map[string]bool{}
	for _, f := range fitted {
		seen[f.What] = true
	}
	var out []openWork
	for _, l := range story.AgreedOrder().Lines {
		if l.Kind != core.LineWork {
			continue
		}
		for _, q := range l.Places {
			if seen[q.String()] {
				continue
			}
			seen[q.String()] = true
			i := slices.IndexFunc(out, func(o openWork) bool { return o.Subsystem == q.Subsystem })
			if i < 0 {
				i = len(out)
				out = append(out, openWork{Subsystem: q.Subsystem})
			}
			out[i].Places = append(out[i].Places, q)
		}
	}
	return out
}

// fitPage takes down what was fitted.
type fitPage struct {
	frame
	Faults    []told
	Fit       core.Fit
	Name      string
	Positions []string // to choose from first; none where it is plain
	Asks      []fitAsk
	OneUse    []string
	Typed     Fitting
	Others    string // one-use items beside those asked for, as typed
}

// fitAsk is one size of the part, with its limits of new.
type fitAsk struct {
	Field   string // of the form
	Check   core.Check
	Station string
	New     core.Fitted // what it is held against; its range is "" if none is known
	Value   string      // as typed
}

// Ways are the answers that can be given by touching one.
func (a fitAsk) Ways() []string {
	switch a.Check.Kind {
	case core.Judged:
		return []string{"class 0", "class 1", "class 2", "class 3"}
	case core.GoNoGo:
		return []string{"pass", "fails"}
	}
	return nil
}

// Torques are as typed, one a line.
func (p fitPage) Torques() string { return strings.Join(p.Typed.Torques, "\n") }

// Shims are as typed, one a line.
func (p fitPage) Shims() string { return strings.Join(p.Typed.Shims, "\n") }

// Uses reports whether an item was ticked.
func (p fitPage) Uses(item string) bool { return slices.Contains(p.Typed.Used, item) }

// At is the address of a position of the part.
func (p fitPage) At(position string) string {
	at := core.Place{Subsystem: p.Fit.Subsystem, Unit: p.Fit.Unit, Target: core.Target{Part: p.Fit.Target.Part, Position: position}}
	return "/jobs/" + p.Job.Number + "/build/fit?what=" + url.QueryEscape(at.String())
}

// showFit asks for what was fitted; where nothing is called so, the page that it was typed on says it.
func (s *Server) showFit(w http.ResponseWriter, r *http.Request) error {
	err := s.fitForm(w, r, http.StatusOK, Fitting{What: r.FormValue("what")}, "", nil)
	if err != nil && wrong(err) {
		return s.buildPage(w, r, statuses[core.ErrorCode(err)], Working{}, err)
	}
	return err
}

func (s *Server) fitForm(w http.ResponseWriter, r *http.Request, status int, typed Fitting, others string, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	fit, sheet, err := s.Building.Fitting(r.Context(), story.Job.Number, typed.What)
	if err != nil {
		return err
	}
	p := fitPage{frame: s.jobFrame(r, "Build", &story.Job), Fit: fit, Name: fit.Words(), Typed: typed, Others: others}
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	if part := sheet.Sheet.Part(fit.Target.Part); part != nil && fit.Target.Part != "" {
		p.Name = strings.TrimSpace(part.Name + " " + fit.Target.Position)
		p.OneUse = story.OneUseLeft(sheet, fit.Target, nil)
		if fit.Target.Position == "" && len(part.Positions) > 0 {
			p.Positions = part.Positions
		} else {
			p.Asks = asksOf(story, part, fit.Target, sheet)
			for i := range p.Asks {
				p.Asks[i].Value = strings.TrimSpace(r.PostFormValue(p.Asks[i].Field))
			}
		}
	}
	p.Title = "Fitted: " + p.Name
	return s.show(w, status, "fit", p)
}

// asksOf are the sizes of a part at its position.
func asksOf(story core.Story, part *core.Part, t core.Target, sheet core.UnitSheet) []fitAsk {
	var out []fitAsk
	for _, c := range part.Checks {
		if c.Kind == core.OneUse || c.BeforeStrip {
			continue
		}
		stations := c.Stations
		if len(stations) == 0 {
			stations = []string{""}
		}
		held := story.HeldTo(sheet, *part, c, t)
		for _, station := range stations {
			out = append(out, fitAsk{Field: fmt.Sprint("reading", len(out)), Check: c, Station: station, New: held})
		}
	}
	return out
}

// read gives a size as it would be typed in a line; "" where nothing was.
func (a fitAsk) read(value string) string {
	value = strings.TrimSpace(value)
	if value == "" {
		return ""
	}
	if a.Check.Unit != "" && !strings.ContainsFunc(value, func(c rune) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '"' || c == '\'' }) {
		value += " " + a.Check.Unit // the form names the unit
	}
	return strings.Join(strings.Fields(a.Check.ID+" "+a.Station+" "+value), " ")
}

// fit writes down what was fitted, or shows the form again with what is wrong.
func (s *Server) fit(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	job := r.PathValue("job")
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	t := Fitting{What: r.FormValue("what"), Torques: lines(text("torques")), Shims: lines(text("shims")), Used: r.PostForm["used"], Second: text("second"), Why: text("why"), With: text("with"), Again: text("again") != ""}
	story, err := s.Stories.Story(r.Context(), job)
	if err != nil {
		return err
	}
	begun, sheet, err := s.Building.Fitting(r.Context(), job, t.What)
	if err != nil {
		return err
	}
	if part := sheet.Sheet.Part(begun.Target.Part); part != nil {
		for _, a := range asksOf(story, part, begun.Target, sheet) {
			if line := a.read(text(a.Field)); line != "" {
				t.Readings = append(t.Readings, line)
			}
		}
	}
	ticked := t.Used
	t.Used = append(slices.Clip(t.Used), names(text("others"))...)
	if err := s.Building.Fit(r.Context(), job, s.byWhom(r), t); err != nil {
		if !wrong(err) {
			return err
		}
		t.Used = ticked
		return s.fitForm(w, r, statuses[core.ErrorCode(err)], t, text("others"), err)
	}
	http.Redirect(w, r, "/jobs/"+job+"/build", http.StatusSeeOther)
	return nil
}

// work writes hours down, or shows the page again with what is wrong.
func (s *Server) work(w http.ResponseWriter, r *http.Request) error {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	t := Working{Who: text("by"), Task: text("task"), Hours: text("hours"), Line: text("line"), Rate: text("rate")}
	if t.Who == "" {
		t.Who = s.by(r)
	}
	if t.Rate != "" && s.visitor(r).Role < Owner {
		return s.refuse(w, r, Owner) // what an hour costs is the owner's to say
	}
	if err := s.Building.Work(r.Context(), r.PathValue("job"), s.byWhom(r), t); err != nil {
		if !wrong(err) {
			return err
		}
		return s.buildPage(w, r, statuses[core.ErrorCode(err)], t, err)
	}
	http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/build#hours", http.StatusSeeOther)
	return nil
}
