package record

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// nearest finds the known word that a mistyped one was probably meant to be.
func nearest(word string, known []string) (string, bool) {
	plain := plainWord(word)
	best, least := "", 1+max(1, len([]rune(plain))/3)
	for _, k := range known {
		p := plainWord(k)
		if p == plain {
			return k, true
		}
		if dist := levenshtein.ComputeDistance(plain, p); dist < least {
			best, least = k, dist
		}
	}
	if best != "" {
		return best, true
	}
	return nearestStart(plain, known)
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
