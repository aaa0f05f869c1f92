package record

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/say"
)

// linesLaid hands the lines that pattern files draw for tapes, boning, elastic and cords to
// the notions that are called like them. What the record itself says of its place stands,
// and the line is left out; what is called like no notion is told, and stays a line.
func (c *buildCheck) linesLaid() {
	for i := range c.b.Pieces {
		p := &c.b.Pieces[i]
		p.Lines = slices.DeleteFunc(p.Lines, func(l LineSpec) bool {
			if l.Laid == "" {
				return false
			}
			n := c.notionLaid(l.Name.V, l.Laid)
			switch {
			case n == nil:
				c.faults.LookAgain(p.Outline.File.At, say.Of("record.write-it-under-notions-with-material", withoutNumber(l.Name.V)),
					say.Of("record.draws-on-and-no-notion-is-called", p.Outline.File.V, withoutNumber(l.Name.V), p.Name.V))
			case n.Along.Given() || len(n.In) > 0:
				return true
			default:
				n.Laid = append(n.Laid, EdgeRef{At: l.At, Piece: p.Name.V, Edge: l.Name.V})
			}
			return false
		})
	}
}

// notionLaid is the notion that a drawn line is the place of: called as the line is, with
// or without the word for its kind behind or before it, and without the number of one of
// several.
func (c *buildCheck) notionLaid(name, kind string) *Notion {
	for _, called := range []string{name, withoutNumber(name)} {
		plain := strings.TrimSuffix(called, " "+kind)
		for _, one := range []string{called, plain, kind + " " + plain} {
			if n := c.notionNamed(one); n != nil && n.InLengths() {
				return n
			}
		}
	}
	return nil
}

// withoutNumber is a name without the number behind it: "boning 2" is one of "boning".
func withoutNumber(name string) string {
	if k := strings.LastIndexByte(name, ' '); k > 0 {
		if _, err := strconv.Atoi(name[k+1:]); err == nil {
			return name[:k]
		}
	}
	return name
}
