package abacus

import (
	"math/big"
	"strings"
	"unicode"
)

// millimetres in one unit of length.
var millimetres = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8, "yd": 914.4}

// length reads a length; a bare number is in the given unit.
func (v node) length(bare string) float64 {
	number, unit := splitUnit(v.text())
	if unit == "" {
		unit = bare
	}
	per, known := millimetres[unit]
	f, ok := mixed(number)
	if !known || !ok {
		giveUp("%q is no length", v.text())
	}
	return f * per
}

// lengthOr is a length, or another where none is written.
func (v node) lengthOr(bare string, otherwise float64) float64 {
	if !v.there() {
		return otherwise
	}
	return v.length(bare)
}

func (v node) point(bare string) point {
	xy := v.list()
	if len(xy) != 2 {
		giveUp("a point has two numbers, not %d", len(xy))
	}
	return point{xy[0].length(bare), xy[1].length(bare)}
}

// splitUnit parts "1 1/4 yd" into its number and its unit.
func splitUnit(text string) (number, unit string) {
	i := strings.IndexFunc(text, unicode.IsLetter)
	if i < 0 {
		return strings.TrimSpace(text), ""
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:])
}

// minutes reads "50 min", "2 h" and "1 h 20 min".
func (v node) minutes() float64 {
	words := strings.Fields(v.text())
	sum := 0.0
	for i := 0; i+1 < len(words); i += 2 {
		f, ok := mixed(words[i])
		per := map[string]float64{"min": 1, "h": 60}[words[i+1]]
		if !ok || per == 0 {
			giveUp("%q is no time", v.text())
		}
		sum += f * per
	}
	return sum
}

// money reads "27.50 EUR" exactly.
func (v node) money() *big.Rat {
	number, _ := splitUnit(v.text())
	r, ok := new(big.Rat).SetString(number)
	if !ok {
		giveUp("%q is no money", v.text())
	}
	return r
}

// grams reads "14 g", "1.8 kg" and, for cloth, "235 g/m2".
func (v node) grams() float64 {
	number, unit := splitUnit(v.text())
	f, ok := mixed(number)
	if !ok {
		giveUp("%q is no mass", v.text())
	}
	switch unit {
	case "g", "g/m2", "g/m²":
		return f
	case "kg":
		return f * 1000
	case "oz":
		return f * 28.349523125
	case "oz/yd2", "oz/yd²":
		return f * 28.349523125 / (0.9144 * 0.9144)
	}
	giveUp("%q is no mass", v.text())
	return 0
}

// coins rounds an exact amount to hundredths, halves away from zero.
func coins(r *big.Rat) *big.Rat {
	scaled := new(big.Rat).Mul(r, big.NewRat(200, 1)) // in half cents
	half := new(big.Int).Quo(scaled.Num(), scaled.Denom())
	step := big.NewInt(1)
	if r.Sign() < 0 {
		step = big.NewInt(-1)
	}
	cents := new(big.Int).Quo(half.Add(half, step), big.NewInt(2))
	return new(big.Rat).SetFrac(cents, big.NewInt(100))
}

func exact(f float64) *big.Rat { return new(big.Rat).SetFloat64(f) }
