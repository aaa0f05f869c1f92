// Package say keeps every fixed sentence of pages and faults in one place, under a
// name of its own, so that the voice has one home and another language can follow.
// The sheets, which are written in several languages already, have theirs in
// internal/sheet/words.
package say

import (
	"embed"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
)

//go:embed english/*.yaml
var files embed.FS

// Files are the lists of sentences: what the terminal says, what pages say, and what faults
// say. They are looked through in this order, each read when it is first needed: the help
// of a command needs the first alone.
var Files = []string{"terminal", "pages", "faults"}

// A sentence is text with names in braces for what is filled in: "{piece} has no
// edge {edge}".
type sentence struct {
	text  string
	names []string // each once, in the order they stand: that of the arguments
	parts []slot
}

// A slot is words, and what is filled in behind them.
type slot struct {
	words string
	name  int // place in names; -1 behind the last words
}

// A listed is a sentence of a list, taken apart when it is first asked for: most commands
// say few of them.
type listed struct {
	quoted string // as the list has it
	taken  atomic.Pointer[sentence]
}

func (e *listed) sentence() *sentence {
	if s := e.taken.Load(); s != nil {
		return s
	}
	text, err := strconv.Unquote(e.quoted)
	if err != nil {
		panic("say: not a text in quotation marks: " + e.quoted) // a test reads them all
	}
	s := parsed(text)
	e.taken.Store(&s)
	return &s
}

// lists are the files, each read when it is first asked.
var lists = func() (all []func() map[string]*listed) {
	for _, file := range Files {
		all = append(all, sync.OnceValue(func() map[string]*listed { return list(file) }))
	}
	return all
}()

func list(file string) map[string]*listed {
	text, err := files.ReadFile("english/" + file + ".yaml")
	all := make(map[string]*listed, 2048)
	if err == nil {
		err = read(all, string(text))
	}
	if err != nil {
		panic("say: " + file + ".yaml: " + err.Error()) // our own files; a test reads them
	}
	return all
}

// read takes in a list. Of YAML it knows what the lists need, a name, a colon and a text
// in quotation marks, so that reading some thousand sentences takes no time at the start of
// every command.
func read(into map[string]*listed, text string) error {
	room := make([]listed, strings.Count(text, "\n")+1)
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		id, quoted, ok := strings.Cut(line, ": ")
		if !ok {
			return fmt.Errorf("not a name and a text: %s", line)
		}
		if into[id] != nil {
			return fmt.Errorf("%s stands there twice", id)
		}
		into[id], room = &room[0], room[1:]
		into[id].quoted = quoted
	}
	return nil
}

// named is a name in braces. Other braces are words: a record has groups in them.
var named = regexp.MustCompile(`\{[a-z][a-z0-9-]*\}`)

func parsed(text string) sentence {
	s, from := sentence{text: text}, 0
	for _, at := range named.FindAllStringIndex(text, -1) {
		name := text[at[0]+1 : at[1]-1]
		k := slices.Index(s.names, name)
		if k < 0 {
			k = len(s.names)
			s.names = append(s.names, name)
		}
		s.parts = append(s.parts, slot{text[from:at[0]], k})
		from = at[1]
	}
	s.parts = append(s.parts, slot{text[from:], -1})
	return s
}

// called is the sentence of that name.
func called(id string) *sentence {
	for _, list := range lists {
		if e := list()[id]; e != nil {
			return e.sentence()
		}
	}
	panic("say: there is no sentence " + id)
}

// holds panics where a sentence has not as many names as it is given values.
func (s *sentence) holds(id string, given int) {
	if given != len(s.names) {
		panic(fmt.Sprintf("say: %s has %d names and is given %d", id, len(s.names), given))
	}
}

// Of is the sentence of that name, filled in with as many values as it has names, in the
// order English has them. Without any it is the text as it stands, for those who fill it in
// by name later. A sentence that is not there is a mistake of who builds the program.
func Of(id string, with ...any) string {
	s := called(id)
	if len(with) == 0 {
		return s.text
	}
	s.holds(id, len(with))
	var room [160]byte // most sentences are shorter, and then only the string is made
	out := room[:0]
	for _, p := range s.parts {
		out = append(out, p.words...)
		if p.name >= 0 {
			out = appended(out, with[p.name])
		}
	}
	return string(out)
}

// With is Of where every value is a text. What is worked out for every figure asks so: no
// value needs a place of its own then.
func With(id string, with ...string) string {
	s := called(id)
	s.holds(id, len(with))
	var room [160]byte
	out := room[:0]
	for _, p := range s.parts {
		out = append(out, p.words...)
		if p.name >= 0 {
			out = append(out, with[p.name]...)
		}
	}
	return string(out)
}

// Error is an error known by the name of its sentence, which is asked for when it is told:
// errors that are compared stand in no function.
type Error string

func (e Error) Error() string { return Of(string(e)) }

func appended(out []byte, v any) []byte {
	switch v := v.(type) {
	case string:
		return append(out, v...)
	case []byte:
		return append(out, v...)
	case int:
		return strconv.AppendInt(out, int64(v), 10)
	}
	return fmt.Append(out, v)
}

// Quoted is a value in quotation marks, as a record's words are quoted.
func Quoted(v any) string { return strconv.Quote(fmt.Sprint(v)) }
