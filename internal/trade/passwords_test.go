package trade

import (
	"fmt"
	"strings"
	"testing"
)

func TestPassWords(t *testing.T) {
	s := seamNamed(t, "french")
	params, err := s.Values(Params{"first": 6, "trim": 3, "second": 9})
	if err != nil || len(s.Passes) != 2 {
		t.Fatalf("%d passes, %v", len(s.Passes), err)
	}
	first := &s.Passes[0]
	if got, want := first.Words(params, nil), "stitch 6 mm from the cut edges"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := first.Afterwards(params, nil), "trim both allowances to 3 mm, turn right sides together and press the seam to the very edge"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	params["first"] = 6.35
	if got, want := first.Words(params, func(mm float64) string { return fmt.Sprintf("%g in", mm/25.4) }), "stitch 0.25 in from the cut edges"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if _, err := s.Values(Params{"third": 1}); err == nil {
		t.Error("a measure the seam does not have was accepted")
	}
}

// TestEveryPassReads: no formula is left standing in the words of a pass.
func TestEveryPassReads(t *testing.T) {
	for _, s := range SeamTypes() {
		params, err := s.Values(nil)
		if err != nil {
			t.Fatalf("%s: %v", s.Name, err)
		}
		for i := range s.Passes {
			p := &s.Passes[i]
			if words := p.Words(params, nil) + p.Afterwards(params, nil); p.Do == "" || strings.ContainsAny(words, "{}") {
				t.Errorf("%s, pass %d: %q", s.Name, i+1, words)
			}
		}
	}
}
