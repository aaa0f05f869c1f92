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
		case folds(e.corner):
			lines[i], turned[i], lines[next] = foldBack(e, lines[i], lines[next], corner, true)
		case folds(p.edges[next].corner):
			lines[i], turned[i], lines[next] = foldBack(p.edges[next], lines[next], lines[i], corner, false)
		default:
			lines[i], lines[next] = mitre(lines[i], lines[next], corner, math.Max(e.allowance, p.edges[next].allowance))
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
	switch {
	case ok && far <= wider+1e-6:
		return joinPaths(a, b, corner)
	case inner:
		return append(slices.Clone(a), corner), b
	}
	return a, b
}

func folds(corner string) bool { return corner == "square" || corner == "mirror" }

// foldBack ends the allowance of an edge that is turned back, at one corner.
// The line beside it is cut on as far as the sewing line. From there the
// allowance goes on square to the edge, or as the mirror image of the line
// beside it, so that it lies on that line once it is turned. What comes back
// is in the order of the outline: the line before, what is between, the line
// after.
func foldBack(e *edge, own, beside []point, corner point, atEnd bool) (before, between, after []point) {
	if !e.straight {
		giveUp("a curved edge with a %s corner is not cut here", e.corner)
	}
	sewing := e.path
	way := sewing[1].sub(sewing[0]).unit()
	mirror := func(q point) point {
		d := q.sub(sewing[0])
		return sewing[0].add(way.times(2 * d.dot(way))).sub(d)
	}
	if atEnd {
		_, beside = joinPaths(sewing, beside, corner)
	} else {
		beside, _ = joinPaths(beside, sewing, corner)
	}
	from := beside[0]
	if !atEnd {
		from = beside[len(beside)-1]
	}
	fold := []point{from, from.add(way.right().times(math.Max(e.allowance, 1)))}
	if e.corner == "mirror" {
		image := make([]point, len(beside))
		for i, q := range beside {
			image[i] = mirror(q)
		}
		if !atEnd {
			slices.Reverse(image)
		}
		fold = image
	}
	if atEnd {
		slices.Reverse(fold)
		own, fold = joinPaths(own, fold, from)
		return own, fold, beside
	}
	fold, own = joinPaths(fold, own, from)
	return beside, fold, own
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
