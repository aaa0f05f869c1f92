package compose

import (
	"testing"

	"hembook/internal/notebook"
	"hembook/internal/order"
)

func stepsCalled(ids ...string) []notebook.Step {
	var out []notebook.Step
	for _, id := range ids {
		out = append(out, notebook.Step{Step: &order.Step{ID: id}})
	}
	return out
}

// TestStepAnchors: each step has a place of its own to be led to, of steps of one name
// the first is meant, and names that a browser would take as one are kept apart.
func TestStepAnchors(t *testing.T) {
	b := &notebook.BuildPage{Steps: stepsCalled("Sides!", "sides", "hem", "hem")}
	got := stepAnchors(b.Steps)
	if got["Sides!"] != "step-sides" || got["sides"] != "step-sides-2" || got["hem"] != "step-hem" || len(got) != 3 {
		t.Errorf("got %v", got)
	}
	to := toStep(b)
	if l := to("sides"); l.Words != "step\u00a02" || l.Anchor != got["sides"] {
		t.Errorf("leads to %q as %q", l.Anchor, l.Words)
	}
	if l := to("none"); l.Words != "" || l.Anchor != "" {
		t.Errorf("a step that is not there is led to: %v", l)
	}
}
