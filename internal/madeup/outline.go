package madeup

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// corners invents the corners of an outline, against the clock.
func (g *maker) corners() []point {
	for {
		var list []point
		n := 3 + g.IntN(5)
		for i := range n {
			a := (float64(i) + g.within(-0.3, 0.3)) / float64(n) * 2 * math.Pi
			r := g.within(130, 420)
			list = append(list, point{round(r*math.Cos(a), g.units), round(r*math.Sin(a), g.units)})
		}
		if fair(list) {
			return list
		}
	}
}

// half invents the right half of a piece that is cut on the fold: its last
// edge lies at x = 0.
func (g *maker) half() []point {
	for {
		list := []point{{0, 0}}
		h, w := g.within(250, 700), g.within(140, 300)
		list = append(list, point{w + g.within(-30, 30), g.within(-30, 30)})
		if g.chance(60) {
			list = append(list, point{w + g.within(-40, 40), h * g.within(0.4, 0.6)})
		}
		list = append(list, point{w * g.within(0.5, 0.9), h + g.within(-20, 30)})
		list = append(list, point{0, h - g.within(0, 60)})
		for i, p := range list {
			list[i] = point{round(p.x, g.units), round(p.y, g.units)}
		}
		if fair(list) {
			return list
		}
	}
}

// fair: sides are long enough for allowances, corners neither needles nor
// nearly straight.
func fair(list []point) bool {
	n := len(list)
	for i, p := range list {
		before, after := list[(i+n-1)%n], list[(i+1)%n]
		in, on := p.sub(before), after.sub(p)
		if in.size() < 110 || !fairTurn(in, on) {
			return false
		}
	}
	return true
}

func (g *maker) writeOutline(name string) {
	p := g.begin(name, false)
	g.drawEdges(p, g.corners(), false)
}

func (g *maker) writeHalf(name string) {
	p := g.begin(name, true)
	g.drawEdges(p, g.half(), true)
}

// drawEdges writes an outline, with darts, pleats and levels.
func (g *maker) drawEdges(p *piece, corners []point, halved bool) {
	p.drawn = true
	names := []string{"hem", "side", "armhole", "shoulder", "neck", "top", "bottom", "inseam"}
	g.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	g.line("    outline:\n      from: [%s, %s]", bare(corners[0].x, g.units), bare(corners[0].y, g.units))
	for i, from := range corners {
		p.edges = append(p.edges, &edge{name: names[i], from: from, to: corners[(i+1)%len(corners)], fold: halved && i == len(corners)-1})
	}
	g.bendEdges(p.edges)
	g.turnBack(p)
	for i, e := range p.edges {
		words := fmt.Sprintf("to: [%s, %s]", bare(e.to.x, g.units), bare(e.to.y, g.units))
		switch {
		case e.fold && g.chance(50): // the last edge, which ends where the first began
			g.line("      %s: fold", e.name)
			continue
		case e.fold:
			words += ", fold: true"
		case e.curve != nil:
			words += fmt.Sprintf(", curve: [[%s, %s], [%s, %s]]", bare(e.curve[0].x, g.units), bare(e.curve[0].y, g.units), bare(e.curve[1].x, g.units), bare(e.curve[1].y, g.units))
		}
		if !e.fold {
			words += g.sayOfEdge(p, e)
			if before, after := p.edges[(i+len(p.edges)-1)%len(p.edges)], p.edges[(i+1)%len(p.edges)]; e.corner == "" && (e.curve != nil || before.curve != nil || after.curve != nil) {
				words += ", corner: mitre" // how a curve is folded back is not promised to a hair
			}
		}
		if to, alone := strings.CutPrefix(words, "to: "); alone && !strings.Contains(to, ":") && g.chance(70) {
			g.line("      %s: %s", e.name, to)
			continue
		}
		g.line("      %s: {%s}", e.name, words)
	}
	g.writeDarts(p, corners)
	g.writeLevels(p, corners)
}

// bendEdges makes curves of some edges, where no corner becomes a needle or is
// lost for it.
func (g *maker) bendEdges(edges []*edge) {
	for i, e := range edges {
		if e.fold || !g.chance(45) {
			continue
		}
		e.curve = g.bend(e)
		before, after := edges[(i+len(edges)-1)%len(edges)], edges[(i+1)%len(edges)]
		if !fairTurn(before.leaves(), e.enters()) || !fairTurn(e.leaves(), after.enters()) {
			e.curve = nil
		}
	}
}

// enters and leaves are the ways an edge runs at its two ends.
func (e *edge) enters() point {
	if e.curve != nil {
		return e.curve[0].sub(e.from)
	}
	return e.to.sub(e.from)
}

func (e *edge) leaves() point {
	if e.curve != nil {
		return e.to.sub(e.curve[1])
	}
	return e.to.sub(e.from)
}

func fairTurn(in, on point) bool {
	turn := math.Atan2(in.cross(on), in.dot(on)) * 180 / math.Pi
	return turn < 125 && turn > -60 && math.Abs(turn) > 20
}

// bend gives an edge a gentle curve.
func (g *maker) bend(e *edge) *[2]point {
	way := e.to.sub(e.from)
	by := func() float64 { return g.within(-0.09, 0.09) }
	at := func(t, off float64) point {
		return point{round(e.from.x+way.x*t+way.y*off, g.units), round(e.from.y+way.y*t-way.x*off, g.units)}
	}
	return &[2]point{at(g.within(0.28, 0.38), by()), at(g.within(0.62, 0.72), by())}
}

// sayOfEdge is an edge's allowance, its corner and its level.
func (g *maker) sayOfEdge(p *piece, e *edge) string {
	out := ""
	switch {
	case e.corner != "":
		out += ", allowance: " + g.length(g.within(30, 50)) + ", corner: " + e.corner
	case e.narrow:
		out += ", allowance: " + g.length(g.within(6, 25))
	case g.chance(30):
		out += ", allowance: " + g.length(g.within(6, 28))
	}
	if g.chance(15) {
		p.levels = true
		level := pick(g, "waist", "edge line")
		g.level[p.name+"."+e.name] = level
		out += ", level: " + level
	}
	return out
}

// turnBack lets one edge of some pieces be turned back like a hem.
func (g *maker) turnBack(p *piece) {
	e := pick(g, p.edges...)
	if e.fold || e.curve != nil || !p.turnsBack(e) {
		return
	}
	e.corner = pick(g, "square", "mirror", "mitre")
	i, n := slices.Index(p.edges, e), len(p.edges)
	p.edges[(i+n-1)%n].narrow, p.edges[(i+1)%n].narrow = true, true
}

// turnsBack reports whether an edge can be turned back like a hem: between two
// straight edges that leave it nearly square.
func (p *piece) turnsBack(e *edge) bool {
	i, n := slices.Index(p.edges, e), len(p.edges)
	before, after := p.edges[(i+n-1)%n], p.edges[(i+1)%n]
	square := func(in, on point) bool {
		turn := math.Atan2(in.cross(on), in.dot(on)) * 180 / math.Pi
		return turn > 55 && turn < 115
	}
	return before.curve == nil && after.curve == nil && square(before.leaves(), e.enters()) && square(e.leaves(), after.enters())
}

// depth is how far it is from an edge's middle, square to it, to the other
// side of the outline.
func depth(e *edge, corners []point, t float64) float64 {
	way := e.to.sub(e.from)
	at := point{e.from.x + way.x*t, e.from.y + way.y*t}
	in := point{-way.y / way.size(), way.x / way.size()}
	best := math.Inf(1)
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		side := b.sub(a)
		d := in.cross(side)
		if math.Abs(d) < 1e-9 {
			continue
		}
		far, u := a.sub(at).cross(side)/d, a.sub(at).cross(in)/d
		if far > 1 && u >= 0 && u <= 1 {
			best = math.Min(best, far)
		}
	}
	return best
}
