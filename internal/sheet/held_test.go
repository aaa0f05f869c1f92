package sheet

import (
	"regexp"
	"testing"
)

// TestHeldTogether: no line of a sheet breaks between a number and its unit, nor in French
// before a colon.
func TestHeldTogether(t *testing.T) {
	for _, c := range []struct{ code, text, want string }{
		{"en", "wash at 30 °C at most", "wash at 30\u00a0°C at most"},
		{"de", "{n} %", "{n}\u00a0%"},
		{"en", "{n} metres, 3 mmm", "{n} metres, 3 mmm"},
		{"fr", "en raison de : {what}", "en raison de\u00a0: {what}"},
		{"fr", "« oui » !", "«\u00a0oui\u00a0»\u00a0!"},
		{"de", "Wofür : das", "Wofür : das"},
	} {
		if got := heldTogether(c.text, c.code); got != c.want {
			t.Errorf("%s: %q, want %q", c.code, got, c.want)
		}
	}
	apart := regexp.MustCompile(` [:;!?»]|[0-9}] (°C|%)`)
	for key, w := range words().lists["fr"].words {
		for _, text := range w.texts() {
			if apart.MatchString(text) {
				t.Errorf("%s: %q", key, text)
			}
		}
	}
}
