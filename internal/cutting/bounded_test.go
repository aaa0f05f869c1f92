package cutting

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"hembook/internal/lay"
)

// circling is a problem on which a search has gone round in a circle: the
// first arrangement has a piece lie long that could lie short.
func circling() *lay.Problem {
	return &lay.Problem{
		Cloth: lay.Cloth{Width: 698.88, OneWay: true, Reversible: true, Fold: lay.EitherFold},
		Pieces: []lay.Piece{
			{Name: "p0", Quantity: 4, Mirrored: true, Grain: lay.AnyWay, Outline: []lay.Point{{X: -7, Y: -7}, {X: -7, Y: 109}, {X: 50, Y: 109}, {X: 50, Y: -7}}},
			{Name: "p1", Quantity: 2, Grain: lay.AnyWay, Outline: []lay.Point{{X: -10, Y: -18.189872}, {X: -10, Y: 163.189872}, {X: 88, Y: 100.997565}, {X: 88, Y: 44.002435}}},
			{Name: "p2", Quantity: 3, Grain: lay.AnyWay, Outline: []lay.Point{{X: -17, Y: -18.191567}, {X: -17, Y: 105.191567}, {X: 312, Y: 82.886482}, {X: 312, Y: 4.113518}}},
			{Name: "p3", Quantity: 1, Outline: []lay.Point{{X: -3, Y: -3}, {X: -3, Y: 84}, {X: 49, Y: 84}, {X: 49, Y: -3}}},
		},
	}
}

// TestComesToAnEnd: a lay is planned whatever the engine does, and the same
// on one core and on two.
func TestComesToAnEnd(t *testing.T) {
	p := circling()
	var plans [2]*lay.Plan
	for i := range plans {
		var err error
		if plans[i], err = (&Store{}).Plan(t.Context(), p, lay.Options{Work: 4000, Cores: i + 1}); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(plans[0], plans[1]); diff != "" {
		t.Errorf("on two cores another plan:\n%s", diff)
	}
}

// TestWatched: no usual search is taken for one that goes round in a circle.
func TestWatched(t *testing.T) {
	p := problemOf(t)
	for _, work := range []int{2000, 200_000} {
		w := newWatched(t.Context(), work)
		if _, err := lay.Make(w, *p, lay.Options{Work: work}); err != nil {
			t.Fatal(err)
		}
		most := int64(work)/4 + leastAsked
		if asked := most - w.left.Load(); asked > most/4 {
			t.Errorf("with %d places to try it asked %d times, near the most of %d", work, asked, most)
		}
	}
}
