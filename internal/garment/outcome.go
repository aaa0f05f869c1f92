package garment

import (
	"hembook/internal/figure"
	"hembook/internal/say"
)

// edgesOfSeam is the kind of a check of the edges of a seam against each other.
const edgesOfSeam = "edges"

// metAs is the check of two lines of a seam that are sewn onto each other. What would
// mend it is said where that is found.
func (w *derivation) metAs(differ *figure.Figure, what string, s *Seam, tol figure.Setting, good bool) Check {
	return Check{Kind: edgesOfSeam, What: say.With("garment.at-3", what, s.Name), Off: *differ, Judged: true, Good: good, Limit: w.lengthAtMost(tol), At: s.Record.At}
}

// Compared is all that must meet: the edges of each seam, in the order of the record,
// and after them what crosses seams and folds.
func (g *Garment) Compared() []Check {
	var out []Check
	for _, s := range g.Seams {
		if s.met.Off.ID != "" {
			out = append(out, s.met)
		}
		for i := range s.Plies {
			out = append(out, s.Plies[i].met)
		}
	}
	return append(out, g.Truing...)
}

// Outcome says in a sentence whether what is sewn together fits together.
func Outcome(list []Check) string {
	held, bad, unknown := 0, 0, 0
	for i := range list {
		switch c := &list[i]; {
		case !c.Judged:
		case !c.Off.Value.Known():
			unknown++
		case c.Good:
			held++
		default:
			bad++
		}
	}
	rest := ""
	if unknown > 0 {
		rest = say.Of("garment.more-cannot-be-worked-out", unknown)
	}
	switch all := held + bad; {
	case all == 0:
		return say.Of("garment.there-is-nothing-to-compare-on-this")
	case bad == 0 && held == 1:
		return say.Of("garment.the-one-comparison-holds", rest)
	case bad == 0:
		return say.Of("garment.all-comparisons-hold", held) + rest
	case bad == 1:
		return say.Of("garment.1-of-does-not-meet", all) + rest
	default:
		return say.Of("garment.of-do-not-meet", bad, all) + rest
	}
}

// NotMet are the comparisons that do not hold.
func NotMet(list []Check) (out []Check) {
	for i := range list {
		if c := &list[i]; c.Judged && !c.Good && c.Off.Value.Known() {
			out = append(out, *c)
		}
	}
	return out
}
