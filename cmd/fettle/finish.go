package main

import (
	"context"
	"sync"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
)

// planFinish plans a job and draws when it may be done. Where the settings do not say how many hours a week the bench has, nothing is said of
// the finish.
func (s *shop) planFinish(ctx context.Context, job core.Job) (core.Plan, error) {
	var pace core.Pace
	var paceErr error
	var wg sync.WaitGroup // the other jobs are read beside this one
	wg.Go(func() { pace, paceErr = s.pace(ctx, job) })
	req, err := s.request(ctx, job)
	wg.Wait()
	if err == nil {
		err = paceErr
	}
	if err != nil {
		return core.Plan{}, err
	}
	return s.atPace(ctx, req, pace)
}

// atPace plans what is asked for, and draws when it may be done.
func (s *shop) atPace(ctx context.Context, req core.PlanRequest, pace core.Pace) (core.Plan, error) {
	req.Pace = pace
	p := s.planner()
	p.Timekeeper = budget.Simulator{}
	return p.Plan(ctx, req)
}

// suppose plans what is supposed of a job as the job is planned.
func (s *shop) suppose(ctx context.Context, req core.PlanRequest) (core.Plan, error) {
	pace, err := s.pace(ctx, req.Job)
	if err != nil {
		return core.Plan{}, err
	}
	return s.atPace(ctx, req, pace)
}

// pace is the bench's week, and what is left to do of the other jobs that were agreed to.
func (s *shop) pace(ctx context.Context, job core.Job) (core.Pace, error) {
	y, m, d := s.c.clock().In(s.settings().Zone).Date()
	pace := core.Pace{From: time.Date(y, m, d, 0, 0, 0, 0, s.settings().Zone).UTC(), HoursWeek: s.settings().WeeklyHours}
	if pace.HoursWeek == 0 {
		return pace, nil
	}
	stories, err := s.book.Stories(ctx)
	if err != nil {
		return pace, err
	}
	for _, story := range stories {
		if left := story.HoursLeft(); left > 0 && story.Job.Number != job.Number {
			pace.Others = append(pace.Others, left)
		}
	}
	return pace, nil
}

// withFinish is withPlan where it is also drawn when the job may be done.
func (c *command) withFinish(ctx context.Context, args []string, f func(*shop, core.Plan) error) error {
	return c.withPlanned(ctx, args, (*shop).planFinish, f)
}

// finishAsked is what was asked about a day: how likely the job is to be done by it.
type finishAsked struct {
	Day    time.Time `json:"day"`
	Weeks  float64   `json:"weeks"`
	Chance float64   `json:"chance"` // 0 to 1
}

// finishBy answers how likely a job is to be done by a day; nil if no day was asked about.
func (s *shop) finishBy(p core.Plan, day time.Time) (*finishAsked, error) {
	if day.IsZero() {
		return nil, nil
	}
	if p.Finish == nil {
		return nil, core.Errorf(core.Invalid, "write weekly_hours into fettle.yaml", "nobody has said how many hours a week the bench has")
	}
	weeks := p.Finish.Weeks(day, s.settings().Zone)
	if weeks < 0 {
		return nil, core.Errorf(core.Invalid, "name a day to come", "--finish %s is past", s.day(day))
	}
	return &finishAsked{day, weeks, p.Finish.By(weeks)}, nil
}
