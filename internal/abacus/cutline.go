package abacus

import (
	"math"
	"slices"
)

// areas are the area within the sewing line and within the cutting line of one
// whole piece, both halves where it is cut on the fold.
func (p *piece) areas() (area, cut float64) {
	if p.area == 0 {
		p.area = ringArea(p.outline())
		p.cutArea = unionArea([][]point{p.cutLine()})
		if p.half {
			p.area, p.cutArea = 2*p.area, 2*p.cutArea
		}
	}
	return p.area, p.cutArea
}

// cutLine is the outline as it is cut: every edge drawn again outside itself
// by its allowance, and carried on or cut off where it meets the next.
func (p *piece) cutLine() []point {
	if p.cutRing == nil {
		p.cutRing = p.drawCutLine()
	}
	return slices.Clone(p.cutRing)
}

func (p *piece) drawCutLine() []point {
	n := len(p.edges)
	lines := make([][]point, n)
	for i, e := range p.edges {
		lines[i] = offset(e.path, e.allowance)
	}
	turned := make([][]point, n) // what lies between the end of a line and the next
	for i, e := range p.edges {
		next := (i + 1) % n
		corner := e.path[len(e.path)-1]
		switch {
		case e.fold || p.edges[next].fold: // the other half goes on there
			lines[i], lines[next] = joinPaths(lines[i], lines[next], corner)
		case inward(e.path, p.edges[next].path) || rank(e) == rank(p.edges[next]) || blunt(e, p.edges[next]):
			lines[i], lines[next] = mitre(lines[i], lines[next], corner, math.Max(e.allowance, p.edges[next].allowance))
		case rank(e) > rank(p.edges[next]):
			lines[i], turned[i], lines[next] = foldBack(e, lines[i], lines[next], corner, true)
		default:
			lines[i], turned[i], lines[next] = foldBack(p.edges[next], lines[next], lines[i], corner, false)
		}
	}
	var ring []point
	for i, l := range lines {
		ring = append(ring, l...)
		ring = append(ring, turned[i]...)
	}
	return slices.CompactFunc(ring, func(a, b point) bool { return a.sub(b).size() < 1e-9 })
}

// mitre ends two lines at their corner: both are carried on until they meet, or
// cut off there. Where a wide and a narrow allowance meet at a blunt corner
// that would be far away: neither is cut back, at an outer corner, nor carried
// on, at an inner one, farther than the wider of both allowances. There both
// end square to their edges.
func mitre(a, b []point, corner point, wider float64) (first, second []point) {
	endA, wayA := a[len(a)-1], a[len(a)-1].sub(a[len(a)-2]).unit()
	startB, wayB := b[0], b[1].sub(b[0]).unit()
	at, ok := meet(endA, wayA, startB, wayB)
	inner := wayA.cross(wayB) < 0
	far := math.Max(endA.sub(at).dot(wayA), at.sub(startB).dot(wayB))
	if inner {
		far = math.Max(at.sub(endA).dot(wayA), startB.sub(at).dot(wayB))
	}
	const slack = 1e-3 // the way of a curve is known from its first short bit
	if ok && far <= wider+slack {
		first, second := joinPaths(a, b, corner)
		if first[len(first)-1].sub(second[0]).size() < 1e-9 { // else one passes the far end of the other
			return first, second
		}
	}
	if inner {
		return append(slices.Clone(a), corner), b
	}
	return a, b
}

// rank tells which of two edges has its way at their corner: one that is
// mirrored goes before one that is cut square, and that before any other. Two
// alike meet as if neither were turned, and so do all where the outline turns
// inward.
func rank(e *edge) int {
	corner, _ := e.ends()
	return slices.Index([]string{"square", "mirror"}, corner)
}

// blunt: the end of a turned allowance would run farther along its edge than
// four times the wider allowance, or the allowance beside it passes the raw edge
// before it comes to the line of the edge. Such a corner is a mitre too.
func blunt(a, b *edge) bool {
	turned, beside := a, b
	if rank(b) > rank(a) {
		turned, beside = b, a
	}
	wayA, wayB := a.path[len(a.path)-1].sub(a.path[len(a.path)-2]).unit(), b.path[1].sub(b.path[0]).unit()
	sin, cos := wayA.cross(wayB), wayA.dot(wayB)
	limit := 4 * math.Max(a.allowance, b.allowance)
	if beside.allowance/sin > limit || beside.allowance*cos > turned.allowance {
		return true
	}
	corner, turns := turned.ends()
	if corner != "mirror" {
		return false
	}
	depth, height, up := 0.0, 0.0, 1.0
	for i := 0; depth < turned.allowance; i++ {
		step := turned.allowance - depth
		if i < len(turns)-1 {
			step = math.Min(step, turns[i])
		}
		depth, height, up = depth+step, height+up*step, -up
		if math.Abs(height*cos/sin) > limit {
			return true
		}
	}
	return false
}

func inward(a, b []point) bool {
	return a[len(a)-1].sub(a[len(a)-2]).cross(b[1].sub(b[0])) < 0
}

// foldBack ends the allowance of an edge that is turned back, at one corner.
// The line beside it is cut on as far as the sewing line. From there the
// allowance goes on square to the edge, or as it must be to lie on the line
// beside it once it is turned: mirrored about the line of each fold. A curved
// edge is taken as straight at its corner. What comes back is in the order of
// the outline: the line before, what is between, the line after.
func foldBack(e *edge, own, beside []point, corner point, atEnd bool) (before, between, after []point) {
	sewing := e.path
	along := sewing[1].sub(sewing[0]).unit()
	if atEnd {
		along = sewing[len(sewing)-1].sub(sewing[len(sewing)-2]).unit()
	}
	if atEnd {
		_, beside = joinPaths(sewing, beside, corner)
	} else {
		beside, _ = joinPaths(beside, sewing, corner)
	}
	from, up := beside[0], beside[1]
	if !atEnd {
		from, up = beside[len(beside)-1], beside[len(beside)-2]
	}
	fold := []point{from, from.add(along.right().times(math.Max(e.allowance, 1)))}
	if ends, turns := e.ends(); ends == "mirror" {
		fold = mirrored(from, up, along, turns, math.Max(e.allowance, 1))
	}
	if atEnd {
		slices.Reverse(fold)
		own, fold = joinPaths(own, fold, from)
		return own, fold, beside
	}
	fold, own = joinPaths(fold, own, from)
	return beside, fold, own
}

// mirrored is the end of an allowance that is folded at each turn, from the
// sewing line outward. The line beside it, from a point on the sewing line up,
// is mirrored about the sewing line for the first turn, that image about the
// first fold for the second, and so on; of each image counts what lies between
// two folds. What is wider than all turns belongs to the last.
func mirrored(from, up, along point, turns []float64, allowance float64) []point {
	out := along.right()
	depthOf := func(q point) float64 { return q.sub(from).dot(out) }
	about := func(q point, depth float64) point { return q.add(out.times(2 * (depth - depthOf(q)))) }
	a, b := from, up // two points of the line, as the layer at hand shows it
	line := []point{from}
	depth := 0.0
	for i := 0; depth < allowance; i++ {
		a, b = about(a, depth), about(b, depth)
		next := allowance
		if i < len(turns)-1 {
			next = math.Min(allowance, depth+turns[i])
		}
		t := (next - depthOf(a)) / (depthOf(b) - depthOf(a))
		line = append(line, a.add(b.sub(a).times(t)))
		depth = next
	}
	return line
}

// bounds is the box round the whole piece as it is cut.
func (p *piece) bounds() (least, most point) {
	ring := p.cutLine()
	if p.half {
		ring = append(ring, p.unfold(ring)...)
	}
	least, most = ring[0], ring[0]
	for _, q := range ring {
		least = point{math.Min(least.x, q.x), math.Min(least.y, q.y)}
		most = point{math.Max(most.x, q.x), math.Max(most.y, q.y)}
	}
	return least, most
}

// unfold is the other half of a piece that is cut on the fold.
func (p *piece) unfold(ring []point) []point {
	for _, e := range p.edges {
		if !e.fold {
			continue
		}
		way := e.path[len(e.path)-1].sub(e.path[0]).unit()
		out := make([]point, len(ring))
		for i, q := range ring {
			d := q.sub(e.path[0])
			out[i] = e.path[0].add(way.times(2 * d.dot(way))).sub(d)
		}
		return out
	}
	giveUp("%s is cut on the fold and has no edge on it", p.name)
	return nil
}
