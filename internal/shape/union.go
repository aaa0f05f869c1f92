package shape

import (
	"fmt"
	"math"

	"github.com/peterstace/simplefeatures/geom"
)

// A limit is a line beyond which the strip of one edge (or, when edge is
// −1, every strip) is cut away: where dot(p − at, out) > 0. It reaches
// only parts that come within reach of at.
type limit struct {
	at, out Point
	edge    int
	reach   float64
}

// sliver is the area, in square millimetres, below which a part or a hole
// is an artefact of rounding.
const sliver = 1e-4

// thin is half the width, in millimetres, below which a part is left out:
// unions with needles hundreds of millimetres long and a millionth wide
// are not reliable.
const thin = 1e-4

// union finds the cut outline as the union of the outline, the strips
// beside its segments and the corners' points. It is slow and takes
// everything. Where a union fails its check, coordinates are rounded more
// coarsely, up to a ten-thousandth of a millimetre, before it is given up.
func (b *border) union() (Cut, error) {
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

// joinAll joins the parts and the piece, checked by the sum rule: area(A)
// + area(B) = area(A∪B) + area(A∩B).
func joinAll(piece geom.Geometry, parts []geom.Geometry, decimals int) (geom.Geometry, error) {
	piece = piece.SnapToGrid(decimals)
	snapped := make([]geom.Geometry, len(parts), len(parts)+1)
	for k, p := range parts {
		snapped[k] = p.SnapToGrid(decimals)
	}
	strips, err := geom.UnionMany(snapped)
	if err != nil {
		return strips, fmt.Errorf("the allowances could not be joined: %w", err)
	}
	whole, err := geom.UnionMany(append(snapped, piece))
	if err != nil {
		return whole, fmt.Errorf("the piece and its allowances could not be joined: %w", err)
	}
	common, err := geom.Intersection(piece, strips)
	if err != nil {
		return whole, fmt.Errorf("the piece and its allowances could not be compared: %w", err)
	}
	sum := piece.Area() + strips.Area()
	if gap := math.Abs(sum - whole.Area() - common.Area()); !(gap <= 0.05+1e-7*sum) {
		return whole, fmt.Errorf("joining the piece and its allowances lost %.4f mm²", gap)
	}
	return whole, nil
}

// parts are the strips beside the segments and the corners' ends, as
// convex polygons cut off at folds and mirrored hems.
func (b *border) parts() ([]geom.Geometry, tops) {
	finishes := make([]finish, len(b.base))
	for k := range finishes {
		finishes[k] = b.finish(k)
	}
	limits := b.limits(finishes)
	var parts []geom.Geometry
	t := b.stripTops(finishes)
	for k, f := range finishes {
		strip := Ring{b.base[k], t.from[k], t.to[k], b.base.at(k + 1)}
		parts = appendPart(parts, strip, limits, b.edges, b.of[k])
		if !f.inward {
			tip := Ring{b.base[k], f.from, f.to}
			parts = appendPart(parts, tip, limits, b.edges, b.of[b.before(k)])
		}
	}
	return parts, t
}

// stripTops are the far sides of the strips: extended at outward corners,
// trimmed at those inward ones that have room for it, and never shorter
// than their segment otherwise.
func (b *border) stripTops(finishes []finish) tops {
	t := b.untrimmed()
	for k, f := range finishes {
		c, j := b.turn(k), b.before(k)
		if f.ruled && dot(f.from.Sub(c.end1()), c.in) < 0 {
			t.to[j] = c.end1()
		}
		if f.ruled && dot(f.to.Sub(c.end2()), c.out) > 0 {
			t.from[k] = c.end2()
		}
	}
	for k, f := range finishes {
		if f.inward {
			b.trim(t, k, b.turn(k))
		}
	}
	for k := range b.base {
		if dot(t.to[k].Sub(t.from[k]), b.dir[k]) <= 0 { // a curve tighter than its allowance
			out := b.dir[k].right().times(b.allow[k])
			t.from[k], t.to[k] = b.base[k].Add(out), b.base.at(k+1).Add(out)
		}
	}
	return t
}

// limits are the lines of the folds and the slanting ends of mirrored hems.
func (b *border) limits(finishes []finish) []limit {
	var limits []limit
	for k, f := range finishes {
		if b.edges[b.of[k]].Fold {
			limits = append(limits, limit{b.base[k], b.dir[k].right(), -1, 4 * Reach})
		}
		if !f.ruled || f.from == f.to {
			continue
		}
		t, way := b.turn(k), unit(f.from.Sub(f.to))
		l := limit{f.to, way.left(), b.of[b.before(k)], 2 * mitreLimit * max(t.a1, t.a2)}
		if dot(f.to.Sub(t.at), t.in) < dot(f.from.Sub(t.at), t.out) && b.mirrorsAfter(k) {
			l = limit{f.from, way.times(-1).right(), b.of[k], l.reach}
		}
		limits = append(limits, l)
	}
	return limits
}

// mirrorsAfter reports whether the corner where segment k begins is shaped
// by the rule of the edge after it.
func (b *border) mirrorsAfter(k int) bool {
	return b.corners != nil && b.corners[b.of[k]] > b.corners[b.of[b.before(k)]]
}

// appendPart adds a convex part, cut off at the limits that concern its
// edge, unless nothing is left of it.
func appendPart(parts []geom.Geometry, r Ring, limits []limit, edges []Edge, edge int) []geom.Geometry {
	for _, l := range limits {
		if l.concerns(edges, edge) && l.near(r) {
			r = l.clip(r)
		}
	}
	for k := range r {
		r[k] = snap(r[k])
	}
	if !r.simple() {
		for k := 1; k+1 < len(r); k++ {
			parts = appendSound(parts, Ring{r[0], r[k], r[k+1]})
		}
		return parts
	}
	return appendSound(parts, r)
}

// appendSound adds a part unless it is a needle or turned inside out.
func appendSound(parts []geom.Geometry, r Ring) []geom.Geometry {
	if len(r) < 3 || !(r.Area() > thin*r.Perimeter()) {
		return parts
	}
	return append(parts, polygon(r))
}

func (l limit) concerns(edges []Edge, edge int) bool {
	return l.edge < 0 || l.edge == edge || edges[l.edge].Name != "" && edges[l.edge].Name == edges[edge].Name
}

func (l limit) near(r Ring) bool {
	for _, p := range r {
		if distance(p, l.at) <= l.reach {
			return true
		}
	}
	return false
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
	for {
		kept := r.withoutIdle()
		if len(kept) == len(r) || len(kept) < 3 {
			return kept
		}
		r = kept
	}
}

// withoutIdle drops points that a straight line past them would miss by
// hardly more than rounding; of two neighbours only one at a time.
func (r Ring) withoutIdle() Ring {
	kept := make(Ring, 0, len(r))
	for k, p := range r {
		before := r[(k+len(r)-1)%len(r)]
		if len(kept) > 0 {
			before = kept[len(kept)-1]
		}
		next := r.at(k + 1)
		way := next.Sub(before)
		off := math.Abs(cross(way, p.Sub(before)))
		if nearer(p, before, joined) || off <= 2*joined*math.Sqrt(dot(way, way)) && dot(p.Sub(before), next.Sub(p)) >= 0 {
			continue
		}
		kept = append(kept, p)
	}
	return kept
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
