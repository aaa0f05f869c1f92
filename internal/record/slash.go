package record

import (
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
)

// A Slash is where a piece is cut through: from one place on an edge to another.
type Slash [2]Spot

// A Spread is by how much a slash opens at either end; where it is negative, the parts lap.
type Spread [2]measure.Length

func readSlash(d *decoder, text string, _ limits) (Slash, *fault.Fault) {
	edges, places, bad := phrase.ReadCut(text, d.bare)
	return Slash{{Edge: edges[0], Where: places[0]}, {Edge: edges[1], Where: places[1]}}, bad
}

// spreadKind reads one length, or [at the first end, at the other].
type spreadKind struct{}

// How far a slash may open or lap, in millimetres; own choice, no source.
var leastSpread, mostSpread = -1000.0, 1000.0

func (spreadKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	var out Spread
	if n.Kind == yaml.SequenceNode {
		ends, ok := lengthsIn(d, n, 2, say.Of("record.two-lengths-at-either-end-of-the"), "[15, 0]", limits{min: &leastSpread})
		if !ok {
			return
		}
		out = Spread{ends[0].V, ends[1].V}
	} else {
		var one Length
		kindOf(reflect.TypeFor[Length]()).read(d, n, reflect.ValueOf(&one).Elem(), limits{min: &leastSpread, max: &mostSpread})
		if !one.Given() {
			return
		}
		out = Spread{one.V, one.V}
	}
	switch {
	case out == Spread{}:
		d.faults.Wrong(at, say.Of("record.say-by-how-much-as-15-or"), say.Of("record.a-slash-that-opens-by-nothing-changes"))
	case out[0] < 0 && out[1] > 0, out[0] > 0 && out[1] < 0:
		d.faults.Wrong(at, say.Of("record.slash-it-twice-or-let-one-end"), say.Of("record.a-slash-cannot-open-at-one-end"))
	default:
		into.Set(reflect.ValueOf(Val[Spread]{out, at}))
	}
}

func (spreadKind) schema(s *schemaWriter, _ limits) map[string]any {
	return map[string]any{"anyOf": []any{pointForm(s), s.of(reflect.TypeFor[Length](), limits{min: &leastSpread, max: &mostSpread})}}
}

// ofSlash finds out whether a change slashes a piece, which stands in the place of an edge.
func (c *buildCheck) ofSlash(ch *Change, name string) *Piece {
	p := c.pieces[name]
	if len(ch.slashWords()) == 0 && !ch.unread {
		return nil
	}
	if p == nil && !strings.Contains(name, ".") {
		p, _ = c.oneOfPair(EdgeRef{At: ch.Edge.At, Piece: name})
	}
	if p == nil || slices.Contains(c.edges[name], name) {
		return nil
	}
	ch.Whole, ch.Edge = Text{name, ch.Edge.At}, Text{}
	return p
}

// slashWords are the words of a change that only a slash has.
func (c *Change) slashWords() []Text {
	return givenWords([]Text{{"slash", c.Slash.At}, {"spread", c.Spread.At}})
}

// changesSlash checks a slash; false where there is none, and the rest is to be looked at.
func (c *buildCheck) changesSlash(ch *Change, p *Piece) bool {
	own := ch.slashWords()
	switch {
	case len(own) == 0:
		return ch.Whole.Given() // what could not be read was told
	case ch.unread:
		return true
	}
	others := slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords(), ch.gatherWords())
	switch {
	case !ch.Whole.Given() && !ch.Edge.Given():
		c.faults.Wrong(own[0].At, say.Of("record.a-piece-is-slashed-or-the-part"), say.Of("record.belongs-to-a-piece", own[0].V))
	case len(others) > 0:
		c.faults.Wrong(others[0].At, say.Of("record.keep-it-for-a-change-of-its"), say.Of("record.does-not-belong-to-a-slash", others[0].V))
	case !ch.Slash.Given():
		c.faults.Wrong(ch.Spread.At, say.Of("record.say-where-it-is-cut-through-as"), say.Of("record.spread-opens-a-slash-and-there-is"))
	case !ch.Spread.Given():
		c.faults.Wrong(ch.Slash.At, say.Of("record.say-by-how-much-it-opens-as"), say.Of("record.this-slash-opens-by-nothing"))
	}
	for _, s := range ch.Slash.V {
		if p != nil && ch.Slash.Given() {
			c.edgeIn(Text{s.Edge, ch.Slash.At}, p)
			c.where(s.Edge, Where{V: s.Where, At: ch.Slash.At}, p)
		}
	}
	return true
}
