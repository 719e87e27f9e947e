package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) yardCommand() *cobra.Command {
	return &cobra.Command{
		Use: "yard", Short: "All jobs at once: what waits for whom, what is late, hours left, places occupied", Args: cobra.NoArgs,
		Long: `All jobs that are not handed over, late ones first: where each stands and since when, what it waits for, the hours left of what was agreed. Then what
is out and on order across the jobs, and what lies where. How many hours a week there are for all jobs
together is weekly_hours in fettle.yaml.`,
		Example: "  fettle yard\n  fettle yard --json",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				stories, err := s.book.Stories(cmd.Context())
				if err != nil {
					return err
				}
				y := yard(s, stories)
				if c.asJSON() {
					return writeJSON(c.out, y)
				}
				c.printYard(s, y)
				return nil
			})
		},
	}
}

// yardJSON is what yard --json prints.
type yardJSON struct {
	Jobs        []yardJob   `json:"jobs"` // late ones first, then the longest in its state
	Out         []yardOut   `json:"out"`  // outwork and goods on order, late ones first
	Places      []yardPlace `json:"places"`
	HoursAgreed float64     `json:"hours_agreed"`
	HoursLeft   float64     `json:"hours_left"`
	HoursWeek   float64     `json:"hours_week"` // for all jobs together; 0: the settings do not say
}

type yardJob struct {
	Job    string    `json:"job"`
	Title  string    `json:"title"`
	Owner  string    `json:"owner"`
	State  string    `json:"state"`
	Since  time.Time `json:"since"`
	Waits  []string  `json:"waits_for"`
	Late   []string  `json:"late"`
	Agreed float64   `json:"hours_agreed"` // of the agreed scope; 0: nothing agreed
	Hours  float64   `json:"hours"`        // worked
	Left   float64   `json:"hours_left"`
}

type yardOut struct {
	Number string     `json:"number"`
	Job    string     `json:"job"`
	What   string     `json:"what"`
	Who    string     `json:"who"`
	Due    time.Time  `json:"due,omitzero"`
	Late   bool       `json:"late"`
	Price  core.Money `json:"price"`
}

type yardPlace struct {
	Place string   `json:"place"`
	Tags  int      `json:"tags"`
	Jobs  []string `json:"jobs"`
}

// yard looks at every job that is not handed over.
func yard(s *shop, stories []core.Story) yardJSON {
	y := yardJSON{Jobs: []yardJob{}, Out: []yardOut{}, Places: []yardPlace{}, HoursWeek: s.settings.WeeklyHours}
	now := s.c.clock()
	for _, story := range stories {
		if story.Job.State == core.StateHandedOver {
			continue
		}
		out := outOf(story, now)
		y.Out = append(y.Out, out...)
		j := yardJobOf(story, out, now)
		y.Jobs = append(y.Jobs, j)
		y.HoursAgreed, y.HoursLeft = y.HoursAgreed+j.Agreed, y.HoursLeft+j.Left
		y.occupy(story)
	}
	slices.SortStableFunc(y.Jobs, func(a, b yardJob) int {
		return cmp.Or(cmp.Compare(min(1, len(b.Late)), min(1, len(a.Late))), a.Since.Compare(b.Since))
	})
	slices.SortStableFunc(y.Out, func(a, b yardOut) int {
		switch {
		case a.Late != b.Late:
			if a.Late {
				return -1
			}
			return 1
		case a.Due.IsZero() != b.Due.IsZero(): // what nobody promised for a day comes last
			if b.Due.IsZero() {
				return -1
			}
			return 1
		}
		return a.Due.Compare(b.Due)
	})
	slices.SortStableFunc(y.Places, func(a, b yardPlace) int { return strings.Compare(a.Place, b.Place) })
	return y
}

func yardJobOf(story core.Story, out []yardOut, now time.Time) yardJob {
	j := yardJob{Job: story.Job.Number, Title: story.Job.Title, Owner: story.Job.Owner.Name, State: story.Job.State, Since: story.Job.Opened, Waits: orEmpty(story.Waits()), Late: orEmpty(overdue(story, now))}
	if n := len(story.Moves); n > 0 {
		j.Since = story.Moves[n-1].At
	}
	for _, o := range out {
		if o.Late {
			j.Late = append(j.Late, o.Number)
		}
	}
	for _, w := range story.Hours {
		j.Hours += w.Hours
	}
	j.Agreed, j.Left = story.HoursAgreed(), story.HoursLeft()
	return j
}

// outOf lists a job's outwork that is not back and goods that are not here.
func outOf(story core.Story, now time.Time) []yardOut {
	var out []yardOut
	for _, o := range story.Outwork {
		if o.State == core.OutworkOut {
			out = append(out, yardOut{o.ID, story.Job.Number, o.Work, o.To, o.Due, o.Late(now), o.Price})
		}
	}
	for _, p := range story.Purchases {
		if p.State == core.PurchaseOrdered {
			out = append(out, yardOut{p.ID, story.Job.Number, cmp.Or(p.What, p.Item), p.From, p.Due, p.Late(now), p.Price})
		}
	}
	return out
}

// occupy adds where a job's things lie.
func (y *yardJSON) occupy(story core.Story) {
	for _, g := range story.Tags {
		if g.Lies == "" || g.State == core.TagOut || !g.Apart() {
			continue
		}
		i := slices.IndexFunc(y.Places, func(p yardPlace) bool { return strings.EqualFold(p.Place, g.Lies) })
		if i < 0 {
			i = len(y.Places)
			y.Places = append(y.Places, yardPlace{Place: g.Lies})
		}
		p := &y.Places[i]
		p.Tags++
		if !slices.Contains(p.Jobs, story.Job.Number) {
			p.Jobs = append(p.Jobs, story.Job.Number)
		}
	}
}

func (c *command) printYard(s *shop, y yardJSON) {
	if len(y.Jobs) == 0 {
		c.print("No job is in the yard.\n\n  " + c.self() + " new job \"What it is\" --owner \"Whose it is\"")
		return
	}
	t := newTable("job", "what", "state", "since", ">worked", ">left", "late, and waits for")
	for _, j := range y.Jobs {
		var says []string
		if len(j.Late) > 0 {
			says = append(says, "LATE "+strings.Join(j.Late, ", "))
		}
		left := ""
		if j.Agreed > 0 {
			left = spent(j.Left)
		}
		t.add(j.Job, j.Title, j.State, j.Since.In(s.settings.Zone).Format("2 Jan 2006"), spent(j.Hours), left, strings.Join(append(says, j.Waits...), "; "))
	}
	t.print(c.out, "", screen)
	fmt.Fprintln(c.out)
	c.printLoad(y)
	if len(y.Out) > 0 {
		fmt.Fprintln(c.out)
		t = newTable("out", "job", "what", "who has it", "due")
		for _, o := range y.Out {
			due := s.day(o.Due)
			if o.Late {
				due += "  LATE"
			}
			t.add(o.Number, o.Job, o.What, o.Who, due)
		}
		t.print(c.out, "", screen)
	}
	if len(y.Places) > 0 {
		fmt.Fprintln(c.out)
		t = newTable("place", ">tags", "of")
		for _, p := range y.Places {
			t.add(p.Place, fmt.Sprint(p.Tags), strings.Join(p.Jobs, ", "))
		}
		t.print(c.out, "", screen)
	}
}

// printLoad says how long the hours that are left take the people there are.
func (c *command) printLoad(y yardJSON) {
	switch {
	case y.HoursAgreed == 0:
		c.print("No hours are agreed yet.")
	case y.HoursWeek == 0:
		para(c.out, "", fmt.Sprintf("%s h left of %s agreed. How many weeks that is, weekly_hours in fettle.yaml would tell.", spent(y.HoursLeft), spent(y.HoursAgreed)))
	default:
		para(c.out, "", fmt.Sprintf("%s h left of %s agreed: %.1f weeks at %s h a week.", spent(y.HoursLeft), spent(y.HoursAgreed), y.HoursLeft/y.HoursWeek, spent(y.HoursWeek)))
	}
}
