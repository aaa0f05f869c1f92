package draw

import (
	"slices"

	"hembook/internal/drawing"
)

// A strokeGrid keeps strokes by the squares they pass, so that whoever asks what
// comes near a place looks at few of them. What lies beyond its squares is kept in
// those at its rim.
type strokeGrid struct {
	strokes []stroke
	next    []cellEntry // the lists of all cells, each from the latest to the first
	heads   [gridCells * gridCells]int32
}

// A cellEntry is a stroke in the list of a cell.
type cellEntry struct{ stroke, next int32 }

// Squares of a grid: so many, each so large in mm, so that all reach over a net on a
// page.
const (
	gridCells = 24
	gridCell  = 10.0
)

func gridAt(v float64) int {
	if !(v > 0) {
		return 0
	}
	return int(min(v/gridCell, gridCells-1))
}

// room makes room for about so many more strokes.
func (g *strokeGrid) room(count int) {
	g.strokes, g.next = slices.Grow(g.strokes, count), slices.Grow(g.next, count+count/2)
}

func (g *strokeGrid) add(s stroke) {
	at := int32(len(g.strokes))
	g.strokes = append(g.strokes, s)
	left, right := gridAt(min(s.a.X, s.b.X)-s.half), gridAt(max(s.a.X, s.b.X)+s.half)
	top, bottom := gridAt(min(s.a.Y, s.b.Y)-s.half), gridAt(max(s.a.Y, s.b.Y)+s.half)
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			head := &g.heads[y*gridCells+x]
			g.next = append(g.next, cellEntry{at, *head})
			*head = int32(len(g.next)) // 0 is the end of a list
		}
	}
}

// any reports whether is holds of a stroke that passes a square which the box
// reaches.
func (g *strokeGrid) any(b drawing.Box, is func(*stroke) bool) bool {
	left, right := gridAt(b.Left), gridAt(b.Right)
	top, bottom := gridAt(b.Top), gridAt(b.Bottom)
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			for k := g.heads[y*gridCells+x]; k > 0; k = g.next[k-1].next {
				if is(&g.strokes[g.next[k-1].stroke]) {
					return true
				}
			}
		}
	}
	return false
}
