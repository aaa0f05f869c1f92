package card_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"

	"hembook/internal/card"
	"hembook/internal/photo"
	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

func lightOf(t testing.TB, jpg []byte) *photo.Light {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(jpg))
	if err != nil {
		t.Fatal(err)
	}
	return photo.Of(img, photo.Brightness)
}

// TestFindsEveryCard: in made-up photographs from above and leaning, of cards anyhow,
// every card is found, once and under its number, no other is, and its corners are
// a tenth of a pixel off; even where blur all but closes the pips.
func TestFindsEveryCard(t *testing.T) {
	for seed, blur := range []float64{0: 0, 1: 1.3, 2: 1.2} {
		s, _ := tabletop.Random(uint64(seed), 1800)
		s.Blur = max(s.Blur, blur) // pixels
		found := card.Find(lightOf(t, s.Photograph()))
		worst, sum, n := 0.0, 0.0, 0.0
		for _, c := range s.Cards {
			k := -1
			for i := range found {
				if found[i].Number == c.Number {
					if k >= 0 {
						t.Errorf("scene %d: card %d is found twice", seed, c.Number)
					}
					k = i
				}
			}
			if k < 0 {
				t.Errorf("scene %d: card %d is not found", seed, c.Number)
				continue
			}
			for i, at := range card.Corners() {
				sin, cos := math.Sincos(c.Turn)
				want, _ := s.See(shape.Point{X: c.X + cos*at.X - sin*at.Y, Y: c.Y + sin*at.X + cos*at.Y})
				off := math.Hypot(found[k].Corners[i].X-want.X, found[k].Corners[i].Y-want.Y)
				worst, sum, n = max(worst, off), sum+off, n+1
			}
		}
		t.Logf("scene %d: %d cards of %d, corners %.3f pixels off, worst %.3f; side %.0f pixels, soft %.1f", seed, len(found), len(s.Cards), sum/n, worst, found[0].Side(), found[0].Soft)
		if len(found) != len(s.Cards) {
			t.Errorf("scene %d: %d cards are found, %d lie there", seed, len(found), len(s.Cards))
		}
		if sum/n > 0.1 || worst > 0.35 {
			t.Errorf("scene %d: corners are %.3f pixels off, the worst %.3f", seed, sum/n, worst)
		}
	}
}

// TestFindsNoCardWhereNoneIs: nothing is found in noise, a chequered cloth, or a page of
// dark squares without pips.
func TestFindsNoCardWhereNoneIs(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for name, of := range map[string]func(x, y int) uint8{
		"noise":   func(x, y int) uint8 { return uint8(rng.IntN(256)) },
		"chequer": func(x, y int) uint8 { return uint8(200 * ((x/23 + y/23) % 2)) },
		"squares": func(x, y int) uint8 {
			if x%60 < 30 && y%60 < 30 {
				return 10
			}
			return 230
		},
		"spotted squares": func(x, y int) uint8 {
			if x%60 < 30 && y%60 < 30 && (x/5%2 == 0 || y/5%2 == 0) {
				return 10
			}
			return 230
		},
	} {
		img := image.NewGray(image.Rect(0, 0, 900, 700))
		for i := range img.Pix {
			img.Pix[i] = of(i%900, i/900)
		}
		if found := card.Find(photo.Of(img, photo.Brightness)); len(found) > 0 {
			t.Errorf("%s: %d cards are found", name, len(found))
		}
	}
}
