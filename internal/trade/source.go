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

// Sureness grades a source.
type Sureness string

// The grades of a source, surest first. What is from memory is shown as common
// practice: see [Source.Shown].
const (
	Read     Sureness = "read"            // the text, or a public copy of it, was read
	Derived  Sureness = "derived"         // arithmetic from other values
	Memory   Sureness = "from memory"     // believed to be in the work named, not read
	Practice Sureness = "common practice" // what the trade does; no publication
	Own      Sureness = "our own"         // our wording or drawing choice, not a fact of the trade
	Unsaid   Sureness = ""                // no source given
)

// sure grades the source by its opening words. A source that mixes grades
// ("Coats guide; split from memory") is only as sure as its weakest part.
func (s Source) sure() Sureness {
	t := strings.ToLower(strings.TrimSpace(string(s)))
	switch {
	case t == "":
		return Unsaid
	case strings.HasPrefix(t, "our own"):
		return Own
	case strings.Contains(t, "from memory"):
		return Memory
	case strings.Contains(t, "common practice"):
		return Practice
	case strings.HasPrefix(t, "derived"):
		return Derived
	default:
		return Read
	}
}

// remembered are the words by which a source says that nobody looked it up.
var remembered = regexp.MustCompile(`\s*\(from memory[^()]*\)|from memory \([^()]*\)|from memory`)

// Shown is the source as readers see it: what nobody looked up is common
// practice to them, and the work it is believed to stand in is not named.
func (s Source) Shown() string {
	if s.sure() != Memory {
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
		return " (" + string(Practice) + ")"
	}
	return string(Practice)
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
	British  Use = "british"
	American Use = "american"
)

// An Also is another word for the same thing.
type Also struct {
	Term string `yaml:"term"`
	Use  Use    `yaml:"use,omitempty"`
}
