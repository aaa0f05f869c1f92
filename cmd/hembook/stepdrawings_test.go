package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestEveryStepIsDrawn: each caption of what a step sews stands under a drawing, also
// where nothing but a pocket is set onto the face of a piece.
func TestEveryStepIsDrawn(t *testing.T) {
	t.Parallel()
	dir := pressedDemo(t)
	drawn := 0
	files, err := filepath.Glob(filepath.Join(dir, "builds", "*", "together.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		_, steps, _ := strings.Cut(contents(t, file), `<section id="steps">`)
		for _, figure := range strings.Split(steps, "<figure")[1:] {
			figure, _, _ = strings.Cut(figure, "</figure>")
			if !strings.Contains(figure, "<svg") {
				t.Errorf("%s: no drawing in <figure%s", file, figure)
			}
			drawn++
		}
	}
	if drawn < 60 {
		t.Errorf("only %d drawings of steps", drawn)
	}
}
