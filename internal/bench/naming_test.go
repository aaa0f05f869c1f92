package bench

import (
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/record"
)

var someSteps = []Named{
	{"cut", "cut from the end"}, {"strip", "cut the binding"}, {"mock-up", "sew and post the mock-up"},
	{"sides", "sew side seams"}, {"side-zip", "set the side zip"}, {"hem", "hem"}, {"hems", "turn up the hems"},
	{"Ärmel", "set the sleeves (Ärmel)"}, {"press-all", "press all"},
}

func TestPick(t *testing.T) {
	for _, c := range []struct{ word, want string }{
		{"hem", "hem"},                   // to the letter, though it is a part of hems
		{"HEM", "hem"},                   // capitals do not matter
		{"hems", "hems"},                 //
		{"cut", "cut"},                   //
		{"binding", "strip"},             // a part of its words
		{"side seams", "sides"},          //
		{"seams side", "sides"},          // in any order
		{"sideseams", "sides"},           // without the space
		{"sew-side-seams", "sides"},      // with hyphens
		{"zip", "side-zip"},              //
		{"sidezip", "side-zip"},          //
		{"mock", "mock-up"},              //
		{"ärmel", "Ärmel"},               //
		{"Press All", "press-all"},       //
		{"end cut", "cut"},               //
		{"side", "? sides side-zip"},     // two have it
		{"sew", "? mock-up sides"},       //
		{"sids", "~ sides"},              // a slip
		{"bindng", "~ strip"},            // a slip in a word of its words
		{"slevees", "~ Ärmel"},           //
		{"gather", "!"},                  // nothing like it
		{"", "!"},                        //
		{"-", "!"},                       //
		{"the mock hem", "!"},            // one of its words is nowhere beside the others
		{"hemming the whole thing", "!"}, //
	} {
		t.Run(c.word, func(t *testing.T) {
			i, err := Pick("step", c.word, someSteps)
			if got := answer(t, i, err); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

// answer is a pick in one word: the name, ? and what fits, ~ and what was
// meant, or ! where nothing is like it.
func answer(t *testing.T, i int, err error) string {
	t.Helper()
	if err == nil {
		return someSteps[i].ID
	}
	m, ok := err.(*missed)
	if !ok || i >= 0 {
		t.Fatalf("%d, %v", i, err)
	}
	for _, n := range append(m.Fits, Named{ID: m.Near}) {
		if !strings.Contains(err.Error(), n.ID) {
			t.Errorf("%q does not say %q", err, n.ID)
		}
	}
	switch {
	case len(m.Fits) > 0:
		out := "?"
		for _, n := range m.Fits {
			out += " " + n.ID
		}
		return out
	case m.Near != "":
		return "~ " + m.Near
	}
	if !strings.Contains(err.Error(), "set the side zip") {
		t.Errorf("%q does not list what there is", err)
	}
	return "!"
}

func TestPickAmongNone(t *testing.T) {
	_, err := Pick("step", "hem", nil)
	if want := `there is no step "hem": there are none yet`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// A name that a faulty record gives twice is one name: both mean the same step.
func TestPickTwice(t *testing.T) {
	if i, err := Pick("step", "hem", []Named{{"hem", "hem"}, {"hem", "hem again"}}); err != nil || i != 0 {
		t.Errorf("got %d, %v", i, err)
	}
}

func TestSteps(t *testing.T) {
	text := func(s string) record.Text { return record.Text{V: s, At: fault.Pos{Line: 1}} }
	b := &record.Build{Work: []record.Step{{Do: text("Cut  out")}, {Do: text("Sew sides")}, {}}}
	got := Steps(b)
	if len(got) != 2 || got[0].ID != "cut-out" || got[0].Words != "Cut  out" || got[1].ID != "sew-sides" {
		t.Errorf("got %v", got)
	}
}
