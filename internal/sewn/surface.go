package sewn

// What is counted in a surface is numbered from 0, in an order that depends on
// names alone.
type (
	CopyID int
	SideID int
	JoinID int
)

// A Surface is the garment put together.
type Surface struct {
	Plan   Plan // in the order of its names
	Copies []Copy
	Sides  []Side
	Joins  []Join

	shapes []pieceShape // by piece
}

// A Copy is one cut thing with its right side up; a piece cut on the fold is two
// halves that are joined at the fold.
type Copy struct {
	Piece  int // into Plan.Pieces
	Name   string
	Layer  string
	Number int      // among the whole ones of its piece in its layer, from 1
	Hand   int8     // 1 as drawn, −1 mirrored
	Sides  []SideID // in the order they are drawn in

	free bool // its own mirror image, and not yet laid either way
	cut  int8 // its hand as it was cut, before it was turned over
}

// AsCut is 1 of a copy that was cut as it is drawn, −1 of its mirror image.
func (c *Copy) AsCut() int8 { return c.cut }

// A Side is one occurrence of an edge.
type Side struct {
	Copy   CopyID
	Edge   string
	Index  int     // among its copy's sides as drawn
	Length float64 // as drawn
	Closed float64 // once darts and pleats are sewn
	Fold   bool

	joins  []JoinID // of the surface, closures among them
	beside []JoinID // to other layers and to what lies behind
	seams  []int    // that name it, whether they could be laid or not
}

// A Span is a stretch of a side, from From to To millimetres of its closed
// length, counted against the clock.
type Span struct {
	Side     SideID
	From, To float64
}

// Length of the stretch.
func (s Span) Length() float64 { return s.To - s.From }

// A Kind says what a join is.
type Kind int8

// The kinds of joins.
const (
	Sewn    Kind = iota // sewn, within one layer
	Fold                // the two halves of a piece cut on the fold
	Closing             // closed by a zip or buttons
	Caught              // sewn to another layer, or to what lies behind
)

// A Join is two stretches that meet: A.From meets B.To.
type Join struct {
	A, B Span
	Seam int // into Plan.Seams; −1 for a fold, or for a closure no seam has
	Kind Kind
	By   int // into Plan.Closures, where a closure closes it; else −1
}

// other is the stretch that meets the one a side has in a join.
func (j *Join) mate(s SideID, at float64) (own, other Span) {
	own, other = j.A, j.B
	if j.B.Side == s && (j.A.Side != s || at > j.A.To+touch || at < j.A.From-touch) {
		own, other = j.B, j.A
	}
	return own, other
}

// touch is how near two places along a side may be to count as one, mm.
const touch = 1e-4

// across is the place that meets a place along a side.
func (j *Join) across(s SideID, at float64) (SideID, float64) {
	own, other := j.mate(s, at)
	part := 0.5
	if l := own.Length(); l > 0 {
		part = min(max((at-own.From)/l, 0), 1)
	}
	return other.Side, other.To - float64(part*other.Length())
}

// surface reports whether a join makes part of the surface.
func (k Kind) surface() bool { return k == Sewn || k == Fold }

// piece is the piece of a side.
func (s *Surface) piece(id SideID) *Piece { return &s.Plan.Pieces[s.Copies[s.Sides[id].Copy].Piece] }

// next is the side that follows a side against the clock.
func (s *Surface) next(id SideID) SideID { return s.step(id, 1) }

func (s *Surface) step(id SideID, by int) SideID {
	side := &s.Sides[id]
	c := &s.Copies[side.Copy]
	n := len(c.Sides)
	return c.Sides[(side.Index+by*int(c.Hand)+n)%n]
}

// JoinsOf lists the joins that a side has part in.
func (s *Surface) JoinsOf(id SideID) []JoinID {
	side := &s.Sides[id]
	out := append([]JoinID(nil), side.joins...)
	return append(out, side.beside...)
}
