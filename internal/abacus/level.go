package abacus

import (
	"math"
	"slices"
)

// girth is the width of one whole piece at a height, darts that are sewn there
// closed.
func (p *piece) girth(y float64) float64 {
	width := widthAt(p.outline(), y)
	for _, d := range p.darts {
		if !d.dropped {
			width -= p.dartTakes(d, y)
		}
	}
	width -= p.foldedAt(y)
	if p.half {
		width *= 2
	}
	return width
}

// dartTakes is what a dart takes out of the line at a height. Sewn, its legs lie
// on each other, point to point by their share of the way; a line that comes to
// one leg goes on from the same place of the other. The two places are as far
// apart as the mouth is wide, times that share, and so much is lost across: but
// not where the line then leaves the piece by the dart's own edge, for the place
// it goes on from lies along that edge, and the line meets the edge as much
// farther out as it began farther in.
func (p *piece) dartTakes(d *dart, y float64) float64 {
	left, right, tip := p.dartCorners(d)
	one, ok1 := downLeg(tip, left, y)
	two, ok2 := downLeg(tip, right, y)
	if !ok1 || !ok2 || p.leavesBy(d.edge, y, tip.x+one*(left.x-tip.x)) {
		return 0
	}
	return (one + two) / 2 * math.Abs(left.x-right.x)
}

// downLeg is how much of the way from a dart's tip to a leg's end lies before the
// line at a height; false where the leg does not reach it.
func downLeg(tip, end point, y float64) (float64, bool) {
	if (tip.y <= y) == (end.y <= y) {
		return 0, false
	}
	return (y - tip.y) / (end.y - tip.y), true
}

// leavesBy reports whether the line at a height, followed to both sides from a
// place, first meets the outline on this edge on one of them.
func (p *piece) leavesBy(edge string, y, x float64) bool {
	below, above := math.Inf(-1), math.Inf(1)
	var low, high string
	for _, e := range p.edges {
		for i := range len(e.path) - 1 {
			a, b := e.path[i], e.path[i+1]
			if (a.y <= y) == (b.y <= y) {
				continue
			}
			at := a.x + (y-a.y)/(b.y-a.y)*(b.x-a.x)
			if at <= x && at > below {
				below, low = at, e.name
			}
			if at > x && at < above {
				above, high = at, e.name
			}
		}
	}
	return low == edge || high == edge
}

func (p *piece) dartCorners(d *dart) (left, right, tip point) {
	e := p.edge(d.edge)
	mid, way := along(e.path, d.at)
	left, _ = along(e.path, d.at-d.width/2)
	right, _ = along(e.path, d.at+d.width/2)
	tip = mid.sub(way.right().times(d.length))
	if d.point != nil {
		tip = *d.point
	}
	return left, right, tip
}

// shellPart is the cloth whose pieces go round the body outside.
func (g *garment) shellPart() string {
	if slices.Contains(g.parts, "shell") {
		return "shell"
	}
	return g.parts[0]
}

func (g *garment) levelFigures(out Figures) {
	sums := map[string]float64{}
	gives := map[string]*give{}
	var names []string
	note := func(name string) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, p := range g.pieces {
		for _, name := range p.names {
			width := p.girth(p.levels[name])
			if width > 0 {
				out.put("piece."+p.slug+".level."+slug(name), width, "mm")
			}
			if p.in(g.shellPart()) && !p.liesBehind() {
				note(name)
				sums[name] += width * p.count
				g.addGive(gives, name, p, width*p.count)
			}
		}
		for i, d := range p.darts {
			if d.point == nil && !d.dropped {
				out.put("piece."+p.slug+".dart-"+itoa(i+1)+".leg", math.Hypot(d.width/2, d.length), "mm")
			}
		}
		for _, e := range p.edges {
			if e.level != "" && e.level != "none" && p.in(g.shellPart()) && !p.liesBehind() {
				note(e.level)
				lines := p.occurs()
				if g.sewnToItself(e) {
					lines /= 2 // two edges sewn to each other are one line
				}
				sums[e.level] += e.sewn * lines * g.drawnTo(e) * g.gatheredTo(e)
				g.addGive(gives, e.level, p, e.sewn*lines)
				if g.drawnTo(e) != 1 || g.gatheredTo(e) != 1 {
					gives[e.level].unsaid = true
				}
			}
		}
	}
	for _, name := range g.build.get("levels").words() { // those that no outline marks, and the record declares
		if width := g.build.get("levels").get(name).get("width"); width.there() && !slices.Contains(names, name) {
			note(name)
			sums[name] = width.length(g.units)
		}
	}
	for _, name := range names {
		if !g.moreThanSums(name) && !math.IsNaN(sums[name]) {
			g.girthFigures(out, name, sums[name])
			g.stretchFigures(out, name, gives[name])
		}
	}
	lengths := g.build.get("lengths")
	for _, name := range lengths.words() {
		sum := 0.0
		for _, t := range lengths.get(name).of("along").texts() {
			_, e := g.edgeOf(t)
			sum += e.sewn
		}
		out.put("length."+slug(name)+".finished", sum, "mm")
	}
}

// drawnTo is what elastic or ribbing of the first finish of an edge that no seam joins
// draws it in to, for one of its length.
func (g *garment) drawnTo(e *edge) float64 {
	if g.isJoined(e) || len(e.finishedBy) == 0 {
		return 1
	}
	return g.drawnBy(e.finishedBy[0])
}

// gatheredTo is how long a longer edge is once it is gathered, for one of its length:
// where it is as full as was meant, and all it is sewn with lies at the level.
func (g *garment) gatheredTo(e *edge) float64 {
	for _, s := range g.seams {
		if !s.record.get("gather").there() {
			continue
		}
		x, y := s.drawnUp(g.units)
		for side, uses := range s.sides {
			own, other := x, y
			if side == 1 {
				own, other = y, x
			}
			meant := s.record.get("gather").number()
			full := math.Abs(own/other-meant) <= 0.05 || math.Abs(own-meant*other) <= s.tolerance(g)
			at := !slices.ContainsFunc(uses, func(u use) bool { return !u.e.liesAt(e.level) })
			if own > other && full && at && slices.ContainsFunc(uses, func(u use) bool { return u.e == e }) {
				return other / s.sum[side]
			}
		}
	}
	return 1
}

// sewnToItself reports whether a seam joins an edge to its own mirror image.
func (g *garment) sewnToItself(e *edge) bool {
	return slices.ContainsFunc(g.seams, func(s *seam) bool {
		return len(s.sides[0]) == 1 && len(s.sides[1]) == 1 && s.sides[0][0].e == e && s.sides[1][0].e == e
	})
}

// moreThanSums reports whether a level is more than the sum of what its pieces
// measure there: where a piece of it, or what hangs together with one, is turned in
// behind another, where two pieces
// of it meet along it, so that one of them is measured, where copies or
// halves of a piece are each closed to a tube, of which one is measured, and
// where copies that are all of one hand are sewn to each other; nor whether an
// edge is one line with its mirror image where the two are said to differ by a
// lap, which they cannot. The calculator says nothing of those.
func (g *garment) moreThanSums(level string) bool {
	bears := func(p *piece) bool {
		return p.in(g.shellPart()) && !p.liesBehind() && (slices.Contains(p.names, level) || slices.ContainsFunc(p.edges, func(e *edge) bool { return e.liesAt(level) }))
	}
	if slices.ContainsFunc(g.pieces, func(p *piece) bool {
		return bears(p) && (p.half && p.count > 1 || p.alike && slices.ContainsFunc(p.edges, g.sewnToItself))
	}) {
		return true
	}
	turned := g.turnedTogether()
	if slices.ContainsFunc(g.pieces, func(p *piece) bool { return bears(p) && turned[p] }) {
		return true
	}
	for _, n := range g.build.get("notions").named() { // buttons close one copy to another
		if along := n.get("along"); along.there() {
			if p, _ := g.edgeOf(along.text()); bears(p) {
				return true
			}
		}
	}
	for _, s := range g.seams {
		for _, one := range s.sides[0] {
			for _, two := range s.sides[1] {
				lapped := one.e == two.e && one.e.level == level && s.record.get("overlap").there()
				tube := one.p == two.p && one.e != two.e && bears(one.p) && one.p.occurs() > 1
				meet := one.p != two.p && one.e.liesAt(level) && two.e.liesAt(level)
				if tube || lapped || meet {
					return true
				}
			}
		}
	}
	return false
}

// turnedTogether are the pieces that a seam turns in behind each other, and all that
// is sewn to them: of two that are turned, one lies behind with what hangs on it.
func (g *garment) turnedTogether() map[*piece]bool {
	turned := map[*piece]bool{}
	for grows := true; grows; {
		grows = false
		for _, s := range g.seams {
			all := slices.Concat(s.sides[0], s.sides[1])
			if s.record.get("type").text() != "enclosed" && !slices.ContainsFunc(all, func(u use) bool { return turned[u.p] }) {
				continue
			}
			for _, u := range all {
				grows = grows || !turned[u.p]
				turned[u.p] = true
			}
		}
	}
	return turned
}

// girthFigures are the figures of a level of which the sewn width is known.
func (g *garment) girthFigures(out Figures, name string, sewn float64) {
	finished := sewn - g.lapped(name)
	id := "level." + slug(name) + "."
	if gap := g.build.get("levels").get(name).get("gap"); gap.there() { // laced, its edges do not meet
		out.put(id+"gap", gap.length(g.units), "mm")
		finished += gap.length(g.units)
	}
	out.put(id+"finished", finished, "mm")
	if body := g.build.get("drafted-for").get(name); body.there() {
		b := body.length(g.units)
		out.put(id+"drafted", b, "mm")
		out.put(id+"ease", finished-b, "mm")
		out.put(id+"ease-part", (finished-b)/b*100, "%")
	}
	if m := g.build.get("measured").get(name); m.there() {
		out.put(id+"measured", m.length(g.units), "mm")
		out.put(id+"off", m.length(g.units)-finished, "mm")
	}
}

// lapped is what bands that lie at a level, by the edge that is sewn or by the one
// across from it, are longer than what they are sewn to.
func (g *garment) lapped(level string) float64 {
	sum := 0.0
	for _, s := range g.seams {
		lies := func(u use) bool {
			across := g.acrossBand(u)
			return u.p.in(g.shellPart()) && (u.e.liesAt(level) || across != nil && across.liesAt(level))
		}
		if _, measure := s.kind.defaults["overlap"]; !measure && slices.ContainsFunc(s.sides[s.lapOn], lies) {
			sum += s.record.get("overlap").lengthOr(g.units, 0)
		}
	}
	return sum
}

// acrossBand is the edge of a band across from the one it is sewn by; nil where the
// piece is no band: a rectangle at least four times as long as wide, with loose ends.
func (g *garment) acrossBand(u use) *edge {
	i := slices.Index(u.p.edges, u.e)
	if !u.p.rectangle || i < 0 || len(u.p.edges) != 4 {
		return nil
	}
	for _, end := range []*edge{u.p.edges[(i+1)%4], u.p.edges[(i+3)%4]} {
		if end.sewn > u.e.sewn/4 || g.isJoined(end) {
			return nil
		}
	}
	return u.p.edges[(i+2)%4]
}

// isJoined reports whether a seam joins an edge.
func (g *garment) isJoined(e *edge) bool {
	return slices.ContainsFunc(g.seams, func(s *seam) bool {
		return slices.ContainsFunc(slices.Concat(s.sides[0], s.sides[1], s.behind), func(u use) bool { return u.e == e })
	})
}
