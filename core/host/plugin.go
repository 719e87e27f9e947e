package host

import (
	"context"
	"slices"
	"sync"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/fettle-tools/fettle/core"
)

// hosted is one plugin's life: started at the first call, started afresh after a failure, resting after several.
// It is the checked core.Assessor that the host hands out.
type hosted struct {
	host *Host
	spec Spec

	mu       sync.Mutex
	process  *process      // nil: not running
	starting chan struct{} // closed when the start under way is over; nil: none is
	attempt  *process      // what is being started
	closed   bool
	failures int         // in a row
	failedIn string      // which call failed last: only the same one clears it
	fault    *core.Error // the last failure; nil after a success
	rest     time.Time   // not before this
}

// The calls, as failedIn names them.
const (
	callStart    = "start"
	callDescribe = "describe"
	callAssess   = "assess"
)

// Describe gives the plugin's sheet for these facts, checked. The same run is not asked twice about the same facts: a plugin promises the
// same answer. The sheet is the host's, to be read and not changed.
func (p *hosted) Describe(ctx context.Context, facts []core.Fact) (sheet core.Sheet, problems []core.Problem, err error) {
	err = p.call(ctx, callDescribe, func(ctx context.Context, run *process) error {
		if known := run.sheets.find(facts); known != nil {
			sheet, problems = known.sheet, slices.Clone(known.problems)
			return nil
		}
		sheet, problems, err = run.assessor.Describe(ctx, facts)
		if err != nil {
			return err
		}
		if err := checkSheet(p.spec.Name, sheet, problems); err != nil {
			return err
		}
		run.sheets.keep(facts, sheet, slices.Clone(problems))
		return nil
	})
	if err != nil {
		return core.Sheet{}, nil, err
	}
	for i := range problems {
		problems[i].Subsystem = p.spec.Name
	}
	return sheet, problems, nil
}

// Assess judges one unit, and checks the answer against the sheet for the same facts.
func (p *hosted) Assess(ctx context.Context, req core.AssessRequest) (answer core.Assessment, err error) {
	var sheet *index
	err = p.call(ctx, callAssess, func(ctx context.Context, run *process) error {
		if sheet = run.sheets.find(req.Facts); sheet == nil {
			described, problems, err := run.assessor.Describe(ctx, req.Facts)
			if err != nil {
				return err
			}
			if err := checkSheet(p.spec.Name, described, problems); err != nil {
				return err
			}
			sheet = run.sheets.keep(req.Facts, described, problems)
		}
		if answer, err = run.assessor.Assess(ctx, req); err != nil {
			return err
		}
		return checkAnswer(sheet, req, &answer)
	})
	if err != nil {
		return core.Assessment{}, err
	}
	for i := range answer.Problems {
		answer.Problems[i].Subsystem, answer.Problems[i].Unit = p.spec.Name, req.Unit
	}
	return answer, nil
}

// call runs one call under its deadline and keeps the books on failures.
func (p *hosted) call(ctx context.Context, which string, f func(context.Context, *process) error) error {
	run, err := p.running(ctx)
	if err != nil {
		return err
	}
	limited, cancel := context.WithTimeout(ctx, p.host.config.CallTimeout)
	defer cancel()
	failure := f(limited, run)
	if failure == nil {
		p.succeeded(which)
		return nil
	}
	if ours, _ := limited.Deadline(); status.Code(failure) == codes.DeadlineExceeded && ctx.Err() == nil {
		if callers, ok := ctx.Deadline(); ok && callers.Equal(ours) { // gRPC's clock was a little ahead of the caller's
			<-ctx.Done()
		}
	}
	fault, broken := p.host.callFault(ctx, p.spec.Name, run, failure)
	p.host.config.Log.Warn("plugin failed", "plugin", p.spec.Name, "call", which, "fault", fault.Error())
	if broken {
		p.failed(which, run, fault)
	}
	return fault
}
