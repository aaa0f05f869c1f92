package sewn

import (
	"cmp"
	"slices"
	"strings"
)

// Build puts the garment together. It always answers a surface; what a plan
// leaves open is in the questions, what cannot be sewn as it stands in the
// snags.
func Build(p Plan) (*Surface, []Question, []Snag) {
	b := build(p, readings{})
	for seam, pieces := range b.doubtful {
		if pieces == nil {
			continue
		}
		b = b.settle(p, seam)
	}
	b.askBoth(p)
	return b.s, b.questions, b.snags
}

// settle builds both readings of copies that are sewn to each other, a ring or
// tubes, and keeps the one in which all later lines are equally many on both
// sides, else the one that pinches nothing together; where both are as good, it
// keeps the ring and asks.
func (b *builder) settle(p Plan, seam int) *builder {
	ring, tubes := b.read(p, seam, RoundOne, RoundUnsaid), b.read(p, seam, RoundEach, RoundUnsaid)
	one, each := ring.unmatched(), tubes.unmatched()
	pinched := RoundUnsaid
	if one == each {
		pinched = b.pinched(p, seam, ring, tubes)
	}
	for _, q := range b.questions { // those of earlier seams stand
		if q.Kind == RingOrTubes {
			ring.ask(q)
			tubes.ask(q)
		}
	}
	switch {
	case each < one, pinched == RoundOne:
		return tubes
	case one < each, pinched == RoundEach:
		return ring
	}
	ring.ask(Question{Kind: RingOrTubes, Seam: seam, Pieces: b.doubtful[seam], Readings: [2]*Surface{ring.s, tubes.s}})
	return ring
}

// read builds the plan with one seam read as a ring or tubes, and the other seams of
// which both could be meant read as they are told to be.
func (b *builder) read(p Plan, seam int, r, others Round) *builder {
	said := map[string]Round{}
	for i, pieces := range b.doubtful {
		if pieces != nil && others != RoundUnsaid {
			said[b.s.Plan.Seams[i].Name] = others
		}
	}
	for k, v := range b.said.rounds {
		said[k] = v
	}
	said[b.s.Plan.Seams[seam].Name] = r
	return build(p, readings{rounds: said})
}

// pinched is which reading of a seam draws together what lies apart in the other,
// whatever is meant by the other seams that are in doubt: as a band of several parts
// would be that are each closed to a ring and yet sewn on one after another.
func (b *builder) pinched(p Plan, seam int, ring, tubes *builder) Round {
	worse := func(ring, tubes *builder) int {
		return cmp.Or(cmp.Compare(ring.points(false), tubes.points(false)), cmp.Compare(ring.points(true), tubes.points(true)))
	}
	way := worse(ring, tubes)
	if way != 0 && worse(b.read(p, seam, RoundOne, RoundEach), b.read(p, seam, RoundEach, RoundEach)) != -way {
		if way > 0 {
			return RoundEach
		}
		return RoundOne
	}
	return RoundUnsaid
}

// points counts the corners of all copies, those that lie on each other as one: fewer
// where a reading draws more of them together. caught counts what is caught in too.
func (b *builder) points(caught bool) int {
	v, n := b.cornersOf(func(j *Join) bool { return caught || j.Kind != Caught }), 0
	for id := range b.s.Sides {
		if v.root(id) == id {
			n++
		}
	}
	return n
}

func (b *builder) unmatched() int {
	n := 0
	for _, q := range b.questions {
		if q.Kind == WhichMeets {
			n++
		}
	}
	return n
}

// A builder is a surface being put together.
type builder struct {
	s         *Surface
	uses      map[edgeKey][]int // the seams that name an edge
	groups    [][][]CopyID      // by piece and layer
	layers    []string
	links     links // copies that hang together by what is joined so far
	said      readings
	doubtful  [][]string // by seam: pieces of which a ring or tubes could be meant
	doubts    []doubt    // all else that could be meant otherwise
	questions []Question
	snags     []Snag
}

// An edgeKey is an edge of a piece, by its place, of all its copies or of those of one
// hand.
type edgeKey struct {
	piece, side int
	hand        int8 // as of an [EdgeRef]
}

// both is the edge in all its copies.
func (k edgeKey) both() edgeKey { return edgeKey{piece: k.piece, side: k.side} }

func build(p Plan, said readings) *builder {
	b := &builder{s: &Surface{Plan: ordered(p)}, said: said}
	b.doubtful = make([][]string, len(b.s.Plan.Seams))
	b.putBehind()
	b.cutOut()
	b.use()
	b.settleHands()
	b.folds()
	var runs []*run
	for i := range b.s.Plan.Seams {
		runs = append(runs, b.seam(i)...)
	}
	b.openZips()
	b.layRuns(runs)
	b.closures()
	b.carryZipsOn()
	b.plies()
	b.closedBags()
	return b
}

// ordered is a plan in the order of its names, the two sides of a seam too.
func ordered(p Plan) Plan {
	out := Plan{Pieces: slices.Clone(p.Pieces), Seams: slices.Clone(p.Seams), Closures: slices.Clone(p.Closures)}
	slices.SortStableFunc(out.Pieces, func(a, b Piece) int { return cmp.Compare(a.Name, b.Name) })
	for i := range out.Seams {
		s := &out.Seams[i]
		s.Sides = slices.Clone(s.Sides)
		if s.Overlap == 0 {
			s.turnSides()
		}
		s.Plies = slices.Clone(s.Plies)
		slices.SortStableFunc(s.Plies, func(a, b Ply) int { return slices.CompareFunc(a.Edges, b.Edges, compareRefs) })
	}
	slices.SortStableFunc(out.Seams, func(a, b Seam) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), slices.CompareFunc(a.Sides, b.Sides, func(x, y []EdgeRef) int { return slices.CompareFunc(x, y, compareRefs) }))
	})
	slices.SortStableFunc(out.Closures, func(a, b Closure) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), compareRefs(a.Edge, b.Edge))
	})
	return out
}

// turnSides puts the two sides of a seam in the order of their names.
func (s *Seam) turnSides() {
	if len(s.Sides) != 2 || slices.CompareFunc(s.Sides[0], s.Sides[1], compareRefs) <= 0 {
		return
	}
	s.Turn()
}

// Turn exchanges the two sides of a seam.
func (s *Seam) Turn() {
	s.Sides[0], s.Sides[1] = s.Sides[1], s.Sides[0]
	s.Plies = slices.Clone(s.Plies)
	for i := range s.Plies {
		s.Plies[i].With = 1 - s.Plies[i].With
	}
}

func compareRefs(a, b EdgeRef) int {
	return cmp.Or(strings.Compare(a.Piece, b.Piece), strings.Compare(a.Edge, b.Edge), cmp.Compare(a.Hand, b.Hand))
}

// find is the edge that a reference means; false where there is none.
func (b *builder) find(r EdgeRef) (edgeKey, bool) {
	i, ok := slices.BinarySearchFunc(b.s.Plan.Pieces, r.Piece, func(p Piece, name string) int { return cmp.Compare(p.Name, name) })
	if !ok {
		return edgeKey{}, false
	}
	k := slices.IndexFunc(b.s.shapes[i].sides, func(s pieceSide) bool { return s.name == r.Edge })
	return edgeKey{i, k, r.Hand}, k >= 0
}

// use notes which seams name which edges.
func (b *builder) use() {
	b.uses = map[edgeKey][]int{}
	for i := range b.s.Plan.Seams {
		s := &b.s.Plan.Seams[i]
		for _, side := range s.Sides {
			b.useOf(i, side)
		}
		for _, ply := range s.Plies {
			b.useOf(i, ply.Edges)
		}
	}
}

func (b *builder) useOf(i int, list []EdgeRef) {
	for _, r := range list {
		k, ok := b.find(r)
		if k = k.both(); ok && !slices.Contains(b.uses[k], i) {
			b.uses[k] = append(b.uses[k], i)
		}
	}
}

// links groups what hangs together (union by the least).
type links []int

func newLinks(n int) links {
	l := make(links, n)
	for i := range l {
		l[i] = i
	}
	return l
}

func (l links) root(i int) int {
	for l[i] != i {
		l[i] = l[l[i]]
		i = l[i]
	}
	return i
}

// sizes is how many hang together with each root; 0 of all others.
func (l links) sizes() []int {
	out := make([]int, len(l))
	for i := range l {
		out[l.root(i)]++
	}
	return out
}

func (l links) link(a, b int) {
	a, b = l.root(a), l.root(b)
	l[max(a, b)] = min(a, b)
}

// sides lists the sides that stand for an edge in a layer.
func (b *builder) sidesOf(k edgeKey, layer string) []SideID {
	var out []SideID
	for _, c := range b.copiesOf(k.piece, layer) {
		if k.hand == 0 || b.s.Copies[c].cut == k.hand {
			out = append(out, b.s.Copies[c].Sides[k.side])
		}
	}
	return out
}

func (b *builder) copiesOf(piece int, layer string) []CopyID {
	if at := slices.Index(b.s.Plan.Pieces[piece].Layers, layer); at >= 0 && at < len(b.groups[piece]) {
		return b.groups[piece][at]
	}
	return nil
}

// add lays a join.
func (b *builder) add(j Join) {
	id := JoinID(len(b.s.Joins))
	b.s.Joins = append(b.s.Joins, j)
	ends := []SideID{j.A.Side, j.B.Side}
	if j.A.Side == j.B.Side {
		ends = ends[:1]
	}
	for _, at := range ends {
		side := &b.s.Sides[at]
		if j.Kind == Caught {
			side.beside = append(side.beside, id)
		} else {
			side.joins = append(side.joins, id)
		}
	}
	if j.Kind.surface() {
		b.links.link(int(b.s.Sides[j.A.Side].Copy), int(b.s.Sides[j.B.Side].Copy))
	}
}

// whole is all of a side.
func (s *Surface) whole(id SideID) Span { return Span{id, 0, s.Sides[id].Closed} }

// free reports whether nothing of the surface is joined to a side yet.
func (s *Surface) free(id SideID) bool { return len(s.Sides[id].joins) == 0 && !s.Sides[id].Fold }
