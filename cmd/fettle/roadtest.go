package main

import (
	"context"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// runFlags are what may be said of a run on the command line.
type runFlags struct {
	distance, again, clear, leave, who string
	readings, snags                    []string
	safety                             bool
}

func (c *command) roadTestCommand() *cobra.Command {
	var f runFlags
	cmd := &cobra.Command{
		Use: "road-test JOB [WHAT]", Short: "First start and runs: readings, second torque, snags found, put right or left", Args: cobra.MinimumNArgs(1),
		Long: `A run over a --distance needs every safety item looked over by a second person, and nothing of safety left undone. Readings are words, a number and its
unit; words alone are kept as words. A snag stays on the list until it is put right, or left as it is on the word of one who may speak for the owner. One on which lives
hang (--safety) keeps the vehicle off the road until it is put right: left as it is, it leaves on a trailer.`,
		Example: `  fettle road-test J-001
  fettle road-test J-001 "first start" --reading "oil pressure hot 45 psi" --snag "weeps at the rear seal"
  fettle road-test J-001 --snag "pulls left under braking" --safety
  fettle road-test J-001 "round the village" --distance "20 miles" --torque-again "wheel nuts, head"
  fettle road-test J-001 --clear G-001 "seal seated again"
  fettle road-test J-001 --leave G-002 --who "Marta Wellbeck"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				return c.roadTest(cmd.Context(), s, story, strings.Join(args[1:], " "), f)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&f.distance, "distance", "", "`HOW` far it was driven: \"20 miles\"")
	fs.StringArrayVar(&f.readings, "reading", nil, "`WHAT` was read, like \"oil pressure hot 45 psi\"; may be given several times")
	fs.StringVar(&f.again, "torque-again", "", "`WHAT` was tightened a second time, parted by commas")
	fs.StringArrayVar(&f.snags, "snag", nil, "`WHAT` is wrong; may be given several times")
	fs.BoolVar(&f.safety, "safety", false, "lives hang on the snag; --snag may give the number of one that is on the list already")
	fs.StringVar(&f.clear, "clear", "", "the `NUMBER` of a snag that is put right; how stands behind it")
	fs.StringVar(&f.leave, "leave", "", "the `NUMBER` of a snag that stays as it is")
	fs.StringVar(&f.who, "who", "", "`NAME` of whose word it is that it may stay")
	cmd.MarkFlagsMutuallyExclusive("clear", "leave")
	return cmd
}

func (c *command) roadTest(ctx context.Context, s *shop, story core.Story, what string, f runFlags) error {
	acts, err := f.acts(story, what)
	if err != nil {
		return err
	}
	if len(acts) == 0 {
		return c.showRuns(s, story)
	}
	if story, err = s.book.Act(ctx, story.Job.Number, c.by(), acts...); err != nil {
		return err
	}
	return c.showRuns(s, story)
}

// acts are what was typed: a snag settled, or a run, and the snags found; none if nothing was.
func (f runFlags) acts(story core.Story, what string) ([]core.Act, error) {
	var acts []core.Act
	switch {
	case f.clear != "" || f.leave != "":
		g, err := settled(story, what, f)
		if err != nil {
			return nil, err
		}
		acts = append(acts, g)
	case what != "" || f.distance != "" || f.again != "" || len(f.readings) > 0:
		r, err := readRun(story, what, f)
		if err != nil {
			return nil, err
		}
		acts = append(acts, r)
	}
	snags, err := f.found(story)
	return append(acts, snags...), err
}

var snagNumber = regexp.MustCompile(`^(?i)G-[0-9]{3,}$`)

// found are the snags as typed: new ones, or with --safety the number of one that is on the list.
func (f runFlags) found(story core.Story) ([]core.Act, error) {
	if f.safety && len(f.snags) == 0 {
		return nil, core.Errorf(core.Invalid, "say it: --snag \"pulls left under braking\" --safety", "which snag do lives hang on?")
	}
	var acts []core.Act
	for _, w := range f.snags {
		g := core.Snag{What: w}
		if number := strings.ToUpper(strings.TrimSpace(w)); f.safety && snagNumber.MatchString(number) {
			was := story.Snag(number)
			if was == nil {
				return nil, core.Errorf(core.NotFound, "see: fettle road-test "+story.Job.Number, "%s has no snag %s", story.Job.Number, number)
			}
			g = *was
		}
		g.Safety = f.safety
		acts = append(acts, &g)
	}
	return acts, nil
}

// settled is a snag as it is put right or left.
func settled(story core.Story, how string, f runFlags) (*core.Snag, error) {
	number := strings.ToUpper(strings.TrimSpace(f.clear + f.leave))
	was := story.Snag(number)
	if was == nil {
		return nil, core.Errorf(core.NotFound, "see: fettle road-test "+story.Job.Number, "%s has no snag %s", story.Job.Number, number)
	}
	g := *was
	g.Cleared, g.Owner = strings.TrimSpace(how), f.who
	switch {
	case f.clear != "" && g.Cleared == "":
		return nil, core.Errorf(core.Invalid, "say how: --clear "+number+" \"seal seated again\"", "how was %s put right?", number)
	case f.leave != "" && f.who == "":
		return nil, core.Errorf(core.Invalid, "name them: --who NAME", "on whose word may %s stay as it is?", number)
	case f.leave != "":
		g.Cleared = ""
	default:
		g.Owner = ""
	}
	return &g, nil
}

// readRun is one run as typed. What is not said of it follows from what was read or tightened. All faults are told at once.
func readRun(story core.Story, what string, f runFlags) (*core.RoadTest, error) {
	r := &core.RoadTest{What: what, Distance: f.distance}
	var wrong faults
	for _, text := range f.readings {
		x, err := core.ReadRun(text)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		r.Readings = append(r.Readings, x)
	}
	for w := range strings.SplitSeq(f.again, ",") {
		if w = strings.TrimSpace(w); w != "" {
			r.SecondTorque = append(r.SecondTorque, w)
		}
	}
	if r.What == "" {
		switch {
		case f.distance != "":
			r.What = "run"
		case f.again != "":
			r.What = "second torque"
		case len(story.Tests) == 0:
			r.What = "first start"
		default:
			r.What = "readings"
		}
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	return r, nil
}

// runsJSON is what road-test --json prints.
type runsJSON struct {
	Job       string          `json:"job"`
	State     string          `json:"state"`
	Tests     []core.RoadTest `json:"tests"`
	Snags     []core.Snag     `json:"snags"`
	Unchecked []string        `json:"unchecked"` // safety work that no second person has looked over
	Trailer   []string        `json:"trailer"`   // why it moves on a trailer only
}

func (c *command) showRuns(s *shop, story core.Story) error {
	if c.asJSON() {
		return writeJSON(c.out, runsJSON{story.Job.Number, story.Job.State, orEmpty(story.Tests), orEmpty(story.Snags), orEmpty(story.Unchecked()), orEmpty(story.ByTrailer())})
	}
	for _, u := range story.Unchecked() {
		para(c.out, "", "NOT CHECKED by a second person: "+u)
	}
	for _, w := range story.Trailer() {
		para(c.out, "", "ON A TRAILER only, left undone: "+w)
	}
	for _, g := range story.OpenSnags() {
		if g.Safety {
			para(c.out, "", "ON A TRAILER only: unsafe as it stands, "+g.ID+": "+g.What)
		}
	}
	if len(story.Tests)+len(story.Snags) == 0 {
		c.print("Nothing was started or driven yet.\n\n  " + c.self() + " road-test " + story.Job.Number + " \"first start\" --reading \"oil pressure hot 45 psi\"")
		return nil
	}
	t := newTable("when", "run", "by", "read, and tightened again")
	for _, r := range story.Tests {
		var says []string
		for _, x := range r.Readings {
			says = append(says, x.As)
		}
		if len(r.SecondTorque) > 0 {
			says = append(says, "tightened again: "+strings.Join(r.SecondTorque, ", "))
		}
		t.add(s.day(r.At), strings.TrimSpace(r.What+" "+r.Distance), r.By, strings.Join(says, "; "))
	}
	t.print(c.out, "", screen)
	if len(story.Snags) > 0 {
		c.print("")
		t = newTable("snag", "", "what", "")
		for _, g := range story.Snags {
			safety := ""
			if g.Safety {
				safety = "SAFETY"
			}
			t.add(g.ID, safety, g.What, g.Is())
		}
		t.print(c.out, "", screen)
	}
	c.nextRun(story)
	return nil
}

// nextRun says what comes next, if that is plain.
func (c *command) nextRun(story core.Story) {
	if story.Job.State == core.StateHandedOver {
		return
	}
	if open := story.OpenSnags(); len(open) > 0 {
		c.print("\n  " + c.self() + " road-test " + story.Job.Number + " --clear " + open[0].ID + " HOW")
		if i := slices.IndexFunc(open, func(g core.Snag) bool { return !g.Safety }); i >= 0 {
			c.print("  " + c.self() + " road-test " + story.Job.Number + " --snag " + open[i].ID + " --safety    if lives hang on it")
		}
		return
	}
	if slices.ContainsFunc(story.Tests, func(r core.RoadTest) bool { return len(r.SecondTorque) > 0 }) {
		c.print("\n  " + c.self() + " close " + story.Job.Number)
	}
}
