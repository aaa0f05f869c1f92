// Package lay arranges cut outlines on cloth so that the least length is
// used, or so that they fit what is on hand.
//
// It promises plans in which no two outlines overlap and nothing leaves the
// cloth, and the same plan for the same problem and amount of work, bit for
// bit, on any machine and any number of cores: the search is seeded and its
// effort is a count of tried places, never a time.
//
// X runs along the cloth from its cut end (from the fold when it is folded
// crosswise), Y across it from the left selvedge (from the fold when that is
// folded in). Lengths are plain float64 in any one unit, millimetres in this program; turns are degrees
// counter-clockwise. The package knows nothing of records, allowances or
// drawings: outlines in, placements out.
package lay

// A Grain says how a piece's grain line (its own X axis) lies on the cloth.
type Grain int

const (
	Along  Grain = iota // along the cloth, either way round
	Bias                // at 45° to the cloth
	AnyWay              // any turn (sixteen are tried)
)

// A Problem is what is to be cut and from what.
type Problem struct {
	Cloth  Cloth
	Pieces []Piece
	Ties   []Tie // what must meet in the pattern; where not all can, the first do

	thinned map[outlineKey][]Point // outlines of few points, in inner units, as they are met
	fields  *fieldStore            // of all models that are made of it
}

// An outlineKey is a piece, or half of one, as large as a model has it.
type outlineKey struct {
	piece int
	half  bool
	scale float64
}

// A Cloth is a strip of usable width, or a remnant of any outline.
type Cloth struct {
	Width  float64 // usable width of the open cloth
	Length float64 // length on hand; 0 for as long as it takes

	Outline []Point   // of a remnant; Width and Length then follow from it
	Holes   [][]Point // in the remnant
	Flaws   [][]Point // no piece may cover these

	OneWay     bool    // nap or print: every piece points the same way
	Reversible bool    // both faces alike: any piece may be mirrored
	Fold       Fold    // the lays that are wanted
	Clearance  float64 // least distance between outlines

	// A stripe or check repeats after these distances; 0 for none. Where it is
	// Lined, a leading line runs along the cloth at Line from the selvedge, and the
	// pattern is the same to both sides of it unless the cloth is one-way.
	RepeatAlong, RepeatAcross float64
	Lined                     bool
	Line                      float64
}

// A Piece is one cut outline and how often it is needed.
type Piece struct {
	Name     string
	Outline  []Point // allowances included; grain along X; either direction
	Quantity int     // 0 counts as 1
	Mirrored bool    // every second copy is a mirror image ("cut 2 mirrored")
	Grain    Grain
	Turns    []float64 // degrees; when given, these and no others
	OnFold   bool      // a half: edge FoldEdge lies on a fold of the cloth
	FoldEdge int       // the edge from Outline[FoldEdge] to the next point
	Stage    int       // lower stages are laid first, as if alone
	Shown    float64   // degrees by which it is turned where it is tied, mirrored copies by as much the other way; 0 along the grain
}

// Options say how hard to try.
type Options struct {
	Tries    int    // places to try; 0 for DefaultWork
	Seed     uint64 // another seed, another plan
	Cores    int    // 0 for all; changes the time taken, never the plan
	Progress func(Progress)
	Begin    []*Plan // sound plans of the same pieces: the lay is no longer than one of them that this problem allows
	Keep     float64 // least width of a remnant worth keeping; 0 for a tenth of the cloth's

	// Until, for benchmarks only, says how much of the time is gone (0 to
	// 1) and replaces Work; plans are then no longer reproducible.
	Until func() float64

	least Bound // of the problem
}

// Version names the way the engine lays. It changes whenever another plan
// may come of the same problem and work, so that plans kept elsewhere can be
// told to be of an older engine.
const Version = "12"

// DefaultTries lays a garment well within two seconds on two cores.
const DefaultTries = 3_000_000

// Progress reports the best plan so far.
type Progress struct {
	Length float64
	Share  float64 // of the work done, 0 to 1
}

// A Plan is a valid arrangement.
type Plan struct {
	Folding
	Length      float64 // of cloth used, all its layers added up
	Width       float64 // of the cloth as it lies: half when folded lengthwise
	Utilisation float64 // area of the pieces ÷ (length × width), in all layers
	Bound       Bound   // no plan is shorter
	Placements  []Placement
	Unplaced    []Unplaced // pieces that found no place on the cloth on hand
	Fits        bool       // every piece placed, within the length on hand
	Shortage    float64    // length missing on hand; 0 when unknown or none
	Remnants    [][]Point  // empty cloth worth keeping, largest first
	Stages      []float64  // length reached after each stage
	Other       *Plan      // the best lay the other way (a single layer or folded), if wanted
	NotFolded   string     // why there is no folded lay although wanted
	Tried       int        // places tried
	Untied      []int      // ties for which the others leave no room
}

// Better reports whether a plan is the better of two of the same problem: it has more of
// the pieces, leaves fewer matches open, or is shorter by more than a length.
func (a *Plan) Better(b *Plan, by float64) bool {
	switch {
	case a.Fits != b.Fits:
		return a.Fits
	case len(a.Unplaced) != len(b.Unplaced):
		return len(a.Unplaced) < len(b.Unplaced)
	case len(a.Untied) != len(b.Untied):
		return len(a.Untied) < len(b.Untied)
	}
	return a.Length < b.Length-by
}

// A Placement is one piece on the cloth: its outline mirrored (Y changes
// sign) when Mirrored, turned by Turn about its own origin, then moved by
// (X, Y). Problem.Placed does just that.
type Placement struct {
	Piece    int // index in Problem.Pieces
	Copy     int // 0, 1, …
	Turn     float64
	Mirrored bool
	X, Y     float64
	Pair     bool // in two layers: the lower one gives the mirrored copy, Copy+1
	Unfolded bool // a piece on the fold that lies on none: the outline with its mirror image
}

// Unplaced names a copy that found no place.
type Unplaced struct{ Piece, Copy int }

// Placed returns the outline of a placement on the cloth.
func (p *Problem) Placed(at Placement) []Point {
	pts := p.Pieces[at.Piece].Outline
	if at.Unfolded {
		pts = p.Pieces[at.Piece].Unfold()
	}
	return moved(turned(pts, at.Turn, at.Mirrored), at.X, at.Y)
}

// Unfold returns the whole outline of a piece drawn as half on the fold.
func (p *Piece) Unfold() []Point {
	n := len(p.Outline)
	if !p.OnFold || n < 3 || p.FoldEdge < 0 || p.FoldEdge >= n {
		return p.Outline
	}
	a, b := p.Outline[p.FoldEdge], p.Outline[(p.FoldEdge+1)%n]
	out := make([]Point, 0, 2*n-2)
	for i := 1; i <= n; i++ { // from b round to a
		out = append(out, p.Outline[(p.FoldEdge+i)%n])
	}
	for i := n - 1; i >= 2; i-- { // back along the mirror image
		out = append(out, reflect(p.Outline[(p.FoldEdge+i)%n], a, b))
	}
	return tidy(out)
}

// reflect mirrors p in the line ab.
func reflect(p, a, b Point) Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := dot(p.X-a.X, p.Y-a.Y, dx, dy) / dot(dx, dy, dx, dy)
	fx, fy := a.X+float64(t*dx), a.Y+float64(t*dy)
	return Point{2*fx - p.X, 2*fy - p.Y}
}
