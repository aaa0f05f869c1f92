package trace

import (
	"math"

	"hembook/internal/shape"
)

const (
	nearDiagonal = 1.0   // degrees; a grain line this near to 45° is drawn on the bias
	leastTurn    = 0.005 // degrees; less is not worth turning a piece by
	leastGrain   = 1.0   // millimetres
)

// lie turns the piece so that its grain line is upright, level or exactly
// diagonal, whichever is nearest, and moves it so that its origin is (0, 0):
// the point marked so, else the lower left corner of the box about it.
func (w *assembly) lie() {
	turn := 0.0
	if grain, ok := w.grainWay(); ok && !w.opt.KeepGrain {
		at := math.Atan2(grain.Y, grain.X) * 180 / math.Pi
		straight := 90 * math.Round(at/90)
		if diagonal := 45 + 90*math.Floor(at/90); math.Abs(at-diagonal) <= nearDiagonal {
			straight = diagonal
		}
		if turn = straight - at; math.Abs(turn) < leastTurn {
			turn = 0
		}
		switch math.Mod(math.Abs(straight), 180) {
		case 0:
			w.piece.Grain = "across"
		case 90:
			w.piece.Grain = "along"
		default:
			w.piece.Grain = "bias"
		}
	}
	w.piece.Turned = turn
	if turn != 0 {
		sin, cos := math.Sincos(turn * math.Pi / 180)
		w.move(func(p shape.Point) shape.Point {
			return shape.Point{X: float64(p.X*cos) - float64(p.Y*sin), Y: float64(p.X*sin) + float64(p.Y*cos)}
		})
	}
	zero := w.origin()
	w.piece.Frame = Frame{zero, turn, w.d.Down, w.d.unit}
	w.move(func(p shape.Point) shape.Point { return round(p.Sub(zero)) })
}

// grainWay is the way the grain line runs, and whether there is one.
func (w *assembly) grainWay() (shape.Point, bool) {
	var best shape.Point
	for _, g := range w.by[Grain] {
		if len(g.Parts) == 0 {
			continue
		}
		if way := longest(g); apart(shape.Point{}, way) > apart(shape.Point{}, best) {
			best = way
		}
	}
	return best, apart(shape.Point{}, best) > leastGrain
}

// longest is the longest straight part of a line: an arrow's shaft.
func longest(s *Stroke) shape.Point {
	var best shape.Point
	for i, e := range s.Parts {
		if way := e.To.Sub(s.start(i)); !e.Curved && apart(shape.Point{}, way) > apart(shape.Point{}, best) {
			best = way
		}
	}
	return best
}

func (w *assembly) origin() shape.Point {
	for _, o := range w.by[Origin] {
		return middle(o)
	}
	least := shape.Point{X: math.Inf(1), Y: math.Inf(1)}
	for _, s := range w.sides {
		l, _ := shape.Outline{From: s.From, Edges: s.Parts}.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
	}
	return least
}

// move moves everything that is drawn. The strokes of the drawing itself are
// left alone, so that a piece may be assembled twice.
func (w *assembly) move(f func(shape.Point) shape.Point) {
	for i := range w.sides {
		w.sides[i].Parts = append([]shape.Edge(nil), w.sides[i].Parts...)
		w.sides[i].Apply(f)
	}
	for role := range w.by {
		for i, s := range w.by[role] {
			moved := *s
			moved.Parts = append([]shape.Edge(nil), s.Parts...)
			moved.Apply(f)
			w.by[role][i] = &moved
		}
	}
}

// round takes off what sums and turns leave beyond the millionth of a millimetre.
func round(p shape.Point) shape.Point {
	return shape.Point{X: math.Round(p.X*1e6)/1e6 + 0, Y: math.Round(p.Y*1e6)/1e6 + 0}
}
