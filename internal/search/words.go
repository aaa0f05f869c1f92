package search

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// The rules by which text becomes words. The theme's
// search-1-words.js has the same rules: whoever changes one changes both, and a test compares them.
//
//   - A run is letters, marks and digits with the joiners '’.,/⁄-‐‑ and the
//     soft hyphen inside it.
//   - A run is decomposed (NFKD), loses its marks, and becomes small letters.
//   - It falls into parts: numbers, which keep . and / between digits ("1.5",
//     "5/8"), and letters. An apostrophe joins; "'s" at the end is dropped.
//   - Parts that touch or are hyphenated are words by themselves and one word
//     together: "cross-cut" is cross, cut and crosscut; "15mm" is 15, mm, 15mm.
//     A number followed by a unit is joined the same way: "15 mm".
//   - A plural stands for its singular.

// A word is one word of a text.
type word struct {
	raw  string // as it is written, decomposed, in small letters
	term string // as the index knows it: its singular
}

// A compound is a word made of several words that stand together.
type compound struct {
	term        string
	first, last int // of the words that it is made of
}

// mostLetters bounds a word; what is longer is cut.
const mostLetters = 40

// units join with the number before them.
var units = map[string]bool{
	"mm": true, "cm": true, "m": true, "in": true, "inch": true, "yd": true, "yard": true, "ft": true,
	"g": true, "kg": true, "gsm": true, "oz": true, "min": true, "h": true,
}

// A reader turns texts into words and remembers the runs it has met.
type reader struct {
	words []word
	joins []compound
	known map[string][]token
}

// A token is a piece of a run.
type token struct {
	word
	number bool
	glued  bool // to the part before it
}

func newReader() *reader { return &reader{known: map[string][]token{}} }

// read splits a text. What it returns is good until the next call.
func (r *reader) read(text string) ([]word, []compound) {
	r.words, r.joins = r.words[:0], r.joins[:0]
	wasNumber := false
	for {
		run, rest := nextRun(text)
		if run == "" {
			return r.words, r.joins
		}
		text = rest
		wasNumber = r.addRun(r.parts(run), wasNumber)
	}
}

// parts are the parts of a run.
func (r *reader) parts(run string) []token {
	if p, ok := r.known[run]; ok {
		return p
	}
	p := splitRun(plainLetters(run))
	if len(r.known) > 200_000 {
		clear(r.known)
	}
	r.known[strings.Clone(run)] = p
	return p
}

// addRun adds the words of a run and what they make together, and says whether
// the last of them is a number.
func (r *reader) addRun(parts []token, wasNumber bool) bool {
	from := 0 // of the group of parts that are glued together
	for i, p := range parts {
		if !p.glued {
			from = i
		}
		r.words = append(r.words, p.word)
		n := len(r.words)
		ends := i+1 == len(parts) || !parts[i+1].glued
		if ends && i > from {
			r.joinParts(parts[from:i+1], n)
		} else if wasNumber && !p.number && units[p.term] && !p.glued {
			r.joins = append(r.joins, compound{r.words[n-2].term + p.term, n - 2, n - 1})
		}
		wasNumber = p.number
	}
	return wasNumber && len(parts) > 0
}

// joinParts adds the word that glued parts make; n is how many words there are
// with the last of them. Numbers alone make none: "10-12" is a span.
func (r *reader) joinParts(parts []token, n int) {
	var b strings.Builder
	numbers := true
	for _, p := range parts {
		b.WriteString(p.raw)
		numbers = numbers && p.number
	}
	if !numbers {
		r.joins = append(r.joins, compound{singular(shorten(b.String())), n - len(parts), n - 1})
	}
}

// nextRun finds the first run of a text and what follows it.
func nextRun(text string) (run, rest string) {
	from := -1
	for i, c := range text {
		switch in := inRun(c); {
		case from < 0 && in && !joiner(c):
			from = i
		case from >= 0 && !in:
			return text[from:i], text[i:]
		}
	}
	if from < 0 {
		return "", ""
	}
	return text[from:], ""
}

func inRun(c rune) bool {
	if c < utf8.RuneSelf {
		return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || joiner(c)
	}
	return unicode.IsLetter(c) || unicode.IsMark(c) || unicode.IsNumber(c) || joiner(c)
}

func joiner(c rune) bool {
	switch c {
	case '\'', '.', ',', '/', '-', '’', '⁄', '‐', '‑', '\u00ad':
		return true
	}
	return false
}

// replaced are letters that do not decompose but are looked for without their
// strokes, and other ways of writing a joiner.
var replaced = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "đ", "d", "ð", "d", "ł", "l",
	"þ", "th", "ı", "i", "ς", "σ", "’", "'", "⁄", "/", "‐", "-", "‑", "-", "\u00ad", "")

// plainLetters takes marks and capitals off a run.
func plainLetters(run string) string {
	ascii := true
	for i := 0; i < len(run); i++ {
		ascii = ascii && run[i] < utf8.RuneSelf
	}
	if ascii {
		return strings.ToLower(run)
	}
	var b strings.Builder
	digit := false
	for _, c := range run {
		if digit && vulgar(c) {
			b.WriteByte('-') // "1½" is 1 and 1/2, not 11/2
		}
		digit = c >= '0' && c <= '9'
		b.WriteRune(c)
	}
	plain := strings.Map(func(c rune) rune {
		if unicode.IsMark(c) {
			return -1
		}
		return unicode.ToLower(c)
	}, norm.NFKD.String(b.String()))
	return replaced.Replace(plain)
}

func vulgar(c rune) bool { return c >= '¼' && c <= '¾' || c >= '⅐' && c <= '⅞' }

// splitRun cuts a plain run into parts.
func splitRun(run string) []token {
	var parts []token
	glue := false
	for i := 0; i < len(run); {
		c, size := utf8.DecodeRuneInString(run[i:])
		switch {
		case c >= '0' && c <= '9':
			end := numberEnd(run, i)
			n := number(run[i:end])
			parts, glue, i = append(parts, token{word{n, n}, true, glue && len(parts) > 0}), true, end
		case unicode.IsLetter(c) || unicode.IsNumber(c):
			end := lettersEnd(run, i)
			if raw := letters(run[i:end]); raw != "" {
				parts, glue = append(parts, token{word{raw, singular(raw)}, false, glue && len(parts) > 0}), true
			}
			i = end
		default:
			glue = glue && c == '-' && len(parts) > 0
			i += size
		}
	}
	return parts
}

// numberEnd is where the number that begins at i ends.
func numberEnd(run string, i int) int {
	for i < len(run) {
		c := run[i]
		between := (c == '.' || c == ',' || c == '/') && i+1 < len(run) && run[i+1] >= '0' && run[i+1] <= '9'
		if !between && (c < '0' || c > '9') {
			break
		}
		i++
	}
	return i
}

// number writes a number one way: a comma before three digits parts thousands,
// any other is a decimal point.
func number(n string) string {
	for {
		i := strings.IndexByte(n, ',')
		if i < 0 {
			return shorten(n)
		}
		end := i + 1
		for end < len(n) && n[end] >= '0' && n[end] <= '9' {
			end++
		}
		if end-i == 4 {
			n = n[:i] + n[i+1:]
		} else {
			n = n[:i] + "." + n[i+1:]
		}
	}
}

// lettersEnd is where the letters that begin at i end; apostrophes are within.
func lettersEnd(run string, i int) int {
	for i < len(run) {
		c, size := utf8.DecodeRuneInString(run[i:])
		if c != '\'' && (c >= '0' && c <= '9' || !unicode.IsLetter(c) && !unicode.IsNumber(c)) {
			break
		}
		i += size
	}
	return i
}

func letters(s string) string {
	s = strings.TrimRight(s, "'")
	s = strings.TrimSuffix(s, "'s")
	return shorten(strings.ReplaceAll(s, "'", ""))
}

// shorten cuts what is longer than any word.
func shorten(s string) string {
	if len(s) <= mostLetters {
		return s
	}
	n := 0
	for i := range s {
		if n == mostLetters {
			return s[:i]
		}
		n++
	}
	return s
}

// irregular are plurals of the workroom that no rule finds.
var irregular = map[string]string{
	"halves": "half", "scarves": "scarf", "knives": "knife", "calves": "calf", "selves": "self",
	"feet": "foot", "teeth": "tooth", "men": "man", "women": "woman", "children": "child",
	"canvases": "canva", "biases": "bia",
}

// singular takes the plural off a word, lightly: after the S-stemmer of
// D. Harman, "How effective is suffixing?", JASIS 42 (1991), with the endings
// -ches, -shes, -sses, -xes and -zzes added. What it makes need not be a word:
// it is the same on both sides, and that is all a search needs. So it may take more off than
// words.Stem, which compares names with words as they are written: "bodies" is "body" here.
func singular(w string) string {
	if s, ok := irregular[w]; ok {
		return s
	}
	n := utf8.RuneCountInString(w)
	switch {
	case n <= 3 || strings.ContainsAny(w, "0123456789"):
		return w
	case n > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case n > 4 && strings.HasSuffix(w, "ie"):
		return w[:len(w)-2] + "y"
	case !strings.HasSuffix(w, "s"), hasAny(w, "ss", "us", "is"):
		return w
	case hasAny(w, "sses", "xes", "zzes", "ches", "shes"):
		return w[:len(w)-2]
	}
	return w[:len(w)-1]
}

func hasAny(w string, endings ...string) bool {
	for _, e := range endings {
		if strings.HasSuffix(w, e) {
			return true
		}
	}
	return false
}
