package notebook

import (
	"strconv"
	"strings"

	"hembook/internal/say"
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
var Leaves = []struct{ Name, Short, Lead string }{
	{"pieces", say.Of("notebook.pieces"), say.Of("notebook.every-pattern-piece-to-scale-with-its")},
	{"together", say.Of("notebook.how-it-goes-together"), say.Of("notebook.every-piece-laid-flat-with-what-is")},
	{"alter", say.Of("notebook.what-it-can-give"), say.Of("notebook.where-there-is-cloth-to-let-out")},
	{"seams", say.Of("notebook.seams"), say.Of("notebook.every-seam-and-hem-with-a-section")},
	{"truing", say.Of("notebook.truing"), say.Of("notebook.edges-that-are-sewn-together-compared")},
	{"cloth", say.Of("notebook.cloth-and-notions"), say.Of("notebook.what-to-have-ready-before-you-cut")},
	{"lay", say.Of("notebook.lay-plan"), say.Of("notebook.where-each-piece-lies-and-where-to")},
	{"fit", say.Of("notebook.fit"), say.Of("notebook.finished-measurements-and-what-each")},
	{"work", say.Of("notebook.order-of-work"), say.Of("notebook.every-step-planned-and-how-long-it")},
	{"journal", say.Of("notebook.journal-and-notes"), say.Of("notebook.what-was-done-seen-and-thought")},
}

// Leaf is the further page of that name and number; it must be one of [Leaves].
func (p *BuildPage) Leaf(name string, number int) Leaf {
	for _, l := range Leaves {
		if l.Name != name {
			continue
		}
		address, heading := name, say.Of("leaf."+name, p.Heading)
		if number > 1 {
			address += "-" + strconv.Itoa(number)
			heading += say.Of("notebook.page", strconv.Itoa(number))
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
		l.Heading = strings.TrimSuffix(l.Heading, say.Of("notebook.page", l.Number)) + ": " + what
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
		h.Heading += say.Of("notebook.page", number)
	}
	return h
}
