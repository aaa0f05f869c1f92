package garment

import (
	"strings"
	"unicode"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/words"
)

// nameRounds says of every fault of the garment that a round of fitting brought which
// one did: the first after which it is told. What is wrong with a change itself is told
// where the change stands, and needs no more.
func (t *Tailor) nameRounds(g *Garment, list []Alteration, inForce int) {
	from := drawnIn(list)
	if inForce <= from || len(g.Faults) == 0 {
		return
	}
	told := make([]map[string]bool, 0, inForce-from+1) // by how many alterations are in force
	at := func(n int) map[string]bool {
		for len(told) <= n-from {
			keys := map[string]bool{}
			for _, f := range t.derivePlain(g.Build, list, from+len(told)).Faults {
				keys[faultKey(&f)] = true
			}
			told = append(told, keys)
		}
		return told[n-from]
	}
	for i := range g.Faults {
		f := &g.Faults[i]
		key := faultKey(f)
		if g.Build.Under(f.At) == "fittings" || strings.Contains(f.Message, "fitting") || at(from)[key] {
			continue
		}
		for n := from + 1; n <= inForce; n++ {
			if last := n == inForce || list[n].Round != list[n-1].Round; last && (n == inForce || at(n)[key]) {
				f.Message += say.Of("garment.since-the", words.Fitting(list[n-1].Round.Round.V))
				break
			}
		}
	}
}

// faultKey is what tells one fault from another whatever its numbers are: the place and
// the words.
func faultKey(f *fault.Fault) string {
	return f.At.String() + strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) || r == '.' {
			return -1
		}
		return r
	}, f.Message)
}
