package lay

import "math"

// An arrangement is a valid lay of one stage.
type arrangement struct {
	at     []spot
	length float64
}

func (a arrangement) clone() arrangement {
	return arrangement{append([]spot(nil), a.at...), a.length}
}

// A budget says when a searcher must stop.
type budget struct {
	tries int            // places one searcher may try
	until func() float64 // share of the time gone, or nil
}

// share is how much of the budget is gone.
func (g *budget) share(tried int) float64 {
	if g.until != nil {
		return g.until()
	}
	return float64(tried) / float64(g.tries)
}

// A searcher shortens the strip step by step on a board of its own.
type searcher struct {
	b       *board
	best    arrangement
	floor   float64 // no shorter length is possible or wanted
	budget  *budget
	current []spot
	pool    []failure
	stop    func() bool
	step    float64 // share by which the strip is shortened next
	until   int     // places after which it looks round
	look    func()  // shows what the others have found; nil where it works alone
	quiet   int     // passes without progress before a setback, in the fine search
	end     float64 // share of the budget after which it is done: 1, or less where patience ran out
}

// A failure is where an untangling got stuck.
type failure struct {
	over float64
	at   []spot
}

// wideShare is the share of the work that goes to the wide search; the rest is the fine one.
// Measured in 24 searches of 120 M places for four published sets of garments:
// a million places of the wide search led to 0.10 shorter lays, those of
// the fine one to 0.02.
const wideShare = 0.95

const (
	wideStep   = 0.001 // share by which the strip is shortened
	firstShare = 0.02  // the same at first, while that is easy
	poolSize   = 12
	leastQuiet = 30
	mostQuiet  = 100
)

func newSearcher(m *model, items []item, fixed []fixture, seed uint64, from arrangement, g *budget, stop func() bool) *searcher {
	s := &searcher{b: newBoard(m, items, fixed, seed), budget: g, stop: stop}
	s.quiet = quietFor(g, len(items))
	s.step, s.end = firstShare, 1
	s.adopt(from)
	return s
}

// The wide search tries many short untanglings rather than few long ones: most that
// succeed do so soon, and a fresh shake is worth more than patience.
const (
	wideQuiet    = 30 // passes without progress before a setback
	wideSetbacks = 2
)

// quietFor is how patient the untanglings of the fine search may be: 100
// passes (Gardeyn and others 2025) when there is work enough for many of
// them, fewer when there is not.
func quietFor(g *budget, items int) int {
	if g.until != nil {
		return mostQuiet
	}
	const untanglings, placesPerItem = 30, 60 * 3
	return max(leastQuiet, min(mostQuiet, g.tries/(untanglings*placesPerItem*items)))
}

func (s *searcher) adopt(a arrangement) {
	s.best = a.clone()
	s.current = append(s.current[:0], a.at...)
	s.pool = s.pool[:0]
}

func (s *searcher) done() bool {
	return s.best.length <= s.floor*(1+1e-9) || s.stop() || s.budget.share(s.b.tried) >= s.end
}

// searchWide shortens the strip by small steps, starting over from shaken
// failures. After every round of places it looks what the others have found,
// be it in the middle of an untangling: these differ so much in length that
// waiting for their ends would leave processors idle.
func (s *searcher) searchWide(round int, look func()) {
	s.until, s.look = s.b.tried+round, func() {
		s.until += round
		look()
	}
	defer func() { s.look = nil }()
	for s.budget.share(s.b.tried) < wideShare && !s.done() {
		target := math.Max(s.floor, s.best.length*(1-s.step))
		if len(s.pool) == 0 {
			s.cut(s.current, target)
		}
		s.b.set(s.current, target)
		if s.b.untangle(effort{quiet: wideQuiet, setbacks: wideSetbacks, over: s.overdue}, s.b.mend) {
			s.succeed()
			s.step = min(firstShare, s.step*1.5)
			continue
		}
		if s.best.length <= target { // another has been here
			s.adopt(s.best)
			continue
		}
		if s.step > wideStep { // too greedy: go back and take smaller steps
			s.step = max(wideStep, s.step/3)
			s.current = append(s.current[:0], s.best.at...)
			continue
		}
		s.remember()
		s.shake()
	}
}

// fewItems is the number of items up to which a lay is shaken up as a whole,
// beyond which only in one place.
const fewItems = 60

// cut takes what the strip is to lose out of it at a random place, so that
// the overlaps to be parted do not always lie at its end. Measured at 100 M
// places: four published instances of made-up shapes (12 to 43 items) went from
// 0.971 to 0.978 of the best known, garments of 20 to 30 items stayed where
// they were, one of 99 fell from 0.965 to 0.957, for a cut through many items
// leaves many overlaps.
func (s *searcher) cut(at []spot, target float64) {
	if len(at) > fewItems {
		return
	}
	x := s.b.rng.float() * s.best.length
	excess := s.best.length - target
	for i := range at {
		if at[i].x > x {
			at[i].x -= excess
		}
	}
}

// overdue tells an untangling to stop: the time is over, or another searcher
// has found what it is after.
func (s *searcher) overdue() bool {
	if s.look != nil && s.b.tried >= s.until {
		s.look()
	}
	return s.stop() || s.budget.share(s.b.tried) >= s.end || s.best.length <= s.b.length
}

// succeed records the board as the best arrangement.
func (s *searcher) succeed() {
	length := s.b.tighten()
	if length < s.best.length {
		s.best.length = length
		copy(s.best.at, s.b.at)
	}
	s.current = append(s.current[:0], s.b.at...)
	s.pool = s.pool[:0]
}

// remember keeps the board among the failures, the least overlap first.
func (s *searcher) remember() {
	f := failure{s.b.overlap(), append([]spot(nil), s.b.at...)}
	k := len(s.pool)
	for k > 0 && s.pool[k-1].over > f.over {
		k--
	}
	s.pool = append(s.pool, failure{})
	copy(s.pool[k+1:], s.pool[k:])
	s.pool[k] = f
	if len(s.pool) > poolSize {
		s.pool = s.pool[:poolSize]
	}
}

// shake takes a failure, the better the likelier, and swaps two items of it.
func (s *searcher) shake() {
	u := math.Abs(s.b.rng.bell()) / 3
	k := min(len(s.pool)-1, int(u*float64(len(s.pool))))
	s.current = append(s.current[:0], s.pool[k].at...)
	s.swap()
}

// swap changes the places of a large item and another.
func (s *searcher) swap() {
	b := s.b
	if len(b.items) < 2 {
		return
	}
	i := s.large()
	j := s.partner(i)
	p, q := &s.current[i], &s.current[j]
	p.x, q.x = q.x, p.x
	p.y, q.y = q.y, p.y
	if b.rng.below(2) == 0 {
		p.shape = b.items[i].shapes[b.rng.below(len(b.items[i].shapes))]
		q.shape = b.items[j].shapes[b.rng.below(len(b.items[j].shapes))]
	}
}

// large is the best of a few items by area: a large one, not always the same.
func (s *searcher) large() int {
	b := s.b
	best := b.rng.below(len(b.items))
	for range 2 {
		if k := b.rng.below(len(b.items)); b.items[k].area > b.items[best].area {
			best = k
		}
	}
	return best
}

// partner is what item i changes places with: another large one or, in two of
// three swaps among many, one near it. Swapping what lies far apart shakes a
// lay in two places, and of many items these are seldom both put right: of 40
// searches of 60 M places that began with lays of 99 items at 0.965 of the best
// known, 8 made them a five-hundredth shorter with large items swapped alone
// and 21 with near ones alone; both kinds by turns did as well as the latter.
// With 12 to 43 items it was 21 and 22 of 80.
func (s *searcher) partner(i int) int {
	b := s.b
	if len(b.items) > fewItems && b.rng.below(3) > 0 {
		if j := s.near(i); j >= 0 {
			return j
		}
	}
	j := s.large()
	for range 8 {
		if i != j && b.items[i].piece != b.items[j].piece {
			break
		}
		j = s.large()
	}
	return j
}

// near is the nearest to item i among a quarter of the items, chosen at
// random, without its own kind; -1 if nothing is left.
func (s *searcher) near(i int) int {
	b := s.b
	best, least := -1, math.Inf(1)
	for range 1 + len(b.items)/4 {
		j := b.rng.below(len(b.items))
		if b.items[j].piece == b.items[i].piece {
			continue
		}
		p, q := &s.current[i], &s.current[j]
		if d := dot(p.x-q.x, p.y-q.y, p.x-q.x, p.y-q.y); d < least {
			best, least = j, d
		}
	}
	return best
}

const (
	fineStep = 0.001
	fineLast = 0.00002
)

// searchFine works on the best arrangement alone, with steps that shrink as
// the work runs out.
func (s *searcher) searchFine() {
	from := s.budget.share(s.b.tried)
	s.end = min(1, from+1-wideShare)
	for !s.done() {
		gone := (s.budget.share(s.b.tried) - from) / (s.end - from)
		gone = math.Max(0, math.Min(1, gone))
		step := fineStep + float64((fineLast-fineStep)*gone)
		target := math.Max(s.floor, s.best.length*(1-step))
		s.current = append(s.current[:0], s.best.at...)
		s.cut(s.current, target)
		s.b.set(s.current, target)
		if s.b.untangle(effort{quiet: s.quiet, setbacks: 2, over: s.overdue}, s.b.mend) {
			s.succeed()
		}
	}
}
