package amend

import (
	"strings"
	"testing"
)

// A list of a million entries is refused before a tree is made of it.
func TestTooMany(t *testing.T) {
	text := []byte("name: A\njournal:\n" + strings.Repeat("-\n", 1_000_000))
	made := testing.AllocsPerRun(1, func() {
		if _, err := Append(text, At("journal"), Words("x")); err == nil || !strings.Contains(err.Error(), "more than 100000 values") {
			t.Errorf("%v", err)
		}
	})
	if made > 100_000 {
		t.Errorf("%.0f things were made of it", made)
	}
}
