// Package meant finds which known word a mistyped one was probably meant to be,
// and says so: one way for records, tables, commands and the bench.
package meant

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// longest is how many letters of a word are looked at; nobody means so long a
// word, and comparing it would take its time.
const longest = 80

// mostSlips is how many slips a word of so many letters may have to be taken for
// another: one for each three letters, but no more than three, for with more
// another word is as likely; only of long ones, as names with dots, one for each five.
func mostSlips(letters int) int { return max(1, min((letters+1)/3, 3), letters/5) }

// A Guess looks for what one word was meant to be, among names tried one by one.
type Guess struct {
	plain   string
	letters int
	slips   int    // of the best so far
	best    string // what it means
	near    string // how it is written, plainly
	begins  string // what the one name means that the word begins, or that begins the word
	several bool   // there are more of those
}

// For begins to guess what a word was meant to be.
func For(word string) *Guess {
	g := &Guess{plain: Plain(word)}
	g.letters = utf8.RuneCountInString(g.plain)
	g.slips = mostSlips(g.letters) + 1
	if g.letters > longest {
		g.letters, g.slips = 0, 0
	}
	return g
}

// Try offers known names.
func (g *Guess) Try(names ...string) {
	for _, n := range names {
		g.TryAs(n, n)
	}
}

// TryAs offers a name that means another: "zipper" may mean "zip".
func (g *Guess) TryAs(name, means string) {
	p := Plain(name)
	letters := utf8.RuneCountInString(p)
	if g.letters == 0 || letters == 0 {
		return
	}
	g.begun(p, letters, means)
	apart := g.letters - letters
	if apart > g.slips || -apart > g.slips {
		return
	}
	d := slips(g.plain, p)
	if 2*d > max(g.letters, letters) { // the half of it must be right
		return
	}
	if d < g.slips || d == g.slips && g.best != "" && g.unlike(p) < g.unlike(g.near) {
		g.best, g.near, g.slips = means, p, d
	}
}

// unlike says how little a name looks like the word, of names with as many slips:
// by its first letter, and by whether its letters are those of the word.
func (g *Guess) unlike(p string) int {
	n := 0
	if !alikeAtFirst(g.plain, p) {
		n += 2
	}
	if !sameLetters(g.plain, p) {
		n++
	}
	return n
}

// begun notes a name that the word begins, or that begins the word and is half of
// it or more.
func (g *Guess) begun(p string, letters int, means string) {
	cut := strings.HasPrefix(p, g.plain)
	more := strings.HasPrefix(g.plain, p) && 2*letters >= g.letters
	if g.letters < 3 || letters < 3 || !cut && !more {
		return
	}
	g.several = g.several || g.begins != "" && g.begins != means
	g.begins = means
}

// Best is the name with the fewest slips, and of equals one that begins with the
// same letter and has the same letters; else the only one that the word begins, or that begins
// the word. It is empty where none is near.
func (g *Guess) Best() string {
	switch {
	case g.best != "":
		return g.best
	case g.several:
		return ""
	}
	return g.begins
}

// Hint asks whether the best was meant; it is empty where none is near.
func (g *Guess) Hint() string {
	return Ask(g.Best())
}

// Ask asks whether a name was meant; it is empty of no name.
func Ask(name string) string {
	if name == "" {
		return ""
	}
	return "did you mean \"" + name + "\"?"
}

// Nearest is the known name that a word was probably meant to be; empty where
// none is near.
func Nearest(word string, known []string) string { return among(word, known).Best() }

// Hint asks whether the nearest known name was meant; it is empty where none is
// near.
func Hint(word string, known []string) string { return among(word, known).Hint() }

// Or asks whether the nearest known name was meant; where none is near it says
// something else.
func Or(word string, known []string, otherwise string) string {
	if h := Hint(word, known); h != "" {
		return h
	}
	return otherwise
}

func among(word string, known []string) *Guess {
	g := For(word)
	g.Try(known...)
	return g
}

// slips counts the slips between two words: letters dropped, added or
// replaced, and two neighbours swapped.
func slips(a, b string) int {
	d := levenshtein.ComputeDistance(a, b)
	if d != 2 || len(a) != len(b) {
		return d
	}
	for i := 0; i+1 < len(a); i++ {
		if a[i] != b[i] {
			if a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:] {
				return 1
			}
			return d
		}
	}
	return d
}

// sameLetters reports whether two words differ by the order of their letters alone.
func sameLetters(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	x, y := []byte(a), []byte(b)
	slices.Sort(x)
	slices.Sort(y)
	return string(x) == string(y)
}

func alikeAtFirst(a, b string) bool {
	x, _ := utf8.DecodeRuneInString(a)
	y, _ := utf8.DecodeRuneInString(b)
	return x == y
}

// Plain drops what typing varies: capitals, spaces, hyphens and underscores.
func Plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// Among asks whether the nearest known name was meant; where none is near it
// lists those there are after the words that begin the list, as "there are: ".
// It is empty where there are none.
func Among(word string, known []string, begins string) string {
	if h := Hint(word, known); h != "" || len(known) == 0 {
		return h
	}
	const most = 14
	if len(known) > most {
		return begins + strings.Join(known[:most], ", ") + " …"
	}
	and := "and"
	if strings.HasPrefix(begins, "one of") {
		and = "or"
	}
	return begins + List(known, and)
}

// List writes names as a sentence does: a, b and c.
func List(names []string, and string) string {
	switch len(names) {
	case 0:
		return "nothing"
	case 1:
		return names[0]
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + and + " " + names[last]
}
