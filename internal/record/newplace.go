package record

import (
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/say"
)

// A NewPlace is where a thing lies from now on: along its own edge, or on another piece.
type NewPlace struct {
	Where Where
	Spot  Val[Spot]
}

// newPlaceKind reads a place on an edge, a place of an edge that it names, or [x, y].
type newPlaceKind struct{}

func (newPlaceKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	out := Val[NewPlace]{At: d.pos(n)}
	of, is := d.resolve(n), false
	if of != nil {
		is = of.Kind == yaml.SequenceNode || of.Kind == yaml.ScalarNode && slices.Contains(strings.Fields(of.Value)[min(1, len(strings.Fields(of.Value))):], "at")
	}
	if is {
		spotKind{}.read(d, n, reflect.ValueOf(&out.V.Spot).Elem(), lim)
	} else {
		kindOf(reflect.TypeFor[Where]()).read(d, n, reflect.ValueOf(&out.V.Where).Elem(), lim)
	}
	if out.V.Where.Given() || out.V.Spot.Given() {
		into.Set(reflect.ValueOf(out))
	}
}

func (newPlaceKind) schema(s *schemaWriter, lim limits) map[string]any {
	return map[string]any{"anyOf": []any{s.of(reflect.TypeFor[Where](), lim), spotKind{}.schema(s, lim)}}
}

// settleAt says which of its two meanings the place of a change has.
func (c *Change) settleAt() { c.Place, c.Spot = c.NewAt.V.Where, c.NewAt.V.Spot }

// setOnSeam is the seam of a name that sets a piece on another; nil where there is none.
func (b *Build) setOnSeam(name string) *Seam {
	for i := range b.Seams {
		if s := &b.Seams[i]; s.Name.V == name && name != "" && s.Place.Given() {
			return s
		}
	}
	return nil
}

// setOnWords are the words of a change that only a piece set on another has.
func (c *Change) setOnWords() []Text {
	return givenWords([]Text{{"at", c.Spot.At}, {"angle", c.Angle.At}})
}

// changedSetOn checks a change of a piece that is set on another: where it lies, and how it
// is turned.
func (c *buildCheck) changedSetOn(ch *Change) {
	s := c.b.setOnSeam(ch.SetOn.V)
	if ch.Place.Given() {
		c.faults.Wrong(ch.Place.At, say.Of("record.write-the-point-of-its-upper-left"), say.Of("record.lies-on-another-piece-and-this-is", s.Name.V))
		return
	}
	for _, word := range slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords(), ch.notionWords()) {
		c.faults.Wrong(word.At, say.Of("record.of-a-piece-that-is-set-on", s.Join[0][0].Piece), say.Of("record.does-not-belong-to", word.V, s.Name.V))
	}
	if !ch.Does() && !ch.Note.Given() {
		c.faults.LookAgain(ch.At, say.Of("record.add-at-and-where-it-lies-angle"), say.Of("record.this-change-does-not-say-what-is"))
	}
	if at := ch.Spot; at.V.Edge != "" && len(s.Join) == 2 && len(s.Join[1]) == 1 {
		name := s.Join[1][0].Piece
		if _, piece, ok := Handed(name); ok && c.pieces[name] == nil {
			name = piece
		}
		if p := c.pieces[name]; p != nil {
			c.edgeIn(Text{at.V.Edge, at.At}, p)
			c.where(at.V.Edge, Where{V: at.V.Where, At: at.At}, p)
		}
	}
}
