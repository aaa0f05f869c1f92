package trace

import (
	"math"
	"slices"

	"hembook/internal/say"
	"hembook/internal/shape"
)

// A pleatFold is one fold as it is drawn: both places along its edge.
type pleatFold struct {
	stroke      *Stroke
	edge        string
	place, fold float64
	depth       float64
	taper       shape.Taper
}

// pleats reads folds of pleats: each is drawn from the edge along the place it is laid
// on, over to the line it is folded at, and back to the edge. Two of one name are the
// folds of a box pleat or of an inverted one.
func (w *assembly) pleats(e *edges, list []*Stroke) {
	var folds []pleatFold
	for _, s := range list {
		if f, ok := w.pleatFold(e, s); ok {
			folds = append(folds, f)
		}
	}
	for len(folds) > 0 {
		one := folds[0]
		folds = folds[1:]
		p := Pleat{Name: one.stroke.Name, Edge: one.edge, Kind: "knife", At: one.place, Depth: one.depth, ToEnd: one.place > one.fold, Taper: one.taper}
		for k, two := range folds {
			if two.stroke.Name != one.stroke.Name || two.edge != one.edge || math.Abs(two.depth-one.depth) > alike || (two.place > two.fold) == p.ToEnd {
				continue
			}
			p.Kind, p.At, p.ToEnd = "box", (one.place+two.place)/2, false
			if math.Abs(one.place-two.place) < alike {
				p.Kind = "inverted"
			}
			folds = append(folds[:k:k], folds[k+1:]...)
			break
		}
		if p.Kind == "knife" {
			e.halved(&p, one)
		}
		w.piece.Pleats = append(w.piece.Pleats, p)
	}
}

// halved tells of a single fold beside the fold of the cloth whether it is half of a pleat
// that lies over it: of an inverted one, where it is laid on the fold of the cloth; of a box
// pleat, where it lies one depth beside it and is laid on what lies three beside it, so that
// both halves meet behind.
func (e *edges) halved(p *Pleat, one pleatFold) {
	k := slices.IndexFunc(e.sides, func(s shape.NamedEdge) bool { return s.Name == one.edge })
	if k < 0 {
		return
	}
	n, length := len(e.sides), e.sides[k].Length
	for _, end := range []struct {
		at   float64
		fold bool
	}{{0, e.sides[(k+n-1)%n].Fold}, {length, e.sides[(k+1)%n].Fold}} {
		place, fold := math.Abs(one.place-end.at), math.Abs(one.fold-end.at)
		kind := "inverted"
		if place > fold {
			kind, place = "box", math.Abs(place-float64(3*one.depth))
		}
		if end.fold && place < alike && (kind == "inverted" || math.Abs(fold-one.depth) < alike) {
			p.Kind, p.At, p.ToEnd = kind, end.at, false
		}
	}
}

// taperOf is the taper of a fold that is drawn with a bend: along its place, over to its
// fold, back to the bend, and from there slanting to the edge. Where the line back begins at
// the end of its place, the pleat runs out there.
func taperOf(s *Stroke) shape.Taper {
	if len(s.Parts) == 2 {
		return shape.Taper{Until: apart(s.From, s.Parts[0].To)}
	}
	if len(s.Parts) != 4 {
		return shape.Taper{}
	}
	a, b, far, bend := s.From, s.Parts[0].To, s.Parts[1].To, s.Parts[2].To
	long := apart(a, b)
	if long < 1 {
		return shape.Taper{}
	}
	way := shape.Point{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}
	beside := func(p shape.Point) float64 { return math.Abs((p.X-a.X)*way.Y - (p.Y-a.Y)*way.X) }
	if math.Abs(beside(far)-beside(bend)) > onLine {
		return shape.Taper{}
	}
	return shape.Taper{Until: (bend.X-a.X)*way.X + (bend.Y-a.Y)*way.Y, Depth: beside(bend) / 2}
}

func (w *assembly) pleatFold(e *edges, s *Stroke) (f pleatFold, ok bool) {
	how := say.Of("trace.draw-it-from-the-edge-along-its")
	if len(s.Parts) < 2 || s.Closed {
		w.fault(s.At, how, say.Of("trace.a-pleat-needs-the-line-it-is"))
		return f, false
	}
	a, b := s.From, s.end()
	two := e.nearestSide(a, b)
	one := e.onSide(a, e.side[two.part])
	if max(one.away, two.away) > onLine {
		w.fault(s.At, how, say.Of("trace.the-pleat-does-not-begin-and-end", e.beside(one), e.beside(two)))
		return f, false
	}
	f = pleatFold{stroke: s, edge: e.sides[e.side[two.part]].Name, place: e.alongSide(one), fold: e.alongSide(two), taper: taperOf(s)}
	f.depth = math.Abs(f.place-f.fold) / 2
	if f.depth < 0.25 {
		w.fault(s.At, how, say.Of("trace.the-pleat-has-no-depth"))
		return f, false
	}
	return f, true
}
