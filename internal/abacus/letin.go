package abacus

import (
	"math"
	"slices"
)

// A letIn is what the pleats of an edge add to a rectangle that is drawn as it lies with
// them folded. Each fold takes twice its depth, so the rectangle is cut so much longer
// along that edge, and along the one opposite, where the folds leave it.
type letIn struct {
	edge, opposite string
	takes          float64 // all together
	folds          float64
	stitched       float64 // how far each fold is sewn down from its edge
	all            bool    // a tuck is: from edge to edge
}

// opposites are the edges of a rectangle that lie opposite each other.
var opposites = map[string]string{"bottom": "top", "top": "bottom", "left": "right", "right": "left"}

// pleatIn lets pleats into a rectangle.
func (g *garment) pleatIn(p *piece, d named) {
	if !p.rectangle || len(p.letIn) > 0 || len(p.lines) > 0 || !d.get("depth").there() || opposites[d.name] == "" {
		giveUp("pleats of %s let in at %s", p.name, d.name)
	}
	in := letIn{edge: d.name, opposite: opposites[d.name], folds: numberOr(d.get("count"), 1), stitched: d.get("stitched").lengthOr(g.units, 0)}
	kind := textOr(d.get("kind"), "knife")
	if kind == "box" || kind == "inverted" { // two folds each
		in.folds *= 2
	}
	in.all = slices.Contains([]string{"tuck", "pin tuck", "growth tuck"}, kind)
	in.takes = 2 * d.get("depth").length(g.units) * in.folds
	wide, high := p.edge("bottom").path[1].x, p.edge("right").path[1].y
	across := in.edge == "top" || in.edge == "bottom"
	if in.all {
		in.stitched = wide
		if across {
			in.stitched = high
		}
	}
	if across {
		wide += in.takes
	} else {
		high += in.takes
	}
	for name, path := range map[string][]point{"bottom": {{0, 0}, {wide, 0}}, "right": {{wide, 0}, {wide, high}}, "top": {{wide, high}, {0, high}}, "left": {{0, high}, {0, 0}}} {
		p.edge(name).path = path
	}
	p.letIn = append(p.letIn, in)
}

// closes reports whether what is let in is sewn shut along an edge.
func (in *letIn) closes(edge string) bool { return edge == in.edge || in.all && edge == in.opposite }

// foldedAt is how much of the line at a height lies folded away: all, down to where the folds
// are stitched.
func (p *piece) foldedAt(y float64) float64 {
	for _, in := range p.letIn {
		down := y // from the edge that is pleated
		if in.edge == "top" {
			down = p.edge("right").path[1].y - y
		}
		if (in.edge == "top" || in.edge == "bottom") && down <= in.stitched+1e-6 {
			return in.takes
		}
	}
	return 0
}

// pleatsSewn is the length of the rows that stitch down the folds of a piece, for every
// time that it is there.
func (p *piece) pleatsSewn() (sum float64) {
	for _, in := range p.letIn {
		sum += in.folds * in.stitched * p.occurs() * p.pliesSewn()
	}
	return sum
}

// ends are where a path begins and ends.
func ends(path []point) (from, to point) { return path[0], path[len(path)-1] }

// drawBorder draws the strip along a straight edge of another piece: as wide as it says,
// and cut off by the edges beside it.
func (g *garment) drawBorder(p *piece, v node) {
	name, word, _ := cutAt(v.get("along").text())
	of := g.makePiece(name)
	before, e, after := of.neighbours(word)
	wide := v.get("width").length(g.units)
	if !e.straight || !before.straight || !after.straight || before.fold || after.fold || e.fold || len(of.darts)+len(of.pleats)+len(of.letIn) > 0 {
		giveUp("a strip along %s.%s", name, word)
	}
	a, b := ends(e.path)
	from, corner := ends(before.path)
	corner2, to := ends(after.path)
	way := b.sub(a).unit()
	inside := a.sub(way.right().times(wide))
	start, ok1 := meet(inside, way, from, corner.sub(from))
	end, ok2 := meet(inside, way, corner2, to.sub(corner2))
	if !ok1 || !ok2 || math.IsNaN(start.x+end.x) {
		giveUp("a strip along %s.%s that nothing ends", name, word)
	}
	p.polygon([]string{word, after.name, "inner", before.name}, a, b, end, start)
	for i, kept := range []*edge{e, after, nil, before} { // as it stands on the piece, with what that says of its allowance
		if kept != nil {
			p.edges[i].own, p.edges[i].corner = kept.own, kept.corner
		}
	}
	p.count, p.half, p.alike, p.said, p.drawnFreely = of.occurs(), false, of.alike, true, true
}
