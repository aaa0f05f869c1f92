package madeup

import (
	"fmt"
	"math"
	"slices"
)

// writeInner writes a piece that lies behind a drawn one, of the same cloth.
func (g *maker) writeInner(name string) {
	for _, of := range g.pieces {
		if !of.drawn || of.inner != nil || of.of != "shell" {
			continue
		}
		p := &piece{name: "inner " + of.name, occurs: of.occurs, of: of.of, like: of, levels: of.levels}
		for _, e := range of.edges {
			own := *e
			p.edges = append(p.edges, &own)
		}
		of.inner = p
		g.line("  %s: {like: %s%s}", p.name, of.name, g.rolled(of))
		return
	}
	g.writeRectangle(name)
}

// rolled says of a ply that it is rolled over what it is like, now and then.
func (g *maker) rolled(over *piece) string {
	if !g.chance(40) {
		return ""
	}
	more := ""
	if g.chance(25) {
		more = ", more: " + g.length(g.within(1, 9))
	}
	return fmt.Sprintf(", turn-of-cloth: {angle: %d, over: %s, across: %s at middle to %s at middle%s}", pick(g, 30, 90, 180, 360), over.name, over.edges[0].name, over.edges[1].name, more)
}

// writeLike writes a piece that is like a drawn one.
func (g *maker) writeLike(name string) {
	var drawn []*piece
	for _, p := range g.pieces {
		if p.drawn || p.like != nil {
			drawn = append(drawn, p)
		}
	}
	of := drawn[g.IntN(len(drawn))]
	var behind []string // cloths in which a copy does not lie behind the shell itself
	for _, part := range g.parts {
		if part != "shell" || !of.levels && !slices.ContainsFunc(of.edges, func(e *edge) bool { return e.name == "hem" && !e.fold }) {
			behind = append(behind, part)
		}
	}
	if len(behind) == 0 {
		g.writeRectangle(name)
		return
	}
	p := &piece{name: name, occurs: of.occurs, of: pick(g, behind...), like: of, levels: of.levels}
	for _, e := range of.edges {
		own := *e
		own.used = false
		if level := g.level[of.name+"."+e.name]; level != "" {
			g.level[name+"."+e.name] = level
		}
		p.edges = append(p.edges, &own)
	}
	g.line("  %s:\n    like: %s", name, of.name)
	g.line("    of: %s", p.of)
	if e := pick(g, p.edges...); g.chance(30) && !e.fold && e.corner == "" && !e.narrow {
		g.line("    edges: {%s: %s}", e.name, g.length(g.within(6, 25)))
	}
	g.pieces = append(g.pieces, p)
	if e := g.movable(p); e != "" && g.chance(60) {
		g.line("    change: {%s: %s}", e, bare(pick(g, -6.0, -4, 4, 8), g.units))
	}
}

func (g *maker) four(p *piece, names ...string) {
	for _, n := range names {
		p.edges = append(p.edges, &edge{name: n})
	}
}

func (g *maker) writeRectangle(name string) {
	p := g.begin(name, false)
	g.line("    rectangle: [%s, %s]", bare(g.within(120, 900), g.units), bare(g.within(60, 700), g.units))
	g.four(p, "bottom", "right", "top", "left")
	if g.chance(40) {
		level := pick(g, "waist", "edge line")
		g.level[name+".bottom"] = level
		g.line("    edges: {bottom: {allowance: %s, level: %s}, top: {name: upper}}", g.length(g.within(0, 60)), level)
		p.edges[2].name = "upper"
	}
}

func (g *maker) writeTrapezoid(name string) {
	p := g.begin(name, false)
	g.line("    trapezoid: {bottom: %s, top: %s, height: %s}", bare(g.within(200, 600), g.units), bare(g.within(200, 600), g.units), bare(g.within(250, 700), g.units))
	g.four(p, "bottom", "right", "top", "left")
	if g.chance(60) {
		g.line("    edges: {bottom: {allowance: %s, corner: %s}}", g.length(g.within(20, 60)), pick(g, "mitre", "square", "mirror"))
	}
}

func (g *maker) writeRing(name string) {
	p := &piece{name: name, of: "shell"}
	turns := g.IntN(8)
	panels := 1 + turns/2 + g.IntN(3) // a panel of at most half a turn; the inner radius, 80 mm, has room for any allowance
	g.line("  %s:\n    of: shell\n    circle: {share: %s, waist: %s, length: %s, panels: %d}", name,
		[]string{"1/4", "1/2", "3/4", "1", "1 1/4", "1.5", "1 3/4", "2"}[turns],
		bare(math.Max(g.within(500, 1100), float64(turns+1)*130), g.units), bare(g.within(200, 800), g.units), panels)
	if g.chance(60) {
		g.level[name+".hem"], g.level[name+".waist"] = "hem", "waist"
		g.line("    edges: {hem: {allowance: %s, level: hem}, waist: {level: waist}}", g.length(g.within(4, 30)))
	}
	p.occurs = panels
	g.four(p, "waist", "left", "hem", "right")
	g.pieces = append(g.pieces, p)
}

func (g *maker) writeGodet(name string) {
	p := g.begin(name, false)
	height := round(g.within(150, 500), g.units)
	how := fmt.Sprintf("angle: %d", 30+g.IntN(50))
	if g.chance(50) {
		how = "hem: " + bare(height*g.within(0.6, 1.4), g.units)
	}
	g.line("    godet: {height: %s, %s}", bare(height, g.units), how)
	g.four(p, "left", "hem", "right")
}
