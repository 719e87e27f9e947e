package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
	"github.com/fettle-tools/fettle/core/web"
)

// tagFlags are what may be said of a tag on the command line.
type tagFlags struct {
	on, number, of, word  string
	fasteners, shims      []string
	countOut              []int
	lies, state, position string
	way, sign, note       string
	mates                 []string
}

// notCounted stands for a bag beside one that is counted.
const notCounted = math.MinInt

func (c *command) tagCommand() *cobra.Command {
	var f tagFlags
	cmd := &cobra.Command{
		Use: "tag JOB [TAG]", Short: "What is off and where it lies: list the tags, make one, change one", Args: cobra.RangeArgs(1, 2),
		Long: `A tag has a number that is unique in the shop, like T-014; a part that leaves its mates has a child, T-014-03. --on says what it is:
a part as the sheets write it, a unit, or plain words. Of a tag that is there only what is given changes. Fasteners are counted into their bag, and
counted out when they go back: a short bag is told until it is settled. Nothing is thrown away without the owner's written --word.`,
		Example: `  fettle tag J-001
  fettle tag J-001 --on gearbox --lies "pallet 3" --fasteners "6 x 3/8 UNF 1 1/2 in, bag 3"
  fettle tag J-001 --of T-001 --on gearbox/layshaft-cluster --lies "rack 2, shelf 1" --shims "front: .003 .005 in"
  fettle tag J-001 T-001 --state cleaned`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				given := cmd.Flags().Changed
				if len(args) == 1 && !given("on") {
					return c.showTags(story, s.settings().Zone)
				}
				tag, err := s.tag(cmd.Context(), story, strings.Join(args[1:], ""), f, given, c.by(), fromDevice{})
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, tag)
				}
				printTags(c.out, []core.Tag{tag})
				return nil
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&f.on, "on", "", "`WHAT` it is on: a part like gearbox/case, a unit, or words")
	fs.StringVar(&f.number, "number", "", "the `NUMBER` already wired on; the next free one if left out")
	fs.StringVar(&f.of, "of", "", "the `TAG` of the assembly that it is a part of")
	fs.StringVar(&f.lies, "lies", "", "`WHERE` it lies: rack, shelf, bin")
	fs.StringVar(&f.state, "state", core.TagOff, "`WHAT` became of it: "+strings.Join(core.TagStates, ", "))
	fs.StringVar(&f.position, "position", "", "`WHERE` it belongs, and which side")
	fs.StringVar(&f.way, "way", "", "which `WAY` round it goes")
	fs.StringSliceVar(&f.mates, "mates", nil, "the `TAGS` it was mated with")
	fs.StringArrayVar(&f.fasteners, "fasteners", nil, "one joint's `BAG`, like \"6 x 3/8 UNF 1 1/2 in, bag 3\"; may be given several times")
	fs.IntSliceVar(&f.countOut, "count-out", nil, "how `MANY` of each bag went back, in the order of the bags")
	fs.StringArrayVar(&f.shims, "shims", nil, "a `PACK` in its order from the outside, like \"outer: .003 .005 in\"; may be given several times")
	fs.StringVar(&f.sign, "sign", "", "`WHAT` a thicker pack does, in words")
	fs.StringVar(&f.word, "word", "", "the owner's written `WORD` for what is scrapped or goes back")
	fs.StringVar(&f.note, "note", "", "`WHAT` else is to be known")
	return cmd
}

// fromDevice is how what is said of a tag came from a device. Of a command it is nothing: who types it has the tag before their eyes.
type fromDevice struct {
	batch string            // an id of it that was made there
	seen  map[string]string // its fields as they were seen there
	at    time.Time         // when it was typed
}

// tag makes a tag, or changes the one with a number, in the fields that are given.
func (s *shop) tag(ctx context.Context, story core.Story, number string, f tagFlags, given func(string) bool, by string, sent fromDevice) (core.Tag, error) {
	tag, err := f.begin(story, number)
	if err != nil {
		return tag, err
	}
	was := tag
	if err := f.change(given, &tag); err != nil {
		return tag, err
	}
	if number != "" {
		if err := s.compare(ctx, story.Job.Number, was, &tag, given, by, sent); err != nil {
			return tag, err
		}
	}
	after, err := s.book.ActTogether(ctx, story.Job.Number, by, store.Together{Batch: sent.batch}, &tag)
	if err != nil {
		return tag, err
	}
	return *after.Tag(tag.ID), nil
}

// compare keeps both words where somebody else changed a field of a tag since it was seen; in a field that stood as it was seen, what is written now settles
// what differed.
func (s *shop) compare(ctx context.Context, job string, was core.Tag, now *core.Tag, given func(string) bool, by string, sent fromDevice) error {
	stood, stands := web.TagTexts(was), web.TagTexts(*now)
	for _, field := range slices.Sorted(maps.Keys(stands)) {
		text := stands[field]
		flag := field
		if field == "what" {
			flag = "on"
		}
		if !given(flag) {
			continue
		}
		if seen, known := sent.seen[field]; !known || seen == stood[field] {
			now.Settle(field)
			continue
		}
		if text == stood[field] {
			continue // both wrote the same
		}
		before, err := s.wrote(ctx, job, was, field)
		if err != nil {
			return err
		}
		now.Differ(before, core.TagWord{Field: field, Text: text, Stamp: core.Stamp{By: by, At: sent.at}})
	}
	return nil
}

// wrote finds who wrote what stands in a field of a tag, and when.
func (s *shop) wrote(ctx context.Context, job string, t core.Tag, field string) (core.TagWord, error) {
	w := core.TagWord{Field: field, Text: web.TagTexts(t)[field], Stamp: t.Stamp}
	es, err := s.book.Entries(ctx, job)
	if err != nil {
		return w, err
	}
	last := ""
	for _, e := range es {
		if e.Kind != t.Kind() {
			continue
		}
		var then core.Tag
		if err := json.Unmarshal(e.Body, &then); err != nil {
			return w, err
		}
		if then.ID != t.ID {
			continue
		}
		if text := web.TagTexts(then)[field]; text != last && text == w.Text {
			w.Stamp = core.Stamp{By: e.By, At: e.At}
		}
		last = web.TagTexts(then)[field]
	}
	return w, nil
}

// begin gives the tag named as it stands, or a new one.
func (f *tagFlags) begin(story core.Story, number string) (core.Tag, error) {
	if number != "" {
		t := story.Tag(number)
		if t == nil {
			return core.Tag{}, core.Errorf(core.NotFound, "see: fettle tag "+story.Job.Number, "%s has no tag %s", story.Job.Number, number)
		}
		return *t, nil
	}
	t := core.Tag{ID: f.number, State: f.state}
	if f.of != "" {
		if story.Tag(f.of) == nil {
			return t, core.Errorf(core.NotFound, "see: fettle tag "+story.Job.Number, "%s has no tag %s", story.Job.Number, f.of)
		}
		t.ID = nextChild(story.Tags, f.of)
	}
	return t, nil
}

// nextChild is the number after the highest child of a tag.
func nextChild(tags []core.Tag, parent string) string {
	last := 0
	for _, t := range tags {
		var n int
		if _, err := fmt.Sscanf(strings.TrimPrefix(t.ID, parent+"-"), "%d", &n); err == nil && t.Parent() == parent {
			last = max(last, n)
		}
	}
	return fmt.Sprintf("%s-%02d", parent, last+1)
}

// change lays what was given over a tag.
func (f *tagFlags) change(given func(string) bool, t *core.Tag) error {
	if given("on") {
		f.put(t)
	}
	put(given("state"), &t.State, f.state)
	put(given("lies"), &t.Lies, f.lies)
	put(given("position"), &t.Position, f.position)
	put(given("way"), &t.WayRound, f.way)
	put(given("mates"), &t.Mates, f.mates)
	put(given("sign"), &t.ShimSign, f.sign)
	put(given("word"), &t.Word, f.word)
	put(given("note"), &t.Note, f.note)
	if given("fasteners") {
		was := t.Fasteners
		t.Fasteners = nil
		for _, text := range f.fasteners {
			b, err := core.ParseFasteners(text)
			if err != nil {
				return err
			}
			for _, old := range was { // a bag that is written as it was keeps its count
				out := old.Out
				if old.Out = nil; old == b {
					b.Out = out
					break
				}
			}
			t.Fasteners = append(t.Fasteners, b)
		}
	}
	if given("shims") {
		t.Shims = nil
		for _, text := range f.shims {
			s, err := core.ParseShims(text)
			if err != nil {
				return err
			}
			t.Shims = append(t.Shims, s...)
		}
	}
	if given("count-out") {
		if len(f.countOut) != len(t.Fasteners) {
			return core.Errorf(core.Invalid, "count each bag, parted by commas", "%s has %d bags, and %d counts are given", t.ID, len(t.Fasteners), len(f.countOut))
		}
		t.Fasteners = slices.Clone(t.Fasteners)
		for i, n := range f.countOut {
			if n != notCounted {
				t.Fasteners[i].Out = &n
			}
		}
	}
	return nil
}

// put says what the tag is on: subsystem[@unit]/part[/position], or words.
func (f *tagFlags) put(t *core.Tag) {
	t.What = f.on
	head, rest, part := strings.Cut(f.on, "/")
	if strings.ContainsAny(f.on, " ,") || !part {
		return
	}
	t.Subsystem, t.Unit, _ = strings.Cut(head, "@")
	t.Target.Part, t.Target.Position, _ = strings.Cut(rest, "/")
	t.What = strings.ReplaceAll(strings.TrimSpace(t.Target.Part+" "+t.Target.Position), "-", " ")
}

func (c *command) showTags(story core.Story, zone *time.Location) error {
	if c.asJSON() {
		return writeJSON(c.out, struct {
			Tags  []core.Tag `json:"tags"`
			Short []string   `json:"short"`
		}{orEmpty(story.Tags), orEmpty(story.Shortages())})
	}
	if len(story.Tags) == 0 {
		c.print("Nothing is tagged yet.\n\n  " + c.self() + " tag " + story.Job.Number + " --on gearbox --lies \"pallet 3\"")
		return nil
	}
	tags := slices.Clone(story.Tags)
	slices.SortStableFunc(tags, func(a, b core.Tag) int { return strings.Compare(a.ID, b.ID) })
	printTags(c.out, tags)
	for _, s := range story.Shortages() {
		c.print("SHORT  " + s)
	}
	for _, t := range tags {
		for _, w := range t.Differing {
			c.print("DIFFERS  " + t.ID + " " + w.Field + ": \"" + strings.ReplaceAll(w.Text, "\n", "; ") + "\" by " + w.By + ", " + w.At.In(zone).Format("2006-01-02 15:04"))
		}
	}
	return nil
}

// printTags writes one tag a line, children under their assembly, with what goes with each.
func printTags(w io.Writer, tags []core.Tag) {
	t := newTable("tag", "what", "is", "lies", "with it")
	for _, g := range tags {
		indent := strings.Repeat("  ", max(0, strings.Count(g.ID, "-")-1))
		what := strings.Join(strings.Fields(strings.Join([]string{g.What, g.Position, g.WayRound}, " ")), " ")
		t.add(indent+g.ID, what, g.State, g.Lies, withIt(g))
	}
	t.print(w, "", screen)
}

func withIt(g core.Tag) string {
	var with []string
	for _, f := range g.Fasteners {
		with = append(with, f.String())
	}
	if len(g.Shims) > 0 {
		var shims []string
		for _, s := range g.Shims {
			shims = append(shims, strings.TrimSpace(s.Side+" "+s.Thickness.String()))
		}
		with = append(with, "shims "+strings.Join(shims, ", "))
	}
	if len(g.Mates) > 0 {
		with = append(with, "mated with "+strings.Join(g.Mates, ", "))
	}
	if g.Word != "" {
		with = append(with, g.Word)
	}
	return strings.Join(with, "; ")
}
