package record

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"hembook/internal/disk"
	"hembook/internal/fault"
)

// What a file may weigh. A record written by hand is a few kilobytes.
const (
	mostRecord = 4 << 20
)

// readFile reads one file whole, within the workroom and within bounds.
func readFile(root fs.FS, src *fault.Source, most int64, faults *fault.Faults) ([]byte, bool) {
	at := fault.Pos{Source: src, Line: 1, Column: 1}
	f, err := root.Open(src.Path)
	if err != nil {
		faults.Errorf(at, openHint(err), "this file cannot be read: %s", plainError(err))
		return nil, false
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		faults.Errorf(at, "", "this file cannot be read: %s", plainError(err))
		return nil, false
	case !info.Mode().IsRegular():
		faults.Errorf(at, "put a plain file there", "this is not a file")
		return nil, false
	case info.Size() > most:
		faults.Errorf(at, "a record is words alone: did a picture or a pattern get its name?", "this file is %s; at most %s is read", sizeWords(info.Size()), sizeWords(most))
		return nil, false
	}
	var text bytes.Buffer
	text.Grow(int(info.Size()) + bytes.MinRead) // else it would be read in many small bites
	if _, err := text.ReadFrom(io.LimitReader(f, most+1)); err != nil {
		faults.Errorf(at, "", "this file cannot be read: %s", plainError(err))
		return nil, false
	}
	return text.Bytes(), true
}

func openHint(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "is the name spelt the same, capitals too?"
	}
	if _, no := errors.AsType[disk.NotAFile](err); no {
		return "put a plain file there"
	}
	if strings.Contains(err.Error(), "escapes") {
		return "a link may not lead out of the workroom; copy the file in"
	}
	return ""
}

// plainError says what went wrong without the path, which the fault names already.
func plainError(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "reading it is not allowed"
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		if strings.Contains(p.Err.Error(), "escapes") {
			return "it leads out of the workroom"
		}
		return p.Err.Error()
	}
	return err.Error()
}

func sizeWords(n int64) string {
	if n >= 1<<20 {
		return strconv.FormatFloat(math.Round(float64(n)/(1<<20)*10)/10, 'f', -1, 64) + " MB"
	}
	return strconv.FormatInt(n>>10, 10) + " KB"
}

// checkText finds bytes that are not text and says where.
func checkText(src *fault.Source, text []byte, faults *fault.Faults) ([]byte, bool) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if utf8.Valid(text) && bytes.IndexByte(text, 0) < 0 {
		return text, true
	}
	line, column := int32(1), int32(1)
	for rest := text; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		if r == utf8.RuneError && size == 1 || r == 0 {
			message, hint := notText(text, rest)
			faults.Errorf(fault.Pos{Source: src, Line: line, Column: column}, hint, "%s", message)
			return nil, false
		}
		if column++; r == '\n' {
			line, column = line+1, 1
		}
		rest = rest[size:]
	}
	return text, true
}

// parseYAML reads one document into its root node; false where there is none.
func parseYAML(src *fault.Source, text []byte, shift int32, faults *fault.Faults) (*yaml.Node, bool) {
	if !checkMany(src, text, shift, faults) {
		return nil, false
	}
	var doc yaml.Node
	dec := yaml.NewDecoder(bytes.NewReader(text))
	err := dec.Decode(&doc)
	switch {
	case errors.Is(err, io.EOF), err == nil && len(doc.Content) == 0:
		faults.Errorf(fault.Pos{Source: src, Line: 1 + shift, Column: 1}, "write at least what must be there; hembook begin shows how", "this record is empty")
		return nil, false
	case err != nil:
		faults.Add(syntaxFault(src, text, shift, err))
		return nil, false
	}
	var more yaml.Node
	switch err := dec.Decode(&more); {
	case err == nil:
		faults.Errorf(fault.Pos{Source: src, Line: int32(more.Line) + shift, Column: 1}, "one file holds one record: move the second part to a file of its own", "a second record begins here")
		return nil, false
	case !errors.Is(err, io.EOF): // what follows would be shown unread
		faults.Add(syntaxFault(src, text, shift, err))
		return nil, false
	}
	return doc.Content[0], true
}

var lineOfError = regexp.MustCompile(`line (\d+): `)

// syntaxFault turns the YAML library's message into one with a place, a hint and,
// where it can be told, what to write.
func syntaxFault(src *fault.Source, text []byte, shift int32, err error) fault.Fault {
	msg := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if m := lineOfError.FindStringSubmatchIndex(msg); m != nil {
		line, _ = strconv.Atoi(msg[m[2]:m[3]])
		msg = msg[m[1]:]
	}
	lines := strings.Split(string(text), "\n")
	line = min(max(line, 1), len(lines))
	s := syntaxSlip(lines, line, msg)
	here := lines[s.line-1]
	column := 1 + len([]rune(here)) - len([]rune(strings.TrimLeft(here, " ")))
	f := fault.Errorf(fault.Pos{Source: src, Line: int32(s.line) + shift, Column: int32(column)}, s.hint, "%s", s.what)
	if s.old != "" {
		f.Instead(s.old, s.now)
	}
	return f
}

// A slip is what is wrong in the writing of a line: what, how to put it right, and the
// words to write in place of others on it.
type slip struct {
	line       int
	what, hint string
	old, now   string
}

// syntaxSlip guesses what the maker meant, and may move the fault by a line:
// the library often notices a slip one line late.
func syntaxSlip(lines []string, line int, msg string) slip {
	here := strings.TrimSpace(lines[line-1])
	for _, l := range []int{line, line + 1, line - 1} {
		if l >= 1 && l <= len(lines) && strings.HasPrefix(strings.TrimLeft(lines[l-1], " "), "\t") {
			body := strings.TrimLeft(lines[l-1], " \t")
			tabs := strings.TrimSuffix(strings.TrimLeft(lines[l-1], " "), body)
			return slip{l, "a tab before the word", "two spaces instead", tabs, strings.ReplaceAll(tabs, "\t", "  ")}
		}
	}
	unexpected := strings.Contains(msg, "did not find expected") || strings.Contains(msg, "unexpected end")
	if unexpected {
		for l := min(line+1, len(lines)); l >= max(1, line-20); l-- {
			if closing := opens(lines[l-1]); closing != "" {
				body, remark, _ := strings.Cut(lines[l-1], " #")
				body = strings.TrimSpace(body)
				s := slip{l, "a bracket or quote opened here is not closed", "add " + closing + " at the end of this line", body, body + closing}
				if remark != "" {
					s.hint = "add " + closing + " before the note"
				}
				return s
			}
		}
	}
	word, rest, _ := strings.Cut(here, ": ")
	quoted := strings.TrimSpace(word) + ": " + strconv.Quote(rest)
	switch {
	case strings.Contains(msg, "max depth"):
		return slip{line: line, what: "too many brackets within brackets", hint: "close each bracket before the next, and keep groups a few deep"}
	case strings.Contains(msg, "mapping values are not allowed") && strings.Contains(rest, ": ") && !strings.ContainsAny(rest, "{}[]\"'#"):
		return slip{line, "a colon inside the words", "put quotes round them: " + quoted, rest, strconv.Quote(rest)}
	case strings.Contains(msg, "mapping values are not allowed") && line > 1 && !strings.Contains(lines[line-2], ":") && strings.TrimSpace(lines[line-2]) != "":
		above := strings.TrimSpace(lines[line-2])
		if strings.HasPrefix(above, "-") {
			break
		}
		return slip{line - 1, "no colon behind " + above, "write " + above + ":", above, above + ":"}
	case strings.Contains(msg, "mapping values are not allowed"):
		return slip{line: line, what: "this line is indented otherwise than the one above", hint: "begin it below the first letter of its neighbours; or put quotes round words with a colon"}
	case strings.Contains(msg, "cannot start any token") && rest != "":
		return slip{line, "words that begin with " + rest[:1] + " need quotes", quoted, rest, strconv.Quote(rest)}
	case strings.Contains(msg, "cannot start any token"):
		return slip{line, "words that begin with " + firstLetter(here) + " need quotes", strconv.Quote(here), here, strconv.Quote(here)}
	case unexpected && strings.Count(here, "'")%2 == 1:
		return slip{line: line, what: "an apostrophe within single quotes ends them", hint: "double quotes round the words: \"it's too long\""}
	case unexpected:
		return slip{line: line, what: "this line does not fit the lines above it", hint: "is it indented like its neighbours, and is every bracket and quote closed?"}
	case strings.Contains(msg, "unknown anchor"):
		star := "*" + strings.Trim(strings.Fields(msg + " ? ? ?")[2], "'")
		line = lineOf(lines, star)
		word, rest, found := strings.Cut(strings.TrimSpace(lines[line-1]), ": ")
		if !found || !strings.HasPrefix(rest, star) {
			return slip{line, "words that begin with * need quotes", "write " + strconv.Quote(star), star, strconv.Quote(star)}
		}
		return slip{line, "words that begin with * need quotes", word + ": " + strconv.Quote(rest), rest, strconv.Quote(rest)}
	}
	if s, ok := colonForgotten(here); ok {
		s.line = line
		return s
	}
	return slip{line: line, what: "this line cannot be read", hint: "a word, a colon, a space, a value: is one of them missing?"}
}

// colonForgotten finds a line that has its word and its value, and not the colon and
// the space between them.
func colonForgotten(line string) (slip, bool) {
	at := strings.IndexAny(line, ":= ")
	if at <= 0 || at == len(line)-1 {
		return slip{}, false
	}
	now := line[:at] + ": " + strings.TrimLeft(line[at:], ":= ")
	if now == line {
		return slip{}, false
	}
	return slip{what: "no colon with a space behind the word", hint: "write " + now, old: line, now: now}, true
}

func firstLetter(s string) string {
	for _, r := range s {
		return string(r)
	}
	return "a sign"
}

// lineOf is the first line that holds the word; the library gives no line for
// some of its messages.
func lineOf(lines []string, word string) int {
	for i, l := range lines {
		if strings.Contains(l, word) {
			return i + 1
		}
	}
	return 1
}

// opens is what would close the brackets and quotes that open on a line and do not
// close on it; empty where none does.
func opens(line string) string {
	var closing []rune // the innermost last
	quote := rune(0)
	for _, r := range line {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case r == '"':
			quote = r
		case r == '#':
			return backwards(closing)
		case r == '{':
			closing = append(closing, '}')
		case r == '[':
			closing = append(closing, ']')
		case len(closing) > 0 && r == closing[len(closing)-1]:
			closing = closing[:len(closing)-1]
		}
	}
	if quote != 0 {
		return string(quote) + backwards(closing)
	}
	return backwards(closing)
}

func backwards(signs []rune) string {
	slices.Reverse(signs)
	return string(signs)
}

// splitHeader takes the YAML header off a Markdown file. line is where the
// body begins.
func splitHeader(src *fault.Source, text []byte, faults *fault.Faults) (header, body []byte, line int32, ok bool) {
	const fence = "---"
	first, rest, _ := bytes.Cut(text, []byte("\n"))
	if string(bytes.TrimRight(first, " \r")) != fence {
		faults.Errorf(fault.Pos{Source: src, Line: 1, Column: 1}, "begin the file with a line ---, then name: value lines, then --- again", "the header is missing")
		return nil, nil, 0, false
	}
	line = 2
	for start := 0; start <= len(rest); line++ {
		one, _, more := bytes.Cut(rest[start:], []byte("\n"))
		if string(bytes.TrimRight(one, " \r")) == fence {
			return rest[:start], rest[min(len(rest), start+len(one)+1):], line + 1, true
		}
		if !more {
			break
		}
		start += len(one) + 1
	}
	faults.Errorf(fault.Pos{Source: src, Line: 1, Column: 1}, "end it with a line ---", "the header does not end")
	return nil, nil, 0, false
}

// openRoot opens the workroom's folder so that nothing outside can be reached.
func openRoot(dir string) (*os.Root, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be opened as a workroom: %s", dir, plainError(err))
	}
	if link := leadsOut(root); link != "" {
		root.Close()
		return nil, fmt.Errorf("%s leads out of the workroom\n    remove that link: the folder is made anew when it is needed", filepath.Join(dir, link))
	}
	return root, nil
}

// keepFolder is where the program keeps what it works out, and running clocks.
const keepFolder = ".hembook"

// leadsOut names a link out of the workroom where the program keeps its own
// files, which would else be written elsewhere; "" where there is none.
func leadsOut(root *os.Root) string {
	names := []string{keepFolder}
	list, _ := fs.ReadDir(root.FS(), keepFolder)
	for _, e := range list {
		names = append(names, path.Join(keepFolder, e.Name()))
	}
	for _, name := range names {
		info, err := root.Lstat(name)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			continue
		}
		if _, err := root.Stat(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return name
		}
	}
	return ""
}
