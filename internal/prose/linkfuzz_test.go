package prose

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzLinks: every link that is found has a kind, and a place inside the text.
func FuzzLinks(f *testing.F) {
	f.Add("See [the seam](technique:french-seam), [](cloth:rust-linen \"x\")\nand <mailto:a@b.example>.")
	f.Add("![a](b.jpg) [c]: javascript:alert(1)\n\n[c] [d][c] [e](<term:tin count>)")
	f.Add("[a](  technique:\\)b )\n> - [](page:x)\n\n| [](build:a\\|b) |\n|---|\n")
	f.Fuzz(func(t *testing.T, source string) {
		if !utf8.ValidString(source) {
			t.Skip("the reader refuses such a file before its links are looked for")
		}
		lines := strings.Count(source, "\n") + 1
		for _, l := range Read([]byte(source), "").Links() {
			if l.Line < 1 || l.Line > lines || l.Column < 1 {
				t.Errorf("%q: the link %q is said to stand at %d:%d", source, l.Name, l.Line, l.Column)
			}
			if l.Kind.ByName() && strings.ContainsAny(l.Name, "\n") {
				t.Errorf("%q: a name runs over lines: %q", source, l.Name)
			}
		}
	})
}
