package prose

import (
	"bytes"

	"github.com/alecthomas/chroma/v2"
)

// YAML adds a record to dst as highlighted YAML: the text of the record with
// its keys, strings, numbers, dates, words of truth and comments in spans that
// carry the class names of the chroma library. It adds no element around it.
//
// The library's own lexer takes milliseconds for a record of three kilobytes,
// too long for a notebook of thousands; this scanner goes over the lines once.
// A test holds it to the library's lexer.
func YAML(dst, record []byte) []byte {
	s := yamlScanner{dst: dst, block: -1}
	for len(record) > 0 {
		line := record
		if i := bytes.IndexByte(record, '\n'); i >= 0 {
			line = record[:i+1]
		}
		record = record[len(line):]
		s.line(line)
	}
	return s.dst
}

// A yamlScanner goes over a record line by line.
type yamlScanner struct {
	dst   []byte
	depth int  // brackets that are open
	quote byte // the quote that is open over a line end
	block int  // indentation of the key whose block text is being read; -1 in none
}

func (s *yamlScanner) line(line []byte) {
	indent := len(line) - len(bytes.TrimLeft(line, " "))
	blank := len(bytes.TrimSpace(line)) == 0
	if s.block >= 0 {
		if blank {
			s.dst = append(s.dst, line...)
			return
		}
		if indent > s.block {
			s.dst = append(s.dst, line[:indent]...)
			s.mark(chroma.LiteralStringDoc, line[indent:])
			return
		}
		s.block = -1
	}
	if blank {
		s.dst = append(s.dst, line...)
		return
	}
	at := indent
	if s.quote != 0 {
		at = s.closeQuote(line, 0)
	} else {
		s.dst = append(s.dst, line[:indent]...)
		if s.depth == 0 {
			at = s.head(line, indent)
		}
	}
	s.values(line, at)
}

// head writes the dashes and the key that a line may begin with.
func (s *yamlScanner) head(line []byte, at int) int {
	rest := bytes.TrimRight(line[at:], "\r\n")
	if string(rest) == "---" || string(rest) == "..." {
		s.mark(chroma.NameNamespace, rest)
		return at + len(rest)
	}
	start := at
	for at+1 < len(line) && line[at] == '-' && (line[at+1] == ' ' || line[at+1] == '\n') {
		next := at + 1
		for next < len(line) && line[next] == ' ' {
			next++
		}
		s.dst = append(s.dst, line[at:next]...)
		at = next
	}
	end := keyEnd(line, at)
	if end < 0 {
		s.maybeBlock(line, at, start)
		return at
	}
	s.mark(chroma.NameTag, line[at:end])
	s.dst = append(s.dst, ':')
	s.maybeBlock(line, end+1, at)
	return end + 1
}

// keyEnd is where the colon of a block key stands; -1 where there is no key.
func keyEnd(line []byte, at int) int {
	if at >= len(line) {
		return -1
	}
	switch line[at] {
	case '{', '[', '#', '&', '*', '!', '|', '>', '%', '\n', '\r':
		return -1
	case '"', '\'':
		end, closed := quoteEnd(line, at+1, line[at])
		if closed && end < len(line) && line[end] == ':' && endsWord(line, end+1) {
			return end
		}
		return -1
	}
	for i := at; i < len(line); i++ {
		switch {
		case line[i] == ':' && endsWord(line, i+1):
			return i
		case line[i] == '#' && i > at && line[i-1] == ' ':
			return -1
		}
	}
	return -1
}

func endsWord(line []byte, i int) bool {
	return i >= len(line) || line[i] == ' ' || line[i] == '\n' || line[i] == '\r'
}

// maybeBlock notes that a block text follows, where the value is | or >.
func (s *yamlScanner) maybeBlock(line []byte, at, indent int) {
	rest := bytes.TrimSpace(line[at:])
	if i := bytes.Index(rest, []byte(" #")); i >= 0 {
		rest = bytes.TrimSpace(rest[:i])
	}
	if len(rest) > 0 && len(rest) <= 3 && (rest[0] == '|' || rest[0] == '>') && len(bytes.Trim(rest[1:], "+-0123456789")) == 0 {
		s.block = indent
	}
}

// values writes what follows the key: scalars, brackets, a comment.
func (s *yamlScanner) values(line []byte, at int) {
	for at < len(line) {
		c := line[at]
		switch {
		case c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == ',':
			s.dst = append(s.dst, c)
			at++
		case c == '#' && (at == 0 || line[at-1] == ' '):
			end := len(bytes.TrimRight(line, "\r\n"))
			s.mark(chroma.Comment, line[at:end])
			at = end
		case c == '{' || c == '[':
			s.depth++
			s.dst = append(s.dst, c)
			at++
		case (c == '}' || c == ']') && s.depth > 0:
			s.depth--
			s.dst = append(s.dst, c)
			at++
		case c == '"' || c == '\'':
			at = s.quoted(line, at)
		default:
			at = s.scalar(line, at)
		}
	}
}

// quoted writes a quoted text, or a key in quotes.
func (s *yamlScanner) quoted(line []byte, at int) int {
	end, closed := quoteEnd(line, at+1, line[at])
	typ := stringType(line[at])
	if closed && s.depth > 0 && end < len(line) && line[end] == ':' {
		typ = chroma.NameTag
	}
	if !closed {
		s.quote = line[at]
	}
	s.mark(typ, line[at:end])
	return end
}

// closeQuote writes the rest of a text that was opened on an earlier line.
func (s *yamlScanner) closeQuote(line []byte, at int) int {
	end, closed := quoteEnd(line, at, s.quote)
	s.mark(stringType(s.quote), line[at:end])
	if closed {
		s.quote = 0
	}
	return end
}

func stringType(quote byte) chroma.TokenType {
	if quote == '"' {
		return chroma.LiteralStringDouble
	}
	return chroma.LiteralStringSingle
}

// quoteEnd is the place behind the closing quote, or the line's end.
func quoteEnd(line []byte, at int, quote byte) (int, bool) {
	for i := at; i < len(line); i++ {
		switch {
		case quote == '"' && line[i] == '\\':
			i++
		case line[i] != quote:
		case quote == '\'' && i+1 < len(line) && line[i+1] == '\'':
			i++
		default:
			return i + 1, true
		}
	}
	return len(line), false
}

// scalar writes a plain scalar, or a key inside brackets.
func (s *yamlScanner) scalar(line []byte, at int) int {
	end := at
	for end < len(line) && !s.endsScalar(line, at, end) {
		end++
	}
	if end == at {
		end++ // a stray closing bracket
	}
	word := line[at:end]
	if s.depth > 0 && end < len(line) && line[end] == ':' {
		s.mark(chroma.NameTag, word)
		s.dst = append(s.dst, ':')
		return end + 1
	}
	s.word(word)
	return end
}

func (s *yamlScanner) endsScalar(line []byte, at, i int) bool {
	switch line[i] {
	case '\n', '\r':
		return true
	case '#':
		return i > at && line[i-1] == ' '
	case ',', ']', '}', '[', '{':
		return s.depth > 0
	case ':':
		return s.depth > 0 && endsWord(line, i+1)
	}
	return false
}

// word writes a plain scalar; a number at its beginning, a date, true and
// false and the like are marked.
func (s *yamlScanner) word(word []byte) {
	body := bytes.TrimRight(word, " ")
	rest := word[len(body):]
	switch {
	case isDate(body):
		n := 10
		s.mark(chroma.LiteralDate, body[:n])
		s.dst = escape(s.dst, body[n:])
	case isConstant(body):
		s.mark(chroma.KeywordConstant, body)
	case len(body) > 0 && (body[0] == '&' || body[0] == '*'):
		s.mark(chroma.CommentPreproc, body)
	default:
		n := numberEnd(body)
		if n > 0 {
			s.mark(chroma.LiteralNumber, body[:n])
		}
		s.dst = escape(s.dst, body[n:])
	}
	s.dst = append(s.dst, rest...)
}

// numberEnd is the length of the number that a scalar begins with, 0 where
// there is none: "15 mm" and "3/4" begin with one, "3rd" does not.
func numberEnd(b []byte) int {
	i, digits := 0, 0
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		i++
	}
	for ; i < len(b) && (b[i] >= '0' && b[i] <= '9' || b[i] == '.' && digits > 0); i++ {
		digits++
	}
	if digits == 0 {
		return 0
	}
	if i == len(b) || b[i] == ' ' || b[i] == '/' || b[i] == '%' {
		return i
	}
	return 0
}

func isDate(b []byte) bool {
	if len(b) < 10 || b[4] != '-' || b[7] != '-' {
		return false
	}
	for i, c := range b[:10] {
		if i != 4 && i != 7 && (c < '0' || c > '9') {
			return false
		}
	}
	return len(b) == 10 || b[10] == ' ' || b[10] == 'T'
}

func isConstant(b []byte) bool {
	switch string(b) {
	case "true", "false", "True", "False", "TRUE", "FALSE", "null", "yes", "no", "Yes", "No", "on", "off", "On", "Off":
		return true
	}
	return false
}

// mark adds text as a token of that type, without the white space at its ends.
func (s *yamlScanner) mark(typ chroma.TokenType, text []byte) {
	body := bytes.TrimRight(text, "\r\n ")
	if len(body) == 0 {
		s.dst = append(s.dst, text...)
		return
	}
	s.dst = span(s.dst, typ, body)
	s.dst = append(s.dst, text[len(body):]...)
}
