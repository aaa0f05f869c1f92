package record

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// ofNotion finds out whether a change is of what is set out along an edge, by its
// name, where no edge, seam or finish has it.
func (c *buildCheck) ofNotion(ch *Change) bool {
	n := c.notionNamed(ch.Edge.V)
	if n == nil || len(c.b.sewnTogether(ch.Edge.V)) > 0 {
		return false
	}
	ch.Notion, ch.Edge = ch.Edge, Text{}
	if !n.SetOut() && !n.InLengths() && !n.unread && ch.Does() {
		c.faults.Wrong(ch.Notion.At, say.Of("record.change-it-under-notions-and-say-so"), say.Of("record.is-not-set-out-along-an-edge", fault.Shorten(n.Name.V)))
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

// notionWords are the words of a change that only notions have.
func (c *Change) notionWords() []Text { return append(c.spreadWords(), c.laidWords()...) }

// spreadWords are those that only what is set out along an edge has.
func (c *Change) spreadWords() []Text {
	return givenWords([]Text{{"first", c.First.At}, {"last", c.Last.At}, {"every", c.Every.At}, {"size", c.Size.At}})
}

// laidWords are those that only what is sold by length has.
func (c *Change) laidWords() []Text {
	return givenWords([]Text{{"share", c.Share.At}, {"clear", c.Clear.At}, {"free", c.Free.At}})
}

// changesNotion checks a change of what is set out along an edge, and tells of its
// words where another thing is changed; false where the rest is to be looked at.
func (c *buildCheck) changesNotion(ch *Change) bool {
	own := ch.notionWords()
	if !ch.Notion.Given() {
		if len(own) > 0 {
			c.faults.Wrong(own[0].At, say.Of("record.under-notions-buttons-and-the-like-are"), say.Of("record.belongs-to-buttons-and-the-like", own[0].V))
		} else if w := ch.Place; ch.Dart.Given() && w.Given() && !w.V.Plain() {
			c.faults.Wrong(w.At, say.Of("record.write-how-far-along-its-edge-as"), say.Of("record.a-dart-that-is-moved-says-how"))
		}
		return len(own) > 0
	}
	n := c.notionNamed(ch.Notion.V)
	if n.InLengths() && !n.SetOut() {
		c.changesLaid(ch)
		return true
	}
	other := givenWords([]Text{{"depth", ch.Depth.At}, {"stitched", ch.Stitched.At}, {"runs", ch.Runs.At}})
	for _, w := range slices.Concat(ch.edgeWords(), ch.dartWords(), other, ch.laidWords()) {
		if w.V != "at" {
			c.faults.Wrong(w.At, say.Of("record.of-what-is-set-out-along-an"), say.Of("record.does-not-belong-to", w.V, fault.Shorten(ch.Notion.V)))
			return true
		}
	}
	switch {
	case n.Place.Given() && (len(own) > 0 || ch.Count.Given()) && !(len(own) == 1 && ch.Size.Given() && !ch.Count.Given()):
		c.faults.Wrong(ch.At, say.Of("record.write-at-and-the-new-place"), say.Of("record.is-a-single-one-at-one-place", fault.Shorten(ch.Notion.V)))
	case ch.Place.Given() && n.SetOut() && !n.Place.Given():
		c.faults.Wrong(ch.Place.At, say.Of("record.write-first-last-every-or-count"), say.Of("record.are-several-set-out-along-an-edge", fault.Shorten(ch.Notion.V)))
	case !ch.Does() && !ch.Count.Given() && !ch.Note.Given():
		c.faults.LookAgain(ch.At, say.Of("record.add-count-every-first-last-at-or"), say.Of("record.this-change-does-not-say-what-is"))
	}
	return true
}

// changesLaid checks a change of what is sold by length: a tape, boning, elastic, a cord.
func (c *buildCheck) changesLaid(ch *Change) {
	for _, w := range slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords(), ch.gatherWords(), ch.spreadWords()) {
		if w.V != "length" {
			c.faults.Wrong(w.At, say.Of("record.of-tapes-boning-elastic-and-cords"), say.Of("record.does-not-belong-to", w.V, fault.Shorten(ch.Notion.V)))
			return
		}
	}
	switch {
	case ch.Length.Given() && ch.Share.Given():
		c.faults.Wrong(ch.Share.At, say.Of("record.keep-one-of-them"), say.Of("record.length-says-how-long-it-is-and", fault.Shorten(ch.Notion.V))).Without(ch.Share.At)
	case !ch.Does() && !ch.Note.Given():
		c.faults.LookAgain(ch.At, say.Of("record.add-length-share-clear-or-free"), say.Of("record.this-change-does-not-say-what-is"))
	}
}

// holesOn checks the line that buttonholes lie along.
func (c *buildCheck) holesOn(n *Notion) {
	on := n.HolesOn
	switch {
	case !on.Given():
	case on.V.Piece == "":
		c.faults.Wrong(on.At, say.Of("record.name-the-edge-or-a-line-beside"), say.Of("record.is-no-edge-of-a-piece", say.Quoted(fault.Shorten(on.V.Edge))))
	case !n.Along.Given():
		c.faults.Wrong(on.At, say.Of("record.add-along-and-the-edge-that-the"), say.Of("record.the-buttonholes-of-have-a-line-the", say.Quoted(fault.Shorten(n.Name.V))))
	case n.Holes.V == "loops" || n.Holes.V == "none":
		c.faults.Wrong(on.At, say.Of("record.leave-it-out-or-say-holes-upright"), say.Of("record.has-holes", say.Quoted(fault.Shorten(n.Name.V)), n.Holes.V)).Without(on.At)
	default:
		c.edgeRef(on.V)
	}
}
