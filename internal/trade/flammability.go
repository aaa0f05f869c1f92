package trade

import (
	"fmt"
	"strings"

	"hembook/internal/say"
)

// Surface is the surface of a cloth as 16 CFR 1610 distinguishes it.
type Surface string

// The surfaces; empty when nobody said.
const (
	SurfaceUnknown Surface = ""
	PlainSurface   Surface = "plain"
	RaisedSurface  Surface = "raised" // pile, nap, brushed, fleece
)

// FlagState is the outcome of the flammability question.
type FlagState string

// The outcomes. Clear means exempt from testing by the rule, never "safe".
const (
	FlagClear   FlagState = "clear"
	Flagged     FlagState = "flagged"
	FlagUnknown FlagState = "not known"
)

// A Flag answers whether a cloth falls under the testing duty of 16 CFR 1610,
// with the reason in words and the numbers used.
type Flag struct {
	State   FlagState
	Reason  string
	Working string
	Source  Source
}

// The limit for plain-surface cloth is an ounce figure in the rule.
const (
	plainLimitOunces  = 2.6                              // 16 CFR 1610.1(d)(1), oz/yd²
	gramsPerOunceYard = 28.349523125 / (0.9144 * 0.9144) // g/m² in 1 oz/yd², exact by definition
)

// plainSurfaceLimit is the mass in g/m² from which a plain cloth is exempt
// from testing: 2.6 oz/yd², 88.155 g/m². Source: 16 CFR 1610.1(d)(1).
func plainSurfaceLimit() float64 { return plainLimitOunces * gramsPerOunceYard }

// Flammability decides whether a cloth of the given fibres, mass in g/m² (0
// when not known) and surface is one that the United States rule for clothing
// textiles does not exempt from testing. It says nothing about how the cloth
// burns: an exempt cloth burns as well.
func Flammability(fibres []string, mass float64, surface Surface) Flag {
	other := notExempt(fibres)
	switch {
	case len(fibres) > 0 && len(other) == 0:
		return Flag{
			FlagClear, say.Of("trade.made-entirely-of-fibres-the-rule-exempts"),
			say.Of("trade.all-in-the-list", strings.Join(fibres, ", ")), "16 CFR 1610.1(d)(2)",
		}
	case surface == SurfaceUnknown:
		return Flag{FlagUnknown, say.Of("trade.not-known-because-the-surface-is-not"), "", "16 CFR 1610.1(d)"}
	case surface == RaisedSurface && len(fibres) == 0:
		return Flag{FlagUnknown, say.Of("trade.not-known-because-the-fibres-of-this"), "", "16 CFR 1610.1(d)"}
	case surface == RaisedSurface:
		return Flag{Flagged, say.Of("trade.raised-surface-in-which-the-rule-does", strings.Join(other, ", ")), "", "16 CFR 1610.1(d)"}
	case !(mass > 0):
		return Flag{FlagUnknown, say.Of("trade.not-known-because-the-weight-is-not"), "", "16 CFR 1610.1(d)(1)"}
	}
	limit := plainSurfaceLimit()
	working := fmt.Sprintf("%s g/m² = %s oz/yd²; the limit is 2.6 oz/yd² = %s g/m²", number(mass), number(mass/gramsPerOunceYard), number(limit))
	if mass >= limit {
		return Flag{FlagClear, say.Of("trade.plain-surface-at-or-above-2-6"), working, "16 CFR 1610.1(d)(1)"}
	}
	if len(fibres) == 0 {
		return Flag{FlagUnknown, say.Of("trade.not-known-because-the-fibres-of-this-2"), working, "16 CFR 1610.1(d)"}
	}
	return Flag{Flagged, say.Of("trade.light-plain-cloth-with-which-the-rule", strings.Join(other, ", ")), working, "16 CFR 1610.1(d)"}
}

// notExempt lists the fibres outside the rule's list; a word nobody knows is
// outside it too.
func notExempt(fibres []string) []string {
	var out []string
	for _, name := range fibres {
		f, ok := FibreNamed(name)
		if !ok || !f.Exempt1610 {
			out = append(out, name)
		}
	}
	return out
}
