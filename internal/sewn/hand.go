package sewn

import "slices"

// A parity says how two edges run as they are drawn.
type parity int8

const (
	unsure  parity = 0
	alike   parity = 1  // start by start: the copies are of opposite hand
	against parity = -1 // the copies are of one hand
)

// parityOf reads from their neighbours how two edges run to each other: what
// their ends have in common tells which ends meet. seam is the one that joins
// them, which tells nothing.
func (b *builder) parityOf(x, y edgeKey, seam int) parity {
	if x = x.both(); x == y.both() {
		return alike
	}
	y = y.both()
	before := func(k edgeKey) edgeKey { return b.beside(k, -1) }
	after := func(k edgeKey) edgeKey { return b.beside(k, 1) }
	same := b.common(before(x), before(y), seam) + b.common(after(x), after(y), seam)
	cross := b.common(before(x), after(y), seam) + b.common(after(x), before(y), seam)
	switch {
	case same > cross:
		return alike
	case cross > same:
		return against
	}
	return unsure
}

func (b *builder) beside(k edgeKey, by int) edgeKey {
	n := len(b.s.shapes[k.piece].sides)
	return edgeKey{piece: k.piece, side: (k.side + by + n) % n}
}

// common counts what two edges have in common. That a seam joins them is known; that
// they are called alike, or finished together, only makes it likely that they meet, and a
// rectangle's left is sewn to the next one's right.
func (b *builder) common(x, y edgeKey, seam int) int {
	one, two := &b.s.shapes[x.piece].sides[x.side], &b.s.shapes[y.piece].sides[y.side]
	n := 0
	for _, shared := range [...]bool{
		x == y,
		one.name == two.name,
		one.note.Level != "" && one.note.Level == two.note.Level,
		one.note.Finish != "" && one.note.Finish == two.note.Finish,
		one.fold && two.fold,
	} {
		if shared {
			n++
		}
	}
	if slices.ContainsFunc(b.uses[x], func(i int) bool { return i != seam && slices.Contains(b.uses[y], i) }) {
		n += 2
	}
	return n
}

// settleHands finds for every piece that is drawn whole, and may be drawn from
// either side, from which side it is: the hands that all its seams agree on.
func (b *builder) settleHands() {
	n := len(b.s.Plan.Pieces)
	h := hands{up: newLinks(n), turn: make([]int8, n)}
	for i := range h.turn {
		h.turn[i] = 1
	}
	for _, sure := range [...]bool{true, false} {
		for i := range b.s.Plan.Seams {
			b.handsOf(i, &h, sure)
		}
	}
	for i := range b.s.Plan.Seams {
		b.handsOfRun(i, &h)
	}
	for i := range b.s.Plan.Seams {
		b.handsInDoubt(i, &h)
	}
	for i := range b.s.Plan.Pieces {
		if !b.whole(i) {
			continue
		}
		if _, turn := h.root(i); turn < 0 {
			for _, group := range b.groups[i] {
				for _, c := range group {
					b.s.Copies[c].Hand = -b.s.Copies[c].Hand
				}
			}
		}
	}
}

// whole reports whether a piece is drawn whole and cut one way up, so that
// either of its sides may be the right one.
func (b *builder) whole(piece int) bool {
	p := &b.s.Plan.Pieces[piece]
	return !p.OnFold && !p.Mirrored && !p.AsDrawn
}

// A pairOfLines are two lines of edges that a seam lays on each other.
type pairOfLines [2][]EdgeRef

// linesOf are the lines that a seam lays on each other: its sides, and each ply with
// what it lies along.
func (s *Seam) linesOf() []pairOfLines {
	if len(s.Sides) != 2 {
		return nil
	}
	out := []pairOfLines{{s.Sides[0], s.Sides[1]}}
	for _, p := range s.Plies {
		out = append(out, pairOfLines{p.Along, p.Edges})
	}
	return out
}

func (l pairOfLines) single() bool { return len(l[0]) == 1 && len(l[1]) == 1 }

// handsOf lets one seam say which of its pieces is turned over.
func (b *builder) handsOf(i int, h *hands, sure bool) {
	s := &b.s.Plan.Seams[i]
	for _, l := range s.linesOf() {
		if !l.single() || s.Run {
			continue
		}
		x, ok1 := b.find(l[0][0])
		y, ok2 := b.find(l[1][0])
		if !ok1 || !ok2 || x.piece == y.piece || !b.whole(x.piece) || !b.whole(y.piece) {
			continue
		}
		p := b.parityOf(x, y, i)
		if p == unsure || sure != (!b.s.shapes[x.piece].own && !b.s.shapes[y.piece].own) {
			continue
		}
		if !h.link(x.piece, y.piece, -int8(p)) && sure {
			b.snag(Snag{Kind: Twisted, Seam: i, Edges: []EdgeRef{l[0][0], l[1][0]}})
		}
	}
}

// handsOfRun lets a seam of several edges to a side say the same, where nothing
// surer did.
func (b *builder) handsOfRun(i int, h *hands) {
	s := &b.s.Plan.Seams[i]
	for _, l := range s.linesOf() {
		if !l.single() {
			b.handsOfLines(i, l, h)
		}
	}
}

func (b *builder) handsOfLines(i int, l pairOfLines, h *hands) {
	for _, one := range l[0] {
		for _, two := range l[1] {
			x, ok1 := b.find(one)
			y, ok2 := b.find(two)
			if !ok1 || !ok2 || x.piece == y.piece || !b.whole(x.piece) || !b.whole(y.piece) {
				continue
			}
			if p := b.parityOf(x, y, i); p != unsure {
				h.link(x.piece, y.piece, -int8(p))
			}
		}
	}
}

// handsInDoubt keeps two pieces as they are drawn that no seam tells the hands of, and
// notes that one of them may lie the other way up. A piece that is its own mirror image
// may lie as it likes.
func (b *builder) handsInDoubt(i int, h *hands) {
	s := &b.s.Plan.Seams[i]
	if s.Run || len(s.Sides) != 2 || len(s.Sides[0]) != 1 || len(s.Sides[1]) != 1 {
		return
	}
	x, ok1 := b.find(s.Sides[0][0])
	y, ok2 := b.find(s.Sides[1][0])
	if !ok1 || !ok2 || !b.whole(x.piece) || !b.whole(y.piece) || b.s.shapes[x.piece].own || b.s.shapes[y.piece].own {
		return
	}
	one, turn := h.root(x.piece)
	two, other := h.root(y.piece)
	if one == two {
		return
	}
	together := turn * other
	if b.doubt(doubt{WhichWayUp, s.Name, []string{s.Sides[0][0].Piece, s.Sides[1][0].Piece}}) {
		together = -together
	}
	h.link(x.piece, y.piece, together)
}

// hands are pieces with the hands they have to each other (union-find with
// parity).
type hands struct {
	up   links
	turn []int8 // to the one above
}

func (h *hands) root(i int) (root int, turn int8) {
	turn = 1
	for h.up[i] != i {
		turn *= h.turn[i]
		i = h.up[i]
	}
	return i, turn
}

// link says that two pieces are of one hand (1) or of opposite hands (−1);
// false where that contradicts what was said before.
func (h *hands) link(a, b int, turn int8) bool {
	ra, ta := h.root(a)
	rb, tb := h.root(b)
	if ra == rb {
		return ta*tb == turn
	}
	low, high := min(ra, rb), max(ra, rb)
	h.up[high], h.turn[high] = low, ta*tb*turn
	return true
}
