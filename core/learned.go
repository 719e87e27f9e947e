package core

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Learned is what a shop's closed jobs have taught of its labour and of its registers. The zero value has taught nothing.
type Learned struct {
	Ratio *RatioLearned `json:"labour_ratio,omitempty"` // nil: no job was closed
	Rows  []RowLearned  `json:"rows,omitempty"`         // sorted by subsystem and id
}

// RatioLearned is the labour ratio, actual over expected hours, of a job to come: log-normal.
type RatioLearned struct {
	Median float64 `json:"median"`
	SD     float64 `json:"sd"`   // of the logarithm
	Jobs   int     `json:"jobs"` // closed jobs that taught it
	None   int     `json:"none"` // closed jobs whose hours teach nothing
}

// RowLearned counts a row of a register over closed jobs.
type RowLearned struct {
	Subsystem string `json:"subsystem"`
	Row       string `json:"row"`
	Seen      int    `json:"seen"`     // units on which it was settled
	Happened  int    `json:"happened"` // of those
	Jobs      int    `json:"jobs"`     // that those units were of
}

// Closed is a job that was handed over, with what it taught; nil: it was handed over before that was kept, and teaches nothing.
type Closed struct {
	Job    string    `json:"job"`
	At     time.Time `json:"at"`
	Taught *Taught   `json:"taught"`
}

// Learn sums up what closed jobs have taught others than the one named: no job teaches itself.
func Learn(closed []Closed, except string) Learned {
	var l Learned
	var logs []float64
	none := 0
	type key struct{ subsystem, row string }
	at := map[key]int{} // looked up only
	for _, c := range closed {
		if c.Job == except {
			continue
		}
		ratio, ok := 0.0, false
		if c.Taught != nil {
			ratio, ok = c.Taught.Ratio()
		}
		if ok {
			logs = append(logs, math.Log(ratio))
		} else {
			none++
		}
		if c.Taught == nil {
			continue
		}
		mine := map[key]bool{}
		for _, u := range c.Taught.Rows {
			for _, id := range u.Seen {
				k := key{u.Subsystem, id}
				i, ok := at[k]
				if !ok {
					i = len(l.Rows)
					at[k], l.Rows = i, append(l.Rows, RowLearned{Subsystem: u.Subsystem, Row: id})
				}
				r := &l.Rows[i]
				r.Seen++
				if slices.Contains(u.Happened, id) {
					r.Happened++
				}
				if !mine[k] {
					mine[k] = true
					r.Jobs++
				}
			}
		}
	}
	slices.SortFunc(l.Rows, func(a, b RowLearned) int {
		return cmp.Or(cmp.Compare(a.Subsystem, b.Subsystem), cmp.Compare(a.Row, b.Row))
	})
	if len(logs)+none > 0 {
		l.Ratio = &RatioLearned{Jobs: len(logs), None: none}
		l.Ratio.Median, l.Ratio.SD = learnRatio(logs)
	}
	return l
}

// learnRatio gives the median of the labour ratio and the sd of its logarithm from those of closed jobs. The prior is the model's: median 1, sd
// .15, worth 4 jobs. The logarithm is normal with mean and variance unknown, conjugate (normal and scaled inverse chi-squared: Gelman et al.,
// Bayesian Data Analysis, 3rd edition, 3.3). What is drawn is the ratio of one more job, so the sd is the predictive scale; the prior's own scale
// is such that without a job that is the model's .15. The prediction's t distribution is taken as normal, as the model says.
func learnRatio(logs []float64) (median, sd float64) {
	n := float64(len(logs))
	if n == 0 {
		return ratioMedian, ratioSD
	}
	mean := 0.0
	for _, x := range logs {
		mean += x / n
	}
	about := 0.0
	for _, x := range logs {
		about += (x - mean) * (x - mean)
	}
	prior := math.Log(ratioMedian)
	worth := ratioJobs + n
	centre := (ratioJobs*prior + n*mean) / worth
	sum := ratioJobs*ratioSD*ratioSD/(1+1.0/ratioJobs) + about + ratioJobs*n/worth*(mean-prior)*(mean-prior)
	return math.Exp(centre), math.Sqrt(sum / worth * (1 + 1/worth))
}

// ratio is the labour ratio that a forecast draws.
func (l Learned) ratio() LabourRatio {
	if l.Ratio == nil {
		return LabourRatio{ratioMedian, ratioSD, ratioJobs}
	}
	return LabourRatio{l.Ratio.Median, l.Ratio.SD, ratioJobs + float64(l.Ratio.Jobs)}
}

// row finds what was learned of a row; nothing seen if nothing was.
func (l Learned) row(subsystem, id string) RowLearned {
	i, ok := slices.BinarySearchFunc(l.Rows, RowLearned{Subsystem: subsystem, Row: id}, func(a, b RowLearned) int {
		return cmp.Or(cmp.Compare(a.Subsystem, b.Subsystem), cmp.Compare(a.Row, b.Row))
	})
	if !ok {
		return RowLearned{Subsystem: subsystem, Row: id}
	}
	return l.Rows[i]
}

// Chance is a row's chance after closed jobs: the mean of Beta(kappa p + k, kappa (1 - p) + n - k), where p is the sheet's, and kappa what it is
// worth, 0 for the usual 4. Nothing seen leaves p as it is.
func (r RowLearned) Chance(p, kappa float64) float64 {
	if r.Seen == 0 {
		return p
	}
	if kappa == 0 {
		kappa = defaultKappa
	}
	return (kappa*p + float64(r.Happened)) / (kappa + float64(r.Seen))
}

// over lays what was learned over the chances of a unit's register, which is copied.
func (l Learned) over(s UnitSheet) UnitSheet {
	if len(l.Rows) == 0 {
		return s
	}
	s.Sheet.Hidden = slices.Clone(s.Sheet.Hidden)
	for i := range s.Sheet.Hidden {
		h := &s.Sheet.Hidden[i]
		h.Chance = l.row(s.Subsystem, h.ID).Chance(h.Chance, s.Sheet.OutlookWeight)
	}
	return s
}

// LearnedHere is what closed jobs have taught of one plan: its labour, and the rows of its registers.
type LearnedHere struct {
	Ratio *RatioLearned `json:"labour_ratio"`
	Rows  []RowHere     `json:"rows"` // those that were settled before, in the order of the sheets
}

// RowHere is a row's chance by the sheet and here, both before the vehicle's history and what this job has shown.
type RowHere struct {
	RowLearned
	Name  string  `json:"name"`
	Sheet float64 `json:"sheet"`
	Here  float64 `json:"here"`
	Open  bool    `json:"open"` // no part of this job has settled it: its chance counts
}

// Here tells what closed jobs have taught of these sheets, each row once; nil if no job was closed.
func (l Learned) Here(sheets []UnitSheet) *LearnedHere {
	if l.Ratio == nil {
		return nil
	}
	here := &LearnedHere{Ratio: l.Ratio, Rows: []RowHere{}}
	for _, s := range sheets {
		settled, _ := settledRows(s)
		for _, h := range s.Sheet.Hidden {
			r, open := l.row(s.Subsystem, h.ID), !slices.Contains(settled, h.ID)
			i := slices.IndexFunc(here.Rows, func(x RowHere) bool { return x.Subsystem == r.Subsystem && x.Row == r.Row })
			switch {
			case i >= 0: // of another unit
				here.Rows[i].Open = here.Rows[i].Open || open
			case r.Seen > 0:
				here.Rows = append(here.Rows, RowHere{r, h.Name, h.Chance, r.Chance(h.Chance, s.Sheet.OutlookWeight), open})
			}
		}
	}
	return here
}

// OpenRows are the rows that no part of the plan's job has settled.
func (l LearnedHere) OpenRows() []RowHere {
	return slices.DeleteFunc(slices.Clone(l.Rows), func(r RowHere) bool { return !r.Open })
}
