package words

import (
	"testing"

	"hembook/internal/measure"
)

// Lengths are told as the record's own tape shows them.
func TestTape(t *testing.T) {
	mm, cm, in := Tape(measure.UnitMM), Tape(measure.UnitCM), Tape(measure.UnitIn)
	for _, c := range []struct{ got, want string }{
		{mm.About(12.34), "12 mm"}, {cm.About(12.34), "1.2 cm"}, {in.About(12.7), "1/2 in"},
		{mm.About(4.26), "4.3 mm"}, {cm.About(4.26), "0.43 cm"}, {in.About(4.2), "3/16 in"},
		{mm.About(0.4), "0.4 mm"}, {in.About(0.4), "0.016 in"}, {in.About(0), "0 in"},
		{mm.Tenth(900), "900.0 mm"}, {cm.Tenth(900), "90 cm"}, {in.Tenth(914.4), "36 in"},
		{mm.Exact(15.875), "15.875 mm"}, {cm.Exact(15.875), "1.5875 cm"}, {in.Exact(15.875), "5/8 in"},
		{mm.Number(419.1), "419.1"}, {cm.Number(419.1), "41.91"}, {in.Number(419.1), "16 1/2"},
		{in.About(-12.7), "−1/2 in"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
