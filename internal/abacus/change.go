package abacus

import (
	"math"
	"slices"
	"strings"
)

// fit makes the changes of all rounds of fitting that are of this piece, round
// after round.
func (g *garment) fit(p *piece) {
	for i, r := range g.build.get("fittings").list() {
		if g.round >= 0 && i+1 > g.round {
			continue
		}
		for _, c := range r.get("change").named() {
			if c.name == p.name {
				g.change(p, c.node, "", "")
			}
			if name, mine := strings.CutPrefix(c.name, p.name+"."); mine {
				edge, dart := edgeOrDart(name)
				g.change(p, c.node, edge, dart)
			}
		}
	}
}

// edgeOrDart tells which of the two a change is of: "waist", or "waist dart".
func edgeOrDart(name string) (edge, dart string) {
	if dart, is := strings.CutSuffix(name, " dart"); is {
		return "", dart
	}
	return name, ""
}

// change makes one change of a piece.
func (g *garment) change(p *piece, c node, edge, dart string) {
	if !c.isMap() { // a length alone moves the edge
		p.move(edge, c.length(g.units))
	}
	for _, word := range c.words() {
		switch word {
		case "note", "agreed", "spread":
		case "slash":
			g.slash(p, c)
		case "move":
			p.move(edge, c.get(word).length(g.units))
		case "lengthen":
			p.lengthen(edge, c.get(word).length(g.units))
		case "curve":
			e := p.edge(edge)
			cs := c.get(word).list()
			at, end := e.path[0], e.path[len(e.path)-1]
			e.path = nil
			for k := 0; k+1 < len(cs); k += 3 { // two control points, and where it goes on
				to := end
				if k+2 < len(cs) {
					to = cs[k+2].point(g.units)
				}
				e.path = append(e.path, bezier(at, cs[k].point(g.units), cs[k+1].point(g.units), to)...)
				at = to
			}
			e.straight = false
		case "width":
			p.dart(dart).width = c.get(word).length(g.units)
		case "length":
			p.dart(dart).length = c.get(word).length(g.units)
		case "at":
			p.dart(dart).at = c.get(word).length(g.units)
		case "unsewn":
			p.dart(dart).dropped = c.get(word).yes()
		default:
			giveUp("the change %q is not known here", word)
		}
	}
}

func (p *piece) dart(name string) *dart {
	for i, d := range p.darts {
		if d.name == name || d.edge == name {
			// what it is like keeps its own
			own := *d
			p.darts[i] = &own
			return &own
		}
	}
	giveUp("%s has no dart %q", p.name, name)
	return nil
}

// neighbours are the edges before and after one.
func (p *piece) neighbours(name string) (before, at, after *edge) {
	for i, e := range p.edges {
		if e.name == name {
			n := len(p.edges)
			return p.edges[(i+n-1)%n], e, p.edges[(i+1)%n]
		}
	}
	giveUp("%s has no edge %q", p.name, name)
	return
}

// move moves an edge outwards: it is drawn again beside itself, and its ends
// slide along the edges beside it, which are carried on or cut off there.
func (p *piece) move(name string, by float64) {
	before, e, after := p.neighbours(name)
	beside := offset(e.path, by)
	e.path, after.path = joinPaths(beside, after.path, e.path[len(e.path)-1])
	before.path, e.path = joinPaths(before.path, e.path, before.path[len(before.path)-1])
}

// lengthen carries a straight edge on at its end.
func (p *piece) lengthen(name string, by float64) {
	_, e, after := p.neighbours(name)
	if !e.straight || !after.straight {
		giveUp("only straight edges are carried on here")
	}
	way := e.path[1].sub(e.path[0]).unit()
	end := e.path[1].add(way.times(by))
	e.path = []point{e.path[0], end}
	after.path = []point{end, after.path[1]}
}

// offset is the path drawn again beside itself, to its right. Every point goes
// square to the way that the curve runs there: the ways of the two bits at a
// point, the nearer one counting for more.
func offset(path []point, by float64) []point {
	if by == 0 {
		return path
	}
	out := make([]point, len(path))
	for i, p := range path {
		var in, on point
		if i > 0 {
			in = p.sub(path[i-1])
		}
		if i+1 < len(path) {
			on = path[i+1].sub(p)
		}
		way := in.add(on)
		if i > 0 && i+1 < len(path) {
			way = in.times(on.size() / in.size()).add(on.times(in.size() / on.size()))
		}
		out[i] = p.add(way.unit().right().times(by))
	}
	return out
}

// joinPaths ends one path and begins the next where the two meet nearest to
// their old corner, each carried on straight where it does not reach. Two that
// run on in one line are joined by a step.
func joinPaths(a, b []point, corner point) (first, second []point) {
	const far = 4000
	endWay := a[len(a)-1].sub(a[len(a)-2]).unit()
	beginWay := b[1].sub(b[0]).unit()
	if math.Abs(endWay.cross(beginWay)) < 1e-7 && endWay.dot(beginWay) > 0 {
		return a, b
	}
	longA := append(slices.Clone(a), a[len(a)-1].add(endWay.times(far)))
	longB := append([]point{b[0].sub(beginWay.times(far))}, b...)
	best, bestAt := math.Inf(1), point{}
	ai, bi := -1, -1
	nearB := bitsNear(longB, corner)
	for _, i := range bitsNear(longA, corner) {
		for _, j := range nearB {
			at, ok := crossing(longA[i-1], longA[i], longB[j-1], longB[j])
			if d := at.sub(corner).size(); ok && d < best {
				best, bestAt, ai, bi = d, at, i, j
			}
		}
	}
	if ai < 0 {
		return a, b
	}
	first = append(slices.Clone(longA[:ai]), bestAt)
	second = append([]point{bestAt}, longB[bi:]...)
	return apart(first), apart(second)
}

// bitsNear lists the straight bits of a path, by their ends, that come within
// 200 mm of a corner: farther away no two lines of a corner meet.
func bitsNear(path []point, corner point) []int {
	var out []int
	for i := 1; i < len(path); i++ {
		p, way := path[i-1], path[i].sub(path[i-1])
		t := min(1, max(0, corner.sub(p).dot(way)/way.dot(way)))
		if p.add(way.times(t)).sub(corner).size() < 200 {
			out = append(out, i)
		}
	}
	return out
}

// apart leaves out points that lie on the one before, both ends apart.
func apart(path []point) []point {
	const near = 1e-6
	out := path[:1:1]
	for _, p := range path[1:] {
		if p.sub(out[len(out)-1]).size() > near {
			out = append(out, p)
		}
	}
	if len(out) == 1 {
		return path
	}
	return out
}

// crossing is where two straight bits cross.
func crossing(a, b, c, d point) (point, bool) {
	way, other := b.sub(a), d.sub(c)
	at, ok := meet(a, way, c, other)
	if !ok {
		return at, false
	}
	const slack = 1e-9
	t, u := at.sub(a).dot(way)/way.dot(way), at.sub(c).dot(other)/other.dot(other)
	return at, t >= -slack && t <= 1+slack && u >= -slack && u <= 1+slack
}
