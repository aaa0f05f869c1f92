package abacus

// A besideRow is a row of stitching beside a seam or inside a finished edge.
type besideRow struct {
	stitch, thread node
	lines          float64 // one on each side of a seam that is pressed open
}

// besideRows are the rows that a seam or finish has beside it: edge-stitch: and topstitch:,
// each how far from it, or a list of such.
//
// A row of a seam that lies beyond its allowances holds nothing, and is not sewn.
func (g *garment) besideRows(v node, kind seamType, names map[string]float64, finish bool) (out []besideRow) {
	for _, word := range []string{"edge-stitch", "topstitch"} {
		said := v.get(word)
		if !said.there() {
			continue
		}
		at := said
		if said.isMap() {
			at = said.get("at")
		}
		one := besideRow{said.get("stitch"), said.get("thread"), 1}
		if !one.thread.there() {
			one.thread = v.get("thread")
		}
		if !finish {
			one.lines = sidesHeld(kind)
		}
		for _, each := range at.list() {
			if finish || each.length(g.units) < names["allowance"] {
				out = append(out, one)
			}
		}
	}
	return out
}

// sidesHeld is on how many sides of a seam its allowances lie in the end.
func sidesHeld(kind seamType) float64 {
	last := ""
	for _, p := range kind.passes {
		if p.pressed != "" {
			last = p.pressed
		}
	}
	switch last {
	case "open":
		return 2
	case "one side":
		return 1
	}
	giveUp("on which sides of such a seam rows lie is not worked out here")
	return 0
}

// linesBeside is how many lines there are beside each other in all.
func (g *garment) linesBeside(v node, kind seamType, names map[string]float64, finish bool) (n float64) {
	for _, r := range g.besideRows(v, kind, names, finish) {
		n += r.lines
	}
	return n
}
