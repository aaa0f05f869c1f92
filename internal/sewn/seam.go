package sewn

import "slices"

// seam lays the joins of a seam of single edges, and answers the lines that are
// to be laid once all of those are.
func (b *builder) seam(i int) []*run {
	s := &b.s.Plan.Seams[i]
	if len(s.Sides) < 2 {
		return nil
	}
	var keys [2][]edgeKey
	for k := range keys {
		if keys[k] = b.findAll(s.Sides[k]); len(keys[k]) == 0 {
			return nil
		}
	}
	return append(b.meet(i, keys[0], keys[1], s.Turns), b.caughtIn(i)...)
}

// caughtIn lays the joins of what is caught in a seam beside its sides: each ply to
// what it lies along, and of two of one layer, one behind either side, to each
// other as the sides are.
func (b *builder) caughtIn(i int) (runs []*run) {
	s := &b.s.Plan.Seams[i]
	met := make([]bool, len(s.Plies))
	for k := range s.Plies {
		mine := b.findAll(s.Plies[k].Edges)
		along := b.findAll(s.Plies[k].Along)
		if len(mine) == 0 || len(along) == 0 {
			continue
		}
		for o := k + 1; o < len(s.Plies) && !met[k]; o++ {
			theirs := b.findAll(s.Plies[o].Edges)
			if met[o] || s.Plies[o].With == s.Plies[k].With || len(theirs) == 0 || len(b.layersOf(append(slices.Clone(mine), theirs...))) == 0 {
				continue
			}
			met[k], met[o] = true, true
			runs = append(runs, b.meet(i, mine, theirs, s.Turns)...)
		}
		runs = append(runs, b.meet(i, along, mine, true)...)
	}
	return runs
}

// findAll are edges by their place; none where one of them is not there.
func (b *builder) findAll(list []EdgeRef) []edgeKey {
	out := make([]edgeKey, 0, len(list))
	for _, r := range list {
		key, ok := b.find(r)
		if !ok {
			return nil
		}
		out = append(out, key)
	}
	return out
}

// meet joins two lines of edges in every layer that has both; where none has,
// across layers.
func (b *builder) meet(i int, x, y []edgeKey, behind bool) (runs []*run) {
	both := b.layersOf(append(slices.Clone(x), y...))
	for _, layer := range both {
		kind := Sewn
		if behind || b.givesWay(i, append(slices.Clone(x), y...), layer) {
			kind = Caught
		}
		runs = append(runs, b.meetIn(i, x, y, layer, layer, kind)...)
	}
	if len(both) > 0 {
		return runs
	}
	mine, theirs := b.layersOf(x), b.layersOf(y)
	if len(mine) == 0 || len(theirs) == 0 {
		return nil
	}
	return b.meetIn(i, x, y, mine[0], theirs[0], Caught)
}

// layersOf are the layers in which all the edges are cut, in the order of the
// first one's piece.
func (b *builder) layersOf(list []edgeKey) []string {
	var out []string
	for _, layer := range b.s.Plan.Pieces[list[0].piece].Layers {
		all := !slices.Contains(out, layer)
		for _, k := range list {
			all = all && slices.Contains(b.s.Plan.Pieces[k.piece].Layers, layer)
		}
		if all {
			out = append(out, layer)
		}
	}
	return out
}

// givesWay reports whether another seam of the same layer has one of the edges
// and goes before this one: an edge makes part of the surface once, and what
// else is sewn to it there is caught in.
func (b *builder) givesWay(i int, list []edgeKey, layer string) bool {
	for _, k := range list {
		for _, other := range b.uses[k.both()] {
			if other == i || !b.onSide(other, k) || !b.inSurface(other, layer) {
				continue
			}
			mine, theirs := b.behindness(i, k), b.behindness(other, k)
			if theirs < mine {
				return true
			}
			if theirs == mine && other < i {
				if b.sameEdges(i, other) { // a second row over the same edges
					return true
				}
				b.snag(Snag{Kind: SewnTwice, Seam: i, Edges: []EdgeRef{b.ref(k)}, Counts: [2]int{other, i}})
				return true
			}
		}
	}
	return false
}

// onSide reports whether an edge lies on a side of a seam, and is not only caught
// in it.
func (b *builder) onSide(i int, k edgeKey) bool {
	r := b.ref(k)
	return slices.ContainsFunc(b.s.Plan.Seams[i].Sides, func(side []EdgeRef) bool { return slices.ContainsFunc(side, r.meets) })
}

// sameEdges reports whether two seams join the same edges.
func (b *builder) sameEdges(i, k int) bool {
	all := func(s *Seam) []EdgeRef {
		out := slices.Concat(s.Sides...)
		slices.SortFunc(out, compareRefs)
		return out
	}
	return slices.Equal(all(&b.s.Plan.Seams[i]), all(&b.s.Plan.Seams[k]))
}

func (b *builder) ref(k edgeKey) EdgeRef {
	return EdgeRef{b.s.Plan.Pieces[k.piece].Name, b.s.shapes[k.piece].sides[k.side].name, k.hand}
}

// inSurface reports whether a seam joins edges within a layer, and turns none.
func (b *builder) inSurface(i int, layer string) bool {
	s := &b.s.Plan.Seams[i]
	if s.Turns {
		return false
	}
	for _, side := range s.Sides {
		for _, r := range side {
			k, ok := b.find(r)
			if !ok || !slices.Contains(b.s.Plan.Pieces[k.piece].Layers, layer) {
				return false
			}
		}
	}
	return true
}

// behindness says how likely what a seam joins to an edge lies behind: 1 where
// its name says so, or where it is like the piece itself.
func (b *builder) behindness(i int, k edgeKey) int {
	own := b.s.Plan.Pieces[k.piece].Name
	for _, side := range b.s.Plan.Seams[i].Sides {
		for _, r := range side {
			q, ok := b.find(r)
			if !ok || q.piece == k.piece {
				continue
			}
			if p := &b.s.Plan.Pieces[q.piece]; p.Behind || p.Like == own {
				return 1
			}
		}
	}
	return 0
}

// meetIn joins two lines of edges, one in each of two layers.
func (b *builder) meetIn(i int, x, y []edgeKey, mine, theirs string, kind Kind) []*run {
	s := &b.s.Plan.Seams[i]
	sides := [2][]SideID{b.sidesOfAll(x, mine), b.sidesOfAll(y, theirs)}
	for _, list := range sides {
		for _, id := range list {
			b.s.Sides[id].seams = append(b.s.Sides[id].seams, i)
		}
	}
	single := len(x) == 1 && len(y) == 1 && !s.Run && s.Overlap == 0
	if single && (x[0] == y[0] || len(sides[0]) == len(sides[1])) {
		b.pair(i, x[0], y[0], sides, kind)
		return nil
	}
	return []*run{{seam: i, kind: kind, edges: [2][]edgeKey{x, y}, sides: sides, layers: [2]string{mine, theirs}}}
}

func (b *builder) sidesOfAll(list []edgeKey, layer string) []SideID {
	var out []SideID
	for _, k := range list {
		out = append(out, b.sidesOf(k, layer)...)
	}
	return out
}

// pair joins the copies of one edge to those of another.
func (b *builder) pair(i int, x, y edgeKey, sides [2][]SideID, kind Kind) {
	p := b.parityOf(x, y, i)
	if p == unsure {
		p = b.byHands(sides)
		if x.piece == y.piece {
			p = against
		}
	}
	if x.piece == y.piece && x != y && p == against {
		b.round(i, x, sides, kind)
		return
	}
	m := pairing{b: b, seam: i, kind: kind, want: -int8(p), turns: x == y && b.s.shapes[x.piece].sides[x.side].turns, taken: map[SideID]bool{}, corners: b.corners()}
	for _, id := range sides[0] {
		m.find(id, sides[1], x == y)
	}
	if m.left > 0 {
		fault := Snag{Kind: SameHand, Seam: i, Edges: []EdgeRef{b.ref(x), b.ref(y)}, Counts: [2]int{len(sides[0]), len(sides[1])}}
		if x == y && len(sides[0])%2 != 0 {
			fault.Kind = Uneven
		}
		b.snag(fault)
	}
}

// byHands is how edges run that nothing else tells of: as the hands their copies
// have already want it, else alike.
func (b *builder) byHands(sides [2][]SideID) parity {
	product := int8(0)
	for _, x := range sides[0] {
		for _, y := range sides[1] {
			one, two := &b.s.Copies[b.s.Sides[x].Copy], &b.s.Copies[b.s.Sides[y].Copy]
			switch p := one.Hand * two.Hand; {
			case one.free || two.free, product != 0 && p != product:
				return alike
			default:
				product = p
			}
		}
	}
	if product == 0 {
		return alike
	}
	return -parity(product)
}

// A pairing finds for each side the one it meets.
type pairing struct {
	b     *builder
	seam  int
	kind  Kind
	want  int8 // the product of the hands
	turns bool // an edge to itself that lies on itself turned over: two of any hands fit
	taken map[SideID]bool
	left  int

	corners vertices // as they were before this seam
}

// find joins a side to the first one that fits: before others one that meets it
// at a corner already, as the second side of a godet does that of its slit; then
// one of a copy that does not hang together with its own yet, so that the
// garment does.
func (m *pairing) find(id SideID, among []SideID, self bool) {
	b := m.b
	if m.taken[id] || m.kind == Sewn && !b.s.free(id) {
		return
	}
	best, rank := SideID(-1), 0
	for _, other := range among {
		if other == id && self || m.taken[other] || m.kind == Sewn && !b.s.free(other) || !m.fits(id, other) {
			continue
		}
		r := 1
		switch {
		case m.cornered(id, other):
			r = 3
		case b.links.root(int(b.s.Sides[id].Copy)) != b.links.root(int(b.s.Sides[other].Copy)):
			r = 2
		}
		if r > rank {
			best, rank = other, r
		}
	}
	if best < 0 {
		m.left++
		return
	}
	m.taken[id], m.taken[best] = true, true
	m.lay(id, best)
}

// cornered reports whether two sides that run against each other meet at a
// corner already.
func (m *pairing) cornered(x, y SideID) bool {
	s := m.b.s
	begins := func(id SideID) int { return m.corners.of(s, id, 0) }
	ends := func(id SideID) int { return m.corners.of(s, id, s.Sides[id].Closed) }
	return s.Sides[x].Copy != s.Sides[y].Copy && (begins(x) == ends(y) || ends(x) == begins(y))
}

func (m *pairing) fits(x, y SideID) bool {
	one, two := &m.b.s.Copies[m.b.s.Sides[x].Copy], &m.b.s.Copies[m.b.s.Sides[y].Copy]
	return one.Hand*two.Hand == m.want || one != two && (m.turns || one.free || two.free)
}

func (m *pairing) lay(x, y SideID) {
	one, two := &m.b.s.Copies[m.b.s.Sides[x].Copy], &m.b.s.Copies[m.b.s.Sides[y].Copy]
	if one.Hand*two.Hand != m.want && one != two {
		switch {
		case two.free:
			two.Hand = -two.Hand
		case one.free:
			one.Hand = -one.Hand
		}
	}
	one.free, two.free = false, false
	m.b.add(Join{A: m.b.s.whole(x), B: m.b.s.whole(y), Seam: m.seam, Kind: m.kind, By: -1})
}

// round joins the copies of a piece one to the next, the last to the first, or
// each to itself.
func (b *builder) round(i int, x edgeKey, sides [2][]SideID, kind Kind) {
	p := &b.s.Plan.Pieces[x.piece]
	for _, hand := range [...]int8{1, -1} {
		var one, two []SideID
		for k := range sides[0] {
			if b.s.Copies[b.s.Sides[sides[0][k]].Copy].Hand == hand && b.s.free(sides[0][k]) && b.s.free(sides[1][k]) {
				one, two = append(one, sides[0][k]), append(two, sides[1][k])
			}
		}
		n := len(one)
		shift := 1
		if n > 1 && b.roundOf(i, p, n) == RoundEach {
			shift = 0
		}
		for k := range one {
			b.s.Copies[b.s.Sides[one[k]].Copy].free = false
			b.add(Join{A: b.s.whole(one[k]), B: b.s.whole(two[(k+shift)%n]), Seam: i, Kind: kind, By: -1})
		}
	}
}

// roundOf says whether copies that are sewn to each other make one ring.
func (b *builder) roundOf(i int, p *Piece, n int) Round {
	s := &b.s.Plan.Seams[i]
	said, ok := b.said.rounds[s.Name]
	switch {
	case s.Round != RoundUnsaid:
		return s.Round
	case ok:
		return said
	case p.Arc > 0:
		return RoundOne
	case p.Mirrored || p.OnFold:
		return RoundEach
	}
	if n == 2 {
		b.doubtful[i] = []string{p.Name}
	}
	return RoundOne
}
