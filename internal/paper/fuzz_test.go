package paper

import (
	"testing"

	"golang.org/x/image/font/gofont/goregular"

	"hembook/internal/document"
)

// FuzzMoreFont: whatever lies in a font's file, sheets are set with it, or it
// is refused in words.
func FuzzMoreFont(f *testing.F) {
	f.Add([]byte(nil))
	f.Add([]byte("OTTO"))
	f.Add([]byte("ttcf\x00\x01\x00\x00\x00\x00\x00\x01"))
	f.Add([]byte("\x00\x01\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00cmap\x00\x00\x00\x00\x00\x00\x00\x1c\xff\xff\xff\xff"))
	f.Add(goregular.TTF)
	f.Add(goregular.TTF[:5000])
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, err := PDF(document.Alone(kimono()), Options{MoreFont: data}); err != nil && err.Error() == "" {
			t.Error("refused without a word")
		}
	})
}
