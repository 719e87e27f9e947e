package main

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// readOption reads what can be done: "do it: 420, 1 week; the old one may last", "leave it; it will leak".
func (s *shop) readOption(text string) (o core.SurpriseOption, err error) {
	said, risk, _ := strings.Cut(text, ";")
	o.Risk = strings.TrimSpace(risk)
	bad := func() error {
		return core.Errorf(core.Invalid, `write it like "do it: 420, 1 week" or "leave it; it will leak"`, "--option %q", text)
	}
	i := strings.LastIndex(said, ":")
	o.Do = strings.TrimSpace(said)
	if i >= 0 {
		o.Do = strings.TrimSpace(said[:i])
	}
	o.Leaves = strings.HasPrefix(strings.ToLower(o.Do), "leave")
	if o.Do == "" || i < 0 && !o.Leaves {
		return o, bad()
	}
	if i < 0 {
		o.Sum = core.MinorMoney(0, s.settings().Currency)
		return o, nil
	}
	sum, weeks, timed := strings.Cut(said[i+1:], ",")
	if strings.TrimSpace(sum) == "" {
		return o, bad()
	}
	if o.Sum, err = s.typedAmount("option", sum); err != nil {
		return o, err
	}
	if timed {
		count, span, _ := strings.Cut(strings.TrimSpace(weeks), " ")
		n, err := strconv.ParseFloat(count, 64)
		days := spans[strings.TrimSpace(span)]
		if err != nil || days == 0 || n < 0 || n > 500 {
			return o, bad()
		}
		o.Weeks = n * float64(days) / 7
	}
	return o, nil
}

// fromPlan fills what the plan knows of a part: where it is, what was found on it, whether lives hang on it, and what can be done.
func (c *command) fromPlan(ctx context.Context, s *shop, story core.Story, part string, p *core.Surprise) error {
	plan, err := s.plan(ctx, story.Job)
	if err != nil {
		return err
	}
	found, err := findChoices(plan, part)
	if err != nil {
		return err
	}
	var places []core.Place
	for _, ch := range found {
		if ch.Subsystem != found[0].Subsystem || ch.Unit != found[0].Unit {
			return core.Errorf(core.Invalid, "say which: "+found[0].Place.String()+", "+ch.Place.String(), "%q is in more than one place", part)
		}
		places = append(places, ch.Place)
	}
	p.Subsystem, p.Unit, p.Target = found[0].Subsystem, found[0].Unit, found[0].Target
	if len(found) > 1 {
		p.Target.Position = ""
	}
	p.Safety = p.Safety || slices.ContainsFunc(places, func(q core.Place) bool { return plan.Condition(q).SafetyCritical })
	behind := foundWords(plan, found, p)
	if strings.TrimSpace(p.NotBefore) == "" {
		p.NotBefore = story.WhyNotBefore(places, behind)
	}
	if p.Tag == "" {
		p.Tag = story.TagOf(places[0])
	}
	if len(p.Options) > 0 {
		return nil
	}
	p.Options, err = c.planned(ctx, s, story, plan, found, *p)
	return err
}

// foundWords says what was found against which limit, and gives the findings behind it.
func foundWords(plan core.Plan, found []core.Choice, p *core.Surprise) (behind []core.Finding) {
	var words []string
	for _, ch := range found {
		r := plan.Condition(ch.Place).Governing(ch)
		if r.Text == "" {
			continue
		}
		w := strings.TrimSpace(ch.PartName+" "+ch.Position) + ": " + r.Text
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
		for _, id := range r.FindingIDs {
			if !slices.Contains(p.Findings, id) {
				p.Findings = append(p.Findings, id)
			}
		}
	}
	if strings.TrimSpace(p.Found) == "" {
		p.Found = strings.Join(words, "; ")
	}
	for _, f := range plan.Findings {
		if slices.Contains(p.Findings, f.ID) {
			behind = append(behind, f)
		}
	}
	return behind
}

// planned makes the options that the plan knows: what is chosen now, the next best where the plan with it comes out, and leaving it.
func (c *command) planned(ctx context.Context, s *shop, story core.Story, plan core.Plan, found []core.Choice, p core.Surprise) ([]core.SurpriseOption, error) {
	var places []core.Place
	var names []string
	for _, ch := range found {
		if ch.Kind == core.Undecided {
			return nil, core.Errorf(core.Conflict, "look at it first, or say what can be done: --option \"do it: 420, 1 week\"", "%s is not decided yet", ch.Title())
		}
		places = append(places, ch.Place)
		if !slices.Contains(names, ch.Name) {
			names = append(names, ch.Name)
		}
	}
	aside := story.Job
	for _, q := range places {
		aside.Left = append(slices.Clone(aside.Left), core.Left{Place: q, Reason: "asked", By: c.by()})
	}
	left, err := s.plan(ctx, aside)
	if err != nil {
		left = plan // it may not be left: then it is told apart by its own lines alone
	}
	now, err := story.Shift(plan, left, places, c.clock())
	if err != nil {
		return nil, err
	}
	if core.Minor(now.Sum) == 0 && len(now.Lines) == 0 {
		return nil, core.Errorf(core.Conflict, "if there is a choice all the same, say it: --option \"do it: 420, 1 week\"", "the plan does nothing for %s beyond what is agreed", p.Target)
	}
	options := []core.SurpriseOption{{Do: strings.Join(names, "; "), Sum: now.Sum, Tax: now.Tax, Weeks: now.Weeks, Lines: now.Lines}}
	if o, ok := c.nextBest(ctx, s, story, left, found); ok {
		options = append(options, o)
	}
	less, err := story.Shift(left, left, places, c.clock())
	if err != nil {
		return nil, err
	}
	if core.Minor(less.Sum) > 0 { // a larger reserve for its neighbours is not this option's to ask for
		less.Sum, less.Tax = core.MinorMoney(0, s.settings().Currency), core.MinorMoney(0, s.settings().Currency)
	}
	return append(options, core.SurpriseOption{Do: "Leave it as it is", Sum: less.Sum, Tax: less.Tax, Leaves: true, Risk: riskOf(plan, found, p.Safety)}), nil
}

// nextBest is the runner-up of the first part that has one, priced by a plan with it pinned.
func (c *command) nextBest(ctx context.Context, s *shop, story core.Story, left core.Plan, found []core.Choice) (o core.SurpriseOption, ok bool) {
	var places []core.Place
	job := story.Job
	job.Pins = slices.Clone(job.Pins)
	for _, ch := range found {
		places = append(places, ch.Place)
		if ch.RunnerUp == nil || ch.RunnerUp.Remedy == ch.Remedy {
			continue
		}
		job.Pins = append(job.Pins, core.Pin{Place: ch.Place, Remedy: ch.RunnerUp.Remedy, Reason: "asked", By: c.by()})
		o.Do, o.Remedy = ch.RunnerUp.Name, ch.RunnerUp.Remedy
	}
	if o.Do == "" {
		return o, false
	}
	pinned, err := s.plan(ctx, job)
	if err != nil {
		return o, false // the plan does not come out with it
	}
	for _, pin := range job.Pins[len(story.Job.Pins):] {
		i := slices.IndexFunc(pinned.Choices, func(ch core.Choice) bool { return ch.Place == pin.Place })
		if i < 0 || pinned.Choices[i].Remedy != pin.Remedy {
			return o, false
		}
	}
	shift, err := story.Shift(pinned, left, places, c.clock())
	if err != nil {
		return o, false
	}
	o.Sum, o.Tax, o.Weeks, o.Lines = shift.Sum, shift.Tax, shift.Weeks, shift.Lines
	return o, true
}

// riskOf says what leaving it means.
func riskOf(plan core.Plan, found []core.Choice, safety bool) string {
	if safety {
		return "the vehicle is not fit for the road with it: it leaves on a trailer"
	}
	cond := plan.Condition(found[0].Place)
	words := "done later, it has to be got at again"
	if cond.Grade != core.GradeNone && cond.Grade != core.WithinNew {
		words = "it is " + cond.Grade.String() + "; " + words
	}
	return words
}
