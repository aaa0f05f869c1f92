package lay_test

import (
	"context"
	"strings"
	"testing"

	"hembook/internal/lay"
)

// A striped blouse: side seams meet at the hem corner of front and back, the
// sleeves match the front at the armhole. The verifier measures the phases.
func TestMatchedGarment(t *testing.T) {
	p := garmentOn(1400)
	p.Cloth.RepeatAlong = 120
	p.Pieces[0].Match = []lay.Match{{Name: "side seam", At: lay.Point{X: 0, Y: 270}}, {Name: "armhole", At: lay.Point{X: 470, Y: 210}}}
	p.Pieces[1].Match = []lay.Match{{Name: "side seam", At: lay.Point{X: 0, Y: 270}}}
	p.Pieces[2].Match = []lay.Match{{Name: "armhole", At: lay.Point{X: 550, Y: 190}}}
	plain := made(t, garmentOn(1400), 150_000)
	matched := made(t, p, 150_000)
	if matched.Length < plain.Length*0.99 {
		t.Errorf("matched %.1f is shorter than unmatched %.1f", matched.Length, plain.Length)
	}
}

// Two points 50 apart on one piece and 70 apart on the other cannot both
// fall on a stripe of 100.
func TestMatchThatCannotBe(t *testing.T) {
	a := []lay.Match{{Name: "top"}, {Name: "hem", At: lay.Point{X: 50}}}
	b := []lay.Match{{Name: "top"}, {Name: "hem", At: lay.Point{X: 70}}}
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAlong: 100}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(200, 200), Match: a},
		{Name: "back", Outline: rect(200, 200), Match: b},
	}}
	_, err := lay.Make(context.Background(), p, lay.Options{Work: 1000})
	if err == nil || !strings.Contains(err.Error(), `piece "back": its match points cannot all fall on the repeat`) {
		t.Errorf("got %v", err)
	}
}
