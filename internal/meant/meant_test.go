package meant

import (
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	known := []string{"allowance", "outline", "state", "double-turned-hem", "flat-felled", "waist", "hip", "Front Lining", "m", "cm"}
	for word, want := range map[string]string{
		"alowance": "allowance", "Allowance": "allowance", "outlines": "outline",
		"stat": "state", "wasit": "waist", // two neighbours swapped are one slip
		"double turned hem": "double-turned-hem", "double_turned_hem": "double-turned-hem", "front lining": "Front Lining",
		"double":       "double-turned-hem", // the only one that begins so
		"statesx":      "state",             // it goes on
		"hips":         "hip",
		"hem":          "",             // nothing begins so, and of three letters one may be wrong
		"hap":          "hip",          // one is
		"hxx":          "",             // two are
		"felled":       "",             // the end of a name is none
		"outlxyz":      "",             // three of seven
		"frantxlxnxng": "",             // four of twelve are too many
		"frantxlxning": "Front Lining", // three are not
		"x":            "",             // one letter for another is no slip
		"zebra":        "", "": "",
		"mm":                        "m", // the first of two that are equally near and begin alike
		strings.Repeat("waist", 20): "",
	} {
		if got := Nearest(word, known); got != want {
			t.Errorf("%q taken for %q, want %q", word, got, want)
		}
	}
}

// Of two equally near names the one that begins with the same letter is meant, and
// then the one with the same letters.
func TestEquallyNear(t *testing.T) {
	for _, c := range []struct {
		word, want string
		known      []string
	}{
		{"beam", "seam", []string{"seam", "team"}},
		{"team", "tear", []string{"seam", "tear"}},
		{"pinot", "point", []string{"pins-out", "point"}}, // two slips each: the one with the same letters
		{"side", "sides", []string{"ride", "sides"}},
	} {
		if got := Nearest(c.word, c.known); got != c.want {
			t.Errorf("%q among %v: %q, want %q", c.word, c.known, got, c.want)
		}
	}
}

// Names of thirty letters may have six slips.
func TestLongNames(t *testing.T) {
	known := []string{"piece.front.edge.side.allowance", "piece.back.edge.hem.length"}
	for word, want := range map[string]string{"piece.frnt.edge.side.sllowanec": known[0], "puece.frmt.edgr.sode.sllowanecs": ""} {
		if got := Nearest(word, known); got != want {
			t.Errorf("%q taken for %q, want %q", word, got, want)
		}
	}
}

// A word cut short names what it begins, unless several begin so.
func TestOnlyOneBeginsSo(t *testing.T) {
	for word, want := range map[string]string{"bias-faced": "bias-faced-hem", "bias-": "", "bi": "", "bias-bound-edge-of-linen": "bias-bound-edge"} {
		if got := Nearest(word, []string{"bias-faced-hem", "bias-bound-edge"}); got != want {
			t.Errorf("%q taken for %q, want %q", word, got, want)
		}
	}
}

func TestTriedAs(t *testing.T) {
	g := For("zippr")
	g.Try("button")
	g.TryAs("zipper", "zip")
	g.TryAs("zippers", "zip")
	if got := g.Hint(); got != `did you mean "zip"?` {
		t.Error(got)
	}
}

func TestOr(t *testing.T) {
	for word, want := range map[string]string{"wast": `did you mean "waist"?`, "elbow": "there is one"} {
		if got := Or(word, []string{"waist"}, "there is one"); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
	if got := Hint("elbow", []string{"waist"}); got != "" {
		t.Error(got)
	}
}
