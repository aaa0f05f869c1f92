package sheet

import (
	"math"
	"testing"

	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/paper"
	"hembook/internal/paper/caremark"
)

// TestLabelsHoldTheirWords: on a tape of either width no line is wider than the tape or
// smaller than 5.5 points, all stand between the ends that go into the seams, and those of
// the back stand on their heads below the fold.
func TestLabelsHoldTheirWords(t *testing.T) {
	var symbols []*drawing.Drawing
	for _, name := range []string{"wash-30-very-mild", "bleach-none", "tumble-none", "dry-line", "iron-110", "clean-p"} {
		d, ok := caremark.Named(name)
		if !ok {
			t.Fatal(name)
		}
		symbols = append(symbols, d)
	}
	wide := func(l drawing.Label) float64 { return paper.LabelWide(l, &drawing.Print) }
	for _, tape := range []float64{25, 35} {
		for _, back := range [][]string{
			{"Outer: 100% flax"},
			{"Oberstoff: 100 % Leinen", "Obere Stofflage und Beleg: 100 % Baumwolle", "Futter: 100 % Viskose"},
		} {
			d := draw.SewIn(draw.SewLabel{Wide: tape, Front: []string{"Maud Tarrelin", "for Leonie Askerwold", "2026"}, Back: back, Symbols: symbols, Fits: wide})
			high, words := d.High(), 0
			for _, m := range d.Marks {
				l := m.Label
				if l == nil {
					continue
				}
				words++
				if w := wide(*l); w > tape || l.Size < 5.5*25.4/72-1e-9 {
					t.Errorf("%g mm: %q is %.1f mm wide, its letters %.2f high", tape, l.Words, w, l.Size)
				}
				if math.Abs(l.X-tape/2) > 1e-6 || l.Y < 6 || l.Y > high-6 || (l.Turn == 180) != (l.Y > high/2) {
					t.Errorf("%g mm: %q stands at %.1f, %.1f, turned by %g", tape, l.Words, l.X, l.Y, l.Turn)
				}
			}
			if words < 3+len(back) {
				t.Errorf("%g mm: only %d lines", tape, words)
			}
		}
	}
}
