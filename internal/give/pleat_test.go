package give

import (
	"math"
	"testing"

	"hembook/internal/derive"
)

// TestPleatsComeBack: pleats that are let in are given in a file of either kind; a
// record that reads the file has them where they were, drawn open.
func TestPleatsComeBack(t *testing.T) {
	const pieces = `
  box: {cut: 1, rectangle: [400, 600], pleats: {top: {kind: box, count: 2, depth: 30}}}
  inverted: {cut: 1, rectangle: [400, 600], pleats: {top: {kind: inverted, depth: 25, at: 120}}}
  knife: {cut: 1, outline: {hem: [400, 20], side: [390, 600], waist: {to: [0, 600], curve: -6}, centre: [0, 0]}, pleats: {waist: {count: 2, depth: 15, first: 80 from side, every: 60, towards: centre}}}
  running out: {cut: 1, rectangle: [400, 600], pleats: {bottom: {count: 2, depth: 15, first: 100, every: 45, towards: left, drawn: true, runs: 120}}}
  tapering: {cut: 1, rectangle: [400, 600], levels: {hip: 420}, pleats: {top: {kind: box, count: 2, drawn: true, into: {top: 200, hip: 260}}}}
  half a box: {cut: 1 on fold, outline: {hem: [300, 0], side: [280, 500], neck: [0, 500], centre: fold}, pleats: {neck: {kind: box, at: centre, depth: 20}}}
  half an inverted: {cut: 1 on fold, outline: {hem: [300, 0], side: [280, 500], neck: {to: [0, 480], curve: [[180, 484], [90, 480]]}, centre: fold}, pleats: {neck: {kind: inverted, at: centre, depth: 20}}}
`
	first := one(t, "pieces:"+pieces, nil)
	for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
		file, err := Pieces(first.Garment, nil, as)
		if err != nil {
			t.Fatal(err)
		}
		text := "pieces:\n"
		for _, p := range first.Pieces {
			cut := "1"
			if p.OnFold {
				cut = "1 on fold"
			}
			text += "  " + p.Name + ": {cut: " + cut + ", outline: pattern." + ext + "#" + p.Name + "}\n"
		}
		again := one(t, text, map[string]string{"pattern." + ext: string(file.Text)})
		for i, p := range first.Pieces {
			q := again.Pieces[i]
			if len(p.PleatFolds) < 1 || len(p.PleatFolds) != len(q.PleatFolds) {
				t.Errorf("%s, %s: %d folds came back of %d", ext, p.Name, len(q.PleatFolds), len(p.PleatFolds))
				continue
			}
			for _, a := range p.PleatFolds {
				near := false
				for _, b := range q.PleatFolds {
					// a depth is read along its edge, which is curved here
					near = near || a.Kind() == b.Kind() && math.Abs(a.Depth-b.Depth) < 0.02 && a.Lines.Place[0].Apart(b.Lines.Place[0]) < 0.02 && a.Lines.Outer[0].Apart(b.Lines.Outer[0]) < 0.02 && a.Lines.Outer[1].Apart(b.Lines.Outer[1]) < 0.02 && len(a.Lines.Outer) == len(b.Lines.Outer)
				}
				if !near {
					t.Errorf("%s, %s: no fold came back like %+v; there are %+v", ext, p.Name, a.Lines, q.PleatFolds)
				}
			}
		}
	}
}

// one derives a garment of these pieces.
func one(t *testing.T, pieces string, beside map[string]string) *derive.Garment {
	t.Helper()
	files := map[string]string{"content/workroom.yaml": "name: Test room\n", "content/builds/b/build.yaml": "name: B\ngarment: skirt\nstate: planned\n" + pieces}
	for name, text := range beside {
		files["content/builds/b/"+name] = text
	}
	return derivedIn(t, written(t, files))
}
