package figure

import (
	"strconv"

	"hembook/internal/measure"
)

// A dim is a product of powers: of length, mass, time, money and angle.
type dim struct{ length, mass, time, money, angle int8 }

func (d dim) times(e dim) dim {
	return dim{d.length + e.length, d.mass + e.mass, d.time + e.time, d.money + e.money, d.angle + e.angle}
}

func (d dim) over(e dim) dim {
	return dim{d.length - e.length, d.mass - e.mass, d.time - e.time, d.money - e.money, d.angle - e.angle}
}

// half is the dimension of a square root.
func (d dim) half() dim {
	return dim{d.length / 2, d.mass / 2, d.time / 2, d.money / 2, d.angle / 2}
}

var dims = map[measure.Dimension]dim{
	measure.LengthDim:        {length: 1},
	measure.AreaDim:          {length: 2},
	measure.MassDim:          {mass: 1},
	measure.ArealMassDim:     {mass: 1, length: -2},
	measure.LinearDensityDim: {mass: 1, length: -1},
	measure.DurationDim:      {time: 1},
	measure.AngleDim:         {angle: 1},
	measure.RateDim:          {time: 1, length: -1},
	measure.PieceRateDim:     {time: 1},
	measure.StitchDensityDim: {length: -1},
}

// A unitFact is what a unit is made of.
type unitFact struct {
	dim   dim
	scale float64 // how many of mm, g, min, ° and their products one of it is
}

// facts are the units by number, made once.
var facts = func() []unitFact {
	all := measure.AllUnits()
	out := make([]unitFact, int(all[len(all)-1])+1)
	out[measure.NoUnit].scale = 1
	for _, u := range all {
		num, den := u.Factor()
		f := unitFact{dims[u.Dimension()], float64(num) / float64(den)}
		switch u.Dimension() {
		case measure.ArealMassDim, measure.LinearDensityDim:
			f.scale *= 1e-6 // by m², by km
		case measure.RateDim:
			f.scale *= 1e-3 // by m
		case measure.StitchDensityDim:
			f.scale *= 0.1 // by cm
		case measure.PercentDim:
			f.scale = 0.01
		}
		out[u] = f
	}
	return out
}()

func unitOf(u measure.Unit) (dim, float64) {
	f := &facts[u]
	return f.dim, f.scale
}

func scaleOf(u measure.Unit) float64 { return facts[u].scale }

// unfit is said where the program adds what cannot be added; a test makes sure
// that no figure says it.
func unfit(a, b dim) string {
	return "its units do not go together: " + a.String() + " and " + b.String()
}

func (d dim) String() string {
	text := ""
	for _, p := range []struct {
		n    int8
		unit string
	}{{d.length, "mm"}, {d.mass, "g"}, {d.time, "min"}, {d.money, "money"}, {d.angle, "°"}} {
		if p.n != 0 {
			if text != "" {
				text += " "
			}
			text += p.unit
			if p.n != 1 {
				text += "^" + strconv.Itoa(int(p.n))
			}
		}
	}
	if text == "" {
		return "a bare number"
	}
	return text
}
