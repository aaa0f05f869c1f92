package madeup

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A piece is what the maker remembers of a piece that is written.
type piece struct {
	name   string
	edges  []*edge
	occurs int
	of     string // its cloths as written
	inner  *piece // what lies behind it, cut once more
	levels bool   // it bears levels
	darted bool
	folded bool // it has pleats or gathers
	drawn  bool // it has an outline of its own, drawn edge by edge
	like   *piece
}

type edge struct {
	name     string
	from, to point
	curve    *[2]point
	fold     bool
	used     bool // sewn or finished
	finished bool
	corner   string // how its allowance ends
	gathered bool   // it is drawn up
	narrow   bool   // its allowance is less than that of an edge beside it
}

type point struct{ x, y float64 }

func (p point) sub(q point) point     { return point{p.x - q.x, p.y - q.y} }
func (p point) cross(q point) float64 { return p.x*q.y - p.y*q.x }
func (p point) dot(q point) float64   { return p.x*q.x + p.y*q.y }
func (p point) size() float64         { return math.Hypot(p.x, p.y) }

func (e *edge) chord() float64 { return e.to.sub(e.from).size() }

func (g *maker) writePieces() {
	g.line("pieces:")
	kinds := []func(string){g.writeOutline, g.writeOutline, g.writeOutline, g.writeHalf, g.writeHalf, g.writeHalf, g.writeLike, g.writeLike,
		g.writeRectangle, g.writeTrapezoid, g.writeRing, g.writeGodet, g.writeInner}
	n := 1 + g.IntN(g.Size+2)
	for i := range n {
		write := kinds[g.IntN(len(kinds))]
		if i == 0 {
			write = kinds[g.IntN(6)]
		}
		write(fmt.Sprintf("%s %d", pick(g, "front", "back", "panel", "yoke", "pocket"), i+1))
	}
}

// begin writes what every piece has.
func (g *maker) begin(name string, halved bool) *piece {
	p := &piece{name: name}
	g.line("  %s:", name)
	p.of = "shell"
	switch {
	case g.chance(35) && len(g.parts) > 1:
		part := g.parts[1+g.IntN(len(g.parts)-1)]
		p.of = pick(g, part, "[shell, "+part+"]")
	case g.chance(12):
		p.of = "[shell, shell]"
		if slices.Contains(g.parts, "fusing") && g.chance(60) {
			p.of = "[shell, fusing, shell]"
		}
	}
	g.line("    of: %s", p.of)
	switch {
	case halved:
		n := pick(g, 1, 1, 2)
		if n > 1 || g.chance(50) { // a piece with a fold is cut on it by itself
			g.line("    cut: %d on fold", n)
		}
		p.occurs = 2 * n
	default:
		cut := pick(g, "1", "2", "2", "2", "2 alike", "4", "3")
		fmt.Sscan(cut, &p.occurs)
		g.line("    cut: %s", cut)
	}
	if g.chance(25) {
		g.line("    allowance: %s", g.length(g.within(8, 20)))
	}
	g.pieces = append(g.pieces, p)
	return p
}

func (g *maker) writeDarts(p *piece, corners []point) {
	var darts, pleats, gathers []string
	for _, e := range p.edges {
		room := depth(e, corners, 0.5)
		switch {
		case e.fold || room < 120 || math.IsInf(room, 1):
		case g.chance(25):
			darts = append(darts, fmt.Sprintf("%s: {at: %s, width: %s, length: %s}", e.name, bare(e.chord()/2, g.units),
				bare(g.within(8, 26), g.units), bare(g.within(50, 0.4*room), g.units)))
		case e.curve == nil && g.chance(8):
			pleats = append(pleats, fmt.Sprintf("%s: {count: %d, depth: %s, drawn: true}", e.name, 1+g.IntN(3), bare(g.within(5, 12), g.units)))
		case e.curve == nil && g.chance(8):
			e.gathered = true
			whole := e.chord()
			if n, i := len(p.edges), slices.Index(p.edges, e); p.edges[(i+1)%n].fold || p.edges[(i+n-1)%n].fold {
				whole *= 2
			}
			gathers = append(gathers, e.name+": "+g.gathers(whole))
		}
	}
	if p.darted = len(darts) > 0; p.darted {
		g.line("    darts:\n      %s", strings.Join(darts, "\n      "))
	}
	p.folded = len(pleats)+len(gathers) > 0
	if len(pleats) > 0 {
		g.line("    pleats: {%s}", strings.Join(pleats, ", "))
	}
	if len(gathers) > 0 {
		g.line("    gathers: {%s}", strings.Join(gathers, ", "))
	}
	g.writeLines(p)
}

// gathers draws an edge of a length up: by a ratio, or into a length.
func (g *maker) gathers(length float64) string {
	switch g.IntN(3) {
	case 0:
		return pick(g, "1.5", "2", "1 1/4")
	case 1:
		return fmt.Sprintf("{ratio: %s, rows: %d}", pick(g, "1.5", "1 3/4"), 1+g.IntN(3))
	}
	return "{into: " + bare(length*g.within(0.5, 0.8), g.units) + "}"
}

// writeLines writes lines on some pieces: one beside a straight edge, one from a point to
// another near the middle.
func (g *maker) writeLines(p *piece) {
	if !g.chance(30) {
		return
	}
	var lines []string
	if e := pick(g, p.edges...); !e.fold && e.curve == nil {
		lines = append(lines, "beside: "+bare(g.within(15, 35), g.units)+" inside "+e.name)
	}
	mid := point{}
	for _, e := range p.edges {
		mid.x, mid.y = mid.x+e.from.x/float64(len(p.edges)), mid.y+e.from.y/float64(len(p.edges))
	}
	at := func(aside float64) string {
		return "[" + bare(mid.x+aside+g.within(-10, 10), g.units) + ", " + bare(mid.y+g.within(-30, 30), g.units) + "]"
	}
	lines = append(lines, "mark: {from: "+at(-20)+", to: "+at(20)+"}")
	g.line("    lines: {%s}", strings.Join(lines, ", "))
}

func (g *maker) writeLevels(p *piece, corners []point) {
	if !g.chance(45) || p.darted && !g.LevelDarts {
		return
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		least, most = math.Min(least, c.y), math.Max(most, c.y)
	}
	y := round(least+(most-least)*g.within(0.25, 0.75), g.units)
	for _, c := range corners {
		if math.Abs(c.y-y) < 8 {
			return
		}
	}
	p.levels = true
	g.line("    levels: {%s: %s}", pick(g, "bust", "hip", "rib line"), bare(y, g.units))
}

// sewnIn are the cloths that a piece is sewn in: what stiffens it is caught with them,
// and so is a second ply.
func (p *piece) sewnIn() string {
	switch p.of {
	case "[shell, fusing]", "[shell, shell]", "[shell, fusing, shell]":
		return "shell"
	}
	return p.of
}
