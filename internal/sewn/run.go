package sewn

import (
	"cmp"
	"math"
	"slices"
)

// A run is a line of edges sewn end to end to another. It is never read as a
// way in the record's order: it is found on the boundary.
type run struct {
	seam   int
	kind   Kind
	edges  [2][]edgeKey
	sides  [2][]SideID
	layers [2]string
}

// A chain is what hangs together of one side of a run, against the clock.
type chain struct {
	parts  []Span
	closed bool
	length float64
}

// chains finds what hangs together of a set of sides on the boundary of the
// surface, zips open.
func (b *builder) chains(list []SideID, layer string) []chain {
	in := make(map[SideID]bool, len(list))
	for _, id := range list {
		in[id] = true
	}
	var out []chain
	for _, loop := range b.s.Loops(layer, false) {
		out = append(out, chainsOf(loop, in)...)
	}
	return out
}

func chainsOf(loop Loop, in map[SideID]bool) []chain {
	begin := slices.IndexFunc(loop.Spans, func(s Span) bool { return !in[s.Side] })
	if begin < 0 {
		return []chain{{parts: loop.Spans, closed: true, length: loop.Length}}
	}
	var out []chain
	var open chain
	n := len(loop.Spans)
	for k := 1; k <= n; k++ {
		s := loop.Spans[(begin+k)%n]
		if in[s.Side] {
			open.parts, open.length = append(open.parts, s), open.length+s.Length()
		} else if len(open.parts) > 0 {
			out, open = append(out, open), chain{}
		}
	}
	return out
}

// lengthsNear is how far, in millimetres and as a part, the two lines of a run
// may differ before it is doubted that they are each other's, where the seam
// does not say that they do.
const (
	lengthsNear = 25
	lengthsPart = 0.06
)

// layRuns lays the runs, each as soon as its lines can be told; what depends on
// another run waits for it.
func (b *builder) layRuns(runs []*run) {
	slices.SortStableFunc(runs, func(x, y *run) int { return cmp.Compare(x.kind, y.kind) }) // the surface before what is caught in
	for _, strict := range [...]bool{true, false} {
		for laid := true; laid; {
			laid = false
			runs = slices.DeleteFunc(runs, func(r *run) bool {
				done := b.layRun(r, strict)
				laid = laid || done
				return done
			})
		}
	}
	for _, r := range runs {
		one, two := b.chains(r.sides[0], r.layers[0]), b.chains(r.sides[1], r.layers[1])
		if r.kind == Caught {
			one, two = b.chainsIn(r, 0), b.chainsIn(r, 1)
		}
		b.ask(Question{Kind: WhichMeets, Seam: r.seam, Counts: [2]int{len(one), len(two)}})
	}
}

// chainsIn are the lines of one side of a run. What is caught in lies where a
// seam of the surface may have taken the edge already: that seam is looked
// away from.
func (b *builder) chainsIn(r *run, side int) []chain {
	if r.kind != Caught {
		return b.chains(r.sides[side], r.layers[side])
	}
	in := make(map[SideID]bool, len(r.sides[side]))
	for _, id := range r.sides[side] {
		in[id] = true
	}
	var out []chain
	for _, loop := range b.s.loops(r.layers[side], func(j JoinID) bool {
		join := &b.s.Joins[j]
		return join.Kind == Closing || join.Kind == Sewn && join.Seam != r.seam && (in[join.A.Side] || in[join.B.Side])
	}) {
		out = append(out, chainsOf(loop, in)...)
	}
	return out
}

// layRun lays a run if its lines are equally many and, where strict, of
// lengths that can be each other's.
func (b *builder) layRun(r *run, strict bool) bool {
	one, two := b.chainsIn(r, 0), b.chainsIn(r, 1)
	if slices.Equal(r.edges[0], r.edges[1]) {
		one, two = b.halved(one)
	}
	if len(one) == 0 || len(one) != len(two) {
		return false
	}
	s := &b.s.Plan.Seams[r.seam]
	overlap := s.Overlap
	if strict && !s.Full {
		for k, x := range byLength(one) {
			y := byLength(two)[k]
			if off := math.Abs(x.length - overlap - y.length); off > lengthsNear && off > lengthsPart*y.length {
				return false
			}
		}
	}
	for k, m := range b.match(r, one, two) {
		switch {
		case overlap == 0 || s.Full && k == 0:
			b.layChain(r, m, overlap)
		case s.Full || !laps(m, overlap):
			b.layChain(r, m, 0)
		default:
			b.layChain(r, m, overlap)
		}
		b.wrongSide(r, &m)
	}
	return true
}

// laps reports whether of two lines that meet the first is longer by what a closure
// overlaps, as each of two cuffs is; of a band in two parts one alone may be.
func laps(m meeting, overlap float64) bool {
	apart := newChain(m.one).length - newChain(m.two).length
	return math.Abs(apart-overlap) <= math.Abs(apart)
}

// wrongSide notes two lines, each of which has a front and a back by its names, of
// which more than half lies front to back: however a sleeve is turned in an armhole
// of the other hand, its front comes to the back.
func (b *builder) wrongSide(r *run, m *meeting) {
	if !b.facesBoth(m.one) || !b.facesBoth(m.two) {
		return
	}
	one, two := b.line(r, 0, m.one, false), b.line(r, 1, m.two, true)
	named, wrong := 0, 0
	for k := range samples {
		at := (float64(k) + 0.5) / samples
		x, y := b.faces(m.one[one.at(at)].Side), b.faces(m.two[two.at(at)].Side)
		if x != "" && y != "" {
			named++
			if x != y {
				wrong++
			}
		}
	}
	if named < samples/2 || 2*wrong <= named {
		return
	}
	f := Snag{Kind: WrongSide, Seam: r.seam}
	for _, sp := range []Span{m.one[0], m.two[0]} {
		s := &b.s.Sides[sp.Side]
		f.Edges = append(f.Edges, EdgeRef{Piece: b.s.Copies[s.Copy].Name, Edge: s.Edge})
	}
	if !slices.ContainsFunc(b.snags, func(o Snag) bool { return o.Kind == WrongSide && o.Seam == r.seam }) {
		b.snag(f)
	}
}

func (b *builder) facesBoth(list []Span) bool {
	has := func(face string) bool {
		return slices.ContainsFunc(list, func(sp Span) bool { return b.faces(sp.Side) == face })
	}
	return has("front") && has("back")
}

// halved parts the lines of edges that are sewn to their own mirror images, as
// a centre back in two parts: a line that holds both is folded at its middle.
func (b *builder) halved(list []chain) (one, two []chain) {
	if len(list) == 1 && !list[0].closed && len(list[0].parts)%2 == 0 {
		half := len(list[0].parts) / 2
		return []chain{newChain(list[0].parts[:half])}, []chain{newChain(list[0].parts[half:])}
	}
	for _, c := range list {
		if b.s.Copies[b.s.Sides[c.parts[0].Side].Copy].Hand > 0 {
			one = append(one, c)
		} else {
			two = append(two, c)
		}
	}
	return one, two
}

func newChain(parts []Span) chain {
	c := chain{parts: parts}
	for _, p := range parts {
		c.length += p.Length()
	}
	return c
}

func byLength(list []chain) []chain {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(x, y chain) int { return cmp.Compare(x.length, y.length) })
	return out
}

// mostTried bounds the lines of which every pairing is tried.
const mostTried = 5

// match says which line meets which, and where each begins.
func (b *builder) match(r *run, one, two []chain) []meeting {
	n := len(one)
	all := make([][]meeting, n)
	for i := range one {
		for k := range two {
			all[i] = append(all[i], b.best(r, one[i], two[k]))
		}
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	best, least := slices.Clone(order), math.Inf(1)
	try := func(perm []int) {
		sum := 0.0
		for i, k := range perm {
			sum += all[i][k].cost
		}
		if sum < least-1e-6 {
			best, least = slices.Clone(perm), sum
		}
	}
	switch {
	case n == 2 && b.pairInDoubt(r, one, two, all):
		return b.inDoubt(r, all)
	case n <= mostTried:
		permute(order, 0, try)
	default:
		best = nearest(all)
	}
	if r.kind == Sewn {
		best = b.goRound(r, one, two, all, best)
	}
	out := make([]meeting, n)
	for i, k := range best {
		out[i] = all[i][k]
	}
	return out
}

// pairsNear is how near to each other, in the costs of both lines together, both ways to
// pair two with two may be where nothing tells which is meant, mm.
const pairsNear = 2

// pairInDoubt reports whether of two lines that are each other's mirror images either
// may meet either of two others, and it makes a difference.
func (b *builder) pairInDoubt(r *run, one, two []chain, all [][]meeting) bool {
	if r.kind != Sewn || !b.mirrored(one) || !b.mirrored(two) {
		return false
	}
	straight, crossed := all[0][0].cost+all[1][1].cost, all[0][1].cost+all[1][0].cost
	return math.Abs(straight-crossed) < 2*pairsNear
}

// mirrored reports whether of two lines one is the other's mirror image and not the same.
// What is its own mirror image may lie either way and makes no difference.
func (b *builder) mirrored(pair []chain) bool {
	one, two := b.handed(pair[0]), b.handed(pair[1])
	if one == nil || two == nil || len(one) != len(two) {
		return false
	}
	own := true
	for k := range one {
		if two[k] != -one[k] {
			return false
		}
		own = own && one[k] == 0
	}
	return !own
}

// handed is of each edge of a line the sum of the hands it occurs in; nil where a piece
// of it may lie either way.
func (b *builder) handed(c chain) map[edgeKey]int {
	out := map[edgeKey]int{}
	for _, p := range c.parts {
		side := &b.s.Sides[p.Side]
		copy := &b.s.Copies[side.Copy]
		if b.s.shapes[copy.Piece].own {
			return nil
		}
		out[edgeKey{piece: copy.Piece, side: side.Index}] += int(copy.Hand)
	}
	return out
}

// inDoubt pairs two lines with two where nothing tells which meets which.
func (b *builder) inDoubt(r *run, all [][]meeting) []meeting {
	var pieces []string
	for _, edges := range r.edges {
		pieces = append(pieces, b.ref(edges[0]).Piece)
	}
	if b.doubt(doubt{WhichOfPair, b.s.Plan.Seams[r.seam].Name, pieces}) {
		return []meeting{all[0][1], all[1][0]}
	}
	return []meeting{all[0][0], all[1][1]}
}

// goRound lets copies that are sewn to each other go one to the next, as in
// [builder.round], where nothing but their number tells one from another.
func (b *builder) goRound(r *run, one, two []chain, all [][]meeting, best []int) []int {
	n := len(one)
	if n < 2 {
		return best
	}
	same := make([]int, n)
	for i := range one {
		same[i] = -1
		for k := range two {
			if math.Abs(all[i][k].cost-all[0][0].cost) > 1e-3 {
				return best
			}
			if b.rootOf(one[i]) == b.rootOf(two[k]) {
				same[i] = k
			}
		}
		if same[i] < 0 {
			return best
		}
	}
	piece := &b.s.Plan.Pieces[b.s.Copies[b.s.Sides[one[0].parts[0].Side].Copy].Piece]
	if b.roundOf(r.seam, piece, n) == RoundEach {
		return same
	}
	return append(slices.Clone(same[1:]), same[0])
}

func (b *builder) rootOf(c chain) int {
	return b.links.root(int(b.s.Sides[c.parts[0].Side].Copy))
}

// permute calls try with every order of a list.
func permute(list []int, from int, try func([]int)) {
	if from == len(list) {
		try(list)
		return
	}
	for k := from; k < len(list); k++ {
		list[from], list[k] = list[k], list[from]
		permute(list, from+1, try)
		list[from], list[k] = list[k], list[from]
	}
}

// nearest pairs each line with the cheapest that is left.
func nearest(all [][]meeting) []int {
	taken := make([]bool, len(all))
	out := make([]int, len(all))
	for i := range all {
		best := -1
		for k := range all[i] {
			if !taken[k] && (best < 0 || all[i][k].cost < all[i][best].cost-1e-6) {
				best = k
			}
		}
		out[i], taken[best] = best, true
	}
	return out
}

// A meeting is how two lines lie to each other: the first against the clock,
// the second the other way, from where both begin.
type meeting struct {
	one, two []Span // the second in the order in which it is met, last first
	cost     float64
}

// best finds how two lines lie to each other. Open ones leave no choice; a
// closed one may begin at any of its joints. Of two closed ones the one of fewer joints
// begins at its first: that meets some joint of the other.
func (b *builder) best(r *run, one, two chain) meeting {
	begins := func(c, other *chain) int {
		if !c.closed || len(c.parts) == 0 || other.closed && (len(c.parts) < len(other.parts) || len(c.parts) == len(other.parts) && c == &one) {
			return 1
		}
		return len(c.parts)
	}
	best := meeting{cost: math.Inf(1)}
	for i := range begins(&one, &two) {
		for k := range begins(&two, &one) {
			m := meeting{one: turned(one.parts, i)}
			m.two = turned(two.parts, k)
			slices.Reverse(m.two)
			m.cost = b.cost(r, &m)
			if m.cost < best.cost-1e-6 {
				best = m
			}
		}
	}
	return best
}

func turned(list []Span, by int) []Span {
	return append(slices.Clone(list[by:]), list[:by]...)
}
