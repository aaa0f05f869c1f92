package drawing

// A Meaning is what a mark stands for. It is also its layer, and names the
// classes by which a theme colours it.
type Meaning uint8

// The meanings.
const (
	Words Meaning = iota // words have voices instead

	// Of pieces.
	CutLine
	SewLine
	DartLeg
	PleatFold   // where a pleat is folded; an arrow shows where its fold is laid
	PleatPlace  // the line that the fold is laid on
	PleatSewn   // so far both are stitched to each other
	GatherLine  // a row that gathers an edge
	RowLine     // a row beside a seam or inside a finished edge
	ButtonPlace // where a button or the like is put
	Buttonhole  // from end to end, with a stroke across each
	InnerLine   // a line on a piece that other things lie along
	SlitLine    // one that is cut open
	CreaseLine  // one along which the cloth is folded
	TapeLine    // where a tape lies along an edge
	BoneLine    // where boning lies in its channel
	ElasticLine // where elastic lies
	CordLine    // where a cord lies
	Notch
	LevelLine
	GrainLine // with an arrow at its ends
	FoldMark  // a bracket whose arrows point to the fold
	ScaleBar
	Origin // the point a piece is measured from

	// Of a piece through its rounds of fitting.
	KeptLine  // the same in all of them
	RoundLine // the draft's; those of the rounds follow it
	_
	_
	_
	_
	_

	// Of two pieces laid edge to edge.
	SeamOne
	SeamTwo
	LineOne
	LineTwo
	StraightOn

	// Of a cross-section.
	PlyEdge
	PlyOne
	PlyTwo
	PlyStrip
	PlyCord
	PlyEnd
	Thread
	Basting
	Measured // a distance, from tick to tick

	// Of a lay.
	Selvedge
	ClothEdge
	ClothFold // and where a row goes on in the next
	Ruler
	LeftOver
	Pattern // a leading line of a stripe or check
	Flaw
	StripCut  // where cloth for bias strip is cut
	PieceArea // of a piece that goes on in another row
	PieceEdge
	LayWay
	ChalkCorner // the corner that a piece is chalked from

	// Of a line of time.
	DateLine
	PlannedBar
	ClockedBar
	AheadBar
	WaitLine
	CriticalMark
	NowLine
	DueLine

	// Of a hem that hung.
	AsCut
	Levelled
	Hanging
	LevelledOff
	StationMark

	// Of figures held side by side.
	SpreadScale
	SpreadReach
	SpreadHalf
	Median
	StripArea
	Swatch

	// Of a picture's ground.
	Table
	Tissue
	Crease
	Tape
	TapeTick

	// Of a garment laid flat.
	NetPiece
	SeamLine // of a seam by its number; those of others follow it
	_
	_
	_
	_
	NetOpen    // what stays open
	NetClosing // what a zip or buttons close
	NetFold
	NetTie    // from a line to its number, or to the line it meets
	NetRing   // round a number
	NetSpare  // cloth that can be let out
	NetHeld   // what keeps its length
	NetNow    // what is being sewn
	NetShut   // what of an edge a pleat folds away
	NetGather // what of it is gathered

	// Of sheets of paper.
	SquareMM
	SquareInch
	SheetEdge
	SheetArea
	Symbol
	SymbolDot
	CodeGround
	CodeSquare
	LayCloth

	// Of what can be tapped.
	Unseen // a line that leads somewhere

	meanings
)

// roundLines is how many kinds of line there are for rounds of fitting: the
// draft's and those of the rounds, which begin again after the last.
const roundLines = 6

// OfRound is the line of a round; 0 is the draft.
func OfRound(round int) Meaning {
	if round > 0 {
		round = (round-1)%(roundLines-1) + 1
	}
	return RoundLine + Meaning(round)
}

// seamLines is how many kinds of line there are for seams; they begin again after
// the last, and their numbers tell them apart.
const seamLines = 5

// OfSeam is the line of a seam by its number, from 1.
func OfSeam(number int) Meaning {
	return SeamLine + Meaning((max(number, 1)-1)%seamLines)
}

// classes are the names that style sheets know meanings by. Some share one: a
// theme says how a kind of line looks, whatever it stands for.
var classes = [meanings]string{
	CutLine: "cut", SewLine: "sew", DartLeg: "dart", PleatFold: "dart", PleatPlace: "level", PleatSewn: "sew", GatherLine: "sew", RowLine: "sew", InnerLine: "dart", SlitLine: "cutline", CreaseLine: "level", TapeLine: "sew thread", BoneLine: "sew thread", ElasticLine: "sew thread", CordLine: "sew thread", ButtonPlace: "notch", Buttonhole: "notch", Notch: "notch", LevelLine: "level", GrainLine: "grain", FoldMark: "grain", ScaleBar: "bar",
	KeptLine: "kept", RoundLine: "round-0", RoundLine + 1: "round-1", RoundLine + 2: "round-2", RoundLine + 3: "round-3", RoundLine + 4: "round-4", RoundLine + 5: "round-5",
	SeamOne: "sew", SeamTwo: "second", LineOne: "line sew", LineTwo: "line second", StraightOn: "grain",
	PlyEdge: "ply edge", PlyOne: "ply one", PlyTwo: "ply two", PlyStrip: "ply strip", PlyCord: "ply cord", PlyEnd: "ends",
	Thread: "thread", Basting: "thread basting", Measured: "grain",
	Selvedge: "selvedge bar", ClothEdge: "cloth grain", ClothFold: "fold level", Ruler: "ruler grain", LeftOver: "left level", Pattern: "stripe grain", Flaw: "flaw strip", StripCut: "ruler grain",
	PieceArea: "laid", PieceEdge: "cutline bar", LayWay: "grain", ChalkCorner: "tack",
	DateLine: "dates pinked", PlannedBar: "planned between", ClockedBar: "clocked ply one", AheadBar: "ahead dart", WaitLine: "waits level",
	CriticalMark: "critical bar", NowLine: "standing bar", DueLine: "due thread",
	AsCut: "asCut grain", Levelled: "levelled sew", Hanging: "hanging bar", LevelledOff: "levelling grain", StationMark: "stations bar",
	SpreadScale: "ruler", SpreadReach: "grain", SpreadHalf: "between", Median: "tack", StripArea: "strip-of", Swatch: "pinked",
	Table: "table", Tissue: "tissue", Crease: "crease", Tape: "tape", TapeTick: "tick",
	NetPiece: "strip-of", SeamLine: "round-1", SeamLine + 1: "round-2", SeamLine + 2: "round-3", SeamLine + 3: "round-4", SeamLine + 4: "round-5",
	NetOpen: "net-open", NetClosing: "flaw", NetFold: "fold level", NetTie: "ruler", NetRing: "between", NetSpare: "dart", NetHeld: "selvedge", NetNow: "thread", NetShut: "net-shut", NetGather: "dart",
	SquareMM: "square-mm", SquareInch: "square-inch", SheetEdge: "sheet-edge", SheetArea: "sheet-area", Symbol: "symbol", SymbolDot: "symbol-dot",
	CodeGround: "code-ground", CodeSquare: "code-square", LayCloth: "cloth",
	Unseen: "tap",
}

// A Voice is how words are said: how large, and in which letters.
type Voice uint8

// The voices.
const (
	Plain      Voice = iota
	Small            // what is beside the point
	Row              // the number of a row of stitching
	Name             // of a whole piece
	NameLess         // the same where there is little room
	RingNumber       // within a ring
	NetName          // of a piece of a garment laid flat
	NetSmall         // and what is beside the point there
	TestMM           // beside the squares that a print is checked by
	TestInch
	SheetNumber // of a sheet, on the map of a pattern
	MapName     // of a piece on several sheets
	MapPiece    // of a piece on one
	Join        // where sheets are joined
	Foot        // below a sheet
	voices
)

var voiceClasses = [voices]string{Small: "small", Row: "row", Name: "name", NameLess: "name less", RingNumber: "row", NetName: "name less", NetSmall: "net-small", TestMM: "test-mm", TestInch: "test-inch", SheetNumber: "sheet-number", MapName: "map-name", MapPiece: "map-piece", Join: "join", Foot: "foot-words"}
