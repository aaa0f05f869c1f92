package garment

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// A LineAcross is a line that runs across a join: the neck across the shoulder seam,
// or a waist across a fold.
type LineAcross struct {
	Seam  string // "shoulders", or "fold"
	Names [2]string
	Turn  float64 // degrees by which the line turns: above 0 a hollow, below a point
	Step  float64 // mm by which the second piece reaches beyond the first
	// Lay gives what is drawn of it. Curves are followed for it, and most joins
	// turn by so little that nobody draws them.
	Lay func() LaidJoin
}

// A LaidJoin is what lies near a join of each piece, from the corner on, both laid
// edge to edge, in millimetres from the corner of the first, its sewing line along the
// seam running straight up.
type LaidJoin struct {
	Seams [2][]shape.Point // along the seam
	Lines [2][]shape.Point // along the line that must run smooth
}

// An ending is one end of an edge: its corner with the line beside it.
type ending struct {
	edge  *PieceEdge
	line  *PieceEdge // the edge beside it
	atEnd bool
}

func (e *PieceEdge) ending(atEnd bool) ending {
	step := -1
	if atEnd {
		step = 1
	}
	return ending{e, e.beside(step), atEnd}
}

// lines checks the lines that run across both ends of a seam.
func (w *truer) lines(s *Seam, id string) {
	if len(s.Sides[0].Edges) != 1 || len(s.Sides[1].Edges) != 1 || s.Record.Gather.Given() || s.closure().Given() {
		return
	}
	a, b := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	if !a.Sewn.Value.Known() || !b.Sewn.Value.Known() || !a.piece.sound() || !b.piece.sound() {
		return
	}
	alike := s.runAlike(a, b)
	slugs := words.NamesFor(2)
	var step *Check // at the higher end: the eye is drawn there
	highest := math.Inf(-1)
	for _, atEnd := range [...]bool{true, false} {
		one, two := a.ending(atEnd), b.ending(atEnd == alike)
		if !goesOn(one, two, a == b) {
			continue
		}
		j := &LineAcross{Seam: s.Name, Names: [2]string{one.line.ref, two.line.ref}}
		what := say.With("garment.to-at", one.line.ref, two.line.ref, s.Name)
		slug := id + "." + slugs.Unique(one.line.Name)
		if y := a.corner(atEnd).Y; a != b && s.Meets && y > highest {
			highest = y
			c := w.stepAt(s, j, one, two, id)
			step = &c
		}
		j.Lay = func() LaidJoin { return j.lay(one, two) }
		w.turnAt(j, one, two, what, slug, s.Record.At)
	}
	if step != nil {
		w.g.hold(*step)
	}
}

// sound reports whether the piece has an outline to be held against others.
func (p *Piece) sound() bool { return p.form.why == "" && len(p.Edges) > 2 }

// goesOn reports whether the edges beside two joined corners are one line: they
// bear one name, lie at one level, or are finished or sewn on as one.
func goesOn(a, b ending, self bool) bool {
	one, two := a.line, b.line
	switch {
	case one.Fold || two.Fold, a.onwards() && b.onwards(), a.liesOn(b), b.liesOn(a):
		return false
	case !self && one.seam != nil && one.seam == two.seam && one.side != two.side:
		return false // they are sewn onto each other, as a neck and its lining's, and go on nowhere
	case self:
		return one.Level != "" || one.finish != nil || one.seam != nil && one.seam.ofSeveral()
	case one.Level != "" && one.Level == two.Level, one.finish != nil && one.finish == two.finish:
		return true
	case one.Name == two.Name:
		return one.seam == two.seam || one.seam == nil || two.seam == nil || one.seam.ofSeveral() || two.seam.ofSeveral()
	}
	return one.seam != nil && one.seam == two.seam && one.side == two.side
}

// liesOn reports whether the piece is a strip cut along the other one, or along its mirror
// image, and sewn to it where it was cut, as a facing: turned in, the lines beside the seam
// lie on each other.
func (e ending) liesOn(on ending) bool {
	along, other := e.edge.piece.form.along, on.edge.piece
	if along == "" || e.edge.Name != on.edge.Name {
		return false
	}
	return along == other.Name || along == other.Record.Like.V && mirrors(other.Record)
}

// onwards reports whether the edge beside a corner is the same edge going on, of
// which only a part is sewn here.
func (e ending) onwards() bool {
	return e.edge.note.whole != "" && e.edge.note.whole == e.line.note.whole
}

// ofSeveral reports whether a seam joins runs.
func (s *Seam) ofSeveral() bool { return len(s.Sides[0].Edges)+len(s.Sides[1].Edges) > 2 }

// taken reports whether the piece has this corner from the one it is like.
func (e ending) taken() bool {
	p := e.edge.piece
	return p.Record.Like.Given() && !(mirrors(p.Record) && (p.changed() || p.refitted))
}

// away is the direction in which an edge leaves its corner.
func away(e *PieceEdge, atEnd bool) shape.Point {
	o := e.piece.Outline
	if !atEnd {
		dir, _ := o.Directions(e.Index)
		return dir
	}
	last := (e.beside(1).Index + len(o.Edges) - 1) % len(o.Edges)
	_, dir := o.Directions(last)
	return shape.Point{X: -dir.X, Y: -dir.Y}
}

// inner is the angle of the piece at the corner, in degrees.
func (e ending) inner() float64 {
	along, line := away(e.edge, e.atEnd), away(e.line, !e.atEnd)
	out, in := along, line // the edge that leaves the corner, the one that arrives
	if e.atEnd {
		out, in = line, along
	}
	turn := math.Atan2(float64(out.X*in.Y)-float64(out.Y*in.X), float64(out.X*in.X)+float64(out.Y*in.Y)) * 180 / math.Pi
	if turn < 0 {
		turn += 360
	}
	return turn
}

// turnAt checks by how much a line turns where it crosses a join.
func (w *truer) turnAt(j *LineAcross, one, two ending, what, slug string, at fault.Pos) {
	a, b := one.inner(), two.inner()
	j.Turn = a + b - 180
	t := w.turn(say.With("garment.corner-of", one.edge.piece.Name), a, say.With("garment.corner-of", two.edge.piece.Name), b)
	w.Note(w.lim.angle.Term(w.Pad, "limit", measure.UnitDegree))
	w.drawnFrom(one.edge.piece)
	w.drawnFrom(two.edge.piece)
	c := Check{Kind: "line", What: what, Judged: true, At: at, Join: j, taken: one.taken() && two.taken()}
	c.Off = w.Figure("truing."+slug+".line", say.Of("garment.the-line-turns-by"), what, t, measure.UnitDegree,
		say.Of("garment.the-angles-of-both-pieces-at-the"), w.lim.angle.Source)
	c.Good = math.Abs(j.Turn) <= w.lim.angle.V+1e-6
	c.Limit, c.Most = atMost(w.lim.angle), w.lim.angle.V
	if !c.Good {
		c.Mend, c.write = w.smoothed(j.Turn, one, two)
	}
	w.g.hold(c)
}

// turn is by how much a line turns where two corners meet.
func (w *truer) turn(one string, a float64, two string, b float64) figure.Term {
	return w.Found(one, a, measure.UnitDegree).Plus(w.Found(two, b, measure.UnitDegree)).Minus(w.Constant(180, measure.UnitDegree))
}

func third(a, b shape.Point, n float64) shape.Point {
	return shape.Point{X: a.X + float64((b.X-a.X)*n/3), Y: a.Y + float64((b.Y-a.Y)*n/3)}
}

func turned(p, about shape.Point, rad float64) shape.Point {
	sin, cos := math.Sincos(rad)
	d := p.Sub(about)
	return shape.Point{X: about.X + float64(d.X*cos) - float64(d.Y*sin), Y: about.Y + float64(d.X*sin) + float64(d.Y*cos)}
}

// stepAt checks whether the ends of a line meet when two pieces are laid edge
// to edge from the other end of the seam.
func (w *truer) stepAt(s *Seam, j *LineAcross, one, two ending, id string) Check {
	a, b := one.edge.sewn, two.edge.sewn
	j.Step = b - a
	t := w.Of(two.edge.ref, &two.edge.Sewn).Minus(w.Of(one.edge.ref, &one.edge.Sewn))
	rule := say.Of("garment.second-edge-first-edge-how-far-its")
	if ease := s.wholeEase(); ease.Given() {
		meant := w.Length("ease", ease).Size()
		if j.Step < 0 {
			t = t.Plus(meant)
		} else {
			t = t.Minus(meant)
		}
		rule += say.Of("garment.less-the-ease-meant")
	}
	w.Note(w.lim.step.Term(w.Pad, "limit", mm))
	off := t.MM()
	j.Step = off
	c := Check{Kind: "step", What: say.With("garment.to-at", one.line.ref, two.line.ref, s.Name), Judged: true, At: s.Record.At}
	c.Off = w.Figure("truing."+id+".step", say.Of("garment.ends-of-the-line-apart"), c.What, t, mm, rule, w.lim.step.Source)
	c.Good = math.Abs(off) <= w.lim.step.V+1e-6
	c.Limit, c.Most = w.lengthAtMost(w.lim.step), w.lim.step.V
	longer, shorter := two, one
	if off < 0 {
		longer, shorter = one, two
	}
	c.Mend = say.With("garment.the-end-of-by-or-lengthen-there", longer.wayIn(), longer.line.Name, longer.line.piece.Name, w.tape().Tenth(math.Abs(off)), shorter.edge.ref)
	return c
}

// wayIn is the word for moving a corner into its piece along the seam.
func (e ending) wayIn() string {
	dir := away(e.edge, e.atEnd)
	switch {
	case math.Abs(dir.Y) < 0.3*math.Abs(dir.X):
		return say.Of("garment.move-in")
	case dir.Y < 0:
		return "lower"
	}
	return "raise"
}

// folds checks the lines that run across a fold: square to it, unless they are
// meant to make a corner there.
func (w *truer) folds() {
	for _, p := range w.g.Pieces {
		if !p.OnFold || !p.sound() || p.Record.Outline == nil && !p.changed() {
			continue
		}
		for k := range p.Edges {
			if !p.Edges[k].Fold {
				continue
			}
			for _, atEnd := range [...]bool{true, false} {
				w.foldLine(p.Edges[k].ending(atEnd))
			}
		}
	}
}

// changed reports whether a piece has more to check than the one it is like.
func (p *Piece) changed() bool { return p.Record.Like.Given() && len(p.Record.Change) > 0 }

func (w *truer) foldLine(e ending) {
	turn := 2*e.inner() - 180
	if math.Abs(turn) > w.lim.corner.V || e.line.Fold {
		return // a point or a hollow that is meant
	}
	p := e.edge.piece
	j := &LineAcross{Seam: "the fold", Names: [2]string{e.line.ref, say.With("garment.mirrored-2", e.line.ref)}}
	j.Lay = func() LaidJoin { return j.lay(e, e) }
	w.turnAt(j, e, e, say.With("garment.at-the-fold", e.line.ref), p.form.anchor+"."+words.NamesFor(1).Unique(e.line.Name)+"-fold", e.line.note.at)
}

// reach is how much of a piece is shown on either side of a join, mm.
const reach = 60

// lay puts both pieces edge to edge for the drawing.
func (j *LineAcross) lay(one, two ending) (out LaidJoin) {
	for i, e := range [...]ending{one, two} {
		along := away(e.edge, e.atEnd)
		corner := e.edge.corner(e.atEnd)
		// A piece whose seam leaves the corner with its inside on the left is
		// to lie left of the seam as the first, right of it as the second.
		flip := e.atEnd == (i == 0)
		down := 0.0
		if i == 1 {
			down = -j.Step
		}
		put := func(q shape.Point) shape.Point {
			d := q.Sub(corner)
			x := float64(d.X*along.Y) - float64(d.Y*along.X) // right of the seam
			y := float64(d.X*along.X) + float64(d.Y*along.Y)
			if flip {
				x = -x
			}
			return shape.Point{X: x, Y: y + down}
		}
		out.Seams[i] = e.trace(e.edge, e.atEnd, put)
		out.Lines[i] = e.trace(e.line, !e.atEnd, put)
	}
	return out
}

// trace follows an edge from its corner for as much as is shown.
func (e ending) trace(edge *PieceEdge, fromEnd bool, put func(shape.Point) shape.Point) []shape.Point {
	const steps = 12
	far := min(reach, edge.Length.Value.Number)
	var at [steps + 1]float64
	for k := range at {
		at[k] = far * float64(k) / steps
		if fromEnd {
			at[k] = edge.Length.Value.Number - at[k]
		}
	}
	out := edge.piece.Outline.PointsOn(edge.Name, at[:])
	for k := range out {
		out[k] = put(out[k])
	}
	return out
}
