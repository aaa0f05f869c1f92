package draw

import (
	"strings"
	"testing"
)

// TestStrips: the longest strip is as wide as the drawing, one half as long
// half as wide; the description says every value, however short a name is cut.
func TestStrips(t *testing.T) {
	long := "A coat with a name that nobody could put into one line of a phone"
	got := string(Strips([]Strip{
		{Name: "Coat & cape", Value: "40 min/m", Long: 40},
		{Name: long, Value: "20 min/m", Long: 20, Lower: 10, Upper: 30},
	}, "Minutes").SVG(nil))
	for _, want := range []string{
		`d="M0 46h720v22h-720z"`,                 // 40 of at most 40
		`d="M0 136h360v22h-360z"`,                // 20 of at most 40, one row of 84 below
		`d="M180 140v14M540 140v14M180 147h360"`, // quartiles at 10 and 30
		"<title>Minutes</title>",
		"<desc>Coat &amp; cape 40 min/m; " + long + " 20 min/m</desc>",
		">A coat with a name that nobody…<",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in\n%s", want, got)
		}
	}
	if n := strings.Count(got, `class="tack"`); n != 1 {
		t.Errorf("%d tacks; only one strip has quartiles", n)
	}
	for _, none := range [][]Strip{nil, {{Name: "x"}}} {
		if got := Strips(none, "nothing"); got != nil {
			t.Errorf("%v drew %s", none, got.Desc)
		}
	}
}
