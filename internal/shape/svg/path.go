package svg

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// A subpath is one subpath in the element's own units, y down.
type subpath struct {
	from   shape.Point
	parts  []shape.Edge
	closed bool
}

func (l *subpath) end() shape.Point {
	if n := len(l.parts); n > 0 {
		return l.parts[n-1].To
	}
	return l.from
}

func (l *subpath) straight(to shape.Point) { l.parts = append(l.parts, shape.Edge{To: to}) }

func (l *subpath) curve(c1, c2, to shape.Point) {
	l.parts = append(l.parts, shape.Edge{C1: c1, C2: c2, To: to, Curved: true})
}

// quadratic draws a quadratic curve as the cubic that is the same curve.
func (l *subpath) quadratic(c, to shape.Point) {
	a := l.end()
	third := func(p shape.Point) shape.Point {
		return shape.Point{X: p.X + float64((c.X-p.X)*2/3), Y: p.Y + float64((c.Y-p.Y)*2/3)}
	}
	l.curve(third(a), third(to), to)
}

// A pathReader follows path data (SVG 2, section 9.3).
type pathReader struct {
	scanner
	lines   []subpath
	begun   bool
	last    byte        // the command before, in capitals
	control shape.Point // the last control point, for S and T
	parts   int
}

// numbersOf is how many numbers each command takes at a time.
var numbersOf = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// readPath reads the subpaths of a d attribute.
func readPath(at trace.Where, d string) ([]subpath, *fault.Fault) {
	r := &pathReader{scanner: scanner{text: d}}
	for r.space(); !r.done(); r.space() {
		command := r.text[r.i]
		capital := command &^ 0x20
		n, known := numbersOf[capital]
		switch {
		case !known:
			return nil, r.fault(at, say.Of("svg.a-letter-of-a-path-is-one"), say.Of("svg.its-path-cannot-be-read-at-character", r.i+1, say.Quoted(shorten(r.text[r.i:]))))
		case !r.begun && capital != 'M':
			return nil, r.fault(at, say.Of("svg.begin-it-with-m-and-a-point"), say.Of("svg.its-path-begins-with", say.Quoted(string(command))))
		}
		r.i++
		if f := r.repeat(at, capital, command != capital, n); f != nil {
			return nil, f
		}
	}
	return r.lines, nil
}

func (r *pathReader) fault(at trace.Where, hint, message string) *fault.Fault {
	return wrong(at, hint, message)
}

// repeat carries a command out as often as there are numbers for it.
func (r *pathReader) repeat(at trace.Where, command byte, relative bool, n int) *fault.Fault {
	if n == 0 {
		r.close()
		return nil
	}
	for first := true; ; first = false {
		r.separator()
		if !first && (r.done() || !startsNumber(r.text[r.i])) {
			return nil
		}
		var v [7]float64
		for k := range n {
			r.separator()
			ok := false
			if command == 'A' && (k == 3 || k == 4) {
				var set bool
				if set, ok = r.flag(); set {
					v[k] = 1
				}
			} else {
				v[k], ok = r.number()
			}
			if !ok {
				return r.fault(at, "", say.Of("svg.its-path-cannot-be-read-at-character-2", r.i+1, string(command), n))
			}
		}
		if command == 'M' && !first {
			command, n = 'L', 2
		}
		r.carryOut(command, relative, v)
		if r.parts++; r.parts > mostParts {
			return r.fault(at, "", say.Of("svg.its-path-has-more-than-parts", mostParts))
		}
	}
}

func startsNumber(c byte) bool { return c >= '0' && c <= '9' || c == '+' || c == '-' || c == '.' }

func (r *pathReader) close() {
	l := &r.lines[len(r.lines)-1]
	l.closed = true
	r.last = 'Z'
}

// at is the line drawn on: a command after Z begins a new one where that began.
func (r *pathReader) at() *subpath {
	if r.last == 'Z' {
		r.lines = append(r.lines, subpath{from: r.lines[len(r.lines)-1].from})
	}
	return &r.lines[len(r.lines)-1]
}

// here is the current point.
func (r *pathReader) here() shape.Point {
	if len(r.lines) == 0 {
		return shape.Point{}
	}
	l := &r.lines[len(r.lines)-1]
	if r.last == 'Z' {
		return l.from
	}
	return l.end()
}

func (r *pathReader) carryOut(command byte, relative bool, v [7]float64) {
	here, zero := r.here(), shape.Point{}
	if relative {
		zero = here
	}
	p := func(k int) shape.Point { return shape.Point{X: v[k] + zero.X, Y: v[k+1] + zero.Y} }
	if command == 'M' {
		r.lines = append(r.lines, subpath{from: p(0)})
		r.begun, r.last = true, 'M'
		return
	}
	l := r.at()
	control := here
	switch command {
	case 'L':
		l.straight(p(0))
	case 'H':
		l.straight(shape.Point{X: v[0] + zero.X, Y: here.Y})
	case 'V':
		l.straight(shape.Point{X: here.X, Y: v[0] + zero.Y})
	case 'C':
		control = p(2)
		l.curve(p(0), control, p(4))
	case 'S':
		c1 := r.mirrored(here, 'C', 'S')
		control = p(0)
		l.curve(c1, control, p(2))
	case 'Q':
		control = p(0)
		l.quadratic(control, p(2))
	case 'T':
		control = r.mirrored(here, 'Q', 'T')
		l.quadratic(control, p(0))
	case 'A':
		l.arc(v[0], v[1], v[2], v[3] == 1, v[4] == 1, p(5))
	}
	r.last, r.control = command, control
}

// mirrored is the last control point seen from the other side of here, where
// the command before was one of two.
func (r *pathReader) mirrored(here shape.Point, one, two byte) shape.Point {
	if r.last != one && r.last != two {
		return here
	}
	return shape.Point{X: 2*here.X - r.control.X, Y: 2*here.Y - r.control.Y}
}

// arc draws an elliptical arc from the line's end (SVG 2, appendix B.2: from
// end points to centre).
func (l *subpath) arc(rx, ry, degrees float64, large, sweep bool, to shape.Point) {
	from := l.end()
	rx, ry = math.Abs(rx), math.Abs(ry)
	if from == to {
		return
	}
	if rx == 0 || ry == 0 {
		l.straight(to)
		return
	}
	sin, cos := sinCos(degrees)
	dx, dy := (from.X-to.X)/2, (from.Y-to.Y)/2
	x, y := float64(cos*dx)+float64(sin*dy), float64(cos*dy)-float64(sin*dx)
	if over := float64(x/rx*x/rx) + float64(y/ry*y/ry); over > 1 {
		rx, ry = rx*math.Sqrt(over), ry*math.Sqrt(over)
	}
	a, b := float64(x/rx*x/rx), float64(y/ry*y/ry)
	k := math.Sqrt(max((1-a-b)/(a+b), 0))
	if large == sweep {
		k = -k
	}
	cx, cy := float64(k*rx*y/ry), float64(-k*ry*x/rx)
	begin := math.Atan2((y-cy)/ry, (x-cx)/rx)
	turn := math.Atan2((-y-cy)/ry, (-x-cx)/rx) - begin
	switch {
	case sweep && turn < 0:
		turn += 2 * math.Pi
	case !sweep && turn > 0:
		turn -= 2 * math.Pi
	}
	centre := shape.Point{X: float64(cos*cx) - float64(sin*cy) + (from.X+to.X)/2, Y: float64(sin*cx) + float64(cos*cy) + (from.Y+to.Y)/2}
	m := matrix{a: cos * rx, b: sin * rx, c: -sin * ry, d: cos * ry, e: centre.X, f: centre.Y}
	l.sweep(m, begin, turn)
	l.parts[len(l.parts)-1].To = to
}

// step is the greatest turn of one cubic: at 22.5° it strays from a circle by
// 7 parts in 100 million of its radius.
const step = math.Pi / 8

// sweep draws an arc of the unit circle, seen through m, from an angle on.
func (l *subpath) sweep(m matrix, begin, turn float64) {
	n := int(math.Ceil(math.Abs(turn)/step - 1e-9))
	n = max(n, 1)
	each := turn / float64(n)
	k := 4.0 / 3 * math.Tan(each/4)
	for i := range n {
		s1, c1 := math.Sincos(begin + float64(each*float64(i)))
		s2, c2 := math.Sincos(begin + float64(each*float64(i+1)))
		l.curve(m.apply(shape.Point{X: c1 - float64(k*s1), Y: s1 + float64(k*c1)}),
			m.apply(shape.Point{X: c2 + float64(k*s2), Y: s2 - float64(k*c2)}),
			m.apply(shape.Point{X: c2, Y: s2}))
	}
}

// ellipse is a whole ellipse about a centre.
func ellipse(cx, cy, rx, ry float64) subpath {
	l := subpath{from: shape.Point{X: cx + rx, Y: cy}, closed: true}
	l.sweep(matrix{a: rx, d: ry, e: cx, f: cy}, 0, 2*math.Pi)
	l.parts[len(l.parts)-1].To = l.from
	return l
}

// rectangle is a rectangle, its corners rounded where rx and ry are given.
func rectangle(x, y, w, h, rx, ry float64) subpath {
	rx, ry = min(rx, w/2), min(ry, h/2)
	pt := func(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }
	if !(rx > 0 && ry > 0) {
		l := subpath{from: pt(x, y), closed: true}
		for _, p := range []shape.Point{pt(x+w, y), pt(x+w, y+h), pt(x, y+h), pt(x, y)} {
			l.straight(p)
		}
		return l
	}
	l := subpath{from: pt(x+rx, y), closed: true}
	l.straight(pt(x+w-rx, y))
	l.arc(rx, ry, 0, false, true, pt(x+w, y+ry))
	l.straight(pt(x+w, y+h-ry))
	l.arc(rx, ry, 0, false, true, pt(x+w-rx, y+h))
	l.straight(pt(x+rx, y+h))
	l.arc(rx, ry, 0, false, true, pt(x, y+h-ry))
	l.straight(pt(x, y+ry))
	l.arc(rx, ry, 0, false, true, pt(x+rx, y))
	return l
}
