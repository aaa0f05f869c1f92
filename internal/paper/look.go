package paper

import "hembook/internal/document"

// How a page looks, all in one place. Points for text, millimetres for the
// rest; what is said in "measure" grows and shrinks with the text.

// Sizes of text against the body's.
const (
	titleText   = 2.1
	headText    = 1.3
	subheadText = 1.0
	smallText   = 0.80
	spokenText  = 1.40 // of a letter
	quietText   = 1.15
	quietPart   = 0.7  // of the width, where they stand in its middle
	figureText  = 0.90 // the face for figures looks larger at the same size
	tableText   = 0.90
	footText    = 7.5 // points: the foot does not shrink with the text
	leading     = 1.34
)

// What is not parted over pages.
const (
	smallTable = 5 // a table of so many rows at most
	listEnds   = 3 // of a list, so many points at its head and at its end
	shortItem  = 4 // unless a point has more lines than this
)

// Margins of the page, the same where a browser prints the HTML.
const (
	marginSide = document.MarginSide
	marginTop  = document.MarginTop
	marginFoot = document.MarginFoot
	footHigh   = document.FootHigh
)

// Spaces, at body text of document.DefaultText points.
const (
	gapText   = 1.9 // between paragraphs
	gapBlock  = 3.4 // round tables, drawings, notes
	gapHead   = 5.6 // above a heading
	gapUnder  = 1.5 // under a heading
	cellSide  = 1.6
	cellTop   = 0.8
	boxSide   = 3.3  // of a box to tick
	gutter    = 8.0  // between columns
	rowHigh   = 13.5 // of drawings above their words
	markHigh  = 9.5  // of drawings before their words
	sketchGap = 5.0  // between drawings side by side
)

// Weights of lines.
const (
	hairline = 0.18
	rule     = 0.30
	stitch   = 0.40
)

// Dashes, in millimetres.
var (
	chalkDash  = []float64{11, 1.1, 5, 0.8, 17, 1.3} // tailor's chalk over a rough cloth
	bastedDash = []float64{4.2, 2.1}
)
