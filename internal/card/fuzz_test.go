package card

import (
	"math"
	"testing"

	"hembook/internal/photo"
)

// FuzzFind: whatever a picture holds, the finder ends, and what it finds are cards with
// numbers of cards and corners in the picture.
func FuzzFind(f *testing.F) {
	drawn := make([]byte, 240*190)
	for i := range drawn {
		drawn[i] = 220
		x, y := float64(i%240)/2-60, 47.5-float64(i/240)/2
		in := math.Abs(math.Abs(x)-Apart/2) < Square/2 && math.Abs(y) < Square/2
		for _, at := range Pips(4) {
			in = in && math.Hypot(x-at.X, y-at.Y) > PipRound
		}
		if in {
			drawn[i] = 15
		}
	}
	if found := Find(lightOf(drawn, 240)); len(found) != 1 || found[0].Number != 4 {
		f.Fatalf("%v is found where card 4 is drawn", found)
	}
	f.Add(drawn, uint8(240))
	f.Add(drawn[:9000], uint8(150))
	f.Add([]byte{0}, uint8(1))
	f.Fuzz(func(t *testing.T, pix []byte, wide uint8) {
		if len(pix) == 0 || wide == 0 || len(pix) > 1<<16 || len(pix) < int(wide) {
			return
		}
		l := lightOf(pix, int(wide))
		for _, s := range Find(l) {
			if s.Number < 1 || s.Number > Count {
				t.Errorf("card %d is found", s.Number)
			}
			for _, c := range s.Corners {
				if !(c.X > -9 && c.Y > -9 && c.X < float64(l.Wide)+9 && c.Y < float64(l.High)+9) {
					t.Errorf("card %d has a corner at %v of %d × %d pixels", s.Number, c, l.Wide, l.High)
				}
			}
		}
	})
}

func lightOf(pix []byte, wide int) *photo.Light {
	l := photo.New(wide, len(pix)/wide)
	for i := range l.Of {
		l.Of[i] = float32(pix[i]) / 255
	}
	return l
}
