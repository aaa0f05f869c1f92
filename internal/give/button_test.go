package give

import (
	"math"
	"testing"
)

// TestButtonsComeBack: places of buttons and of hooks, and buttonholes, are given in a
// file of either kind; a record that reads the file and names them has them where they
// were. The places of one that says its own stand as it says them.
func TestButtonsComeBack(t *testing.T) {
	const pieces = `pieces:
  front: {cut: 2, outline: {hem: [240, 0], side: [250, 500], neck: {to: [0, 480], curve: [[160, 440], [60, 470]]}, edge: {to: [0, 0], curve: 8}}}
  cuff: {cut: 2, rectangle: [250, 65]}
notions:
`
	first := one(t, pieces+`  buttons: {along: 20 inside front.edge, first: 40 from neck, last: 100 from hem, count: 7, size: 15, holes: upright}
  hooks: {along: front.hem, count: 3}
  cuff buttons: {along: 14 inside cuff.left, at: 25, size: 11, holes: level, holes-along: 14 inside cuff.right}
`, nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		again := one(t, "pieces:\n  front: {cut: 2, outline: pattern."+ext+"#front}\n  cuff: {cut: 2, outline: pattern."+ext+`#cuff}
notions:
  buttons: {along: 20 inside front.edge, size: 15, holes: upright}
  hooks: {along: front.hem}
  cuff buttons: {along: 14 inside cuff.left, at: 25, size: 11, holes: level, holes-along: 14 inside cuff.right}
`, map[string]string{"pattern." + ext: string(file.Text)})
		for i, p := range first.Pieces {
			q := again.Pieces[i]
			if len(p.Chalked) < 2 || len(p.Chalked) != len(q.Chalked) {
				t.Errorf("%s, %s: %d places came back of %d", ext, p.Name, len(q.Chalked), len(p.Chalked))
				continue
			}
			for k, a := range p.Chalked {
				b := q.Chalked[k]
				if a.Notion != b.Notion || a.Open != b.Open || a.At.Apart(b.At) > 0.02 || a.Hole[0].Apart(b.Hole[0]) > 0.02 || a.Hole[1].Apart(b.Hole[1]) > 0.02 {
					t.Errorf("%s, %s: %+v came back as %+v", ext, p.Name, a, b)
				}
			}
		}
		if n := again.Notions[0].Count.Value.Number; n != 7 {
			t.Errorf("%s: %v buttons came back", ext, n)
		}
	}
}

// TestGathersComeBack: rows of gathering are given in a file of either kind, as lines that
// are no part of the outline; a record that reads the file and gathers the same edge has
// them where they were.
func TestGathersComeBack(t *testing.T) {
	const gathers = "gathers: {top: {into: 260, rows: 3, inside: 5}}"
	first := one(t, "pieces:\n  p: {cut: 1, outline: {hem: [400, 0], side: [400, 300], top: {to: [0, 280], curve: [[260, 320], [120, 300]]}, centre: [0, 0]}, "+gathers+"}\n", nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		again := one(t, "pieces:\n  p: {cut: 1, outline: pattern."+ext+"#p, "+gathers+"}\n", map[string]string{"pattern." + ext: string(file.Text)})
		p, q := first.Pieces[0], again.Pieces[0]
		if len(p.Gathered) != 1 || len(q.Gathered) != 1 || len(p.Gathered[0].Lines) != 3 || len(q.Gathered[0].Lines) != 3 || len(p.Outline.Edges) != len(q.Outline.Edges) {
			t.Fatalf("%s: %+v came back as %+v", ext, p.Gathered, q.Gathered)
		}
		for k, line := range p.Gathered[0].Lines {
			other := q.Gathered[0].Lines[k]
			if line[0].Apart(other[0]) > 0.02 || line[len(line)-1].Apart(other[len(other)-1]) > 0.02 {
				t.Errorf("%s: row %d came back elsewhere", ext, k+1)
			}
		}
		if a, b := p.Gathered[0].Full.Value.Number, q.Gathered[0].Full.Value.Number; math.Abs(a-b) > 1e-4 {
			t.Errorf("%s: a fullness of %v came back as %v", ext, a, b)
		}
	}
}

// TestRowsBesideComeBack: rows beside seams are given in a file of either kind, as lines
// that are no part of the outline and none of the piece's own; a record that reads the file
// and says them too has them where they were, and one that does not has none.
func TestRowsBesideComeBack(t *testing.T) {
	const seams = "seams:\n  sides: {join: [p.side, p.side], type: plain-to-one-side, topstitch: [2, 8]}\n"
	first := one(t, "pieces:\n  p: {cut: 2, allowance: 15, outline: {hem: [400, 0], side: {to: [400, 300], curve: 20}, top: [0, 280], centre: [0, 0]}}\n"+seams, nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		files := map[string]string{"pattern." + ext: string(file.Text)}
		again := one(t, "pieces:\n  p: {cut: 2, allowance: 15, outline: pattern."+ext+"#p}\n"+seams, files)
		p, q := first.Pieces[0], again.Pieces[0]
		if len(p.Beside) != 2 || len(q.Beside) != 2 || len(q.Lines) != 0 || len(p.Outline.Edges) != len(q.Outline.Edges) {
			t.Fatalf("%s: %d rows came back as %d, with %d lines", ext, len(p.Beside), len(q.Beside), len(q.Lines))
		}
		for k := range p.Beside {
			a, b := p.Beside[k].Line, q.Beside[k].Line
			if a[0].Apart(b[0]) > 0.05 || a[len(a)-1].Apart(b[len(b)-1]) > 0.05 {
				t.Errorf("%s: row %d came back elsewhere: %v, %v", ext, k+1, a[0], b[0])
			}
		}
		bare := one(t, "pieces:\n  p: {cut: 2, allowance: 15, outline: pattern."+ext+"#p}\n", files)
		if r := bare.Pieces[0]; len(r.Beside) != 0 || len(r.Lines) != 0 {
			t.Errorf("%s: rows that no record says came back: %v, %v", ext, r.Beside, r.Lines)
		}
	}
}
