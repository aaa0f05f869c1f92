// Package sewn puts a garment together: from outlines and what is joined to
// what follow the single cut things with their hands, which side of which of
// them meets which, the surface they make, its openings, what is left loose,
// and how far round it goes at a level.
//
// Every copy is taken as a disc with its right side up, its sides listed
// against the clock; a mirrored copy is the same list backwards. Two sides that
// are sewn always run against each other, so the direction of a join is never
// asked for: only which copies meet is.
//
// All lengths are float64 millimetres. The room knows outlines and joins and
// nothing of records or of words for pages. What it answers is a pure function
// of the plan; the order in which pieces, seams and sides are given changes
// nothing in it. No plan makes it panic.
package sewn

import "hembook/internal/shape"

// A Plan is what is cut and what is sewn to what.
type Plan struct {
	Pieces   []Piece
	Seams    []Seam
	Closures []Closure
}

// A Piece is a pattern piece and how often it is cut.
type Piece struct {
	Name     string
	Like     string        // the piece it has its form from; "" where none
	Outline  shape.Outline // the sewing line against the clock, half of the piece where it is cut on fold
	OnFold   bool          // the edge marked as fold lies on the fold of the cloth
	Mirrored bool          // cut in pairs, a right and a left
	Count    int           // how many are cut in each layer
	Layers   []string      // the layers it is cut in; cloth that only backs another is none
	Behind   bool          // its name says that it lies behind others
	Onto     bool          // it is sewn onto the face of another piece
	AsDrawn  bool          // it is drawn with its right side up; else one that is cut once may be drawn from either side
	Worn     Wearer        // the side on which its name says that it is worn; else none
	Arc      float64       // the angle, in radians, of a panel of a ring about the origin; 0 for others
	Edges    []Edge        // what is known of its edges beside their form
	Darts    []Dart
	Pleats   []Pleat
	Levels   []Level
}

// An Edge is what is known of a piece's edge beside its form.
type Edge struct {
	Name    string
	Level   string    // the level it lies at; "" where none
	Finish  string    // what makes it neat; "" where nothing does
	Part    string    // the edge it is a part of, which a record names part by part; "" where it is whole
	Folds   []Stretch // what pleats fold away of it
	Into    float64   // how long it is once it is gathered; 0 where it is not
	Notches []Notch
	AtFold  bool   // the inner edge of a folded band, which ends at its fold
	TakenBy string // the seam that sews such an edge with the outer one; "" where none does
}

// A Notch is a mark on an edge, Along millimetres from where it begins.
type Notch struct {
	Name  string
	Along float64
}

// A Stretch is a part of an edge, From and To millimetres along it.
type Stretch struct{ From, To float64 }

// A Pleat is a fold that is stitched to its place, along so much of both lines.
type Pleat struct{ Place, Outer shape.Line }

// A Dart opens on an edge from From to To, millimetres along it; Begin and End
// are its legs' ends there, Point where they meet.
type Dart struct {
	Edge              string
	From, To          float64
	Begin, End, Point shape.Point
}

// A Level is a height of a piece's outline. On a panel of a ring it is the
// height at the panel's middle, and follows the arc. Where it belonged to
// corners when it was drawn it lies at them, wherever they are now.
type Level struct {
	Name    string
	Y       float64
	Corners []string // the edges that begin there, as [Corners] tells; none where it belongs to none
}

// An EdgeRef names an edge of a piece. Of a piece of which a left and a right is cut, or
// of the two halves of one that is cut on the fold, it may mean one alone.
type EdgeRef struct {
	Piece, Edge string
	Hand        int8 // 1 for those that lie as drawn, −1 for their mirror images, 0 for all
}

// meets reports whether two references have a copy in common.
func (r EdgeRef) meets(o EdgeRef) bool {
	return r.Piece == o.Piece && r.Edge == o.Edge && (r.Hand == 0 || o.Hand == 0 || r.Hand == o.Hand)
}

// A Seam joins lines of edges. Each of its two sides is one edge, or several sewn
// end to end. What else is caught in it lies behind one of the two.
type Seam struct {
	Name    string
	Sides   [][]EdgeRef
	Plies   []Ply   // what is caught in it beside the two
	Run     bool    // edges of one side are sewn end to end as a whole
	Turns   bool    // one side comes to lie behind the other: a facing, a turned edge
	Overlap float64 // how much of the first side is left free at its end, for a closure
	Full    bool    // the sides are meant to differ in length
	Round   Round   // whether copies of one piece make one ring or each its own, where it is known
}

// A Ply is a line of edges that is caught in a seam behind one of its sides.
type Ply struct {
	Edges []EdgeRef
	With  int       // the side it lies behind, 0 or 1
	Along []EdgeRef // the edges of that side that it lies along
}

// A Round says how copies of one piece that are sewn to each other go round.
type Round int8

// What is known of copies sewn to each other.
const (
	RoundUnsaid Round = iota
	RoundOne          // all of them one ring
	RoundEach         // each a tube of its own
)

// A Closure is a zip, or buttons, along an edge. Length is 0 where it takes the
// whole edge.
type Closure struct {
	Name   string
	Edge   EdgeRef
	On     EdgeRef // the edge that is closed on it; the other of a pair where none is named
	Length float64
	Either bool   // it may as well begin at the lower end as at the upper
	Above  string // the edge beside the upper end of its own, where the names tell; else the heights as drawn do
	Apart  bool   // its edges are only held to each other, as by buttons: nothing is sewn along them
}
