package core

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// Yard is all jobs at once that are not handed over: what waits for whom, what is out, what lies where.
type Yard struct {
	Jobs        []YardJob   `json:"jobs"` // late ones first, then the longest in its state
	Out         []YardOut   `json:"out"`  // outwork and goods on order, late ones first
	Places      []YardPlace `json:"places"`
	HoursAgreed float64     `json:"hours_agreed"`
	HoursLeft   float64     `json:"hours_left"`
	HoursWeek   float64     `json:"hours_week"` // for all jobs together; 0: the settings do not say
}

// YardJob is how a job stands in the yard.
type YardJob struct {
	Job    string    `json:"job"`
	Title  string    `json:"title"`
	Owner  string    `json:"owner"`
	State  string    `json:"state"`
	Since  time.Time `json:"since"`
	Waits  []string  `json:"waits_for"`
	Late   []string  `json:"late"`
	Agreed float64   `json:"hours_agreed"` // of the agreed scope; 0: nothing agreed
	Hours  float64   `json:"hours"`        // worked
	Left   float64   `json:"hours_left"`
}

// YardOut is outwork that is not back, or goods that are not here.
type YardOut struct {
	Number string    `json:"number"`
	Job    string    `json:"job"`
	What   string    `json:"what"`
	Who    string    `json:"who"`
	Due    time.Time `json:"due,omitzero"`
	Late   bool      `json:"late"`
	Price  Money     `json:"price"`
}

// YardPlace is a rack, a shelf or a bin with what lies there.
type YardPlace struct {
	Place string   `json:"place"`
	Tags  int      `json:"tags"`
	Jobs  []string `json:"jobs"`
}

// YardOf looks at every job that is not handed over. Weekly is how many hours a week there are for all of them; 0 if that is not said.
func YardOf(stories []Story, weekly float64, now time.Time) Yard {
	y := Yard{Jobs: []YardJob{}, Out: []YardOut{}, Places: []YardPlace{}, HoursWeek: weekly}
	for i := range stories {
		story := &stories[i]
		if story.Job.State == StateHandedOver {
			continue
		}
		out := outOf(story, now)
		y.Out = append(y.Out, out...)
		j := yardJobOf(story, out, now)
		y.Jobs = append(y.Jobs, j)
		y.HoursAgreed, y.HoursLeft = y.HoursAgreed+j.Agreed, y.HoursLeft+j.Left
		y.occupy(story)
	}
	slices.SortStableFunc(y.Jobs, func(a, b YardJob) int {
		return cmp.Or(cmp.Compare(min(1, len(b.Late)), min(1, len(a.Late))), a.Since.Compare(b.Since))
	})
	slices.SortStableFunc(y.Out, func(a, b YardOut) int {
		switch {
		case a.Late != b.Late:
			if a.Late {
				return -1
			}
			return 1
		case a.Due.IsZero() != b.Due.IsZero(): // what nobody promised for a day comes last
			if b.Due.IsZero() {
				return -1
			}
			return 1
		}
		return a.Due.Compare(b.Due)
	})
	slices.SortStableFunc(y.Places, func(a, b YardPlace) int { return strings.Compare(a.Place, b.Place) })
	return y
}

// yardJobOf sums a job up.
func yardJobOf(s *Story, out []YardOut, now time.Time) YardJob {
	j := YardJob{Job: s.Job.Number, Title: s.Job.Title, Owner: s.Job.Owner.Name, State: s.Job.State, Since: s.Job.Opened, Waits: append([]string{}, s.Waits()...), Late: append([]string{}, s.Overdue(now)...)}
	if n := len(s.Moves); n > 0 {
		j.Since = s.Moves[n-1].At
	}
	for _, o := range out {
		if o.Late {
			j.Late = append(j.Late, o.Number)
		}
	}
	for _, w := range s.Hours {
		j.Hours += w.Hours
	}
	j.Agreed, j.Left = s.HoursAgreed(), s.HoursLeft()
	return j
}

// outOf lists a job's outwork that is not back and goods that are not here.
func outOf(s *Story, now time.Time) []YardOut {
	var out []YardOut
	for _, o := range s.Outwork {
		if o.State == OutworkOut {
			out = append(out, YardOut{o.ID, s.Job.Number, o.Work, o.To, o.Due, o.Late(now), o.Price})
		}
	}
	for _, p := range s.Purchases {
		if p.State == PurchaseOrdered {
			out = append(out, YardOut{p.ID, s.Job.Number, cmp.Or(p.What, p.Item), p.From, p.Due, p.Late(now), p.Price})
		}
	}
	return out
}

// occupy adds where a job's things lie.
func (y *Yard) occupy(s *Story) {
	for _, g := range s.Tags {
		if g.Lies == "" || g.State == TagOut || !g.Apart() {
			continue
		}
		i := slices.IndexFunc(y.Places, func(p YardPlace) bool { return strings.EqualFold(p.Place, g.Lies) })
		if i < 0 {
			i = len(y.Places)
			y.Places = append(y.Places, YardPlace{Place: g.Lies})
		}
		p := &y.Places[i]
		p.Tags++
		if !slices.Contains(p.Jobs, s.Job.Number) {
			p.Jobs = append(p.Jobs, s.Job.Number)
		}
	}
}
