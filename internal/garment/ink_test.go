package garment

import (
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/measure"
)

// Workings print numbers as the measure room prints them.
func TestNumbersPrintAlike(t *testing.T) {
	for _, v := range []float64{0, 1, -1, 0.5, 0.0004, -0.0004, 9999, 10000, 12345.678, -1234567.8901, 999.9996, 1e14, 3e18} {
		if got, want := string(appendNumber(nil, v, 3)), (measure.Style{}).Number(v, 3); got != want {
			t.Errorf("%v prints %q, want %q", v, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		// eighths of a micrometre have no doubtful halves
		v := float64(rapid.Int64Range(-1e11, 1e11).Draw(t, "eighths")) / 8 / 64
		for decimals := range 5 {
			if got, want := string(appendNumber(nil, v, decimals)), (measure.Style{}).Number(v, decimals); got != want {
				t.Fatalf("%v to %d decimals prints %q, want %q", v, decimals, got, want)
			}
		}
	})
}

func TestSlugs(t *testing.T) {
	for name, want := range map[string]string{
		"front": "front", "front lining": "front-lining", "Front Lining": "front-lining", "Rücken": "rucken",
		"side-2": "side-2", "-": "unnamed", "": "unnamed", "a  b": "a-b", " a": "a",
	} {
		if got := slug(name); got != want {
			t.Errorf("%q becomes %q, want %q", name, got, want)
		}
	}
	n := namesFor(2)
	for i, want := range []string{"side", "side-2", "side-2-2", "side-3"} {
		if got := n.unique([]string{"side", "Side", "side-2", "side"}[i]); got != want {
			t.Errorf("slug %d is %q, want %q", i, got, want)
		}
	}
}

// Texts written to one page after another stay as they were.
func TestInkKeepsPages(t *testing.T) {
	var k ink
	var texts []string
	for i := range 5000 {
		texts = append(texts, k.s("text ").i(i).end())
	}
	for i, text := range texts {
		if want := string(append([]byte("text "), appendNumber(nil, float64(i), 0)...)); text != want {
			t.Fatalf("text %d reads %q", i, text)
		}
	}
}
