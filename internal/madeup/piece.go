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
