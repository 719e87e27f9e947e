package core

import (
	"cmp"
	"slices"
)

// Tally is hours expected and taken over closed jobs, of one piece of work, one skill or one subsystem.
type Tally struct {
	Of        string   `json:"of"`                  // the piece of work, the skill or the subsystem; "": coming apart and going together
	Name      string   `json:"name,omitempty"`      // of a piece of work
	Subsystem string   `json:"subsystem,omitempty"` // of a piece of work
	Remedies  []string `json:"remedies,omitempty"`  // of a piece of work: those that called for it
	Jobs      int      `json:"jobs"`
	Lines     int      `json:"lines"`
	Likely    float64  `json:"likely"`   // hours
	Expected  float64  `json:"expected"` // hours, the three-point mean
	Hours     float64  `json:"hours"`    // as written down
	Ratio     float64  `json:"ratio"`    // hours over likely; 0 where nothing was likely
}

// TallyUp sums the hours of those closed jobs whose hours teach up by piece of work, by skill and by subsystem, each sorted by name. Hours
// stand in pieces of work, which several remedies may call for and share: a remedy has none of its own.
func TallyUp(stories []Story) (work, skills, subsystems []Tally) {
	for _, s := range stories {
		if s.Handover == nil || s.Handover.Taught == nil || s.Reckoning == nil {
			continue
		}
		if _, ok := s.Handover.Taught.Ratio(); !ok {
			continue
		}
		work = tally(work, s.Reckoning.Work, func(w WorkTaught) Tally {
			return Tally{Of: w.Work, Name: w.Name, Subsystem: w.Subsystem, Remedies: w.Remedies}
		})
		skills = tally(skills, s.Reckoning.Work, func(w WorkTaught) Tally { return Tally{Of: w.Skill} })
		subsystems = tally(subsystems, s.Reckoning.Work, func(w WorkTaught) Tally { return Tally{Of: w.Subsystem} })
	}
	for _, ts := range [][]Tally{work, skills, subsystems} {
		slices.SortFunc(ts, func(a, b Tally) int { return cmp.Compare(a.Of, b.Of) })
	}
	return work, skills, subsystems
}

// tally adds the work of one job.
func tally(ts []Tally, work []WorkTaught, as func(WorkTaught) Tally) []Tally {
	var mine []string
	for _, w := range work {
		k := as(w)
		i := slices.IndexFunc(ts, func(t Tally) bool { return t.Of == k.Of })
		if i < 0 {
			i, k.Remedies = len(ts), slices.Clone(k.Remedies)
			ts = append(ts, k)
		}
		t := &ts[i]
		t.Lines, t.Likely, t.Expected, t.Hours = t.Lines+w.Lines, t.Likely+w.Likely, t.Expected+w.Expected, t.Hours+w.Hours
		for _, r := range k.Remedies {
			t.Remedies = appendNew(t.Remedies, r)
		}
		if !slices.Contains(mine, k.Of) {
			mine, t.Jobs = append(mine, k.Of), t.Jobs+1
		}
		if t.Likely > 0 {
			t.Ratio = t.Hours / t.Likely
		}
	}
	return ts
}

// MoneyTally is money agreed and spent on one subsystem over closed jobs, before tax.
type MoneyTally struct {
	Subsystem string  `json:"subsystem"` // "": the vehicle itself, coming apart and going together
	Jobs      int     `json:"jobs"`
	Agreed    Money   `json:"agreed"`
	Spent     Money   `json:"spent"`
	Ratio     float64 `json:"ratio"` // spent over agreed; 0 where nothing was agreed
}

// MoneyTallyUp sums the outcomes of those closed jobs in one currency whose money teaches up by subsystem, sorted by name. See Outcomes.
func MoneyTallyUp(stories []Story, currency string) []MoneyTally {
	type sums struct{ agreed, spent int64 }
	var out []MoneyTally
	var by []sums
	for _, s := range stories {
		if s.Handover == nil || s.Handover.Taught == nil || s.Handover.Taught.Last == nil || s.currency() != currency {
			continue
		}
		for _, o := range s.Outcomes() {
			i := slices.IndexFunc(out, func(t MoneyTally) bool { return t.Subsystem == o.Subsystem })
			if i < 0 {
				i = len(out)
				out, by = append(out, MoneyTally{Subsystem: o.Subsystem}), append(by, sums{})
			}
			out[i].Jobs++
			by[i].agreed, by[i].spent = by[i].agreed+Minor(o.Agreed), by[i].spent+Minor(o.Spent)
		}
	}
	for i, b := range by {
		out[i].Agreed, out[i].Spent = MinorMoney(b.agreed, currency), MinorMoney(b.spent, currency)
		if b.agreed > 0 {
			out[i].Ratio = float64(b.spent) / float64(b.agreed)
		}
	}
	slices.SortFunc(out, func(a, b MoneyTally) int { return cmp.Compare(a.Subsystem, b.Subsystem) })
	return out
}
