package core

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Stage is one of the payments that a job is parted into, and what became of it. Sums are with tax.
type Stage struct {
	Name     string    `json:"stage"`
	Percent  int       `json:"percent"` // of the agreed sum
	Sum      Money     `json:"sum"`
	Asked    Money     `json:"asked"`
	Received Money     `json:"received"`     // less what was given back
	Due      time.Time `json:"due,omitzero"` // when the oldest of it that is not paid was asked; zero: nothing is open
	Overdue  bool      `json:"overdue"`
}

// StageShare is one of the parts in which a job is paid.
type StageShare struct {
	Name    string `json:"stage"`
	Percent int    `json:"percent"` // of the agreed sum, 1 to 100
}

// usualStages hold where a job names none of its own (common practice, no source). The last takes what rounding leaves.
var usualStages = []StageShare{{"deposit", 30}, {"strip-down complete", 25}, {"rolling chassis", 25}, {"paint", 15}, {"handover", 5}}

// StageGrace is how long a stage may stay unpaid before the work stops (common practice, no source).
const StageGrace = 14 * 24 * time.Hour

// PaidIn gives the stages in which the job is paid: its own, or the usual ones.
func (j Job) PaidIn() []StageShare {
	if len(j.Stages) > 0 {
		return j.Stages
	}
	return usualStages
}

// StageNames are the names of the job's stages, in order.
func (j Job) StageNames() []string {
	var names []string
	for _, s := range j.PaidIn() {
		names = append(names, s.Name)
	}
	return names
}

// ReadStages reads the stages of a job, "deposit 40, engine in 35, on handover 25": names with whole percents that come to 100. Errors are of
// code Invalid.
func ReadStages(text string) ([]StageShare, error) {
	next := `write them like "deposit 40, engine in 35, on handover 25"`
	if blank(text) {
		return nil, Errorf(Invalid, next, "no stage is named")
	}
	var stages []StageShare
	sum := 0
	for piece := range strings.SplitSeq(text, ",") {
		piece = strings.TrimSpace(piece)
		words := strings.Fields(strings.TrimSuffix(piece, "%"))
		if len(words) < 2 {
			return nil, Errorf(Invalid, next, "%q is no stage: a name, and its percent of the agreed sum", piece)
		}
		percent, err := strconv.Atoi(words[len(words)-1])
		if err != nil || percent < 1 || percent > 100 {
			return nil, Errorf(Invalid, next, "%q is no stage: a name, and its percent of the agreed sum", piece)
		}
		name := strings.Join(words[:len(words)-1], " ")
		if slices.ContainsFunc(stages, func(s StageShare) bool { return strings.EqualFold(s.Name, name) }) {
			return nil, Errorf(Invalid, "name each once", "the stage %q is there twice", name)
		}
		stages, sum = append(stages, StageShare{name, percent}), sum+percent
	}
	if sum != 100 {
		return nil, Errorf(Invalid, "let them come to 100", "the stages come to %d %% of the agreed sum", sum)
	}
	return stages, nil
}

// AgreedOrder is what was agreed to so far: the lines of the agreed scope but for those refused, with the change notes approved since, each choice a line of
// its own. It has no lines before the main agreement.
func (s *Story) AgreedOrder() WorkOrder {
	code := s.currency()
	var o WorkOrder
	if a := s.Agreed(GateBudget); a != nil {
		if p := s.Issued(a.Paper, a.Revision); p != nil {
			for _, l := range p.Lines {
				if !slices.ContainsFunc(a.Refused, l.Concerns) {
					o.Lines = append(o.Lines, l)
				}
			}
		}
		for _, n := range s.notesSince(GateBudget) {
			o.Lines = append(o.Lines, s.noteLines(n)...)
		}
	}
	var net, tax int64
	for _, l := range o.Lines {
		net, tax = net+Minor(l.Amount), tax+Minor(l.Tax)
	}
	o.TotalBeforeTax, o.Tax, o.Total = MinorMoney(net, code), MinorMoney(tax, code), MinorMoney(net+tax, code)
	return o
}

// noteLines are the choices taken of a note that cost or save something.
func (s *Story) noteLines(n Note) []Line {
	var lines []Line
	for _, a := range n.Answered {
		p := s.Surprise(a.Surprise)
		if p == nil || a.Option < 1 || a.Option > len(p.Options) || Minor(p.Options[a.Option-1].Sum) == 0 {
			continue
		}
		o := p.Options[a.Option-1]
		lines = append(lines, Line{ID: fmt.Sprintf("change:%s/%d", p.ID, a.Option), Kind: LineWork, Subsystem: p.Subsystem, Unit: p.Unit, Name: fmt.Sprintf("%s (%s)", o.Do, n.ID),
			Amount: MinorMoney(o.net(), s.currency()), Tax: MinorMoney(Minor(o.Tax), s.currency())})
	}
	return lines
}

// Stages says what the job's stages come to of the agreed sum, and what of each was asked and paid. What was paid for no stage goes to the
// oldest that is open; asked for a stage of another name, it is a stage of its own behind them.
func (s *Story) Stages(now time.Time) []Stage {
	code, total := s.currency(), int64(0)
	for _, b := range s.Job.Bills(s.AgreedOrder(), s.Parties) { // who pays no tax is asked for none
		total += Minor(b.Total)
	}
	var out []Stage
	rest := total
	stages := s.Job.PaidIn()
	for i, st := range stages {
		share := round(float64(total) * float64(st.Percent) / 100)
		if i == len(stages)-1 {
			share = rest
		}
		rest -= share
		out = append(out, Stage{Name: st.Name, Percent: st.Percent, Sum: MinorMoney(share, code)})
	}
	out = s.otherStages(out)
	pool := s.unassigned(out)
	for i := range out {
		out[i], pool = s.fill(out[i], pool, now)
	}
	return out
}

// otherStages adds those that were asked under names of somebody's own; "" is what was asked for no stage at all.
func (s *Story) otherStages(list []Stage) []Stage {
	for _, p := range s.Payments {
		if p.Is == PayAsked && !slices.ContainsFunc(list, func(st Stage) bool { return strings.EqualFold(st.Name, p.Stage) }) {
			list = append(list, Stage{Name: p.Stage, Sum: MinorMoney(0, s.currency())})
		}
	}
	return list
}

// unassigned is the money received, less given back, for no stage of a list.
func (s *Story) unassigned(list []Stage) int64 {
	pool := int64(0)
	for _, p := range s.Payments {
		if p.Stage == "" || !slices.ContainsFunc(list, func(st Stage) bool { return strings.EqualFold(st.Name, p.Stage) }) {
			pool += p.came()
		}
	}
	return pool
}

// came is what a payment brought from payers, in minor units: below zero if it was given back.
func (p Payment) came() int64 {
	switch p.Is {
	case PayReceived:
		return Minor(p.Sum)
	case PayRefunded:
		return -Minor(p.Sum)
	}
	return 0
}

// fill sums one stage up, drawing on the pool what its own payments leave open.
func (s *Story) fill(st Stage, pool int64, now time.Time) (Stage, int64) {
	var asked, got int64
	for _, p := range s.Payments {
		if !strings.EqualFold(p.Stage, st.Name) {
			continue
		}
		if p.Is == PayAsked {
			asked += Minor(p.Sum)
		}
		if st.Name != "" {
			got += p.came()
		}
	}
	draw := min(max(asked-got, 0), max(pool, 0))
	got, pool = got+draw, pool-draw
	covered := got
	for _, p := range s.Payments {
		if p.Is != PayAsked || !strings.EqualFold(p.Stage, st.Name) {
			continue
		}
		if covered -= Minor(p.Sum); covered < 0 {
			st.Due = p.At
			break
		}
	}
	st.Asked, st.Received = MinorMoney(asked, s.currency()), MinorMoney(got, s.currency())
	st.Overdue = !st.Due.IsZero() && !now.Before(st.Due.Add(StageGrace))
	return st, pool
}

// Overdue names the payments that are.
func (s *Story) Overdue(now time.Time) []string {
	var late []string
	for _, st := range s.Stages(now) {
		if st.Overdue {
			late = append(late, strings.TrimSpace(st.Name+" payment"))
		}
	}
	return late
}
