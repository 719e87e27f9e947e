package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) closeCommand() *cobra.Command {
	var h core.Handover
	cmd := &cobra.Command{
		Use: "close JOB", Short: "Hand over: what was done and not done, sizes as fitted, hours and money, old parts", Args: cobra.ExactArgs(1),
		Long: `Without --signed it shows what is still open and what the job came to. It is refused while anything is unaccounted for, and all of it is told at once;
--told records the owner's own words on what stays open. A stopped job is handed over as it stands. What safety work left undone, or not looked over by
a second person, leaves on a trailer. What the job has shown of hours, hidden damage and money is kept with it for the plans of others: fettle learned.`,
		Example: `  fettle close J-001
  fettle close J-001 --signed "Marta Wellbeck" --old-parts returned --first-service "500 miles: oil, nuts"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if !acting(cmd) {
					return c.showClosing(s, story)
				}
				return c.close(cmd.Context(), s, story, h)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&h.Signed, "signed", "", "`NAME` of who signed for it")
	fs.StringVar(&h.OldParts, "old-parts", "", "`WHAT` became of them: "+strings.Join(core.OldPartsWords, ", "))
	fs.StringVar(&h.FirstService, "first-service", "", "`WHEN` and what: \"500 miles: oil, nuts\"")
	fs.StringVar(&h.Told, "told", "", "the owner's `WORDS` on what is still open")
	fs.BoolVar(&h.Trailer, "trailer", false, "it leaves on a trailer")
	return cmd
}

func (c *command) close(ctx context.Context, s *shop, story core.Story, h core.Handover) error {
	if err := h.Check(&story); err != nil {
		return err
	}
	taught, reckoning, err := s.teach(ctx, story)
	if err != nil {
		return err
	}
	h.Taught = taught
	if story, err = s.book.Act(ctx, story.Job.Number, c.by(), &h, reckoning); err != nil {
		return err
	}
	return c.showClosing(s, story)
}

// closingJSON is what close --json prints.
type closingJSON struct {
	Job      string            `json:"job"`
	State    string            `json:"state"`
	Open     []string          `json:"open"`    // what a handover would leave unaccounted for
	Trailer  []string          `json:"trailer"` // why it leaves on one
	Fitted   []core.FittedPart `json:"fitted"`
	NotDone  []string          `json:"not_done"`
	Outcomes []core.Outcome    `json:"outcomes"` // by subsystem
	Account  core.Account      `json:"account"`
	Handover *core.Handover    `json:"handover"`
}

func (c *command) showClosing(s *shop, story core.Story) error {
	v := closingJSON{story.Job.Number, story.Job.State, orEmpty(story.OpenAtHandover()), orEmpty(story.ByTrailer()), story.BuildSheet(), story.NotDone(), story.Outcomes(), story.Account(), story.Handover}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	fmt.Fprintf(c.out, "%s  %s: %s\n", story.Job.Number, story.Job.Title, story.Job.State)
	section(c.out, "Leaves on a trailer", v.Trailer)
	section(c.out, "Still open", v.Open)
	if len(v.Fitted) > 0 {
		fmt.Fprintln(c.out, "\nAs fitted")
		printBuildSheet(c.out, s, v.Fitted)
	}
	section(c.out, "Not done", v.NotDone)
	c.printOutcomes(v)
	if h := v.Handover; h != nil {
		fmt.Fprintln(c.out)
		printHandover(c.out, s, *h)
		printTaught(c.out, h.Taught)
		return nil
	}
	fmt.Fprintf(c.out, "\n  %s close %s --signed NAME --old-parts returned --first-service \"500 miles: oil, nuts\"\n", c.self(), story.Job.Number)
	return nil
}

// section writes a head and its lines, or nothing.
func section(w io.Writer, head string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintln(w, "\n"+head)
	for _, l := range lines {
		para(w, "  ", l)
	}
}

func (c *command) printOutcomes(v closingJSON) {
	if len(v.Outcomes) == 0 {
		return
	}
	fmt.Fprintln(c.out, "\nAgainst what was agreed, before tax")
	t := newTable("", ">h agreed", ">h worked", ">agreed", ">labour", ">outwork", ">goods", ">in all")
	var sum core.Outcome
	agreed := int64(0)
	for _, o := range v.Outcomes {
		name := o.Subsystem
		if name == "" {
			name = "coming apart, going together"
		}
		t.add(name, spent(o.AgreedHours), spent(o.Hours), amount(o.Agreed), amount(o.Labour), amount(o.Outwork), amount(o.Goods), amount(o.Spent))
		sum.AgreedHours, sum.Hours = sum.AgreedHours+o.AgreedHours, sum.Hours+o.Hours
		agreed += core.Minor(o.Agreed)
	}
	a := v.Account
	t.add("in all", spent(sum.AgreedHours), spent(sum.Hours), amount(core.MinorMoney(agreed, a.Done.CurrencyCode())), amount(a.Labour), amount(a.Outwork), amount(a.Goods), amount(a.Done))
	t.print(c.out, "", screen)
	if core.Minor(a.Owing) != 0 || core.Minor(a.ForOthers) != 0 {
		fmt.Fprintf(c.out, "asked and not paid %s, owed to others %s\n", amount(a.Owing), amount(a.ForOthers))
	}
}

func printHandover(w io.Writer, s *shop, h core.Handover) {
	t := newTable("", "")
	t.add("handed over", s.day(h.At)+", signed by "+h.Signed)
	t.add("old parts", h.OldParts)
	t.add("first service", h.FirstService)
	if h.Stopped {
		t.add("as it stood", "the job was stopped, not finished")
	}
	if h.Trailer {
		t.add("left", "on a trailer")
	}
	if h.Told != "" {
		t.add("still open, and told", h.Told)
	}
	for i := range t.rows {
		if t.rows[i][1] == "" {
			t.rows[i][0] = ""
		}
	}
	t.print(w, "", screen)
}

// lastBuild gives the story of the last job of the same frame that was handed over before a job was opened, or nil: what was fitted then is
// where this one starts.
func (s *shop) lastBuild(ctx context.Context, job core.Job) (*core.Story, error) {
	if job.Vehicle == nil {
		return nil, nil
	}
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return nil, err
	}
	number := job.Before(jobs)
	if number == "" {
		return nil, nil
	}
	story, err := s.book.Story(ctx, number)
	return &story, err
}

// beforeJSON is what job show and arrive say of the last job of the same vehicle.
type beforeJSON struct {
	Job      string            `json:"job"`
	Handover *core.Handover    `json:"handover"`
	Fitted   []core.FittedPart `json:"fitted"`
	NotDone  []string          `json:"not_done"`
}

func asBefore(story *core.Story) *beforeJSON {
	if story == nil {
		return nil
	}
	return &beforeJSON{story.Job.Number, story.Handover, story.BuildSheet(), story.NotDone()}
}

// printLastBuild shows the last build sheet of a vehicle that has come back.
func printLastBuild(w io.Writer, s *shop, story core.Story) {
	fmt.Fprintf(w, "\nHere before as %s, %s", story.Job.Number, story.Job.Title)
	if h := story.Handover; h != nil {
		fmt.Fprintf(w, ", handed over on %s", s.day(h.At))
	}
	fmt.Fprintln(w)
	if sheet := story.BuildSheet(); len(sheet) > 0 {
		printBuildSheet(w, s, sheet)
	}
	section(w, "Not done then", story.NotDone())
}
