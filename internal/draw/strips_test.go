package draw

import (
	"strings"
	"testing"
)

// TestStrip: half as much is half as long, and nothing lies outside the drawing.
func TestStrip(t *testing.T) {
	for share, want := range map[float64]string{1: `d="M0 10h400v20h-400z"`, 0.5: `d="M0 10h200v20h-200z"`, 3: `d="M0 10h400v20h-400z"`, -1: `d="M0 10v20z"`} {
		if got := string(Strip(share).SVG(nil)); !strings.Contains(got, want) {
			t.Errorf("%g: no %s in\n%s", share, want, got)
		}
	}
}
