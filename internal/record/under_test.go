package record

import (
	"testing"

	"hembook/internal/fault"
)

// TestUnder: every line of a record stands under the word of its outermost group, to the
// line before the next of these, whatever stands between.
func TestUnder(t *testing.T) {
	src := &fault.Source{Path: "build.yaml"}
	b := &Build{words: []Text{{"name", fault.Pos{Source: src, Line: 2}}, {"fittings", fault.Pos{Source: src, Line: 4}}, {"packet", fault.Pos{Source: src, Line: 9}}}}
	for line, want := range map[int32]string{1: "", 2: "name", 3: "name", 4: "fittings", 8: "fittings", 9: "packet", 40: "packet"} {
		if got := b.Under(fault.Pos{Source: src, Line: line}); got != want {
			t.Errorf("line %d stands under %q, want %q", line, got, want)
		}
	}
	if got := b.Under(fault.Pos{Source: &fault.Source{Path: "linen.yaml"}, Line: 5}); got != "" {
		t.Errorf("a line of another file stands under %q", got)
	}
}
