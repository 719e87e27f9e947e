package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// agreePage takes down who agreed to what. After a fault it has what was typed.
type agreePage struct {
	frame
	Faults []told
	Lacks  string // what the sums of the paper may be made without; "" for nothing
	Word   string // the gate in the address
	Gate   string
	Paper  *core.Issued // what the main budget is an answer to
	Who    []speaker
	Ways   []string
	Lines  []agreeLines // that can be refused
	Typed  core.Agreement
	Sum    string // as typed
}

// speaker is somebody who may speak for the job.
type speaker struct {
	Name, As string
	UpTo     *core.Money // nil: any sum
}

// agreeLines are the lines of one subsystem.
type agreeLines struct {
	Subsystem string
	Lines     []agreeLine
	Refused   bool // one of them is
}

// agreeLine is one line, named by its place on the paper: a whole vehicle has hundreds.
type agreeLine struct {
	At      int
	Name    string
	Amount  core.Money
	Safety  bool
	Refused bool
}

// WithSum reports whether the gate authorises a sum.
func (p agreePage) WithSum() bool { return p.Gate != core.GateFinish }

func (s *Server) showAgree(w http.ResponseWriter, r *http.Request) error {
	return s.agreeForm(w, r, http.StatusOK, core.Agreement{}, "", nil)
}

// agree writes an agreement down, or shows the form again with what is wrong.
func (s *Server) agree(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	a := core.Agreement{Gate: gateOf(r), Who: text("who"), How: text("how"), Capacity: text("capacity"), Words: text("words")}
	if a.Gate == core.GateBudget { // the paper that was on the page, not one issued meanwhile
		a.Paper, a.Revision = text("paper"), wholeNumber(text("revision"))
		story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
		if err != nil {
			return err
		}
		a.Refused = lineIDs(story.Issued(a.Paper, a.Revision), r.PostForm["refuse"])
	}
	err := s.Papers.Agree(r.Context(), r.PathValue("job"), s.byWhom(r), a, text("sum"))
	if err == nil {
		http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/papers#agreed", http.StatusSeeOther)
		return nil
	}
	if code := core.ErrorCode(err); code != core.Invalid && code != core.Conflict {
		return err
	}
	return s.agreeForm(w, r, statuses[core.ErrorCode(err)], a, text("sum"), err)
}

// gateOf is the gate that a request is about; "" is none.
func gateOf(r *http.Request) string {
	for gate, word := range gateWords {
		if word == r.PathValue("gate") {
			return gate
		}
	}
	return ""
}

func (s *Server) agreeForm(w http.ResponseWriter, r *http.Request, status int, typed core.Agreement, sum string, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	p := agreePage{frame: s.jobFrame(r, "Papers", &story.Job), Word: r.PathValue("gate"), Gate: gateOf(r), Ways: core.Ways, Who: speakers(story), Typed: typed, Sum: sum}
	if p.Gate == "" {
		return s.nothingHere(w, r)
	}
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	if p.Gate == core.GateBudget && !p.Over() {
		if p.Paper = story.LastScope(); p.Paper == nil {
			return core.Errorf(core.Conflict, "make it and issue it, on the page of papers", "no scope of %s is issued that could be agreed to", story.Job.Number)
		}
		p.Lines, p.Lacks = refusable(*p.Paper, typed.Refused), s.keptLacks(r, story.Job.Number)
	}
	if typed.Who == "" && len(p.Who) == 1 {
		p.Typed.Who = p.Who[0].Name
	}
	p.Title = "The answer to the " + p.Gate + ", " + story.Job.Number
	return s.show(w, status, "agree", p)
}

// speakers are those who may authorise: the owner, who pays, who was named as one who may.
func speakers(story core.Story) []speaker {
	var out []speaker
	add := func(name, as string) {
		if name == "" || slices.ContainsFunc(out, func(x speaker) bool { return strings.EqualFold(x.Name, name) }) {
			return
		}
		x := speaker{Name: name, As: as}
		for _, p := range story.Parties {
			if strings.EqualFold(p.Name, name) {
				x.UpTo = p.MayAuthorise
			}
		}
		out = append(out, x)
	}
	add(story.Job.Owner.Name, "owner")
	for _, p := range story.Job.Payers {
		add(p.Party, "pays")
	}
	for _, name := range story.Job.Speakers {
		add(name, "may speak for the owner")
	}
	return out
}

// refusable are the lines of a scope that an owner may say no to, by subsystem: the work and what is held in reserve for it. What comes apart for
// it follows from that.
func refusable(p core.Issued, refused []string) []agreeLines {
	var out []agreeLines
	for at, l := range p.Lines {
		if l.Subsystem == "" || l.Kind != core.LineWork && l.Kind != core.LineReserve {
			continue
		}
		i := slices.IndexFunc(out, func(x agreeLines) bool { return x.Subsystem == l.Subsystem })
		if i < 0 {
			i = len(out)
			out = append(out, agreeLines{Subsystem: l.Subsystem})
		}
		no := slices.Contains(refused, l.ID)
		out[i].Lines = append(out[i].Lines, agreeLine{at, l.Name, l.Amount, l.Safety, no})
		out[i].Refused = out[i].Refused || no
	}
	return out
}

// lineIDs are the lines at places of a paper.
func lineIDs(p *core.Issued, places []string) []string {
	var ids []string
	for _, text := range places {
		if n, err := strconv.Atoi(text); err == nil && p != nil && n >= 0 && n < len(p.Lines) {
			ids = append(ids, p.Lines[n].ID)
		}
	}
	return ids
}
