package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// A Noun is what sentences call a garment in one language, with its gender as a
// dictionary has it: "Hose f", "pantalon m", "trousers pl".
type Noun struct{ Word, Gender string }

// nounGenders are the genders that nouns may have, by language.
var nounGenders = map[string][]string{
	"en": {"n", "pl"}, "de": {"m", "f", "n", "pl"}, "nl": {"m", "f", "n", "pl"},
	"fr": {"m", "f", "m pl", "f pl"}, "es": {"m", "f", "m pl", "f pl"}, "it": {"m", "f", "m pl", "f pl"},
}

// NounOf reads a noun and its gender; ok is false where it has none.
func NounOf(text string) (n Noun, ok bool) {
	for _, gender := range []string{"m pl", "f pl", "pl", "m", "f", "n"} { // the longer ones first
		word, has := strings.CutSuffix(strings.TrimSpace(text), " "+gender)
		if word = strings.TrimRight(word, " ,"); has && word != "" {
			return Noun{word, gender}, true
		}
	}
	return n, false
}

func readNoun(_ *decoder, text string, _ limits) (Noun, *fault.Fault) {
	n, ok := NounOf(text)
	if !ok {
		return n, wrong(say.Of("record.write-its-gender-behind-it"), say.Of("record.does-not-say-of-which-gender-it-is", say.Quoted(fault.Shorten(text))))
	}
	return n, nil
}

// checkNouns looks whether the garment's nouns are of genders that their languages have.
func (c *buildCheck) checkNouns() {
	for i := range c.b.Noun {
		n := &c.b.Noun[i]
		if has := nounGenders[n.Name.V]; n.V.Given() && has != nil && !slices.Contains(has, n.V.V.Gender) {
			c.faults.Wrong(n.V.At, say.Of("record.one-of", meant.List(has, "or")), say.Of("record.no-noun-is-of-that-gender-there", n.V.V.Gender))
		}
	}
}
