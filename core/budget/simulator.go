package budget

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/fettle-tools/fettle/core"
)

// DefaultTrials is enough for each of P10, P50, P80 and P90 to stand to a quarter of a per cent of P80 on a typical job.
const DefaultTrials = 20_000

// Of a job with many lines each counts for less, and so the same percentiles need fewer trials: a whole vehicle's are as sure with these. One unit
// that nobody has looked into has a few wide lines, and needs more. The number hangs on the lines that are due whatever is found, and not on
// what a first run shows: of two plans of one job that are compared, both draw the same trials.
const (
	manyLines       = 200
	manyLinesTrials = 8_000
	fewLines        = 20
	fewLinesTrials  = 40_000
)

func defaultTrials(f core.Forecast) int {
	lines := 0
	for _, i := range f.Base {
		if f.Costs[i].Total.High > 0 {
			lines++
		}
	}
	switch {
	case lines > manyLines:
		return manyLinesTrials
	case lines < fewLines:
		return fewLinesTrials
	}
	return DefaultTrials
}

// DefaultRho is the common correlation between lines: the same mechanic, the same rust (common practice, no source). A Forecast's Rho is
// taken as it stands, 0 included.
const DefaultRho = .3

// DefaultRatio stands for the zero values of a Forecast's labour ratio (common practice, no source). A negative SD means none.
var DefaultRatio = core.LabourRatio{Median: 1, SD: .15, Jobs: 4}

// Simulator is the core.Budgeter that draws trials.
type Simulator struct {
	Workers int // 0: as many as there are processors; the answer is the same for any number
}

// Budget draws the forecast, in minor units of its currency. A forecast with faults is an error of code core.Invalid that tells all of
// them; a block that has no option for what its parts turn out to be is one of code core.Conflict.
func (s Simulator) Budget(ctx context.Context, f core.Forecast) (core.Spread, error) {
	if err := check(f); err != nil {
		return core.Spread{}, err
	}
	m := compile(f)
	d, err := s.run(ctx, m)
	if err != nil {
		return core.Spread{}, err
	}
	return d.spread(), nil
}

// draws is what the trials came to.
type draws struct {
	*model
	total []float64   // by trial
	sums  [][]product // by chunk and owner
}

// product holds the sums over a chunk of an owner's amounts, and of their products with the total about the model's centre.
type product struct{ sum, cross float64 }

// run draws all chunks of the money.
func (s Simulator) run(ctx context.Context, m *model) (*draws, error) {
	d := &draws{m, make([]float64, m.trials), make([][]product, m.chunks())}
	return d, s.each(ctx, m, func() drawing {
		w := newWorker(m)
		return drawing{w, w.draw, func(c int) { d.keep(c, w) }}
	})
}

// drawing is how one worker draws a chunk, and keeps what it has drawn.
type drawing struct {
	*worker
	draw func(first, n int) bool
	keep func(chunk int)
}

// each draws all chunks. Each chunk is kept in its own place, and sums are put together in the chunks' order, so that the answer is the
// same for any number of workers.
func (s Simulator) each(ctx context.Context, m *model, newDrawing func() drawing) error {
	chunks := m.chunks()
	failed := make([]int, chunks)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range s.workers(chunks) {
		wg.Go(func() {
			w := newDrawing()
			for c := int(next.Add(1)) - 1; c < chunks && ctx.Err() == nil; c = int(next.Add(1)) - 1 {
				if w.draw(c*chunkSize, min(chunkSize, m.trials-c*chunkSize)) {
					w.keep(c)
				} else {
					failed[c] = w.failed + 1
				}
			}
		})
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, b := range failed {
		if b > 0 {
			return core.Errorf(core.Conflict, "let the sheet or the set that joins these parts allow a remedy for every state they may be in",
				"block %s: its parts may turn out so that no joint option is left", m.forecast.Blocks[b-1].Name)
		}
	}
	return nil
}

func (m *model) chunks() int { return (m.trials + chunkSize - 1) / chunkSize }

func (s Simulator) workers(chunks int) int {
	n := s.Workers
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return min(n, chunks)
}

// keep stores what a worker has just drawn as chunk c.
func (d *draws) keep(c int, w *worker) {
	copy(d.total[w.first:w.first+w.n], w.total[:w.n])
	sums := make([]product, len(w.owners))
	for o := range w.owners {
		var p product
		for t, v := range w.owners[o][:w.n] {
			p.sum += v
			p.cross += v * (w.total[t] - d.centre)
		}
		sums[o] = p
	}
	d.sums[c] = sums
}
