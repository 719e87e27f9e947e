package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/store"
)

// arrivalList reads what is photographed and asked of what comes.
func (s *shop) arrivalList() (core.ArrivalList, error) {
	b, name, err := s.data("arrival.yaml")
	if err != nil {
		return core.ArrivalList{}, err
	}
	return config.ReadArrival(b, name)
}

// arriveFlags are what may be said of what came.
type arriveFlags struct {
	arrival core.Arrival
	brief   core.Brief
	answers []string
}

func (c *command) arriveCommand() *cobra.Command {
	var f arriveFlags
	cmd := &cobra.Command{
		Use: "arrive JOB", Short: "Take in what came; then what is not photographed, read or known yet", Args: cobra.ExactArgs(1),
		Long: `What is given is written down, and may be added to later. Shown are the as-found pictures still missing, identity marks not found yet, readings that
can only be taken before anything is touched, and what is not known of how it has lived. The list of pictures and questions is arrival.yaml: a copy of it in
the shop folder wins.`,
		Example: `  fettle arrive J-001 --mileage "43210 miles" --keys 2 --boxes 3 --loose "jack, wheel brace" --runs "does not run" --signed "Marta Wellbeck"
  fettle arrive J-001 --stored damp --ran longer --worked hard
  fettle arrive J-001`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				list, err := s.arrivalList()
				if err != nil {
					return err
				}
				if cmd.LocalNonPersistentFlags().NFlag() == 0 {
					return c.showArrival(cmd.Context(), s, story, list)
				}
				if story, err = c.arrive(cmd, s, story, list, f); err != nil {
					return err
				}
				return c.showArrival(cmd.Context(), s, story, list)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&f.arrival.Mileage, "mileage", "", "the `DISTANCE` shown, with its unit")
	fs.IntVar(&f.arrival.Keys, "keys", 0, "`HOW` many keys")
	fs.IntVar(&f.arrival.Boxes, "boxes", 0, "`HOW` many boxes of parts")
	fs.StringArrayVar(&f.arrival.Loose, "loose", nil, "`WHAT` lies loose in it; may be repeated")
	fs.StringVar(&f.arrival.Fluids, "fluids", "", "`HOW` much fuel, oil, coolant, and how they look")
	fs.StringVar(&f.arrival.Runs, "runs", "", "`WHETHER` it runs: "+strings.Join(core.RunsWords, ", "))
	fs.StringVar(&f.arrival.Papers, "papers", "", "`WHICH` papers came with it")
	fs.StringVar(&f.arrival.Signed, "signed", "", "`NAME` of who signed for the owner")
	fs.StringVar(&f.arrival.Note, "note", "", "`WHAT` else is to be known")
	fs.StringArrayVar(&f.answers, "answer", nil, "`KEY=WORDS` to a question of the shop's own; may be repeated")
	fs.StringVar(&f.brief.Stored, "stored", "", "`HOW` it stood: "+strings.Join(core.StoredWords, ", "))
	fs.StringVar(&f.brief.Ran, "ran", "", "`WHEN` it last ran: "+strings.Join(core.RanWords, ", "))
	fs.StringVar(&f.brief.Worked, "worked", "", "`HOW` it worked: "+strings.Join(core.WorkedWords, ", "))
	return cmd
}

// arrive lays what was given over what was said before, and writes it down.
func (c *command) arrive(cmd *cobra.Command, s *shop, story core.Story, list core.ArrivalList, f arriveFlags) (core.Story, error) {
	given := cmd.Flags().Changed
	var a core.Arrival
	if story.Arrival != nil {
		a = *story.Arrival
	}
	put(given("mileage"), &a.Mileage, f.arrival.Mileage)
	put(given("keys"), &a.Keys, f.arrival.Keys)
	put(given("boxes"), &a.Boxes, f.arrival.Boxes)
	put(given("loose"), &a.Loose, f.arrival.Loose)
	put(given("fluids"), &a.Fluids, f.arrival.Fluids)
	put(given("runs"), &a.Runs, f.arrival.Runs)
	put(given("papers"), &a.Papers, f.arrival.Papers)
	put(given("signed"), &a.Signed, f.arrival.Signed)
	put(given("note"), &a.Note, f.arrival.Note)
	a.Counted = slices.Clone(a.Counted)
	for _, key := range []string{core.AskKeys, core.AskBoxes} {
		if given(key) && !slices.Contains(a.Counted, key) {
			a.Counted = append(a.Counted, key)
		}
	}
	brief := story.Job.Brief
	put(given("stored"), &brief.Stored, f.brief.Stored)
	put(given("ran"), &brief.Ran, f.brief.Ran)
	put(given("worked"), &brief.Worked, f.brief.Worked)
	var errs faults
	if err := brief.CheckHistory(); err != nil {
		errs = append(errs, err)
	}
	if err := answer(&a, list, f.answers); err != nil {
		errs = append(errs, err)
	}
	if len(errs) > 0 {
		return story, errs
	}
	var with store.Together
	if given("stored") || given("ran") || given("worked") {
		with.Change.Brief = &brief
	}
	return s.book.ActTogether(cmd.Context(), story.Job.Number, c.by(), with, &a)
}

// answer lays answers to the shop's own questions over those there are.
func answer(a *core.Arrival, list core.ArrivalList, answers []string) error {
	var own []string
	for _, q := range list.Asked {
		if !slices.Contains(core.ArrivalKeys, q.Key) {
			own = append(own, q.Key)
		}
	}
	a.Answers = slices.Clone(a.Answers)
	for _, text := range answers {
		key, words, ok := strings.Cut(text, "=")
		if !ok || !slices.Contains(own, key) {
			next := "arrival.yaml in the shop folder has no question of the shop's own yet"
			if len(own) > 0 {
				next = "write KEY=WORDS with one of: " + strings.Join(own, ", ")
			}
			return core.Errorf(core.Invalid, next, "--answer %q answers no question", text)
		}
		a.Answers = slices.DeleteFunc(a.Answers, func(x core.ArrivalAnswer) bool { return x.Key == key })
		a.Answers = append(a.Answers, core.ArrivalAnswer{Key: key, Words: words})
	}
	return nil
}

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
	History   []string               `json:"history_unknown"`
	NotAsked  []string               `json:"not_asked"` // subsystems that could not answer
	questions []core.ArrivalQuestion
}

func (c *command) showArrival(ctx context.Context, s *shop, story core.Story, list core.ArrivalList) error {
	photos, err := s.book.Photos(ctx, story.Job.Number)
	if err != nil {
		return err
	}
	findings, err := s.book.Findings(ctx, story.Job.Number)
	if err != nil {
		return err
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
	sheets, silent, err := s.sheetsAnswering(ctx, story.Job)
	if err != nil {
		return err
	}
	v.Unread, v.NotAsked = orEmpty(core.UnreadBeforeStrip(story.Job, sheets, findings)), orEmpty(silent)
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	c.printArrival(s, v)
	return nil
}

// sheetsAnswering describes the job's sheets. A subsystem that cannot answer is named: what it would ask is not known.
func (s *shop) sheetsAnswering(ctx context.Context, job core.Job) (sheets []core.UnitSheet, silent []string, err error) {
	r, err := s.recorder(ctx, job)
	if err != nil {
		return nil, nil, err
	}
	for _, n := range s.names {
		if !slices.ContainsFunc(r.Sheets, func(us core.UnitSheet) bool { return us.Subsystem == n }) {
			silent = append(silent, n)
		}
	}
	return r.Sheets, silent, nil
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
	now, later := splitViews(v.Missing)
	if len(now) > 0 {
		t.add("  missing", strings.Join(now, "; "))
	}
	for _, x := range later {
		t.add("  after "+x.step, strings.Join(x.views, "; "))
	}
	t.print(c.out, "", screen)
	c.printUnread(v)
}

func (c *command) printUnread(v arrivalJSON) {
	if len(v.Unread) > 0 {
		c.print("\nREAD BEFORE ANYTHING IS TOUCHED: afterwards it cannot be")
		t := newTable("", "")
		for i := 0; i < len(v.Unread); {
			k := i
			for k < len(v.Unread) && v.Unread[k].Subsystem == v.Unread[i].Subsystem && v.Unread[k].Unit == v.Unread[i].Unit {
				k++
			}
			t.add(subsystemOf(v.Unread[i].Place), strings.Join(core.ReadingNames(v.Unread[i:k]), "; "))
			i = k
		}
		t.print(c.out, "  ", screen)
	}
	for _, n := range v.NotAsked {
		para(c.out, "", n+": NOT ASKED, its plugin does not answer; what it would have read is not known")
	}
	c.print(fmt.Sprintf("\n  %[1]s photo %[2]s FILE --of VIEW\n  %[1]s strip %[2]s", c.self(), v.Job))
}

// subsystemOf names a place's subsystem, with its unit where it is not named after it.
func subsystemOf(p core.Place) string {
	name, _, _ := strings.Cut(p.String(), "/")
	return name
}

// askedBy names the flag that answers a question.
func askedBy(key string) string {
	if slices.Contains(core.ArrivalKeys, key) {
		return ": --" + key
	}
	return ": --answer " + key + "=WORDS"
}

// laterViews are those that cannot be seen before a step.
type laterViews struct {
	step  string
	views []string
}

// splitViews parts the missing views by when they can be had: now, or after a step; how many are left stands behind those of several.
func splitViews(missing []core.PhotoMissing) (now []string, later []laterViews) {
	for _, m := range missing {
		view := fmt.Sprintf("%s (%s)", m.Name, m.Key)
		if m.Count > 1 {
			view = fmt.Sprintf("%s (%s), %d more", m.Name, m.Key, m.Count-m.Taken)
		}
		if m.Step == "" {
			now = append(now, view)
			continue
		}
		step, _, _ := strings.Cut(m.Step, "/")
		if n := len(later); n == 0 || later[n-1].step != step {
			later = append(later, laterViews{step: step})
		}
		l := &later[len(later)-1]
		l.views = append(l.views, view)
	}
	return now, later
}
