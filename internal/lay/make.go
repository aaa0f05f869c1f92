package lay

import (
	"context"
	"iter"
	"math"
	"runtime"
	"slices"
	"sort"
	"sync"
)

// searchers is how many independent searches share the work. It is fixed, so
// that the plan does not depend on the number of cores.
const searchers = 2

// Make lays the pieces. When ctx ends it returns the best plan so far and no
// error. Errors are of type [fault.List]: the problem itself is refused.
func Make(ctx context.Context, p Problem, opt Options) (*Plan, error) {
	if fs := check(&p); len(fs) > 0 {
		return nil, fs
	}
	if opt.Tries <= 0 {
		opt.Tries = DefaultTries
	}
	if opt.Cores <= 0 {
		opt.Cores = runtime.GOMAXPROCS(0)
	}
	opt.least, p.thinned, p.fields = p.Bound(), map[outlineKey][]Point{}, new(fieldStore)
	lay := makeFolded
	if p.Cloth.Fold == Open {
		lay = makeOpen
	}
	plan, err := lay(ctx, &p, opt)
	for one := plan; one != nil; one = one.Other {
		one.Remnants = remnants(&p, one, opt.Keep)
	}
	return plan, err
}

// mirrors tells whether an outline is its own mirror image in its grain line, and
// whether it is in a line across it.
func mirrors(pts []Point) (upDown, leftRight bool) {
	ring := tidy(pts)
	b := boxOf(ring)
	c := Point{(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2}
	ring = moved(ring, -c.X, -c.Y)
	near := 1e-9 * math.Max(b.width(), b.height())
	has := func(q Point) bool {
		for _, r := range ring {
			if math.Abs(r.X-q.X) <= near && math.Abs(r.Y-q.Y) <= near {
				return true
			}
		}
		return false
	}
	upDown, leftRight = true, true
	for _, q := range ring {
		upDown = upDown && has(Point{q.X, -q.Y})
		leftRight = leftRight && has(Point{-q.X, q.Y})
	}
	return upDown, leftRight
}

// makeOpen lays a single layer.
func makeOpen(ctx context.Context, p *Problem, opt Options) (*Plan, error) {
	return makeOn(ctx, p, opt, Folding{})
}

// makeOn lays on cloth folded one way.
func makeOn(ctx context.Context, p *Problem, opt Options, f Folding) (*Plan, error) {
	if f.Fold == PartLength {
		return makePartLength(ctx, p, opt)
	}
	m, err := newModel(p, bed{Folding: f}, opt.Begin)
	if err != nil {
		return nil, err
	}
	run := newMaking(ctx, p, opt, m)
	plan := &Plan{Folding: f, Width: m.width / m.scale}
	run.layAll(plan)
	run.finish(p, plan)
	return plan, nil
}

func newMaking(ctx context.Context, p *Problem, opt Options, m *model) *making {
	run := &making{ctx: ctx, opt: opt, m: m, fixed: m.fixed, bound: boundOf(m, opt.least)}
	if run.known = m.known(p, opt.Begin); m.first != nil {
		run.known = append(run.known, m.first)
	}
	return run
}

// layAll lays stage after stage.
func (r *making) layAll(plan *Plan) {
	gone := 0.0
	for _, group := range stagesOf(r.m.items) {
		share := float64(len(group)) / float64(len(r.m.items))
		r.layStage(group, share, gone)
		gone += share
		plan.Stages = append(plan.Stages, r.length/r.m.scale)
	}
	r.atLeastAsShort(plan)
}

func stagesOf(items []item) [][]item {
	byStage := map[int][]item{}
	var order []int
	for _, it := range items {
		if byStage[it.stage] == nil {
			order = append(order, it.stage)
		}
		byStage[it.stage] = append(byStage[it.stage], it)
	}
	sort.Ints(order)
	var out [][]item
	for _, s := range order {
		out = append(out, byStage[s])
	}
	return out
}

// A making carries what has been laid from stage to stage.
type making struct {
	ctx    context.Context
	opt    Options
	m      *model
	fixed  []fixture
	length float64
	bound  Bound // inner units
	tried  int
	placed []laid
	failed []item
	known  []map[copyKey]spot // where everything lies in the plans to begin from
}

// atLeastAsShort goes back to a plan that was begun from where the search came to a
// longer one, as it may where a later stage has to make do with what an earlier left.
func (r *making) atLeastAsShort(plan *Plan) {
	for _, at := range r.known {
		all := make([]laid, len(r.m.items))
		spots := make([]spot, len(r.m.items))
		for i, it := range r.m.items {
			spots[i] = at[copyKey{it.piece, it.copy}]
			all[i] = laid{it, spots[i]}
		}
		length := usedBy(r.m, spots)
		if len(r.failed) == 0 && length >= r.length {
			continue
		}
		r.placed, r.failed, r.length, plan.Stages = all, nil, length, nil
		reached := 0.0
		for _, group := range stagesOf(r.m.items) {
			for _, it := range group {
				reached = max(reached, usedBy(r.m, []spot{at[copyKey{it.piece, it.copy}]}))
			}
			plan.Stages = append(plan.Stages, reached/r.m.scale)
		}
	}
}

type laid struct {
	it item
	at spot
}

// layStage lays one group in what the earlier ones left.
func (r *making) layStage(items []item, share, gone float64) {
	first := r.begin(items, start(r.m, items, r.fixed, -1))
	if at := r.squeezeIn(items, first, share); at != nil {
		first = at
	}
	var kept []item
	var at []spot
	for i := range items {
		if first[i].shape < 0 {
			r.failed = append(r.failed, items[i])
			continue
		}
		kept, at = append(kept, items[i]), append(at, first[i])
	}
	if len(kept) == 0 {
		return
	}
	best := r.search(kept, arrangement{at, usedBy(r.m, at)}, share, gone)
	for i, it := range kept {
		s := &r.m.shapes[best.at[i].shape]
		r.fixed = append(r.fixed, fixture{s.base, s.way, best.at[i].x, best.at[i].y})
		r.placed = append(r.placed, laid{it, best.at[i]})
	}
	r.length = math.Max(r.length, best.length)
}

// begin is the first arrangement of a stage: the one given, or a shorter one of the
// plans to begin from that keeps clear of what lies there already.
func (r *making) begin(items []item, first []spot) []spot {
	length := math.Inf(1)
	if !slices.ContainsFunc(first, func(s spot) bool { return s.shape < 0 }) {
		length = usedBy(r.m, first)
	}
	for _, known := range r.known {
		at := make([]spot, len(items))
		for i, it := range items {
			at[i] = known[copyKey{it.piece, it.copy}]
		}
		used := usedBy(r.m, at)
		if used >= length {
			continue
		}
		b := newBoard(r.m, items, r.fixed, r.opt.Seed)
		if b.set(at, used); b.overlap() <= tolerance {
			first, length = at, used
		}
	}
	return first
}

// squeezeIn tries to place everything on a cloth that ends, where the first
// arrangement had no room for some: it puts those anywhere and untangles them.
func (r *making) squeezeIn(items []item, first []spot, share float64) []spot {
	missing := false
	at := append([]spot(nil), first...)
	b := newBoard(r.m, items, r.fixed, r.opt.Seed)
	for i := range at {
		if at[i].shape < 0 {
			missing = true
			at[i] = spot{items[i].shapes[0], b.rng.within(0, r.m.maxLength), b.rng.within(0, r.m.width)}
		}
	}
	if !missing || math.IsInf(r.m.maxLength, 1) {
		return nil
	}
	b.set(at, r.m.maxLength)
	most := int(float64(r.opt.Tries) * share / 4)
	over := func() bool { return b.tried >= most || r.ctx.Err() != nil }
	ok := b.untangle(effort{quiet: fullQuiet, setbacks: 3, over: over}, b.mend)
	r.tried += b.tried
	if !ok {
		return nil
	}
	return b.at
}

// mostPerRound is how many places a searcher tries before the searchers
// compare lengths and progress is reported.
const mostPerRound = 2_000_000

// search runs the searchers side by side and merges them in fixed order.
func (r *making) search(items []item, from arrangement, share, gone float64) arrangement {
	all := r.newSearchers(items, from, share, gone)
	r.searchWide(all, func() {
		r.report(shortest(all).length, gone+float64(share*all[0].budget.share(all[0].b.tried)))
	})
	best := shortest(all)
	for _, s := range all {
		s.adopt(best)
	}
	r.sideBySide(len(all), func(k int) { all[k].searchFine() })
	for _, s := range all {
		r.tried += s.b.tried
	}
	best = shortest(all)
	r.report(best.length, gone+share)
	return best
}

// searchWide lets all searchers searchWide in rounds, after each of which the
// shortest lay is everybody's. Each searcher is a coroutine that pauses where
// its round ends. It ends sooner where patience runs out.
func (r *making) searchWide(all []*searcher, after func()) {
	g := all[0].budget
	round := mostPerRound
	if g.until == nil {
		round = max(1, min(round, int(float64(g.tries)*wideShare/8)))
	}
	turns := make([]func() (struct{}, bool), len(all))
	for k, s := range all {
		next, stop := iter.Pull(func(yield func(struct{}) bool) {
			s.searchWide(round, func() {
				if !yield(struct{}{}) {
					s.end = 0 // patience ran out amid an untangling
				}
			})
		})
		defer stop()
		turns[k] = next
	}
	going := make([]bool, len(all))
	still, last := 0, shortest(all).length
	for more := true; more; more = slices.Contains(going, true) && still < patience(g, len(all[0].b.items)) {
		r.sideBySide(len(all), func(k int) { _, going[k] = turns[k]() })
		best := shortest(all)
		for _, s := range all {
			if best.length < s.best.length {
				s.best = best.clone()
			}
		}
		if still++; best.length < last {
			still, last = 0, best.length
		}
		after()
	}
}

// patience is how many rounds without a shorter lay end the wide search of so many
// items: three of eight for a few, whose best is mostly found in the first; all
// from thirty-two on. Measured on 34 lays of three to ten items of garments, none
// of which became longer, while two of 20 and 43 items still gained in the last round
// but two. Where the time is given instead of the places, it is all used.
func patience(g *budget, items int) int {
	if g.until != nil {
		return math.MaxInt
	}
	return max(3, items/4)
}

// newSearchers sets all searchers on the same first arrangement.
func (r *making) newSearchers(items []item, from arrangement, share, gone float64) []*searcher {
	g := &budget{tries: max(1, int(float64(r.opt.Tries)*share)/searchers)}
	if r.opt.Until != nil {
		g.until = func() float64 { return (r.opt.Until() - gone) / share }
	}
	floor := math.Max(r.length, leastOf(r.m, items))
	if len(r.placed) == 0 && len(items) == len(r.m.items) {
		floor = math.Max(floor, r.bound.Length)
	}
	stop := func() bool { return r.ctx.Err() != nil }
	all := make([]*searcher, searchers)
	for k := range all {
		all[k] = newSearcher(r.m, items, r.fixed, r.opt.Seed*searchers+uint64(k), from, g, stop)
		all[k].floor = floor
	}
	b := all[0].b
	b.set(from.at, from.length)
	b.repair(mostPerRound)
	length := b.tighten()
	from = arrangement{append([]spot(nil), b.at...), length}
	for _, s := range all {
		s.adopt(from)
	}
	return all
}

func (r *making) report(length, share float64) {
	if r.opt.Progress != nil {
		r.opt.Progress(Progress{Length: length / r.m.scale, Share: math.Min(1, share)})
	}
}

// sideBySide does something for every searcher, on as many cores as allowed.
func (r *making) sideBySide(count int, do func(k int)) {
	if r.opt.Cores < 2 {
		for k := range count {
			do(k)
		}
		return
	}
	var wg sync.WaitGroup
	for k := range count {
		wg.Go(func() { do(k) })
	}
	wg.Wait()
}

func shortest(all []*searcher) arrangement {
	best := all[0].best
	for _, s := range all[1:] {
		if s.best.length < best.length {
			best = s.best
		}
	}
	return best
}

// leastOf is the length the longest of the items needs.
func leastOf(m *model, items []item) float64 {
	far := 0.0
	for _, it := range items {
		least := math.Inf(1)
		for _, k := range it.shapes {
			least = math.Min(least, m.shapes[k].leastReach())
		}
		far = math.Max(far, least)
	}
	return far
}

// boundOf is a length no plan can undercut, in inner units.
func boundOf(m *model, least Bound) Bound {
	b := Bound{Length: m.bed.from*m.scale + m.area/m.width}
	if m.bed.of == allCopies {
		if least.Length *= m.scale / m.bed.Layers(); least.Length > b.Length*(1-1e-9) {
			b = least
		}
	}
	if l := leastOf(m, m.items); l > b.Length*(1+1e-9) {
		b = Bound{Length: l, Why: ByPlace}
	}
	return b
}

// finish writes the plan in the problem's own units.
func (r *making) finish(p *Problem, plan *Plan) {
	m, layers := r.m, plan.Layers()
	r.write(p, plan)
	plan.Untied = m.untied()
	plan.Length = r.length / m.scale * layers
	for i := range plan.Stages {
		plan.Stages[i] *= layers
	}
	plan.Bound = r.bound
	plan.Bound.Length *= layers / m.scale
	plan.Tried = r.tried
	p.judge(plan)
}

// write adds what was laid to the plan.
func (r *making) write(p *Problem, plan *Plan) {
	m, origin := r.m, p.Cloth.origin()
	for _, l := range r.placed {
		s := &m.shapes[l.at.shape]
		plan.Placements = append(plan.Placements, Placement{
			Piece: l.it.piece, Copy: l.it.copy, Turn: s.turn, Mirrored: s.mirrored,
			X: (l.at.x+s.offX)/m.scale + origin.X, Y: (l.at.y+s.offY)/m.scale + origin.Y,
			Pair: l.it.pair, Unfolded: p.Pieces[l.it.piece].OnFold && !l.it.half,
		})
	}
	for _, it := range r.failed {
		plan.Unplaced = append(plan.Unplaced, Unplaced{it.piece, it.copy})
	}
}

// judge says what a plan uses, and whether it fits the cloth on hand.
func (p *Problem) judge(plan *Plan) {
	area := 0.0
	for _, at := range plan.Placements {
		one := math.Abs(signedArea(p.Pieces[at.Piece].Unfold()))
		if area += one; at.Pair {
			area += one
		}
	}
	width := p.Cloth.Width
	if p.Cloth.Outline != nil {
		width = plan.Width
	}
	plan.Utilisation = area / (plan.Length * width)
	plan.Fits = len(plan.Unplaced) == 0
	if l := p.Cloth.Length; l > 0 && plan.Length > l {
		plan.Fits = false
		plan.Shortage = plan.Length - l
	}
}
