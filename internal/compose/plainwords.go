package compose

import "strings"

var markdownSigns = strings.NewReplacer("**", "", "*", "", "`", "")

// PlainWords takes the signs of Markdown out of the maker's words, for what is set
// without them.
func PlainWords(s string) string {
	s = markdownSigns.Replace(s)
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
