package garment

import (
	"testing"

	"hembook/internal/figure"
)

// TestOutcome says in words what was held against what: what cannot be worked out holds
// nothing, and what is not judged counts for nothing.
func TestOutcome(t *testing.T) {
	known := figure.Figure{}
	unknown := figure.Figure{Value: figure.Value{Why: "no outline"}}
	good, bad := Check{Judged: true, Good: true, Off: known}, Check{Judged: true, Off: known}
	dark, told := Check{Judged: true, Off: unknown}, Check{Good: true, Off: known}
	for _, c := range []struct {
		list []Check
		want string
	}{
		{nil, "There is nothing to compare on this garment."},
		{[]Check{told, dark}, "There is nothing to compare on this garment."},
		{[]Check{good}, "The one comparison holds."},
		{[]Check{good, told, good}, "All 2 comparisons hold."},
		{[]Check{good, dark}, "The one comparison holds. 1 more cannot be worked out."},
		{[]Check{bad, good, good}, "1 of 3 does not meet."},
		{[]Check{bad, good, bad}, "2 of 3 do not meet."},
	} {
		if got := Outcome(c.list); got != c.want {
			t.Errorf("%d comparisons: %q, want %q", len(c.list), got, c.want)
		}
	}
}
