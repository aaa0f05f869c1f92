package drawing

// An Ink is a colour by its part in a drawing.
type Ink uint8

// The inks. NoInk draws nothing.
const (
	NoInk  Ink = iota
	Dark       // lines and words
	Faded      // lines of lesser weight, small words
	Red        // what is sewn
	Chalk      // rules, lightest of all
	Ground     // the paper itself, to cover what lies below
	Lining     // an area that is cut
	Buff       // a sheet of tissue
	Folds      // in the tissue
	Cloth      // below it all
	Yellow     // a measuring tape
	One        // layers of cloth
	Two
	Strip
	Cord
	Black // of what a machine reads, by day and by night
	White
	inks
)

// inkNames are the inks that a sheet's style sheet has, by day and by night.
var inkNames = [inks]string{
	Dark: "--ink", Faded: "--faded", Red: "--thread", Chalk: "--chalk", Ground: "--sheet", Lining: "--sheet", Buff: "--tissue",
}

// A Pen is how a meaning looks: the weight of its lines and their dashes, drawn
// and left out by turns, in millimetres, and its inks.
type Pen struct {
	Weight float64
	Ink    Ink
	Dash   []float64
	Butt   bool // lines end square where they end; else round
	Fill   Ink  // of the area within, even-odd where it crosses itself
}

// A Look is how every meaning looks in one medium, and its inks as red, green
// and blue. What has no pen is left out.
type Look struct {
	pens   [meanings]Pen
	inks   [inks]uint32
	voices [voices]Letters
}

// Letters are how words of a voice look.
type Letters struct {
	Size   float64 // millimetres, of the em
	Ink    Ink
	Strong bool
}

// Pen is how a mark looks.
func (l *Look) Pen(m *Mark) Pen {
	p := l.pens[m.Means]
	if m.Thick != 0 {
		p.Weight = m.Thick
	}
	return p
}

// RGB is an ink.
func (l *Look) RGB(i Ink) (r, g, b uint8) {
	v := l.inks[i]
	return uint8(v >> 16), uint8(v >> 8), uint8(v)
}

var (
	stitched = []float64{1.6, 0.9}
	level    = []float64{2.2, 0.7, 0.3, 0.7}
)

// point is a point of type in millimetres.
const point = 25.4 / 72

// Print is the look of drawings on paper, in dark ink on white.
var Print = Look{
	pens: [meanings]Pen{
		CutLine: {Weight: 0.4, Ink: Dark, Fill: Buff}, SewLine: {Weight: 0.26, Ink: Red, Dash: stitched, Butt: true},
		DartLeg: {Weight: 0.2, Ink: Red}, Notch: {Weight: 0.4, Ink: Dark, Butt: true}, LevelLine: {Weight: 0.16, Ink: Faded, Dash: level, Butt: true},
		GatherLine:  {Weight: 0.2, Ink: Red, Dash: []float64{0.6, 0.6}, Butt: true},
		RowLine:     {Weight: 0.2, Ink: Red, Dash: []float64{1, 0.5}, Butt: true},
		ButtonPlace: {Weight: 0.2, Ink: Dark, Butt: true}, Buttonhole: {Weight: 0.4, Ink: Dark, Butt: true},
		TapeLine: {Weight: 0.6, Ink: Dark, Dash: []float64{1.8, 1.2}, Butt: true}, BoneLine: {Weight: 0.6, Ink: Dark, Dash: []float64{3.2, 0.8}, Butt: true},
		ElasticLine: {Weight: 0.6, Ink: Dark, Dash: []float64{0.8, 0.8}, Butt: true}, CordLine: {Weight: 0.6, Ink: Dark, Dash: []float64{1.8, 0.6, 0.6, 0.6}, Butt: true},
		InnerLine: {Weight: 0.2, Ink: Red}, SlitLine: {Weight: 0.4, Ink: Dark}, CreaseLine: {Weight: 0.2, Ink: Red, Dash: level, Butt: true},
		PleatFold: {Weight: 0.2, Ink: Red}, PleatPlace: {Weight: 0.2, Ink: Red, Dash: level, Butt: true}, PleatSewn: {Weight: 0.45, Ink: Red, Dash: stitched, Butt: true},
		GrainLine: {Weight: 0.2, Ink: Dark}, FoldMark: {Weight: 0.2, Ink: Dark}, ScaleBar: {Weight: 0.26, Ink: Dark},
		KeptLine: {Weight: 0.2, Ink: Dark}, RoundLine: {Weight: 0.26, Ink: Dark, Dash: stitched, Butt: true}, RoundLine + 1: {Weight: 0.6, Ink: Red}, RoundLine + 2: {Weight: 0.6, Ink: Red, Dash: []float64{3, 0.8}, Butt: true},
		RoundLine + 3: {Weight: 0.6, Ink: Red, Dash: []float64{1.4, 0.7}, Butt: true}, RoundLine + 4: {Weight: 0.6, Ink: Red, Dash: []float64{2.6, 0.6, 0.4, 0.6}, Butt: true}, RoundLine + 5: {Weight: 0.6, Ink: Red, Dash: []float64{0.9, 0.4}, Butt: true},
		PlyEdge: {Ink: Dark, Butt: true}, PlyOne: {Ink: One, Butt: true}, PlyTwo: {Ink: Two, Butt: true}, PlyStrip: {Ink: Strip, Butt: true}, PlyCord: {Ink: Cord, Butt: true},
		PlyEnd: {Weight: 0.2, Ink: Dark}, Thread: {Weight: 0.45, Ink: Red}, Basting: {Weight: 0.45, Ink: Red, Dash: []float64{0.8, 0.8}}, Measured: {Weight: 0.2, Ink: Dark},
		Selvedge: {Weight: 0.5, Ink: Dark, Butt: true}, ClothEdge: {Weight: 0.2, Ink: Faded}, ClothFold: {Weight: 0.16, Ink: Faded, Dash: level}, Ruler: {Weight: 0.16, Ink: Faded},
		LeftOver: {Weight: 0.16, Ink: Faded, Dash: []float64{0.6, 0.9}}, Pattern: {Weight: 0.12, Ink: Two}, Flaw: {Weight: 0.6, Ink: Red}, StripCut: {Weight: 0.12, Ink: Dark}, PieceArea: {Fill: Buff}, PieceEdge: {Weight: 0.4, Ink: Dark}, LayWay: {Weight: 0.2, Ink: Dark}, ChalkCorner: {Weight: 0.4, Ink: Red, Butt: true},
		NetPiece: {Weight: 0.2, Ink: Dark, Fill: Buff}, SeamLine: {Weight: 0.45, Ink: Red, Dash: []float64{3, 0.8}, Butt: true}, SeamLine + 1: {Weight: 0.45, Ink: Red, Dash: []float64{1.4, 0.7}, Butt: true},
		SeamLine + 2: {Weight: 0.45, Ink: Red, Dash: []float64{2.6, 0.6, 0.4, 0.6}, Butt: true}, SeamLine + 3: {Weight: 0.45, Ink: Red, Dash: []float64{2.6, 0.6, 0.4, 0.6, 0.4, 0.6}, Butt: true}, SeamLine + 4: {Weight: 0.45, Ink: Red, Dash: []float64{0.9, 0.4}, Butt: true},
		NetOpen: {Weight: 0.7, Ink: Dark, Dash: []float64{1.6, 1}, Butt: true}, NetClosing: {Weight: 0.9, Ink: Dark, Dash: []float64{0.35, 0.5}, Butt: true},
		NetFold: {Weight: 0.16, Ink: Faded, Dash: level, Butt: true}, NetTie: {Weight: 0.16, Ink: Faded}, NetRing: {Weight: 0.3, Ink: Red, Fill: Ground}, NetSpare: {Weight: 0.16, Ink: Red}, NetHeld: {Weight: 0.8, Ink: Dark}, NetNow: {Weight: 0.6, Ink: Red}, NetShut: {Weight: 0.9, Ink: Faded, Butt: true}, NetGather: {Weight: 0.2, Ink: Red},
		SquareMM: {Weight: 0.2, Ink: Dark, Butt: true}, SquareInch: {Weight: 0.2, Ink: Red, Butt: true},
		SheetEdge: {Weight: 0.18, Ink: Faded, Butt: true}, SheetArea: {Weight: 0.18, Ink: Dark, Fill: Buff}, LayCloth: {Weight: 0.2, Ink: Faded},
		Symbol: {Weight: 1, Ink: Dark}, SymbolDot: {Fill: Dark}, CodeGround: {Fill: White}, CodeSquare: {Fill: Black},
	},
	inks: printInks,
	voices: [voices]Letters{
		Plain: {Size: 2.9, Ink: Dark}, Small: {Size: 2.4, Ink: Faded}, Row: {Size: 2.9, Ink: Red, Strong: true},
		Name: {Size: 3.8, Ink: Dark, Strong: true}, NameLess: {Size: 2.9, Ink: Dark, Strong: true},
		RingNumber: {Size: 2.9, Ink: Dark, Strong: true}, NetName: {Size: 3.4, Ink: Dark}, NetSmall: {Size: 2.9, Ink: Faded},
		TestMM: {Size: 8.5 * point, Ink: Dark}, TestInch: {Size: 8.5 * point, Ink: Red},
		SheetNumber: {Size: 8 * point, Ink: Dark, Strong: true}, MapName: {Size: 7.5 * point, Ink: Dark}, MapPiece: {Size: 6.5 * point, Ink: Dark},
	},
}

var printInks = [inks]uint32{
	Faded: 0x444444, Red: 0x7a2417, Chalk: 0x8c8478, Ground: 0xffffff, Lining: 0xffffff, Buff: 0xf1e9d8, One: 0xf3d9a6, Two: 0xd9a283, Strip: 0xb9c49a, Cord: 0xc9c0b2, White: 0xffffff,
}

// FullSize is the look of pieces at their true size: dashes and letters are
// larger, and nothing is filled.
var FullSize = Look{
	pens: [meanings]Pen{
		CutLine: {Weight: 0.4, Ink: Dark}, SewLine: {Weight: 0.26, Ink: Red, Dash: []float64{2.4, 1.4}},
		DartLeg: {Weight: 0.26, Ink: Red}, Notch: {Weight: 0.4, Ink: Dark, Butt: true}, LevelLine: {Weight: 0.16, Ink: Faded, Dash: []float64{4, 1.2, 0.6, 1.2}, Butt: true},
		GatherLine:  {Weight: 0.26, Ink: Red, Dash: []float64{1.2, 1.2}, Butt: true},
		RowLine:     {Weight: 0.26, Ink: Red, Dash: []float64{1.6, 0.8}, Butt: true},
		ButtonPlace: {Weight: 0.26, Ink: Dark, Butt: true}, Buttonhole: {Weight: 0.4, Ink: Dark, Butt: true},
		TapeLine: {Weight: 0.6, Ink: Dark, Dash: []float64{4, 3}, Butt: true}, BoneLine: {Weight: 0.6, Ink: Dark, Dash: []float64{8, 2}, Butt: true},
		ElasticLine: {Weight: 0.6, Ink: Dark, Dash: []float64{2, 2}, Butt: true}, CordLine: {Weight: 0.6, Ink: Dark, Dash: []float64{4, 1.5, 1.5, 1.5}, Butt: true},
		InnerLine: {Weight: 0.26, Ink: Red}, SlitLine: {Weight: 0.4, Ink: Dark}, CreaseLine: {Weight: 0.26, Ink: Red, Dash: []float64{4, 1.2, 0.6, 1.2}, Butt: true},
		PleatFold: {Weight: 0.26, Ink: Red}, PleatPlace: {Weight: 0.26, Ink: Red, Dash: []float64{4, 1.2, 0.6, 1.2}, Butt: true}, PleatSewn: {Weight: 0.5, Ink: Red, Dash: []float64{2.4, 1.4}, Butt: true},
		GrainLine: {Weight: 0.2, Ink: Dark}, FoldMark: {Weight: 0.2, Ink: Dark},
		SquareMM: {Weight: 0.2, Ink: Dark, Butt: true}, SquareInch: {Weight: 0.2, Ink: Red, Butt: true}, CodeGround: {Fill: White}, CodeSquare: {Fill: Black},
	},
	inks: printInks,
	voices: [voices]Letters{
		Plain: {Size: 8 * point, Ink: Dark}, Small: {Size: 8 * point, Ink: Faded},
		Name: {Size: 16 * point, Ink: Dark, Strong: true}, NameLess: {Size: 9 * point, Ink: Dark},
		TestMM: {Size: 8.5 * point, Ink: Dark}, TestInch: {Size: 8.5 * point, Ink: Red},
		Join: {Size: 7 * point, Ink: Faded}, Foot: {Size: 7.5 * point, Ink: Faded},
	},
}

// picture is the look of pictures that stand for pages: that of the theme by
// day. Words, arrows, levels and scale bars are left out: they would be too
// small to read.
var picture = Look{
	pens: [meanings]Pen{
		CutLine: {Weight: 0.4, Ink: Dark, Fill: Lining},
		SewLine: {Weight: 0.26, Ink: Red, Dash: []float64{1.6, 0.9}, Butt: true},
		PlyEdge: {Ink: Dark, Butt: true}, PlyOne: {Ink: One, Butt: true}, PlyTwo: {Ink: Two, Butt: true},
		PlyStrip: {Ink: Strip, Butt: true}, PlyCord: {Ink: Cord, Butt: true},
		PlyEnd: {Weight: 0.2, Ink: Dark},
		Thread: {Weight: 0.45, Ink: Red}, Basting: {Weight: 0.45, Ink: Red, Dash: []float64{0.8, 0.8}},
		Swatch: {Weight: 0.15, Ink: Chalk},
		Table:  {Fill: Cloth}, Tissue: {Fill: Buff}, Crease: {Fill: Folds}, Tape: {Fill: Yellow}, TapeTick: {Fill: Dark},
	},
	inks: [inks]uint32{
		Dark: 0x2b241e, Red: 0x8c2c1e, Chalk: 0xb7a78e, Lining: 0xfcf9f2, Buff: 0xf1e4c6, Folds: 0xe2d0a6, Cloth: 0xf6f0e4, Yellow: 0xe9ca62,
		One: 0xf3d9a6, Two: 0xd9a283, Strip: 0xb9c49a, Cord: 0xc9c0b2,
	},
}

// Letters is how a label looks.
func (l *Look) Letters(of *Label) Letters {
	t := l.voices[of.Voice]
	if of.Size != 0 {
		t.Size = of.Size
	}
	return t
}
