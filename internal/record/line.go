package record

import (
	"reflect"
	"regexp"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
)

// A Beside is how far inside which edge of its own piece a line runs.
type Beside struct {
	Edge string
	By   measure.Length
}

// A Spot is a place on a piece: on one of its edges, or a point.
type Spot struct {
	Edge  string // "" of a point
	Where phrase.Where
	Point XY
}

// besideOut is a line beside an edge as somebody says it who looks from outside.
var besideOut = regexp.MustCompile(`^(\d[^ ]*(?: (?:mm|cm|in))?) (?:outside|beside|from|off) (.+)$`)

// readBeside reads "18 inside front edge".
func readBeside(d *decoder, text string, _ limits) (Beside, *fault.Fault) {
	l, bad := phrase.ReadLine(text, d.bare)
	switch {
	case bad != nil:
		return Beside{}, bad
	case !l.Part.Whole():
		return Beside{}, wrong(say.Of("record.leave-out-or-write-from-and-to", l.Part.String()), say.Of("record.a-line-runs-beside-a-whole-edge"))
	case l.Inside <= 0 && besideOut.MatchString(text):
		m := besideOut.FindStringSubmatch(text)
		now := m[1] + " " + "inside" + " " + m[2]
		return Beside{}, wrong(say.Of("record.write", now), say.Of("record.a-line-lies-inside-its-edge")).Whole(now)
	case l.Inside <= 0:
		return Beside{}, wrong(say.Of("record.say-how-far-inside-it-as-18", l.Name), say.Of("record.does-not-say-how-far-inside-the", say.Quoted(fault.Shorten(text))))
	}
	return Beside{l.Name, l.Inside}, nil
}

// spotKind reads a place on an edge, or [x, y].
type spotKind struct{}

var spotEg = say.Of("record.wrist-at-75-from-underarm-back-or")

func (spotKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if n.Kind == yaml.SequenceNode {
		if l, ok := lengthsIn(d, n, 2, say.Of("record.a-point-x-y"), pointEg, limits{}); ok {
			into.Set(reflect.ValueOf(Val[Spot]{Spot{Point: xy(l)}, at}))
		}
		return
	}
	if n.Kind != yaml.ScalarNode || isNull(n) {
		d.faults.Wrong(at, say.Of("record.write", spotEg), say.Of("record.this-must-be-a-place-on-an", shapeOf(n)))
		return
	}
	edge, where, bad := phrase.ReadPlace(n.Value, d.bare)
	if bad != nil {
		d.misread(n, at, bad)
		return
	}
	into.Set(reflect.ValueOf(Val[Spot]{Spot{Edge: edge, Where: where}, at}))
}

func (spotKind) schema(s *schemaWriter, _ limits) map[string]any {
	return map[string]any{"anyOf": []any{pointForm(s), map[string]any{"type": "string", "pattern": `\S\s+at\s+\S`}}}
}

// lines checks the lines of a piece.
func (c *buildCheck) lines(p *Piece) {
	edges := c.renamed(p)
	for i := range p.Lines {
		l := &p.Lines[i]
		if !l.At.Given() {
			continue
		}
		if slices.Contains(edges, l.Name.V) {
			c.faults.Wrong(l.Name.At, say.Of("record.give-the-line-another-name"), say.Of("record.is-an-edge-already", p.Name.V, fault.Shorten(l.Name.V)))
		}
		c.lineGiven(l, p)
		if l.Along.Given() {
			c.edgeIn(Text{l.Along.V.Edge, l.Along.At}, p)
		}
		for _, s := range []Val[Spot]{l.From, l.To} {
			if s.Given() && s.V.Edge != "" {
				c.edgeIn(Text{s.V.Edge, s.At}, p)
				c.where(s.V.Edge, Where{V: s.V.Where, At: s.At}, p)
			}
		}
	}
}

// lineGiven checks that a line is told in one way.
func (c *buildCheck) lineGiven(l *LineSpec, p *Piece) {
	ends := givenWords([]Text{{"from", l.From.At}, {"to", l.To.At}, {"length", l.Length.At}, {"curve", l.Bend.At}})
	switch {
	case l.unread, len(l.Path) > 0:
	case l.Along.Given() && len(ends) > 0:
		c.faults.Wrong(ends[0].At, say.Of("record.keep-along-or-from-and-to"), say.Of("record.lies-beside-an-edge-and-says-otherwise", p.Name.V, fault.Shorten(l.Name.V), ends[0].V))
	case l.Along.Given():
	case !l.From.Given():
		c.faults.Wrong(l.At, say.Of("record.write-how-far-inside-which-edge-as"), say.Of("record.does-not-say-where-it-runs", p.Name.V, fault.Shorten(l.Name.V)))
	case l.To.Given() && l.Length.Given():
		c.faults.Wrong(l.Length.At, say.Of("record.keep-one-of-them"), say.Of("record.to-and-length-both-say-where-ends", p.Name.V, fault.Shorten(l.Name.V)))
	case !l.To.Given() && !l.Length.Given():
		c.faults.Wrong(l.At, say.Of("record.add-to-and-a-place-or-length"), say.Of("record.does-not-say-where-it-ends-2", p.Name.V, fault.Shorten(l.Name.V)))
	case l.Length.Given() && l.From.V.Edge == "":
		c.faults.Wrong(l.Length.At, say.Of("record.let-it-end-at-a-point-as"), say.Of("record.length-goes-square-from-an-edge-and", p.Name.V, fault.Shorten(l.Name.V)))
	}
	if l.Slit.V && l.Fold.V {
		c.faults.Wrong(l.Fold.At, say.Of("record.keep-one-of-them"), say.Of("record.is-cut-open-and-folded-too", p.Name.V, fault.Shorten(l.Name.V)))
	}
}

// linesOf are the names of a piece's lines, or of those of the piece it is like.
func (c *buildCheck) linesOf(p *Piece) (out []string) {
	for n := 0; p != nil && n <= len(c.b.Pieces); n++ {
		if len(p.Lines) > 0 || !p.Like.Given() {
			for i := range p.Lines {
				out = append(out, p.Lines[i].Name.V)
			}
			return out
		}
		p = c.pieces[p.Like.V]
	}
	return nil
}

// line is a line of a piece, or of the piece it is like; nil where it has none so called.
func (c *buildCheck) line(p *Piece, name string) *LineSpec {
	for n := 0; p != nil && n <= len(c.b.Pieces); n++ {
		for i := range p.Lines {
			if p.Lines[i].Name.V == name {
				return &p.Lines[i]
			}
		}
		p = c.pieces[p.Like.V]
	}
	return nil
}

// onLine reports whether a reference names a line of a piece, of which it checks that it
// is named whole.
func (c *buildCheck) onLine(e EdgeRef, p *Piece) bool {
	if !slices.Contains(c.linesOf(p), e.Edge) {
		return false
	}
	if !e.Part.Whole() || e.Inside != 0 {
		c.faults.Wrong(e.At, say.Of("record.name-whole-or-draw-a-line-for", e.Piece, e.Edge), say.Of("record.not-yet-a-part-of-a-line", fault.Shorten(e.String())))
	}
	return true
}

// notOnLine tells of a line where only an edge can stand.
func (c *buildCheck) notOnLine(e EdgeRef) {
	if p := c.pieceMeant(e.Piece); p != nil && slices.Contains(c.linesOf(p), e.Edge) {
		c.faults.Wrong(e.At, say.Of("record.it-has-2", meant.List(c.edges[e.Piece], "and")), say.Of("record.is-a-line-and-an-edge-must", e.Piece, fault.Shorten(e.Edge)))
	}
}

// ofLine finds out whether a change is of a line: "slit", or "slit line".
func (c *buildCheck) ofLine(ch *Change, name string, p *Piece) {
	if !ch.Edge.Given() || slices.Contains(c.renamed(p), name) {
		return
	}
	lines := c.linesOf(p)
	line := name
	if !slices.Contains(lines, line) {
		if line = strings.TrimSuffix(name, " line"); !slices.Contains(lines, line) {
			return
		}
	}
	ch.Line, ch.Edge = Text{strings.TrimSuffix(ch.Edge.V, name) + line, ch.Edge.At}, Text{}
}

// settleLines puts the edge and how far inside it in the place of a line that runs beside
// one, where things are set out along it.
func (b *Build) settleLines() {
	for i := range b.Notions {
		n := &b.Notions[i]
		l := b.lineBeside(n.Along.V)
		if l == nil {
			continue
		}
		n.Line, n.lineAt = Text{n.Along.V.Edge, n.Along.At}, l.Along.At
		n.Along.V.Edge, n.Along.V.Inside = l.Along.V.Edge, l.Along.V.By
	}
	for i := range b.Notions {
		n := &b.Notions[i]
		if l := b.lineBeside(n.HolesOn.V); l != nil {
			n.HolesOn.V.Edge, n.HolesOn.V.Inside = l.Along.V.Edge, l.Along.V.By
		}
	}
}

// lineBeside is the line beside an edge that a reference names; nil where it names none.
func (b *Build) lineBeside(e EdgeRef) *LineSpec {
	if !e.Part.Whole() || e.Inside != 0 {
		return nil
	}
	name := e.Piece
	for n := 0; n <= len(b.Pieces); n++ {
		k := slices.IndexFunc(b.Pieces, func(p Piece) bool { return p.Name.V == name })
		if k < 0 {
			return nil
		}
		p := &b.Pieces[k]
		for i := range p.Lines {
			if l := &p.Lines[i]; l.Name.V == e.Edge && l.Along.Given() {
				return l
			}
		}
		if len(p.Lines) > 0 || !p.Like.Given() {
			return nil
		}
		name = p.Like.V
	}
	return nil
}
