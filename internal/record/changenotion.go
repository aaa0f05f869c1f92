package record

import (
	"slices"

	"hembook/internal/fault"
)

// ofNotion finds out whether a change is of what is set out along an edge, by its
// name, where no edge, seam or finish has it.
func (c *buildCheck) ofNotion(ch *Change) bool {
	n := c.notionNamed(ch.Edge.V)
	if n == nil || len(c.b.sewnTogether(ch.Edge.V)) > 0 {
		return false
	}
	ch.Notion, ch.Edge = ch.Edge, Text{}
	if !n.SetOut() && !n.unread && ch.Does() {
		c.faults.Errorf(ch.Notion.At, "change it under notions:, and say so in a note: of the fitting", "%s is not set out along an edge, so no fitting can move it", fault.Shorten(n.Name.V))
	}
	for _, at := range []Where{ch.Place, ch.First, ch.Last} {
		if p := c.pieceMeant(n.Along.V.Piece); p != nil && at.Given() {
			c.where(n.Along.V.Edge, at, p)
		}
	}
	return true
}

func (c *buildCheck) notionNamed(name string) *Notion {
	i := slices.IndexFunc(c.b.Notions, func(n Notion) bool { return n.Name.V == name })
	if i < 0 {
		return nil
	}
	return &c.b.Notions[i]
}

// notionWords are the words of a change that only what is set out along an edge has.
func (c *Change) notionWords() []Text {
	return givenWords([]Text{{"first", c.First.At}, {"last", c.Last.At}, {"every", c.Every.At}, {"size", c.Size.At}})
}

// changesNotion checks a change of what is set out along an edge, and tells of its
// words where another thing is changed; false where the rest is to be looked at.
func (c *buildCheck) changesNotion(ch *Change) bool {
	own := ch.notionWords()
	if !ch.Notion.Given() {
		if len(own) > 0 {
			c.faults.Errorf(own[0].At, "under notions: buttons and the like are set out; a fitting changes them by their name, as buttons: {count: 7}", "%s: belongs to buttons and the like", own[0].V)
		} else if w := ch.Place; ch.Dart.Given() && w.Given() && !w.V.Plain() {
			c.faults.Errorf(w.At, "write how far along its edge, as at: 60", "a dart that is moved says how far it is from where its edge begins")
		}
		return len(own) > 0
	}
	other := givenWords([]Text{{"depth", ch.Depth.At}, {"stitched", ch.Stitched.At}, {"runs", ch.Runs.At}})
	for _, w := range slices.Concat(ch.edgeWords(), ch.dartWords(), other) {
		if w.V != "at" {
			c.faults.Errorf(w.At, "of what is set out along an edge count:, every:, first:, last:, at: and size: can change", "%s: does not belong to %s", w.V, fault.Shorten(ch.Notion.V))
			return true
		}
	}
	switch n := c.notionNamed(ch.Notion.V); {
	case n.Place.Given() && (len(own) > 0 || ch.Count.Given()) && !(len(own) == 1 && ch.Size.Given() && !ch.Count.Given()):
		c.faults.Errorf(ch.At, "write at: and the new place", "%s is a single one, at one place", fault.Shorten(ch.Notion.V))
	case ch.Place.Given() && n.SetOut() && !n.Place.Given():
		c.faults.Errorf(ch.Place.At, "write first:, last:, every: or count:", "%s are several, set out along an edge: at: is the place of one", fault.Shorten(ch.Notion.V))
	case !ch.Does() && !ch.Count.Given() && !ch.Note.Given():
		c.faults.Warnf(ch.At, "add count:, every:, first:, last:, at: or size:, or note:", "this change does not say what is altered")
	}
	return true
}

// holesOn checks the line that buttonholes lie along.
func (c *buildCheck) holesOn(n *Notion) {
	on := n.HolesOn
	switch {
	case !on.Given():
	case on.V.Piece == "":
		c.faults.Errorf(on.At, "name the edge, or a line beside one, as 12 inside cuff.right", "%q is no edge of a piece", fault.Shorten(on.V.Edge))
	case !n.Along.Given():
		c.faults.Errorf(on.At, "add along: and the edge that the buttons lie along", "the buttonholes of %q have a line, the buttons have none", fault.Shorten(n.Name.V))
	case n.Holes.V == "loops" || n.Holes.V == "none":
		c.faults.Errorf(on.At, "leave it out, or say holes: upright or level", "%q has holes: %s", fault.Shorten(n.Name.V), n.Holes.V).Without(on.At)
	default:
		c.edgeRef(on.V)
	}
}
