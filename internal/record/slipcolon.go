package record

import (
	"regexp"
	"strings"
	"unicode"

	"hembook/internal/say"
)

// entryBegins is where a word with its value begins within braces.
var entryBegins = regexp.MustCompile(`[{,]\s*([\pL][\pL\d-]*): +`)

// innerColon is a word that a colon follows within a value.
var innerColon = regexp.MustCompile(`([^\s,:]+):(?: |$)`)

// colonInBraces finds words of a note within braces that have a colon among them, which
// would begin a group there: quotes keep them together.
func colonInBraces(l string, line int) []slip {
	now, first, said := l, 0, ""
	for at := 0; ; {
		m := entryBegins.FindStringSubmatchIndex(now[at:])
		if m == nil {
			break
		}
		from := at + m[1]
		free := freeText(now[at+m[2] : at+m[3]])
		value, end := noteIn(now, from, free)
		at = max(end, from)
		if !hasColon(value, free) {
			continue
		}
		word := now[:from][strings.LastIndexAny(now[:from], "{,")+1:]
		if said == "" {
			first, said = from-len(strings.TrimLeft(word, " ")), strings.TrimLeft(word, " ")+quoted(value)
		}
		rest := now[end:]
		now = now[:from] + quoted(value)
		at = len(now)
		now += rest
	}
	if said == "" {
		return nil
	}
	s := slipAt(line, say.Of("record.a-colon-inside-the-words"), say.Of("record.put-quotes-round-them-2", said), swap{line, now})
	s.column = len([]rune(l[:first])) + 1
	return []slip{s}
}

// hasColon reports whether a value has a colon in it, as no word of a record has that
// only lacks its comma. Within a note, words go on after it: "mind the hem: it frays".
func hasColon(value string, note bool) bool {
	m := innerColon.FindStringSubmatchIndex(value)
	if m == nil {
		return false
	}
	goesOn := strings.IndexFunc(strings.TrimSpace(value[m[1]:]), unicode.IsLetter) == 0
	return !knownWord(value[m[2]:m[3]]) || note && goesOn
}

// noteIn is the value that begins at a place within braces, with where it ends: of a
// note before the next word of the record, of others at the next comma, of both where
// the braces close. It is "" where it is quoted, or a group.
func noteIn(l string, from int, free bool) (value string, end int) {
	if from >= len(l) || strings.ContainsAny(l[from:from+1], `"'{[|>&*`) {
		return "", from
	}
	depth := 0
	for end = from; end < len(l); end++ {
		switch c := l[end]; {
		case c == '{' || c == '[':
			depth++
			continue
		case (c == '}' || c == ']') && depth > 0:
			depth--
			continue
		case c == ',' && free:
			m := wordAndValue.FindStringSubmatch(strings.TrimLeft(l[end+1:], " "))
			if m == nil || !knownWord(m[1]) {
				continue
			}
		case c != ',' && c != '}' && c != ']':
			continue
		}
		break
	}
	return strings.TrimSpace(l[from:end]), end
}
