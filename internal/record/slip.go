package record

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A slip is what is wrong in the writing of some lines: what, how to put it right, and
// what to write in place of which lines.
type slip struct {
	line       int // from 1
	column     int // where it stands on its line, from 1; 0 where the line begins
	what, hint string
	swaps      []swap
	beside     int // the line that the words speak of as %d; 0 where they speak of none
}

// A swap is one line as it is meant.
type swap struct {
	line int // from 1
	now  string
}

// A section is the lines of one word of the record with what belongs to it; the words
// of a record can be read each by itself.
type section struct {
	first int // line, from 1
	lines []string
}

// mostTried bounds the text in which ways to put a slip right are tried one by one.
const mostTried = 64 << 10

// syntaxFaults says what is wrong in the writing of a text that the YAML library does
// not read: in each part of it that does not read by itself, or else where the library
// stopped.
func syntaxFaults(src *fault.Source, text []byte, shift int32, err error) []fault.Fault {
	lines := strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n")
	var out []fault.Fault
	parts := sections(lines)
	for i, part := range parts {
		if len(text) > mostTried || part.read(text) == nil {
			continue
		}
		s, left := part.outOfGroup(parts[:i], text)
		if !left {
			s = part.slip(text)
		}
		out = append(out, s.fault(src, lines, shift))
	}
	if out == nil {
		line, msg := lineOf(err, len(lines))
		s := guessed(lines, line, msg)
		out = append(out, s.fault(src, lines, shift))
	}
	return out
}

func (s *slip) fault(src *fault.Source, lines []string, shift int32) fault.Fault {
	here := lines[s.line-1]
	if s.beside > 0 {
		s.hint = fmt.Sprintf(s.hint, s.beside+int(shift))
	}
	column := s.column
	if column == 0 {
		column = indentOf(here) + 1
	}
	f := fault.Wrong(fault.Pos{Source: src, Line: int32(s.line) + shift, Column: int32(column)}, s.hint, s.what)
	for _, each := range s.swaps {
		f.InsteadAt(fault.Pos{Source: src, Line: int32(each.line) + shift, Column: 1}, lines[each.line-1], each.now)
	}
	return f
}

// sections cuts a text before each line that begins with a word at its very left.
func sections(lines []string) []section {
	var out []section
	for i, l := range lines {
		begins := l != "" && !strings.ContainsAny(l[:1], " \t#-]})")
		if begins || out == nil {
			out = append(out, section{first: i + 1})
		}
		last := &out[len(out)-1]
		last.lines = append(last.lines, l)
	}
	return out
}

// errNoWord is why a part does not read that YAML reads.
type errNoWord struct{}

func (errNoWord) Error() string { return say.Of("record.line-1-no-word-stands-here") }

// read reads a part by itself; a mark that stands elsewhere in the text is well.
func (p section) read(text []byte) error {
	var doc yaml.Node
	switch err := yaml.Unmarshal([]byte(strings.Join(p.lines, "\n")), &doc); {
	case err != nil && strings.Contains(err.Error(), "unknown anchor"):
		if name := anchorOf(err.Error()); strings.Contains(string(text), "&"+name) {
			return nil
		}
		return err
	case err != nil:
		return err
	case len(doc.Content) > 0 && doc.Content[0].Kind != yaml.MappingNode:
		return errNoWord{}
	}
	return nil
}

// with is the part with other lines in it, counted in it.
func (p section) with(swaps []swap) section {
	out := section{p.first, append([]string(nil), p.lines...)}
	for _, s := range swaps {
		out.lines[s.line-1] = s.now
	}
	return out
}

// slip finds what is wrong in a part that does not read: the first of the slips it
// could be that reads once it is put right; else what it looks like.
func (p section) slip(text []byte) slip {
	line, msg := lineOf(p.read(text), len(p.lines))
	var further slip // one that lets the library read on, of several
	for _, s := range p.likely(line, msg) {
		switch err := p.with(s.swaps).read(text); {
		case err == nil:
			return s.from(p.first)
		case further.swaps == nil && s.line <= line+1:
			if next, _ := lineOf(err, len(p.lines)); next > max(line, s.line) {
				further = s
			}
		}
	}
	if further.swaps != nil {
		return further.from(p.first)
	}
	return guessed(p.lines, line, msg).from(p.first)
}

// from is a slip of a part that begins at a line.
func (s slip) from(first int) slip {
	s.line += first - 1
	if s.beside > 0 {
		s.beside += first - 1
	}
	for i := range s.swaps {
		s.swaps[i].line += first - 1
	}
	return s
}

// likely lists what may be wrong, the likeliest first, with lines of the part.
func (p section) likely(line int, msg string) []slip {
	var out []slip
	out = append(out, tabs(p.lines)...)
	for i, l := range p.lines {
		out = append(out, quotesIn(l, i+1)...)
	}
	out = append(out, notClosed(p.lines, line)...)
	for i, l := range p.lines {
		out = append(out, colonInBraces(l, i+1)...)
		out = append(out, commaForgotten(l, i+1)...)
		out = append(out, dashTight(l, i+1)...)
	}
	out = append(out, misfits(p.lines)...)
	for i, l := range p.lines {
		if s, ok := colonForgotten(l, i+1); ok {
			out = append(out, s)
		}
	}
	if s := guessed(p.lines, line, msg); len(s.swaps) > 0 {
		out = append(out, s)
	}
	const most = 60
	return out[:min(len(out), most)]
}

var lineOfError = regexp.MustCompile(`line (\d+): `)

// lineOf takes the line out of the library's message.
func lineOf(err error, most int) (line int, msg string) {
	msg = strings.TrimPrefix(err.Error(), "yaml: ")
	line = 1
	if m := lineOfError.FindStringSubmatchIndex(msg); m != nil {
		line, _ = strconv.Atoi(msg[m[2]:m[3]])
		msg = msg[m[1]:]
	}
	return min(max(line, 1), most), msg
}

// anchorOf is the name in "unknown anchor 'name' referenced".
func anchorOf(msg string) string {
	if f := strings.Split(msg, "'"); len(f) > 1 {
		return f[1]
	}
	return "?"
}

func indentOf(l string) int { return len(l) - len(strings.TrimLeft(l, " ")) }

// tabs finds lines that begin with a tab.
func tabs(lines []string) []slip {
	var swaps []swap
	for i, l := range lines {
		body := strings.TrimLeft(l, " \t")
		if lead := l[:len(l)-len(body)]; body != "" && strings.Contains(lead, "\t") {
			swaps = append(swaps, swap{i + 1, strings.ReplaceAll(lead, "\t", "  ") + body})
		}
	}
	if swaps == nil {
		return nil
	}
	one := swaps[0]
	hint := say.Of("record.two-spaces-instead")
	out := []slip{}
	if depth := beside(lines, one.line); depth >= 0 && len(swaps) == 1 {
		out = append(out, slipAt(one.line, say.Of("record.a-tab-before-the-word"), say.Of("record.instead", spaces(depth)), swap{one.line, strings.Repeat(" ", depth) + strings.TrimLeft(lines[one.line-1], " \t")}))
	}
	return append(out, slipAt(one.line, say.Of("record.a-tab-before-the-word"), hint, swaps...))
}

// beside is how far the line above is indented, or the one below where that is more;
// -1 where there is none.
func beside(lines []string, line int) int {
	for i := line - 2; i >= 0; i-- {
		if strings.TrimSpace(lines[i]) != "" && !strings.HasPrefix(strings.TrimSpace(lines[i]), "#") {
			depth := indentOf(lines[i])
			if strings.HasSuffix(strings.TrimSpace(lines[i]), ":") {
				depth += 2
			}
			return depth
		}
	}
	return -1
}

func spaces(n int) string {
	switch n {
	case 0:
		return say.Of("record.no-space")
	case 1:
		return say.Of("record.one-space")
	case 2:
		return say.Of("record.two-spaces")
	}
	return say.Of("record.spaces", strconv.Itoa(n))
}

// afterColon cuts a line behind its first word, the colon and the space.
func afterColon(l string) (before, value string, ok bool) {
	at := strings.Index(l, ": ")
	if at < 0 {
		return "", "", false
	}
	rest := strings.TrimLeft(l[at+2:], " ")
	return l[:len(l)-len(rest)], rest, rest != ""
}

// quoted writes words between double quotes, as YAML reads them.
func quoted(words string) string { return strconv.Quote(strings.TrimSpace(words)) }

// quotesIn finds values that need quotes, or other ones.
func quotesIn(l string, line int) []slip {
	before, value, ok := afterColon(l)
	if !ok {
		if body := strings.TrimSpace(l); body != "" && strings.ContainsAny(body[:1], "*%@`") {
			return []slip{slipAt(line, say.Of("record.words-that-begin-with-need-quotes", body[:1]), quoted(body), swap{line, l[:indentOf(l)] + quoted(body)})}
		}
		return nil
	}
	word := strings.TrimLeft(before, " -")
	put := func(what, how, now string) []slip {
		return []slip{slipAt(line, what, how+word+now, swap{line, before + now})}
	}
	first := value[:1]
	switch {
	case strings.ContainsAny(first, "*%@`!&"):
		return put(say.Of("record.words-that-begin-with-need-quotes", first), "", quoted(value))
	case first == "'" && strings.Count(value, "'") > 2:
		return put(say.Of("record.an-apostrophe-within-single-quotes-ends"), say.Of("record.write-double-quotes-round-the-words"), quoted(strings.TrimSuffix(strings.TrimPrefix(value, "'"), "'")))
	case first == `"` && strings.Count(value, `"`) > 2 && strings.HasSuffix(value, `"`):
		return put(say.Of("record.quotes-within-double-quotes-end-them"), say.Of("record.write-single-quotes-within"), `"`+strings.ReplaceAll(value[1:len(value)-1], `"`, "'")+`"`)
	case first == `"` || first == "'" || strings.ContainsAny(first, "{["):
		return nil
	case bracesForgotten(strings.TrimSuffix(word, ": "), value) != "":
		return put(say.Of("record.several-words-with-their-values-stand"), say.Of("record.write-3"), bracesForgotten(strings.TrimSuffix(word, ": "), value))
	case strings.Contains(value, ": ") || strings.HasSuffix(value, ":"):
		return put(say.Of("record.a-colon-inside-the-words"), say.Of("record.put-quotes-round-them"), quoted(value))
	}
	return nil
}

// dashTight finds a dash without a space behind it.
func dashTight(l string, line int) []slip {
	body := strings.TrimLeft(l, " ")
	if len(body) < 2 || body[0] != '-' || strings.ContainsAny(body[1:2], " -.0123456789") {
		return nil
	}
	word, _, _ := strings.Cut(body[1:], ":")
	return []slip{slipAt(line, say.Of("record.no-space-after-the-dash"), say.Of("record.write-4", word), swap{line, l[:len(l)-len(body)] + "- " + body[1:]})}
}

// colonForgotten finds a line that has its word and its value, and not the colon and
// the space between them, or a word alone.
func colonForgotten(l string, line int) (slip, bool) {
	lead := l[:len(l)-len(strings.TrimLeft(l, " -"))]
	body, remark := cutRemark(strings.TrimLeft(l, " -"))
	if body == "" || strings.HasPrefix(body, "#") {
		return slip{}, false
	}
	at := strings.IndexAny(body, ":= ")
	if at < 0 {
		return slipAt(line, say.Of("record.no-colon-after", body), say.Of("record.write-5", body), swap{line, lead + body + ":" + remark}), true
	}
	if at == 0 || at == len(body)-1 {
		return slip{}, false
	}
	now := body[:at] + ": " + strings.TrimLeft(body[at:], ":= ")
	if now == body {
		return slip{}, false
	}
	return slipAt(line, say.Of("record.no-colon-with-a-space-after-the"), say.Of("record.write", now), swap{line, lead + now + remark}), true
}

// cutRemark cuts a line before its remark, with the spaces that stand before that.
func cutRemark(l string) (body, remark string) {
	at := strings.Index(l, " #")
	if at < 0 {
		at = len(l)
	}
	body = strings.TrimRight(l[:at], " ")
	return body, l[len(body):]
}

// guessed is what a part may suffer from by the library's message, where nothing that
// was tried puts it right.
func guessed(lines []string, line int, msg string) slip {
	here := strings.TrimSpace(lines[line-1])
	switch {
	case strings.Contains(msg, "max depth"):
		return slip{line: line, what: say.Of("record.too-many-brackets-within-brackets"), hint: say.Of("record.close-each-bracket-before-the-next-and")}
	case strings.Contains(msg, "unknown anchor"):
		return starred(lines, "*"+anchorOf(msg))
	}
	if s := tabs(lines); s != nil {
		return s[0]
	}
	if strings.Contains(msg, "did not find expected") || strings.Contains(msg, "unexpected end") {
		if s := notClosed(lines, line); s != nil {
			return s[0]
		}
	}
	if s := misfits(lines); s != nil {
		return s[0]
	}
	switch {
	case strings.Contains(msg, "mapping values are not allowed"):
		return slip{line: line, what: say.Of("record.this-line-is-indented-otherwise-than"), hint: say.Of("record.begin-it-below-the-first-letter-of")}
	case strings.Contains(msg, "did not find expected"):
		return slip{line: line, what: say.Of("record.this-line-does-not-fit-the-lines"), hint: say.Of("record.is-it-indented-like-its-neighbours-and")}
	}
	if s, ok := colonForgotten(here, line); ok {
		s.swaps = nil
		return s
	}
	return slip{line: line, what: say.Of("record.this-line-cannot-be-read"), hint: say.Of("record.a-word-a-colon-a-space-a")}
}

// starred finds words that begin with a star and are no mark of anything; the library
// gives no line for them.
func starred(lines []string, star string) slip {
	for i, l := range lines {
		at := strings.Index(l, star)
		if at < 0 {
			continue
		}
		end := at + len(star)
		now := l[:at] + strconv.Quote(star) + l[end:]
		return slipAt(i+1, say.Of("record.words-that-begin-with-need-quotes-2"), say.Of("record.write", strconv.Quote(star)), swap{i + 1, now})
	}
	return slip{line: 1, what: say.Of("record.words-that-begin-with-need-quotes-2")}
}

func slipAt(line int, what, hint string, swaps ...swap) slip {
	return slip{line: line, what: what, hint: hint, swaps: swaps}
}
