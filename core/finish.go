package core

import (
	"context"
	"fmt"
	"math"
	"sort"
	"time"
)

// Network is what a Timekeeper is given beside a Forecast: how long what costs something takes, and what it waits for. Hours are
// man-hours at the bench, waits are weeks.
//
// The bench comes first to stripping, in order and without a break: every wait hangs on it. Other work may begin when its wait is over and
// what comes before it is done; the bench takes it in that order and is never idle while there is something to do.
type Network struct {
	Strip []NetworkStep // in the order in which they are done
	Work  []NetworkWork // repairs, then refitting: each after all that it names
	Pace  Pace
}

// NetworkStep is a step of the strip-down.
type NetworkStep struct {
	Cost  int // of the Forecast: the step is done in the trials in which it falls due
	Hours Range3
}

// NetworkWork is a repair or the refitting of a step.
type NetworkWork struct {
	Cost    int // of the Forecast: the work is done in the trials in which it falls due
	Hours   Range3
	Wait    Range3 // weeks until its goods or its outwork come
	WaitFor string // what is waited for together, one draw for all of one name; "" if nothing is
	Name    string // of what is waited for, in words
	Off     []int  // steps that must be done before the wait begins; none: it begins today
	Before  []int  // earlier work that must be done before the wait begins
	Under   []int  // earlier work that must be done before its own hours begin
}

// Pace is how many hours a week the bench has, and what else it is there for.
type Pace struct {
	From      time.Time // the beginning of today: weeks are counted from it
	HoursWeek float64   // for all jobs together
	Others    []float64 // hours left of each other job: each job has an equal share of the week until its hours are worked off
}

// FinishSpread is a Timekeeper's answer, in weeks from today.
type FinishSpread struct {
	Mean, SD           float64
	P10, P50, P80, P90 float64
	SE                 [4]float64 // of the four
	Curve              []float64  // 101 quantiles
	Hours              float64    // at the bench, on average
	HeldUp             []HoldUp   // most often first
	Bench              float64    // the chance that nothing is waited for: the bench is busy until the end
	BenchShare         float64    // of the variance: the bench's hours and all that is not in HeldUp
	Trials             int
	Seed               uint64
}

// Timekeeper draws when the job is done, in the trials of its Forecast: what falls due, how its hours lie in their range and the labour
// ratio are those of the money. The same Forecast and Network give the same answer, bit for bit, on any number of processors.
type Timekeeper interface {
	Finish(ctx context.Context, f Forecast, n Network) (FinishSpread, error)
}

// HoldUp is something that the finish waits for: the last thing that the bench stood still for, or would have.
type HoldUp struct {
	Name   string  `json:"name"`
	Chance float64 `json:"chance"` // that the finish waits for it, 0 to 1
	Begins float64 `json:"begins"` // weeks from today until it is sent out or ordered; this and the next three are means of when it is waited for
	Wait   float64 `json:"wait"`   // weeks until it is here
	After  float64 `json:"after"`  // weeks at the bench that only it can begin
	Later  float64 `json:"later"`  // weeks that the finish is later than if it were here at once
	Share  float64 `json:"share"`  // of the variance of the finish
}

// Finish is when the job may be done: a distribution of weeks from a day, not a date. It ends with the last hour at the bench: road tests and
// the snags they show are not in it, nor is anybody's answer.
type Finish struct {
	From           time.Time `json:"from"` // today
	P10            float64   `json:"p10"`
	P50            float64   `json:"p50"`
	P80            float64   `json:"p80"`
	P90            float64   `json:"p90"`
	StandardErrors []float64 `json:"standard_errors"` // of P10, P50, P80, P90
	Mean           float64   `json:"mean"`
	SD             float64   `json:"sd"`
	Curve          []float64 `json:"curve"` // the quantiles 0, 1 .. 100 %
	Hours          float64   `json:"hours"` // at the bench, on average
	HoursWeek      float64   `json:"hours_week"`
	OtherHours     float64   `json:"other_hours"` // left of the shop's other jobs
	OtherJobs      int       `json:"other_jobs"`
	HeldUp         []HoldUp  `json:"held_up"`     // most often first
	Bench          float64   `json:"bench"`       // the chance that nothing is waited for
	BenchShare     float64   `json:"bench_share"` // of the variance
	Trials         int       `json:"trials"`
	Seed           uint64    `json:"seed"`
}

// By is the chance, 0 to 1, that the job is done so many weeks from its day: read off the curve of its quantiles, in between in proportion.
func (f Finish) By(weeks float64) float64 {
	n := len(f.Curve) - 1
	if n < 1 {
		return 0
	}
	// The first quantile above: what is drawn as often as not at one figure counts in full.
	k := sort.Search(n+1, func(i int) bool { return f.Curve[i] > weeks })
	switch {
	case k == 0:
		return 0
	case k > n:
		return 1
	}
	low, high := f.Curve[k-1], f.Curve[k]
	return (float64(k-1) + (weeks-low)/(high-low)) / float64(n)
}

// SayPace says what the bench has to do until then, and for whom.
func (f Finish) SayPace() string {
	s := fmt.Sprintf("Counted from today, with %.0f h at the bench on average, at %s h a week", f.Hours, FormatNumber(math.Round(f.HoursWeek*100)/100))
	switch {
	case f.OtherJobs == 1:
		s += fmt.Sprintf(", shared with the %.0f h left of another job", f.OtherHours)
	case f.OtherJobs > 1:
		s += fmt.Sprintf(", shared with the %.0f h left of %d other jobs", f.OtherHours, f.OtherJobs)
	}
	return s + ". To the last hour at the bench: road tests and their snags come after, and nobody's answer is waited for."
}

// SayDone says how likely a job is to be done by a day, from its chance, 0 to 1.
func SayDone(chance float64) string {
	switch {
	case chance == 0:
		return "no trial was done so soon: it is not"
	case chance < .005:
		return "hardly ever done"
	case chance < .995:
		return fmt.Sprintf("done in %.0f of 100 such jobs, not yet in %.0f", 100*chance, 100-100*chance)
	}
	return "it is nearly sure to be done"
}

// Day is the day in a zone on which so many weeks are over, a part of a day counted as one.
func (f Finish) Day(weeks float64, zone *time.Location) time.Time {
	return f.From.In(zone).AddDate(0, 0, int(math.Ceil(7*weeks-Slack)))
}

// Weeks is how many weeks another day lies from the Finish's, by the calendar of a zone.
func (f Finish) Weeks(day time.Time, zone *time.Location) float64 {
	return math.Round(dateOf(day.In(zone)).Sub(dateOf(f.From.In(zone))).Hours()/24) / 7
}

// dateOf is a day without its hour.
func dateOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// finish asks the Timekeeper, if there is one and the bench's hours a week are known.
func (p *Planner) finish(ctx context.Context, b *bench, d *due, f Forecast) (*Finish, error) {
	pace := b.req.Pace
	if p.Timekeeper == nil || pace.HoursWeek <= 0 {
		return nil, nil
	}
	s, err := p.Timekeeper.Finish(ctx, f, b.network(d, f))
	if err != nil {
		return nil, err
	}
	out := &Finish{From: pace.From, P10: s.P10, P50: s.P50, P80: s.P80, P90: s.P90, StandardErrors: s.SE[:], Mean: s.Mean, SD: s.SD, Curve: s.Curve, Hours: s.Hours,
		HoursWeek: pace.HoursWeek, HeldUp: append([]HoldUp{}, s.HeldUp...), Bench: s.Bench, BenchShare: s.BenchShare, Trials: s.Trials, Seed: s.Seed}
	for _, h := range pace.Others {
		if h > 0 {
			out.OtherJobs, out.OtherHours = out.OtherJobs+1, out.OtherHours+h
		}
	}
	return out, nil
}
