package madeup

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// besides writes something by chance of its own, so that all else of a seed stays as it
// was.
func (g *maker) besides(write func()) {
	own := g.Rand
	if g.aside == nil {
		g.aside = rand.New(rand.NewPCG(g.Seed, 21))
	}
	g.Rand = g.aside
	write()
	g.Rand = own
}

// writeConstruction writes pieces with pleats that are let in, strips along an edge,
// pockets to be set on, and patches for seams that cross.
func (g *maker) writeConstruction() {
	for _, one := range []struct {
		percent int
		write   func()
	}{{35, g.writePleated}, {30, g.writeBorder}, {30, g.writePocket}, {30, g.writePatches}, {30, g.writeHanded}} {
		if g.chance(min(one.percent, 12*g.Size)) {
			one.write()
		}
	}
}

// writePleated writes a rectangle with pleats let in at one of its edges.
func (g *maker) writePleated() {
	p := g.begin("pleated panel", false)
	w, h := round(g.within(420, 900), g.units), round(g.within(300, 700), g.units)
	g.line("    rectangle: [%s, %s]", bare(w, g.units), bare(h, g.units))
	g.four(p, "bottom", "right", "top", "left")
	along, down := w, h
	at := pick(g, "top", "top", "bottom", "left", "right")
	if at == "left" || at == "right" {
		along, down = h, w
	}
	count := 1 + g.IntN(4)
	most := along / float64(count) / 2.2 // so that no fold lies under the next
	kind := pick(g, "knife", "box", "inverted", "tuck", "pin tuck")
	words := fmt.Sprintf("kind: %s, count: %d, depth: %s", kind, count, bare(g.within(3, min(most/2, 40)), g.units))
	if g.chance(60) && !strings.HasSuffix(kind, "tuck") {
		words += ", stitched: " + bare(g.within(20, down-30), g.units)
	}
	g.line("    pleats: {%s: {%s}}", at, words)
	if g.chance(60) {
		g.line("    levels: {rib line: %s}", bare(g.within(30, h-30), g.units))
		p.levels = true
	}
}

// writeBorder writes a strip along a straight edge of a drawn piece.
func (g *maker) writeBorder() {
	for _, of := range g.pieces {
		if !of.drawn || of.darted || of.folded || of.of != "shell" || of.levels {
			continue
		}
		n := len(of.edges)
		for i, e := range of.edges {
			before, after := of.edges[(i+n-1)%n], of.edges[(i+1)%n]
			if e.fold || before.fold || after.fold || before.name == "hem" || e.name == "hem" || after.name == "hem" || e.curve != nil || before.curve != nil || after.curve != nil || e.gathered || !bordered(before, e) || !bordered(e, after) {
				continue
			}
			g.line("  strip of %s: {border: {along: %s.%s, width: %s}, allowance: %s}", of.name, of.name, e.name, bare(g.within(15, 40), g.units), g.length(g.within(0, 15)))
			return
		}
	}
}

// bordered reports whether a strip at most 40 wide ends within the edge beside it.
func bordered(a, b *edge) bool {
	in, on := a.to.sub(a.from), b.to.sub(b.from)
	turn := math.Atan2(in.cross(on), in.dot(on)) * 180 / math.Pi
	return turn > 45 && turn < 115
}

// writePocket writes a piece with a pocket set on it.
func (g *maker) writePocket() {
	w, h := round(g.within(300, 500), g.units), round(g.within(300, 500), g.units)
	a, b := round(g.within(80, 160), g.units), round(g.within(90, 180), g.units)
	cut := pick(g, "1", "2")
	pockets, ground := cut, "ground"
	if cut == "2" && g.chance(40) {
		pockets, ground = "1", pick(g, "left ", "right ")+"ground"
	}
	g.line("  ground: {of: shell, cut: %s, rectangle: [%s, %s]}", cut, bare(w, g.units), bare(h, g.units))
	g.line("  patch pocket: {of: shell, cut: %s, rectangle: [%s, %s]}", pockets, bare(a, g.units), bare(b, g.units))
	words := fmt.Sprintf("join: [patch pocket, %s], at: [%s, %s]", ground, bare(g.within(20, w-a-20), g.units), bare(g.within(b+20, h-20), g.units))
	if g.chance(40) {
		words += ", type: lapped-turned"
	}
	g.moreSeams = append(g.moreSeams, "patch pocket: {"+words+"}")
	g.moreFinishes = append(g.moreFinishes, fmt.Sprintf("pocket top: {of: patch pocket.top, %s}", g.words(pick(g, kind{"double-turned-hem", []string{"depth=20"}}, kind{"turned-edge", nil}, kind{"single-turned-hem", nil}))))
}

// writePatches writes four rectangles of which two and two are sewn beside each other,
// and then all across: that seam runs over the other two.
func (g *maker) writePatches() {
	w, v := bare(g.within(150, 400), g.units), bare(g.within(150, 400), g.units)
	for i, wide := range []string{w, v, w, v} {
		g.line("  patch %d: {of: shell, cut: 1, rectangle: [%s, %s]}", i+1, wide, bare(g.within(100, 300), g.units))
	}
	kinds := []kind{{"plain", nil}, {"plain-to-one-side", nil}, {"french", nil}, {"flat-felled", nil}, {"lapped-raw", nil}, {"bound", nil}, {"overlocked", nil}}
	g.moreSeams = append(g.moreSeams,
		fmt.Sprintf("upper patches: {join: [patch 1.right, patch 2.left], %s}", g.words(pick(g, kinds...))),
		fmt.Sprintf("lower patches: {join: [patch 3.right, patch 4.left], %s}", g.words(pick(g, kinds...))),
		fmt.Sprintf("patches across: {join: [[patch 1.bottom, patch 2.bottom], [patch 3.top, patch 4.top]], %s}", g.words(pick(g, kinds...))))
}

// writeHanded writes a pair of fronts and a pair of backs of which each side is sewn by
// itself, and in another way; a round may change one of them.
func (g *maker) writeHanded() {
	w, h := round(g.within(160, 280), g.units), round(g.within(300, 600), g.units)
	drop := round(g.within(20, 60), g.units)
	for _, name := range []string{"near", "far"} {
		g.line("  %s:\n    of: shell\n    cut: 2\n    outline: {from: [0, 0], foot: [%s, 0], side: [%s, %s], head: [0, %s], middle: [0, 0]}", name,
			bare(w, g.units), bare(w, g.units), bare(h-drop, g.units), bare(h, g.units))
		if g.chance(50) {
			g.line("    levels: {rib line: %s}", bare(h*g.within(0.3, 0.7), g.units))
		}
	}
	for _, hand := range []string{"left", "right"} {
		for _, edge := range []string{"side", "head"} {
			g.moreSeams = append(g.moreSeams, fmt.Sprintf("%s %s: {join: [%s near.%s, %s far.%s], %s}", hand, edge, hand, edge, hand, edge, g.words(pick(g, kind{"plain", nil}, kind{"french", nil}, kind{"bound", nil}, kind{"plain", []string{"allowance=18"}}))))
		}
	}
	g.moreFinishes = append(g.moreFinishes, fmt.Sprintf("feet: {of: [near.foot, far.foot], %s}", g.words(pick(g, kind{"single-turned-hem", nil}, kind{"raw", nil}, kind{"turned-in-hem", []string{"depth=30", "turn=8"}}))))
	if g.chance(50) {
		g.change = pick(g, "left", "right") + " " + pick(g, "near", "far") + "." + pick(g, "side: ", "foot: ") + bare(pick(g, -8.0, -5, 3, 6, 10), g.units)
	}
}
