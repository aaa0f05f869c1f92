package lay_test

import (
	"context"
	"fmt"

	"hembook/internal/lay"
)

// Two fronts, mirrored, and a back on the fold, on cloth 1400 mm wide.
func ExampleMake() {
	p := lay.Problem{
		Cloth: lay.Cloth{Width: 1400, OneWay: true},
		Pieces: []lay.Piece{
			{Name: "front", Outline: []lay.Point{{X: 0, Y: 0}, {X: 600, Y: 0}, {X: 600, Y: 350}, {X: 0, Y: 350}}, Quantity: 2, Mirrored: true},
			{Name: "back", Outline: []lay.Point{{X: 0, Y: 0}, {X: 600, Y: 0}, {X: 600, Y: 350}, {X: 0, Y: 350}}, OnFold: true, FoldEdge: 0},
		},
	}
	plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 10_000, Seed: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm, %.0f %% used, at least %.0f mm\n",
		plan.Length, 100*plan.Utilisation, plan.Bound.Length)
	for _, at := range plan.Placements {
		fmt.Printf("%s %d\n", p.Pieces[at.Piece].Name, at.Copy+1)
	}
	// Output:
	// 600 mm, 100 % used, at least 600 mm
	// front 1
	// front 2
	// back 1
}
