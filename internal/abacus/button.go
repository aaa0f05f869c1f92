package abacus

import (
	"math"
	"strings"
)

// buttonFigures are what follows from how wide and thick a button is (the guide): its
// hole is as long as both, the edge lies half its width and a quarter of an inch off, one
// in ten is spare, and its thread goes through it and a shank of 3 mm.
func (g *garment) buttonFigures(out Figures, id string, n notion) {
	said := n.record.get("what").text()
	if said == "" {
		said = strings.NewReplacer("-", " ").Replace(n.slug)
	}
	if !strings.HasSuffix(said, "button") && !strings.HasSuffix(said, "buttons") || !n.record.get("size").there() {
		return
	}
	wide, thick := n.record.get("size").length(g.units), n.record.get("thick").lengthOr(g.units, 3)
	out.put(id+"have", n.count+math.Ceil(n.count/10), "")
	out.put(id+"sewn-on", (thick+3)*n.count/1000, "m")
	if holes := n.record.get("holes").text(); holes == "loops" || holes == "none" {
		return
	}
	out.put(id+"hole", wide+thick, "mm")
	out.put(id+"holes", (wide+thick)*n.count/1000, "m")
	out.put(id+"stand", wide/2+6.35, "mm")
}
