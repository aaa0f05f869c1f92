// Package words writes names, counts and lengths the way messages and IDs want
// them.
package words

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/measure"
)

// Count writes how many there are of something: "1 edge", "4 edges".
func Count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

var ordinals = [...]string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"}

// Fitting names a fitting by its number from 1: "second fitting", "12th fitting".
func Fitting(n int) string {
	if 0 < n && n < len(ordinals) {
		return ordinals[n] + " fitting"
	}
	end := "th"
	if n/10%10 != 1 && n > 0 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return strconv.Itoa(n) + end + " fitting"
}

// AppendNumber writes v with up to so many decimals, as package measure does.
func AppendNumber(dst []byte, v float64, decimals int) []byte {
	return append(dst, measure.Style{}.Number(v, decimals)...)
}

// Number writes v with up to three decimals.
func Number(v float64) string { return string(AppendNumber(nil, v, 3)) }

// Plain writes a name without hyphens and capitals.
func Plain(s string) string { return strings.ReplaceAll(strings.ToLower(s), "-", " ") }

// AnyOf reports whether a word of a name, as it is or cut to its stem, is one of the
// list, or all of the name is.
func AnyOf(name string, list []string) bool {
	name = Plain(name)
	if slices.Contains(list, name) {
		return true
	}
	for word := range strings.FieldsSeq(name) {
		if slices.Contains(list, Stem(word)) || slices.Contains(list, word) {
			return true
		}
	}
	return false
}

// Stem makes names comparable: small letters, no hyphens, no plural s. It is the one way
// in which names of things are compared. What is done has other endings (record.verbStem),
// and the search, which never shows a stem, goes further (search.singular).
func Stem(s string) string {
	s = Plain(strings.TrimSpace(s))
	for _, es := range [...]string{"sses", "xes", "ches", "shes"} {
		if strings.HasSuffix(s, es) {
			return s[:len(s)-2]
		}
	}
	if len(s) > 3 && s[len(s)-1] == 's' && s[len(s)-2] != 's' {
		return s[:len(s)-1]
	}
	return s
}
