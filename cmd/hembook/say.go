package main

import (
	"strings"
	"unicode"
)

func joinWords(words []string) string { return strings.Join(words, ", ") }

// containsFold reports whether part is in s, capitals and separators apart.
func containsFold(s, part string) bool {
	return part != "" && strings.Contains(plainName(s), plainName(part))
}

func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}
