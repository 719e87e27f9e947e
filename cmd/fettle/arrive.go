package main

import (
	"context"
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
				if !acting(cmd) {
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
	var change *core.Brief
	if given("stored") || given("ran") || given("worked") {
		change = &brief
	}
	return s.takeIn(cmd.Context(), story.Job.Number, c.by(), list, a, f.answers, change)
}

// takeIn writes down what came, with answers to the shop's own questions, each KEY=WORDS, and how it has lived where that is given.
func (s *shop) takeIn(ctx context.Context, job, by string, list core.ArrivalList, a core.Arrival, answers []string, brief *core.Brief) (core.Story, error) {
	var errs faults
	if brief != nil {
		if err := brief.CheckHistory(); err != nil {
			errs = append(errs, err)
		}
	}
	if err := answer(&a, list, answers); err != nil {
		errs = append(errs, err)
	}
	if len(errs) > 0 {
		return core.Story{}, errs
	}
	return s.book.ActTogether(ctx, job, by, store.Together{Change: store.Change{Brief: brief}}, &a)
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
