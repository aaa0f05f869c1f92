// Package trace turns what a pattern file draws into the outline of a piece
// with its named edges, grain, darts, notches and levels. The readers of file
// formats fill a [Drawing]; everything that does not depend on the format is
// done here: names, the size of a unit, lines chained end to end, corners,
// the way the piece lies.
//
// Lengths are float64 millimetres once [Drawing.Resize] has been called and
// units of the file before; x runs to the right and y up. The same drawing
// gives the same piece on any machine. Bad drawings never panic: they are
// answered by a [fault.Fault] that names the element and its place in the file.
//
// It reads no file, knows no format and nothing of records.
package trace

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Where is where in a file something is drawn: line and column count from 1
// (column 0: the format has lines only), What names the element as the format
// does: path "front-side", POLYLINE on layer "14".
type Where struct {
	Line, Column int
	What         string
}

// String prints the element and its place in words.
func (p Where) String() string {
	switch {
	case p.Line == 0:
		return p.What
	case p.Column == 0:
		return say.Of("trace.on-line", p.What, p.Line)
	}
	return say.Of("trace.on-line-column", p.What, p.Line, p.Column)
}

// FaultAt makes a fault of what stands at a place of the file.
func FaultAt(at Where, hint, message string) fault.Fault {
	f := fault.Wrong(fault.Pos{Line: int32(at.Line), Column: int32(at.Column)}, hint, message)
	f.Of = at.What
	return f
}

// A Stroke is one continuous drawn line. Its parts are named by nothing but
// the stroke; a stroke without parts is a point.
type Stroke struct {
	Role   Role
	Name   string // of the edge, level …; empty where the file gives none
	Fold   bool   // the edge lies on a fold
	From   shape.Point
	Parts  []shape.Edge
	Closed bool
	At     Where
}

// end is where a stroke ends.
func (s *Stroke) end() shape.Point {
	if len(s.Parts) == 0 {
		return s.From
	}
	return s.Parts[len(s.Parts)-1].To
}

// start is where part i begins.
func (s *Stroke) start(i int) shape.Point {
	return shape.Outline{From: s.From, Edges: s.Parts}.Start(i)
}

// backward is the stroke drawn the other way round.
func (s Stroke) backward() Stroke {
	o := shape.Outline{From: s.From, Edges: s.Parts}
	parts := make([]shape.Edge, 0, len(s.Parts))
	for i := len(s.Parts) - 1; i >= 0; i-- {
		e := s.Parts[i]
		e.C1, e.C2, e.To = e.C2, e.C1, o.Start(i)
		parts = append(parts, e)
	}
	s.From, s.Parts = s.end(), parts
	return s
}

// A Drawn is one piece as the file draws it.
type Drawn struct {
	ID, Name string // how it may be asked for
	Down     bool   // y runs down in the file: places are told as the file has them
	Strokes  []Stroke
	At       Where
	Doubled  []Double // elements of it whose ids another element before them bears
	Unseen   []string // layers on which it has lines that are not shown, and so not read

	unit [2]float64 // the millimetres of one of the file's units each way; 0 where nobody asked
}

// A Double is an element that bears the id of another.
type Double struct {
	At    Where
	ID    string
	First int // the line of the other
}

// A Hidden is a piece or line that a file holds and does not show.
type Hidden struct {
	Name string
	In   string // the layer or group that is not shown; empty where it has no name
}

// A Drawing is what one file draws. UnitX and UnitY are the millimetres of
// one unit of the file, 0 where the file does not say.
type Drawing struct {
	UnitX, UnitY float64
	Pieces       []Drawn
	Loose        []Stroke // what belongs to no piece
	Hidden       []Hidden
}

// A Piece is what a drawn piece comes to.
type Piece struct {
	Name    string
	Outline shape.Outline // the sewing line, against the clock, edges named
	Grain   string        // along, across or bias; empty where no grain is drawn
	Turned  float64       // degrees against the clock it was turned by, so that its grain lies straight
	Darts   []Dart
	Pleats  []Pleat
	Notches []Notch
	Lines   []Line
	Levels  []Level
	Places  []Place
	Frame   Frame            // how its outline lies in the file
	Drawn   map[string]Where // by the name of an edge: where the file draws it
}

// A Frame is how the outline of a piece, in millimetres from its origin and y upwards,
// lies in its file.
type Frame struct {
	zero shape.Point // the origin, as the piece lies
	turn float64     // degrees against the clock the drawing was turned by
	down bool        // y runs down in the file
	unit [2]float64
}

// InFile is a point of the outline in the file's own units, as its drawing has it.
func (f *Frame) InFile(p shape.Point) shape.Point {
	p.X, p.Y = p.X+f.zero.X, p.Y+f.zero.Y
	if f.turn != 0 {
		sin, cos := math.Sincos(-f.turn * math.Pi / 180)
		p = shape.Point{X: float64(p.X*cos) - float64(p.Y*sin), Y: float64(p.X*sin) + float64(p.Y*cos)}
	}
	if f.down {
		p.Y = -p.Y
	}
	for i, v := range [...]*float64{&p.X, &p.Y} {
		if f.unit[i] > 0 {
			*v /= f.unit[i]
		}
	}
	return p
}

// A Dart opens on an edge: its middle lies At millimetres along it, it takes
// in Width, and its point lies Length inside. Where it is Slanted the two legs
// differ, and Point is where they meet.
type Dart struct {
	Name, Edge        string
	At, Width, Length float64
	Slanted           bool
	Point             shape.Point
}

// A Pleat lies on an edge that is drawn with it open: its fold, or the middle of its two
// folds, lies At millimetres along it. Kind is knife, box or inverted; ToEnd says that a
// knife pleat is laid towards where its edge ends.
type Pleat struct {
	Name, Edge, Kind string
	At, Depth        float64
	ToEnd            bool
	Taper            shape.Taper
}

// A Notch lies At millimetres along an edge.
type Notch struct {
	Name, Edge string
	At         float64
}

// A Place is where a button or the like is put, in the outline, with the ends of its
// buttonhole where one is drawn.
type Place struct {
	Name string // what is put there: "buttons"
	At   shape.Point
	Hole [2]shape.Point
	Open bool // it has a buttonhole
}

// A Line is a line on the piece: of the roles InnerLine, SlitLine, Crease or one of those
// of what lies along it, TapeLine to CordLine.
type Line struct {
	Name   string
	Of     Role
	Points shape.Line
}

// A Level is a height of the outline.
type Level struct {
	Name string
	Y    float64
}
