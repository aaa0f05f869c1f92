package cutting

import (
	"context"
	"errors"
	"sync/atomic"

	"hembook/internal/lay"
)

// makePlan lays a problem and makes sure that it comes to an end. The engine asks
// its context between passes, far more seldom than it tries places; one that
// asks more often than that is going round in a circle without trying any, and
// is told to stop with the best it has. The second run is on one core, where
// the moment of stopping is the same on every machine.
func makePlan(ctx context.Context, p *lay.Problem, opt lay.Options) (*lay.Plan, error) {
	watch := newWatched(ctx, opt.Work)
	plan, err := lay.Make(watch, *p, opt)
	if !watch.tripped() || opt.Cores == 1 {
		return plan, err
	}
	opt.Cores = 1
	return lay.Make(newWatched(ctx, opt.Work), *p, opt)
}

// leastAsked is how often the engine may ask however little the work.
const leastAsked = 100_000

// errCircle ends a search that goes round in a circle.
var errCircle = errors.New("the search goes round in a circle")

// A watched context also ends when it has been asked too often.
type watched struct {
	context.Context
	left atomic.Int64
}

func newWatched(ctx context.Context, work int) *watched {
	w := &watched{Context: ctx}
	w.left.Store(int64(work)/4 + leastAsked)
	return w
}

// Err counts each asking.
func (w *watched) Err() error {
	if err := w.Context.Err(); err != nil {
		return err
	}
	if w.left.Add(-1) < 0 {
		return errCircle
	}
	return nil
}

func (w *watched) tripped() bool { return w.left.Load() < 0 && w.Context.Err() == nil }
