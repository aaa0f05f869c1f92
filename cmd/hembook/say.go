package main

import (
	"strings"

	"hembook/internal/meant"
)

func joinWords(words []string) string { return strings.Join(words, ", ") }

// containsFold reports whether part is in s, capitals and separators apart.
func containsFold(s, part string) bool {
	return part != "" && strings.Contains(meant.Plain(s), meant.Plain(part))
}
