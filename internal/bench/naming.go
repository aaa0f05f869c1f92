package bench

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Named is anything that can be named by a part of its name.
type Named struct {
	ID    string // its short name
	Words string // what it is called; may be empty
}

func (n Named) String() string {
	if n.Words == "" || meant.Plain(n.Words) == meant.Plain(n.ID) {
		return n.ID
	}
	return n.ID + " (" + n.Words + ")"
}

// Steps are the names of a build's steps, in their order.
func Steps(b *record.Build) []Named {
	var out []Named
	for i := range b.Work {
		if id := b.Work[i].StepID(); id != "" {
			out = append(out, Named{id, b.Work[i].Do.V})
		}
	}
	return out
}

// A missed says that a word names nothing, or more than one thing.
type missed struct {
	Kind string // "step"
	Word string
	Fits []Named // more than one; none where nothing fits
	Near string  // what was probably meant; may be empty
	All  []Named // what there is
}

// Error lists what fits, or else what was probably meant, or else what there is.
func (m *missed) Error() string {
	switch {
	case len(m.Fits) > 0:
		return say.Of("bench.fits-s", say.Quoted(m.Word), len(m.Fits), m.Kind, listed(m.Fits))
	case m.Near != "":
		return say.Of("bench.there-is-no-did-you-mean", m.Kind, say.Quoted(m.Word), say.Quoted(m.Near))
	case len(m.All) == 0:
		return say.Of("bench.there-is-no-there-are-none-yet", m.Kind, say.Quoted(m.Word))
	}
	return say.Of("bench.there-is-no-there-are", m.Kind, say.Quoted(m.Word), listed(m.All))
}

func listed(all []Named) string {
	const most = 24
	var b strings.Builder
	for i, n := range all {
		if i == most {
			fmt.Fprint(&b, say.Of("bench.and-more", len(all)-most))
			break
		}
		b.WriteString("\n    " + n.String())
	}
	return b.String()
}

// Pick finds the one that a word names: by its short name, by its whole name,
// or by any part of either that no other has. Capitals, spaces and hyphens do
// not matter, nor does the order of several words.
func Pick(kind, word string, from []Named) (int, error) {
	best, fits := 0, []int(nil)
	for i, n := range from {
		switch s := n.Fit(word); {
		case s == 0 || s < best:
		case s > best:
			best, fits = s, []int{i}
		case from[fits[0]].ID != n.ID: // a name given twice is one name
			fits = append(fits, i)
		}
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	m := &missed{Kind: kind, Word: word, All: from}
	for _, i := range fits {
		m.Fits = append(m.Fits, from[i])
	}
	if len(fits) == 0 {
		m.Near = near(word, from)
	}
	return -1, m
}

// Fit says how well a word names it: 0 not at all, 1 as a part that runs over
// the space between words, 2 as a part, 3 as the whole apart from capitals and
// separators, 4 to the letter.
func (n Named) Fit(word string) int {
	plain := meant.Plain(word)
	switch id, words := meant.Plain(n.ID), meant.Plain(n.Words); {
	case plain == "":
		return 0
	case n.ID == word:
		return 4
	case id == plain || words == plain:
		return 3
	case n.hasWords(word):
		return 2
	case strings.Contains(id, plain) || strings.Contains(words, plain):
		return 1
	}
	return 0
}

// hasWords reports whether each of the words is a part of a word of its name.
func (n Named) hasWords(words string) bool {
	own := split(n.ID + " " + n.Words)
	for _, w := range split(words) {
		if !slices.ContainsFunc(own, func(o string) bool { return strings.Contains(o, w) }) {
			return false
		}
	}
	return true
}

// split parts a name at what [meant.Plain] drops.
func split(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '_' })
}

// near is the name that a word was probably meant to be: short names and whole names
// first, for a step called collar is rather meant than one with a collar in it; then the
// single words of those, then all that was said, word by word.
func near(word string, from []Named) string {
	guess := meant.For(word)
	for _, n := range from {
		guess.TryAs(n.ID, n.ID)
		guess.TryAs(n.Words, n.ID)
	}
	for _, n := range from {
		for _, w := range n.longWords() {
			guess.TryAs(w, n.ID)
		}
	}
	if best := guess.Best(); best != "" {
		return best
	}
	return nearAll(split(word), from)
}

// longWords are the words of a name that are long enough to be mistyped for each other.
func (n Named) longWords() []string {
	return slices.DeleteFunc(strings.Fields(n.Words), func(w string) bool { return utf8.RuneCountInString(w) <= 3 })
}

// nearAll is the one name that has, or nearly has, each of several words; "" where none
// or several have.
func nearAll(said []string, from []Named) (found string) {
	if len(said) < 2 {
		return ""
	}
	for _, n := range from {
		has := true
		for _, w := range said {
			guess := meant.For(w)
			guess.Try(n.longWords()...)
			has = has && (n.hasWords(w) || guess.Best() != "")
		}
		switch {
		case has && found != "":
			return ""
		case has:
			found = n.ID
		}
	}
	return found
}
