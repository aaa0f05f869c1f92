package record

import (
	"slices"
	"strings"

	"hembook/internal/say"
	"hembook/internal/trade"
)

// ByHand is the word for buttonholes that are worked by hand.
const ByHand = "hand"

// Is says what a notion is, in the trade's words: what its what: says, else the
// last words of its name that are a kind of notion. Of a name that has none it is the
// whole name.
func (n *Notion) Is() string {
	said := n.What.Or(n.Name.V)
	if kind, ok := trade.NotionKind(said); ok {
		return kind
	}
	return said
}

// InFull is all that says what a notion is: its name, and its what: where that is
// written.
func (n *Notion) InFull() string {
	if n.What.Given() {
		return n.Name.V + ", " + n.What.V
	}
	return n.Name.V
}

// NeedsHoles reports whether buttonholes of a known length go with a notion: it is
// a button, its size is written, and it is not closed otherwise.
func (n *Notion) NeedsHoles() bool {
	if !n.Size.Given() || n.Holes.V == "loops" || n.Holes.V == "none" {
		return false
	}
	return n.Button()
}

func (n *Notion) faulty() { n.unread = true }

// byLength are the notions that are sold by the metre and cut to length.
var byLength = []string{"boning", "tape", "elastic", "cord", "ribbon", "braid", "lace", "webbing", "petersham", "piping", "stay", "horsehair", "binding"}

// InLengths reports whether a notion is of a kind that is sold by the metre.
func (n *Notion) InLengths() bool {
	what := strings.ToLower(n.Is())
	return slices.ContainsFunc(byLength, func(word string) bool { return strings.Contains(what, word) })
}

// SetOut reports whether a notion is put at places along its edge, and not along all of
// it: it says where, a pattern file draws where, or it is several of what is not sold by
// length.
func (n *Notion) SetOut() bool {
	if !n.Along.Given() {
		return false
	}
	return n.placesSaid() || len(n.Drawn) > 0 || n.Count.Given() && !n.Length.Given() && !n.InLengths()
}

func (n *Notion) placesSaid() bool {
	return n.Place.Given() || n.First.Given() || n.Last.Given() || n.Every.Given()
}

// Button reports whether a notion is a button.
func (n *Notion) Button() bool {
	is := strings.Fields(n.Is())
	return len(is) > 0 && is[len(is)-1] == "button"
}

// Upright reports whether its buttonholes lie along their line.
func (b *Build) Upright(n *Notion) bool {
	if n.Holes.V == "upright" || n.Holes.V == "level" {
		return n.Holes.V == "upright"
	}
	return slices.ContainsFunc([]string{"shirt", "blouse"}, func(kind string) bool { return strings.Contains(strings.ToLower(b.Garment.V), kind) })
}

// placesDrawn hands the places that pattern files draw to the notions that are called
// like them, lie along the piece and say no places of their own. What is called like none
// is told.
func (c *buildCheck) placesDrawn() {
	for i := range c.b.Pieces {
		p := &c.b.Pieces[i]
		told := map[string]bool{}
		for _, q := range p.Placed {
			n := c.notionNamed(q.Name)
			if n != nil && n.Along.V.Piece == p.Name.V {
				if !n.placesSaid() && !n.Count.Given() {
					n.Drawn = append(n.Drawn, q)
				}
				continue
			}
			if n == nil && !told[q.Name] {
				told[q.Name] = true
				c.faults.LookAgain(p.Outline.File.At, say.Of("record.write-it-under-notions-as-edge", q.Name, p.Name.V), say.Of("record.draws-where-are-put-on-and-no", p.Outline.File.V, q.Name, p.Name.V))
			}
		}
	}
}
