package reckon

import "strings"

// A unit is base units in one of it, and its kind.
type unit struct {
	factor float64
	dim    Dim
}

// bases are the units there are. An inch is 25.4 mm and a pound 453.59237 g
// exactly (international yard and pound agreement of 1959).
var bases = map[string]unit{
	"mm": {1, Dim{Length: 1}}, "cm": {10, Dim{Length: 1}}, "m": {1000, Dim{Length: 1}}, "km": {1e6, Dim{Length: 1}},
	"in": {25.4, Dim{Length: 1}}, "ft": {304.8, Dim{Length: 1}}, "yd": {914.4, Dim{Length: 1}},
	"g": {1, Dim{Mass: 1}}, "kg": {1000, Dim{Mass: 1}}, "oz": {453.59237 / 16, Dim{Mass: 1}}, "lb": {453.59237, Dim{Mass: 1}},
	"s": {1.0 / 60, Dim{Time: 1}}, "min": {1, Dim{Time: 1}}, "h": {60, Dim{Time: 1}}, "d": {1440, Dim{Time: 1}}, "wk": {10080, Dim{Time: 1}},
	"°": {1, Dim{Angle: 1}}, "%": {0.01, None},
	"piece": {1, None}, "pieces": {1, None}, "reel": {1, None}, "reels": {1, None}, "panel": {1, None}, "panels": {1, None},
	"times": {1, None}, "rows": {1, None}, "row": {1, None}, "stitches": {1, None},
	"tex":   {1.0 / 1e6, Dim{Mass: 1, Length: -1}},                   // grams for a kilometre
	"momme": {45359237.0 / 10451592 / 1e6, Dim{Mass: 1, Length: -2}}, // 4.34 g/m²
}

// unitOf reads the symbol of a unit: "mm", "m²", "g/m²", "EUR/m", "/cm".
func unitOf(symbol string) (unit, bool) {
	above, below, parted := strings.Cut(symbol, "/")
	u := unit{1, None}
	if above != "" {
		var ok bool
		if u, ok = power(above); !ok {
			return u, false
		}
	} else if !parted {
		return u, false
	}
	if parted {
		v, ok := power(below)
		if !ok {
			return u, false
		}
		u.factor /= v.factor
		u.dim, _ = u.dim.times(v.dim, -1)
	}
	return u, true
}

func power(symbol string) (unit, bool) {
	n := 1
	if s, ok := strings.CutSuffix(symbol, "²"); ok {
		symbol, n = s, 2
	} else if s, ok := strings.CutSuffix(symbol, "³"); ok {
		symbol, n = s, 3
	}
	u, ok := bases[symbol]
	if !ok {
		if !currency(symbol) {
			return u, false
		}
		u = unit{1, Dim{Money: 1, Currency: symbol}}
	}
	out := unit{1, None}
	for range n {
		out.factor *= u.factor
		out.dim, _ = out.dim.times(u.dim, 1)
	}
	return out, true
}

// currency reports whether a symbol has the form of ISO 4217.
func currency(s string) bool {
	if len(s) != 3 {
		return false
	}
	for i := range len(s) {
		if s[i] < 'A' || s[i] > 'Z' {
			return false
		}
	}
	return true
}

// likely are the units that a bare number may have been meant in.
func likely(to Amount) []float64 {
	list := []float64{to.factor()}
	for _, u := range []string{"mm", "cm", "m", "in", "yd", "mm²", "cm²", "m²", "in²", "yd²", "min", "h", "g"} {
		if v, _ := unitOf(u); v.dim == to.Dim {
			list = append(list, v.factor)
		}
	}
	return list
}
