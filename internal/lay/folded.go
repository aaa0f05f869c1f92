package lay

import (
	"cmp"
	"context"
	"math"
	"slices"

	"hembook/internal/fault"
)

// How the work is shared out among the foldings: a few that begin well are searched for a
// while, and the best of them further.
const (
	mostTrials = 4
	mostOfKind = 2
	trialShare = 0.5 // of the work for folds
)

// makeFolded lays on folded cloth, the way that takes least of it, and in a single layer
// too where that is wanted; the shorter is returned with the other beside.
func makeFolded(ctx context.Context, p *Problem, opt Options) (*Plan, error) {
	either := p.Cloth.Fold == EitherWay
	half := opt
	if either {
		half.Tries /= 2
	}
	folded, why := makeBestFold(ctx, p, half.telling(0, 0.5))
	switch {
	case !either && folded == nil:
		return nil, fault.List{{Severity: fault.Error, Message: "no folded lay: " + why}}
	case !either:
		return folded, nil
	case folded == nil:
		plan, err := makeOpen(ctx, p, opt)
		if plan != nil {
			plan.NotFolded = why
		}
		return plan, err
	}
	half.Begin = append(slices.Clip(half.Begin), folded) // opened out it is an open lay, so that none is longer
	open, err := makeOpen(ctx, p, half.telling(0.5, 0.5))
	if err != nil {
		return folded, nil
	}
	if open.Better(folded, 1e-9*open.Length) {
		open.Other = folded
		return open, nil
	}
	folded.Other = open
	return folded, nil
}

// telling are the options for a share of the work that begins after another.
func (o Options) telling(from, share float64) Options {
	if tell := o.Progress; tell != nil {
		o.Progress = func(at Progress) {
			at.Share = from + float64(at.Share*share)
			tell(at)
		}
	}
	if until := o.Until; until != nil {
		o.Until = func() float64 { return (until() - from) / share }
	}
	return o
}

// A trial is one way to fold the cloth.
type trial struct {
	Folding
	length float64 // of a first arrangement, then of the plan
	untied int     // matches that cannot be kept on cloth folded so
	plan   *Plan   // the best so far
}

// makeBestFold lays on cloth folded each way that is wanted and keeps the shortest; nil
// where there is none, with the reason why it is not folded lengthwise, or as wanted.
func makeBestFold(ctx context.Context, p *Problem, opt Options) (*Plan, string) {
	all, why := p.trials(opt.Begin)
	kept := promising(all)
	if len(kept) > 1 {
		each := opt
		each.Tries = max(1, int(float64(opt.Tries)*trialShare/float64(len(kept))))
		for i := range kept {
			share := trialShare / float64(len(kept))
			kept[i].improve(ctx, p, each.telling(float64(i)*share, share))
		}
		kept = slices.DeleteFunc(kept, func(t trial) bool { return t.plan == nil })
		slices.SortStableFunc(kept, p.before)
		opt.Tries = int(float64(opt.Tries) * (1 - trialShare))
		opt = opt.telling(trialShare, 1-trialShare)
	}
	if len(kept) > 0 {
		kept[0].improve(ctx, p, opt)
	}
	if len(kept) == 0 || kept[0].plan == nil {
		return nil, cmp.Or(why, "not all pieces find a place on it")
	}
	return kept[0].plan, ""
}

// promising are the trials that begin best, not too many of one kind; a lengthwise fold,
// which is the easiest to lay out, is always among them.
func promising(all []trial) []trial {
	slices.SortStableFunc(all, func(a, b trial) int {
		return cmp.Or(cmp.Compare(a.untied, b.untied), cmp.Compare(a.length, b.length))
	})
	var kept []trial
	of := map[Fold]int{}
	for _, t := range all {
		room := mostTrials
		if of[Lengthwise] == 0 && slices.ContainsFunc(all, func(o trial) bool { return o.Fold == Lengthwise }) {
			room--
		}
		if of[t.Fold] < mostOfKind && (len(kept) < room || t.Fold == Lengthwise) {
			kept = append(kept, t)
			of[t.Fold]++
		}
	}
	return kept
}

// before orders trials: first what leaves fewer matches open, then the shorter, of two
// alike the plainer fold.
func (p *Problem) before(a, b trial) int {
	if a.untied != b.untied {
		return cmp.Compare(a.untied, b.untied)
	}
	if math.Abs(a.length-b.length) <= 1e-9*p.Cloth.Width {
		return cmp.Compare(a.Fold, b.Fold)
	}
	return cmp.Compare(a.length, b.length)
}

// improve searches a folding further, from the best lay of it so far.
func (t *trial) improve(ctx context.Context, p *Problem, opt Options) {
	if t.plan != nil {
		opt.Begin = append(slices.Clip(opt.Begin), t.plan)
	}
	if layers, tell := t.Layers(), opt.Progress; tell != nil && layers > 1 {
		opt.Progress = func(at Progress) {
			at.Length *= layers
			tell(at)
		}
	}
	plan, err := makeOn(ctx, p, opt, t.Folding)
	if err != nil || len(plan.Unplaced) > 0 || t.plan != nil && plan.Length > t.plan.Length {
		return
	}
	if t.plan != nil {
		plan.Tried += t.plan.Tried
	}
	t.plan, t.length = plan, plan.Length
}

// trials are the foldings that hold all pieces, each with how long a first arrangement
// is; where there is none, with the reason why.
func (p *Problem) trials(begin []*Plan) (all []trial, why string) {
	for f := Lengthwise; f <= PartLength; f++ {
		if !p.Cloth.Fold.wants(f) {
			continue
		}
		for _, folding := range p.foldings(f, begin) {
			one, not := trial{Folding: folding}, p.notFolded(folding)
			if not == "" {
				not = p.scout(&one, begin)
			}
			if not == "" {
				all = append(all, one)
			} else if why == "" {
				why = not
			}
		}
	}
	return all, why
}

// scout finds how long a first arrangement on cloth folded so is, or a plan to begin
// from, and what cannot be matched there; it says why where there is none.
func (p *Problem) scout(t *trial, begin []*Plan) (why string) {
	f := t.Folding
	beds := []bed{{Folding: f}}
	if f.Fold == PartLength {
		beds = []bed{f.pairs(), {of: singles}}
	}
	length := 0.0
	for _, on := range beds {
		m, err := newModel(p, on, begin)
		if err != nil {
			return err.Error()
		}
		t.untied += len(m.untied())
		best := math.Inf(1)
		if at := start(m, m.items, m.fixed, -1); !slices.ContainsFunc(at, func(s spot) bool { return s.shape < 0 }) {
			best = usedBy(m, at)
		}
		for _, known := range m.known(p, begin) {
			best = min(best, reached(m, known))
		}
		length += best / m.scale * f.Layers()
	}
	for _, plan := range begin {
		if plan != nil && plan.Folding == f {
			length = min(length, plan.Length)
		}
	}
	if math.IsInf(length, 1) {
		return "not all pieces find a place on it"
	}
	t.length = length
	return ""
}

// reached is the length that an arrangement takes.
func reached(m *model, at map[copyKey]spot) float64 {
	far := 0.0
	for _, s := range at {
		far = max(far, s.x+m.shapes[s.shape].box.maxX)
	}
	return far
}

// pairs is the bed of what two layers give of cloth folded over part of its length.
func (f Folding) pairs() bed {
	return bed{Folding: Folding{Fold: Lengthwise, Near: f.Near}, of: inPairs}
}

// makePartLength lays what two layers give on cloth folded lengthwise, and the rest in a
// single layer beyond it.
func makePartLength(ctx context.Context, p *Problem, opt Options) (*Plan, error) {
	width := p.Cloth.Width
	f := Folding{Fold: PartLength, Near: width / 2}
	upper, err := newModel(p, f.pairs(), nil)
	if err != nil {
		return nil, err
	}
	plan := &Plan{Folding: f, Width: width}
	part := opt
	part.Progress, part.Until = nil, nil
	run := newMaking(ctx, p, part, upper)
	run.known = upper.knownIn(p, opt.Begin, 0)
	share := upper.area / (upper.area + p.area(upper.scale)/2)
	run.opt.Tries = max(1, int(float64(opt.Tries)*share))
	run.layAll(&Plan{})
	run.write(p, plan)
	plan.Long = run.length / upper.scale
	if far := p.reach(plan); len(p.Cloth.Flaws) == 0 || far > plan.Long {
		plan.Long = far
	}

	rest, err := newModel(p, bed{from: plan.Long, of: singles}, nil)
	if err != nil {
		return nil, err
	}
	last := newMaking(ctx, p, part, rest)
	last.known = rest.knownIn(p, opt.Begin, plan.Long)
	last.opt.Tries = max(1, opt.Tries-run.opt.Tries)
	last.length = plan.Long * rest.scale
	last.layAll(&Plan{})
	last.write(p, plan)
	plan.Length = max(plan.Long, last.length/rest.scale)
	plan.Stages = []float64{plan.Length}
	plan.Bound = opt.least
	plan.Bound.Length = max(plan.Bound.Length, run.bound.Length/upper.scale)
	plan.Tried = run.tried + last.tried
	p.judge(plan)
	return plan, nil
}

// area is that of all pieces, in inner units.
func (p *Problem) area(scale float64) float64 {
	sum := 0.0
	for i := range p.Pieces {
		q := &p.Pieces[i]
		sum += math.Abs(signedArea(q.Unfold())) * scale * scale * float64(max(1, q.Quantity))
	}
	return sum
}

// reach is how far the placements of a plan go.
func (p *Problem) reach(plan *Plan) float64 {
	far := 0.0
	for _, at := range plan.Placements {
		far = max(far, boxOf(p.Placed(at)).maxX)
	}
	return far
}

// knownIn are the plans folded over a part of their length as far as they lie on this bed.
// What lies beyond the fold is moved to where that ends now, unless flaws are in the way.
func (m *model) knownIn(p *Problem, plans []*Plan, from float64) []map[copyKey]spot {
	var out []map[copyKey]spot
	for _, plan := range plans {
		if plan == nil || plan.Fold != PartLength || len(plan.Unplaced) > 0 {
			continue
		}
		moved := *plan
		moved.Placements = slices.Clone(plan.Placements)
		if m.bed.of == singles && len(p.Cloth.Flaws) == 0 {
			for k := range moved.Placements {
				moved.Placements[k].X += from - plan.Long
			}
		}
		if at := m.spotsOf(p, &moved); at != nil {
			out = append(out, at)
		}
	}
	return out
}
