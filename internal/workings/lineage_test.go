package workings

import (
	"testing"

	"hembook/internal/fault"
)

// TestLineage holds what is said to change with a figure, or with a line,
// against what the figures say went into them: x changes with y exactly where y
// went into x, near or far. Every figure that any page, sheet or command has
// must be among those that are said to change with something.
func TestLineage(t *testing.T) {
	figures, pairs := 0, 0
	for _, r := range rooms(t) {
		for i := range r.builds {
			b := &r.builds[i]
			if b.shared {
				continue
			}
			listed := true
			for _, e := range b.entries {
				if b.lineage.Figure(e.ID) == nil {
					t.Errorf("%s, %s: %s is in no list of figures: add it where its room lists them, a garment's in internal/derive/figures.go", r.name, b.slug, e.ID)
					listed = false
				}
			}
			if !listed {
				continue // nothing can be said to rest on it
			}
			figures += len(b.lineage.Figures())
			pairs += b.lineageHolds(t)
		}
	}
	t.Logf("%d figures, %d pairs of one and what rests on it", figures, pairs)
}

// A line is one of a file.
type line struct {
	file string
	n    int
}

// lineageHolds compares both ways over one build and counts the pairs.
func (b *build) lineageHolds(t *testing.T) (pairs int) {
	below, lines := map[string]map[string]bool{}, map[string]map[line]bool{}
	var down func(id string)
	down = func(id string) { // all that went into a figure, from its printed inputs alone
		if below[id] != nil {
			return
		}
		below[id], lines[id] = map[string]bool{}, map[line]bool{}
		for _, k := range b.byID[id] {
			for _, in := range b.entries[k].Inputs {
				if in.File != "" {
					lines[id][line{in.File, in.Line}] = true
				}
				if len(b.byID[in.From]) == 0 || in.Table || in.Default {
					continue
				}
				down(in.From)
				below[id][in.From] = true
				for far := range below[in.From] {
					below[id][far] = true
				}
				for at := range lines[in.From] {
					lines[id][at] = true
				}
			}
		}
	}
	all := map[line]bool{}
	for id := range b.byID {
		down(id)
		for at := range lines[id] {
			all[at] = true
		}
	}
	holds := func(what string, list map[string]bool, rests func(id string) bool) {
		for id := range b.byID {
			if list[id] != rests(id) {
				t.Errorf("%s: %s changes with %s: %v, and rests on it: %v", b.slug, id, what, list[id], rests(id))
			}
			if list[id] {
				pairs++
			}
		}
	}
	for y := range b.byID {
		up := map[string]bool{}
		for _, d := range b.lineage.Of(y) {
			up[d.Figure.ID] = true
		}
		holds(y, up, func(id string) bool { return below[id][y] })
	}
	for at := range all {
		up := map[string]bool{}
		for _, d := range b.lineage.OfPlaces(func(p fault.Pos, _ bool) bool { return p.File() == at.file && int(p.Line) == at.n }) {
			up[d.Figure.ID] = true
		}
		holds(at.file, up, func(id string) bool { return lines[id][at] })
	}
	return pairs
}
