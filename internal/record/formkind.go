package record

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
)

// edgeKind reads piece.edge.
type edgeKind struct{}

func (edgeKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	if lim.whole && d.setOn(n) {
		into.Set(reflect.ValueOf(EdgeRef{At: d.pos(n), Piece: strings.Join(strings.Fields(n.Value), " ")}))
		return
	}
	if ref, ok := readEdgeRef(d, n, false); ok {
		into.Set(reflect.ValueOf(ref))
	}
}

func (edgeKind) schema(_ *schemaWriter, lim limits) map[string]any {
	if lim.whole {
		return textForm
	}
	return map[string]any{"type": "string", "pattern": edgePattern}
}

// edgePattern is how an edge is named, or a part of one.
const edgePattern = `^(.+\sinside\s+)?.+\..+?(\sfrom\s+.+(\s(to|for)\s+.+)?)?$`

// readEdgeRef reads an edge or a part of one, and a line beside one where things may
// be put along it.
func readEdgeRef(d *decoder, n *yaml.Node, beside bool) (EdgeRef, bool) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return EdgeRef{}, false
	}
	if n.Kind != yaml.ScalarNode || isNull(n) {
		d.faults.Wrong(at, say.Of("record.write-piece-edge-as-front-side"), say.Of("record.this-must-name-an-edge-it-is", shapeOf(n)))
		return EdgeRef{}, false
	}
	if now := edgesInRow(n.Value); now != "" && !beside {
		d.faults.Wrong(at, say.Of("record.write", now), say.Of("record.here-are-several-edges-they-stand-in")).InsteadAt(at, "", now)
		return EdgeRef{}, false
	}
	l, bad := phrase.ReadLine(n.Value, d.bare)
	if bad != nil {
		d.misread(n, at, bad)
		return EdgeRef{}, false
	}
	dot := strings.LastIndex(l.Name, ".")
	switch {
	case dot < 0 && beside && d.lineMeant(n, l, at):
		return EdgeRef{}, false
	case dot < 0 && beside && isNumber(l.Name):
		d.faults.Wrong(at, say.Of("record.write-piece-edge-as-front-side"), say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(l.Name))))
		return EdgeRef{}, false
	case dot < 0 && beside && (l.Part.Open() || l.Inside != 0):
		d.faults.Wrong(at, say.Of("record.write-alone-or-name-the-edge-as", l.Name), say.Of("record.not-yet-a-part-of-a-seam", fault.Shorten(l.Text)))
		return EdgeRef{}, false
	case dot < 0 && beside:
		return EdgeRef{At: at, Edge: l.Name, Part: l.Part}, true // a seam or finish, which is looked up when all is read
	case dot < 0 && d.wholeYet(l.Name, at):
		return EdgeRef{}, false
	case dot <= 0 || dot == len(l.Name)-1:
		hint, now := d.edgeMeant(strings.Trim(l.Name, "."))
		d.faults.Wrong(at, hint, say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(l.Name)))).InsteadAt(at, l.Name, now)
		return EdgeRef{}, false
	case l.Part.Open():
		d.faults.Wrong(at, say.Of("record.write-from-to-and-a-name-or", l.Part.From), say.Of("record.does-not-say-where-it-ends", say.Quoted(fault.Shorten(l.Text))))
		return EdgeRef{}, false
	case l.Inside != 0 && !beside:
		d.faults.Wrong(at, say.Of("record.leave-it-out-or-say-it-in"), say.Of("record.not-yet-a-line-beside-an-edge", fault.Shorten(l.Text)))
		return EdgeRef{}, false
	}
	return EdgeRef{At: at, Piece: strings.TrimSpace(l.Name[:dot]), Edge: strings.TrimSpace(l.Name[dot+1:]), Part: l.Part, Inside: l.Inside}, true
}

// edgeValKind reads one optional piece.edge along which things are put.
type edgeValKind struct{}

func (edgeValKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	if ref, ok := readEdgeRef(d, n, true); ok {
		into.Set(reflect.ValueOf(Val[EdgeRef]{ref, ref.At}))
	}
}

// A seam or finish may stand in an edge's place, so that its form is any text.
func (edgeValKind) schema(*schemaWriter, limits) map[string]any {
	return map[string]any{"type": []string{"string", "boolean"}, "pattern": `\S`}
}

// longestPiece is how far a point of a piece may lie from where it is measured,
// and how long a piece may be, in millimetres; own choice, no source.
var longestPiece = 100_000.0

// lengthsIn reads a list of so many lengths.
func lengthsIn(d *decoder, n *yaml.Node, want int, what, eg string, lim limits) ([]Length, bool) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return nil, false
	}
	if list, ok := decimals(n, want); ok {
		d.faults.Wrong(at, say.Of("record.write", list), say.Of("record.a-comma-inside-a-number")).InsteadAt(at, "", list)
		return nil, false
	}
	if list := inSquares(n); list != "" {
		d.faults.Wrong(at, say.Of("record.write", list), say.Of("record.a-point-stands-in-square-brackets")).InsteadAt(at, n.Value, list)
		return nil, false
	}
	if list := twoLengths(n); list != "" && want == 2 {
		d.faults.Wrong(at, say.Of("record.write", list), say.Of("record.two-lengths-stand-in-square-brackets")).InsteadAt(at, n.Value, list)
		return nil, false
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) != want {
		hint, now := say.Of("record.as", eg), ""
		if first, ok := firstOf(n, want); ok {
			hint, now = say.Of("record.write", first), first
		}
		d.faults.Wrong(at, hint, say.Of("record.this-must-be-it-is", what, countedShape(n))).InsteadAt(at, "", now)
		return nil, false
	}
	out := make([]Length, want)
	lim.max = &longestPiece
	ok := true
	for i, each := range n.Content {
		before := d.faults.Len()
		kindOf(reflect.TypeFor[Length]()).read(d, each, reflect.ValueOf(&out[i]).Elem(), lim)
		ok = ok && d.faults.Len() == before
	}
	return out, ok
}

// firstOf is a list of numbers that is too long, cut to so many.
func firstOf(n *yaml.Node, want int) (list string, ok bool) {
	if n.Kind == yaml.SequenceNode && len(n.Content) == 1 { // a comma was left out
		if parts := strings.FieldsFunc(n.Content[0].Value, func(r rune) bool { return r == ' ' || r == ';' }); len(parts) == want {
			return "[" + strings.Join(parts, ", ") + "]", true
		}
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) < want {
		return "", false
	}
	var out []string
	for _, c := range n.Content[:want] {
		if c.Kind != yaml.ScalarNode || strings.ContainsAny(c.Value, ",[]{}") {
			return "", false
		}
		out = append(out, c.Value)
	}
	return "[" + strings.Join(out, ", ") + "]", true
}

func countedShape(n *yaml.Node) string {
	if n.Kind == yaml.SequenceNode {
		return say.Of("record.a-list-of", len(n.Content))
	}
	return shapeOf(n)
}

// pointKind reads [x, y].
type pointKind struct{}

const pointEg = "[172, 0]"

func (pointKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	if l, ok := lengthsIn(d, n, 2, say.Of("record.a-point-x-y"), pointEg, limits{}); ok {
		into.Set(reflect.ValueOf(Val[XY]{xy(l), d.pos(n)}))
	}
}

func xy(l []Length) XY { return XY{l[0].V.MM(), l[1].V.MM()} }

func pointForm(s *schemaWriter) map[string]any {
	return map[string]any{"type": "array", "items": s.of(reflect.TypeFor[Length](), limits{}), "minItems": 2, "maxItems": 2}
}

func (pointKind) schema(s *schemaWriter, _ limits) map[string]any { return pointForm(s) }

// handlesKind reads [[x, y], [x, y]].
type handlesKind struct{}

func (handlesKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) != 2 {
		d.faults.Wrong(at, say.Of("record.write-two-control-points-as-196-236"), say.Of("record.this-must-be-two-points-it-is", countedShape(n)))
		return
	}
	if n.Content[0].Kind == yaml.ScalarNode && n.Content[1].Kind == yaml.ScalarNode {
		d.faults.Wrong(at, say.Of("record.give-both-as-196-236-190-320"), say.Of("record.a-curve-has-two-control-points-and"))
		return
	}
	a, ok := lengthsIn(d, n.Content[0], 2, say.Of("record.a-point-x-y"), pointEg, limits{})
	b, also := lengthsIn(d, n.Content[1], 2, say.Of("record.a-point-x-y"), pointEg, limits{})
	if ok && also {
		into.Set(reflect.ValueOf(Val[Handles]{Handles{xy(a), xy(b)}, at}))
	}
}

func (handlesKind) schema(s *schemaWriter, _ limits) map[string]any {
	return map[string]any{"type": "array", "items": pointForm(s), "minItems": 2, "maxItems": 2}
}

// mostBends is how many parts an edge that is drawn anew may have.
const mostBends = 9

// bendsKind reads [[x, y], [x, y]], or three points more for each further part.
type bendsKind struct{}

func (bendsKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	at, list := d.pos(n), d.resolve(n)
	if list == nil {
		return
	}
	if list.Kind != yaml.SequenceNode || len(list.Content) <= 2 {
		var one Val[Handles]
		handlesKind{}.read(d, n, reflect.ValueOf(&one).Elem(), lim)
		if one.Given() {
			into.Set(reflect.ValueOf(Val[Bends]{Bends(one.V[:]), at}))
		}
		return
	}
	if count := len(list.Content); count%3 != 2 || count > 3*mostBends-1 {
		d.faults.Wrong(at, say.Of("record.write-two-control-points-or-for-an"), say.Of("record.this-must-be-two-points-it-is", countedShape(list)))
		return
	}
	var points Bends
	for _, item := range list.Content {
		l, ok := lengthsIn(d, item, 2, say.Of("record.a-point-x-y"), pointEg, limits{})
		if !ok {
			return
		}
		points = append(points, xy(l))
	}
	into.Set(reflect.ValueOf(Val[Bends]{points, at}))
}

func (bendsKind) schema(s *schemaWriter, _ limits) map[string]any {
	var counts []any
	for parts := range mostBends {
		counts = append(counts, map[string]any{"minItems": 3*parts + 2, "maxItems": 3*parts + 2})
	}
	return map[string]any{"type": "array", "items": pointForm(s), "anyOf": counts}
}

// rectangleKind reads [across, along].
type rectangleKind struct{}

func (rectangleKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	into.Set(reflect.ValueOf(RectangleSpec{At: at}))
	l, ok := lengthsIn(d, n, 2, say.Of("record.two-lengths-across-and-along-the-grain"), "[740, 70]", limits{repeats: true})
	if !ok {
		return
	}
	for i, word := range []string{"across", "along"} {
		if l[i].V <= 0 || math.IsNaN(l[i].V.MM()) {
			d.faults.Wrong(at, say.Of("record.write-two-lengths-as-740-70"), say.Of("record.a-rectangle-needs-a-side-the-grain", word))
			return
		}
	}
	for i := range l {
		if _, many := d.repeats[l[i].At]; !many {
			l[i].At = at
		}
	}
	into.Set(reflect.ValueOf(RectangleSpec{at, l[0], l[1]}))
}

func (rectangleKind) schema(s *schemaWriter, _ limits) map[string]any { return pointForm(s) }

// hoursKind reads "09:00-12:30, 13:30-17:00".
type hoursKind struct{}

const hoursEg = `"09:00-12:30, 13:30-17:00"`

func (hoursKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if n.Kind != yaml.ScalarNode || isNull(n) {
		d.faults.Wrong(at, say.Of("record.write", hoursEg), say.Of("record.this-must-be-hours-it-is", shapeOf(n)))
		return
	}
	h := Hours{At: at}
	if n.Value == "none" {
		into.Set(reflect.ValueOf(h))
		return
	}
	last := -1
	for _, part := range strings.Split(n.Value, ",") {
		from, to, ok := readSpan(strings.TrimSpace(part))
		if !ok || from <= last {
			if now := hoursMeant(n.Value); now != "" {
				d.faults.Wrong(at, say.Of("record.write", strconv.Quote(now)), say.Of("record.does-not-say-hours-of-a-day", say.Quoted(fault.Shorten(n.Value)))).InsteadAt(at, "", strconv.Quote(now))
				return
			}
			d.faults.Wrong(at, say.Of("record.write-in-order-or-none", hoursEg), say.Of("record.does-not-say-hours-of-a-day", say.Quoted(fault.Shorten(n.Value))))
			return
		}
		last = to
		h.Spans = append(h.Spans, [2]int{from, to})
	}
	into.Set(reflect.ValueOf(h))
}

func readSpan(s string) (from, to int, ok bool) {
	a, b, cut := strings.Cut(s, "-")
	if !cut {
		return 0, 0, false
	}
	from, okA := minuteOfDay(strings.TrimSpace(a))
	to, okB := minuteOfDay(strings.TrimSpace(b))
	return from, to, okA && okB && from < to
}

func minuteOfDay(s string) (int, bool) {
	if s == "24:00" {
		return 24 * 60, true
	}
	t, err := time.Parse("15:04", s)
	return t.Hour()*60 + t.Minute(), err == nil
}

func (hoursKind) schema(*schemaWriter, limits) map[string]any {
	const span = `\d?\d:\d\d\s*-\s*\d?\d:\d\d`
	return map[string]any{"type": "string", "pattern": `^(none|\s*` + span + `\s*(,\s*` + span + `\s*)*)$`}
}

// freeKind keeps a part of the record as it is.
type freeKind struct{}

func (freeKind) read(_ *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	into.Set(reflect.ValueOf(FreeYAML{n}))
}

func (freeKind) schema(*schemaWriter, limits) map[string]any {
	return map[string]any{"not": map[string]any{"type": "null"}}
}
