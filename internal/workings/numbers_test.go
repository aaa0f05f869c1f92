package workings

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"hembook/internal/workings/reckon"
)

// A printed number, as it stands in a text.
type printed struct {
	digits   string // "12500.25", without its gaps
	value    float64
	decimals int
}

var numberForm = regexp.MustCompile(`\d+(?:\x{202f}\d{3})*(?:\.\d+)?`)

// numbersIn lists the numbers of a text, signs and units left out.
func numbersIn(text string) []printed {
	var out []printed
	for _, m := range numberForm.FindAllString(text, -1) {
		out = append(out, readNumber(strings.ReplaceAll(m, "\u202f", "")))
	}
	return out
}

func readNumber(digits string) printed {
	p := printed{digits: digits}
	p.value, _ = strconv.ParseFloat(digits, 64)
	if _, after, ok := strings.Cut(digits, "."); ok {
		p.decimals = len(after)
	}
	return p
}

func pow10(n int) float64 { return math.Pow10(n) }

// A written quantity is one that stands in a line of a record.
type written struct {
	value    float64
	unit     string // "" for a bare number
	decimals int
}

var (
	writtenForm = regexp.MustCompile(`([-−]?)((?:\d+\.\d+|\d+[ -]\d+/\d+|\d+/\d+|\d*[½¼¾⅛⅜⅝⅞]|\d+))\s*(mm|cm|m/|g/m2|g/m²|oz/yd2|oz/yd²|momme|kg|min|yd|ft|in\b|in$|m\b|g\b|h\b|d\b|oz|"|%|°|[A-Z]{3}(?:/(?:m|yd))?\b)?`)
	clockForm   = regexp.MustCompile(`\b(\d{1,2}):(\d{2})\b`)
	hoursForm   = regexp.MustCompile(`(\d+) ?h ?(\d+) ?min`)
	feetForm    = regexp.MustCompile(`(\d+) (yd|ft) (\d+(?: \d+/\d+)?|\d+/\d+) in`)
)

// writtenIn lists the quantities that stand in a line of a record.
func writtenIn(line string) []written {
	var out []written
	for _, m := range writtenForm.FindAllStringSubmatch(line, -1) {
		v, ok := fractionOf(m[2])
		if !ok {
			continue
		}
		if m[1] != "" {
			v = -v
		}
		unit := strings.NewReplacer("m2", "m²", "yd2", "yd²", `"`, "in", "m/", "m").Replace(m[3])
		out = append(out, written{v, unit, readNumber(m[2]).decimals})
	}
	for _, m := range hoursForm.FindAllStringSubmatch(line, -1) {
		h, _ := strconv.Atoi(m[1])
		mins, _ := strconv.Atoi(m[2])
		out = append(out, written{float64(60*h + mins), "min", 0})
	}
	for _, m := range feetForm.FindAllStringSubmatch(line, -1) {
		big, _ := strconv.ParseFloat(m[1], 64)
		small, _ := fractionOf(m[3])
		out = append(out, written{big*map[string]float64{"yd": 36, "ft": 12}[m[2]] + small, "in", 3})
	}
	var clocks []float64
	for _, m := range clockForm.FindAllStringSubmatch(line, -1) {
		h, _ := strconv.Atoi(m[1])
		mins, _ := strconv.Atoi(m[2])
		at := float64(60*h + mins)
		for _, before := range clocks {
			out = append(out, written{at - before, "min", 0})
		}
		clocks = append(clocks, at)
		out = append(out, written{at, "min", 0})
	}
	return out
}

// fractionOf reads "2 1/4", "3/4", "1½" and "12.5".
func fractionOf(text string) (float64, bool) {
	for sign, v := range map[string]float64{"½": 0.5, "¼": 0.25, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875} {
		if whole, ok := strings.CutSuffix(text, sign); ok {
			n, _ := strconv.ParseFloat("0"+whole, 64)
			return n + v, true
		}
	}
	whole, part := "0", text
	if at := strings.IndexAny(text, " -"); at > 0 {
		whole, part = text[:at], text[at+1:]
	}
	if over, under, ok := strings.Cut(part, "/"); ok {
		w, _ := strconv.ParseFloat(whole, 64)
		o, _ := strconv.ParseFloat(over, 64)
		u, _ := strconv.ParseFloat(under, 64)
		return w + o/u, u != 0
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}

// holds reports whether a line holds an amount, bare lengths being in a unit.
func holds(line, bare string, a reckon.Amount) bool {
	for _, w := range writtenIn(line) {
		for _, unit := range meanings(w.unit, bare, a.Dim) {
			b, ok := reckon.Of(w.value, unit)
			if !ok || b.Dim != a.Dim {
				continue
			}
			if off := b.Value - a.Value; math.Abs(off) <= a.Half+1e-9*(1+math.Abs(a.Value)) {
				return true
			}
		}
	}
	return false
}

// meanings are the units that a written number may have.
func meanings(unit, bare string, dim reckon.Dim) []string {
	if unit != "" {
		if dim.Money != 0 && dim.Length != 0 { // the price of a metre, or of a yard
			return []string{unit, unit + "/m", unit + "/yd"}
		}
		if dim.Mass != 0 && dim.Length == -1 {
			return []string{unit + "/m", unit + "/yd"}
		}
		return []string{unit}
	}
	switch dim {
	case reckon.Dim{Length: 1}:
		return []string{bare}
	case reckon.Dim{Mass: 1}:
		return []string{"g"}
	case reckon.Dim{Mass: 1, Length: -2}:
		return []string{"g/m²"}
	case reckon.Dim{Time: 1}:
		return []string{"min"}
	case reckon.Dim{Angle: 1}:
		return []string{"°"}
	}
	return []string{"", "%"}
}
