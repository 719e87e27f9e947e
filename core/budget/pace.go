package budget

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// pace turns weeks from today into the hours that the bench has had for this job by then, and back. Each job with hours left has an equal
// share of the week (common practice, no source); when one is worked off, the others share what it had.
type pace []stretch

// stretch is a time over which the job has the same hours each week; the last has no end.
type stretch struct{ week, hours, rate float64 }

func newPace(p core.Pace) pace {
	left := slices.Clone(p.Others)
	slices.Sort(left)
	left = slices.DeleteFunc(left, func(h float64) bool { return h <= 0 })
	var out pace
	var week, hours float64
	for k, h := range left {
		rate := p.HoursWeek / float64(len(left)-k+1)
		if h == hours {
			continue
		}
		out = append(out, stretch{week, hours, rate})
		week, hours = week+(h-hours)/rate, h
	}
	return append(out, stretch{week, hours, p.HoursWeek})
}

// by is the hours that there have been so many weeks from today.
func (p pace) by(weeks float64) float64 {
	s := &p[0]
	for i := 1; i < len(p) && p[i].week <= weeks; i++ {
		s = &p[i]
	}
	return s.hours + (weeks-s.week)*s.rate
}

// weeks is how many weeks from today there will have been so many hours.
func (p pace) weeks(hours float64) float64 {
	s := &p[0]
	for i := 1; i < len(p) && p[i].hours <= hours; i++ {
		s = &p[i]
	}
	return s.week + (hours-s.hours)/s.rate
}
