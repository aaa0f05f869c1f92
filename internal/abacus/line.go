package abacus

import (
	"slices"
	"strings"
)

// A pieceLine is a line on a piece.
type pieceLine struct {
	name string
	at   node
}

// lineFigures are the lengths of the lines on a piece: from place to place, or beside an
// edge as far as the piece goes.
func (g *garment) lineFigures(out Figures, p *piece, id string) {
	for _, l := range p.lines {
		out.put(id+"line."+slug(l.name)+".length", g.lineLength(p, l.at), "mm")
	}
	for _, at := range p.places {
		out.put(id+"line."+slug(at.name)+".length", at.round, "mm")
	}
}

func (g *garment) lineLength(p *piece, v node) float64 {
	if v.isMap() && v.get("length").there() {
		return v.get("length").length(g.units)
	}
	text := v.text()
	if v.isMap() {
		text = v.get("along").text()
	}
	by, name, inside := strings.Cut(text, " inside ")
	if !inside {
		if !v.get("from").isList() || !v.get("to").isList() || v.get("curve").there() {
			giveUp("a line from an edge to another place, or a curve")
		}
		return v.get("to").point(g.units).sub(v.get("from").point(g.units)).size()
	}
	number, unit := splitUnit(by)
	d, ok := mixed(number)
	if unit == "" {
		unit = g.units
	}
	if !ok {
		giveUp("%q is no length", by)
	}
	path := p.edge(name).path
	if ringArea(p.outline()) < 0 { // drawn with the clock: the inside lies to the right
		path = slices.Clone(path)
		slices.Reverse(path)
	}
	return insideLength(p.outline(), path, d*millimetres[unit])
}

// insideLength is how long the line is that runs d to the left of a path, carried on
// straight at both ends, within a ring.
func insideLength(ring, path []point, d float64) float64 {
	var line []point
	for i := 1; i < len(path); i++ {
		way := path[i].sub(path[i-1]).unit()
		aside := way.right().times(-d)
		line = append(line, path[i-1].add(aside), path[i].add(aside))
	}
	first, last := line[1].sub(line[0]).unit(), line[len(line)-1].sub(line[len(line)-2]).unit()
	const far = 1e4
	line = append(append([]point{line[0].sub(first.times(far))}, line...), line[len(line)-1].add(last.times(far)))
	var cuts []float64
	at := 0.0
	for i := 1; i < len(line); i++ {
		a, way := line[i-1], line[i].sub(line[i-1])
		for k, c := range ring {
			side := ring[(k+1)%len(ring)].sub(c)
			if den := way.cross(side); den != 0 {
				t, u := c.sub(a).cross(side)/den, c.sub(a).cross(way)/den
				if t >= 0 && t <= 1 && u >= 0 && u <= 1 {
					cuts = append(cuts, at+t*way.size())
				}
			}
		}
		at += way.size()
	}
	slices.Sort(cuts)
	middle := at / 2
	from, to := 0.0, at
	for _, c := range cuts {
		if c < middle {
			from = c
		} else if c < to {
			to = c
		}
	}
	return to - from
}

// allLining reports whether a piece is cut in lining alone, and what backs it.
func allLining(of []string) bool {
	lining := false
	for _, part := range of {
		switch part {
		case "lining":
			lining = true
		case "fusing", "interlining", "interfacing", "underlining", "backing":
		default:
			return false
		}
	}
	return lining
}

// linesOfLining are those of the lines of the outside that a lining like it has too: what
// is cut or folded there, and what the record names on it.
func (g *garment) linesOfLining(all []pieceLine, piece string) (out []pieceLine) {
	for _, l := range all {
		named := false
		for _, group := range []string{"seams", "finishes", "notions"} {
			for _, v := range g.build.get(group).named() {
				texts := append(v.get("of").texts(), v.get("along").text(), v.get("holes-along").text())
				for _, side := range v.of("join").list() {
					texts = append(texts, side.texts()...)
				}
				named = named || slices.ContainsFunc(texts, func(t string) bool { return strings.Contains(t, piece+"."+l.name) })
			}
		}
		if named || l.at.get("slit").yes() || l.at.get("fold").yes() {
			out = append(out, l)
		}
	}
	return out
}
