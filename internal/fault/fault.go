// Package fault says what is wrong: where it stands, what it is, and what was
// probably meant. Every room tells of faults in this one form.
package fault

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// A Severity says whether a fault stops the press.
type Severity uint8

const (
	// Warning marks what looks odd; the figures still stand.
	Warning Severity = iota
	// Error marks what cannot be right; nothing is pressed from it.
	Error
)

// String prints "warning" or "error".
func (s Severity) String() string {
	if s == Error {
		return "error"
	}
	return "warning"
}

// MarshalJSON writes the severity as its word.
func (s Severity) MarshalJSON() ([]byte, error) { return json.Marshal(s.String()) }

// A Fault is one thing wrong with what was read, at the place where it is written.
type Fault struct {
	At       Pos
	Severity Severity
	Message  string       // lower case, no full stop
	Hint     string       // what was probably meant, or what to do; may be empty
	Of       string       // what it is about, where no file tells: "piece \"front\"", "path side"; may be empty
	Correct  []Correction // what would put it right, all of it together; empty where only the maker knows
}

// Errorf makes an error of what stands at a place. The hint may be empty.
func Errorf(at Pos, hint, format string, args ...any) Fault {
	return Fault{At: at, Severity: Error, Message: fmt.Sprintf(format, args...), Hint: hint}
}

// Wrong makes an error of words that are ready, as package say has them. The hint may
// be empty.
func Wrong(at Pos, hint, message string) Fault {
	return Fault{At: at, Severity: Error, Message: message, Hint: hint}
}

// Placed is the message after what it is about, and the line and column.
func (f Fault) Placed() string {
	where := f.Of
	if f.At.Line > 0 {
		line := fmt.Sprintf("line %d", f.At.Line)
		if f.At.Column > 0 {
			line += fmt.Sprintf(", column %d", f.At.Column)
		}
		if where != "" {
			where += " on "
		}
		where += line
	}
	if where == "" {
		return f.Message
	}
	return where + ": " + f.Message
}

// Brief is the message as placed, with the hint after a semicolon, on one line.
func (f Fault) Brief() string {
	if f.Hint == "" {
		return f.Placed()
	}
	return f.Placed() + "; " + f.Hint
}

// A List is what is wrong with one thing, as an error.
type List []Fault

func (l List) Error() string {
	lines := make([]string, len(l))
	for i, f := range l {
		lines[i] = f.Brief()
	}
	return strings.Join(lines, "\n")
}

// Sorted puts the list in the order of its places; those at one place stay as they are.
func (l List) Sorted() List {
	slices.SortStableFunc(l, func(a, b Fault) int { return ComparePos(a.At, b.At) })
	return l
}

// String prints the fault as the terminal shows it, the hint on its own line.
func (f Fault) String() string {
	s := fmt.Sprintf("%s: %s: %s", f.At, f.Severity, f.Message)
	if f.Hint != "" {
		s += "\n    " + f.Hint
	}
	return s
}

// MarshalJSON writes file, line, column, severity, message, hint, and what of the
// hint a program can write, as "correct".
func (f Fault) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		File     string       `json:"file"`
		Line     int32        `json:"line"`
		Column   int32        `json:"column"`
		Severity Severity     `json:"severity"`
		Message  string       `json:"message"`
		Hint     string       `json:"hint"`
		Correct  []Correction `json:"correct,omitempty"`
	}{f.At.File(), f.At.Line, f.At.Column, f.Severity, f.Message, f.Hint, f.Correct})
}

// mostFaults bounds how many faults are told at once: a file that goes wrong
// in more places than this goes wrong in one way many times over.
const mostFaults = 1000

// Faults collects what is wrong. The zero value is ready to use.
type Faults struct{ list []Fault }

// add keeps a fault and returns it, to be given corrections until the next one comes.
func (f *Faults) add(one Fault) *Fault {
	switch {
	case len(f.list) < mostFaults:
		f.list = append(f.list, one)
		return &f.list[len(f.list)-1]
	case len(f.list) == mostFaults:
		f.list = append(f.list, Errorf(one.At, "correct those first", "there are more faults than can be told at once"))
	}
	return &one
}

// Errorf adds an error. The hint may be empty. What is returned may be given its
// corrections until the next fault is added.
func (f *Faults) Errorf(at Pos, hint, format string, args ...any) *Fault {
	return f.add(Errorf(at, hint, format, args...))
}

// Warnf adds a warning, as [Faults.Errorf] adds an error.
func (f *Faults) Warnf(at Pos, hint, format string, args ...any) *Fault {
	return f.add(Fault{At: at, Message: fmt.Sprintf(format, args...), Hint: hint})
}

// Wrong adds an error of words that are ready, as [Faults.Errorf] adds one.
func (f *Faults) Wrong(at Pos, hint, message string) *Fault {
	return f.add(Wrong(at, hint, message))
}

// LookAgain adds a warning of words that are ready.
func (f *Faults) LookAgain(at Pos, hint, message string) *Fault {
	return f.add(Fault{At: at, Message: message, Hint: hint})
}

// Add adds faults found elsewhere.
func (f *Faults) Add(more ...Fault) { f.list = append(f.list, more...) }

// Len is how many there are.
func (f *Faults) Len() int { return len(f.list) }

// HasErrors reports whether any of them is an error.
func (f *Faults) HasErrors() bool { return HasErrors(f.list) }

// Sorted returns every fault once, by file, line, column and text.
func (f *Faults) Sorted() []Fault {
	out := slices.Clone(f.list)
	slices.SortStableFunc(out, func(a, b Fault) int {
		return cmp.Or(ComparePos(a.At, b.At), -cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Message, b.Message))
	})
	return slices.CompactFunc(out, func(a, b Fault) bool {
		return ComparePos(a.At, b.At) == 0 && a.Message == b.Message && a.Severity == b.Severity
	})
}

// HasErrors reports whether any fault is an error.
func HasErrors(faults []Fault) bool {
	return slices.ContainsFunc(faults, func(f Fault) bool { return f.Severity == Error })
}

// mostQuoted bounds what a message quotes, in characters.
const mostQuoted = 40

// Shorten keeps what a message quotes readable: its first line, and of that the
// beginning.
func Shorten(s string) string {
	s, _, more := strings.Cut(s, "\n")
	if r := []rune(s); len(r) > mostQuoted {
		return string(r[:mostQuoted]) + "…"
	}
	if more {
		return s + "…"
	}
	return s
}
