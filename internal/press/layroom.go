package press

import (
	"math"

	"hembook/internal/compose"
	"hembook/internal/cutting"
	"hembook/internal/draw"
)

// The room of a lay, in millimetres: a sheet's width, and as high as leaves room on the
// lower of A4 and Letter for its figures, for what is done in which order, and for its
// tables as they are printed. On a screen it is made as wide as the column.
const (
	layWide   = 180
	layHigh   = 194 // with its figures and the words below it
	layLeast  = 100 // where the tables are long
	tableHead = 14  // of a table, its caption with it
	chalkRow  = 4.9
	leftRow   = 8.2 // of a remnant: its area stands in both systems
	wordLine  = 4.3
	rowWords  = 30 // letters of a piece's name and turn on one line of the chalk table
	doingLong = 100
)

// layRoom is how high a lay is drawn at most.
func layRoom(l *cutting.Lay) float64 {
	chalk, left := 0.0, leftRow*float64(len(l.Left))
	for i := range l.Chalked {
		chalk += chalkRow
		if q := &l.Chalked[i]; len(draw.CopyWords(q))+len(draw.TurnWords(q)) > rowWords {
			chalk += wordLine
		}
	}
	tables := max(chalk, left)
	if len(l.Chalked) > compose.ChalkBeside { // two beside each other, the remnants below them
		tables = chalk/2 + chalkRow + wordLine
		if left > 0 {
			tables += tableHead + left
		}
	}
	doing := 0.0
	for _, line := range l.Doing {
		doing += wordLine * (0.3 + math.Ceil(float64(len(line))/doingLong))
	}
	for _, n := range l.Problem.Told() {
		doing += wordLine * (0.5 + math.Ceil(float64(len(n))/doingLong))
	}
	return max(layHigh-tableHead-tables-doing, layLeast)
}
