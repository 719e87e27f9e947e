package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// storyPaper is one sort of paper that is made from what happened to a job.
type storyPaper struct {
	kind    string // as typed, and in the file's name
	title   string // as kept in the book
	mark    string // stands in its number; "" for one that bears the number of what it is about
	about   func(core.Story) []string
	planned bool // it needs the plan
	weighed bool // it needs what more money buys
	make    func(in paper.StoryInput, number string) (paper.Document, error)
}

// whole makes a paper that is about the whole job.
func whole(make func(paper.StoryInput) paper.Document) func(paper.StoryInput, string) (paper.Document, error) {
	return func(in paper.StoryInput, _ string) (paper.Document, error) { return make(in), nil }
}

// storyPapers are all of them, in the order of a job.
var storyPapers = []storyPaper{
	{kind: "arrival", title: "arrival receipt", mark: "A", make: whole(paper.Arrival)},
	{kind: "strip-authority", title: "strip authority", mark: "D", planned: true, make: whole(paper.StripAuthority)},
	{kind: "weighing", title: "what more money buys", mark: "W", weighed: true, make: whole(paper.Weighing)},
	{kind: "labels", title: "labels", mark: "L", make: paper.Labels},
	{kind: "outwork", title: "outwork ticket", about: func(s core.Story) []string { return numbers(s.Outwork, func(o core.Outwork) string { return o.ID }) }, make: paper.OutworkTicket},
	{kind: "buying", title: "buying list", mark: "B", planned: true, make: whole(paper.BuyingList)},
	{kind: "change-note", title: "change note", about: func(s core.Story) []string { return numbers(s.Notes, func(n core.Note) string { return n.ID }) }, make: paper.ChangeNote},
	{kind: "statement", title: "progress statement", mark: "P", make: whole(paper.Statement)},
	{kind: "build-sheet", title: "build sheet", mark: "F", make: whole(paper.BuildSheet)},
	{kind: "handover", title: "handover", mark: "H", planned: true, make: whole(paper.Handover)},
	{kind: "stopped", title: "stopped-job statement", mark: "X", make: whole(paper.Stopped)},
}

func numbers[T any](list []T, number func(T) string) []string {
	var out []string
	for _, x := range list {
		out = append(out, number(x))
	}
	return out
}

func paperKinds() string {
	return strings.Join(numbers(storyPapers, func(k storyPaper) string { return k.kind }), ", ")
}

func (c *command) storyPaperCommand() *cobra.Command {
	var out string
	var issue bool
	cmd := &cobra.Command{
		Use: "paper JOB KIND [NUMBER]", Short: "Write a paper of the job's story: receipt, labels, ticket, list, note, statement, handover", Args: cobra.RangeArgs(2, 3),
		Long: fmt.Sprintf(`KIND is one of: %s. An outwork ticket or a change note is about a number, like O-001 or N-001, and labels may be of one tag. Written as PDF and
HTML into the shop's papers folder, a draft until it is issued: an issued paper is numbered, kept as it is with what it was made from, and never changes. Issuing a
paper changes nothing else.`, paperKinds()),
		Example: `  fettle paper J-001 arrival
  fettle paper J-001 labels T-014
  fettle paper J-001 outwork O-001 --issue
  fettle paper J-001 handover --out handover`,
		RunE: func(cmd *cobra.Command, args []string) error {
			i := slices.IndexFunc(storyPapers, func(k storyPaper) bool { return k.kind == strings.ToLower(args[1]) })
			if i < 0 {
				return core.Errorf(core.Invalid, "use one of: "+paperKinds(), "%q is no kind of paper", args[1])
			}
			number := ""
			if len(args) > 2 {
				number = strings.ToUpper(args[2])
			}
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				w, err := s.writeStory(cmd.Context(), storyPapers[i], story, number, out, issue)
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, w)
				}
				for _, f := range w.Files {
					c.print(f)
				}
				if !issue {
					c.print(fmt.Sprintf("\n  a draft; when it is right: %s paper %s --issue", c.self(), strings.Join(args, " ")))
				}
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "`PATH` to write it to, without an ending; the shop's papers folder if left out")
	cmd.Flags().BoolVar(&issue, "issue", false, "number it and keep it as issued")
	return cmd
}

// writeStory prints a paper of a job's story in both media, and keeps it in the book if it is issued.
func (s *shop) writeStory(ctx context.Context, k storyPaper, story core.Story, number, out string, issue bool) (written, error) {
	m, err := s.makeStory(ctx, k, story, number, issue, nil)
	if err != nil {
		return m.written, err
	}
	m.Files, err = s.put(ctx, m, s.c.by(), out)
	return m.written, err
}

// makeStory prints a paper of a job's story in both media.
func (s *shop) makeStory(ctx context.Context, k storyPaper, story core.Story, number string, issue bool, told teller) (printed, error) {
	number, err := k.names(story, number)
	if err != nil {
		return printed{}, err
	}
	job, mark := story.Job.Number, k.mark
	m := printed{written: written{Issued: issue}, job: job, title: k.title, name: job + "-" + k.kind}
	if mark == "" {
		mark = number
	} else if number != "" {
		mark += "-" + number
	}
	if number != "" {
		m.name += "-" + number
	}
	m.Number = job + "-" + mark
	if m.Revision, err = s.book.NextRevision(ctx, m.Number); err != nil {
		return m, err
	}
	in, err := s.storyInput(ctx, k, story, m.written)
	if err != nil {
		return m, err
	}
	doc, err := k.make(in, number)
	if err != nil {
		return m, err
	}
	m.from = func(time.Time) (json.RawMessage, error) { return s.storyInputs(k, in) }
	return m, m.print(doc, told)
}

// names gives the number that a paper is about: as typed, or the only one there is.
func (k storyPaper) names(story core.Story, number string) (string, error) {
	if k.about == nil {
		if number != "" && k.kind != "labels" {
			return "", core.Errorf(core.Invalid, "leave it out", "the %s is about the whole job, not about %s", k.title, number)
		}
		return number, nil
	}
	there := k.about(story)
	switch {
	case number != "":
		return number, nil
	case len(there) == 0:
		return "", core.Errorf(core.NotFound, "see: fettle state "+story.Job.Number, "%s has nothing that a %s could be about", story.Job.Number, k.title)
	case len(there) > 1:
		return "", core.Errorf(core.Invalid, "name one of: "+strings.Join(there, ", "), "which %s is meant?", k.title)
	}
	return there[0], nil
}

// storyInput gathers what a paper is made from.
func (s *shop) storyInput(ctx context.Context, k storyPaper, story core.Story, w written) (paper.StoryInput, error) {
	in := paper.StoryInput{Story: story, Shop: s.letterhead(), Number: w.Number, Revision: w.spoken(), Replaces: w.replaces(), Date: s.c.clock(), Zone: s.settings().Zone}
	photos, err := s.book.Photos(ctx, story.Job.Number)
	if err != nil {
		return in, err
	}
	for _, p := range photos {
		in.Photos = append(in.Photos, p.Title)
	}
	if in.Views, err = s.arrivalList(); err != nil {
		return in, err
	}
	if in.Steps, err = s.stripPlan(); err != nil || !k.planned && !k.weighed {
		return in, err
	}
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return in, err
	}
	if k.weighed {
		in.Weighing, err = s.planner().Weigh(ctx, req)
		return in, err
	}
	in.Plan, err = s.planner().Plan(ctx, req)
	return in, err
}

// storyInputs are what a paper was made from: the story, and the order if it needed the plan.
func (s *shop) storyInputs(k storyPaper, in paper.StoryInput) (json.RawMessage, error) {
	settings, err := json.Marshal(s.settings())
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(settings)
	from := struct {
		Version  string          `json:"version"`
		Settings string          `json:"settings_sha256"`
		Story    core.Story      `json:"story"`
		Photos   []string        `json:"photos"`
		Order    *core.WorkOrder `json:"work_order,omitempty"`
		Budget   *core.Budget    `json:"first_budget,omitempty"`
	}{Version: version, Settings: hex.EncodeToString(sum[:]), Story: in.Story, Photos: orEmpty(in.Photos)}
	if k.planned {
		from.Order, from.Budget = &in.Plan.WorkOrder, &in.Plan.Budget
	}
	from.Story.Papers = nil // each is kept with its own
	return json.Marshal(from)
}

// paperNumbers offers what a paper of the kind named may be about.
func paperNumbers(ctx context.Context, s *shop, args []string) []string {
	if len(args) < 2 {
		return nil
	}
	if args[1] == "labels" {
		return tagNumbers(ctx, s, args)
	}
	i := slices.IndexFunc(storyPapers, func(k storyPaper) bool { return k.kind == args[1] && k.about != nil })
	story, err := s.book.Story(ctx, args[0])
	if i < 0 || err != nil {
		return nil
	}
	return storyPapers[i].about(story)
}
