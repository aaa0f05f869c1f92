package record

import (
	"fmt"
	"strings"
	"testing"
)

// TestDrawnByHand: what somebody writes into an SVG file by hand: groups of marks, words
// on groups, titles, an id twice, darts that end beside their edge.
func TestDrawnByHand(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="700mm" viewBox="0 0 600 700">` + "\n"
	const edges = `<path id="hem" d="M10 610H250"/>
<path id="side" d="M250 610V10"/>
<path id="waist" d="M250 10H10"/>
<path id="fold-centre" d="M10 10V610"/>
`
	const titled = `<path d="M10 610H250"><title>hem</title></path>
<path d="M250 610V10"><title>side</title></path>
<path d="M250 10H10"><title>waist</title></path>
<path d="M10 10V610"><title>fold centre</title></path>
`
	for _, row := range []struct{ name, drawn, darts, notches, told string }{
		{"a group of marks is no piece", `<g id="front">` + edges + `<g id="things"><path id="notch-a" d="M245 210H255"/><path id="dart" d="M140 10L130 100L120 10"/></g></g>`, "waist 120 20 90.00", "side a 400", ""},
		{"marks without names of their own", `<g id="front">` + edges + `<g id="marks"><path d="M60 60H80"/><path id="notch-a" d="M245 210H255"/></g></g>`, "", "side a 400", ""},
		{"a word on a group holds for what is in it", `<g id="front">` + edges + `<g id="darts"><path id="left" d="M140 10L130 100L120 10"/><g><path d="M200 10L190 80L180 10"/></g></g><g id="notches"><path d="M245 210H255"/></g></g>`, "waist 120 20 90.00; waist 60 20 70.00", "side  400", ""},
		{"titles are names", `<g><title>front</title>` + titled + `<path d="M140 10L130 100L120 10"><title>dart</title></path></g>`, "waist 120 20 90.00", "", ""},
		{"an id twice", `<g id="back"><path id="side" d="M310 610H550V10H310z"/></g>` + "\n" + `<g id="front">` + edges + `</g>`, "", "", `pattern/hand.svg: path "side" on line 4, column 1: its id "side" is that of line 2 too`},
		{"two pieces of one name", `<g id="front">` + edges + `</g>` + "\n" + `<g><title>front</title>` + titled + `</g>`, "", "", `pattern/hand.svg draws several pieces called "front": the first is taken`},
		{"a leg that ends beside its edge", `<g id="front">` + edges + `<path id="dart" d="M140 12.5L130 100L120 10"/></g>`, "waist 120 20 90.00", "", "a leg of the dart ends 2.5 mm from waist (110.0 mm along it) and is drawn to it"},
		{"a leg that all but ends on its edge", `<g id="front">` + edges + `<path id="dart" d="M140 10.4L130 100L120 10"/></g>`, "waist 120 20 90.00", "", ""},
		{"a leg that ends far from its edge", `<g id="front">` + edges + `<path id="dart" d="M140 13.2L130 100L120 10"/></g>`, "", "", "the dart does not open on an edge"},
	} {
		b, faults := readSkirt(t, "    outline: pattern/hand.svg#front\n", map[string]string{"pattern/hand.svg": head + row.drawn + "\n</svg>\n"})
		told := ""
		for _, f := range faults {
			told += f.String() + "\n"
		}
		if row.told == "" && told != "" || !strings.Contains(told, row.told) {
			t.Errorf("%s: told %q, want %q", row.name, told, row.told)
		}
		var darts, notches []string
		for _, d := range b.Pieces[0].Darts {
			darts = append(darts, fmt.Sprintf("%s %.0f %.0f %.2f", d.Edge.V, d.Along.V.MM(), d.Width.V.MM(), d.Length.V.MM()))
		}
		for _, n := range b.Pieces[0].Notches {
			notches = append(notches, fmt.Sprintf("%s %s %.0f", n.Edge.V, n.Name.V, n.Along.V.MM()))
		}
		if got := strings.Join(darts, "; "); got != row.darts {
			t.Errorf("%s: darts %q, want %q", row.name, got, row.darts)
		}
		if got := strings.Join(notches, "; "); got != row.notches {
			t.Errorf("%s: notches %q, want %q", row.name, got, row.notches)
		}
	}
}
