package sheet

import "strings"

// plainWords takes the signs of Markdown out of the maker's words: a sheet is
// set without them.
func plainWords(s string) string {
	s = strings.NewReplacer("**", "", "*", "", "`", "").Replace(s)
	var out strings.Builder
	for {
		head, rest, found := strings.Cut(s, "[")
		text, tail, closed := strings.Cut(rest, "](")
		_, after, ended := strings.Cut(tail, ")")
		if !found || !closed || !ended || strings.ContainsAny(text, "[\n") {
			out.WriteString(s)
			return strings.Join(strings.Fields(out.String()), " ")
		}
		out.WriteString(head + text)
		s = after
	}
}

// stopped ends a text with a full stop.
func stopped(s string) string {
	s = strings.TrimSpace(s)
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}
