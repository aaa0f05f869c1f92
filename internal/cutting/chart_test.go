package cutting

import (
	"math"
	"testing"

	"hembook/internal/lay"
)

// chart is the cloth width conversion chart printed on pattern envelopes, in
// yards (read in two public copies that agree; often credited to a US
// cooperative extension service, from memory): widths in inches, the middle
// of each column's range, and three of its rows.
var (
	chartWidths = []float64{35.5, 39, 41, 44.5, 50, 53, 59}
	chartRows   = [][]float64{
		{2.25, 2, 2, 1.75, 1.625, 1.5, 1.375},
		{3.125, 2.75, 2.75, 2.5, 2.25, 2, 1.875},
		{4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375},
	}
)

// garmentSet are rectangles about as large as the pieces of a plain dress, in
// inches, so often that they make up the row's length on the narrowest cloth.
func garmentSet(times int) []lay.Piece {
	var out []lay.Piece
	add := func(name string, n int, along, across float64) {
		out = append(out, lay.Piece{Name: name, Quantity: n * times, Outline: []lay.Point{
			{X: 0, Y: 0}, {X: along, Y: 0}, {X: along, Y: across}, {X: 0, Y: across}}})
	}
	add("front", 1, 16, 17)
	add("back", 2, 16, 8.5)
	add("sleeve", 2, 9, 14)
	add("skirt", 3, 24, 14)
	add("pocket", 2, 7, 6)
	add("band", 1, 30, 3)
	return out
}

// TestConversionChart compares lays on the chart's widths with the chart. It
// goes by equal area (its own columns lie within −9.7 and +8.1 % of that), and
// is rounded to eighths of a yard; a lay also has gaps that depend on how the
// pieces happen to share out the width. So the lengths may differ by a sixth
// and an eighth of a yard, and no lay may beat equal area.
func TestConversionChart(t *testing.T) {
	for r, row := range chartRows {
		pieces := garmentSet(r + 1)
		area := 0.0
		for _, p := range pieces {
			area += areaOf(p.Outline) * float64(p.Quantity)
		}
		var first float64
		for i, width := range chartWidths {
			p := &lay.Problem{Cloth: lay.Cloth{Width: width}, Pieces: pieces}
			plan, err := lay.Make(t.Context(), *p, lay.Options{Tries: 60_000})
			if err != nil {
				t.Fatal(err)
			}
			if err := checked(p, plan); err != nil {
				t.Fatal(err)
			}
			if plan.Length < area/width*(1-1e-9) {
				t.Errorf("%v in wide: %v in is shorter than equal area, %v", width, plan.Length, area/width)
			}
			if i == 0 {
				first = plan.Length
				continue
			}
			want := row[i] / row[0] // of the length on the narrowest cloth
			got := plan.Length / first
			t.Logf("row %.3f yd, %4.1f in wide: lay %.3f of the first, chart %.3f, equal area %.3f", row[0], width, got, want, chartWidths[0]/width)
			if math.Abs(got-want) > want/6+0.125/row[0] {
				t.Errorf("row %v, %v in wide: the lay is %.3f of that on the narrowest cloth, the chart says %.3f", row[0], width, got, want)
			}
		}
	}
}
