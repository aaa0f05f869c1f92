package trace

import "regexp"

// partName is the name of a part of an edge, as a garment is given: what is sewn by
// itself, or what the parts have left of it.
var partName = regexp.MustCompile(`^(.+?)(?: from .+ (?:for|to) .+|, further on(?: and on)*)$`)

// wholeEdges gives the parts of an edge the name of the edge: which parts of it are sewn
// by themselves the record says, and not the file.
func (w *assembly) wholeEdges() {
	for i := range w.sides {
		if m := partName.FindStringSubmatch(w.sides[i].Name); m != nil {
			w.sides[i].Name = m[1]
		}
	}
}
