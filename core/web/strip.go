package web

import (
	"cmp"
	"context"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Stripping takes vehicles and units apart.
type Stripping interface {
	// Strip is how far a job's strip-down is by its plan. It is read, never changed.
	Strip(ctx context.Context, job string) (core.Stripdown, error)
	// Step writes down what became of a step. What was sent under the same id before is taken already. All that keeps a step from being done is told
	// at once.
	Step(ctx context.Context, job string, said StepSaid) error
}

// StepSaid is what a page says of a step.
type StepSaid struct {
	ID        string // made on the device; "" without one
	By        string
	Step      string // its key
	Is        string // one of core.StepWords
	Hours     string // as typed, all hands together
	Who       []string
	People    int // 0: not said
	Confirmed bool
	Lost      bool
	Why       string // it is skipped or taken back
}

// stripPage is what can be done next, what keeps other steps back, and what is done.
type stripPage struct {
	frame
	core.Stripdown
	Did    *core.StripStep // what was written down just now
	Still  []string        // steps that stand as done though the one taken back comes before them
	Faults []told
	said   StepSaid // as it was typed where it was not taken
	open   string   // key of the step that stands open
	names  map[string]string
}

// stepCard is a step with its form.
type stepCard struct {
	core.StripStep
	Job    string
	Open   bool
	Short  bool // it needs more hands than are here
	People string
	Said   StepSaid
	Who    string
	Faults []told
}

// Cards are the steps that can be done, then those that need more hands; while the owner's yes is missing, those that need none before all others.
func (p stripPage) Cards() []stepCard {
	var cards []stepCard
	add := func(t core.StripStep, short bool) {
		c := stepCard{StripStep: t, Job: p.frame.Job.Number, Open: t.Key == p.open, Short: short, Who: p.By}
		if p.People > 0 {
			c.People = strconv.Itoa(p.People)
		}
		if t.Key == p.said.Step {
			c.Said, c.Who, c.Faults = p.said, strings.Join(p.said.Who, ", "), p.Faults
			if p.said.People > 0 {
				c.People = strconv.Itoa(p.said.People)
			}
		}
		cards = append(cards, c)
	}
	for _, t := range p.Next {
		add(t, false)
	}
	for _, t := range p.Hands {
		add(t, true)
	}
	if p.Needs != "" {
		slices.SortStableFunc(cards, func(a, b stepCard) int { return cmp.Compare(needsYes(a), needsYes(b)) })
	}
	return cards
}

// needsYes is 1 of a step that takes something apart, and so waits for the owner's yes.
func needsYes(c stepCard) int {
	if c.Free {
		return 0
	}
	return 1
}

// Loose are the faults of a step that has no card.
func (p stripPage) Loose() []told {
	if slices.ContainsFunc(p.Cards(), func(c stepCard) bool { return c.Key == p.said.Step }) {
		return nil
	}
	return p.Faults
}

// Kept names what keeps a step back.
func (p stripPage) Kept(t core.StripStep) []string {
	var names []string
	for _, w := range t.Waits {
		var any []string
		for key := range strings.SplitSeq(w, " or ") {
			name, ok := p.names[key]
			if !ok {
				name = key
			}
			any = append(any, name)
		}
		names = append(names, strings.Join(any, ", or "))
	}
	return names
}

// Done are the steps that can be taken back, the last of the plan first.
func (p stripPage) Done() []core.StripStep {
	var done []core.StripStep
	for _, t := range slices.Backward(p.Settled) {
		if t.Is == core.StepIsDone {
			done = append(done, t)
		}
	}
	return done
}

// TagIt is what came off with the step that was done just now, in words; "" if nothing did.
func (p stripPage) TagIt() string {
	if p.Did == nil || p.Did.Is != core.StepIsDone || p.Did.Free {
		return ""
	}
	return cameOff(p.Did.Name)
}

// Takes says how long a step takes, and how many hands.
func (c stepCard) Takes() string {
	r := c.StripHours
	return hours(r.Low) + " to " + hours(r.High) + " h, likely " + hours(r.Likely) + ", " + count(c.StripStep.People, "person", "people")
}

// Readings are those that the step destroys and that nobody has taken, each with the way to the bench where it is read.
func (c stepCard) Readings() []readingLink {
	var out []readingLink
	for _, same := range core.SameReadings(c.Unread) {
		u := same[0]
		bench, _, _ := strings.Cut(u.Place.String(), "/")
		// The bench page begins at the question whose key begins so: see question.Key.
		to := url.URL{Path: "/jobs/" + c.Job + "/bench/" + bench, Fragment: u.Place.String() + " " + u.Check + " "}
		out = append(out, readingLink{core.ReadingName(same), to.String()})
	}
	return out
}

type readingLink struct{ Name, To string }

// off finds where a step's name stops saying what came off.
var off = regexp.MustCompile(` (?:and )?(?:off|out|lifted)\b[^,]*`)

// cameOff is what came off with a step, from its name: "Hub and drum off, LF" gives "Hub and drum, LF". Of what stands behind, a position, what went
// along and what came off besides are kept: "Wheels off, vehicle on four stands" gives "Wheels". It is "" where the name says of nothing that it came off.
func cameOff(step string) string {
	at := off.FindStringIndex(step)
	if at == nil {
		return ""
	}
	what := step[:at[0]]
	for also := range strings.SplitSeq(strings.TrimPrefix(step[at[1]:], ", "), ", ") {
		if more := cameOff(also); more != "" {
			what += ", " + more
		} else if also != "" && (!strings.Contains(also, " ") || strings.HasPrefix(also, "with ")) {
			what += ", " + also
		}
	}
	return what
}

func (s *Server) showStrip(w http.ResponseWriter, r *http.Request) error {
	p, err := s.stripPage(r)
	if err != nil {
		return err
	}
	key := r.FormValue("did")
	if i := slices.IndexFunc(p.Settled, func(t core.StripStep) bool { return t.Key == key }); i >= 0 {
		p.Did = &p.Settled[i]
	} else if i := slices.IndexFunc(p.all(), func(t core.StripStep) bool { return t.Key == key }); i >= 0 {
		p.Did = &p.all()[i]
		p.Still = core.StillDone(p.Settled)
	}
	return s.show(w, http.StatusOK, "strip", p)
}

// all are the steps that are not settled.
func (p stripPage) all() []core.StripStep { return slices.Concat(p.Next, p.Hands, p.Waiting) }

// stripPage makes the page as it stands.
func (s *Server) stripPage(r *http.Request) (stripPage, error) {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return stripPage{}, err
	}
	p := stripPage{frame: s.jobFrame(r, "Strip", &story.Job), names: map[string]string{}}
	if p.Stripdown, err = s.Stripping.Strip(r.Context(), story.Job.Number); err != nil {
		return p, err
	}
	p.Needs = spoken(p.Needs)
	for _, t := range slices.Concat(p.all(), p.Settled) {
		p.names[t.Key] = t.Name
	}
	if cards := p.Cards(); len(cards) > 0 && (!cards[0].Short || cards[0].Free) {
		p.open = cards[0].Key
	}
	return p, nil
}

// sayOfStep writes down what became of a step; what is not taken is shown again as it was typed, with what is wrong above it.
func (s *Server) sayOfStep(w http.ResponseWriter, r *http.Request) error {
	job := r.PathValue("job")
	id, err := formID(r)
	if err != nil {
		return err
	}
	said := StepSaid{ID: id, By: s.byWhom(r), Step: r.FormValue("step"), Is: r.FormValue("is"), Hours: strings.TrimSpace(r.FormValue("hours")), Who: names(r.FormValue("who")),
		Confirmed: r.FormValue("confirmed") != "", Lost: r.FormValue("lost") != "", Why: strings.TrimSpace(r.FormValue("why"))}
	if typed := strings.TrimSpace(r.FormValue("people")); typed != "" {
		if said.People, err = strconv.Atoi(typed); err != nil || said.People < 1 {
			err = core.Errorf(core.Invalid, "count those who are there", "%q are no people", typed)
		}
	}
	if err == nil && said.Is != core.StepIsDone && said.Why == "" {
		err = core.Errorf(core.Invalid, "say why, in a word or two", "a step is skipped or taken back without a reason")
	}
	if err == nil {
		err = s.Stripping.Step(r.Context(), job, said)
	}
	if err == nil {
		return went(w, r, "/jobs/"+job+"/strip?did="+url.QueryEscape(said.Step))
	}
	if code := core.ErrorCode(err); byScript(r) || code == core.Internal || code == core.Unavailable {
		return err
	}
	p, pageErr := s.stripPage(r)
	if pageErr != nil {
		return err
	}
	p.Faults, p.said, p.open = faultsOf(err), said, said.Step
	return s.show(w, statuses[core.ErrorCode(err)], "strip", p)
}
