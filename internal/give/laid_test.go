package give

import (
	"math"
	"strings"
	"testing"
)

// TestLaidLinesComeBack: where a tape, boning, elastic and a cord lie is given in a file of
// either kind; a record that reads it and names them has them where they were, as long as
// they were cut, and one that does not is told of each.
func TestLaidLinesComeBack(t *testing.T) {
	const pieces = "  front: {cut: 2, outline: {from: [80, 0], hem: [200, 0], side: [200, 400], shoulder: [80, 450], centre: [80, 0]}}\n"
	first := one(t, "pieces:\n"+pieces+`
finishes: {hem: {of: [front.hem], type: casing, elastic: 10}}
notions: {shoulder tape: {along: front.shoulder}, elastic: {in: hem}, boning: {along: front.side}, cord: {along: front.centre}}
`, nil)
	kinds := map[string]string{"shoulder tape": "tape", "elastic": "elastic", "boning": "boning", "cord": "cord"}
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		files := map[string]string{"pattern." + ext: string(file.Text)}
		read := "pieces:\n  front: {cut: 2, outline: pattern." + ext + "#front}\n"
		again := one(t, read+"notions: {shoulder tape: {material: cotton}, elastic: {share: 0.9}, boning: {clear: 5}, cord: {material: cotton}}\n", files)
		p, q := first.Pieces[0], again.Pieces[0]
		if len(p.Laid) != 4 || len(q.Laid) != 4 {
			t.Fatalf("%s: %d lie there again of %d", ext, len(q.Laid), len(p.Laid))
		}
		for _, a := range p.Laid {
			for _, b := range q.Laid {
				if a.Notion != b.Notion {
					continue
				}
				clear := 0.0
				if b.Notion == "boning" {
					clear = 5
				}
				if b.Kind != kinds[b.Notion] || math.Abs(a.Line.Length()-b.Line.Length()-2*clear) > 0.01 || a.Line[0].Apart(b.Line[0]) > clear+0.01 {
					t.Errorf("%s: %s lies from %v, %.2f long, and comes back from %v, %.2f long", ext, a.Notion, a.Line[0], a.Line.Length(), b.Line[0], b.Line.Length())
				}
			}
		}
		// 120 across and 50 up is 130 (5, 12 and 13); nine tenths of 120 is 108; 400 less 2 times 5 is 390.
		for _, n := range again.Notions {
			want := map[string]float64{"shoulder tape": 130, "elastic": 108, "boning": 390, "cord": 450}[n.Record.Name.V]
			if math.Abs(n.Length.Value.Number-want) > 0.05 {
				t.Errorf("%s: %s is cut to %.2f, not to %.2f", ext, n.Record.Name.V, n.Length.Value.Number, want)
			}
		}
		plain := one(t, read, files)
		if len(plain.Pieces[0].Lines) != 4 || len(plain.Pieces[0].Laid) != 0 {
			t.Errorf("%s: of what no notion names, %d lines are read", ext, len(plain.Pieces[0].Lines))
		}
	}
}

// TestLaidLinesByHand: groups that somebody drew are read by their word, with a name on each
// line, a number, or none.
func TestLaidLinesByHand(t *testing.T) {
	const file = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="500mm" viewBox="0 0 300 500">
<g id="front"><path d="M10,490H210V90H10Z"/>
<g id="boning"><path d="M50,490V100"/><path d="M150,490V110"/></g>
<path id="tape-shoulder" d="M10,90H210"/>
<g id="elastics"><path d="M10,480H210"><title>waist</title></path></g>
</g></svg>`
	read := "pieces:\n  front: {cut: 2, outline: {file: pattern.svg#front, hem, side, top, centre}}\n"
	g := one(t, read+"notions: {boning: {clear: 10}, shoulder tape: {material: cotton}, waist elastic: {share: 0.5}}\n", map[string]string{"pattern.svg": file})
	var lie []string
	for _, l := range g.Pieces[0].Laid {
		lie = append(lie, l.Notion+" along "+l.Edge)
	}
	if got := strings.Join(lie, ", "); got != "boning along boning, boning along boning 2, shoulder tape along shoulder tape, waist elastic along waist elastic" {
		t.Error(got)
	}
	// two bones a front, 390 and 380 long less 2 times 10: 2 × 370 + 2 × 360 = 1460.
	for _, n := range g.Notions {
		if n.Record.Name.V == "boning" && math.Abs(n.Total.Value.Number-1.46) > 1e-6 && math.Abs(n.Total.Value.Number-1460) > 1e-6 {
			t.Errorf("the bones are %v long together", n.Total.Value.Number)
		}
	}
}
