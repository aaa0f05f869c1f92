package trace

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/say"
	"hembook/internal/shape"
)

// nameEdges gives every edge its name: the maker's, the file's, or a number.
func (w *assembly) nameEdges() {
	w.wholeEdges()
	if names := w.opt.Names; names != nil && !w.allDrawn(names) {
		if !w.named {
			w.startLowerLeft()
		}
		if len(names) != len(w.sides) {
			w.fault(w.d.At, say.Of("trace.corners-and-a-number-of-degrees-says"), say.Of("trace.named-but-the-sewing-line-has", counted(len(names)), len(w.sides), w.listSides()))
			return
		}
		for i := range w.sides {
			w.sides[i].Name = names[i]
		}
		return
	}
	if !w.named {
		w.startLowerLeft()
	}
	seen := map[string]Where{}
	for i := range w.sides {
		s := &w.sides[i]
		if s.Name == "" {
			s.Name = say.Of("trace.edge", i+1)
		}
		if at, twice := seen[s.Name]; twice && w.sides[(i+len(w.sides)-1)%len(w.sides)].Name != s.Name && w.sides[(i+1)%len(w.sides)].Name != s.Name {
			w.fault(s.At, say.Of("trace.give-one-of-them-another-name"), say.Of("trace.two-edges-that-do-not-adjoin-are", say.Quoted(s.Name), at))
		}
		seen[s.Name] = s.At
	}
}

// allDrawn reports whether names are those that the file gives its edges
// itself: then they say which edges are meant, in whatever order.
func (w *assembly) allDrawn(names []string) bool {
	return w.named && !slices.ContainsFunc(names, func(name string) bool {
		return !slices.ContainsFunc(w.sides, func(s Stroke) bool { return s.Name == name })
	})
}

func counted(n int) string {
	if n == 1 {
		return say.Of("trace.1-edge-is")
	}
	return say.Of("trace.edges-are", n)
}

// listSides says where each edge runs, for a maker who counts them.
func (w *assembly) listSides() string {
	const most = 12
	var list []string
	for i, s := range w.sides {
		if i == most {
			list = append(list, "…")
			break
		}
		list = append(list, say.Of("trace.to", i+1, spot(s.end())))
	}
	return "from " + spot(w.sides[0].From) + " " + strings.Join(list, ", ")
}

// startLowerLeft lets the outline begin at its corner nearest the lower left
// of the box about it, which is where a maker who looks at it would begin.
func (w *assembly) startLowerLeft() {
	least := w.sides[0].From
	for _, s := range w.sides {
		l, _ := shape.Outline{From: s.From, Edges: s.Parts}.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
	}
	best, near := 0, math.Inf(1)
	for i, s := range w.sides {
		if d := apart(least, s.From); d < near-1e-6 {
			best, near = i, d
		}
	}
	w.sides = append(append([]Stroke(nil), w.sides[best:]...), w.sides[:best]...)
}
