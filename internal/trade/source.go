package trade

import (
	"regexp"
	"slices"
	"strings"
)

// A Source says where a value comes from, in words fit to print. How sure it
// is follows from how it begins: "common practice", "from memory", "derived"
// or "design" mark values nobody read in a publication; anything else is the
// title of something that was read.
type Source string

// sureness grades a source.
type sureness string

// The grades of a source, surest first. What is from memory is shown as common
// practice: see [Source.Shown].
const (
	sureRead     sureness = "read"            // the text, or a public copy of it, was read
	sureDerived  sureness = "derived"         // arithmetic from other values
	sureMemory   sureness = "from memory"     // believed to be in the work named, not read
	surePractice sureness = "common practice" // what the trade does; no publication
	sureOwn      sureness = "our own"         // our wording or drawing choice, not a fact of the trade
	sureUnsaid   sureness = ""                // no source given
)

// sure grades the source by its opening words. A source that mixes grades
// ("Coats guide; split from memory") is only as sure as its weakest part.
func (s Source) sure() sureness {
	t := strings.ToLower(strings.TrimSpace(string(s)))
	switch {
	case t == "":
		return sureUnsaid
	case strings.HasPrefix(t, "our own"):
		return sureOwn
	case strings.Contains(t, "from memory"):
		return sureMemory
	case strings.Contains(t, "common practice"):
		return surePractice
	case strings.HasPrefix(t, "derived"):
		return sureDerived
	default:
		return sureRead
	}
}

// remembered are the words by which a source says that nobody looked it up.
var remembered = regexp.MustCompile(`\s*\(from memory[^()]*\)|from memory \([^()]*\)|from memory`)

// Shown is the source as readers see it: what nobody looked up is common
// practice to them, and the work it is believed to stand in is not named.
func (s Source) Shown() string {
	if s.sure() != sureMemory {
		return string(s)
	}
	var parts []string
	for _, part := range strings.Split(remembered.ReplaceAllStringFunc(string(s), asPractice), "; ") {
		if !slices.Contains(parts, part) {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, "; ")
}

func asPractice(said string) string {
	if strings.TrimLeft(said, " ") != said || said[0] == '(' {
		return " (" + string(surePractice) + ")"
	}
	return string(surePractice)
}

// A Sourced value is a number with where it comes from.
type Sourced struct {
	Value  float64 `yaml:"value"`
	Source Source  `yaml:"source"`
}

// Use says on which side of the ocean a word is at home.
type Use string

// Where a word is used; empty where it is used everywhere.
const (
	british  Use = "british"
	american Use = "american"
)

// An Also is another word for the same thing.
type Also struct {
	Term string `yaml:"term"`
	Use  Use    `yaml:"use,omitempty"`
}
