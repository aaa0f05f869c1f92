package record

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// nearest finds the known word that a mistyped one was probably meant to be.
func nearest(word string, known []string) (string, bool) {
	plain := plainWord(word)
	best, least := "", 1+max(1, (len([]rune(plain))+1)/3)
	for _, k := range known {
		p := plainWord(k)
		if p == plain {
			return k, true
		}
		if dist := slips(plain, p); dist < least {
			best, least = k, dist
		}
	}
	if best != "" {
		return best, true
	}
	return nearestStart(plain, known)
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

// nearestStart accepts a word cut short, or one that goes on, where only one fits.
func nearestStart(plain string, known []string) (string, bool) {
	best := ""
	for _, k := range known {
		p := plainWord(k)
		if len(plain) < 3 || len(p) < 3 || !strings.HasPrefix(p, plain) && !strings.HasPrefix(plain, p) {
			continue
		}
		if best != "" {
			return "", false
		}
		best = k
	}
	return best, best != ""
}

// plainWord drops what typing varies: case, spaces, hyphens and underscores.
func plainWord(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' {
			return -1
		}
		return r
	}, strings.ToLower(s))
}

// meant answers an unknown word: with the nearest known one, else with all of them.
func meant(word string, known []string, otherwise string) string {
	if near, ok := nearest(word, known); ok {
		return "did you mean \"" + near + "\"?"
	}
	if len(known) == 0 || otherwise == "" {
		return ""
	}
	const most = 14
	if len(known) > most {
		return otherwise + strings.Join(known[:most], ", ") + " …"
	}
	and := "and"
	if strings.HasPrefix(otherwise, "one of") {
		and = "or"
	}
	return otherwise + listWords(known, and)
}
