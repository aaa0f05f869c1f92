package paperpiece

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Shift is how far a corner is moved by hand, in millimetres, as the piece is drawn.
// Corners are counted from 1, against the clock from the lower left: edge 2 begins at
// corner 2.
type Shift struct {
	Corner    int
	Right, Up float64
}

// mostShift is how far a corner may be moved by hand, in millimetres: farther off the
// paper was not seen well, and is better photographed again. Our own choice.
const mostShift = 30.0

var (
	shiftForm = regexp.MustCompile(`^\s*(\d{1,3})\s*:\s*(.+?)\s*$`)
	shiftWay  = regexp.MustCompile(`^\s*(.+?)\s+(right|left|up|down)\s*$`)
)

// ParseShift reads how a corner is moved: "2: 0.5 right, 1 down". A bare number is
// millimetres.
func ParseShift(said string) (s Shift, err error) {
	bad := fault.Refusing(say.Of("paperpiece.write-the-number-of-the-corner"), say.Of("paperpiece.does-not-move-a-corner", say.Quoted(said)))
	m := shiftForm.FindStringSubmatch(said)
	if m == nil {
		return s, bad
	}
	s.Corner, _ = strconv.Atoi(m[1])
	for _, part := range strings.Split(m[2], ",") {
		w := shiftWay.FindStringSubmatch(part)
		if w == nil {
			return s, bad
		}
		far, err := measure.ParseLength(w[1], measure.UnitMM)
		if err != nil {
			return s, bad
		}
		switch w[2] {
		case "right":
			s.Right += far.MM()
		case "left":
			s.Right -= far.MM()
		case "up":
			s.Up += far.MM()
		case "down":
			s.Up -= far.MM()
		}
	}
	if math.Hypot(s.Right, s.Up) > mostShift {
		return s, fault.Refusing(say.Of("paperpiece.photograph-the-paper-again"), say.Of("paperpiece.corner-would-be-moved-by-more", s.Corner, fmt.Sprintf("%.0f", mostShift)))
	}
	return s, nil
}

// MoveCorners moves corners of a traced piece in its pattern file, with what is nearest of
// the curves that meet there.
func (h Home) MoveCorners(shifts []Shift) error {
	return h.redraw(func(text []byte) ([]byte, error) { return h.shifted(text, shifts) })
}

// redraw changes the piece's pattern file, whole or not at all.
func (h Home) redraw(change func(text []byte) ([]byte, error)) error {
	root, err := disk.OpenRoot(h.Room.Dir)
	if err != nil {
		return err
	}
	defer root.Close()
	text, err := root.ReadFile(h.FilePath())
	if err != nil {
		return fault.Wrapping(err, say.Of("paperpiece.cannot-be-read", h.FilePath(), err))
	}
	then, err := change(text)
	if err != nil || string(then) == string(text) {
		return err
	}
	return root.Replace(h.FilePath(), then, 0o666)
}

// sewn is a sewing line in a pattern file of ours: what stands before its points, and these.
var sewn = regexp.MustCompile(`(<path class="sewing"[^>]*? d=")([MLC][^"]*)"`)

// near is how nearly one sewing line ends where the next begins, in millimetres.
const near = 0.01

// shifted is the text of a pattern file with corners moved.
func (h Home) shifted(text []byte, shifts []Shift) ([]byte, error) {
	strange := fault.Refusing(say.Of("paperpiece.move-it-in-the-program"), say.Of("paperpiece.is-not-as-it-was-written", h.FilePath()))
	at := sewn.FindAllSubmatchIndex(text, -1)
	var lines []drawnLine
	for _, m := range at {
		l, ok := readLine(string(text[m[4]:m[5]]))
		if !ok {
			return nil, strange
		}
		lines = append(lines, l)
	}
	n := len(lines)
	for i := range lines {
		if a, b := lines[i].last(), lines[(i+1)%n].at[0]; math.Hypot(a.X-b.X, a.Y-b.Y) > near {
			return nil, strange
		}
	}
	if n < 2 {
		return nil, strange
	}
	for _, s := range shifts {
		if s.Corner < 1 || s.Corner > n {
			return nil, fault.Refusing(say.Of("paperpiece.they-are-counted-against-the-clock"), say.Of("paperpiece.has-corners-and-none-is-number", h.Piece, n, s.Corner))
		}
		by := shape.Point{X: s.Right, Y: -s.Up} // files are drawn with y down
		lines[s.Corner-1].moveStart(by)
		lines[(s.Corner+n-2)%n].moveEnd(by)
	}
	if err := outlineOf(lines).Check(); err != nil {
		return nil, fault.Refusing(say.Of("paperpiece.move-it-less"), say.Of("paperpiece.would-cross-itself", h.Piece))
	}
	var out []byte
	done := 0
	for i, m := range at {
		out = append(append(out, text[done:m[4]]...), lines[i].text()...)
		done = m[5]
	}
	return append(out, text[done:]...), nil
}

// A drawnLine is a path of straight lines and cubic curves: its letters, and their points.
type drawnLine struct {
	ops string
	at  []shape.Point
}

var (
	pathOp    = regexp.MustCompile(`([A-Za-z])([^A-Za-z]*)`)
	pathPoint = regexp.MustCompile(`(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)`)
	opPoints  = map[byte]int{'M': 1, 'L': 1, 'C': 3}
)

// readLine reads the d of a path as the writer of pattern files spells it; ok is false for
// any other.
func readLine(d string) (l drawnLine, ok bool) {
	for i, m := range pathOp.FindAllStringSubmatch(d, -1) {
		points := pathPoint.FindAllStringSubmatch(m[2], -1)
		if want, known := opPoints[m[1][0]]; !known || len(points) != want || (m[1] == "M") != (i == 0) {
			return l, false
		}
		l.ops += m[1]
		for _, p := range points {
			x, _ := strconv.ParseFloat(p[1], 64)
			y, _ := strconv.ParseFloat(p[2], 64)
			l.at = append(l.at, shape.Point{X: x, Y: y})
		}
	}
	return l, len(l.at) > 1 && l.text() == d
}

func (l *drawnLine) last() shape.Point { return l.at[len(l.at)-1] }

// moveStart moves where a line begins, and the control point beside it.
func (l *drawnLine) moveStart(by shape.Point) { l.move(0, l.ops[1] == 'C', 1, by) }

// moveEnd moves where it ends, and the control point beside it.
func (l *drawnLine) moveEnd(by shape.Point) {
	l.move(len(l.at)-1, l.ops[len(l.ops)-1] == 'C', len(l.at)-2, by)
}

func (l *drawnLine) move(end int, curved bool, control int, by shape.Point) {
	l.at[end].X, l.at[end].Y = l.at[end].X+by.X, l.at[end].Y+by.Y
	if curved {
		l.at[control].X, l.at[control].Y = l.at[control].X+by.X, l.at[control].Y+by.Y
	}
}

// pathDecimals is how finely pattern files are written, to a part of a millimetre.
const pathDecimals = 4

// text is the line as the d of a path.
func (l *drawnLine) text() string {
	var b []byte
	k := 0
	for _, op := range []byte(l.ops) {
		b = append(b, op)
		for i := range opPoints[op] {
			if i > 0 {
				b = append(b, ' ')
			}
			b = append(shape.AppendNumber(b, l.at[k].X, pathDecimals), ',')
			b = shape.AppendNumber(b, l.at[k].Y, pathDecimals)
			k++
		}
	}
	return string(b)
}

// outlineOf is the outline that lines draw together, y up.
func outlineOf(lines []drawnLine) (o shape.Outline) {
	up := func(p shape.Point) shape.Point { return shape.Point{X: p.X, Y: -p.Y} }
	o.From = up(lines[0].at[0])
	for i := range lines {
		l, k := &lines[i], 1
		for _, op := range []byte(l.ops[1:]) {
			e := shape.Edge{Name: strconv.Itoa(i + 1)}
			if op == 'C' {
				e.C1, e.C2, e.Curved = up(l.at[k]), up(l.at[k+1]), true
				k += 2
			}
			e.To = up(l.at[k])
			k++
			o.Edges = append(o.Edges, e)
		}
	}
	return o
}
