package trace

import (
	"strconv"

	"hembook/internal/shape"
)

// A Given is a piece as it is handed out in a file, in millimetres.
type Given struct {
	Piece
	Cut   []shape.Ring // the cut line, then holes in it; none where it is not known
	Legs  []Legs       // its darts as they lie, instead of Darts
	Words []string     // what is written on it
}

// Legs are those of a dart, from one end on its edge by its point to the other.
type Legs struct {
	Name              string
	Begin, Point, End shape.Point
}

// A LaidPiece is a cut piece on a cloth: x along the cloth, y across it.
type LaidPiece struct {
	Name    string
	Number  int
	Outline []shape.Point
}

// A LaidCloth is a cloth with the pieces laid on it, in millimetres.
type LaidCloth struct {
	Name         string
	Length, Wide float64
	Pieces       []LaidPiece
}

// A Named is a line of a given piece with the name that tells [MeaningOf]
// what it is.
type Named struct {
	Name string
	Role Role
	From shape.Point
	Line []shape.Edge // none for a point
}

// notchLong is how far the tick of a notch reaches to either side of the
// sewing line, in millimetres.
const notchLong = 3

// Edges lists the named edges of the sewing line in order.
func (g *Given) Edges() []Named {
	var out []Named
	for _, s := range g.Outline.Sides() {
		one := Named{Name: Spell(s.Name, s.Fold, g.Name), Role: Sewing, From: g.Outline.Start(s.First)}
		for k := range s.Count {
			one.Line = append(one.Line, g.Outline.Edges[(s.First+k)%len(g.Outline.Edges)])
		}
		out = append(out, one)
	}
	return out
}

// Marks lists what else is drawn: the origin, the grain line, darts, notches
// and levels. What does not lie on the outline is left out.
func (g *Given) Marks() []Named {
	out := []Named{{Name: "origin", Role: Origin}}
	out = append(out, g.grainLine()...)
	for i, d := range g.legs() {
		out = append(out, Named{numbered("dart", d.Name, i), DartLine, d.Begin, []shape.Edge{{To: d.Point}, {To: d.End}}})
	}
	for i, n := range g.Notches {
		at, along, ok := g.Outline.PointOn(n.Edge, n.At)
		if !ok {
			continue
		}
		square := shape.Point{X: -along.Y * notchLong, Y: along.X * notchLong}
		out = append(out, Named{numbered("notch", n.Name, i), NotchMark, at, []shape.Edge{{To: at.Add(square)}}})
	}
	for _, l := range g.Levels {
		spans := g.Outline.WidthsAt(l.Y)
		least, most := g.Outline.Bounds()
		if len(spans) > 0 {
			least.X, most.X = spans[0].From, spans[len(spans)-1].To
		}
		out = append(out, Named{"level " + l.Name, LevelLine, shape.Point{X: least.X, Y: l.Y}, []shape.Edge{{To: shape.Point{X: most.X, Y: l.Y}}}})
	}
	return out
}

// legs are where the darts lie.
func (g *Given) legs() []Legs {
	out := g.Legs
	if len(out) > 0 {
		return out
	}
	for _, d := range g.Darts {
		plan, err := shape.Dart{Edge: d.Edge, At: d.At, Width: d.Width, Length: d.Length}.Plan(g.Outline)
		if err != nil {
			continue
		}
		if d.Slanted {
			plan.Point = d.Point
		}
		out = append(out, Legs{d.Name, plan.Begin, plan.Point, plan.End})
	}
	return out
}

func numbered(word, name string, i int) string {
	if name == "" {
		name = strconv.Itoa(i + 1)
	}
	return word + " " + name
}

// grainLine lies in the widest stretch half way up the piece.
func (g *Given) grainLine() []Named {
	least, most := g.Outline.Bounds()
	y := (least.Y + most.Y) / 2
	var best shape.Span
	for _, s := range g.Outline.WidthsAt(y) {
		if s.Width() > best.Width() {
			best = s
		}
	}
	middle := shape.Point{X: (best.From + best.To) / 2, Y: y}
	way := shape.Point{Y: (most.Y - least.Y) / 5}
	switch g.Grain {
	case "along":
	case "across":
		way = shape.Point{X: best.Width() / 4}
	case "bias":
		half := min(way.Y, best.Width()/4)
		way = shape.Point{X: half, Y: half}
	default:
		return nil
	}
	return []Named{{"grain", Grain, middle.Sub(way), []shape.Edge{{To: middle.Add(way)}}}}
}

// Bounds is the box about everything that is drawn of the piece.
func (g *Given) Bounds() (least, most shape.Point) {
	least, most = g.Outline.Bounds()
	for _, r := range g.Cut {
		l, m := r.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
		most = shape.Point{X: max(most.X, m.X), Y: max(most.Y, m.Y)}
	}
	return least, most
}

// A Spot is where the (0, 0) of a piece lies on a sheet.
type Spot struct{ X, Y float64 }

// Arrange lays pieces side by side without touching, in rows of about the
// width given, and says how large the sheet is; y runs up.
func Arrange(pieces []Given, wide, gap float64) (spots []Spot, w, h float64) {
	x, y, row := gap, gap, 0.0
	for i := range pieces {
		least, most := pieces[i].Bounds()
		if x > gap && x+most.X-least.X+gap > wide {
			x, y, row = gap, y+row+gap, 0
		}
		spots = append(spots, Spot{x - least.X, y - least.Y})
		x += most.X - least.X + gap
		row, w = max(row, most.Y-least.Y), max(w, x)
	}
	return spots, w, y + row + gap
}
