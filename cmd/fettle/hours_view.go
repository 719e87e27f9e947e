package main

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// hoursJSON is what hours --json prints.
type hoursJSON struct {
	Job      string             `json:"job"`
	Tasks    []core.TaskHours   `json:"tasks"`
	People   []core.PersonHours `json:"people"`
	Timers   []timerJSON        `json:"timers"`
	Hours    float64            `json:"hours"`
	Expected float64            `json:"expected"` // likely hours of all the issued scope's lines; 0: none is issued
}

type timerJSON struct {
	Who   string    `json:"who"`
	Task  string    `json:"task"`
	Since time.Time `json:"since"`
	Hours float64   `json:"hours"` // so far
}

func (c *command) showHours(ctx context.Context, s *shop, story core.Story) error {
	expected, total, err := s.expectedHours(ctx, story)
	if err != nil {
		return err
	}
	v := hoursJSON{Job: story.Job.Number, Tasks: orEmpty(story.TaskHours(expected)), People: []core.PersonHours{}, Timers: []timerJSON{}, Expected: total}
	for _, w := range story.Hours {
		v.Hours += w.Hours
		i := slices.IndexFunc(v.People, func(p core.PersonHours) bool { return strings.EqualFold(p.Who, w.Who) })
		if i < 0 {
			i = len(v.People)
			v.People = append(v.People, core.PersonHours{Who: w.Who})
		}
		v.People[i].Hours += w.Hours
	}
	for _, t := range story.Timers {
		v.Timers = append(v.Timers, timerJSON{t.Who, t.Task, t.At, c.clock().Sub(t.At).Hours()})
	}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	c.printHours(s, v)
	return nil
}

// expectedHours says what a task was to take: its line on the scope issued last, else the strip plan's step.
func (s *shop) expectedHours(ctx context.Context, story core.Story) (of func(task, line string) *core.Range3, total float64, err error) {
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return nil, 0, err
	}
	known := map[string]core.Range3{} // by line, by step, by step's name
	for _, t := range core.StripSteps(req, nil, story) {
		known[t.Key], known[taskOf(t)] = t.StripHours, t.StripHours
	}
	if p := story.LastScope(); p != nil {
		for _, l := range p.Lines {
			if l.Hours == (core.Range3{}) {
				continue
			}
			known[l.ID] = l.Hours
			if key, strip := strings.CutPrefix(l.ID, string(core.LineStrip)+":"); strip {
				known[key], known[strings.TrimPrefix(l.Name, "Strip: ")] = l.Hours, l.Hours
			}
			if l.Kind != core.LineReserve {
				total += l.Hours.Likely
			}
		}
	}
	return func(task, line string) *core.Range3 {
		if line == "" {
			line = task
		}
		if r, ok := known[line]; ok {
			return &r
		}
		return nil
	}, total, nil
}

// spent writes hours to a hundredth.
func spent(h float64) string { return core.FormatNumber(math.Round(h*100) / 100) }

func (c *command) printHours(s *shop, v hoursJSON) {
	if len(v.Tasks) == 0 && len(v.Timers) == 0 {
		c.print("No hours are written down yet.\n\n  " + c.self() + " hours " + v.Job + " TASK 1.5 --who NAME")
		return
	}
	t := newTable(">hours", ">likely", ">labour", "task, and who")
	for _, x := range v.Tasks {
		likely, labour := "", ""
		if x.Expected != nil {
			likely = hoursShown(x.Expected.Likely)
		}
		if core.Minor(x.Labour) != 0 {
			labour = amount(x.Labour)
		}
		var who []string
		for _, p := range x.People {
			who = append(who, p.Who+" "+spent(p.Hours))
		}
		t.add(spent(x.Hours), likely, labour, x.Task+": "+strings.Join(who, ", "))
	}
	t.print(c.out, "", screen)
	var people []string
	for _, p := range v.People {
		people = append(people, p.Who+" "+spent(p.Hours))
	}
	words := spent(v.Hours) + " h in all"
	if v.Expected > 0 {
		words += fmt.Sprintf(", of %s likely on the issued scope", hoursShown(v.Expected))
	}
	if len(people) > 0 {
		fmt.Fprintln(c.out)
		para(c.out, "", words+": "+strings.Join(people, ", "))
	}
	for _, x := range v.Timers {
		para(c.out, "", fmt.Sprintf("RUNNING  %s on %s since %s", x.Who, x.Task, x.Since.In(s.settings().Zone).Format("2 January 15:04")))
	}
}
