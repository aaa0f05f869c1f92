package cutting

import (
	"math"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

const (
	millimetres = measure.UnitMM

	engine trade.Source = "the lay plan: a search that a separate checker has looked over"
)

func number(v float64, decimals int) string { return measure.Style{}.Number(v, decimals) }

// mm prints a length for a working.
func mm(v float64) string { return number(v, 3) + " mm" }

// A tape says lengths and areas, given in millimetres, in sentences: in the
// units of the room.
type tape struct{ inches bool }

func tapeOf(s measure.Style) tape { return tape{s.System == measure.Imperial} }

// exact prints a length to three decimals, or to whole sixteenths of an inch
// where it is so many.
func (t tape) exact(v float64) string {
	if t.inches {
		return measure.Style{System: measure.Imperial}.PreciseQuantity(measure.Quantity{Number: v, Unit: millimetres})
	}
	return mm(v)
}

// about prints a length to a tenth of a millimetre, or to 1/16 in.
func (t tape) about(v float64) string {
	if t.inches {
		text, _ := measure.Inches(measure.MM(v))
		return text
	}
	return number(v, 1) + " mm"
}

// whole prints a length to whole millimetres, or to 1/16 in.
func (t tape) whole(v float64) string {
	if t.inches {
		return t.about(v)
	}
	return number(v, 0) + " mm"
}

// up is a length brought up to the next that about can print.
func (t tape) up(v float64) float64 {
	step := 0.1
	if t.inches {
		step = 25.4 / 16
	}
	return math.Ceil(v/step-1e-9) * step
}

// within is a rectangle made as large as whole marks of the tape have it: whole millimetres
// or sixteenths of an inch.
func (t tape) within(r shape.Oblong) shape.Oblong {
	step := 1.0
	if t.inches {
		step = 25.4 / 16
	}
	r.Most.X = r.Least.X + math.Floor((r.Most.X-r.Least.X)/step+1e-6)*step
	r.Most.Y = r.Least.Y + math.Floor((r.Most.Y-r.Least.Y)/step+1e-6)*step
	return r
}

// long prints a length of strip in metres or yards, to the hundredth.
func (t tape) long(v float64) string {
	if t.inches {
		return number(v/914.4, 2) + " yd"
	}
	return number(v/1e3, 2) + " m"
}

// area prints an area to so many decimals of a square centimetre or inch.
func (t tape) area(v float64, decimals int) string {
	if t.inches {
		return say.Of("cutting.in", number(v/(25.4*25.4), decimals))
	}
	return say.Of("cutting.cm", number(v/100, decimals))
}

// joined sets words side by side, each once.
func joined(words []string) string {
	var out []string
	seen := map[string]bool{}
	for _, w := range words {
		if !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}
