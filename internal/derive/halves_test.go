package derive

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// halfFront is a half front whose corners are turned by degrees about the origin.
func halfFront(name, grain string, sign, degrees float64) string {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	at := func(x, y float64) string {
		return fmt.Sprintf("[%.4f, %.4f]", sign*x*cos-y*sin, sign*x*sin+y*cos)
	}
	return "  " + name + ": {of: shell, grain: " + grain + ", outline: {hem: " + at(200, 0) + ", side: " + at(180, 300) + ", shoulder: " + at(60, 400) + ", centre: [0, 0]}}\n"
}

// TestHalves: halves drawn apart are held to one grain, mirrored or not.
func TestHalves(t *testing.T) {
	for _, c := range []struct {
		name, text string
		off        float64
		told       int
	}{
		{"mirrored", halfFront("left front", "along", 1, 0) + halfFront("right front", "along", -1, 0), 0, 0},
		{"within the limit", halfFront("left front", "along", 1, 0) + halfFront("right front", "along", -1, 0.6), 0.6, 0},
		{"turned", halfFront("left front", "along", 1, 0) + halfFront("right front", "along", -1, 3), 3, 1},
		{"both turned", halfFront("left front", "along", 1, -2.5) + halfFront("right front", "along", -1, 3), 0.5, 0},
		{"drawn alike", halfFront("front left", "along", 1, 0) + halfFront("front right", "along", 1, 5), 5, 1},
		{"upside down", halfFront("left front", "along", 1, 0) + halfFront("right front", "along", -1, 180), 0, 0},
		{"another grain", halfFront("left front", "along", 1, 0) + halfFront("right front", "bias", -1, 0), 45, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\npieces:\n"+c.text)
			g.is(t, 1e-3, map[string]float64{"truing.halves-of-front.grain": c.off})
			if n := faultsSaying(g, "are cut on different grains"); n != c.told {
				t.Errorf("told %d times, want %d: %v", n, c.told, g.Faults)
			}
		})
	}
	for _, text := range []string{
		halfFront("left front", "along", 1, 0) + halfFront("left back", "bias", -1, 0),
		halfFront("left front", "along", 1, 0) + halfFront("right back", "bias", -1, 0),
		halfFront("left front", "any", 1, 0) + halfFront("right front", "along", -1, 9),
	} {
		g, _ := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\npieces:\n"+text)
		for _, f := range g.Figures() {
			if strings.Contains(f.ID, "halves") {
				t.Errorf("%s is held against nothing", f.ID)
			}
		}
	}
	// An asymmetric front is no image of the other half: only its grain is held.
	text := halfFront("left front", "along", 1, 0) + strings.Replace(halfFront("right front", "along", -1, 8), "centre:", "overlap:", 1)
	g, _ := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\npieces:\n"+text)
	g.is(t, 0, map[string]float64{"truing.halves-of-front.grain": 0})
}
