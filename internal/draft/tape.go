package draft

import "strings"

// figureRows is somebody standing, from the front, in signs a terminal has.
var figureRows = [...]string{
	`        .-.        `,
	`       (   )       `,
	`        )_(        `,
	`    .--'   '--.    `,
	`   /  |     |  \   `,
	`  /  /|     |\  \  `,
	`  | | \     / | |  `,
	`  | |  )   (  | |  `,
	`  | | /     \ | |  `,
	`  |_|/       \|_|  `,
	`  (_)|   .   |(_)  `,
	`     |   |   |     `,
	`     |   |   |     `,
	`     |   |   |     `,
	`     |   |   |     `,
	`     |___|___|     `,
}

// A tapeLine is where a tape goes on the figure: round it in one row, from one column to
// another, or down one column over rows.
type tapeLine struct {
	row, to    int
	left, long int // columns from left; 1 long where it hangs down
}

// tapeLines are by the names drafts ask for (common practice, no source).
var tapeLines = map[string]tapeLine{
	"head":       {0, 0, 7, 5},
	"neck":       {2, 2, 7, 5},
	"bust":       {5, 5, 6, 7},
	"upper arm":  {5, 5, 1, 4},
	"waist":      {7, 7, 6, 7},
	"hip":        {9, 9, 5, 9},
	"rise":       {7, 10, 12, 1},
	"inside leg": {11, 15, 8, 1},
	"reach":      {3, 9, 1, 1},
}

// Tape draws where the tape goes for a measurement, a row of signs to a line; "" where
// there is no drawing.
func Tape(name string) string {
	l, ok := tapeLines[name]
	if !ok {
		return ""
	}
	var b strings.Builder
	for i, row := range figureRows {
		signs := []byte(row)
		if i >= l.row && i <= l.to {
			for k := l.left; k < l.left+l.long; k++ {
				signs[k] = tapeSign(l)
			}
		}
		line := strings.TrimRight(string(signs), " ")
		if i == l.row {
			line = string(signs) + "  <- " + name
		}
		b.WriteString("    " + line + "\n")
	}
	return b.String()
}

func tapeSign(l tapeLine) byte {
	if l.to > l.row {
		return '#'
	}
	return '='
}
