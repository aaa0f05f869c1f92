package paper

import (
	"strings"
	"testing"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// TestHeadingStaysWithItsDrawing: wherever on a page it would come to stand, a
// heading with a few words is on the page of the drawing under them.
func TestHeadingStaysWithItsDrawing(t *testing.T) {
	square := func() *drawing.Drawing {
		d := drawing.New("net")
		d.Title = "a square"
		d.Box = drawing.Box{Right: 120, Bottom: 120}
		d.Draw(drawing.NetPiece).Rect(0, 0, 120, 120)
		return d
	}
	for lines := range 40 {
		d := document.Document{Title: "t", Language: "en"}
		for range lines {
			d.Blocks = append(d.Blocks, document.Text{Phrase: document.Phrase{document.Say("filling")}})
		}
		d.Blocks = append(d.Blocks, document.Heading{Level: 2, Words: "together"},
			document.Text{Phrase: document.Phrase{document.As(document.Small, "edges of one number")}},
			document.Sketch{Draw: square, Caption: "outside"})
		pages, err := layout(d, faces{})
		if err != nil {
			t.Fatal(err)
		}
		on := map[string]int{}
		for n, p := range pages {
			for _, it := range p.items {
				if said, ok := it.(textItem); ok && !said.echo {
					on[strings.Fields(said.text + " .")[0]] = n + 1
				}
			}
		}
		if on["together"] == 0 || on["together"] != on["outside"] {
			t.Errorf("after %d lines the heading is on page %d, its drawing on page %d", lines, on["together"], on["outside"])
		}
	}
}
