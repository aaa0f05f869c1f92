package svg

import (
	"math"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A matrix maps (x, y) to (ax + cy + e, bx + dy + f) (SVG 2, section 8.5).
type matrix struct{ a, b, c, d, e, f float64 }

var identity = matrix{a: 1, d: 1}

// times is m after n: n is applied to a point first.
func (m matrix) times(n matrix) matrix {
	return matrix{
		a: float64(m.a*n.a) + float64(m.c*n.b), b: float64(m.b*n.a) + float64(m.d*n.b),
		c: float64(m.a*n.c) + float64(m.c*n.d), d: float64(m.b*n.c) + float64(m.d*n.d),
		e: float64(m.a*n.e) + float64(m.c*n.f) + m.e, f: float64(m.b*n.e) + float64(m.d*n.f) + m.f,
	}
}

func (m matrix) apply(p shape.Point) shape.Point {
	return shape.Point{X: float64(m.a*p.X) + float64(m.c*p.Y) + m.e, Y: float64(m.b*p.X) + float64(m.d*p.Y) + m.f}
}

func move(x, y float64) matrix    { return matrix{a: 1, d: 1, e: x, f: y} }
func stretch(x, y float64) matrix { return matrix{a: x, d: y} }

// rotate turns by degrees clockwise, as the file sees it.
func rotate(degrees float64) matrix {
	sin, cos := sinCos(degrees)
	return matrix{a: cos, b: sin, c: -sin, d: cos}
}

// sinCos is exact for quarter turns.
func sinCos(degrees float64) (sin, cos float64) {
	if quarter := degrees / 90; quarter == math.Trunc(quarter) && math.Abs(quarter) < 1e6 {
		return [4]float64{0, 1, 0, -1}[(int(quarter)%4+4)%4], [4]float64{1, 0, -1, 0}[(int(quarter)%4+4)%4]
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// transform reads a list of transforms: matrix, translate, scale, rotate,
// skewX and skewY, as attribute or as CSS writes them.
func transform(n *node, text string) (matrix, *fault.Fault) {
	m := identity
	for rest := strings.TrimSpace(text); rest != "" && rest != "none"; {
		name, more, ok := strings.Cut(rest, "(")
		inner, after, closed := strings.Cut(more, ")")
		if !ok || !closed {
			return m, wrong(n.where(), say.Of("svg.as-translate-10-20-rotate-90"), say.Of("svg.its-transform-cannot-be-read-at", say.Quoted(shorten(rest))))
		}
		one, good := single(strings.TrimSpace(name), inner)
		if !good {
			return m, wrong(n.where(), say.Of("svg.known-are-matrix-translate-scale-rotate-skewx"), say.Of("svg.its-transform-cannot-be-read-at", say.Quoted(shorten(rest))))
		}
		m = m.times(one)
		rest = strings.TrimLeft(after, " \t\r\n,")
	}
	return m, nil
}

func shorten(s string) string {
	if r := []rune(s); len(r) > 30 {
		return string(r[:30]) + "…"
	}
	return s
}

// single reads one transform.
func single(name, inner string) (matrix, bool) {
	v, ok := arguments(inner)
	if !ok {
		return identity, false
	}
	switch n := len(v); {
	case name == "matrix" && n == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && (n == 1 || n == 2):
		return move(v[0], at(v, 1, 0)), true
	case name == "translateX" && n == 1:
		return move(v[0], 0), true
	case name == "translateY" && n == 1:
		return move(0, v[0]), true
	case name == "scale" && (n == 1 || n == 2):
		return stretch(v[0], at(v, 1, v[0])), true
	case name == "rotate" && n == 1:
		return rotate(v[0]), true
	case name == "rotate" && n == 3:
		return move(v[1], v[2]).times(rotate(v[0])).times(move(-v[1], -v[2])), true
	case name == "skewX" && n == 1:
		return matrix{a: 1, c: math.Tan(v[0] * math.Pi / 180), d: 1}, true
	case name == "skewY" && n == 1:
		return matrix{a: 1, b: math.Tan(v[0] * math.Pi / 180), d: 1}, true
	}
	return identity, false
}

func at(v []float64, i int, otherwise float64) float64 {
	if i < len(v) {
		return v[i]
	}
	return otherwise
}

// arguments reads the numbers of a transform; px and deg may follow them.
func arguments(text string) ([]float64, bool) {
	s := scanner{text: text}
	var out []float64
	for s.separator(); !s.done(); s.separator() {
		v, ok := s.number()
		if !ok || len(out) == 6 {
			return nil, false
		}
		for _, unit := range []string{"px", "deg"} {
			if strings.HasPrefix(s.text[s.i:], unit) {
				s.i += len(unit)
				break
			}
		}
		out = append(out, v)
	}
	return out, true
}
