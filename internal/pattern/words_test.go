package pattern

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/paper"
	"hembook/internal/shape"
)

// TestWordsCanBeRead: on no piece of the shirt, the skirt and the top do words stand on other
// words, every piece has its name in letters of 1.75 mm at least, and a piece that is cut on
// the fold has its fold marked in words, however short it is: the shirt's stand has 32 of it.
func TestWordsCanBeRead(t *testing.T) {
	shirt, skirt, top := measuredRooms(t)
	seen, folded := 0, 0
	for _, g := range []*garment.Garment{shirt.Garment, skirt.Garment, top.Garment} {
		for _, p := range g.Pieces {
			d, _ := drawPiece(p, Style{Build: g.Build.Name.V})
			var rings []shape.Ring
			var said []string
			fold := false
			for _, m := range d.Marks {
				if m.Label == nil {
					continue
				}
				if strings.Contains(m.Label.Words, "fold") {
					fold = true
				}
				if size := drawing.FullSize.Letters(m.Label).Size; size < 1.75 {
					t.Errorf("%s: %q has letters of %.2f", p.Name, m.Label.Words, size)
				}
				rings, said = append(rings, frameOf(m.Label)), append(said, m.Label.Words)
			}
			if len(said) == 0 || said[0] != p.Name {
				t.Errorf("%s is not named: %q", p.Name, said)
			}
			for _, e := range p.Edges {
				if e.Fold {
					if folded++; !fold {
						t.Errorf("%s: %s is on the fold, and nothing says so", p.Name, e.Name)
					}
				}
			}
			for i, a := range rings {
				for k, b := range rings[:i] {
					if seen++; meet(a, b) {
						t.Errorf("%s: %q and %q stand on each other", p.Name, said[i], said[k])
					}
				}
			}
		}
	}
	if seen < 500 || folded < 6 {
		t.Errorf("only %d pairs of words and %d folds were looked at", seen, folded)
	}
}

// frameOf is where the letters of a label stand.
func frameOf(l *drawing.Label) shape.Ring {
	wide, size := paper.LabelWide(*l, &drawing.FullSize), drawing.FullSize.Letters(l).Size
	from := map[drawing.Anchor]float64{drawing.Middle: -wide / 2, drawing.End: -wide}[l.Anchor]
	sin, cos := math.Sincos(l.Turn * math.Pi / 180)
	var out shape.Ring
	for _, q := range [4][2]float64{{from, 0}, {from + wide, 0}, {from + wide, -0.7 * size}, {from, -0.7 * size}} {
		out = append(out, shape.Point{X: l.X + q[0]*cos + q[1]*sin, Y: l.Y - q[0]*sin + q[1]*cos})
	}
	return out
}

// meet reports whether two frames share a place: no line along a side of either parts them.
func meet(a, b shape.Ring) bool { return !parted(a, b) && !parted(b, a) }

// parted reports whether all of b lies beyond one side of a.
func parted(a, b shape.Ring) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		beyond := func(s shape.Point) bool { return (q.X-p.X)*(s.Y-p.Y) > (q.Y-p.Y)*(s.X-p.X) }
		within, all := beyond(a[(i+2)%len(a)]), true
		for _, s := range b {
			all = all && beyond(s) != within
		}
		if all {
			return true
		}
	}
	return false
}
