package press

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/notebook"
)

// TestDrawingsByName: each drawing that a text may name is drawn, with its words said
// for who does not see it, and each that can be drawn may be named.
func TestDrawingsByName(t *testing.T) {
	for _, name := range notebook.Drawings {
		html, ok := explained(nil, name, `the "words"`)
		if !ok || !strings.Contains(string(html), "<title>the &#34;words&#34;</title>") || !strings.Contains(string(html), "<path") {
			t.Errorf("%s is drawn as %.200s", name, html)
		}
	}
	for name := range drawings {
		if !slices.Contains(notebook.Drawings, name) {
			t.Errorf("nobody may name the drawing %s", name)
		}
	}
}
