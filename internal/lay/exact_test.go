package lay_test

import (
	"context"
	"math"
	"testing"

	"hembook/internal/lay"
)

// TestRoundPieceAsWideAsItsCloth: half a circle that fits the cloth with two millimetres
// to spare is laid, though its outline with fewer points would not fit.
func TestRoundPieceAsWideAsItsCloth(t *testing.T) {
	half := lay.Piece{Name: "skirt", Quantity: 1}
	for i := range 721 {
		sin, cos := math.Sincos(float64(i) / 720 * math.Pi)
		half.Outline = append(half.Outline, lay.Point{X: 749 * sin, Y: 749 * cos})
	}
	for width, fits := range map[float64]bool{1500: true, 1498.2: true, 1497: false} {
		plan, err := lay.Make(context.Background(), lay.Problem{Cloth: lay.Cloth{Width: width}, Pieces: []lay.Piece{half, {Name: "band", Quantity: 1, Outline: []lay.Point{{}, {X: 700}, {X: 700, Y: 80}, {Y: 80}}}}}, lay.Options{Tries: 20})
		if laid := err == nil && plan != nil; laid != fits {
			t.Errorf("on %g it is laid: %v, %v", width, laid, err)
		}
	}
}
