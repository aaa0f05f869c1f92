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

// union finds the cut outline as the union of the outline, the strips
// beside its segments and the corners' points. It is slow and takes
// everything.
func (b *border) union() (Cut, error) {
	parts := b.parts()
	piece := polygon(b.base)
	if len(parts) == 0 {
		return b.attributed(append(Ring{}, b.base...), nil), nil
	}
	strips, err := geom.UnionMany(parts)
	if err != nil {
		return Cut{}, fmt.Errorf("the allowances could not be joined: %w", err)
	}
	whole, err := joinedAreas(piece, strips)
	if err != nil {
		return Cut{}, err
	}
	return b.cutFrom(whole)
}

// joinedAreas returns the union of two areas, checked by the sum rule:
// area(A) + area(B) = area(A∪B) + area(A∩B).
func joinedAreas(a, b geom.Geometry) (geom.Geometry, error) {
	whole, err := geom.Union(a, b)
	if err != nil {
		return whole, fmt.Errorf("the piece and its allowances could not be joined: %w", err)
	}
	common, err := geom.Intersection(a, b)
	if err != nil {
		return whole, fmt.Errorf("the piece and its allowances could not be compared: %w", err)
	}
	sum := a.Area() + b.Area()
	if gap := math.Abs(sum - whole.Area() - common.Area()); gap > 1e-3+1e-9*sum {
		return whole, fmt.Errorf("joining the piece and its allowances lost %.4f mm²", gap)
	}
	return whole, nil
}

// parts are the strips beside the segments and the corners' ends, as
// convex polygons cut off at folds and mirrored hems.
func (b *border) parts() []geom.Geometry {
	finishes := make([]finish, len(b.base))
	for k := range finishes {
		finishes[k] = b.finish(k)
	}
	limits := b.limits(finishes)
	var parts []geom.Geometry
	for k := range b.base {
		begin, end := finishes[k], finishes[b.after(k)]
		t, u := b.turn(k), b.turn(b.after(k))
		top, tip := t.end2(), u.end1()
		if dot(begin.to.Sub(top), b.dir[k]) < 0 {
			top = begin.to
		}
		if dot(end.from.Sub(tip), b.dir[k]) > 0 {
			tip = end.from
		}
		parts = appendPart(parts, Ring{b.base[k], top, tip, u.at}, limits, b.edges, b.of[k])
		if !begin.inward {
			i := b.of[b.before(k)]
			parts = appendPart(parts, Ring{t.at, begin.from, begin.to}, limits, b.edges, i)
		}
	}
	return parts
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
	if len(r) < 3 || r.Area() < sliver {
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
func (b *border) cutFrom(g geom.Geometry) (Cut, error) {
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
	return b.attributed(outer, holes), nil
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
func (b *border) attributed(r Ring, holes []Ring) Cut {
	of := make([]int, len(r))
	for k := range r {
		of[k] = b.edgeBeside(r[k], r.at(k+1))
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

// edgeBeside is the edge whose offset line the stretch pq lies on, the
// nearest if there are several, or −1.
func (b *border) edgeBeside(p, q Point) int {
	way, middle := unit(q.Sub(p)), lerp(p, q, 0.5)
	found, nearest := -1, math.Inf(1)
	for k := range b.base {
		if dot(way, b.dir[k]) < 0.5 {
			continue
		}
		n := b.dir[k].right()
		up, over := dot(p.Sub(b.base[k]), n), dot(q.Sub(b.base[k]), n)
		if math.Abs(up-b.allow[k]) > 1e-5 || math.Abs(over-b.allow[k]) > 1e-5 {
			continue
		}
		if d := distance(middle, lerp(b.base[k], b.base.at(k+1), 0.5)); d < nearest {
			found, nearest = b.of[k], d
		}
	}
	return found
}
