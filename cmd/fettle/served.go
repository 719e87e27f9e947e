package main

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// served is what outwork or a purchase is for: lines of the order by their ids, and those of them that the plan has, whole.
type served struct {
	ids   []string
	lines []core.Line
}

func (v *served) add(l core.Line) {
	if !slices.Contains(v.ids, l.ID) {
		v.ids, v.lines = append(v.ids, l.ID), append(v.lines, l)
	}
}

// names are the lines in words, or their ids where the plan has no words.
func (v served) names() string {
	var words []string
	for _, id := range v.ids {
		if i := slices.IndexFunc(v.lines, func(l core.Line) bool { return l.ID == id }); i >= 0 {
			words = append(words, v.lines[i].Name)
		}
	}
	return strings.Join(words, "; ")
}

var changeNumber = regexp.MustCompile(`^[Cc]-[0-9]{3,}$`)

// withOrder opens the shop and reads a job's story, and its plan unless nothing but changes is asked for.
func (c *command) withOrder(ctx context.Context, number string, typed []string, f func(*shop, core.Story, core.Plan) error) error {
	return c.withStory(ctx, number, func(s *shop, story core.Story) error {
		p := core.Plan{Job: story.Job}
		if len(typed) == 0 || slices.ContainsFunc(typed, func(t string) bool { return !changeNumber.MatchString(t) }) {
			var err error
			if p, err = s.plan(ctx, story.Job); err != nil {
				return err
			}
		}
		return f(s, story, p)
	})
}

// serve finds the lines that are meant: by a part, a line's id, or a change that was approved. One finds the lines of parts.
func serve(story core.Story, p core.Plan, typed []string, one func([]core.Place) ([]core.Line, error)) (v served, err error) {
	for _, t := range typed {
		t = strings.TrimSpace(t)
		if changeNumber.MatchString(t) {
			if err := v.change(story, p, strings.ToUpper(t)); err != nil {
				return v, err
			}
			continue
		}
		if i := slices.IndexFunc(p.WorkOrder.Lines, func(l core.Line) bool { return l.ID == t }); i >= 0 {
			if err := p.Waits(p.WorkOrder.Lines[i]); err != nil {
				return v, err
			}
			v.add(p.WorkOrder.Lines[i])
			continue
		}
		found, err := findChoices(p, t)
		if err != nil {
			return v, err
		}
		var places []core.Place
		for _, ch := range found {
			places = append(places, ch.Place)
		}
		lines, err := one(places)
		if err != nil {
			return v, err
		}
		for _, l := range lines {
			v.add(l)
		}
	}
	return v, nil
}

// change adds the lines of the option that was approved for a surprise.
func (v *served) change(story core.Story, p core.Plan, number string) error {
	taken, err := story.Taken(number)
	if err != nil {
		return err
	}
	for _, id := range taken.Lines {
		if i := slices.IndexFunc(p.WorkOrder.Lines, func(l core.Line) bool { return l.ID == id }); i >= 0 {
			v.add(p.WorkOrder.Lines[i])
		} else {
			v.add(core.Line{ID: id, Kind: core.LineWork, Name: fmt.Sprintf("%s (%s)", taken.Do, number)})
		}
	}
	return nil
}
