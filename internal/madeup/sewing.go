package madeup

import (
	"fmt"
	"slices"
	"strings"
)

// A kind is a seam type or finish with measures that go together, in mm.
type kind struct {
	name     string
	measures []string // "first=6": written as given
}

var seamKinds = []kind{
	{"plain", nil}, {"plain", []string{"allowance=20"}}, {"plain-to-one-side", nil}, {"plain-overlocked", []string{"allowance=12", "bite=4"}},
	{"french", nil}, {"french", []string{"first=5", "trim=3", "second=8"}}, {"french", []string{"first=7", "second=10"}},
	{"mock-french", nil}, {"flat-felled", nil}, {"flat-felled", []string{"allowance=18", "trim=8", "fold=7"}},
	{"flat-felled-offset", nil}, {"flat-felled-offset", []string{"width=10", "fold=7", "narrow=5"}},
	{"bound", nil}, {"bound", []string{"allowance=14", "width=5"}}, {"hong-kong", nil}, {"hong-kong", []string{"allowance=16", "sew=3", "extra=8"}},
	{"enclosed", nil}, {"turned-and-stitched", nil}, {"topstitched-open", nil}, {"double-stitched", nil}, {"overlocked", nil},
	{"overlocked", []string{"allowance=8"}}, {"welt", nil}, {"welt", []string{"allowance=18", "width=11"}}, {"lapped-turned", nil}, {"lapped-raw", nil},
	{"lapped-raw", []string{"overlap=14", "edge=4"}}, {"piped", nil}, {"piped", []string{"cord=6", "allowance=12"}}, {"slot", nil}, {"strap", nil},
	{"faggoted", nil}, {"flat-felled-inside", nil}, {"flat-felled-inside", []string{"allowance=17", "trim=7", "fold=7"}}, {"self-bound", nil},
	{"set-in-felled", nil}, {"set-in-felled", []string{"narrow=5", "width=10", "fold=5"}}, {"butted-taped", nil}, {"butted-taped", []string{"tape=16"}},
	{"flat-covered", nil}, {"tucked", nil}, {"tucked", []string{"tuck=14", "allowance=12"}}, {"lace-lapped", nil}, {"stoated", nil},
	{"pressed-open-taped", nil}, {"pressed-open-taped", []string{"allowance=8", "tape=20"}}, {"channelled", nil}, {"overlocked-together", nil},
	{"safety-stitched", nil}, {"taped-seam", nil}, {"taped-seam", []string{"tape=9"}}, {"catch-stitched-open", nil},
}

var finishKinds = []kind{
	{"single-turned-hem", nil}, {"single-turned-hem", []string{"depth=25"}}, {"double-turned-hem", nil}, {"double-turned-hem", []string{"depth=15"}},
	{"turned-in-hem", nil}, {"turned-in-hem", []string{"depth=30", "turn=8"}}, {"rolled-hem", nil}, {"rolled-hem", []string{"roll=4"}},
	{"hand-rolled-hem", nil}, {"blind-hem", nil}, {"bias-faced-hem", nil}, {"bias-faced-hem", []string{"seam=6", "cut=34"}},
	{"bound-edge", nil}, {"double-bound-edge", nil}, {"double-bound-edge", []string{"width=7"}}, {"faced", nil}, {"self-faced", nil},
	{"turned-edge", nil}, {"overlocked-edge", nil}, {"zigzagged-edge", nil}, {"casing", nil}, {"catch-stitched-hem", nil},
	{"plush-elastic", nil}, {"plush-elastic", []string{"elastic=8"}}, {"fold-over-elastic", nil}, {"rib-band", nil}, {"rib-band", []string{"width=35", "seam=7"}},
	{"elastic-exposed", nil}, {"wigan-hem", []string{"depth=38"}}, {"shirt-tail-hem", nil}, {"bias-faced-edge", nil}, {"piped-edge", []string{"cord=5"}},
	{"raw", nil}, {"pinked", nil}, {"overcast-edge", nil}, {"overlocked-rolled", nil}, {"net-bound", nil}, {"net-bound", []string{"width=6"}},
	{"drawstring-casing", nil}, {"drawstring-casing", []string{"cord=12", "ends=180"}}, {"braid-hem", nil}, {"braid-hem", []string{"seam=8", "braid=75"}},
	{"cover-stitched-hem", nil}, {"taped-hem", nil}, {"turn-up", []string{"cuff=22", "inside=26"}}, {"twin-needle-hem", nil},
	{"drawn-thread-hem", nil}, {"stitched-line", nil}, {"edge-stitched", nil}, {"topstitched-twice", nil}, {"stay-stitched", nil}, {"basted", nil},
	{"hand-stitched", nil},
}

// words writes a kind, its measures in the record's units.
func (g *maker) words(k kind) string {
	out := "type: " + k.name
	for _, m := range k.measures {
		name, mm, _ := strings.Cut(m, "=")
		out += ", " + name + ": " + mm + " mm"
	}
	if len(g.thread) > 1 && g.chance(40) {
		out += ", thread: " + g.thread[1]
	}
	if g.chance(15) {
		out += ", stitch: " + pick(g, `"304"`, `"401"`, `"301"`, `"504"`)
	}
	if strings.Contains(k.name, "elastic") && g.chance(40) {
		out += ", share: " + pick(g, "0.8", "0.95", "7/8")
	}
	if strings.Contains(k.name, "elastic") && !strings.Contains(out, "share") && g.chance(25) {
		out += ", length: " + g.length(g.within(150, 700))
	}
	if len(g.parts) > 1 && g.chance(30) {
		out += ", strip: " + g.parts[len(g.parts)-1]
	}
	return out
}

// free are the edges of a piece that may be sewn.
func free(p *piece) []*edge {
	var out []*edge
	for _, e := range p.edges {
		if !e.fold && !e.used {
			out = append(out, e)
		}
	}
	return out
}

// take takes a free edge of a piece, as "piece.edge"; "" where none is left. Now
// and then an edge is sewn that was sewn before.
func (g *maker) take(p *piece) string {
	list := free(p)
	if g.chance(8) {
		list = slices.DeleteFunc(slices.Clone(p.edges), func(e *edge) bool { return e.fold || e.finished })
	}
	if len(list) == 0 {
		return ""
	}
	e := list[g.IntN(len(list))]
	e.used = true
	g.drawnUp = g.drawnUp || e.gathered
	return p.name + "." + e.name
}

// finish takes a free edge for a finish.
func (g *maker) finish(p *piece) string {
	list := free(p)
	if len(list) == 0 {
		return ""
	}
	e := list[g.IntN(len(list))]
	e.used, e.finished = true, true
	return p.name + "." + e.name
}

func (g *maker) writeSeams() {
	var lines []string
	for i := range g.Size + g.IntN(g.Size+1) {
		p, q := pick(g, g.pieces...), pick(g, g.pieces...)
		if p.sewnIn() != q.sewnIn() {
			continue
		}
		g.drawnUp = false
		run := g.chance(30)
		if !run && p.occurs != q.occurs {
			continue
		}
		a, b := g.take(p), g.take(q)
		name := fmt.Sprintf("seam %d", i+1)
		switch {
		case a == "" || b == "" || a == b:
			continue
		case g.level[a] != "" && g.level[a] == g.level[b]:
			continue // which of the two is counted at their level is not written
		case run:
			more := pick(g, g.pieces...)
			second := ""
			if more.sewnIn() == p.sewnIn() {
				second = g.take(more)
			}
			if second != "" && (g.level[second] == "" || g.level[second] != g.level[b]) {
				a += ", " + second
			}
			lines = append(lines, fmt.Sprintf("%s: {join: [[%s], [%s]], %s}", name, a, b, g.sewn()))
		case p.occurs%2 == 0 && g.chance(12):
			lines = append(lines, fmt.Sprintf("%s: {join: [%s, %s], %s}", name, a, a, g.sewn()))
		case p.inner != nil && !strings.Contains(strings.Join(lines, " "), a):
			lines = append(lines, fmt.Sprintf("%s: {join: [%s, %s, inner %s], %s}", name, a, b, a, g.sewnThrough()))
		default:
			lines = append(lines, fmt.Sprintf("%s: {join: [%s, %s], %s}", name, a, b, g.sewn()))
			if last := lines[len(lines)-1]; !strings.Contains(last, "enclosed") && !strings.Contains(last, "overlap") { // what turns behind, or laps, is not what a zip closes
				g.zipped, g.zippedTo = a, b
			}
		}
		g.seams = append(g.seams, name)
	}
	if lines = append(lines, g.moreSeams...); len(lines) > 0 {
		text := strings.Join(lines, "\n  ")
		g.line("seams:\n  %s", text)
		if g.zipped != "" && (strings.Count(text, g.zipped) > 1 || strings.Count(text, g.zippedTo) > 1) { // which of the two it opens is not written
			g.zipped = ""
		}
	}
}

// sewn is how a seam is sewn, and what it says of the difference of its sides.
func (g *maker) sewn() string {
	k := pick(g, seamKinds...)
	for k.name == "slot" && g.weighed { // its basting is taken out; what it weighs is told otherwise
		k = pick(g, seamKinds...)
	}
	out := g.words(k)
	if k.name == "lapped-raw" || k.name == "lace-lapped" { // whose overlap is a measure of their own
		return out
	}
	return out + g.beside(k, "plain", "plain-to-one-side") + g.meant()
}

// beside is topstitching or edge stitching, now and then, of what is sewn in one of these ways.
func (g *maker) beside(k kind, ways ...string) string {
	if !slices.Contains(ways, k.name) || !g.chance(40) {
		return ""
	}
	return pick(g, ", topstitch: [2 mm, 8 mm]", ", edge-stitch: 2 mm", `, topstitch: {at: 6 mm, stitch: "301"}`, ", edge-stitch: 1.5 mm, topstitch: 7 mm")
}

// sewnThrough is how a seam is sewn in which a third ply is caught.
func (g *maker) sewnThrough() string {
	return g.words(pick(g, kind{"plain", nil}, kind{"plain", []string{"allowance=18"}}, kind{"topstitched-open", nil}, kind{"yoke-enclosed", nil},
		kind{"yoke-enclosed", []string{"allowance=12"}}, kind{"two-piece-band", nil}))
}

func (g *maker) meant() string {
	how := g.IntN(6)
	if g.drawnUp && (how == 1 || how == 3) { // gathered by its piece already
		return ""
	}
	switch how {
	case 0:
		return ", ease: " + g.length(g.within(2, 20))
	case 1:
		return ", gather: " + pick(g, "1.5", "2", "1 3/4")
	case 3:
		return ", gather: 1.5, overlap: " + g.length(g.within(10, 40))
	case 2:
		return ", overlap: " + g.length(g.within(10, 40))
	}
	return ""
}

func (g *maker) writeFinishes() {
	var lines []string
	for i := range g.Size {
		var of []string
		for range 1 + g.IntN(2) {
			if e := g.finish(pick(g, g.pieces...)); e != "" {
				of = append(of, e)
			}
		}
		if len(of) == 0 {
			continue
		}
		name, k := fmt.Sprintf("finish %d", i+1), pick(g, finishKinds...)
		lines = append(lines, fmt.Sprintf("%s: {of: [%s], %s}", name, strings.Join(of, ", "), g.words(k)+g.beside(k, "double-turned-hem")))
		g.seams = append(g.seams, name)
	}
	if lines = append(lines, g.moreFinishes...); len(lines) > 0 {
		g.line("finishes:\n  %s", strings.Join(lines, "\n  "))
	}
}

// writeRest writes lengths, levels, notions, bias strips and costs.
func (g *maker) writeRest() {
	p := g.pieces[0]
	g.line("lengths: {down: [%s.%s, %s.%s]}", p.name, p.edges[0].name, p.name, p.edges[1].name)
	if g.chance(40) {
		g.line("levels: {bust: {tolerance: %s}, chest: {width: %s, tolerance: %s}}", g.length(g.within(10, 50)), g.length(g.within(700, 1300)), g.length(g.within(0, 40)))
	}
	price := func() string { return fmt.Sprintf("%d.%02d EUR", g.IntN(9), g.IntN(100)) }
	var notions []string
	if g.chance(60) {
		notions = append(notions, fmt.Sprintf("buttons: {along: %s.%s, every: %s, weight: 2 g, price: %s}", p.name, p.edges[0].name, bare(g.within(40, 90), g.units), price()))
	}
	if g.zipped != "" && g.chance(30) {
		notions = append(notions, fmt.Sprintf("zip: {length: %s, along: %s, weight: 9 g, price: %s}", bare(g.within(15, 60), g.units), g.zipped, price()))
	}
	if g.chance(60) {
		notions = append(notions, fmt.Sprintf("cord: {length: %s, weight: %d g, price: %s}", g.length(g.within(300, 1500)), 1+g.IntN(9), price()))
	}
	if g.chance(60) {
		count, called := 1+g.IntN(12), "hooks: {"
		if count%3 == 0 {
			called = "the last thing: {what: hook, "
		}
		notions = append(notions, fmt.Sprintf("%scount: %d, weight: 0.5 g, price: %s}", called, count, price()))
	}
	if len(notions) > 0 {
		g.line("notions:\n  %s", strings.Join(notions, "\n  "))
	}
	if g.chance(50) {
		g.line("bias:\n  straps: {cut: %s, length: %s, overlap: %s}", bare(g.within(20, 50), g.units), g.length(g.within(400, 2500)), bare(20, g.units))
		g.line("  edging: {finished: %s, binding: %s, length: %s, joins: %d, from: %s}", bare(g.within(5, 12), g.units), pick(g, "single", "double"),
			g.length(g.within(800, 4000)), g.IntN(5), g.parts[len(g.parts)-1])
	}
	if g.chance(60) {
		g.line("costs: {post: %s, other: {calico: %s, box: %s}, price: %d.00 EUR}", price(), price(), price(), 100+g.IntN(900))
	}
}

func (g *maker) writeWork() {
	n := 2 + g.IntN(4)
	g.line("work:")
	var waits []string
	for i := range n {
		name := fmt.Sprintf("step %c%s", 'a'+i, pick(g, "", "", "", " and hemmed by hands", ", the last hem", " with careful seams"))
		words := fmt.Sprintf("%s: {takes: %s, stage: %s", name, pick(g, "50 min", "2 h", "1 h 20 min", "15 min", "3.5 h"),
			pick(g, "drafting", "cutting", "sewing", "finishing"))
		if g.chance(30) {
			words += ", wait: " + pick(g, "24 h", "90 min", "8 h")
		}
		if g.chance(30) {
			words += ", technique: " + pick(g, "careful-seam", "careful-seam", "hemming", "none")
		}
		if len(g.seams) > 0 && g.chance(60) {
			words += ", sews: [" + g.seams[g.IntN(len(g.seams))] + "]"
		}
		var after []string
		for j := range i {
			if g.chance(40) {
				after = append(after, fmt.Sprintf("step %c", 'a'+j))
			}
		}
		switch {
		case len(after) > 0:
			words += ", after: [" + strings.Join(after, ", ") + "]"
		case g.chance(50): // else it comes after the one above
			words += ", after: nothing"
		}
		waits = append(waits, words)
	}
	for _, w := range waits {
		g.line("  %s}", w)
	}
	g.line("journal:")
	for day := range 1 + g.IntN(4) {
		g.line("  - {at: 2026-08-%02d 09:10, did: step %c, for: %d min}", 3+day, 'a'+g.IntN(n), 5+g.IntN(200))
	}
}

// writeRounds writes rounds of fitting that change drawn pieces.
func (g *maker) writeRounds() {
	if !g.chance(40) {
		return
	}
	g.line("fittings:")
	for round := range 1 + g.IntN(2) {
		g.line("  - day: 2026-08-%02d\n    saw: Folds.", 10+round)
		var changes []string
		for range 1 + g.IntN(2) {
			p := pick(g, g.pieces...)
			for p.like != nil || !p.drawn {
				p = g.pieces[0]
			}
			e, by := g.movable(p), pick(g, -8.0, -5, 3, 6, 10)
			name := p.name + "." + e + ": "
			if e != "" && !slices.ContainsFunc(changes, func(c string) bool { return strings.HasPrefix(c, name) }) {
				changes = append(changes, name+bare(by, g.units))
			}
		}
		if g.change != "" && round == 0 {
			changes = append(changes, g.change)
		}
		if len(changes) > 0 {
			g.line("    change:\n      %s", strings.Join(changes, "\n      "))
		}
	}
}

// movable is an edge that may be moved, "" where there is none: a straight one
// between straight ones, unless curves may be moved too.
func (g *maker) movable(p *piece) string {
	n := len(p.edges)
	for _, i := range g.Perm(n) {
		e, before, after := p.edges[i], p.edges[(i+n-1)%n], p.edges[(i+1)%n]
		if !e.fold && (g.MovesCurves || e.curve == nil && before.curve == nil && after.curve == nil) {
			return e.name
		}
	}
	return ""
}
