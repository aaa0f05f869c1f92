package prose

import (
	"strings"
	"testing"
)

// TestTidy: a number keeps its unit, code is left as it was written, and a table
// stands on one line.
func TestTidy(t *testing.T) {
	const source = "Cut 2.5 mm off, 30 % of 4 minutes, `6 mm` or 3 in.\n\n| a | b |\n|---|---|\n| 6 mm | `c d` |\n\n    7 mm\n    8 cm\n"
	got := string(Read([]byte(source), "").HTML([]byte("9 mm "), How{Top: 2}))
	for _, want := range []string{
		"9 mm <p>Cut 2.5\u00a0mm off, 30\u00a0% of 4 minutes, <code>6 mm</code> or 3\u00a0in.</p>",
		"<td>6\u00a0mm</td><td><code>c d</code></td></tr></tbody>", "7 mm\n8 cm\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
}
