package lay_test

import (
	"context"
	"reflect"
	"testing"

	"hembook/internal/lay"
)

// A search comes to an end where the first arrangement has a piece lie long
// that could lie short, so that a shorter strip frees it of overlap and yet
// cannot hold it; and with as little work as can be.
func TestComesToAnEnd(t *testing.T) {
	p := lay.Problem{
		Cloth: lay.Cloth{Width: 698.88, OneWay: true, Reversible: true, Fold: lay.EitherWay},
		Pieces: []lay.Piece{
			{Name: "p0", Quantity: 4, Mirrored: true, Grain: lay.AnyWay, Outline: []lay.Point{{X: -7, Y: -7}, {X: -7, Y: 109}, {X: 50, Y: 109}, {X: 50, Y: -7}}},
			{Name: "p1", Quantity: 2, Grain: lay.AnyWay, Outline: []lay.Point{{X: -10, Y: -18.189872}, {X: -10, Y: 163.189872}, {X: 88, Y: 100.997565}, {X: 88, Y: 44.002435}}},
			{Name: "p2", Quantity: 3, Grain: lay.AnyWay, Outline: []lay.Point{{X: -17, Y: -18.191567}, {X: -17, Y: 105.191567}, {X: 312, Y: 82.886482}, {X: 312, Y: 4.113518}}},
			{Name: "p3", Quantity: 1, Outline: []lay.Point{{X: -3, Y: -3}, {X: -3, Y: 84}, {X: 49, Y: 84}, {X: 49, Y: -3}}},
		},
	}
	for _, work := range []int{1, 4000} {
		var plans [2]*lay.Plan
		for i := range plans {
			var err error
			if plans[i], err = lay.Make(context.Background(), p, lay.Options{Tries: work, Cores: i + 1}); err != nil {
				t.Fatal(err)
			}
		}
		if !reflect.DeepEqual(plans[0], plans[1]) {
			t.Error("on two cores another plan")
		}
	}
}
