package garment

import (
	"slices"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// withNotions is a build as the rounds in force have its buttons and the like: the build
// itself where none alters any. What a round is said to be drawn into stands as it is.
func withNotions(b *record.Build, list []Alteration, inForce int) *record.Build {
	out := b
	for i := drawnIn(list); i < inForce && i < len(list); i++ {
		a := list[i]
		k := slices.IndexFunc(b.Notions, func(n record.Notion) bool { return a.notion != "" && n.Name.V == a.notion })
		if k < 0 {
			continue
		}
		out = ownNotions(b, out)
		alterNotion(&out.Notions[k], a.Change)
	}
	return out
}

// ownNotions is a build with a list of notions of its own: out, where it is no longer b
// itself.
func ownNotions(b, out *record.Build) *record.Build {
	if out != b {
		return out
	}
	other := *b
	other.Notions = slices.Clone(b.Notions)
	return &other
}

// alterNotion sets a notion out anew. A word of the record that a new one would
// contradict gives way: of first, last, count and every the rest follows.
func alterNotion(n *record.Notion, c *record.Change) {
	if c.Size.Given() {
		n.Size = c.Size
	}
	if c.Place.Given() {
		n.Place = c.Place
	}
	if c.First.Given() {
		n.First = c.First
	}
	if c.Last.Given() {
		n.Last = c.Last
	}
	if c.Count.Given() {
		n.Count = c.Count
	}
	if c.Every.Given() {
		n.Every = c.Every
	}
	alterLaid(n, c)
	if c.First.Given() || c.Last.Given() || c.Count.Given() || c.Every.Given() {
		n.Drawn = nil
	}
	if n.First.Given() != n.Last.Given() {
		return // so many, so far apart, from one end
	}
	switch {
	case c.Count.Given() && !c.Every.Given():
		n.Every = record.Length{}
	case c.Every.Given() && !c.Count.Given():
		n.Count = record.Count{}
	}
}

// alterLaid changes how long what is sold by length is: of its length and its share the
// later one holds.
func alterLaid(n *record.Notion, c *record.Change) {
	if c.Length.Given() {
		n.Length, n.Share = c.Length, record.Turns{}
	}
	if c.Share.Given() {
		n.Share, n.Length = c.Share, record.Length{}
	}
	if c.Clear.Given() {
		n.Clear = c.Clear
	}
	if c.Free.Given() {
		n.Free = c.Free
	}
}

// notionBecomes says what a change does to what is set out along an edge.
func notionBecomes(c *record.Change, style measure.Style) string {
	out := c.Notion.V
	if c.Count.Given() {
		out += say.Of("garment.of-them", countWord(c.Count.V))
	}
	if c.Every.Given() {
		out += say.Of("garment.apart", style.Length(c.Every.V))
	}
	for _, end := range []struct {
		word string
		at   record.Where
	}{{"at", c.Place}, {say.Of("garment.the-first-at"), c.First}, {say.Of("garment.the-last-at"), c.Last}} {
		if end.at.Given() {
			out += ", " + end.word + " " + whereWords(end.at, style)
		}
	}
	if c.Size.Given() {
		out += say.Of("garment.wide-2", style.Length(c.Size.V))
	}
	return out + laidBecomes(c, style)
}

// laidBecomes says what a change does to what is sold by length.
func laidBecomes(c *record.Change, style measure.Style) (out string) {
	if c.Length.Given() {
		out += say.Of("garment.cut-so-long", style.Length(c.Length.V))
	}
	if c.Share.Given() {
		out += say.Of("garment.times-its-channel", strconv.FormatFloat(float64(c.Share.V), 'g', 4, 64))
	}
	if c.Clear.Given() {
		out += say.Of("garment.clear-at-each-end", style.Length(c.Clear.V))
	}
	if c.Free.Given() {
		out += say.Of("garment.hanging-free", style.Length(c.Free.V))
	}
	return out
}

// whereWords is a place on an edge in words: "65 mm from neck".
func whereWords(at record.Where, style measure.Style) string {
	switch {
	case at.V.Plain():
		return style.Length(at.V.By)
	case at.V.By != 0:
		return say.Of("garment.from", style.Length(at.V.By), at.V.From)
	case at.V.From != "":
		return at.V.From
	}
	return say.Of("garment.the-middle")
}
