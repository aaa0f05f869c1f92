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

// A GorePlan is one of the equal straight gores of a skirt, in
// millimetres.
type GorePlan struct {
	Top, Bottom float64
	Flare       float64 // how far each side leans out at the hem
	Side        float64 // length of the slanting side
	Overshoot   float64 // how much longer the side is than the middle: the hem must curve up by it
}

// Gores divides a skirt of that waist, hem and length among count equal
// straight gores.
func Gores(waist, hem, length float64, count int) (GorePlan, error) {
	if err := positive("waist", waist, "hem", hem, "length", length); err != nil {
		return GorePlan{}, err
	}
	if count < 1 || count > 360 {
		return GorePlan{}, fmt.Errorf("a skirt has between 1 and 360 gores, not %d", count)
	}
	g := GorePlan{Top: waist / float64(count), Bottom: hem / float64(count)}
	g.Flare = (g.Bottom - g.Top) / 2
	g.Side = math.Sqrt(length*length + g.Flare*g.Flare)
	g.Overshoot = g.Side - length
	return g, nil
}

// A FrustumPlan is a skirt cut in one as part of a cone's mantle.
type FrustumPlan struct {
	InnerRadius, OuterRadius float64 // mm
	Angle                    float64 // degrees
	Panel                    Outline // edges waist, left, hem and right
}

// Frustum lays out the mantle of a cut-off cone whose rounds are waist and
// hem and whose sides are slant long, in millimetres: the inner radius is
// slant·w/(h−w), the angle w/r (geometry of the cone).
func Frustum(waist, hem, slant float64) (FrustumPlan, error) {
	if err := positive("waist", waist, "hem", hem, "slant", slant); err != nil {
		return FrustumPlan{}, err
	}
	if !(hem > waist) {
		return FrustumPlan{}, fmt.Errorf("the hem (%g mm) must be wider than the waist (%g mm)", hem, waist)
	}
	r := slant * waist / (hem - waist)
	angle := waist / r
	switch {
	case angle > 2*math.Pi:
		return FrustumPlan{}, fmt.Errorf("a hem of %g mm is too wide for one piece: it would go round %.2f times",
			hem, angle/2/math.Pi)
	case r+slant > widest:
		return FrustumPlan{}, fmt.Errorf("the hem is hardly wider than the waist: the radius would be %.0f m", r/1000)
	}
	return FrustumPlan{r, r + slant, angle * 180 / math.Pi, ringPanel(r, r+slant, angle)}, nil
}

// SquareForBias returns the side in millimetres of the square of cloth
// that yields a bias strip of that length and cut width, before seams and
// rounding up: √(length × width), equal areas.
func SquareForBias(length, cutWidth float64) (float64, error) {
	if err := positive("cut width", cutWidth); err != nil {
		return 0, err
	}
	if !(length > 0 && length <= 1e9) {
		return 0, fmt.Errorf("the length of strip must lie between 0 and 1000 km, not %g mm", length)
	}
	return math.Sqrt(length * cutWidth), nil
}

// BiasFrom returns the length in millimetres of continuous bias strip that
// a rectangle of cloth yields, losses ignored: its area divided by the cut
// width.
func BiasFrom(x, y, cutWidth float64) (float64, error) {
	if err := positive("width", x, "height", y, "cut width", cutWidth); err != nil {
		return 0, err
	}
	return x * y / cutWidth, nil
}

// A BiasStrip is one strip cut at 45° across the cloth, in millimetres.
type BiasStrip struct {
	Length        float64 // along the strip, from selvedge to selvedge
	AlongSelvedge float64 // what it takes of the selvedge
	JoinLoss      float64 // what each join takes of the strip
}

// BiasAcross works out single strips of that cut width across cloth of
// that usable width, joined on the straight grain with an allowance (which
// may be nought).
func BiasAcross(clothWidth, cutWidth, allowance float64) (BiasStrip, error) {
	if err := positive("width of the cloth", clothWidth, "cut width", cutWidth); err != nil {
		return BiasStrip{}, err
	}
	if !(allowance >= 0 && allowance <= MostAllowance) {
		return BiasStrip{}, fmt.Errorf("the allowance must lie between 0 and %d mm, not %g", MostAllowance, allowance)
	}
	return BiasStrip{clothWidth * math.Sqrt2, cutWidth * math.Sqrt2, 2 * allowance * math.Sqrt2}, nil
}
