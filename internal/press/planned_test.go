package press

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var tags = regexp.MustCompile(`<[^>]*>`)

// TestPlannedFromRates: four builds sewed 0.7 m in 20, 22 and 24 min and 0.6 m
// in 20 min, so 28.571, 31.429, 33.333 and 34.286 min/m. By the rule of place
// (n−1)p (definition 7 of Hyndman and Fan, 1996, from memory; by hand) the
// quartiles are 30.714, 32.381 and 33.571 min/m, for 0.7 m 21.5, 22.7 and
// 23.5 min. A step with a time of its own is called an estimate, and where too
// little was timed nothing is made up.
func TestPlannedFromRates(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	got := pressed(t, room(t, several()), filepath.Join(t.TempDir(), "pressed"))
	for _, c := range []struct{ page, want string }{
		{"builds/skirt-0/work.html", "= 32.381 min/m × 0.7 m = 22.667 min"},
		{"builds/skirt-0/work.html", "= 30.714 min/m × 0.7 m = 21.5 min"},
		{"builds/skirt-0/work.html", "= 33.571 min/m × 0.7 m = 23.5 min"},
		{"builds/skirt-0/work.html", "usually 21.5\u00a0min"},
		{"builds/skirt-4/work.html", "40\u00a0min estimate"},
		{"builds/skirt-1/work.html", "because timed twice, and 3 are needed"},
	} {
		if text := tags.ReplaceAllString(got[c.page], ""); !strings.Contains(text, c.want) {
			_, rest, _ := strings.Cut(text, "sew it again")
			t.Errorf("%s does not say %q: %.900s", c.page, c.want, rest)
		}
	}
}
