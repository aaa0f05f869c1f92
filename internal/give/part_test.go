package give

import (
	"strings"
	"testing"

	"hembook/internal/shape/trace/tracetest"
)

// A skirt of which a pocket takes the upper part of one side and a zip that of the other, and
// a hem's finish a part of an edge: 620 long, 160 and 200 of it for pocket and zip, and of
// the hem 570 the middle 100 between two notches.
const partedSkirt = `name: Parted skirt
garment: skirt
for: woman
state: planned
cloth: {shell: cotton}
pieces:
  front:
    cut: 1
    FRONT
    notches: {hem: [{at: 100, name: one}, {at: 200, name: two}]}
  back: {cut: 1, BACK}
seams:
  right side: [front.right, back.right]
  left side: [front.left, back.left]
  side opening: {join: [front.left from waist for 200, back.left from waist for 200], type: zip-invisible}
  pocket: {join: [front.right from waist for 160, back.right from waist for 160], type: in-seam-pocket}
finishes:
  waists: {of: [front.waist, back.waist], type: overlocked-edge}
  hem: {of: [front.hem, back.hem], type: overlocked-edge}
  vent: {of: front.hem from one to two, type: faced}
notions:
  zip: {in: side opening, length: 200}
`

// TestPartsOfEdgesComeBack: a garment of which parts of edges are sewn by themselves is
// given, and the same record reads its pieces from the file.
func TestPartsOfEdgesComeBack(t *testing.T) {
	const drawn = "rectangle: [570, 620]\n    edges: {top: {name: waist}, bottom: {name: hem}}"
	record := strings.NewReplacer("FRONT", drawn, "BACK", "rectangle: [570, 620], edges: {top: {name: waist}, bottom: {name: hem}}").Replace(partedSkirt)
	cotton := "name: Cotton\nfibres: {cotton: 100}\nwidth: 1500\n"
	files := map[string]string{"content/workroom.yaml": "name: Test room\n", "content/cloth/cotton.yaml": cotton, "content/builds/b/build.yaml": record}
	g := derivedIn(t, written(t, files))
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(g.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		files["content/builds/b/pattern."+ext] = string(file.Text)
		files["content/builds/b/build.yaml"] = strings.NewReplacer("FRONT", "outline: \"pattern."+ext+"#front\"", "BACK", "outline: \"pattern."+ext+"#back\"", "    notches: {hem: [{at: 100, name: one}, {at: 200, name: two}]}\n", "").Replace(partedSkirt)
		again := derivedIn(t, written(t, files))
		for _, f := range again.Faults {
			t.Errorf("%s: %v", ext, f)
		}
		for i, p := range g.Pieces[:2] {
			q := again.Pieces[i]
			if off := tracetest.Apart(p.Outline, q.Outline); off > comesBack {
				t.Errorf("%s, %s: its outline came back %.3f mm off", ext, p.Name, off)
			}
			for k := range p.Edges {
				a, b := &p.Edges[k], &q.Edges[min(k, len(q.Edges)-1)]
				if a.Name != b.Name || a.SewnBy != b.SewnBy || a.Allowance.Value != b.Allowance.Value {
					t.Errorf("%s: %s.%s of %s, cut with %v, came back as %s of %s with %v", ext, p.Name, a.Name, a.SewnBy, a.Allowance.Value.Number, b.Name, b.SewnBy, b.Allowance.Value.Number)
				}
			}
		}
	}
}
