package host

import (
	"context"
	"fmt"
	"time"

	"github.com/fettle-tools/fettle/core"
)

func (p *hosted) succeeded(which string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.failedIn == which || p.failedIn == callStart {
		p.failures, p.failedIn, p.fault = 0, "", nil
	}
}

// failed ends a run that is of no more use and says when the next may start.
func (p *hosted) failed(which string, run *process, fault *core.Error) {
	p.mu.Lock()
	if p.process != run { // another call has told already
		p.mu.Unlock()
		return
	}
	p.process = nil
	p.note(which, fault)
	p.mu.Unlock()
	run.stop()
}

// note counts a failure: the second waits the back-off, each further one twice as long, and Tries in a row rest.
func (p *hosted) note(which string, fault *core.Error) {
	c := p.host.config
	p.failures++
	p.failedIn, p.fault = which, fault
	wait := time.Duration(0)
	switch {
	case p.failures >= c.Tries:
		wait = c.Rest
	case p.failures > 1:
		wait = c.Backoff << (p.failures - 2)
	}
	p.rest = c.Now().Add(wait)
}

// running gives the run under way, or starts one. Callers that come while it starts wait for the same start.
func (p *hosted) running(ctx context.Context) (*process, error) {
	for waited := false; ; waited = true {
		p.mu.Lock()
		p.reap()
		switch {
		case p.closed:
			p.mu.Unlock()
			return nil, notAssessed(core.Unavailable, p.spec.Name, "", "the plugins have been stopped")
		case p.process != nil:
			defer p.mu.Unlock()
			return p.process, nil
		case p.starting != nil:
			done := p.starting
			p.mu.Unlock()
			select {
			case <-done:
			case <-ctx.Done():
				return nil, &core.Error{Code: core.Unavailable, What: p.spec.Name + ": not assessed: nobody waited for its start", Err: context.Cause(ctx)}
			}
		case waited && p.fault != nil: // the start this call waited for failed
			defer p.mu.Unlock()
			return nil, p.fault
		case p.fault != nil && p.host.config.Now().Before(p.rest):
			defer p.mu.Unlock()
			return nil, p.resting()
		default:
			p.starting, p.attempt = make(chan struct{}), &process{}
			go p.start(p.attempt)
			p.mu.Unlock()
		}
	}
}

// start starts the process; it outlives a caller that stops waiting.
func (p *hosted) start(run *process) {
	fault := p.host.start(p.spec, run)
	p.mu.Lock()
	defer p.mu.Unlock()
	close(p.starting)
	p.starting, p.attempt = nil, nil
	if fault != nil {
		p.note(callStart, fault)
		return
	}
	p.process = run
}

// reap notes a process that ended between two calls.
func (p *hosted) reap() {
	if p.process == nil || p.process.ended(0) == "" {
		return
	}
	run := p.process
	p.process = nil
	p.note(callStart, notAssessed(core.Unavailable, p.spec.Name, adviceAgain, "the plugin stopped%s", lastSeen(run)))
	go run.stop()
}

// resting is the error while a plugin is not tried.
func (p *hosted) resting() error {
	f := *p.fault
	again := p.rest.Sub(p.host.config.Now()).Round(time.Millisecond)
	if p.failures >= p.host.config.Tries {
		f.What += fmt.Sprintf("; it failed %d times in a row and is left alone for %v", p.failures, again.Round(time.Second))
	} else {
		f.What += fmt.Sprintf("; it is tried again in %v", again)
	}
	return &f
}

// again lets a plugin that rests be tried at once.
func (p *hosted) again() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.rest = time.Time{}
	if p.process == nil && p.starting == nil {
		p.failures, p.failedIn, p.fault = 0, "", nil
	}
}

func (p *hosted) info() Info {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.reap()
	i := Info{Spec: p.spec, State: StateNotStarted}
	switch {
	case p.process != nil:
		i.State, i.PID = StateRunning, p.process.runner().process()
	case p.failures >= p.host.config.Tries:
		i.State = StateResting
	case p.failures > 0:
		i.State = StateStopped
	}
	if p.fault != nil {
		i.Fault = p.fault.Error()
	}
	return i
}

// close stops the plugin for good; a start under way is ended too.
func (p *hosted) close() {
	p.mu.Lock()
	p.closed = true
	for p.starting != nil {
		done, attempt := p.starting, p.attempt
		p.mu.Unlock()
		attempt.giveUp()
		<-done
		p.mu.Lock()
	}
	run := p.process
	p.process = nil
	p.mu.Unlock()
	if run != nil {
		run.stop()
	}
}
