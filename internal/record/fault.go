package record

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
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

// A Fault is one thing wrong with a record, at the place where the maker wrote it.
type Fault struct {
	At       Pos
	Severity Severity
	Message  string // lower case, no full stop
	Hint     string // what was probably meant, or what to do; may be empty
}

// String prints the fault as the terminal shows it, the hint on its own line.
func (f Fault) String() string {
	s := fmt.Sprintf("%s: %s: %s", f.At, f.Severity, f.Message)
	if f.Hint != "" {
		s += "\n    " + f.Hint
	}
	return s
}

// MarshalJSON writes file, line, column, severity, message and hint.
func (f Fault) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		File     string   `json:"file"`
		Line     int32    `json:"line"`
		Column   int32    `json:"column"`
		Severity Severity `json:"severity"`
		Message  string   `json:"message"`
		Hint     string   `json:"hint"`
	}{f.At.File(), f.At.Line, f.At.Column, f.Severity, f.Message, f.Hint})
}

// mostFaults bounds how many faults are told at once: a file that goes wrong
// in more places than this goes wrong in one way many times over.
const mostFaults = 1000

// Faults collects what is wrong. The zero value is ready to use.
type Faults struct{ list []Fault }

func (f *Faults) add(one Fault) {
	if len(f.list) < mostFaults {
		f.list = append(f.list, one)
	} else if len(f.list) == mostFaults {
		f.list = append(f.list, Fault{one.At, Error, "there are more faults than can be told at once", "mend those first"})
	}
}

// Errorf adds an error. The hint may be empty.
func (f *Faults) Errorf(at Pos, hint, format string, args ...any) {
	f.add(Fault{at, Error, fmt.Sprintf(format, args...), hint})
}

// Warnf adds a warning. The hint may be empty.
func (f *Faults) Warnf(at Pos, hint, format string, args ...any) {
	f.add(Fault{at, Warning, fmt.Sprintf(format, args...), hint})
}

// Add adds faults found elsewhere.
func (f *Faults) Add(more ...Fault) { f.list = append(f.list, more...) }

// Sorted returns every fault once, by file, line, column and text.
func (f *Faults) Sorted() []Fault {
	out := slices.Clone(f.list)
	slices.SortStableFunc(out, func(a, b Fault) int {
		return cmp.Or(comparePos(a.At, b.At), -cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Message, b.Message))
	})
	return slices.CompactFunc(out, func(a, b Fault) bool {
		return comparePos(a.At, b.At) == 0 && a.Message == b.Message && a.Severity == b.Severity
	})
}

// HasErrors reports whether any fault is an error.
func HasErrors(faults []Fault) bool {
	return slices.ContainsFunc(faults, func(f Fault) bool { return f.Severity == Error })
}
