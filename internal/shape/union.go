package shape

import (
	"errors"
	"fmt"
	"math"

	"github.com/peterstace/simplefeatures/geom"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// sliver is the area, in square millimetres, below which a hole is left
// out: it may come from the tolerance of the curves, and nobody cuts it.
const sliver = 1

// mostStrips bounds the work of a union; a garment's pieces have hundreds.
const mostStrips = 2000

// union finds the cut outline as the union of the outline, the strips
// beside its segments and the corners' points. It is slow and takes
// everything. Where a union fails its check, coordinates are rounded more
// coarsely, up to a ten-thousandth of a millimetre, before it is given up.
func (b *border) union() (Cut, error) {
	if len(b.base) > mostStrips {
		return Cut{}, errors.New(say.Of("shape.the-outline-has-too-many-bends-for"))
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
		return whole, fault.Wrapping(err, say.Of("shape.the-allowances-could-not-be-joined", err))
	}
	common, err := geom.Intersection(a, b)
	if err != nil {
		return whole, fault.Wrapping(err, say.Of("shape.the-allowances-could-not-be-compared", err))
	}
	sum := a.Area() + b.Area()
	if gap := math.Abs(sum - whole.Area() - common.Area()); !(gap <= 1e-3+1e-8*sum) {
		return whole, errors.New(say.Of("shape.joining-the-allowances-lost-mm", fmt.Sprintf("%.4f", gap)))
	}
	return whole, nil
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
		return Cut{}, errors.New(say.Of("shape.the-allowances-come-apart-mm-do-not", fmt.Sprintf("%.4f", lost)))
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
