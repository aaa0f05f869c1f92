package cutting

import (
	"context"
	"errors"

	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/lay"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Mode says where plans come from.
type Mode uint8

const (
	Make     Mode = iota // a plan that is not kept is made, and kept
	KeptOnly             // only plans that are kept
	None                 // no plans
)

// Options say how a Cutter plans.
type Options struct {
	Mode  Mode
	Tries int      // places to try for each cloth; 0 for the engine's usual
	Cores int      // 0 for all; changes the time taken, never the plan
	Parts []string // the parts of the garment to plan; nil for all
	// Progress is told of the best plan so far. It may be called from
	// several goroutines where several builds are derived at once.
	Progress func(Progress)
}

// Progress reports how far the plan of one cloth is.
type Progress struct {
	Build, Part string
	Length      float64 // of the best lay so far, mm
	Bound       float64 // no lay is shorter, mm
	Share       float64 // of the work done, 0 to 1
}

// A Cutter is a tailor that also plans the cutting. It never changes and may
// be used by many goroutines at once.
type Cutter struct {
	ctx    context.Context
	tailor *derive.Tailor
	store  *store
	usual  usual
	opt    Options
}

// NewCutter wraps a tailor. When ctx ends, a plan that is being made is the
// best found so far, is used, and is not kept; plans not begun are not made.
func NewCutter(ctx context.Context, room *record.Room, tailor *derive.Tailor, opt Options) *Cutter {
	if opt.Tries <= 0 {
		opt.Tries = lay.DefaultTries
	}
	return &Cutter{ctx, tailor, newStore(room.Dir), usualOf(room), opt}
}

// Derive works out everything that follows from a build's record, with the
// cloth its lays need.
func (c *Cutter) Derive(b *record.Build) *derive.Garment { return c.Cut(b).Garment }

// Timing looks at a garment's order of work.
func (c *Cutter) Timing(g *derive.Garment, from order.Standing) *order.Timing {
	return c.tailor.Timing(g, from)
}

// Content is what a garment is made of, by fibre.
func (c *Cutter) Content(g *derive.Garment) *label.Content { return c.tailor.Content(g) }

// Care is what a garment stands.
func (c *Cutter) Care(g *derive.Garment) *label.Care { return c.tailor.Care(g) }

// Cut derives a garment and lays its cloths. The garment's cloths then have
// their length needed, and its costs the cloth bought and the cloth still to
// buy. It never fails: what cannot be known says why.
func (c *Cutter) Cut(b *record.Build) *Cutting {
	out := c.Lay(c.tailor.Derive(b))
	c.rounds(out)
	return out
}

// Lay lays the cloths of a garment that is derived already, as [Cutter.Cut] does. Its
// Rounds are not set.
func (c *Cutter) Lay(g *derive.Garment) *Cutting {
	out := &Cutting{Garment: g}
	c.layAll(out)
	return out
}

// CutAt is [Cutter.Cut] for the build as it was after a round of fitting; 0 is
// the draft. Its Rounds are not set. The plans it makes are kept, so that Cut
// can tell what a round did to the length of the lay.
func (c *Cutter) CutAt(b *record.Build, round int) *Cutting {
	return c.Lay(c.tailor.DeriveAt(b, round))
}

// layAll lays the cloths of a garment.
func (c *Cutter) layAll(out *Cutting) {
	if c.opt.Mode == None {
		return
	}
	g := out.Garment
	for _, cloth := range g.Cloths {
		if !c.wanted(cloth.Part) {
			continue
		}
		l := c.lay(g.Garment, cloth)
		if l == nil {
			continue
		}
		cloth.Needed = l.Needed
		g.Costs = withCost(g.Costs, l.Bought)
		g.Costs = withCost(g.Costs, l.ToBuy)
		out.Lays = append(out.Lays, l)
	}
}

func (c *Cutter) wanted(part string) bool {
	if c.opt.Parts == nil {
		return true
	}
	for _, p := range c.opt.Parts {
		if p == part {
			return true
		}
	}
	return false
}

// withCost puts a cost in the place of the one with its ID, or at the end.
func withCost(costs []figure.Private, one figure.Private) []figure.Private {
	id := one.Open(record.ToFigure).ID
	for i := range costs {
		if costs[i].Open(record.ToFigure).ID == id {
			costs[i] = one
			return costs
		}
	}
	return append(costs, one)
}

// mostRounds is how often a cloth is planned anew because a way out showed a shorter lay.
const mostRounds = 3

// lay plans one cloth and works out its figures; nil where nothing is cut from it. A
// question of what would help may find a plan that holds for the cloth as it is too:
// then that one is taken, so that the lay is the same when it is asked for once more.
func (c *Cutter) lay(g *garment.Garment, cloth *garment.Cloth) *Lay {
	l := c.planned(g, cloth)
	for n := 0; n < mostRounds && l != nil && c.knowsBetter(l); n++ {
		l = c.planned(g, cloth)
	}
	return l
}

// knowsBetter reports whether a better plan of a lay was found by another question.
func (c *Cutter) knowsBetter(l *Lay) bool {
	if l.Plan == nil || c.opt.Mode != Make || c.ctx.Err() != nil || len(l.Ways)+len(l.Problem.Lay.Ties) == 0 {
		return false
	}
	_, best := c.store.begins(&l.Problem.Lay)
	return best != nil && best.Better(l.Plan, tolerance)
}

// planned plans one cloth once.
func (c *Cutter) planned(g *garment.Garment, cloth *garment.Cloth) *Lay {
	l := &Lay{Part: cloth.Part, Cloth: cloth, build: g.Build, worn: g, pad: figure.NewPad(c.usual.style)}
	p, err := newProblem(g, cloth, c.usual.style)
	switch {
	case errors.Is(err, errNothing):
		return nil
	case err != nil:
		l.Why = err.Error()
	default:
		l.Problem = p
		c.solve(g, l)
	}
	l.figures(&c.usual)
	l.Ways = c.waysOut(l)
	return l
}

// solve gets the plan of a lay, or says why there is none.
func (c *Cutter) solve(g *garment.Garment, l *Lay) {
	p, cloth := l.Problem, l.Cloth
	if l.Misfits = p.tooWide(cloth.Cloth, &c.usual); len(l.Misfits) > 0 {
		l.Why = say.Of("cutting.too-wide-for-the-cloth", misfitting(l.Misfits))
		return
	}
	bound := p.Lay.Bound().Length
	plan, err := c.plan(c.ctx, &p.Lay, func(at lay.Progress) {
		c.opt.Progress(Progress{g.Build.Slug, cloth.Part, at.Length, bound, at.Share})
	})
	switch {
	case errors.Is(err, errNotKept), errors.Is(err, errStopped):
		l.Why = err.Error()
	case err != nil:
		l.Misfits = misfitsOf(err)
		l.Why = say.Of("cutting.it-cannot-be-laid", l.Misfits[0].String())
	case len(plan.Unplaced) > 0:
		l.Why = say.Of("cutting.no-place-was-found-for", p.Lay.Pieces[plan.Unplaced[0].Piece].Name)
	default:
		l.Plan = plan
		p.measure(plan)
		l.Stopped = c.stopped(&p.Lay)
		l.Chalked = chalkedInOrder(p.positions(plan))
		l.Doing = l.doing()
		l.Width = l.widthFigure()
		l.lengthFigures()
		l.matched()
		l.matchingCosts(c.unmatched(l))
		l.Left = l.remnants()
		l.Shelf = c.onShelf(c.ctx, l)
	}
}

// stopped reports whether a plan just got is one that was broken off.
func (c *Cutter) stopped(p *lay.Problem) bool {
	if c.ctx.Err() == nil {
		return false
	}
	_, kept := c.store.kept(p, c.opt.Tries)
	return !kept
}

// misfitting names the pieces that do not fit.
func misfitting(list []Misfit) string {
	names := make([]string, len(list))
	for i, r := range list {
		names[i] = r.Of
	}
	if len(list) == 1 {
		return say.Of("cutting.is", names[0])
	}
	return say.Of("cutting.are", joined(names))
}

var (
	errNotKept = say.Error("cutting.no-lay-plan-yet-hembook-lay-build")
	errStopped = say.Error("cutting.stopped-before-there-was-a-plan")
)

// plan gets one plan in the cutter's mode.
func (c *Cutter) plan(ctx context.Context, p *lay.Problem, progress func(lay.Progress)) (*lay.Plan, error) {
	if c.opt.Mode != Make || ctx.Err() != nil {
		plan, ok := c.store.kept(p, c.opt.Tries)
		switch {
		case ok:
			return plan, nil
		case c.opt.Mode != Make:
			return nil, errNotKept
		}
		return nil, errStopped
	}
	if c.opt.Progress == nil {
		progress = nil
	}
	return c.store.plan(ctx, p, lay.Options{Tries: c.opt.Tries, Cores: c.opt.Cores, Progress: progress})
}
