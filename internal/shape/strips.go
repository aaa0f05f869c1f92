package shape

import (
	"fmt"
	"math"
)

// Godet returns a sector to be let into a slit: its straight sides are
// height millimetres long and it adds height·angle to the hem. Its point
// is at the origin, its middle runs straight down, and its edges are named
// left, hem and right.
func Godet(height, degrees float64) (Outline, error) {
	if err := positive("height", height); err != nil {
		return Outline{}, err
	}
	if height > widest {
		return Outline{}, fmt.Errorf("a godet of %.0f m is too high", height/1000)
	}
	if !(degrees >= 0.1 && degrees <= 355) {
		return Outline{}, fmt.Errorf("a godet has between 0.1° and 355°, not %g°", degrees)
	}
	angle := degrees * math.Pi / 180
	left, right := -math.Pi/2-angle/2, -math.Pi/2+angle/2
	o := Outline{Edges: []Edge{{Name: "left", To: onCircle(height, left)}}}
	o.Edges = appendArc(o.Edges, "hem", height, left, right)
	o.Edges = append(o.Edges, Edge{Name: "right", To: o.From})
	return o, nil
}

// GodetAngle returns the angle in degrees of a godet of that height that
// adds gain to the hem, both in millimetres: gain / height radians.
func GodetAngle(height, gain float64) (float64, error) {
	if err := positive("height", height, "gain", gain); err != nil {
		return 0, err
	}
	return gain / height * 180 / math.Pi, nil
}
