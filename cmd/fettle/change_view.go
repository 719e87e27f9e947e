package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// changesJSON is what change --json prints of a job.
type changesJSON struct {
	Job             string          `json:"job"`
	Gathering       []core.Surprise `json:"gathering"`
	Changes         []core.Surprise `json:"changes"`
	Notes           []core.Note     `json:"notes"`
	Authorised      core.Money      `json:"authorised"`
	ContingencyLeft core.Money      `json:"contingency_left"`
	Trailer         []string        `json:"trailer"`
}

func (c *command) showChanges(s *shop, story core.Story) error {
	_, left := story.Contingency()
	v := changesJSON{story.Job.Number, orEmpty(story.Gathering()), orEmpty(story.Surprises), orEmpty(story.Notes), story.Authorised(), left, orEmpty(story.Trailer())}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	if len(v.Changes) == 0 {
		c.print("nothing was found in " + v.Job + " that the scope did not price")
		return nil
	}
	if len(v.Gathering) > 0 {
		c.print("gathering")
		for _, p := range v.Gathering {
			printSurprise(c.out, p)
		}
	}
	if len(v.Notes) > 0 {
		t := newTable("note", "about", "sent", "is", "")
		for _, n := range v.Notes {
			t.add(n.ID, strings.Join(n.Surprises, " "), s.day(n.Sent.At), n.State, answeredWords(s, n))
		}
		t.print(c.out, "", screen)
	}
	for _, left := range v.Trailer {
		para(c.out, "", trailerWords(left))
	}
	if len(v.Gathering) > 0 {
		c.print(fmt.Sprintf("\n  %s change %s --note    put what is gathering to the owner", c.self(), v.Job))
	}
	return nil
}

func trailerWords(left string) string {
	return "LEAVES ON A TRAILER: left undone, and lives hang on it: " + left
}

func answeredWords(s *shop, n core.Note) string {
	if n.Closed.At.IsZero() {
		return "waits for an answer"
	}
	words := s.day(n.Closed.At)
	for _, w := range []string{n.Who, n.How, n.Why} {
		if w != "" {
			words += ", " + w
		}
	}
	return words
}

func printSurprise(w io.Writer, p core.Surprise) {
	head := p.ID
	if p.Safety {
		head += "  SAFETY"
	}
	if p.Tag != "" {
		head += "  " + p.Tag
	}
	para(w, "", head+"  "+p.Found)
	if p.Again != "" {
		para(w, "  ", "again: "+p.Again)
	}
	if p.NotBefore != "" {
		para(w, "  ", "not before: "+p.NotBefore)
	}
	t := newTable("", ">more, with tax", "", "")
	for i, o := range p.Options {
		t.add(fmt.Sprint(i+1), signed(o.Sum), weeksMore(o.Weeks), strings.TrimSuffix(o.Do+"; "+o.Risk, "; "))
	}
	t.print(w, "  ", screen)
	if p.Withdrawn != "" {
		para(w, "  ", "dropped: "+p.Withdrawn)
	}
}

// signed writes more and less than agreed: "+420.00", "-34.00".
func signed(m core.Money) string {
	switch n := core.Minor(m); {
	case n > 0:
		return "+" + amount(m)
	case n == 0:
		return "0"
	}
	return amount(m)
}

func weeksMore(weeks float64) string {
	switch {
	case weeks <= 0:
		return "no later"
	case weeks == 1:
		return "1 week later"
	}
	return fmt.Sprintf("%.1f weeks later", weeks)
}

// noteJSON is what change --json prints of a note: what its choices do to the job.
type noteJSON struct {
	core.Note
	About   []core.Surprise `json:"changes"`
	First   *core.Effect    `json:"with_first_options,omitempty"` // while it waits for its answer
	Effect  core.Effect     `json:"stands"`                       // money as it stands, with what was chosen if it was answered
	Trailer []string        `json:"trailer"`
}

func (c *command) showNote(s *shop, story core.Story, number string) error {
	n := *story.Note(number)
	v := noteJSON{Note: n, Trailer: orEmpty(story.Trailer()), Effect: story.Would(nil)}
	var first []core.NoteAnswer
	for _, id := range n.Surprises {
		v.About = append(v.About, *story.Surprise(id))
		first = append(first, core.NoteAnswer{Surprise: id, Option: 1})
	}
	if n.State == core.NoteSent {
		would := story.Would(first)
		v.First = &would
	}
	for _, o := range n.Taken {
		v.Effect.Weeks = max(v.Effect.Weeks, o.Weeks)
	}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	printNote(c.out, s, v)
	if n.State == core.NoteSent {
		var all []string
		for _, id := range n.Surprises {
			all = append(all, id+"=1")
		}
		c.print(fmt.Sprintf("\n  %s change %s %s --answer %s --who NAME --how phone    0 is none", c.self(), story.Job.Number, n.ID, strings.Join(all, ",")))
	}
	if follow := c.following(story, n); len(follow) > 0 {
		c.print("\nthe plan follows once it is told:")
		for _, f := range follow {
			c.print("  " + f)
		}
	}
	return nil
}

// following are the commands that let the plan follow an answer: what is left is left, what is not the plan's own choice is pinned.
func (c *command) following(story core.Story, n core.Note) (commands []string) {
	for _, a := range n.Answered {
		p := story.Surprise(a.Surprise)
		if p == nil || p.Target.Part == "" {
			continue
		}
		part := core.Place{Subsystem: p.Subsystem, Unit: p.Unit, Target: p.Target}.String()
		if p.Target.Position == "" {
			part = p.Subsystem + "/" + p.Target.Part
		}
		why := fmt.Sprintf("--reason %q", n.ID+", "+n.Who)
		switch {
		case a.Option == 0 || p.Options[a.Option-1].Leaves:
			commands = append(commands, fmt.Sprintf("%s job leave %s %s %s --by %q", c.self(), story.Job.Number, part, why, n.Who))
		case p.Options[a.Option-1].Remedy != "":
			commands = append(commands, fmt.Sprintf("%s job pin %s %s %s %s", c.self(), story.Job.Number, part, p.Options[a.Option-1].Remedy, why))
		}
	}
	return commands
}

func printNote(w io.Writer, s *shop, v noteJSON) {
	fmt.Fprintf(w, "%s  %s, sent %s; %s\n", v.ID, v.State, s.day(v.Sent.At), answeredWords(s, v.Note))
	for _, p := range v.About {
		printSurprise(w, p)
		for _, a := range v.Answered {
			switch {
			case a.Surprise != p.ID:
			case a.Option == 0:
				fmt.Fprintln(w, "  answer: none of it")
			default:
				fmt.Fprintf(w, "  answer: %d, %s\n", a.Option, p.Options[a.Option-1].Do)
			}
		}
	}
	t := newTable("", ">authorised, with tax", ">contingency left, before tax", "finish")
	t.add("as it stands", amount(v.Effect.Authorised), amount(v.Effect.Contingency), weeksMore(v.Effect.Weeks))
	if v.First != nil {
		t.add("with the first of each", amount(v.First.Authorised), amount(v.First.Contingency), weeksMore(v.First.Weeks))
	}
	t.print(w, "", screen)
	for _, left := range v.Trailer {
		para(w, "", trailerWords(left))
	}
}
