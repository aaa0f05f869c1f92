package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// A Garment is a build with everything that follows from its record.
type Garment struct {
	Build    *record.Build
	Sewn     *sewn.Surface   // put together
	Asked    []sewn.Question // what its seams leave open
	Choices  []Choice        // of that, what makes a difference, with the words that settle it
	Pieces   []*Piece
	Seams    []*Seam
	Finishes []*Finish
	Rows     []Row    // every row of stitching there is, in the order of the record
	Levels   []*Level // finished dimensions, top to bottom as the trade names them
	Truing   []Check  // whether what must meet does meet, beside the edges of each seam: see Compared
	Cloths   []*Cloth
	Threads  []*Thread
	Machine  []MachineSet // how the machine is set, as far as that is said
	Bias     []*Bias
	Notions  []*Notion
	Totals   Totals
	Openings []Opening     // ways in and out of the outer layer, from the top down
	Slits    []Slit        // what zips and buttons open and close
	Loose    []LooseSide   // edges joined to nothing and made neat by nothing, of pieces that are joined somewhere
	Apart    []string      // pieces that no seam names an edge of
	Round    int           // the round of fitting whose changes are in it; 0 for the draft
	doubtful []string      // levels whose width tells nothing: see Doubtful
	Faults   []fault.Fault // what figures found wrong: edges that do not meet, checks of seam types
}

// A Piece is a pattern piece with its geometry.
type Piece struct {
	Record     *record.Piece
	Name       string
	Anchor     string        // unique and safe in an address: "piece-front-lining"
	Outline    shape.Outline // the sewing line as drawn; half of the piece where it is cut on fold
	Cut        shape.Cut     // the cut outline of what is drawn, allowances added, nothing added on the fold; shared, not to be changed
	OnFold     bool
	Mirrored   bool     // every other one is the mirror image, which is another form
	Pairs      bool     // cut in pairs, also where both are of one form: every other one may lie face down
	Count      int      // how many are cut in each cloth
	Of         []string // the cloths' parts: "shell", "fusing"
	Grain      string   // along, across, bias, any
	Edges      []PieceEdge
	Darts      []PieceDart
	PleatFolds []PleatFold      // of its pleats, on the piece laid open
	DartsSewn  figure.Figure    // length of darts sewn, all its copies; not set where there are none
	Beside     []BesideLine     // rows beside its seams and inside its finished edges
	Rolled     *Rolled          // what it needs where it is rolled over what lies under it; nil where it is not
	Gathered   []*Gathering     // rows that gather its edges, and their figures
	PleatsSewn figure.Figure    // length of pleats stitched down, all its copies; not set where none are
	Turned     figure.Figure    // length of its free edges, where two plies of it are sewn to each other; not set where none are
	Ring       *shape.RingSkirt // set for a ring skirt
	Area       figure.Figure    // one whole piece, on the sewing line
	CutArea    figure.Figure    // one whole piece, allowances included
	Allowance  figure.Figure    // area of its allowances
	Share      figure.Figure    // allowance ÷ cut area, %
	Extra      []figure.Figure  // radii, hem, panels, godet arc: what the form itself tells
	AtLevels   []LevelWidth     // widths at its levels
	Lines      []PieceLine      // its slits, folds, centres: what other things lie along
	Chalked    []Chalked        // where notions are set out on it
	Laid       []LaidLine       // where tapes, boning, elastic and cords lie on it
	// CutWhole is the cut outline of the whole piece, opened out where it is
	// cut on fold: what a lay plan lays.
	CutWhole shape.Ring
	Width    figure.Figure // the cut piece's extent across the grain
	Height   figure.Figure // the cut piece's extent along the grain

	crossed     []crossedAt // of a band: where seams of what it is sewn to meet it
	form        form        // what the record says of its form, its like: followed
	unfolded    *edgeNote   // its edge on a fold, where it is not cut on the fold
	pleatsWrong bool        // its pleats cannot be folded as they are written, which is told
	notMet      bool        // a seam of such a piece does not meet, which follows from it
	brought     string      // the seam or finish whose type brings it, or the piece it is a ply of; "" of a piece of the record
	lopsided    string      // what lies on one side alone, so that a left and a right are cut though the record does not say so
	refitted    bool        // a round of fitting altered it, not only a piece it is like
}

// A PieceEdge is one named edge of a piece.
type PieceEdge struct {
	Name      string
	Index     int  // into Outline.Edges
	Times     int  // how often the edge occurs in one cloth's set of this piece
	Fold      bool // lies on a fold: no allowance, not sewn
	Level     string
	Length    figure.Figure // along the sewing line
	Intake    figure.Figure // what darts and pleats take in on it; not set where there are none
	Sewn      figure.Figure // Length less Intake
	Drawn     figure.Figure // length of the elastic along it ÷ its own; not set where none is
	Allowance figure.Figure // width of its allowance
	Spare     figure.Figure // what it can give where it is sewn or made neat, sewn again in its own way; not set where neither is
	SewnBy    string        // the seam or finish that uses it; "" where none does
	Holds     string        // the notion in its seam that keeps it from giving anything; "" where none does

	SparePlain      figure.Figure // the same with a plain seam in its place; not set where that gives no more
	SpareOther      figure.Figure // Spare of the edge on its seam's other side; not set where that is another edge
	SpareOtherPlain figure.Figure

	piece   *Piece
	note    *edgeNote
	base    string     // what its IDs begin with: "piece.front.edge.side"
	ref     string     // "front.side"
	sewn    float64    // mm: length less intake
	allow   float64    // mm
	seam    *Seam      // the first seam that uses it
	side    int        // which side of it
	also    []sewnSide // the other sides it lies on
	line    *PieceLine // of which it is what is sewn along it; nil of an edge of the outline
	widened bool       // a placket on a slit makes it longer or shorter
	finish  *Finish    // the first finish that uses it
	inner   *Seam      // of the inner edge of a folded band, the seam at its outer one
	rule    string     // why it has its allowance
	meant   bool       // it is proposed for a seam that names another
}

// A Chalked is a place on a piece at which a notion is to be put, in the outline.
type Chalked struct {
	Notion   string
	At       shape.Point
	Size     float64        // how wide it is, mm; 0 where that is not written
	Hole     [2]shape.Point // the ends of its buttonhole
	Open     bool           // it has one
	HoleOnly bool           // only its buttonhole lies here
}

// A PieceDart is a dart with the points needed to draw it.
type PieceDart struct {
	Record *record.DartSpec
	Plan   shape.DartPlan
	Leg    figure.Figure
}

// A LevelWidth is a piece's sewn width at a level.
type LevelWidth struct {
	Level string
	Y     float64       // where it lies in the outline
	Width figure.Figure // of one whole piece
}

// A Seam is two runs of edges, and what is caught in with them, with the type that
// joins them.
type Seam struct {
	Record   *record.Seam
	Name     string
	Anchor   string
	Type     trade.SeamType
	Params   trade.Params // all of the type's parameters, in millimetres
	Sides    [2]SeamSide
	Plies    []SeamPly        // what is caught in behind one of the sides
	Times    int              // how often the seam is sewn
	Length   figure.Figure    // of one seam: the finished seam line
	Total    figure.Figure    // Length × Times
	Gathered figure.Figure    // length gathered; not set where nothing is
	Differ   figure.Figure    // longer − shorter, less declared ease, overlap or gathers
	Full     figure.Figure    // fullness ratio, longer ÷ shorter
	Gives    [2]figure.Figure // allowance each side gives up
	Width    figure.Figure    // finished width of the seam
	Crossed  figure.Figure    // plies on each other where it runs over another seam, the most; not set where it crosses none
	Over     string           // the seam that it runs over there
	Meets    bool             // within tolerance
	met      Check            // its sides held against each other
	Strips   []StripNeed

	anchor     string
	kind       *seamType    // nil where the type is not known
	given      trade.Params // the measures written
	followed   source       // where its allowance comes from, where it is not written
	bandWide   *bandWidth   // where a measure that follows its band comes from; nil where none does
	laps       bool         // overlap: is its type's measure, not a closure's
	gives      [2]float64   // mm each side gives up
	width      float64      // mm
	layers     int          // in how many layers it is sewn
	err        error
	miscounted bool   // a piece of it is cut too often or too seldom, which is told
	rows       bool   // the brackets of its rows are missing, which is told
	broken     bool   // it does not join two sides that are there
	band       *Piece // the band that it sews on by its bottom; nil where there is none
	bandSide   int    // the side of it that the band stands on
	lapOn      int    // the side that is the longer by its overlap
	at         bool   // it sets a whole piece on another at a place
	besides    []besideRow
	set        bool // it sews a piece on the face of another, along a line there: no edge is closed by it but the piece's own
}

// A SeamSide is one side of a seam.
type SeamSide struct {
	Edges  []EdgeUse
	Length figure.Figure // sewn length of one occurrence, or of the whole run
}

// An EdgeUse is an edge in a seam or finish.
type EdgeUse struct {
	Piece *Piece
	Edge  *PieceEdge
	Hand  record.Hand // of a pair, or of the halves of a fold, the one that is meant; "" for both
}

// Times is how often the edge occurs in what uses it.
func (u EdgeUse) Times() int {
	if u.Hand != "" {
		return u.Edge.Times / 2
	}
	return u.Edge.Times
}

// ref names the edge as it is used.
func (u EdgeUse) ref() string {
	if u.Hand != "" {
		return string(u.Hand) + " " + u.Edge.ref
	}
	return u.Edge.ref
}

// A Finish is one or more edges made neat.
type Finish struct {
	Record *record.Finish
	Name   string
	Anchor string
	Type   trade.SeamType
	Params trade.Params
	Edges  []EdgeUse
	Total  figure.Figure // length of all its edges, all occurrences
	Takes  figure.Figure // allowance it needs
	Width  figure.Figure // finished width
	Strips []StripNeed
	Drawn  figure.Figure // length of its elastic or ribbing ÷ length of the edge; not set where nothing draws it in

	anchor  string
	kind    *seamType
	given   trade.Params
	besides []besideRow
}

// A StripNeed is what a construction takes besides its edges: binding, piping, elastic,
// a zip, or a piece it brings.
type StripNeed struct {
	What   string
	As     trade.Role    // "" of a piece
	Cloth  string        // the part it is cut from; "" of what is bought or comes from elsewhere
	Cut    figure.Figure // how wide
	Each   figure.Figure // how long one is; not set where it simply runs along the edges
	Count  int           // how many there are of that length
	Length figure.Figure // of all together
	Times  int           // how many strips they are in all: rings, or edges one by one; 0 of a piece

	rule   *trade.PieceRule // of a piece
	of     string           // the seam or finish that brings it
	params trade.Params
}

// Piece reports whether it is a piece that the type brings, cut on the grain, and no
// strip.
func (s *StripNeed) Piece() bool { return s.As == "" }

// A Level is a finished dimension round the body.
type Level struct {
	Name     string
	Title    string
	Slug     string        // unique among the levels
	Finished figure.Figure // width
	Gap      figure.Figure // what its lacing leaves open, in Finished; not set where nothing is said
	Most     figure.Figure // width when it is stretched as far as its cloth gives; not set where no cloth there says how far
	Girths   []sewn.Girth  // each way round, or across, that adds up to it
	Limbs    int           // how many limbs it goes round, of which Finished is one; 1 for the body
	LetOut   figure.Figure // how much it can be let out, its seams sewn again in their own way
	Drawn    bool          // elastic or ribbing draws it in, so that it gives
	HeldBy   string        // what keeps its length there, so that nothing can be let out, or the layer caught to it that gives less; "" where nothing does

	LetOutPlain figure.Figure // the same with plain seams in their place; not set where that gives no more

	cross []crossing
}

// Pieces are those whose widths add up to the level's.
func (l *Level) Pieces() []*Piece {
	list := make([]*Piece, len(l.cross))
	for i := range l.cross {
		list[i] = l.cross[i].piece
	}
	return list
}

// A Cloth is one cloth in one part of the garment.
type Cloth struct {
	Part      string // "shell"
	Use       *record.ClothUse
	Cloth     *record.Cloth
	Pieces    []*Piece
	Area      figure.Figure // of all its pieces on the sewing line
	CutArea   figure.Figure // of all its pieces as cut, strips included: the net area, not yet a length to buy
	Allowance figure.Figure // area of all its allowances
	Share     figure.Figure // allowance ÷ cut area, %
	Length    figure.Figure // length of all allowances
	Needed    figure.Figure // cloth length; not known until a lay plan exists
	Mass      figure.Figure // of what is in the garment

	PiecesCut figure.Figure // its pieces as cut, without strips
	Slug      string        // unique among the cloths' parts
}

// A Thread is what one thread of the build adds up to.
type Thread struct {
	Name   string
	Colour string
	Needle figure.Figure
	Under  figure.Figure
	Total  figure.Figure // with waste
	Reels  figure.Figure
	Mass   figure.Figure
}

// A Bias is bias strip for its own sake.
type Bias struct {
	Record *record.BiasStrip
	Anchor string
	Cut    figure.Figure // cut width
	Length figure.Figure // wanted, joins and overlap included
	Square figure.Figure // side of the square that yields it

	SquareSewn figure.Figure   // the same with the seams that make a tube of it
	Remnants   []figure.Figure // strip each remnant of its cloth would yield
}

// A Notion is a notion with what follows from it.
type Notion struct {
	Record    *record.Notion
	Count     figure.Figure
	Length    figure.Figure    // of one
	Total     figure.Figure    // length of all, where it is sold by length
	Gap       figure.Figure    // spacing as it comes out, where it is spaced
	Places    []measure.Length // positions from the start, where it is spaced
	Mass      figure.Figure
	Hole      figure.Figure // length of one of its buttonholes; not set where it has none, or its size is not written
	HolesSewn figure.Figure // length of all of them
	SewnOn    figure.Figure // length of thread in one stitch through all of them; of buttons of which the size is written
	Stand     figure.Figure // how far from the edge their line lies at least; of such that have buttonholes
	ToHave    figure.Figure // how many to have, with spare ones; of buttons of which the size is written
	HolesLie  string        // how its buttonholes lie, who works them and on which side
	Each      []NotionCut   // its lengths, where they come from seams or edges

	Slug string
}

// A NotionCut is one length a notion is cut to.
type NotionCut struct {
	In     string // the seam or edge it goes into
	Length figure.Figure
	Count  int
}

// Totals are sums over the build.
type Totals struct {
	Allowance figure.Figure // length of all allowances
	Area      figure.Figure // area of all allowances
	CutArea   figure.Figure // area of all that is cut
	Share     figure.Figure // of all cloth cut
	Seams     figure.Figure // metres sewn
	Mass      figure.Figure // of the garment
	Own       figure.Figure // weight of a garment that came to be mended; not set of one that is cut here
	Weighed   figure.Figure // of what has a weight; not set where all has, or nothing
	Unweighed []string      // what has none, by name
}
