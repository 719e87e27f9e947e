package web

import (
	"context"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Arriving takes in what came.
type Arriving interface {
	// AsFound says what is asked of what came, and what is not photographed or read of it yet.
	AsFound(ctx context.Context, story core.Story) (AsFound, error)
	// Arrive writes down what came, with answers to the shop's own questions, each KEY=WORDS, and how it has lived, if that is given.
	Arrive(ctx context.Context, job, by string, a core.Arrival, answers []string, b *core.Brief) error
}

// AsFound is what is still to be done before anything is touched.
type AsFound struct {
	Asked    []core.ArrivalQuestion // of this job
	Missing  []core.PhotoMissing
	Photos   int // taken of the as-found list
	Wanted   int
	Unmarked []string // vehicle and units without a single mark
	Marks    []string // looked for and not found yet
	Unread   []core.Unread
	Gone     []core.Unread // never read, and it cannot be now
	NotAsked []string      // subsystems that could not answer
}

// arrivePage asks what came, and says what is to be done before anything is touched.
type arrivePage struct {
	frame
	AsFound
	Arrival *core.Arrival
	Faults  []told
	Answers []answered
	Note    string
	Stored  string
	Ran     string
	Worked  string
	Before  []toRead
	Lost    []toRead
}

// answered is a question with what was said to it.
type answered struct {
	core.ArrivalQuestion
	Said string
}

// Kind says how it is answered: count, runs, lines, or words.
func (a answered) Kind() string {
	switch a.Key {
	case core.AskKeys, core.AskBoxes:
		return "count"
	case core.AskRuns:
		return "runs"
	case core.AskLoose:
		return "lines"
	}
	return "words"
}

// toRead is what is to be read at one bench.
type toRead struct {
	Bench string
	Names []string
}

// RunsWords, StoredWords, RanWords and WorkedWords are what may be said of it.
func (arrivePage) RunsWords() []string { return core.RunsWords }

// StoredWords say how it stood.
func (arrivePage) StoredWords() []string { return core.StoredWords }

// RanWords say when it last ran.
func (arrivePage) RanWords() []string { return core.RanWords }

// WorkedWords say how it was worked.
func (arrivePage) WorkedWords() []string { return core.WorkedWords }

// benches puts readings together by their bench, in order.
func benches(list []core.Unread) []toRead {
	var order []string
	at := map[string][]core.Unread{}
	for _, u := range list {
		b := u.Bench()
		if at[b] == nil {
			order = append(order, b)
		}
		at[b] = append(at[b], u)
	}
	var out []toRead
	for _, b := range order {
		out = append(out, toRead{b, core.ReadingNames(at[b])})
	}
	return out
}

func (s *Server) showArrive(w http.ResponseWriter, r *http.Request) error {
	return s.askArrival(w, r, http.StatusOK, nil)
}

// askArrival asks what came. After a fault what was typed stays.
func (s *Server) askArrival(w http.ResponseWriter, r *http.Request, status int, faults []told) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	found, err := s.Arriving.AsFound(r.Context(), story)
	if err != nil {
		return err
	}
	b := story.Job.Brief
	p := arrivePage{frame: s.jobFrame(r, "Arrive", &story.Job), AsFound: found, Arrival: story.Arrival, Faults: faults, Stored: b.Stored, Ran: b.Ran, Worked: b.Worked,
		Before: benches(found.Unread), Lost: benches(found.Gone)}
	if story.Arrival != nil {
		p.Note = story.Arrival.Note
	}
	for _, q := range found.Asked {
		said := story.Arrival.Says(q.Key)
		if q.Key == core.AskLoose && story.Arrival != nil {
			said = strings.Join(story.Arrival.Loose, "\n")
		}
		if r.PostForm != nil {
			said = typed(r, "ask-"+q.Key)
		}
		p.Answers = append(p.Answers, answered{q, said})
	}
	if r.PostForm != nil {
		p.Note, p.Stored, p.Ran, p.Worked = typed(r, "note"), typed(r, "stored"), typed(r, "ran"), typed(r, "worked")
	}
	return s.show(w, status, "arrive", p)
}

// arrive writes down what came. What is left blank stays as it was said before.
func (s *Server) arrive(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read: %v", err)
	}
	ctx := r.Context()
	story, err := s.Stories.Story(ctx, r.PathValue("job"))
	if err != nil {
		return err
	}
	a, answers, err := readArrival(r, story.Arrival)
	if err == nil {
		b := story.Job.Brief
		b.Stored, b.Ran, b.Worked = typed(r, "stored"), typed(r, "ran"), typed(r, "worked")
		var brief *core.Brief
		if was := story.Job.Brief; b.Stored != was.Stored || b.Ran != was.Ran || b.Worked != was.Worked {
			brief = &b
		}
		err = s.Arriving.Arrive(ctx, story.Job.Number, s.by(r), a, answers, brief)
	}
	switch code := core.ErrorCode(err); code {
	case "":
		http.Redirect(w, r, "/jobs/"+story.Job.Number+"/arrive#before", http.StatusSeeOther)
		return nil
	case core.Invalid, core.Conflict:
		return s.askArrival(w, r, statuses[code], faultsOf(err))
	}
	return err
}

// readArrival lays what was typed over what was said before.
func readArrival(r *http.Request, was *core.Arrival) (a core.Arrival, answers []string, err error) {
	if was != nil {
		a = *was
	}
	a.Counted = slices.Clone(a.Counted)
	count := func(key string, into *int) {
		text := typed(r, "ask-"+key)
		if text == "" {
			return
		}
		n, bad := strconv.Atoi(text)
		if bad != nil || n < 0 {
			err = core.Errorf(core.Invalid, "count them, and write it in figures; 0 is a count too", "%s: “%s” is no count", key, text)
			return
		}
		*into = n
		if !slices.Contains(a.Counted, key) {
			a.Counted = append(a.Counted, key)
		}
	}
	count(core.AskKeys, &a.Keys)
	count(core.AskBoxes, &a.Boxes)
	for key, into := range map[string]*string{core.AskMileage: &a.Mileage, core.AskFluids: &a.Fluids, core.AskRuns: &a.Runs, core.AskPapers: &a.Papers, core.AskSigned: &a.Signed} {
		if said := typed(r, "ask-"+key); said != "" {
			*into = said
		}
	}
	if said := typed(r, "ask-"+core.AskLoose); said != "" {
		a.Loose = nil
		for line := range strings.Lines(said) {
			if line = strings.TrimSpace(line); line != "" {
				a.Loose = append(a.Loose, line)
			}
		}
	}
	if said := typed(r, "note"); said != "" {
		a.Note = said
	}
	for name := range r.PostForm {
		key, ours := strings.CutPrefix(name, "ask-")
		if said := typed(r, name); ours && said != "" && !slices.Contains(core.ArrivalKeys, key) {
			answers = append(answers, key+"="+said)
		}
	}
	slices.Sort(answers)
	return a, answers, err
}
