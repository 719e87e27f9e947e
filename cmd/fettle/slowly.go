package main

import (
	"cmp"
	"context"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"github.com/fettle-tools/fettle/core/web"
)

// slowly is work that takes longer than a page may, by job: begun when asked for, done once beside the pages, kept until it is begun anew, and broken off
// when nobody has asked for a while how far it is. The zero value is ready.
type slowly[T any] struct {
	mu       sync.Mutex
	runs     map[string]*slowRun[T]
	patience time.Duration // how long nobody may ask before work is broken off; 0: the usual
}

// slowRun is one such work.
type slowRun[T any] struct {
	at    int64 // state of the book that it was begun at
	n, of int
	asked time.Time
	ended chan struct{}
	value *T
	err   error
}

// usualPatience is a few of a page's questions, on a slow line; atFirst is how long whoever begins the work waits for it.
const (
	usualPatience = 8 * time.Second
	atFirst       = 400 * time.Millisecond
)

// begin begins the work of a job at a state of the book, unless it is done or under way for that state, and waits a moment for it. Life is how long it
// may live at most.
func (s *slowly[T]) begin(life context.Context, job string, at int64, work func(ctx context.Context, told func(n, of int)) (T, error)) {
	s.mu.Lock()
	r := s.runs[job]
	if r == nil || r.at != at {
		r = &slowRun[T]{at: at, asked: time.Now(), ended: make(chan struct{})}
		if s.runs == nil {
			s.runs = map[string]*slowRun[T]{}
		}
		s.runs[job] = r
		go s.work(life, job, r, work)
	}
	r.asked = time.Now()
	s.mu.Unlock()
	select {
	case <-r.ended:
	case <-time.After(atFirst):
	}
}

func (s *slowly[T]) work(life context.Context, job string, r *slowRun[T], work func(context.Context, func(n, of int)) (T, error)) {
	ctx, stop := context.WithCancel(life)
	defer stop()
	go s.breakOff(ctx, stop, job, r)
	var v T
	err := safely(func() (err error) {
		v, err = work(ctx, func(n, of int) {
			s.mu.Lock()
			defer s.mu.Unlock()
			r.n, r.of = n, of
		})
		return err
	})
	s.mu.Lock()
	defer s.mu.Unlock()
	close(r.ended)
	switch {
	case ctx.Err() != nil: // what was broken off may look like an answer
		if s.runs[job] == r {
			delete(s.runs, job)
		}
	case err != nil:
		r.err = err
	default:
		r.value = &v
	}
}

// breakOff stops the work of a run when nobody asks for it any more, or another has taken its place.
func (s *slowly[T]) breakOff(ctx context.Context, stop func(), job string, r *slowRun[T]) {
	patience := cmp.Or(s.patience, usualPatience)
	tick := time.NewTicker(patience / 8)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		s.mu.Lock()
		if time.Since(r.asked) > patience || s.runs[job] != r {
			stop()
		}
		s.mu.Unlock()
	}
}

// state tells how far the work of a job is at a state of the book, and that somebody waits.
func (s *slowly[T]) state(job string, now int64) (web.Slow[T], error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := s.runs[job]
	if r == nil {
		return web.Slow[T]{}, nil
	}
	r.asked = time.Now()
	if r.err != nil {
		delete(s.runs, job)
		return web.Slow[T]{}, r.err
	}
	return web.Slow[T]{Begun: true, N: r.n, Of: r.of, Value: r.value, Stale: r.value != nil && r.at != now}, nil
}

// safely does work beside the pages: what fails within is an error, as it is under a page.
func safely(work func() error) (err error) {
	defer func() {
		if x := recover(); x != nil {
			err = fmt.Errorf("%v\n%s", x, debug.Stack())
		}
	}()
	return work()
}
