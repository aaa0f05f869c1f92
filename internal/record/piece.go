package record

import (
	"hembook/internal/fault"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// A Piece is a pattern piece. Its form is given once: as an outline, like
// another piece, or as one of the regular forms.
type Piece struct {
	At        fault.Pos      `yaml:"-"`
	Name      Text           `yaml:",key" many:"pieces" was:"name"`
	Note      Spoken         `yaml:"note" about:"a remark shown with the piece"`
	Called    Spoken         `yaml:"called" about:"what sheets call it, by language; else its own name, and in other languages what the trade calls such a piece" eg:"{de: Taillenband, fr: ceinture}"`
	Of        List[Text]     `yaml:"of" about:"the cloth or cloths it is cut in, from the outside in; else the first cloth. The same one twice: two that are sewn as one, as a collar" eg:"[shell, fusing, shell]"`
	Cut       Val[Cut]       `yaml:"cut" about:"how many, and how: 1, 1 on fold, 2 (a left and a right), 4 alike; left out, it is cut as its outline tells" eg:"1 on fold"`
	Grain     Text           `yaml:"grain" one-of:"along|across|bias|any" about:"how the piece lies on the cloth: y of the outline runs this way"`
	Allowance Length         `yaml:"allowance" min:"0" max:"300" seldom:"120" about:"the allowance of every edge that has none of its own"`
	Outline   *OutlineSpec   `yaml:"outline" about:"the sewing line, drawn edge by edge"`
	LikeAll   List[Text]     `yaml:"like" about:"the piece it has its outline from; write only what differs. Of several, [front, back], a piece for each: front lining and back lining"`
	Like      Text           `yaml:"-"` // the one of them that this piece is like
	Change    []Change       `yaml:"change" about:"what differs from the piece it is like"`
	Ring      *RingSpec      `yaml:"circle" was:"ring" about:"a skirt cut as a circle or part of one; edges waist, right, hem, left"`
	Rectangle *RectangleSpec `yaml:"rectangle" about:"two sides, across and along the grain, in repeats of the cloth too, as 12 repeats; edges bottom, right, top, left"`
	Trapezoid *TrapezoidSpec `yaml:"trapezoid" about:"two parallel sides and a height; edges bottom, right, top, left"`
	Godet     *GodetSpec     `yaml:"godet" about:"a wedge let into a slit; edges right, hem, left"`
	Band      *BandSpec      `yaml:"band" about:"a straight strip as long as what its bottom is sewn to, as a waistband or a cuff: its width, or more; edges bottom, right, top, left" eg:"35"`
	Border    *BorderSpec    `yaml:"border" about:"a strip shaped like edges of another piece, as a facing or a strip of interfacing; their names stay, its new edge is inner" eg:"{along: front.neck, width: 60}"`
	Block     *BlockSpec     `yaml:"block" about:"a rectangle that lies behind what is marked on a piece, as interfacing behind buttonholes; edges bottom, right, top, left" eg:"{behind: buttons, beyond: 12}"`
	Edges     Dict[EdgeSpec] `yaml:"edges" about:"what there is to say of the edges of a rectangle, circle or the like, or of the piece it is like"`
	Darts     []DartSpec     `yaml:"darts" about:"darts, by the edge they open on"`
	Pleats    []PleatSpec    `yaml:"pleats" about:"pleats and tucks, by their edge"`
	Gathers   []GatherSpec   `yaml:"gathers" about:"edges that are gathered or shirred, by their name, where the seam does not say it"`
	Notches   []NotchSpec    `yaml:"notches" about:"marks that meet marks on the edges they are sewn to"`
	Lines     []LineSpec     `yaml:"lines" about:"lines on the piece, by their names: a slit, a centre front, a fold; things are sewn and set out along them"`
	Levels    Dict[Length]   `yaml:"levels" about:"heights (y of the outline) at which the width of the piece counts for a level"`
	Turn      *TurnSpec      `yaml:"turn-of-cloth" about:"it is rolled over with what lies under it, as an upper collar or the outer of a cuff, and needs more: by how many degrees, or more" eg:"180"`
	Placed    []trace.Place  `yaml:"-"` // where its file draws that buttons and the like are put
	set       string         `yaml:"-"` // the name of several, of which it is one
	formYet   bool           `yaml:"-"` // its form is one that is to be read one day
	Pair      string         `yaml:"-"` // the pair of which it is one, where the record tells its left and right apart
	Hand      Hand           `yaml:"-"` // and which
}

func (p *Piece) wishes(word string) {
	p.formYet = p.formYet || word == "given"
}

// Cut says how many of a piece are cut and how.
type Cut struct {
	N      int
	OnFold bool // each is cut on the fold: its outline is half of it
	Alike  bool // all of one hand; else an even number is cut in pairs, a left and a right
}

// An OutlineSpec is a closed line of straight and curved edges, drawn in the
// record or in a pattern file beside it. What a file draws is filled in when
// the record is read, so that the figures cannot tell the two apart.
type OutlineSpec struct {
	At      fault.Pos    `yaml:"-"`
	File    Text         `yaml:"file" short:"yes" about:"a pattern file beside the record that draws it, SVG or DXF, and after # the name of the piece in it" eg:"pattern/bodice.svg#front"`
	From    Val[XY]      `yaml:"from" about:"where the line starts: [x, y]; else [0, 0]" eg:"[0, 0]"`
	Units   Text         `yaml:"units" one-of:"mm|cm|in" about:"of a file: what one unit of its drawing is, whatever the file says"`
	Scale   Turns        `yaml:"scale" min:"0.001" max:"1000" about:"of a file: how many times larger the garment is than the drawing, as 4" eg:"4"`
	Corners Number       `yaml:"corners" min:"1" max:"170" about:"of a file: where its line turns by more degrees than this it has a corner, and one edge ends; else 20"`
	Drawn   *trace.Piece `yaml:"-"` // what the file draws; nil where it draws nothing, or the record does
	Line    Text         `yaml:"line" one-of:"sewing|boundary" about:"of a file: which of its lines is the sewing line"`
	Edges   []EdgeLine   `yaml:",rest" was:"edges" must:"yes" unless:"file" about:"the edges in order; of a file their names, where it does not name them" eg:"side: [190, 600]"`
}

// XY is a point: x across, y up along the grain, in millimetres.
type XY struct{ X, Y float64 }

// An EdgeLine is one edge of an outline as drawn.
type EdgeLine struct {
	At        fault.Pos    `yaml:"-"`
	Name      Text         `yaml:",key" many:"edges of an outline" was:"name" empty:"yes"`
	To        Val[XY]      `yaml:"to" short:"list" about:"where it ends: [x, y]; not of the last edge" eg:"[190, 600]"`
	Bend      Val[Bend]    `yaml:"curve" about:"two control points: [[x, y], [x, y]]; or how far its middle lies outside the straight line, inside where negative" eg:"-13"`
	Curve     Val[Handles] `yaml:"-"` // the control points, however they were given
	Level     Text         `yaml:"level" about:"the level the edge lies at, where its length counts (else the one it is called after, as waist); none, where it lies at none"`
	Allowance Length       `yaml:"allowance" min:"0" max:"300" seldom:"120" about:"the allowance of this edge"`
	Corner    Text         `yaml:"corner" one-of:"mitre|square|mirror" about:"how the allowance ends at its corners; else as its finish needs"`
	Fold      Flag         `yaml:"fold" short:"fold" about:"the edge lies on a fold of the cloth"`
	unread    bool         `yaml:"-"` // something of it could not be read, which was told
}

func (e *EdgeLine) faulty() { e.unread = true }

// Bends are the points that draw an edge of one or more cubic parts anew: the two control
// points of each part, and between those of two parts the point where these meet.
type Bends []XY

// Handles are the two control points of a cubic edge.
type Handles [2]XY

// An EdgeSpec says more about an edge that exists already.
type EdgeSpec struct {
	At        fault.Pos `yaml:"-"`
	Name      Text      `yaml:"name" short:"name" about:"a better name for it"`
	Level     Text      `yaml:"level" about:"the level the edge lies at (else the one it is called after, as waist); none, where it lies at none"`
	Allowance Length    `yaml:"allowance" short:"yes" min:"0" max:"300" seldom:"120" about:"the allowance of this edge"`
	Corner    Text      `yaml:"corner" one-of:"mitre|square|mirror" about:"how the allowance ends at its corners; else as its finish needs"`
	Fold      Flag      `yaml:"fold" short:"fold" about:"the edge lies on a fold of the cloth"`
}

// A RingSpec is a ring skirt: k turns of a circle.
type RingSpec struct {
	At     fault.Pos `yaml:"-"`
	Turns  Turns     `yaml:"share" was:"turns" must:"yes" min:"0.05" max:"4" about:"how much of a circle the whole skirt is" eg:"3/4"`
	Waist  Length    `yaml:"waist" must:"yes" min:"1" about:"the finished waist seam"`
	Length Length    `yaml:"length" must:"yes" min:"1" about:"from waist seam to hem, finished"`
	Panels Count     `yaml:"panels" min:"1" max:"24" about:"in how many equal panels it is cut; else the fewest that fit the cloth"`
}

// A RectangleSpec is written [across, along].
type RectangleSpec struct {
	At     fault.Pos
	Across Length
	Along  Length
}

// A TrapezoidSpec has two parallel sides.
type TrapezoidSpec struct {
	At     fault.Pos `yaml:"-"`
	Bottom Length    `yaml:"bottom" must:"yes" min:"1" repeats:"yes" about:"the lower side"`
	Top    Length    `yaml:"top" must:"yes" min:"0" repeats:"yes" about:"the upper side"`
	Height Length    `yaml:"height" must:"yes" min:"1" repeats:"yes" about:"the distance between them"`
}

// A GodetSpec is a sector, given by its angle or by what it adds to the hem.
type GodetSpec struct {
	At     fault.Pos `yaml:"-"`
	Height Length    `yaml:"height" must:"yes" min:"1" about:"the length of its straight sides"`
	Angle  Number    `yaml:"angle" min:"1" max:"350" about:"the angle at its point, in degrees"`
	Hem    Length    `yaml:"hem" min:"1" about:"what it adds to the hem, instead of the angle"`
}

// A BandSpec is a straight strip as long as what it is sewn to.
type BandSpec struct {
	At     fault.Pos `yaml:"-"`
	Width  Length    `yaml:"width" short:"yes" must:"yes" min:"1" seldom:"250" about:"how wide it is when it is done" eg:"35"`
	Folded Flag      `yaml:"folded" about:"its outside and its inside are cut in one: it is drawn twice as wide, with the fold line between them"`
	Lap    Length    `yaml:"lap" min:"1" seldom:"250" about:"how much longer it is than what it is sewn to, to lap at a closure; else its ends are sewn to each other where that goes all round" eg:"30"`
	Share  Turns     `yaml:"share" min:"0.3" max:"1.5" about:"of ribbing and the like: how long it is as a share of what it is sewn to, as 0.8" eg:"0.8"`
	Length Length    `yaml:"length" min:"1" about:"how long it is, in place of what would follow; its lap included"`
}

// A DartSpec is a dart that opens on an edge.
type DartSpec struct {
	At     fault.Pos `yaml:"-"`
	Edge   Text      `yaml:",key" many:"darts" by:"their edge" was:"edge" several:"yes"`
	Name   Text      `yaml:"name" about:"what it is called, where an edge has several"`
	Place  Where     `yaml:"at" must:"yes" about:"where on the edge its middle is: 60 from its start, 60 from waist, or middle" eg:"60"`
	Along  Length    `yaml:"-"` // the same from the edge's start; the figures work it out where it is measured from elsewhere
	Width  Length    `yaml:"width" must:"yes" min:"1" seldom:"120" about:"what it takes in"`
	Length Length    `yaml:"length" min:"1" seldom:"450" about:"from the edge to its point, square to the edge"`
	Point  Val[XY]   `yaml:"point" about:"where its point lies, instead of its length: [x, y]"`
}

// A PleatSpec is one or more equal pleats or tucks on an edge.
type PleatSpec struct {
	At       fault.Pos  `yaml:"-"`
	Edge     Text       `yaml:",key" many:"pleats" by:"their edge" was:"edge" several:"yes"`
	Kind     Text       `yaml:"kind" one-of:"knife|box|inverted|tuck|pin tuck|growth tuck" about:"knife, one fold; box, two that lie away from each other, inverted, two that meet, tuck, stitched all its length, else knife"`
	Count    Count      `yaml:"count" min:"1" max:"500" about:"how many; else 1"`
	Depth    Length     `yaml:"depth" min:"0.5" repeats:"yes" about:"how far each goes under; a fold takes in twice its depth, so a box pleat four times" eg:"20"`
	Closes   ClosedTo   `yaml:"into" min:"1" repeats:"yes" about:"how long the edge of the whole piece is once they are folded; drawn open, their depth follows. With a level they taper to it" eg:"{waist: 365, hip: 515}"`
	Into     Length     `yaml:"-"` // what the edge closes to
	Level    Text       `yaml:"-"` // where they close to another length
	AtLevel  Length     `yaml:"-"` // which is this
	Then     Length     `yaml:"-"` // how deep they go from their bend on, of pleats that a file draws tapering
	Until    Length     `yaml:"-"` // how far inside the edge that is
	Place    Where      `yaml:"at" about:"of a single one: where on the edge its fold comes to lie, or the middle of a box or inverted pleat; else the middle" eg:"75 from side"`
	First    Where      `yaml:"first" about:"of several: where the first is; else they are spread evenly" eg:"95 from underarm back"`
	Last     Where      `yaml:"last" about:"where the last is"`
	Every    Length     `yaml:"every" min:"1" repeats:"yes" about:"how far they are apart; in repeats of the cloth, as 2 repeats, they are laid to its pattern" eg:"35"`
	Unread   bool       `yaml:"-"` // a length of theirs could not be read, which was told
	Repeats  float64    `yaml:"-"` // the same in repeats of the cloth, where it is so written
	Towards  Text       `yaml:"towards" about:"of knife pleats and tucks: the edge their folds are laid towards; else of one the nearer end, and of several the same end for all" eg:"side"`
	Stitched Val[Down]  `yaml:"stitched" about:"how far each is stitched down from the edge: 60, to hip, or all; else they are only pressed" eg:"60"`
	Runs     Val[Reach] `yaml:"runs" about:"how far in they run out to nothing: 120, or to a level, as to elbow; the outline is drawn with them open. Else they go on through the piece" eg:"120"`
	Soft     Flag       `yaml:"soft" about:"left without the iron, so that they open softly; else they get a crease all their length"`
	Drawn    Flag       `yaml:"drawn" about:"the outline is drawn with them open; else it is drawn as they lie folded, and the program lets them in"`
}

// ClosedTo is the length that pleats close an edge to: one, or one for the edge and one for
// a level.
type ClosedTo struct {
	Edge   Length
	Levels Dict[Length]
}

// Given reports whether anything was written.
func (c *ClosedTo) Given() bool { return c.Edge.Given() || len(c.Levels) > 0 }

// A LineSpec is a line on a piece: beside an edge, or from one place to another.
type LineSpec struct {
	At     fault.Pos   `yaml:"-"`
	Name   Text        `yaml:",key" many:"lines"`
	Along  Val[Beside] `yaml:"along" short:"yes" about:"how far inside which edge it runs, from end to end of it" eg:"18 inside front edge"`
	From   Val[Spot]   `yaml:"from" about:"where it begins instead: a place on an edge, as wrist at 75 from underarm back, or a point [x, y]" eg:"wrist at 75 from underarm back"`
	To     Val[Spot]   `yaml:"to" about:"where it ends: a place on an edge, or a point [x, y]" eg:"[120, 340]"`
	Length Length      `yaml:"length" min:"1" about:"instead of to: how long it is, square to the edge it begins on" eg:"130"`
	Bend   Val[Bend]   `yaml:"curve" about:"two control points: [[x, y], [x, y]]; or how far its middle lies to the right of the straight line, to the left where negative" eg:"-6"`
	Slit   Flag        `yaml:"slit" about:"it is cut open; both its sides are sewn along"`
	Fold   Flag        `yaml:"fold" about:"the cloth is folded along it"`
	Path   shape.Line  `yaml:"-"` // where it lies as a file draws it; none of one that is written here
	Laid   string      `yaml:"-"` // what lies along it, where a file draws it for that: tape, boning, elastic, cord
	unread bool        `yaml:"-"` // something of it could not be read, which was told
}

func (l *LineSpec) faulty() { l.unread = true }

// A GatherSpec is an edge that is drawn up by rows of stitching, to a length or by a
// ratio.
type GatherSpec struct {
	At      fault.Pos `yaml:"-"`
	Edge    Text      `yaml:",key" many:"gathers" by:"their edge"`
	Ratio   Turns     `yaml:"ratio" short:"yes" min:"1.05" max:"6" about:"how many times as long the edge is before; of elastic thread else 2" eg:"1.5"`
	Into    Length    `yaml:"into" min:"1" about:"how long the edge of the whole piece is once it is gathered, in place of a ratio" eg:"365"`
	Rows    Count     `yaml:"rows" min:"1" max:"40" about:"how many rows; else 2, of elastic thread 3"`
	Apart   Length    `yaml:"apart" min:"1" max:"100" about:"how far the rows are apart; else 6.4 mm, of elastic thread 10"`
	Inside  Length    `yaml:"inside" min:"0" about:"how far inside the edge the first row lies; else beside the seam, in its allowance, and at an edge that no seam takes on the edge"`
	Elastic Flag      `yaml:"elastic" about:"the rows are sewn with elastic thread and stay, as shirring"`
	unread  bool      `yaml:"-"` // it could not be read whole, which is told
}

func (g *GatherSpec) faulty() { g.unread = true }
