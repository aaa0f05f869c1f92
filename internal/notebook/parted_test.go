package notebook

import (
	"strings"
	"testing"

	"hembook/internal/fault"
)

// TestParted: what stands under a heading is taken out, both halves keep their lines, and
// a heading between fences is none.
func TestParted(t *testing.T) {
	for _, c := range []struct{ text, out, rest string }{
		{"One.\n\n## Next time\n\n- a\n\n## Needles\n\nTwo.\n", "\n\n\n\n- a\n\n", "One.\n\n\n\n\n\n## Needles\n\nTwo.\n"},
		{"## What I would change\nAll of it.\n", "\nAll of it.\n", ""},
		{"# A\n### Another time:\nx\n### B\ny\n", "\n\nx\n", "# A\n\n\n### B\ny\n"},
		{"### Next time\nx\n#### deeper\ny\n## B\nz\n", "\nx\n#### deeper\ny\n", "\n\n\n\n## B\nz\n"},
		{"```\n## Next time\n```\nx\n", "", "```\n## Next time\n```\nx\n"},
		{"## Next time\n\n## B\nx\n", "", "## Next time\n\n## B\nx\n"},
		{"Next time.\n", "", "Next time.\n"},
		{"[A](page:a)\n\n## Next time\nx\n", "\n\n\nx\n", "[A](page:a)\n\n\n\n"},
		{"## Next time\nsee [a][b]\n\n[b]: https://x.example\n", "", "## Next time\nsee [a][b]\n\n[b]: https://x.example\n"},
	} {
		out, rest := Passage{[]byte(c.text), fault.Pos{}, ""}.parted(changeHeads)
		if string(out.Text) != c.out || string(rest.Text) != c.rest {
			t.Errorf("%q is parted in %q and %q", c.text, out.Text, rest.Text)
		}
		if len(out.Text) > 0 && strings.Count(c.text, "\n") != strings.Count(string(rest.Text), "\n") && len(rest.Text) > 0 {
			t.Errorf("%q: lines were lost", c.text)
		}
	}
}
