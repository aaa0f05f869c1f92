package label

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/record"
	"hembook/internal/trade"
)

// axisOptions are the names of the symbols of one group of the label.
func axisOptions(axis string, l trade.CareLimits) []string {
	switch axis {
	case "wash":
		return []string{l.Wash.Option()}
	case "bleach":
		return []string{l.Bleach.Option()}
	case "dry":
		if n := l.Natural.Option(); n != "" {
			return []string{l.Tumble.Option(), n}
		}
		return []string{l.Tumble.Option()}
	case "iron":
		return []string{l.IronOption()}
	}
	return l.Professional.Options()
}

// axisWords says one group of the label in words.
func axisWords(axis string, l trade.CareLimits) string {
	if axis == "wash" {
		return l.Wash.Words() // its temperature, which the symbol for hand washing does not show
	}
	return optionWords(axisOptions(axis, l))
}

// LimitWords says in words what a supplier's limit on drying or professional
// care allows, which records write short: "line", "P mild". It is "" for the
// other axes, whose limits read well as they are written.
func LimitWords(axis, limit string) string {
	switch axis {
	case "dry":
		tumble, natural := dryOf(limit)
		if n := natural.Option(); n != "" {
			return optionWords([]string{n})
		}
		return optionWords([]string{tumble.Option()})
	case "professional":
		return optionWords(cleanOf(limit).Options())
	}
	return ""
}

// optionWords says symbols in words.
func optionWords(names []string) string {
	var out []string
	for _, name := range names {
		if o, ok := trade.CareOptionNamed(name); ok {
			out = append(out, o.Words)
		}
	}
	return strings.Join(out, ", ")
}

// axisGiven reports whether a record says anything of an axis.
func axisGiven(axis string, c record.CareLimits) bool {
	switch axis {
	case "wash":
		return c.Wash.Given()
	case "bleach":
		return c.Bleach.Given()
	case "dry":
		return c.Dry.Given()
	case "iron":
		return c.Iron.Given()
	}
	return c.Professional.Given()
}

var axisNames = []string{"wash", "bleach", "dry", "iron", "professional"}

func anyAxis(c record.CareLimits) bool {
	return slices.ContainsFunc(axisNames, func(a string) bool { return axisGiven(a, c) })
}

func allAxes(c record.CareLimits) bool {
	return !slices.ContainsFunc(axisNames, func(a string) bool { return !axisGiven(a, c) })
}

// withSupplier puts what a record says in the place of the usual limits, axis
// by axis.
func withSupplier(l trade.CareLimits, c record.CareLimits) trade.CareLimits {
	if c.Wash.Given() {
		usual := l.Wash
		l.Wash = washOf(c.Wash.V)
		if l.Wash.Hand && usual.Degrees > 0 { // "by hand" names no temperature
			l.Wash.Degrees = min(l.Wash.Degrees, usual.Degrees)
		}
	}
	if c.Bleach.Given() {
		l.Bleach = trade.Bleach(c.Bleach.V)
	}
	if c.Dry.Given() {
		l.Tumble, l.Natural = dryOf(c.Dry.V)
	}
	if c.Iron.Given() {
		l.Iron, l.NoSteam = ironOf(c.Iron.V)
	}
	if c.Professional.Given() {
		l.Professional = cleanOf(c.Professional.V)
	}
	return l
}

// washOf reads "40 very mild", "hand" or "none". Washing by hand is at most at
// 40 °C: from memory (ISO 3758:2012); trade tables print 30 or 40.
func washOf(s string) trade.Wash {
	switch s {
	case "none":
		return trade.Wash{}
	case "hand":
		return trade.Wash{Degrees: 40, Action: trade.VeryMild, Hand: true}
	}
	number, action, _ := strings.Cut(s, " ")
	degrees, _ := strconv.Atoi(number)
	return trade.Wash{Degrees: degrees, Action: trade.Cycle(action)}
}

// dryOf reads how a cloth is dried. A supplier who asks for drying in the air
// does not ask for a tumble drier.
func dryOf(s string) (trade.Tumble, trade.Natural) {
	if heat, ok := strings.CutPrefix(s, "tumble "); ok {
		return trade.Tumble(heat), trade.Natural{}
	}
	has := func(word string) bool { return slices.Contains(strings.Fields(s), word) }
	return trade.NoTumble, trade.Natural{Said: true, Flat: has("flat"), Drip: has("drip"), Shade: has("shade")}
}

func ironOf(s string) (degrees int, noSteam bool) {
	number, rest, _ := strings.Cut(s, " ")
	degrees, _ = strconv.Atoi(number) // 0 for "none"
	return degrees, rest == "no steam"
}

func cleanOf(s string) trade.Clean {
	letter, action, _ := strings.Cut(s, " ")
	switch letter {
	case "P", "F":
		return trade.Clean{Solvents: []string{letter}, Action: trade.Cycle(action)}
	case "W":
		return trade.Clean{Wet: true, Action: trade.Cycle(action)}
	}
	return trade.Clean{}
}

// laxerAxes are the axes on which a allows more than b: taken together they
// would not be a.
func laxerAxes(a, b trade.CareLimits) []string {
	both := a.Meet(b)
	var out []string
	for _, axis := range axisNames {
		if axisWords(axis, both) != axisWords(axis, a) {
			out = append(out, axis)
		}
	}
	return out
}
