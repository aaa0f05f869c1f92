package record

import (
	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
	"hembook/internal/shape/trace"
)

// A Build is one garment being made: content/builds/<slug>/build.yaml.
type Build struct {
	Slug    string                `yaml:"-"`
	At      fault.Pos             `yaml:"-"`
	Notes   *Prose                `yaml:"-"` // notes.md beside the record; nil where there is none
	Text    []byte                `yaml:"-"` // the record as it was written, private parts cut out; nil where they could not be cut safely
	Secrets []Private[Secret]     `yaml:"-"` // the private values of the record
	Folder  string                `yaml:"-"` // slash-separated, relative to the workroom's folder
	NotUnit bool                  `yaml:"-"` // its lengths are probably in another unit than it says, which was told
	Inches  []Text                `yaml:"-"` // lengths with an inch mark in a metric record, as they are written
	like    likeness              `yaml:"-"`
	Whole   *Build                `yaml:"-"` // the record before a left and a right of a pair were told apart, without its rounds; nil where they are not
	words   []Text                `yaml:"-"` // of its outermost group, in their order
	repeats map[fault.Pos]float64 `yaml:"-"` // lengths that are written in repeats of a cloth: how many
	doubled bool                  `yaml:"-"` // the name of a piece is written twice, so that another may lack

	Name       Spoken            `yaml:"name" must:"yes" about:"what the garment is called in the notebook" eg:"Harvest supper dress"`
	Summary    Spoken            `yaml:"summary" about:"one sentence for lists and descriptions"`
	Garment    Text              `yaml:"garment" must:"yes" about:"the kind of garment: dress, skirt, trousers, waistcoat, coat, blouse, slip …" eg:"dress"`
	Noun       Dict[Val[Noun]]   `yaml:"noun" names:"en|de|fr|es|it|nl" about:"what sentences on sheets call it in a language, with its gender as a dictionary has it: m, f, n, pl, m pl or f pl" eg:"{de: Hose f, fr: pantalon m}"`
	For        ForWhom           `yaml:"for" about:"who it is for, in general terms; the wearer's own data stay in the wearer's file"`
	State      Text              `yaml:"state" must:"yes" one-of:"planned|fitting|cutting|sewing|finishing|packed|sent|set aside" about:"how far the garment is"`
	Begun      Date              `yaml:"begun" about:"the day work began"`
	Due        Date              `yaml:"due" about:"the day it must be finished"`
	Sent       Date              `yaml:"sent" about:"the day it was sent"`
	Wearer     Private[Text]     `yaml:"wearer" about:"the name of a file in content/wearers, without .yaml; private"`
	Units      Text              `yaml:"units" one-of:"mm|cm|in" about:"what a bare length is in; else the workroom's units"`
	Story      Text              `yaml:"story" about:"the story of the garment, in Markdown"`
	Picture    Portrait          `yaml:"picture" about:"the picture shown first"`
	Pictures   []Photo           `yaml:"pictures" about:"further pictures"`
	Cloth      Dict[ClothUse]    `yaml:"cloth" about:"the cloths by the part they play: shell, overlay, lining, interlining, fusing, trim"`
	Thread     Dict[ThreadUse]   `yaml:"thread" about:"the sewing threads by name"`
	DraftedFor Dict[Length]      `yaml:"drafted-for" about:"the size you drafted for. Public: never the wearer's own measurements"`
	Usual      BuildUsual        `yaml:"usual" about:"what holds in this garment where nothing else is said"`
	Pieces     []Piece           `yaml:"pieces" about:"the pattern pieces"`
	Seams      []Seam            `yaml:"seams" about:"which edges are sewn together"`
	Finishes   []Finish          `yaml:"finishes" about:"hems and other finished edges"`
	Levels     Dict[LevelSpec]   `yaml:"levels" about:"a measurement the outlines cannot tell: its width, or how far the finished garment may differ"`
	Lengths    []LengthLine      `yaml:"lengths" about:"finished lengths to be known, by their names: waist to hem, sleeve …"`
	Notions    []Notion          `yaml:"notions" about:"zips, hooks, buttons, boning, tapes, elastic, cords"`
	MatchOf    List[Text]        `yaml:"match" about:"what meets in the pattern: seams, pieces set on others, edges as front.centre, buttons along their line; along or across, only that way" eg:"[sides, pocket, front.centre]"`
	Match      []Matching        `yaml:"-"` // what they name
	Bias       []BiasStrip       `yaml:"bias" about:"bias strip that no finish asks for"`
	Work       []Step            `yaml:"work" about:"the order of work: each step by what is done"`
	Hang       []Hang            `yaml:"hang" about:"how far hems dropped while they hung, measured before they were levelled"`
	Fittings   []Fitting         `yaml:"fittings" about:"the fittings, one after another"`
	CutOrder   Dict[[]CutGroup]  `yaml:"cut-order" was:"lay" about:"per cloth: which pieces are cut first, and which from what remains"`
	Journal    []Entry           `yaml:"journal" about:"what happened, with its date"`
	Measured   Dict[Length]      `yaml:"measured" about:"what the finished garment measures, by the name of the level or length"`
	Later      []Remeasured      `yaml:"later" about:"what it measured later, after it was altered or worn: the newest holds on its sheets"`
	Packet     Packet            `yaml:"packet" about:"what the wearer's packet says beside the figures"`
	Costs      Private[Costs]    `yaml:"costs" about:"what it cost beside cloth and notions; private"`
	Private    Private[FreeYAML] `yaml:"private" about:"anything for the maker's eyes only"`
}

// A BuildUsual holds in one build; the workroom's own holds where it is silent.
type BuildUsual struct {
	At        fault.Pos    `yaml:"-"`
	Seam      UsualSewing  `yaml:"seam" about:"how a seam is sewn that says no type" eg:"flat-felled"`
	Hem       UsualSewing  `yaml:"hem" about:"how an edge is finished that says no type" eg:"double-turned-hem"`
	Allowance Length       `yaml:"allowance" min:"0" max:"300" seldom:"120" about:"the allowance where no edge, piece or seam says one; else the workroom's"`
	Tolerance Length       `yaml:"tolerance" min:"0" seldom:"30" about:"how far joined edges may differ; else the workroom's"`
	Thread    Text         `yaml:"thread" about:"the thread of seams and finishes that name none"`
	LeastEase Dict[Length] `yaml:"least-ease" about:"the least ease this garment needs at a level"`
	Truing    Truing       `yaml:"truing" about:"how far edges that are sewn together may differ"`
}

// A UsualSewing is how seams are sewn, or edges finished, that say no type.
type UsualSewing struct {
	At     fault.Pos `yaml:"-"`
	Type   Text      `yaml:"type" short:"yes" must:"yes" about:"a seam type or finish of the trade tables or of the workroom" eg:"hong-kong"`
	Stitch Text      `yaml:"stitch" about:"the stitch type by its ISO 4915 number"`
	Strip  Text      `yaml:"strip" about:"the cloth of its binding or piping strip"`

	Topstitch  RowsBeside `yaml:"topstitch" about:"rows that are seen, beside each such seam or inside each such edge: how far from it, or more" eg:"[2, 8]"`
	EdgeStitch RowsBeside `yaml:"edge-stitch" about:"a row very close to each such seam or edge: how far from it, or more" eg:"2"`

	With Dict[Length] `yaml:",rest" about:"its type's own measures by name, as sew: 3"`
}

// FreeYAML is a part of a record that the reader leaves alone.
type FreeYAML struct{ Node *yaml.Node }

// Under is the word of the record's outermost group that a place stands under: "pieces".
// It is empty for a place in another file.
func (b *Build) Under(at fault.Pos) string {
	under := ""
	for _, w := range b.words {
		if w.At.Source != at.Source || w.At.Line > at.Line {
			break
		}
		under = w.V
	}
	return under
}

// ForWhom says who a garment is for, in terms that may be published.
type ForWhom struct {
	Who    Text   `yaml:"who" short:"yes" one-of:"woman|man|girl|boy|child|baby|anyone" about:"who it is for" eg:"woman"`
	Age    Number `yaml:"age" min:"0" max:"120" about:"age in years, where a rule depends on it"`
	Height Length `yaml:"height" about:"body height, where a rule depends on it"`
}

// Given reports whether anything was written.
func (f ForWhom) Given() bool { return f.Who.Given() || f.Age.Given() || f.Height.Given() }

// A ClothUse is one cloth in one part of the garment.
type ClothUse struct {
	At        fault.Pos `yaml:"-"`
	Use       Text      `yaml:"use" short:"yes" must:"yes" about:"the name of a file in content/cloth, without .yaml" eg:"rust-linen"`
	OneWay    Flag      `yaml:"one-way" about:"all pieces point the same way; else as the cloth's file says"`
	Main      Flag      `yaml:"main" about:"it is the main lining, which the fibre label names"`
	Fold      Text      `yaml:"fold" one-of:"open|folded|lengthwise|crosswise|both selvedges|part of width|part of length|either" about:"how the cloth is laid, folded in any of the ways there are; else whichever way needs least cloth" eg:"lengthwise"`
	Allowance Length    `yaml:"allowance" min:"0" max:"300" seldom:"120" about:"the allowance of what is cut from it, as 0 for fusing that stays out of the seams; a ply of a piece has no more than the piece" eg:"0"`
}

// A ThreadUse is one sewing thread.
type ThreadUse struct {
	At     fault.Pos      `yaml:"-"`
	Colour Text           `yaml:"colour" short:"yes" must:"yes" about:"its colour in words" eg:"rust"`
	Fibre  Text           `yaml:"fibre" about:"what it is spun from"`
	Reel   Length         `yaml:"reel" about:"how much is on a reel" eg:"200 m"`
	Price  Private[Money] `yaml:"price" about:"the price of a reel; private"`
	Mass   Mass           `yaml:"weight" was:"mass" about:"what the thread of a full reel weighs"`

	Setting
}

// A Setting is how a machine is set: for a thread, and for what is sewn, where it holds
// before the thread's.
type Setting struct {
	Needle       Text   `yaml:"needle" about:"the needle it is sewn with" eg:"100 topstitch"`
	StitchLength Length `yaml:"stitch-length" min:"0.5" max:"12" about:"the stitch length it is sewn with" eg:"3.5 mm"`
	Tension      Text   `yaml:"tension" about:"the machine's tension for it" eg:"4"`
	Foot         Text   `yaml:"foot" about:"the presser foot for it" eg:"edge foot"`
}

// A Change is what a fitting, or a derived piece, alters: an edge, or a dart. Of a seam
// or of an edge of a set a round has a change for each edge.
type Change struct {
	At       fault.Pos     `yaml:"-"`
	Edge     Text          `yaml:",key" many:"changes" by:"what is changed" was:"edge" several:"yes"`
	Dart     Text          `yaml:"-"` // in place of an edge: piece.dart in a fitting, dart alone in a derived piece
	Pleat    Text          `yaml:"-"` // likewise of pleats: piece.edge, or edge alone
	Gather   Text          `yaml:"-"` // likewise of gathers
	Notion   Text          `yaml:"-"` // likewise what is set out along an edge, by its name
	Line     Text          `yaml:"-"` // likewise a line on a piece: piece.line, or line alone
	Move     Length        `yaml:"move" short:"yes" min:"-500" max:"500" seldom:"120" about:"moved outwards by so much; inwards where negative"`
	Start    Length        `yaml:"start" min:"-500" max:"500" about:"moved outwards by so much where it begins, along the edge before it, to nothing at its other end"`
	End      Length        `yaml:"end" min:"-500" max:"500" about:"moved outwards by so much where it ends, along the edge after it, to nothing at its other end"`
	Lengthen Length        `yaml:"lengthen" min:"-2000" max:"2000" about:"made longer by so much at its end, in its own direction; shortened where negative"`
	Curve    Val[Bends]    `yaml:"curve" about:"drawn anew as a curve with these two control points: [[x, y], [x, y]], or in parts: two points more for each, and where they meet"`
	Width    Length        `yaml:"width" min:"1" about:"what the dart takes in from now on"`
	Length   Length        `yaml:"length" min:"1" about:"how long the dart, the line on the piece, or one tape, bone or elastic is from now on"`
	NewAt    Val[NewPlace] `yaml:"at" about:"how far along its edge the middle of the dart, the one button, or the beginning of the line is; of a piece set on, where it lies" eg:"[62, 430]"`
	Angle    Number        `yaml:"angle" min:"-180" max:"180" about:"of a piece that is set on another: by how many degrees it is turned from now on"`
	Place    Where         `yaml:"-"` // where at: is a place on the thing's own edge
	Spot     Val[Spot]     `yaml:"-"` // where it is one on another piece
	SetOn    Text          `yaml:"-"` // in place of an edge: the seam that sets a piece on another
	Along    Length        `yaml:"-"` // the same of a dart
	Rotate   *RotateSpec   `yaml:"rotate" about:"the dart is closed here and opened on another edge"`
	Close    Flag          `yaml:"close" about:"the dart is folded out of a piece that does not reach its point, as a facing"`
	Unsewn   Flag          `yaml:"unsewn" was:"drop" about:"the dart is not sewn: what it took in stays in the edge"`
	Alone    Flag          `yaml:"alone" about:"this piece alone: pieces that are like it do not follow"`
	Depth    Length        `yaml:"depth" min:"0.5" about:"how far the pleats go under from now on"`
	Count    Count         `yaml:"count" min:"1" max:"500" about:"how many pleats or buttons there are from now on"`
	Ratio    Turns         `yaml:"ratio" min:"1.05" max:"6" about:"how many times as long an edge is before it is gathered from now on"`
	Into     Length        `yaml:"into" min:"1" about:"how long an edge is gathered into from now on"`
	Rows     Count         `yaml:"rows" min:"1" max:"40" about:"how many rows gather it from now on"`
	First    Where         `yaml:"first" about:"of buttons and the like: where the first is from now on" eg:"65 from neck"`
	Last     Where         `yaml:"last" about:"where the last is from now on"`
	Every    Length        `yaml:"every" min:"1" about:"how far they are apart from now on"`
	Size     Length        `yaml:"size" min:"1" max:"200" about:"how wide a button is from now on"`
	Share    Turns         `yaml:"share" min:"0.3" max:"1" about:"of elastic: how long it is as a share of its channel from now on"`
	Clear    Length        `yaml:"clear" min:"0" about:"of boning, tapes and the like: how much shorter than its channel at each end from now on"`
	Free     Length        `yaml:"free" min:"0" about:"of a cord: how long one end hangs free from now on"`
	Stitched Val[Down]     `yaml:"stitched" about:"how far the pleats are stitched down from now on"`
	Runs     Val[Reach]    `yaml:"runs" about:"how far in the pleats run out from now on"`
	Slash    Val[Slash]    `yaml:"slash" about:"of a piece: it is cut through from one place on an edge to another, and opened or lapped; of an edge, the part with that edge is moved" eg:"waist at 120 from side to hem at middle"`
	Spread   Val[Spread]   `yaml:"spread" about:"how far the slash opens, or [at its first end, at its other]; lapped where negative" eg:"[15, 0]"`
	Note     Spoken        `yaml:"note" about:"anything a number does not say"`
	Agreed   Text          `yaml:"agreed" one-of:"maker|wearer|both" about:"who agreed to it"`
	Whole    Text          `yaml:"-"` // the piece that is slashed, in place of an edge
	unread   bool          `yaml:"-"` // something of it could not be read, which was told
}

func (c *Change) faulty() { c.unread = true }

// A RotateSpec says where a dart goes that is closed where it is.
type RotateSpec struct {
	At    fault.Pos `yaml:"-"`
	To    Text      `yaml:"to" must:"yes" about:"the edge it opens on from now on"`
	Along Length    `yaml:"at" must:"yes" min:"0" about:"how far along that edge it opens"`
}

// A NotchSpec is a mark on an edge that meets one on the edge it is sewn to.
type NotchSpec struct {
	At    fault.Pos `yaml:"-"`
	Edge  Text      `yaml:",key" many:"notches" by:"their edge" was:"edge" several:"yes"`
	Name  Text      `yaml:"name" about:"what it is called; notches of one name meet, others in their order"`
	Place Where     `yaml:"at" must:"yes" short:"yes" about:"where on the edge it is, as the piece is drawn: 60 from its start, 60 from waist, or middle" eg:"60"`
	Along Length    `yaml:"-"` // the same from the edge's start; the figures work it out where it is measured from elsewhere
}

// A StretchSpec is a part of a seam, from notch to notch, with what is meant
// to be worked into it.
type StretchSpec struct {
	At     fault.Pos
	From   Text   // the notch it begins at; not given for the seam's start
	To     Text   // the notch it ends at; not given for the seam's end
	Ease   Length // how much longer one side is meant to be here
	Gather Turns  // fullness meant here: longer side ÷ shorter side
}

// A Truing says how far edges that are sewn together may differ.
type Truing struct {
	At        fault.Pos `yaml:"-"`
	Angle     Number    `yaml:"angle" min:"0" max:"180" about:"how far a line may turn where it crosses a seam, in degrees; else 5"`
	Step      Length    `yaml:"step" min:"0" about:"how far the ends of a line may lie apart at a seam; else 2 mm"`
	Notches   Length    `yaml:"notches" min:"0" about:"how far notches that meet may lie apart; else 3 mm"`
	Legs      Length    `yaml:"legs" min:"0" about:"how far the legs of a dart may differ; else 1 mm"`
	Grain     Number    `yaml:"grain" min:"0" max:"45" about:"how far a fold may lean from the grain, in degrees; else 1"`
	Dart      Number    `yaml:"dart" min:"0" max:"90" about:"how far a line may turn across a dart that is folded shut, in degrees; else 30"`
	HeadLeast Length    `yaml:"head-least" about:"the least ease of a sleeve head over its armhole; else 0"`
	HeadMost  Length    `yaml:"head-most" about:"the most ease of a sleeve head over its armhole; else 40 mm"`
	Lining    Length    `yaml:"lining" min:"0" about:"how much narrower than the shell a lining may be round the body; else 3 mm"`
}

// A Seam joins two edges, or two runs of edges.
type Seam struct {
	At         fault.Pos       `yaml:"-"`
	Name       Text            `yaml:",key" many:"seams" was:"name"`
	Join       []List[EdgeRef] `yaml:"join" must:"yes" unless:"like" short:"list" whole:"yes" about:"the edges it joins: piece.edge each, a part of one as front.rise from waist to notch, or edges sewn end to end; a third is caught in behind" eg:"[front.side, back.side]"`
	Place      Val[Spot]       `yaml:"at" about:"of a piece set on another, as join: [pocket, left front]: where its upper left corner lies, [x, y] or a place on an edge" eg:"[62, 445]"`
	Angle      Number          `yaml:"angle" min:"-180" max:"180" about:"of a piece that is set on another: by how many degrees it is turned about that corner, against the clock"`
	Like       List[Text]      `yaml:"like" about:"the seams that are sewn again among pieces like those they join, as in a lining" eg:"[sides, shoulders]"`
	Type       Text            `yaml:"type" about:"a seam type of the trade tables or of the workroom; else plain" eg:"french"`
	Overlap    Length          `yaml:"overlap" min:"0" seldom:"250" about:"how much longer the first edge should be, to lap at a closure"`
	Eased      Eased           `yaml:"ease" seldom:"120" about:"how much longer one edge should be, eased in without gathers; between notches, as 8 from front to top, or a list of such"`
	Gathered   Gathered        `yaml:"gather" min:"1" max:"6" about:"fullness: longer edge ÷ shorter edge, gathered or pleated in; between notches as ease"`
	Ease       Length          `yaml:"-"` // of the whole seam
	Gather     Turns           `yaml:"-"` // of the whole seam
	Tolerance  Length          `yaml:"tolerance" min:"0" seldom:"30" about:"how far the two edges may differ"`
	Stretches  []StretchSpec   `yaml:"-"` // what is meant between notches only
	Stitch     Text            `yaml:"stitch" about:"the stitch type by its ISO 4915 number; else 301" eg:"301"`
	Thread     Text            `yaml:"thread" about:"which thread; else the first"`
	Topstitch  RowsBeside      `yaml:"topstitch" about:"rows that are seen, beside the seam where its allowances lie, on both sides of one pressed open: how far from it, or more" eg:"[2, 8]"`
	EdgeStitch RowsBeside      `yaml:"edge-stitch" about:"a row very close to the seam, where its allowances lie: how far from it, or more" eg:"2"`
	Strip      Text            `yaml:"strip" about:"the cloth of its binding or piping strip"`
	Share      Turns           `yaml:"share" min:"0.3" max:"4" about:"how long its elastic, band or strip is as a share of the edge, as 0.9; else as its type has it" eg:"0.9"`
	Long       Length          `yaml:"length" min:"1" about:"how long its elastic, band, strip or zip is, in place of a share"`
	likened    bool            `yaml:"-"` // it is sewn once more among pieces that are like those of another, as a lining's
	Pair       string          `yaml:"-"` // the seam of which it is the left or the right, where the record tells a pair apart
	Technique  Text            `yaml:"technique" about:"the page that tells how it was done; else the page that makes its type, or none"`
	Note       Spoken          `yaml:"note" about:"a remark"`
	Setting
	With Dict[Length] `yaml:",rest" seldom:"90" about:"the seam type's own parameters by name, as first: 6, second: 9, trim: 3"`
}

// RowsBeside are rows of stitching beside a seam or inside a finished edge that its type
// does not have.
type RowsBeside struct {
	At      fault.Pos    `yaml:"-"`
	Rows    List[Length] `yaml:"at" must:"yes" short:"both" min:"0.5" max:"100" about:"how far from the seam or the finished edge each row lies" eg:"[2, 8]"`
	Towards Text         `yaml:"towards" about:"of a seam: the piece they lie on; else where the allowances of its type lie" eg:"front"`
	Stitch  Text         `yaml:"stitch" about:"the stitch type by its ISO 4915 number; else 301"`
	Thread  Text         `yaml:"thread" about:"which thread; else that of the seam or finish" eg:"copper"`
	Setting
}

// Given reports whether any rows were written.
func (r *RowsBeside) Given() bool { return r.At.Given() }

// An EdgeRef names an edge of a piece, as front.side, or a part of one, as
// front.rise from waist to fly end.
type EdgeRef struct {
	At     fault.Pos
	Hand   Hand // of a pair, or of the halves of a fold, the one that is meant; "" for both
	Piece  string
	Edge   string
	Part   phrase.Stretch
	Inside measure.Length // how far inside the edge a line runs along which things are put; 0 for the edge itself
}

// String is the reference as it is written.
func (e EdgeRef) String() string {
	out := e.Piece + "." + e.Edge
	if e.Hand != "" {
		out = e.Hand.of(out)
	}
	if e.Inside != 0 {
		out = say.Of("record.mm-inside", bare(e.Inside.MM()), out)
	}
	if !e.Part.Whole() {
		out += " " + e.Part.String()
	}
	return out
}

// A Finish makes an edge neat.
type Finish struct {
	At         fault.Pos     `yaml:"-"`
	Name       Text          `yaml:",key" many:"finishes" was:"name"`
	Of         List[EdgeRef] `yaml:"of" must:"yes" about:"the edge or edges: piece.edge, or a part of one as skirt.hem from side for 200" eg:"skirt.hem"`
	Type       Text          `yaml:"type" about:"a finish of the trade tables or of the workroom; else the usual hem" eg:"double-turned-hem"`
	Stitch     Text          `yaml:"stitch" about:"the stitch type by its ISO 4915 number"`
	Thread     Text          `yaml:"thread" about:"which thread; else the first"`
	Topstitch  RowsBeside    `yaml:"topstitch" about:"rows that are seen, inside the finished edge: how far from it, or more" eg:"[2, 8]"`
	EdgeStitch RowsBeside    `yaml:"edge-stitch" about:"a row very close to the finished edge: how far from it, or more" eg:"2"`
	Strip      Text          `yaml:"strip" about:"the cloth of its binding, facing or piping strip"`
	Share      Turns         `yaml:"share" min:"0.3" max:"4" about:"how long its elastic, band or strip is as a share of the edge, as 0.9; else as its type has it" eg:"0.9"`
	Long       Length        `yaml:"length" min:"1" about:"how long its elastic, band or strip is, each time round, in place of a share" eg:"640"`
	Technique  Text          `yaml:"technique" about:"the page that tells how it was done; else the page that makes its type, or none"`
	Note       Spoken        `yaml:"note" about:"a remark"`
	Setting
	With Dict[Length] `yaml:",rest" seldom:"90" about:"the finish's own parameters by name, as depth: 20"`
}

// A LevelSpec adds to what outlines tell about a level.
type LevelSpec struct {
	At        fault.Pos `yaml:"-"`
	Width     Length    `yaml:"width" short:"yes" min:"0" about:"the finished width, closed, where no outline marks the level"`
	Gap       Length    `yaml:"gap" min:"0" seldom:"150" about:"what its lacing leaves open there as it is worn, which counts as width" eg:"60"`
	Tolerance Length    `yaml:"tolerance" min:"0" about:"how far the measured garment may differ"`
}

// A LengthLine is a finished length: the sum of named edges.
type LengthLine struct {
	At    fault.Pos     `yaml:"-"`
	Name  Text          `yaml:",key" many:"lengths" was:"name"`
	Along List[EdgeRef] `yaml:"along" must:"yes" short:"both" about:"the edge, or the edges that add up to it" eg:"skirt.right"`
}

// A Notion is anything sewn in that is not cloth or thread.
type Notion struct {
	At       fault.Pos      `yaml:"-"`
	Name     Text           `yaml:",key" many:"notions" was:"what"`
	What     Text           `yaml:"what" about:"what kind of notion it is, where its name does not end in one; other, where no kind fits" eg:"button"`
	Note     Spoken         `yaml:"note" about:"colour, kind, maker's remark"`
	Count    Count          `yaml:"count" min:"1" max:"2000" about:"how many"`
	Length   Length         `yaml:"length" min:"1" about:"the length of one"`
	Size     Length         `yaml:"size" min:"1" max:"200" seldom:"75" about:"of buttons: how wide one is; its buttonhole is as long as it is wide and thick" eg:"18"`
	Thick    Length         `yaml:"thick" min:"0" max:"50" about:"of buttons: how thick one is; else 3 mm"`
	Holes    Text           `yaml:"holes" one-of:"upright|level|loops|none" about:"its buttonholes: upright along their line, as on shirts where nothing is said, level across it, loops, or none"`
	HolesOn  Val[EdgeRef]   `yaml:"holes-along" about:"the edge, or the line beside one, that its buttonholes lie along, where they are not on the other of a pair" eg:"12 inside cuff.right"`
	By       Text           `yaml:"by" one-of:"hand|machine" about:"who works its buttonholes; else by machine"`
	Along    Val[EdgeRef]   `yaml:"along" was:"edge" about:"the edge it is sewn to, or the seam; of what is set out along it also a part of one, or a line beside one, as 18 inside front.front" eg:"front.side"`
	Place    Where          `yaml:"at" about:"of a single one: where on that edge, as middle or 65 from neck" eg:"middle"`
	First    Where          `yaml:"first" about:"of several set out along it: where the first is; else at the end of the edge" eg:"65 from neck"`
	Last     Where          `yaml:"last" about:"where the last is; else at the other end of the edge" eg:"150 from hem"`
	Every    Length         `yaml:"every" min:"1" about:"how far they are apart; write some of first, last, count and every, and the rest follows"`
	In       List[Text]     `yaml:"in" about:"the seams or finishes whose channels hold it"`
	Clear    Length         `yaml:"clear" min:"0" about:"how much shorter than its channel, at each end"`
	Share    Turns          `yaml:"share" min:"0.3" max:"1" about:"of elastic: how long it is as a share of its channel, as 0.9" eg:"0.85"`
	Where    Text           `yaml:"where" one-of:"neck|hood|head|shoulder|chest|waist|hem|sleeve|ankle|back|front|side|other" about:"where on the body, for the cautions"`
	Drawn    []trace.Place  `yaml:"-"` // where a pattern file draws them, where the record sets none out
	Laid     []EdgeRef      `yaml:"-"` // the lines that a pattern file draws it along, where the record says neither along: nor in:
	Kind     Text           `yaml:"kind" one-of:"sewn flat|drawstring|tie|sash|loop|toggle|elastic|closure|small part|inside" about:"what it is on a child's garment, where its name leaves that open; a sash is at least 30 mm wide"`
	Free     Length         `yaml:"free" min:"0" about:"how long one end hangs free, with the garment open to its full width; for children's clothes"`
	Material Text           `yaml:"material" about:"what it is made of" eg:"nickel-plated steel"`
	Mass     Mass           `yaml:"weight" was:"mass" min:"0" about:"what one weighs, or one metre where it is sold by length"`
	Price    Private[Money] `yaml:"price" about:"the price of one, or of one metre (one yard where units are inches) if sold by length; private"`
	Line     Text           `yaml:"-"` // the line that along: names, where that runs beside an edge: along is that edge then, and how far inside
	lineAt   fault.Pos      `yaml:"-"` // where that line says how far inside the edge it runs
	unread   bool           `yaml:"-"` // something of it could not be read, which was told
}

// Inside is how far inside its edge a notion is set out, and where the record says so: in
// the notion, or in the line that it names.
func (n *Notion) Inside() Length {
	at := n.Along.At
	if n.Line.Given() {
		at = n.lineAt
	}
	return Length{V: n.Along.V.Inside, At: at}
}

// A BiasStrip is bias strip wanted for its own sake.
type BiasStrip struct {
	At       fault.Pos `yaml:"-"`
	Name     Text      `yaml:",key" many:"bias strips" was:"name"`
	From     Text      `yaml:"from" about:"the cloth it is cut from; else the first"`
	Binding  Text      `yaml:"binding" one-of:"single|double" about:"single: cut 4 × finished; double: cut 6 × finished"`
	Finished Length    `yaml:"finished" min:"1" about:"the finished width of the binding"`
	Cut      Length    `yaml:"cut" min:"1" about:"the cut width, instead of the finished one"`
	Length   Length    `yaml:"length" must:"yes" min:"1" about:"the length wanted"`
	Joins    Count     `yaml:"joins" min:"0" max:"200" about:"how many joins"`
	Overlap  Length    `yaml:"overlap" min:"0" about:"what is added at the end"`
}

// A Step is one operation in the order of work.
type Step struct {
	At        fault.Pos  `yaml:"-"`
	Do        Text       `yaml:",key" many:"steps" by:"what is done" was:"do" empty:"yes"`
	Takes     Duration   `yaml:"takes" short:"yes" about:"how long you work on it" eg:"50 min"`
	Wait      Duration   `yaml:"wait" about:"time that passes afterwards without you: hanging, drying" eg:"24 h"`
	Stage     Text       `yaml:"stage" one-of:"drafting|mock-up|fitting|cutting|sewing|pressing|finishing|packing" about:"the stage it belongs to; else told by what is done: cut, fuse, press, fit, hang, hem, buttons, pins …, and sewing where no word tells"`
	Sews      List[Text] `yaml:"sews" about:"the seams and finishes it makes, where it is not called like the one it makes"`
	Pieces    Count      `yaml:"pieces" min:"1" about:"how many pieces it handles, where time goes by the piece"`
	Technique Text       `yaml:"technique" about:"the page that tells how it is done; else the page the step is called after, or that which makes all it sews, or none"`
	Note      Spoken     `yaml:"note" about:"a remark, shown below the step"`
	Setting
	After List[Text] `yaml:"after" about:"the steps that come before, where that is not the one above, by their names or first words; nothing, where it may be done at any time" eg:"cut"`
}

// A Fitting is one round with what was seen and what was changed.
type Fitting struct {
	At     fault.Pos `yaml:"-"`
	Round  Count     `yaml:"-"` // which round: they are numbered in their order, from 1
	On     Date      `yaml:"day" was:"on" must:"yes" about:"the day" eg:"2026-08-15"`
	From   Text      `yaml:"from" one-of:"in person|photographs|video|a mock-up by post|the garment by post" about:"how the fit was seen"`
	Saw    Spoken    `yaml:"saw" must:"yes" about:"what was seen"`
	Posted Date      `yaml:"posted" about:"the day the garment was sent off to be tried on; it is not sewn until it is back" eg:"2026-09-10"`
	Back   Date      `yaml:"back" about:"the day it came back" eg:"2026-09-18"`
	Agreed Text      `yaml:"agreed" one-of:"maker|wearer|both" about:"who agreed to its changes"`
	Change []Change  `yaml:"change" about:"what was changed: an edge, a seam for all its edges, front.waist dart, back.yoke pleat, the line sleeve.slit, or buttons by their name"`
	Note   Spoken    `yaml:"note" about:"what else was agreed"`
	Drawn  Flag      `yaml:"drawn" about:"the outlines of the record have been drawn anew with this fitting's changes in them"`
	Photo  Photo     `yaml:"photo" about:"a picture of it"`
}

// A CutGroup is a group of pieces laid together.
type CutGroup = List[Text]

// An Entry is one line of the journal.
type Entry struct {
	At    fault.Pos `yaml:"-"`
	When  Moment    `yaml:"at" must:"yes" about:"when: date and time, or date alone" eg:"2026-08-05 14:10"`
	Did   Text      `yaml:"did" about:"the step that was worked on"`
	For   Duration  `yaml:"for" about:"how long"`
	Done  Flag      `yaml:"done" about:"this step is done (needed only if it took less than planned)"`
	Note  Text      `yaml:"note" about:"what is worth remembering, in Markdown"`
	Photo Photo     `yaml:"photo" about:"a picture beside the note"`
}

// A Photo is a picture file with the words that stand in for it.
type Photo struct {
	At   fault.Pos `yaml:"-"`
	File Text      `yaml:"file" short:"yes" must:"yes" about:"JPEG, PNG or WebP, beside the record" eg:"photos/cut.jpg"`
	Alt  Spoken    `yaml:"alt" about:"what the picture shows, for those who cannot see it"`
	Note Text      `yaml:"note" about:"a caption"`
}

// Given reports whether a picture was named.
func (p Photo) Given() bool { return p.File.Given() }

// A Portrait is the picture that a garment is shown by, of which lists show a part.
type Portrait struct {
	At   fault.Pos `yaml:"-"`
	File Text      `yaml:"file" short:"yes" must:"yes" about:"JPEG, PNG or WebP, beside the record" eg:"photos/front.jpg"`
	Alt  Spoken    `yaml:"alt" about:"what the picture shows, for those who cannot see it"`
	Note Text      `yaml:"note" about:"a caption"`
	Show Text      `yaml:"show" one-of:"whole|left half|right half|upper half|lower half" about:"the part of it that lists of garments show; else its middle" eg:"left half"`
}

// Photo is the picture as any other, shown whole.
func (p Portrait) Photo() Photo { return Photo{p.At, p.File, p.Alt, p.Note} }

// Costs are what a build costs beside its cloth and notions.
type Costs struct {
	At     fault.Pos   `yaml:"-"`
	Labour Money       `yaml:"labour" about:"what an hour is worth; else the workroom's rate"`
	Post   Money       `yaml:"post" about:"postage"`
	Other  Dict[Money] `yaml:"other" about:"anything else, by name"`
	Price  Money       `yaml:"price" about:"what was asked"`
}
