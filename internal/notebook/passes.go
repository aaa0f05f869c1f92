package notebook

import (
	"strings"

	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A PassWords says what is done in a pass.
type PassWords struct {
	Do   string // what is stitched
	Then string // and trimmed, turned and pressed behind it; may be empty
}

// Passes says in words what is done in each pass, the measures filled in as the workroom
// shows them. sides are what the sides of the seam are called; where nothing is known of
// one, it is the first or the second piece.
func Passes(t trade.SeamType, given trade.Params, style measure.Style, sides [3]string) []PassWords {
	params, err := t.Values(given)
	if err != nil {
		return nil
	}
	length := func(mm float64) string { return style.Length(measure.MM(mm)) }
	name := sideNames(sides)
	var out []PassWords
	for i := range t.Passes {
		p := &t.Passes[i]
		words := p.Words(params, length)
		switch p.Together {
		case trade.RightTogether:
			words = say.Of("notebook.right-sides-together", words)
		case trade.WrongTogether:
			words = say.Of("notebook.wrong-sides-together", words)
		}
		if p.Temporary {
			words += say.Of("notebook.basting-taken-out-again")
		}
		out = append(out, PassWords{named(words, name), named(p.Afterwards(params, length), name)})
	}
	return out
}

func named(words string, name *strings.Replacer) string {
	return strings.TrimSuffix(name.Replace(words+" "), " ")
}

// sideNames puts the names of pieces for the letters of sides.
func sideNames(sides [3]string) *strings.Replacer {
	var pairs []string
	for i, own := range [3]string{say.Of("notebook.first-piece"), say.Of("notebook.second-piece"), say.Of("notebook.third-piece")} {
		if sides[i] != "" {
			own = sides[i]
		}
		pairs = append(pairs, say.Of("notebook.side", string("abc"[i])), say.Of("notebook.the", own), say.Of("notebook.side-2", string("abc"[i])), say.Of("notebook.the-2", own), say.Of("notebook.side-3", string("abc"[i])), say.Of("notebook.the-3", own))
	}
	return strings.NewReplacer(pairs...)
}
