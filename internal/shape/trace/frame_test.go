package trace

import (
	"math"
	"testing"

	"hembook/internal/shape"
)

// TestInFile: each corner of a piece, told in the file's own units, is a corner as the
// file draws it: a box of 30 by 4 units with its lower left corner at (7, 2), whatever
// the unit is, whichever way y runs, and however the grain turns the piece.
func TestInFile(t *testing.T) {
	corners := []shape.Point{{X: 7, Y: 2}, {X: 37, Y: 2}, {X: 37, Y: 6}, {X: 7, Y: 6}}
	for _, down := range []bool{false, true} {
		for _, unit := range []float64{1, 10, 25.4} {
			for _, lean := range []float64{0, 5.240778} {
				up := func(p shape.Point) shape.Point { // as readers hand it over: y upwards
					if down {
						p.Y = -p.Y
					}
					return p
				}
				line := Stroke{Closed: true, From: up(corners[0])}
				for _, c := range []int{1, 2, 3, 0} {
					line.Parts = append(line.Parts, shape.Edge{To: up(corners[c])})
				}
				d := Drawing{UnitX: unit, UnitY: unit, Pieces: []Drawn{{Down: down, Strokes: []Stroke{line, {Role: Grain, Parts: []shape.Edge{{To: shape.Point{X: lean, Y: 100}}}}}}}}
				if f := d.Resize(0, 0); f != nil {
					t.Fatal(f)
				}
				p, faults := d.Pieces[0].Assemble(Options{})
				if len(faults) > 0 || (lean != 0) != (p.Turned != 0) {
					t.Fatalf("turned by %g°, %v", p.Turned, faults)
				}
				for _, e := range p.Outline.Edges {
					got, near := p.Frame.InFile(e.To), math.Inf(1)
					for _, c := range corners {
						near = min(near, math.Hypot(got.X-c.X, got.Y-c.Y))
					}
					if near > 1e-5 {
						t.Errorf("y down %v, unit %g mm, grain leans %g: a corner is told at %v", down, unit, lean, got)
					}
				}
			}
		}
	}
}
