package give

import (
	"math"
	"testing"

	"hembook/internal/shape"
)

// TestPocketPlacesComeBack: the place of a pocket is given as a closed line.
func TestPocketPlacesComeBack(t *testing.T) {
	first := one(t, "pieces:\n  front: {cut: 2, rectangle: [200, 300]}\n  pocket: {cut: 1, rectangle: [115, 130]}\nseams: {pocket: {join: [pocket, left front], at: [40, 260]}}\n", nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		again := one(t, "pieces:\n  front: {cut: 2, outline: pattern."+ext+"#front}\n", map[string]string{"pattern." + ext: string(file.Text)})
		lines := again.Pieces[0].Lines
		if len(lines) != 1 || lines[0].Name != "pocket" || math.Abs(lines[0].Length.Value.Number-490) > 0.01 {
			t.Fatalf("%s: %+v came back", ext, lines)
		}
		least, most := shape.Ring(lines[0].Points).Bounds()
		if least.Apart(shape.Point{X: 40, Y: 130}) > 0.01 || most.Apart(shape.Point{X: 155, Y: 260}) > 0.01 {
			t.Errorf("%s: it lies from %v to %v", ext, least, most)
		}
	}
}

// TestLinesComeBack: lines, slits and creases are given in a file of either kind, and a
// record that reads it has them where they were, as what they were.
func TestLinesComeBack(t *testing.T) {
	const pieces = `
  front:
    cut: 2
    outline: {from: [0, 0], hem: [278, 64], side: {to: [278, 520], curve: -13}, neck: [0, 540], edge: [0, 0]}
    lines:
      centre: 18 inside edge
      turn: {along: 36 inside edge, fold: true}
      slit: {from: hem at 100 from edge, length: 130, slit: true}
      bow: {from: [60, 100], to: [200, 300], curve: 20}
      2: 30 inside side
`
	first := one(t, "pieces:"+pieces, nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		again := one(t, "pieces:\n  front: {cut: 2, outline: pattern."+ext+"#front}\n", map[string]string{"pattern." + ext: string(file.Text)})
		p, q := first.Pieces[0], again.Pieces[0]
		if len(p.Lines) != 5 || len(q.Lines) != 5 {
			t.Fatalf("%s: %d lines came back of %d", ext, len(q.Lines), len(p.Lines))
		}
		for i := range p.Lines {
			a := &p.Lines[i]
			near := false
			for k := range q.Lines {
				b := &q.Lines[k]
				end, last := a.Points[len(a.Points)-1], b.Points[len(b.Points)-1]
				near = near || a.Name == b.Name && a.Slit == b.Slit && a.Fold == b.Fold && a.Points[0].Apart(b.Points[0]) < 0.01 && end.Apart(last) < 0.01 &&
					math.Abs(a.Length.Value.Number-b.Length.Value.Number) < 0.01
			}
			if !near {
				t.Errorf("%s: %s did not come back", ext, a.Name)
			}
		}
	}
}
