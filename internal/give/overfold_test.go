package give

import (
	"math"
	"testing"

	"hembook/internal/shape"
)

// TestPlacesOverTheFoldComeBack: the place of a pocket that lies across the fold of a half
// piece goes out of its outline; given in a file of either kind it comes back where it was.
// Where it leaves the whole piece it is told as before.
func TestPlacesOverTheFoldComeBack(t *testing.T) {
	first := one(t, `
pieces:
  front:
    cut: 1 on fold
    outline: {from: [0, 0], hem: [250, 0], side: [230, 520], neck: [0, 520], centre: fold}
  pocket: {cut: 1, rectangle: [160, 130]}
seams: {pocket: {join: [pocket, front], at: [-80, 460]}}
finishes: {pocket top: {of: pocket.top, type: double-turned-hem}}
`, nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		again := one(t, "pieces:\n  front: {cut: 1 on fold, outline: pattern."+ext+"#front}\n", map[string]string{"pattern." + ext: string(file.Text)})
		lines := again.Pieces[0].Lines
		if len(lines) != 1 || lines[0].Name != "pocket" || math.Abs(lines[0].Length.Value.Number-580) > 0.01 {
			t.Fatalf("%s: %+v came back", ext, lines)
		}
		least, most := shape.Ring(lines[0].Points).Bounds()
		if least.Apart(shape.Point{X: -80, Y: 330}) > 0.01 || most.Apart(shape.Point{X: 80, Y: 460}) > 0.01 {
			t.Errorf("%s: it lies from %v to %v", ext, least, most)
		}
	}
	o := first.Pieces[0].Outline
	for _, c := range []struct {
		right  float64
		leaves bool
	}{{80, false}, {260, true}} {
		line := shape.Line{{X: -80, Y: 330}, {X: c.right, Y: 330}, {X: c.right, Y: 460}, {X: -80, Y: 460}, {X: -80, Y: 330}}
		if _, leaves := o.Leaves(o.Folded(line)); leaves != c.leaves {
			t.Errorf("to %g: leaves is %v", c.right, leaves)
		}
	}
}
