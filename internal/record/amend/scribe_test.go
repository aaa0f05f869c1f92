package amend

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// A writtenRecord is a random record with what the test must know of it: how
// each value that may be changed is written, and every comment.
type writtenRecord struct {
	text     string
	raw      map[string]string
	comments []string
}

// A scribe writes random records: every style that YAML has and makers use.
type scribe struct {
	*rand.Rand
	b       strings.Builder
	lineEnd string
	deeper  int
	dash    int
	anchors int
	out     *writtenRecord
}

func (s *scribe) oneOf(words ...string) string { return words[s.IntN(len(words))] }
func (s *scribe) chance(n int) bool            { return s.IntN(n) == 0 }
func (s *scribe) end()                         { s.b.WriteString(s.lineEnd) }

// comment is a comment with signs that mean something elsewhere.
func (s *scribe) comment() string {
	c := fmt.Sprintf("# c%d %s", len(s.out.comments), s.oneOf("note", "it's", "ä: [", "{", "\"", "- x", "a: b", "🧵", "]", "&a *b", "|"))
	s.out.comments = append(s.out.comments, c)
	return c
}

// beside is a comment at the end of a line, or nothing.
func (s *scribe) beside() string {
	if s.chance(4) {
		return s.oneOf(" ", "  ", "   ") + s.comment()
	}
	return s.oneOf("", "", "", " ")
}

// between is what may stand between two parts: empty lines and comments.
func (s *scribe) between(col int) {
	for range s.IntN(3) {
		switch s.IntN(3) {
		case 0:
			s.end()
		case 1:
			s.b.WriteString(pad(col) + s.comment())
			s.end()
		}
	}
}

// scalar is a single value; col is how deep its further lines must stand, or
// -1 within braces on one line.
func (s *scribe) scalar(col int, within bool) string {
	mark := ""
	if s.chance(12) {
		s.anchors++
		mark = fmt.Sprintf("&a%d ", s.anchors)
	}
	if s.chance(15) && mark == "" {
		return "!!str " + s.oneOf("12", "'x'", "yes")
	}
	words := []string{"sewing", "48 min", "2026-08-05 14:10", "2026-08-05", "712", "0.5", "yes", "~", "'it''s'", "'a: b # c'", "\"tab\there\"", "\"q\\\"\\u00e9\\\\\"", "größe", "\"🧵 Maß\"", "true", "1:20", "\"#\"", "'- x'", "a-b", "x#y", "\"]\"", "'}'", "''", "https://example.org/x"}
	if !within {
		words = append(words, "a, b", "it's {odd}", "x ]")
	}
	if col >= 0 {
		in := s.lineEnd + pad(col)
		words = append(words, "plain"+in+"over lines", "\"in quotes"+in+"over # lines\\"+in+"three\"", "'single"+s.lineEnd+in+"quotes'")
	}
	return mark + s.oneOf(words...)
}

// block is text over lines with its mark, without the last line's end.
func (s *scribe) block(col int) string {
	in := s.lineEnd + pad(col)
	head := s.oneOf("|", ">") + s.oneOf("", "", "-", "+")
	if s.chance(4) {
		head += " " + s.comment()
	}
	return head + in + s.oneOf("words: here", "# no comment", "- {x", "ä\ttab") + s.lineEnd + s.oneOf("", pad(col)) + in + " more" + s.oneOf("", s.lineEnd)
}

// named writes one name with a single value below others at col, and keeps
// how it is written.
func (s *scribe) named(path, name string, col int) {
	s.b.WriteString(s.oneOf(name, name, "\""+name+"\"", "'"+name+"'") + ":")
	switch s.IntN(8) {
	case 0:
		s.out.raw[path] = ""
		s.b.WriteString(s.beside())
	case 1:
		s.out.raw[path] = s.block(col + 1 + s.IntN(4))
		s.b.WriteString(" " + s.out.raw[path])
	default:
		s.out.raw[path] = s.scalar(col+1+s.IntN(4), false)
		s.b.WriteString(s.oneOf(" ", " ", "   ") + s.out.raw[path] + s.beside())
	}
	s.end()
}

// braces is a group in braces, on one line or several.
func (s *scribe) braces(path string, names []string, col int) string {
	gap, last := s.oneOf("", " "), ""
	lines := s.chance(4)
	var parts []string
	for _, n := range names {
		v := s.scalar(-1, true)
		if s.chance(10) {
			v = ""
		}
		s.out.raw[path+"."+n] = v
		parts = append(parts, s.oneOf(n, n, "\""+n+"\"")+": "+v)
	}
	if !lines || len(parts) == 0 {
		if len(parts) > 0 && s.chance(6) {
			last = ","
		}
		return "{" + gap + strings.Join(parts, s.oneOf(", ", ",  ")) + last + gap + "}"
	}
	var b strings.Builder
	b.WriteString("{")
	for i, p := range parts {
		b.WriteString(s.lineEnd + pad(col) + p)
		if i < len(parts)-1 || s.chance(2) {
			b.WriteString(",")
		}
		if s.chance(3) {
			b.WriteString(" " + s.comment())
		}
	}
	b.WriteString(s.lineEnd + pad(col) + "}")
	return b.String()
}

func (s *scribe) names() []string {
	all := []string{"at", "did", "for", "note", "wrod"}
	s.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all[:1+s.IntN(len(all))]
}

// list writes the journal, at the top: missing, empty or of any style.
func (s *scribe) list(name string) {
	head := name + ":"
	switch s.IntN(9) {
	case 0:
		s.out.raw[name] = s.oneOf("", " ~", " null", " []", " [ ]")
		s.b.WriteString(head + s.out.raw[name] + s.beside())
		s.end()
		return
	case 1, 2:
		s.b.WriteString(head + " " + s.brackets(name) + s.beside())
		s.end()
		return
	}
	if s.chance(8) {
		s.anchors++
		head += fmt.Sprintf(" &a%d", s.anchors)
	}
	s.b.WriteString(head + s.beside())
	s.end()
	gap := 1 + s.IntN(3)
	for i := range 1 + s.IntN(4) {
		if s.chance(4) {
			s.between(s.dash)
		}
		s.entry(fmt.Sprintf("%s.%d", name, i), gap)
	}
}

func (s *scribe) brackets(name string) string {
	lines := s.chance(2)
	var b strings.Builder
	b.WriteString("[")
	n := 1 + s.IntN(3)
	for i := range n {
		if lines {
			b.WriteString(s.lineEnd + pad(2))
		}
		b.WriteString(s.braces(fmt.Sprintf("%s.%d", name, i), s.names(), 4))
		if i < n-1 || s.chance(3) {
			b.WriteString(s.oneOf(",", ", "))
		}
		if lines && s.chance(3) {
			b.WriteString(" " + s.comment())
		}
	}
	if lines {
		b.WriteString(s.lineEnd + pad(1))
	}
	return b.String() + "]"
}

func (s *scribe) entry(path string, gap int) {
	s.b.WriteString(pad(s.dash) + "-" + pad(gap))
	col := s.dash + 1 + gap
	switch s.IntN(4) {
	case 0:
		for i, n := range s.names() {
			if i > 0 {
				s.b.WriteString(pad(col))
			}
			s.named(path+"."+n, n, col)
		}
	case 1:
		s.out.raw[path] = s.scalar(col, false)
		s.b.WriteString(s.out.raw[path] + s.beside())
		s.end()
	default:
		s.b.WriteString(s.braces(path, s.names(), col) + s.beside())
		s.end()
	}
}

func (s *scribe) group(name string) {
	names := []string{"waist", "hem", "größe", "nape to waist"}[:1+s.IntN(4)]
	switch s.IntN(4) {
	case 0:
		s.out.raw[name] = s.oneOf("", " {}", " ~")
		s.b.WriteString(name + ":" + s.out.raw[name] + s.beside())
		s.end()
	case 1:
		s.b.WriteString(name + ": " + s.braces(name, names, 3) + s.beside())
		s.end()
	default:
		s.b.WriteString(name + ":" + s.beside())
		s.end()
		for _, n := range names {
			if s.chance(5) {
				s.between(s.deeper)
			}
			s.b.WriteString(pad(s.deeper))
			s.named(name+"."+n, n, s.deeper)
		}
	}
}

// write is a whole random record.
func write(r *rand.Rand) *writtenRecord {
	s := &scribe{Rand: r, out: &writtenRecord{raw: map[string]string{}}}
	s.lineEnd = s.oneOf("\n", "\n", "\r\n")
	s.deeper, s.dash = 1+s.IntN(5), []int{0, 1, 2, 4}[s.IntN(4)]
	s.b.WriteString(s.oneOf("", "", "", "\ufeff") + s.oneOf("", "", "---"+s.lineEnd))
	s.between(0)
	parts := []func(){
		func() { s.named("state", "state", 0) },
		func() { s.named("story", "story", 0) },
		func() { s.list("journal") },
		func() { s.group("measured") },
		func() { s.group("packet") },
		func() { s.b.WriteString("pieces: [{name: front, edges: [[0, 1], [2, 3]]}]" + s.beside()); s.end() },
		func() { s.b.WriteString("costs: {labour: 20 EUR}" + s.lineEnd) },
	}
	s.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
	for _, part := range parts[:2+s.IntN(len(parts)-1)] {
		part()
		s.between(0)
	}
	if mark := fmt.Sprintf("a%d", 1+s.IntN(s.anchors+1)); s.chance(3) && strings.Contains(s.b.String(), "&"+mark+" ") {
		s.b.WriteString("same: *" + mark + s.lineEnd)
	}
	s.out.text = s.b.String()
	if s.chance(4) {
		s.out.text = strings.TrimSuffix(s.out.text, s.lineEnd)
	}
	return s.out
}
