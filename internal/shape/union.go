package shape

import (
	"errors"
	"fmt"
	"math"

	"github.com/peterstace/simplefeatures/geom"
)

// A limit is a line beyond which some strips are cut away: where
// dot(p − at, out) > 0. It concerns count segments from first on, or, when
// count is negative, everything.
type limit struct {
	at, out      Point
	first, count int
}

// everywhere stands for a part that only such limits concern that concern
// everything.
const everywhere = -1

// sliver is the area, in square millimetres, below which a hole is left
// out: it may come from the tolerance of the curves, and nobody cuts it.
const sliver = 1

// thin is half the width, in millimetres, below which a part is left out:
// unions with needles hundreds of millimetres long and a millionth wide
// are not reliable.
const thin = 1e-4

// mostStrips bounds the work of a union; a garment's pieces have hundreds.
const mostStrips = 2000

// union finds the cut outline as the union of the outline, the strips
// beside its segments and the corners' points. It is slow and takes
// everything. Where a union fails its check, coordinates are rounded more
// coarsely, up to a ten-thousandth of a millimetre, before it is given up.
func (b *border) union() (Cut, error) {
	if len(b.base) > mostStrips {
		return Cut{}, errors.New("the outline has too many bends for its allowances to be worked out where they overlap")
	}
	parts, t := b.parts()
	if len(parts) == 0 {
		return b.attributed(append(Ring{}, b.base...), nil, b.untrimmed()), nil
	}
	var firstErr error
	for decimals := 6; decimals >= 4; decimals-- {
		whole, err := joinAll(polygon(b.base), parts, decimals)
		if err == nil {
			var cut Cut
			if cut, err = b.cutFrom(whole, t); err == nil {
				return cut, nil
			}
		}
		if firstErr == nil {
			firstErr = err
		}
	}
	return Cut{}, firstErr
}

// joinAll joins the parts and the piece, neighbours first. They are joined
// two at a time: joining many at once has been seen to leave holes where
// several of them overlap.
func joinAll(piece geom.Geometry, parts []geom.Geometry, decimals int) (geom.Geometry, error) {
	level := make([]geom.Geometry, len(parts))
	for k, p := range parts {
		level[k] = p.SnapToGrid(decimals)
	}
	for len(level) > 1 {
		joints := level[:0]
		for k := 0; k < len(level); k += 2 {
			joint := level[k]
			if k+1 < len(level) {
				var err error
				if joint, err = join(joint, level[k+1]); err != nil {
					return joint, err
				}
			}
			joints = append(joints, joint)
		}
		level = joints
	}
	return join(piece.SnapToGrid(decimals), level[0])
}

// join returns the union of two areas, checked by the sum rule: area(A) +
// area(B) = area(A∪B) + area(A∩B).
func join(a, b geom.Geometry) (geom.Geometry, error) {
	whole, err := geom.Union(a, b)
	if err != nil {
		return whole, fmt.Errorf("the allowances could not be joined: %w", err)
	}
	common, err := geom.Intersection(a, b)
	if err != nil {
		return whole, fmt.Errorf("the allowances could not be compared: %w", err)
	}
	sum := a.Area() + b.Area()
	if gap := math.Abs(sum - whole.Area() - common.Area()); !(gap <= 1e-3+1e-8*sum) {
		return whole, fmt.Errorf("joining the allowances lost %.4f mm²", gap)
	}
	return whole, nil
}

// parts are the strips beside the segments and the corners' ends, as
// convex polygons cut off at folds and, where they must be, at mirrored
// hems. They have the tops that the direct way gives them, so that both
// ways agree wherever it succeeds, and reach to the full length of their
// segments at corners where it does not.
func (b *border) parts() ([]geom.Geometry, tops) {
	t, limits := b.stripTops()
	var parts []geom.Geometry
	for k := range b.base {
		strip := Ring{b.base[k], t.from[k], t.to[k], b.base.at(k + 1)}
		parts = b.appendPart(parts, strip, limits, k)
		tip := Ring{b.base[k], t.to[b.previous(k)], t.from[k]}
		parts = b.appendPart(parts, tip, limits, everywhere)
	}
	return parts, t
}

// stripTops are the far sides of the strips, and the lines at which the
// strips end short.
func (b *border) stripTops() (tops, []limit) {
	t := b.untrimmed()
	limits := b.folds()
	for k := range b.base {
		c, j := b.turn(k), b.previous(k)
		switch f := b.finish(k); {
		case f.inward && b.of[j] == b.of[k]: // full width: a tight curve needs it, a wide one covers it
		case f.inward:
			b.trim(t, k, c) // where there is no room near by, full width again
		case !b.trimmed(t, k):
			t.to[j], t.from[k] = c.end1(), c.end2()
		}
	}
	for k := range b.base {
		f := b.finish(k)
		if !f.mirrored {
			continue
		}
		c := b.turn(k)
		if l, short := b.mirrorLimit(t, f, k, c); short {
			limits = append(limits, l)
			t.to[b.previous(k)], t.from[k] = c.end1(), c.end2()
		}
	}
	b.untangle(t)
	return t, limits
}

// untangle gives those tops that run backward, beside a curve tighter than
// its allowance, back what was trimmed off them.
func (b *border) untangle(t tops) {
	for k, dir := range b.dir {
		if dot(t.to[k].Sub(t.from[k]), dir) >= -touch {
			continue
		}
		out := dir.right().times(b.allow[k])
		begin, end := b.base[k].Add(out), b.base.at(k+1).Add(out)
		if dot(t.from[k].Sub(begin), dir) > 0 {
			t.from[k] = begin
		}
		if dot(t.to[k].Sub(end), dir) < 0 {
			t.to[k] = end
		}
	}
}

// folds are the lines of the folds, which limit everything.
func (b *border) folds() []limit {
	var limits []limit
	for k, i := range b.of {
		if b.edges[i].Fold {
			limits = append(limits, limit{b.base[k], b.dir[k].right(), 0, -1})
		}
	}
	return limits
}

// mirrorLimit is the slanting end of a mirrored hem at the corner where
// segment k begins, and whether it takes off more than the hem's nearest
// segment has.
func (b *border) mirrorLimit(t tops, f finish, k int, c turn) (limit, bool) {
	way, j := unit(f.from.Sub(f.to)), b.previous(k)
	if b.corners[b.of[k]] > b.corners[b.of[j]] {
		l := limit{f.from, way.left(), k, b.stretch(k, c, b.on)}
		return l, dot(t.to[k].Sub(f.to), b.dir[k]) < 0
	}
	count := b.stretch(j, c, b.back)
	first := (j - count + 1 + len(b.base)) % len(b.base)
	return limit{f.to, way.left(), first, count}, dot(f.from.Sub(t.from[j]), b.dir[j]) < 0
}

// stretch counts the segments of the edge beside a corner, from segment k
// on in the way that step takes, as far as the corner's allowances reach.
func (b *border) stretch(k int, c turn, step func(k, x int) int) int {
	reach := 2 * mitreLimit * max(c.a1, c.a2)
	for x := 1; x < len(b.base); x++ {
		i := step(k, x)
		if i < 0 || distance(b.base[i], c.at) > reach && distance(b.base.at(i+1), c.at) > reach {
			return x
		}
	}
	return len(b.base)
}

// appendPart adds a convex part, cut off at the limits that concern its
// segment, unless nothing is left of it.
func (b *border) appendPart(parts []geom.Geometry, r Ring, limits []limit, k int) []geom.Geometry {
	for _, l := range limits {
		if l.count < 0 || k != everywhere && (k-l.first+len(b.base))%len(b.base) < l.count {
			r = l.clip(r)
		}
	}
	sound := r[:0:len(r)]
	for _, p := range r {
		p = snap(p)
		if len(sound) == 0 || p != sound[len(sound)-1] && p != sound[0] {
			sound = append(sound, p)
		}
	}
	if r = sound; r.simple() {
		return appendSound(parts, r)
	}
	for k := 1; k+1 < len(r); k++ {
		parts = appendSound(parts, Ring{r[0], r[k], r[k+1]})
	}
	return parts
}

// appendSound adds a part unless it is a needle or turned inside out.
func appendSound(parts []geom.Geometry, r Ring) []geom.Geometry {
	if len(r) < 3 || !(r.Area() > thin*r.Perimeter()) {
		return parts
	}
	return append(parts, polygon(r))
}

// clip cuts a convex ring off at the line.
func (l limit) clip(r Ring) Ring {
	kept := make(Ring, 0, len(r)+1)
	for k, p := range r {
		q := r.at(k + 1)
		here, there := dot(p.Sub(l.at), l.out), dot(q.Sub(l.at), l.out)
		if here <= 0 {
			kept = append(kept, p)
		}
		if here < 0 && there > 0 || here > 0 && there < 0 {
			kept = append(kept, lerp(p, q, here/(here-there)))
		}
	}
	return kept
}

func polygon(r Ring) geom.Geometry {
	flat := make([]float64, 0, 2*len(r)+2)
	for k := 0; k <= len(r); k++ {
		p := r[k%len(r)]
		flat = append(flat, p.X, p.Y)
	}
	return geom.NewSingleRingPolygonXY(flat...).AsGeometry()
}

// cutFrom reads the union's rings.
func (b *border) cutFrom(g geom.Geometry, t tops) (Cut, error) {
	var whole geom.Polygon
	switch {
	case g.IsPolygon():
		whole = g.MustAsPolygon()
	case g.IsMultiPolygon():
		several := g.MustAsMultiPolygon()
		for i := range several.NumPolygons() {
			if p := several.PolygonN(i); p.Area() > whole.Area() {
				whole = p
			}
		}
	}
	if lost := math.Abs(g.Area() - whole.Area()); whole.IsEmpty() || lost > 1e-3 {
		return Cut{}, fmt.Errorf("the allowances come apart: %.4f mm² do not hang together with the piece", lost)
	}
	outer := tidied(whole.ExteriorRing(), false)
	var holes []Ring
	for i := range whole.NumInteriorRings() {
		if h := tidied(whole.InteriorRingN(i), true); h.Area() < -sliver {
			holes = append(holes, h)
		}
	}
	return b.attributed(outer, holes, t), nil
}

// tidied reads a closed line string as a ring of the wanted way round,
// snapped, without points that lie on the line between their neighbours.
func tidied(line geom.LineString, clockwise bool) Ring {
	seq := line.Coordinates()
	n := seq.Length() - 1
	r := make(Ring, 0, max(n, 0))
	for i := range n {
		xy := seq.GetXY(i)
		r = append(r, snap(Point{xy.X, xy.Y}))
	}
	if (r.Area() < 0) != clockwise {
		r = backward(r)
	}
	return r.withoutCracks().withoutIdle()
}

// crack is the width, in millimetres, below which a slit into the ring is
// an artefact of rounding between two strips.
const crack = 1e-4

// withoutCracks drops points at which the ring runs into a crack and
// straight back.
func (r Ring) withoutCracks() Ring {
	for {
		kept := make(Ring, 0, len(r))
		for k, p := range r {
			before, next := r[(k+len(r)-1)%len(r)], r.at(k+1)
			if len(kept) > 0 {
				before = kept[len(kept)-1]
			}
			in, out := p.Sub(before), next.Sub(p)
			longer := math.Sqrt(max(dot(in, in), dot(out, out)))
			slit := dot(in, out) < 0 && math.Abs(cross(in, out)) <= crack*longer
			if !slit && !nearer(p, before, joined) {
				kept = append(kept, p)
			}
		}
		if len(kept) == len(r) || len(kept) < 3 {
			return kept
		}
		r = kept
	}
}

// withoutIdle drops points that a straight line past them misses by hardly
// more than rounding, and all dropped with them in a row.
func (r Ring) withoutIdle() Ring {
	n := len(r)
	kept := make(Ring, 0, n)
	first := -1
	for k := range n {
		if !r.idle((k+n-1)%n, k, (k+1)%n) {
			first = k
			break
		}
	}
	if first < 0 {
		return r
	}
	kept = append(kept, r[first])
	last := first
	for x := 1; x < n; x++ {
		k := (first + x) % n
		if !r.idle(last, k, (k+1)%n) {
			kept = append(kept, r[k])
			last = k
		}
	}
	return kept
}

// idle reports whether all points after index from and up to k lie on the
// line from there to the point next.
func (r Ring) idle(from, k, next int) bool {
	a, b := r[from], r[next]
	if nearer(r[k], a, joined) {
		return true
	}
	way := b.Sub(a)
	limit := 2 * joined * math.Sqrt(dot(way, way))
	for i := from; i != k; {
		i = (i + 1) % len(r)
		p := r[i]
		if math.Abs(cross(way, p.Sub(a))) > limit || dot(p.Sub(a), b.Sub(p)) < 0 {
			return false
		}
	}
	return true
}

// attributed finds the edge beside each segment of the ring and starts the
// ring where the first edge's allowance begins.
func (b *border) attributed(r Ring, holes []Ring, t tops) Cut {
	of := make([]int, len(r))
	for k := range r {
		of[k] = b.edgeBeside(r[k], r.at(k+1), t)
	}
	start := 0
	for k := range of {
		if of[k] == 0 && of[(k+len(of)-1)%len(of)] != 0 {
			start = k
			break
		}
	}
	return Cut{
		Ring:  append(append(make(Ring, 0, len(r)), r[start:]...), r[:start]...),
		Of:    append(append(make([]int, 0, len(of)), of[start:]...), of[:start]...),
		Holes: holes,
	}
}

// edgeBeside is the edge that has the stretch pq on the line of one of its
// tops, the nearest if there are several, or −1.
func (b *border) edgeBeside(p, q Point, t tops) int {
	way, middle := unit(q.Sub(p)), lerp(p, q, 0.5)
	found, nearest := -1, math.Inf(1)
	for k := range b.base {
		top := unit(t.to[k].Sub(t.from[k]))
		if dot(way, top) < 0.5 {
			continue
		}
		n := top.right()
		if math.Abs(dot(p.Sub(t.from[k]), n)) > 1e-5 || math.Abs(dot(q.Sub(t.from[k]), n)) > 1e-5 {
			continue
		}
		if d := distance(middle, lerp(b.base[k], b.base.at(k+1), 0.5)); d < nearest {
			found, nearest = b.of[k], d
		}
	}
	return found
}
