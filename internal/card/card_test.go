package card

import (
	"math/bits"
	"testing"
)

// quarter is a code as it is seen on a card turned by a quarter with the clock: what
// stood at the upper left then stands at the upper right.
func quarter(code uint16) (out uint16) {
	for y := range 4 {
		for x := range 4 {
			if code>>(4*y+x)&1 == 1 {
				out |= 1 << (4*x + 3 - y)
			}
		}
	}
	return out
}

// TestCodesAreFarApart: two misread pips never make another card of one, nor turn it round.
func TestCodesAreFarApart(t *testing.T) {
	for i, a := range codes {
		turned := a
		for turn := range 4 {
			for j, b := range codes {
				if i == j && turn == 0 {
					continue
				}
				if differ := bits.OnesCount16(turned ^ b); differ < 6 {
					t.Errorf("card %d turned %d times differs from card %d in %d pips", i+1, turn, j+1, differ)
				}
			}
			turned = quarter(turned)
		}
		if turned != a {
			t.Errorf("card %d is not itself after a full turn", i+1)
		}
	}
}

// TestCardsHoldWhatTheyBear: pips within their square, squares within the card with a
// quiet rim of 5 mm or more, and ten cards on both papers.
func TestCardsHoldWhatTheyBear(t *testing.T) {
	for n := 1; n <= Count; n++ {
		for _, p := range Pips(n) {
			if p.X-PipRound < -Apart/2-Square/2+2 || p.X+PipRound > -Apart/2+Square/2-2 || p.Y+PipRound > Square/2-2 || p.Y-PipRound < -Square/2+2 {
				t.Errorf("card %d: the pip at %v is nearer than 2 mm to a side of its square", n, p)
			}
		}
	}
	for _, c := range Corners() {
		if c.X < -Wide/2+5 || c.X > Wide/2-5 || c.Y < -High/2+5 || c.Y > High/2-5 {
			t.Errorf("the corner %v is nearer than 5 mm to the card's side", c)
		}
	}
	// A4 is 210 × 297 mm (ISO 216), Letter 215.9 × 279.4 mm; a printer leaves 10 mm free.
	if 2*Wide > 210-20 || Count/2*High > 279.4-20-5 {
		t.Error("ten cards do not fit on both papers")
	}
}
