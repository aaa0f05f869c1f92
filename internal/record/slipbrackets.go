package record

import (
	"hembook/internal/fault"
	"hembook/internal/say"
	"regexp"
	"slices"
	"strings"
)

// notClosed finds brackets and quotes that open on a line and do not close, the
// nearest before the line where the library stopped first.
func notClosed(lines []string, line int) []slip {
	var out []slip
	for l := len(lines); l >= 1; l-- {
		body, remark := cutRemark(lines[l-1])
		for _, now := range closed(body) {
			s := slipAt(l, say.Of("record.a-bracket-or-quote-opened-here-is"), "", swap{l, now + remark})
			switch closing, last := strings.CutPrefix(now, body); {
			case !last:
				s.hint = say.Of("record.write", strings.TrimSpace(now))
			case remark != "":
				s.hint = say.Of("record.add-before-the-note", closing)
			default:
				s.hint = say.Of("record.add-at-the-end-of-this-line", closing)
			}
			if near := l <= line+1; near {
				out = append(out, s)
			}
		}
	}
	return out
}

// closed is a line with what it opens closed: behind the last entry that belongs to the
// bracket, and at its end.
func closed(l string) []string {
	var open []rune // what closes them, the innermost last
	var from []int
	quote := rune(0)
	for i, r := range l {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case r == '"':
			quote = r
		case r == '{', r == '[':
			open, from = append(open, map[rune]rune{'{': '}', '[': ']'}[r]), append(from, i)
		case r != '}' && r != ']':
		case len(open) > 0 && r == open[len(open)-1]:
			open, from = open[:len(open)-1], from[:len(from)-1]
		case len(open) > 1 && r == open[len(open)-2]:
			inner := string(open[len(open)-1])
			out := []string{}
			if m := nextWord.FindStringIndex(l[from[len(from)-1]:i]); m != nil && inner == "]" {
				at := from[len(from)-1] + m[0]
				out = append(out, l[:at]+inner+l[at:])
			}
			return append(out, l[:i]+inner+l[i:])
		}
	}
	closing := backwards(open)
	if quote != 0 {
		closing = string(quote) + closing
	}
	if closing == "" {
		return nil
	}
	out := []string{}
	if n := len(from); n > 0 && quote == 0 && open[n-1] == ']' {
		if m := nextWord.FindStringIndex(l[from[n-1]:]); m != nil {
			at := from[n-1] + m[0]
			out = append(out, l[:at]+"]"+l[at:]+backwards(open[:n-1]))
		}
	}
	return append(out, l+closing)
}

// nextWord is where a word with its value follows an entry of a list.
var nextWord = regexp.MustCompile(`,\s*[\pL][\pL\d -]*:\s`)

func backwards(signs []rune) string {
	signs = slices.Clone(signs)
	slices.Reverse(signs)
	return string(signs)
}

// noComma is where a word with its value follows a value without a comma.
var noComma = regexp.MustCompile(`[^\s,:{\[(] +([\pL][\pL\d-]*): `)

// commaForgotten finds words in braces that have no comma before them.
func commaForgotten(l string, line int) []slip {
	brace := strings.IndexByte(l, '{')
	if brace < 0 {
		return nil
	}
	var out []slip
	for at := brace; ; {
		m := noComma.FindStringSubmatchIndex(l[at:])
		if m == nil {
			return out
		}
		word := l[at+m[2] : at+m[3]]
		before := strings.TrimRight(l[:at+m[2]], " ")
		out = append(out, slipAt(line, say.Of("record.no-comma-before", word), say.Of("record.put-one-there", lastEntry(before), firstEntry(l[at+m[2]:])), swap{line, before + ", " + l[at+m[2]:]}))
		at += m[2]
	}
}

// lastEntry is the last entry of what stands before a place in braces.
func lastEntry(before string) string {
	return strings.TrimSpace(before[strings.LastIndexAny(before, ",{:")+1:])
}

// firstEntry is the first entry of what stands behind a place in braces.
func firstEntry(after string) string {
	end := strings.IndexAny(after, ",}")
	if end < 0 {
		end = len(after)
	}
	return fault.Shorten(strings.TrimSpace(after[:end]))
}

// wordAndValue is a word with its value, as in braces.
var wordAndValue = regexp.MustCompile(`^([\pL][\pL\d -]*): +\S`)

// bracesForgotten is a value of words with their values in braces, where it stands
// without them: behind a word that has a group as its value, or beginning with a kind of
// pleat. It is "" where it is nothing of the kind, as a sentence with a colon.
func bracesForgotten(word, value string) string {
	body, remark := cutRemark(value)
	if freeText(word) || strings.ContainsAny(body, `"'`) {
		return ""
	}
	first, more, several := strings.Cut(body, ",")
	m := wordAndValue.FindStringSubmatch(first)
	switch {
	case m != nil && (groupWord(word) || knownWord(m[1])):
	case m == nil && several && pleatKind.MatchString(first):
		if m := wordAndValue.FindStringSubmatch(strings.TrimSpace(more)); m == nil || !knownWord(m[1]) {
			return ""
		}
		body = say.Of("record.kind", body)
	default:
		return ""
	}
	return "{" + body + "}" + remark
}

// pleatKind are the kinds of pleats and tucks.
var pleatKind = regexp.MustCompile(`^(?:knife|box|inverted|(?:pin |growth )?tuck)$`)
