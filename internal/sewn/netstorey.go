package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// A storey is units that seams of one edge to one edge join, laid.
type storey struct {
	body
	units []int
}

// storeys lays every storey by itself.
func (t *netting) storeys() []*storey {
	single := t.ties(true)
	laid := make([]bool, len(t.units))
	var out []*storey
	for {
		root := t.root(laid, single)
		if root < 0 {
			return out
		}
		out = append(out, t.storey(root, laid, single))
	}
}

// root is the unit that a storey is laid from: of what hangs together the
// largest, rather a piece opened at the fold. −1 where all are laid.
func (t *netting) root(laid []bool, single []tie) int {
	first := slices.Index(laid, false)
	if first < 0 {
		return -1
	}
	l := newLinks(len(t.units))
	for _, k := range single {
		l.link(k.to[0], k.to[1])
	}
	largest, fold := first, -1
	for u := range t.units {
		if l.root(u) != l.root(first) || laid[u] {
			continue
		}
		if t.units[u].area > t.units[largest].area+1 {
			largest = u
		}
		if t.units[u].fold && (fold < 0 || t.units[u].area > t.units[fold].area+1) {
			fold = u
		}
	}
	if fold >= 0 && t.units[fold].area > 0.4*t.units[largest].area {
		return fold
	}
	return t.farFromOpening(largest, single)
}

// farFromOpening is of alike units the one that lies farthest, from seam to seam,
// from where a zip or buttons open the garment: the middle of the net.
func (t *netting) farFromOpening(unit int, single []tie) int {
	piece := func(u int) int { return t.s.Copies[t.units[u].laid[0].Copy].Piece }
	steps := map[int]int{}
	var next []int
	for _, k := range single {
		if t.s.Joins[k.join].Kind == Closing {
			for _, u := range k.to {
				if _, ok := steps[u]; !ok {
					steps[u], next = 0, append(next, u)
				}
			}
		}
	}
	for ; len(next) > 0; next = next[1:] {
		for _, k := range single {
			for side, u := range k.to {
				to := k.to[1-side]
				if _, ok := steps[to]; u == next[0] && k.size > 0 && !ok {
					steps[to], next = steps[u]+1, append(next, to)
				}
			}
		}
	}
	best := unit
	for u := range t.units {
		if piece(u) == piece(unit) && steps[u] > steps[best] {
			best = u
		}
	}
	return best
}

// storey lays a storey from its root: always the longest join from what is laid
// to what is not.
func (t *netting) storey(root int, laid []bool, single []tie) *storey {
	laid[root] = true
	st := &storey{units: []int{root}}
	for {
		best := -1
		for i, k := range single {
			if slices.Contains(st.units, k.to[0]) == slices.Contains(st.units, k.to[1]) {
				continue
			}
			if best < 0 || k.size > single[best].size+touch {
				best = i
			}
		}
		if best < 0 {
			break
		}
		k := single[best]
		if !slices.Contains(st.units, k.to[0]) {
			k.to[0], k.to[1] = k.to[1], k.to[0]
		}
		t.beside(k, st)
		laid[k.to[1]] = true
		st.units = append(st.units, k.to[1])
	}
	for _, u := range st.units {
		st.laid, st.area = append(st.laid, t.units[u].laid...), st.area+t.units[u].area
	}
	t.hang(st)
	return st
}

// hang turns a storey of a ring's panels so that the middle of them hangs down
// below the waist.
func (t *netting) hang(st *storey) {
	var sum, first shape.Point
	for i := range st.laid {
		l := &st.laid[i]
		if t.s.Plan.Pieces[t.s.Copies[l.Copy].Piece].Arc == 0 {
			return
		}
		way := l.At(t.axis(l.Copy)).Sub(l.At(shape.Point{}))
		if i == 0 {
			first = way
		}
		sum = sum.Add(way)
	}
	if long(sum) < 0.3*long(first) { // all round: that from which the rest was laid
		sum = first
	}
	st.turn(math.Atan2(cross(sum, shape.Point{Y: -1}), dot(sum, shape.Point{Y: -1})))
}

// axis is which way a panel of a ring lies from the ring's middle, as drawn.
func (t *netting) axis(id CopyID) shape.Point {
	ring, _ := t.s.Plan.Pieces[t.s.Copies[id].Piece].Outline.Flatten(within)
	var sum shape.Point
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		size := long(q.Sub(p))
		sum = sum.Add(shape.Point{X: float64((p.X + q.X) * size), Y: float64((p.Y + q.Y) * size)})
	}
	if size := long(sum); size > 0 {
		return shape.Point{X: sum.X / size, Y: sum.Y / size}
	}
	return shape.Point{Y: -1}
}

// uprightWithin is how far a piece may have to turn to face what it meets, in
// radians, and still be laid upright.
const uprightWithin = 40 * math.Pi / 180

// beside lays a unit beside the one it meets.
func (t *netting) beside(k tie, st *storey) {
	j := &t.s.Joins[k.join]
	one, two := j.A, j.B
	if t.unitOf[t.s.Sides[one.Side].Copy] != k.to[0] {
		one, two = two, one
	}
	there := chordOf(t.lineOf(one))
	b := t.units[k.to[1]]
	here := chordOf(t.lineOf(two))
	b.turn(t.facing(k.to[1], st, here, there))
	here = chordOf(t.lineOf(two))
	way := straightened(there.out)
	start := there.mid.Add(shape.Point{X: float64(way.X * t.net.Gap), Y: float64(way.Y * t.net.Gap)})
	b.move(start.Sub(here.mid))
	b.push(way, t.net.Gap/2, t.laidOf(st), t.net.Gap)
}

func (t *netting) laidOf(st *storey) []*body {
	var out []*body
	for _, u := range st.units {
		out = append(out, t.units[u])
	}
	return out
}

// facing is by how much a unit is turned to face what it meets: not at all where
// it nearly does, or is the mirror image of one that is laid; a panel of a ring
// always as much as it takes.
func (t *netting) facing(unit int, st *storey, here, there chord) float64 {
	back := shape.Point{X: -there.out.X, Y: -there.out.Y}
	turn := math.Atan2(cross(here.out, back), dot(here.out, back))
	l := &t.units[unit].laid[0]
	c := &t.s.Copies[l.Copy]
	if t.s.Plan.Pieces[c.Piece].Arc > 0 {
		return turn
	}
	for _, u := range st.units {
		o := &t.units[u].laid[0]
		if other := &t.s.Copies[o.Copy]; other.Piece == c.Piece && o.over != l.over && !t.units[u].fold {
			return -o.Turn
		}
	}
	if math.Abs(turn) <= uprightWithin {
		return 0
	}
	return turn
}

// straightened is a way that nearly runs level or upright, made so: hems that
// should lie on one line then do.
func straightened(way shape.Point) shape.Point {
	switch x, y := math.Abs(way.X), math.Abs(way.Y); {
	case x > 0.85:
		return shape.Point{X: math.Copysign(1, way.X)}
	case y > 0.85:
		return shape.Point{Y: math.Copysign(1, way.Y)}
	}
	return way
}

// lineOf is where a stretch lies among the units.
func (t *netting) lineOf(sp Span) []shape.Point {
	id := t.s.Sides[sp.Side].Copy
	l := t.units[t.unitOf[id]].of(id)
	out := t.s.drawn(sp)
	for i := range out {
		out[i] = l.At(out[i])
	}
	return out
}
