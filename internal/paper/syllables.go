package paper

import (
	"strings"
	"unicode"
)

// Letters that a word keeps on either side of a hyphen.
const fewestBefore, fewestAfter = 3, 3

// unparted are consonants that begin a syllable together: those written for one sound, and
// those before l and r. The longer come first.
var unparted = []string{"schl", "schr", "schw", "sch", "ch", "ck", "gh", "gn", "ph", "qu", "rh", "sh", "th", "bl", "br", "cl", "cr", "dr", "fl", "fr", "gl", "gr", "kl", "kn", "kr", "pf", "pl", "pr", "tr", "vr", "wr"}

// syllables are the places in a word where a hyphen may part it, as counts of letters. A
// syllable takes the last consonant before its vowel with it, or those that are not parted;
// st goes with it behind another consonant. That is how German, Dutch, French, Italian and
// Spanish part simple words; a compound is nearly always parted so too. Common practice, no
// source. Nothing is said of what is no word of letters: a hyphen in an address would be
// typed.
func syllables(word string) (out []int) {
	letters := []rune(strings.ToLower(word))
	from, to := wordWithin(letters)
	for vowel := nextVowel(letters, from, to); vowel >= 0; {
		after := vowel
		for after < to && isVowel(letters[after]) {
			after++
		}
		next := nextVowel(letters, after, to)
		if next < 0 {
			break
		}
		at := next - onset(letters[after:next])
		if at-from >= fewestBefore && to-at >= fewestAfter {
			out = append(out, at)
		}
		vowel = next
	}
	return out
}

// wordWithin is where a word's letters begin and end, with the marks around it left out;
// nowhere where other signs stand within it.
func wordWithin(letters []rune) (from, to int) {
	from, to = 0, len(letters)
	for from < to && !unicode.IsLetter(letters[from]) {
		from++
	}
	for to > from && !unicode.IsLetter(letters[to-1]) {
		to--
	}
	for _, r := range letters[from:to] {
		if !unicode.Is(unicode.Latin, r) {
			return 0, 0
		}
	}
	return from, to
}

func nextVowel(letters []rune, from, to int) int {
	for i := from; i < to; i++ {
		if isVowel(letters[i]) {
			return i
		}
	}
	return -1
}

func isVowel(r rune) bool {
	return strings.ContainsRune("aeiouyäöüàâáèéêëíìîïóòôúùûœæ", r)
}

// onset is how many of the consonants between two vowels go with the second.
func onset(between []rune) int {
	s := string(between)
	for _, u := range unparted {
		if strings.HasSuffix(s, u) {
			return len([]rune(u))
		}
	}
	if len(between) > 2 && strings.HasSuffix(s, "st") {
		return 2
	}
	return min(1, len(between))
}
