package trade

import (
	"strings"
	"testing"
)

// TestSourceShown: what nobody looked up is common practice to readers, whatever
// else is said beside it; what was read stays as it is.
func TestSourceShown(t *testing.T) {
	for _, c := range []struct{ source, want string }{
		{"16 CFR 1610.1(d)", "16 CFR 1610.1(d)"},
		{"common practice, no source", "common practice, no source"},
		{"from memory (EN 13402-1)", "common practice"},
		{"a needlework page; split from memory (a thread guide)", "a needlework page; split common practice"},
		{"a paper of 1996, definition 7 (from memory)", "a paper of 1996, definition 7 (common practice)"},
		{"from memory (one); from memory (another)", "common practice"},
		{"", ""},
	} {
		if got := Source(c.source).Shown(); got != c.want {
			t.Errorf("%q is shown as %q, want %q", c.source, got, c.want)
		}
	}
	for _, s := range Stitches() {
		if strings.Contains(s.Source.Shown(), "from memory") {
			t.Errorf("stitch %s shows %q", s.Type, s.Source.Shown())
		}
	}
}
