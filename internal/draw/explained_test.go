package draw

import (
	"math"
	"os"
	"strings"
	"testing"

	"hembook/internal/drawing"
)

// explainedDrawings are all drawings that explain.
func explainedDrawings() map[string]*drawing.Drawing {
	return map[string]*drawing.Drawing{"piece": PieceNumbered(), "curves": CurvesNumbered(), "corners": CornersNamed(), "skirt": SkirtNumbered(), "paper-piece": PaperAndCards(),
		"tape": Taped([]string{"head", "neck", "bust", "upper arm", "reach", "waist", "hip", "skirt length", "rise", "inside leg"}, false, [4]string{"front", "side", "back", "sitting"})}
}

// blockIn is the text of the fenced block of a page that begins with words.
func blockIn(t *testing.T, page, fence string) string {
	t.Helper()
	text, err := os.ReadFile("../../content/pages/" + page)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(text), "~~~"+fence+"\n")
	if !ok {
		t.Fatalf("%s has no block %q", page, fence)
	}
	block, _, _ := strings.Cut(rest, "\n~~~")
	return block + "\n"
}

// TestNumberedPieceIsTheGuides: the numbered front is the one that the guide writes down,
// to its cut line.
func TestNumberedPieceIsTheGuides(t *testing.T) {
	cloth := "name: C\nfibres: {cotton: 100}\nwidth: 150 cm\n"
	dir := written(t, map[string]string{
		"content/workroom.yaml":                 "name: W\nmaker: M\n",
		"content/cloth/practice-cotton.yaml":    cloth,
		"content/cloth/light-fusible.yaml":      cloth,
		"content/builds/first-skirt/build.yaml": blockIn(t, "guide.md", "yaml content/builds/first-skirt/build.yaml"),
	})
	got := skirtFront()
	for _, g := range nettedIn(t, "guide", dir) {
		for _, want := range g.Garment.Pieces {
			if want.Name != "front" {
				continue
			}
			if want.Outline.Area() != got.Outline.Area() || math.Abs(want.Cut.Ring.Area()-got.Cut.Ring.Area()) > 0.5 {
				t.Errorf("the front is %g and %g mm² cut, drawn %g and %g", want.Outline.Area(), want.Cut.Ring.Area(), got.Outline.Area(), got.Cut.Ring.Area())
			}
			if want.Darts[0].Plan != got.Darts[0].Plan {
				t.Errorf("the dart is %v, drawn %v", want.Darts[0].Plan, got.Darts[0].Plan)
			}
			return
		}
	}
	t.Error("the guide has no such front")
}

// TestExplainedIsClear: no ring or word of a drawing that explains lies on another or
// outside the drawing.
func TestExplainedIsClear(t *testing.T) {
	for name, d := range explainedDrawings() {
		var labels []*drawing.Label
		for i := range d.Marks {
			if l := d.Marks[i].Label; l != nil {
				labels = append(labels, l)
			}
		}
		for i, a := range labels {
			box, _ := said(a)
			if box.Left < d.Box.Left || box.Right > d.Box.Right || box.Top < d.Box.Top || box.Bottom > d.Box.Bottom {
				t.Errorf("%s: %q lies outside", name, a.Words)
			}
			for _, b := range labels[:i] {
				if overlap(a, b) {
					t.Errorf("%s: %q lies on %q", name, a.Words, b.Words)
				}
			}
		}
		if len(labels) < 3 {
			t.Errorf("%s says only %d things", name, len(labels))
		}
	}
}
