package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// arrivalJSON is what arrive --json prints.
type arrivalJSON struct {
	Job       string                 `json:"job"`
	State     string                 `json:"state"`
	Arrival   *core.Arrival          `json:"arrival"`
	Open      []core.ArrivalQuestion `json:"not_said"`
	Photos    int                    `json:"photos"`         // of the as-found list, taken
	Wanted    int                    `json:"photos_wanted"`  // in all
	Missing   []core.PhotoMissing    `json:"photos_missing"` // by view
	Marks     []string               `json:"marks_not_found"`
	Unmarked  []string               `json:"no_mark_read"` // vehicle and units without a single mark
	Unread    []core.Unread          `json:"not_read"`     // that can only be read before strip-down
	Gone      []core.Unread          `json:"never_read"`   // and that a step done since has destroyed
	History   []string               `json:"history_unknown"`
	NotAsked  []string               `json:"not_asked"`        // subsystems that could not answer
	Before    *beforeJSON            `json:"before,omitempty"` // the last job of the same vehicle
	questions []core.ArrivalQuestion
	later     func(step string) bool // it is not done yet
}

func (c *command) showArrival(ctx context.Context, s *shop, story core.Story, list core.ArrivalList) error {
	v, err := s.arrival(ctx, story, list)
	if err != nil {
		return err
	}
	before, err := s.lastBuild(ctx, story.Job)
	if err != nil {
		return err
	}
	if v.Before = asBefore(before); c.asJSON() {
		return writeJSON(c.out, v)
	}
	c.printArrival(s, v)
	if before != nil {
		printLastBuild(c.out, s, *before)
	}
	c.print(fmt.Sprintf("\n  %[1]s photo %[2]s FILE --of VIEW    keep a picture\n  %[1]s strip %[2]s                   what comes off first", c.self(), v.Job))
	return nil
}

// arrival looks at what came, and at what is not photographed, read or known of it yet.
func (s *shop) arrival(ctx context.Context, story core.Story, list core.ArrivalList) (arrivalJSON, error) {
	photos, err := s.book.Photos(ctx, story.Job.Number)
	if err != nil {
		return arrivalJSON{}, err
	}
	var titles []string
	for _, p := range photos {
		titles = append(titles, p.Title)
	}
	list = list.For(story.Job, story.Arrival)
	v := arrivalJSON{Job: story.Job.Number, State: story.Job.State, Arrival: story.Arrival, Open: list.Unanswered(story.Arrival), Missing: list.Missing(titles),
		Marks: story.Job.MarksMissing(), Unmarked: story.Job.Unmarked(), History: story.Job.Brief.HistoryUnknown(), questions: list.Asked}
	for _, p := range list.Photos {
		v.Wanted += p.Count
	}
	v.Photos = v.Wanted
	for _, m := range v.Missing {
		v.Photos -= m.Count - m.Taken
	}
	return v, s.readBefore(ctx, story, &v)
}

// readBefore fills in what can only be read before strip-down, and what can be no more. A subsystem that cannot answer is named: what it
// would ask is not known.
func (s *shop) readBefore(ctx context.Context, story core.Story, v *arrivalJSON) error {
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return err
	}
	asked := s.names
	if e := story.Job.Extent; e.Kind == core.ExtentNamed && !slices.ContainsFunc(e.Names, func(n string) bool { return !slices.Contains(s.names, n) }) {
		asked = e.Names // no other needs to be started
	}
	r, err := s.recorder(ctx, story.Job, asked...)
	if err != nil {
		return err
	}
	v.NotAsked = []string{}
	for _, n := range asked {
		if !slices.ContainsFunc(r.Sheets, func(us core.UnitSheet) bool { return us.Subsystem == n }) {
			v.NotAsked = append(v.NotAsked, n)
		}
	}
	steps := core.StripSteps(req, r.Sheets, story)
	v.later = func(step string) bool {
		t, err := core.FindStep(steps, step)
		return err == nil && t.Is == ""
	}
	v.Unread, v.Gone = []core.Unread{}, []core.Unread{}
	for _, u := range core.UnreadBeforeStrip(story.Job, r.Sheets, req.Findings) {
		if u.Gone(steps) {
			v.Gone = append(v.Gone, u)
		} else {
			v.Unread = append(v.Unread, u)
		}
	}
	return nil
}

func (c *command) printArrival(s *shop, v arrivalJSON) {
	t := newTable("", "")
	t.add(v.Job, v.State)
	if v.Arrival == nil {
		t.add("arrived", "nothing is written down of it yet")
	} else {
		t.add("arrived", strings.TrimSuffix(s.day(v.Arrival.At)+", taken in by "+v.Arrival.By, ", taken in by "))
	}
	for _, q := range v.questions {
		if said := v.Arrival.Says(q.Key); said != "" {
			t.add(q.Key, said)
		}
	}
	if v.Arrival != nil && v.Arrival.Note != "" {
		t.add("note", v.Arrival.Note)
	}
	for _, q := range v.Open {
		t.add("not said", q.Ask+askedBy(q.Key))
	}
	for _, h := range v.History {
		t.add("not known", h)
	}
	for _, m := range v.Marks {
		t.add("mark", m+": "+core.MarkNotFound)
	}
	if len(v.Unmarked) > 0 {
		t.add("no mark read", strings.Join(v.Unmarked, ", "))
	}
	t.add("photographs", fmt.Sprintf("%d of %d as found", v.Photos, v.Wanted))
	for _, x := range views(v.Missing, v.later) {
		head := "  missing"
		if x.step != "" {
			head = "  after " + x.step
		}
		t.add(head, strings.Join(x.views, "; "))
	}
	t.print(c.out, "", screen)
	c.printUnread("READ BEFORE ANYTHING IS TOUCHED: afterwards it cannot be", v.Unread)
	c.printUnread("NEVER READ, and it cannot be now: write it off with the word lost", v.Gone)
	for _, n := range v.NotAsked {
		para(c.out, "", n+": NOT ASKED, its plugin does not answer; what it would have read is not known")
	}
}

// printUnread lists readings by subsystem, with the unit where there are several.
func (c *command) printUnread(head string, list []core.Unread) {
	if len(list) == 0 {
		return
	}
	c.print("\n" + head)
	var order []string
	at := map[string][]core.Unread{}
	for _, u := range list {
		name := u.Subsystem
		if slices.ContainsFunc(list, func(o core.Unread) bool { return o.Subsystem == u.Subsystem && o.Unit != u.Unit }) {
			name += "@" + u.Unit
		}
		if at[name] == nil {
			order = append(order, name)
		}
		at[name] = append(at[name], u)
	}
	t := newTable("", "")
	for _, name := range order {
		t.add(name, strings.Join(core.ReadingNames(at[name]), "; "))
	}
	t.print(c.out, "  ", screen)
}

// askedBy names the flag that answers a question.
func askedBy(key string) string {
	if slices.Contains(core.ArrivalKeys, key) {
		return ": --" + key
	}
	return ": --answer " + key + "=WORDS"
}

// viewsAt are the keys of missing views that can be had now, or after a step.
type viewsAt struct {
	step  string
	views []string
}

// views parts the missing views by when they can be had. Those of one kind stand together, "corner/LF, RF"; of several pictures the number
// that is left stands behind.
func views(missing []core.PhotoMissing, later func(step string) bool) []viewsAt {
	out := []viewsAt{{}}
	last := ""
	for _, m := range missing {
		step := ""
		if m.Step != "" && later(m.Step) {
			step, _, _ = strings.Cut(m.Step, "/")
		}
		k := slices.IndexFunc(out, func(x viewsAt) bool { return x.step == step })
		if k < 0 {
			k = len(out)
			out = append(out, viewsAt{step: step})
		}
		x := &out[k]
		head, position, placed := strings.Cut(m.Key, "/")
		if n := len(x.views); placed && n > 0 && last == step+"\x00"+head {
			x.views[n-1] += ", " + position
		} else {
			x.views = append(x.views, m.Key)
		}
		last = step + "\x00" + head
		if left := m.Count - m.Taken; m.Count > 1 {
			x.views[len(x.views)-1] += fmt.Sprintf(" (%d more)", left)
		}
	}
	if len(out[0].views) == 0 {
		out = out[1:]
	}
	return out
}
