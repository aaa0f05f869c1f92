package trade

import (
	"fmt"
	"sort"
	"strings"
)

// A Fault is one thing wrong with a table, placed where it was written. Line
// and Column count from 1; 0 means the place is not known.
type Fault struct {
	Line, Column int
	Text         string // lower case, no full stop
	Hint         string // what was probably meant; may be empty
}

func (f Fault) Error() string {
	var b strings.Builder
	if f.Line > 0 {
		fmt.Fprintf(&b, "line %d", f.Line)
		if f.Column > 0 {
			fmt.Fprintf(&b, ", column %d", f.Column)
		}
		b.WriteString(": ")
	}
	b.WriteString(f.Text)
	if f.Hint != "" {
		b.WriteString("; " + f.Hint)
	}
	return b.String()
}

// Faults are all the things wrong with one table, in the order of their lines.
type Faults []Fault

func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

func (fs Faults) sorted() Faults {
	sort.SliceStable(fs, func(i, j int) bool {
		if fs[i].Line != fs[j].Line {
			return fs[i].Line < fs[j].Line
		}
		return fs[i].Column < fs[j].Column
	})
	return fs
}
