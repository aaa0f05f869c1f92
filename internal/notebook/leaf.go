package notebook

import (
	"fmt"
	"strconv"
	"strings"
)

// A Leaf is a further page of a build, for what would weigh its own page down:
// the drawings and tables that are looked things up in rather than read.
type Leaf struct {
	Head
	Name   string // "pieces": the last part of its address
	Short  string // "Pieces": as a build's other pages name it
	Number int    // 1, or more where one page would not hold it all
	Begins string // what a page after the first begins with; empty where nothing names it
}

// Leaves are the further pages of a build in their order.
var Leaves = []struct{ Name, Short, Heading, Lead string }{
	{"pieces", "Pieces", "Pieces of %s", "Every pattern piece to scale, with its allowances."},
	{"together", "How it goes together", "How the pieces of %s go together", "Every piece laid flat, with what is sewn to what."},
	{"alter", "What it can give", "What %s can give", "Where there is cloth to let out, what holds it, and what to open first."},
	{"seams", "Seams", "Seams of %s", "Every seam and hem, with a section."},
	{"truing", "Truing", "Truing of %s", "Edges that are sewn together, compared before cutting."},
	{"cloth", "Cloth and notions", "Cloth and notions of %s", "What to have ready before you cut, and what to be careful of."},
	{"lay", "Lay plan", "Lay plan of %s", "Where each piece lies, and where to chalk it."},
	{"fit", "Fit", "Fit of %s", "Finished measurements, and what each fitting showed and changed."},
	{"work", "Order of work", "Order of work of %s", "Every step: planned, and how long it took."},
	{"journal", "Journal and notes", "Journal of %s", "What was done, seen and thought."},
}

// Leaf is the further page of that name and number; it must be one of [Leaves].
func (p *BuildPage) Leaf(name string, number int) Leaf {
	for _, l := range Leaves {
		if l.Name != name {
			continue
		}
		address, heading := name, fmt.Sprintf(l.Heading, p.Heading)
		if number > 1 {
			address += "-" + strconv.Itoa(number)
			heading += ", page " + strconv.Itoa(number)
		}
		return Leaf{Name: name, Short: l.Short, Number: number, Head: Head{
			Address: Address(strings.TrimSuffix(string(p.Address), ".html") + "/" + address + ".html"),
			What:    "leaf", Heading: heading, Lead: l.Lead, Up: []Link{{BuildsAddress, garmentsName}, p.link()},
		}}
	}
	panic("a build has no page of the name " + name)
}

// From is a leaf that goes on another, named by what it begins with.
func (l Leaf) From(what string) Leaf {
	if l.Number > 1 && what != "" {
		l.Heading = strings.TrimSuffix(l.Heading, ", page "+strconv.Itoa(l.Number)) + ": " + what
		l.Begins = what
	}
	return l
}

// Leaf is the head of page number n of the record, from 1.
func (r *RecordPage) Leaf(n int) Head {
	h := r.Head
	if n > 1 {
		number := strconv.Itoa(n)
		h.Address = Address(strings.TrimSuffix(string(h.Address), ".html") + "/" + number + ".html")
		h.Heading += ", page " + number
	}
	return h
}
