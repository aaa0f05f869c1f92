package record

import (
	"math"
	"reflect"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A Bend is how an edge is curved: by two control points, or by its rise.
type Bend struct {
	Handles Handles
	Rise    float64 // mm by which its middle lies outside the straight line, inside where negative; 0 where control points are given
}

// bendKind reads [[x, y], [x, y]], or one length.
type bendKind struct{}

func (bendKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if n.Kind == yaml.SequenceNode {
		var h Val[Handles]
		handlesKind{}.read(d, n, reflect.ValueOf(&h).Elem(), limits{})
		if h.Given() {
			into.Set(reflect.ValueOf(Val[Bend]{Bend{Handles: h.V}, at}))
		}
		return
	}
	if n.Kind == yaml.ScalarNode && strings.IndexFunc(n.Value, unicode.IsDigit) < 0 && !isNull(n) {
		d.faults.Wrong(at, say.Of("record.say-how-far-its-middle-lies-outside"), say.Of("record.does-not-say-how-much-it-curves", say.Quoted(fault.Shorten(n.Value))))
		return
	}
	var rise Length
	kindOf(reflect.TypeFor[Length]()).read(d, n, reflect.ValueOf(&rise).Elem(), limits{min: &lowestRise, max: &highestRise})
	switch {
	case !rise.Given():
	case rise.V == 0:
		d.faults.Wrong(at, say.Of("record.leave-curve-out"), say.Of("record.a-curve-that-rises-by-nothing-is")).Without(at)
	default:
		into.Set(reflect.ValueOf(Val[Bend]{Bend{Rise: rise.V.MM()}, at}))
	}
}

// How far a curve may rise, in millimetres; own choice, no source.
var lowestRise, highestRise = -5000.0, 5000.0

func (bendKind) schema(s *schemaWriter, lim limits) map[string]any {
	return map[string]any{"anyOf": []any{handlesKind{}.schema(s, lim), s.of(reflect.TypeFor[Length](), limits{})}}
}

// mostTurn is by how much one cubic curve turns at the most where it stands for
// an arc: at 20° it is off by less than a hundred-millionth of the radius.
const mostTurn = 20 * math.Pi / 180

// bent replaces what is said of curves by control points. An edge that is an arc
// becomes several parts of one name.
func (spec *OutlineSpec) bent(faults *fault.Faults) {
	var out []EdgeLine
	from := spec.From.V
	for _, e := range spec.Edges {
		switch b := e.Bend; {
		case !b.Given():
			out = append(out, e)
		case b.V.Rise == 0:
			e.Curve = Val[Handles]{b.V.Handles, b.At}
			out = append(out, e)
		default:
			out = append(out, e.arc(from, faults)...)
		}
		from = e.To.V
	}
	spec.Edges = out
}

// arc draws an edge from a point as an arc of its rise.
func (e EdgeLine) arc(from XY, faults *fault.Faults) []EdgeLine {
	rise, dx, dy := e.Bend.V.Rise, e.To.V.X-from.X, e.To.V.Y-from.Y
	chord := math.Hypot(dx, dy)
	if math.Abs(rise) > chord/2 {
		if e.To.Given() {
			faults.Wrong(e.Bend.At, say.Of("record.let-it-rise-less-or-draw-it"), say.Of("record.an-arc-of-over-is-more-than", bare(rise), bare(chord)))
		}
		return []EdgeLine{e}
	}
	half := 2 * math.Atan(2*math.Abs(rise)/chord) // of the angle that it turns by
	radius := chord / (2 * math.Sin(half))
	side := math.Copysign(1, rise)
	outX, outY := dy/chord*side, -dx/chord*side // to the right lies the outside
	mid := XY{(from.X + e.To.V.X) / 2, (from.Y + e.To.V.Y) / 2}
	sink := float64(radius * math.Cos(half))
	centre := XY{mid.X - float64(outX*sink), mid.Y - float64(outY*sink)}
	at := func(angle float64) (p, way XY) { // along the arc, 0 at its middle
		sin, cos := math.Sincos(angle)
		alongX, alongY := dx/chord, dy/chord
		p = XY{centre.X + radius*(float64(outX*cos)+float64(alongX*sin)), centre.Y + radius*(float64(outY*cos)+float64(alongY*sin))}
		return p, XY{float64(alongX*cos) - float64(outX*sin), float64(alongY*cos) - float64(outY*sin)}
	}
	parts := int(math.Ceil(2 * half / mostTurn))
	step := 2 * half / float64(parts)
	reach := float64(radius * 4 / 3 * math.Tan(step/4))
	out := make([]EdgeLine, parts)
	for i := range out {
		a, wayA := at(-half + float64(float64(i)*step))
		b, wayB := at(-half + float64(float64(i+1)*step))
		one := e
		one.Curve = Val[Handles]{Handles{{a.X + float64(wayA.X*reach), a.Y + float64(wayA.Y*reach)}, {b.X - float64(wayB.X*reach), b.Y - float64(wayB.Y*reach)}}, e.Bend.At}
		one.To.V = b
		if i == parts-1 {
			one.To.V = e.To.V
		}
		out[i] = one
	}
	return out
}

// ArcBetween are the parts of an arc from one point to another whose middle lies so far
// to the right of the straight line, in millimetres, in the form of edges; nil where that
// is more than a half circle.
func ArcBetween(from, to XY, rise float64) []EdgeLine {
	if math.Abs(rise) > math.Hypot(to.X-from.X, to.Y-from.Y)/2 {
		return nil
	}
	return EdgeLine{To: Val[XY]{V: to}, Bend: Val[Bend]{V: Bend{Rise: rise}}}.arc(from, nil)
}

func bare(mm float64) string { return trim(math.Round(mm*10) / 10) }
