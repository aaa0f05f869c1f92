package trace

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Resize turns the drawing's units into millimetres. unit, the millimetres of
// one unit, overrides what the file says, 0 where the maker says nothing;
// scale is how many times larger the garment is than the drawing, 0 for
// full size. Where neither maker nor file tell the unit, a line named
// "scale 100 mm" does; failing that, scale alone is the millimetres of a unit.
func (d *Drawing) Resize(unit, scale float64) *fault.Fault {
	x, y := d.UnitX, d.UnitY
	if unit > 0 {
		x, y = unit, unit
	} else if k, given, fault := d.scaleLine(); fault != nil {
		return fault
	} else if given {
		x, y = k, k
	}
	if !(x > 0 && y > 0) {
		if !(scale > 0) {
			return &fault.Fault{Severity: fault.Error, Message: say.Of("trace.the-file-does-not-say-how-large")}
		}
		x, y = 1, 1
	}
	if scale > 0 {
		x, y = x*scale, y*scale
	}
	if !(x < 1e6 && y < 1e6) {
		return &fault.Fault{Severity: fault.Error, Message: say.Of("trace.one-unit-of-the-drawing-would-be")}
	}
	d.stretch(x, y)
	for i := range d.Pieces {
		d.Pieces[i].unit = [2]float64{x, y}
	}
	d.UnitX, d.UnitY = 1, 1
	return nil
}

func (d *Drawing) stretch(x, y float64) {
	for i := range d.Pieces {
		for k := range d.Pieces[i].Strokes {
			d.Pieces[i].Strokes[k].stretch(x, y)
		}
	}
	for k := range d.Loose {
		d.Loose[k].stretch(x, y)
	}
}

func (s *Stroke) stretch(x, y float64) {
	s.Apply(func(p shape.Point) shape.Point { return shape.Point{X: p.X * x, Y: p.Y * y} })
}

// Apply moves every point of the stroke; f must keep straight lines straight.
func (s *Stroke) Apply(f func(shape.Point) shape.Point) {
	s.From = f(s.From)
	for i := range s.Parts {
		e := &s.Parts[i]
		e.To = f(e.To)
		if e.Curved {
			e.C1, e.C2 = f(e.C1), f(e.C2)
		}
	}
}

// scaleLine looks for a line whose true length is its name.
func (d *Drawing) scaleLine() (k float64, given bool, fault *fault.Fault) {
	look := func(list []Stroke) {
		for i := range list {
			s := &list[i]
			if s.Role != Scale || given || fault != nil {
				continue
			}
			want, ok := lengthIn(s.Name)
			drawn := shape.Outline{From: s.From, Edges: s.Parts}
			length := 0.0
			for p := range s.Parts {
				length += drawn.EdgeLength(p)
			}
			if !ok || !(length > 0) {
				f := FaultAt(s.At, say.Of("trace.name-the-line-after-its-true-length"), say.Of("trace.is-no-length-for-the-scale-line", say.Quoted(s.Name)))
				fault = &f
				return
			}
			k, given = want/length, true
		}
	}
	for i := range d.Pieces {
		look(d.Pieces[i].Strokes)
	}
	look(d.Loose)
	return k, given, fault
}

var plainLength = regexp.MustCompile(`^([0-9]+(?:[.][0-9]+)?)[- _]?(mm|cm|in|inch|inches)$`)

// lengthIn reads "100 mm", "10cm" or "4 in" as millimetres.
func lengthIn(s string) (float64, bool) {
	m := plainLength.FindStringSubmatch(strings.ToLower(strings.TrimSpace(s)))
	if m == nil {
		return 0, false
	}
	v, err := strconv.ParseFloat(m[1], 64)
	switch m[2] {
	case "mm":
	case "cm":
		v *= 10
	default:
		v *= 25.4
	}
	return v, err == nil && v > 0 && !math.IsInf(v, 0)
}
