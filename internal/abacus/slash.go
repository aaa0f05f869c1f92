package abacus

import (
	"math"
	"slices"
	"strings"
)

// slash cuts a piece through from one edge to another and spreads it. The part from its
// first end on, against the clock, is turned about that end until the other one lies as
// much wider as is said, and then put away by the first opening, square to the line half
// way between both cut lines. Places are lengths from where an edge begins, or middles.
func (g *garment) slash(p *piece, c node) {
	var open [2]float64
	if list := c.get("spread").list(); len(list) == 2 {
		open = [2]float64{list[0].length(g.units), list[1].length(g.units)}
	} else {
		open[0] = c.get("spread").length(g.units)
		open[1] = open[0]
	}
	if open[0] < 0 || open[1] < 0 || len(p.darts)+len(p.levels) > 0 {
		giveUp("laps, and slashes of pieces with darts or levels, are not worked out here")
	}
	from, to, _ := strings.Cut(c.get("slash").text(), " to ")
	i, a := g.cutAt(p, from)
	j, b := g.cutAt(p, to)
	line := b.sub(a)
	turn := -2 * math.Asin((open[1]-open[0])/(2*line.size()))
	away := rotated(line.unit().right(), turn/2).times(open[0])
	put := func(q point) point { return a.add(rotated(q.sub(a), turn)).add(away) }
	// the first edge keeps what lies before a; what lies behind it, and all up to b, moves
	one, two := p.edges[i], p.edges[j]
	first, second := splitPath(one.path, a)
	third, fourth := splitPath(two.path, b)
	one.path = slices.Concat(first, eachPut(second, put))
	for k := (i + 1) % len(p.edges); k != j; k = (k + 1) % len(p.edges) {
		p.edges[k].path = eachPut(p.edges[k].path, put)
	}
	two.path = slices.Concat(eachPut(third, put), fourth)
	one.straight, two.straight = false, false
	p.drawnFreely = true
}

// cutAt is the place of an edge, as "hem at 120", and which of the edges it is.
func (g *garment) cutAt(p *piece, text string) (int, point) {
	name, at, _ := strings.Cut(strings.TrimSpace(text), " at ")
	i := slices.IndexFunc(p.edges, func(e *edge) bool { return e.name == name })
	if i < 0 {
		giveUp("%s has no edge %q", p.name, name)
	}
	far := pathLength(p.edges[i].path) / 2
	if at != "middle" {
		number, unit := splitUnit(at)
		if unit == "" {
			unit = g.units
		}
		many, ok := mixed(number)
		if !ok || millimetres[unit] == 0 {
			giveUp("the place %q is not worked out here", text)
		}
		far = many * millimetres[unit]
	}
	point, _ := along(p.edges[i].path, far)
	return i, point
}

// splitPath parts a path at a point that lies on it.
func splitPath(path []point, at point) (before, after []point) {
	for i := 1; i < len(path); i++ {
		bit := path[i].sub(path[i-1])
		if math.Abs(bit.cross(at.sub(path[i-1]))) < 1e-6*bit.size() && at.sub(path[i-1]).dot(at.sub(path[i])) <= 0 {
			return append(slices.Clone(path[:i]), at), append([]point{at}, path[i:]...)
		}
	}
	giveUp("a slash begins off its edge")
	return
}

func rotated(p point, by float64) point {
	return point{p.x*math.Cos(by) - p.y*math.Sin(by), p.x*math.Sin(by) + p.y*math.Cos(by)}
}

func eachPut(path []point, put func(point) point) []point {
	out := make([]point, len(path))
	for i, p := range path {
		out[i] = put(p)
	}
	return out
}
