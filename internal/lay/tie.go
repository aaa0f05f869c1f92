package lay

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/fault"
)

// A Tie says that two points must meet in the pattern of the cloth: after sewing the
// pattern goes on from one to the other.
type Tie struct {
	A, B   TiedPoint
	Across bool // the repeat across the cloth is meant, else the one along it
	Kind   TieKind
}

// A TiedPoint is a point of one copy, in the coordinates of its outline.
type TiedPoint struct {
	Piece, Copy int
	At          Point
}

// A TieKind says how two points meet.
type TieKind int

const (
	GoesOn TieKind = iota // the pattern is the same at both and runs the same way
	Mirror                // it is the same at both and runs the other way, as at a slanted seam
	OnLine                // A lies on a leading line; B means nothing
)

// A swing is the phase of a tied item: sign × that of its root + off. The phase is how
// far its own origin lies beyond a leading line, seen as the piece is worn.
type swing struct {
	root      int
	sign, off float64
}

// A fixing is what is settled of a root: it is at, or, where either holds, at or half a
// repeat further.
type fixing struct {
	at     float64
	either bool
}

// A knot is every tie in one direction solved as far as they can all hold.
type knot struct {
	repeat float64
	of     []swing // by item; root −1 where nothing ties it
	fixed  map[int]fixing
	untied []int // ties the earlier ones leave no room for
}

// knotOf solves the ties of one direction in their order.
func (m *model) knotOf(p *Problem, across bool) *knot {
	k := &knot{repeat: p.Cloth.RepeatAlong * m.scale, of: make([]swing, len(m.items)), fixed: map[int]fixing{}}
	if across {
		k.repeat = p.Cloth.RepeatAcross * m.scale
	}
	for i := range k.of {
		k.of[i] = swing{root: -1, sign: 1}
	}
	if k.repeat <= 0 {
		return k
	}
	for n := range p.Ties {
		t := &p.Ties[n]
		if t.Across == across && !m.tie(p, k, t) {
			k.untied = append(k.untied, n)
		}
	}
	return k
}

// tie adds one tie; false where the earlier ones leave no room for it.
func (m *model) tie(p *Problem, k *knot, t *Tie) bool {
	i, a := m.tiedItem(p, &t.A, t.Across)
	k.enter(i)
	if t.Kind == OnLine {
		s := k.of[i]
		return k.fix(s.root, fixing{at: -float64(s.sign * (s.off + a))})
	}
	j, b := m.tiedItem(p, &t.B, t.Across)
	k.enter(j)
	way := 1.0
	if t.Kind == Mirror {
		way = -1
	}
	one, two := k.of[i], k.of[j]
	if one.root != two.root {
		return k.join(one, two.root, one.sign*way*two.sign, float64(one.sign*(float64(way*(two.off+b))-one.off-a)))
	}
	rest := one.off + a - float64(way*(two.off+b))
	if one.sign == way*two.sign {
		return k.same(rest, 0, k.repeat)
	}
	return k.fix(one.root, fixing{at: -float64(one.sign*rest) / 2, either: true})
}

// enter makes an item the root of its own, unless it is tied already.
func (k *knot) enter(i int) {
	if k.of[i].root < 0 {
		k.of[i].root = i
	}
}

// join hangs everything under one's root to another root: the old root is sign × the
// new one + by.
func (k *knot) join(one swing, root int, sign, by float64) bool {
	if f, ok := k.fixed[one.root]; ok {
		if !k.fix(root, fixing{float64(sign * (f.at - by)), f.either}) {
			return false
		}
		delete(k.fixed, one.root)
	}
	for i, s := range k.of {
		if s.root == one.root {
			k.of[i] = swing{root, s.sign * sign, s.off + float64(s.sign*by)}
		}
	}
	return true
}

// fix settles a root; false where it is settled otherwise.
func (k *knot) fix(root int, f fixing) bool {
	was, ok := k.fixed[root]
	step := k.repeat
	if ok && (was.either || f.either) {
		step /= 2
	}
	if ok && !k.same(was.at, f.at, step) {
		return false
	}
	if !ok || was.either {
		k.fixed[root] = f
	}
	return true
}

func (k *knot) same(a, b, step float64) bool {
	return math.Abs(math.Remainder(a-b, step)) <= 1e-6*k.repeat
}

// tiedItem is the item of a copy, and how far the point lies from its origin as worn.
func (m *model) tiedItem(p *Problem, t *TiedPoint, across bool) (int, float64) {
	sin, cos := sinCosDegrees(p.Pieces[t.Piece].Shown)
	v := float64(t.At.X*cos) - float64(t.At.Y*sin)
	if across {
		v = float64(t.At.X*sin) + float64(t.At.Y*cos)
		if p.Pieces[t.Piece].Mirrored && t.Copy%2 == 1 {
			v = -v
		}
	}
	for i := range m.items {
		it := &m.items[i]
		if it.piece == t.Piece && (it.copy == t.Copy || it.pair && it.copy == t.Copy-1) {
			return i, v * m.scale
		}
	}
	return 0, 0 // check has seen to it that there is one
}

// untied are the ties for which the others leave no room.
func (m *model) untied() []int { return slices.Concat(m.along.untied, m.across.untied) }

// Untied are the ties of a problem for which the others leave no room where copies are cut
// as they are in a plan: two that lie on each other have one place in the pattern.
func (p *Problem) Untied(plan *Plan) []int {
	m := &model{scale: 1}
	for _, at := range plan.Placements {
		m.items = append(m.items, item{piece: at.Piece, copy: at.Copy, pair: at.Pair})
	}
	m.along, m.across = m.knotOf(p, false), m.knotOf(p, true)
	return m.untied()
}

// tied reports whether a tie names a piece.
func (p *Problem) tied(piece int) bool {
	for i := range p.Ties {
		if t := &p.Ties[i]; t.A.Piece == piece || t.Kind != OnLine && t.B.Piece == piece {
			return true
		}
	}
	return false
}

// tieFaults says what is wrong with the ties of a problem.
func tieFaults(p *Problem) fault.List {
	var fs fault.List
	say := func(n int, format string, a ...any) {
		fs = append(fs, fault.Fault{Of: fmt.Sprintf("tie %d", n+1), Severity: fault.Error, Message: fmt.Sprintf(format, a...)})
	}
	for n := range p.Ties {
		t := &p.Ties[n]
		ends := []*TiedPoint{&t.A, &t.B}
		if t.Kind == OnLine {
			ends = ends[:1]
		}
		for _, e := range ends {
			switch {
			case e.Piece < 0 || e.Piece >= len(p.Pieces) || e.Copy < 0 || e.Copy >= max(1, p.Pieces[e.Piece].Quantity):
				say(n, "there is no copy %d of piece %d", e.Copy, e.Piece)
			case !finite(e.At):
				say(n, "its point is not a number")
			}
		}
		if t.Across && t.Kind != GoesOn && !p.Cloth.Lined {
			say(n, "it is not said where a leading line runs")
		}
	}
	return fs
}
