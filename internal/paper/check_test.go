package paper

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/drawing"
)

func TestCheck(t *testing.T) {
	good := Document{Title: "Care", Language: "en", Blocks: []Block{Heading{Level: 1, Text: "Care"}, Text{Say("Wash by hand.")}}}
	if err := good.Check(); err != nil {
		t.Errorf("a good document: %v", err)
	}
	box, nowhere := sized(10, 10, "a box"), sized(1, 1, "")
	box.Draw(drawing.Symbol).Rect(0, 0, 10, 10)
	nowhere.Draw(drawing.Symbol).Move(math.NaN(), 0)
	for _, c := range []struct {
		name  string
		block Block
		want  string
	}{
		{"level", Heading{Level: 4, Text: "deep"}, "must be 1, 2 or 3"},
		{"empty heading", Heading{Level: 2, Text: " "}, "no words"},
		{"no columns", Table{Caption: "fit"}, "has no columns"},
		{"too many cells", Table{Columns: []Column{{Head: "a"}}, Rows: [][]Phrase{{Say("1"), Say("2")}}}, "2 cells for 1 columns"},
		{"symbol alone", Symbols{Items: []Symbol{{Drawing: box}}}, "no words beside it"},
		{"drawing without size", Sketch{Drawing: sized(0, 0, "nothing")}, "has no size"},
		{"line to nowhere", Sketch{Drawing: nowhere}, "line to nowhere"},
		{"picture without words", Picture{Data: []byte("x")}, "does not say"},
		{"picture of another kind", Picture{Data: []byte("x"), Alt: "a dress"}, "neither JPEG nor PNG"},
		{"long code", QR{Address: strings.Repeat("x", 5000)}, "too long"},
		{"break in a column", Columns{Blocks: [][]Block{{PageBreak{}}}}, "within a column"},
		{"deep fault", Columns{Blocks: [][]Block{{Heading{Level: 9, Text: "x"}}}}, "must be 1, 2 or 3"},
		{"shares", Columns{Shares: []float64{1}, Blocks: [][]Block{nil, nil}}, "1 widths for 2"},
	} {
		err := Document{Title: "t", Language: "en", Blocks: []Block{c.block}}.Check()
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	if err := (Document{}).Check(); err == nil || !strings.Contains(err.Error(), "no title") || !strings.Contains(err.Error(), "no language") {
		t.Errorf("an empty document: %v", err)
	}
}
