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

// dartLines checks by how much a line turns that runs across a dart, once the
// dart is folded shut. By how much it steps there is what the legs differ by.
func (w *truer) dartLines() {
	for _, p := range w.g.Pieces {
		if !p.sound() || !p.own(len(p.Record.Darts) > 0) {
			continue
		}
		for i := range p.Darts {
			if d := &p.Darts[i]; d.Plan.Fits && d.Plan.Inside {
				w.dartLine(p, i)
			}
		}
	}
}

func (w *truer) dartLine(p *Piece, i int) {
	d := &p.Darts[i]
	e := p.edgeCalled(d.Record.Edge.V)
	if e == nil || !e.Length.Value.Known() || d.Plan.Point == d.Plan.Begin || d.Plan.Point == d.Plan.End {
		return
	}
	at := p.form.inner(p.Outline, e.Name, d.Record.Along.V.MM())
	m := mouth{e, d.Plan, at - d.Plan.Intake/2, at + d.Plan.Intake/2}
	a, b := m.angle(0), m.angle(1)
	if !(a > 0) || !(b > 0) { // its point lies on the line: there is nothing to fold
		return
	}
	j := m.join(a + b - 180)
	what := say.With("garment.across-its-dart-folded-shut", e.ref)
	if len(p.Darts) > 1 {
		what = say.Of("garment.across-its-dart-folded-shut-2", e.ref, i+1)
	}
	t := w.turn(say.Of("garment.angle-where-the-dart-begins"), a, say.Of("garment.angle-where-it-ends"), b)
	w.Note(w.lim.dart.Term(w.Pad, "limit", measure.UnitDegree))
	w.drawnFrom(p)
	c := Check{Kind: "line", What: what, Judged: true, At: d.Record.At, Join: j}
	c.Off = w.Figure(w.Join("truing.", p.form.anchor, ".dart-", ordinalOf(i), ".line"), say.Of("garment.the-line-turns-by"), what, t, measure.UnitDegree,
		say.Of("garment.the-angles-between-the-line-and-both"), w.lim.dart.Source)
	c.Good, c.Limit, c.Most = math.Abs(j.Turn) <= w.lim.dart.V+1e-6, atMost(w.lim.dart), w.lim.dart.V
	c.taken = p.Record.Like.Given() && len(p.Record.Darts) == 0 && !p.refitted
	way := "rises"
	if j.Turn < 0 {
		way = "falls"
	}
	c.Mend = say.With("garment.fold-the-dart-shut-and-trace-the", way, w.tape().About(m.rise(j.Turn)))
	w.g.hold(c)
}

// A mouth is where a dart opens on its edge, with how far along the edge its
// legs begin, as the outline runs.
type mouth struct {
	edge     *PieceEdge
	plan     shape.DartPlan
	from, to float64
}

// side is one side of the mouth: its corner, and the directions of the leg and
// of the line that leave it.
func (m *mouth) side(i int) (corner, leg, line shape.Point) {
	o := m.edge.piece.Outline
	if i == 0 {
		_, dir, _ := o.PointOn(m.edge.Name, m.from)
		return m.plan.Begin, unitOf(m.plan.Point.Sub(m.plan.Begin)), shape.Point{X: -dir.X, Y: -dir.Y}
	}
	_, dir, _ := o.PointOn(m.edge.Name, m.to)
	return m.plan.End, unitOf(m.plan.Point.Sub(m.plan.End)), dir
}

func unitOf(p shape.Point) shape.Point {
	size := math.Hypot(p.X, p.Y)
	return shape.Point{X: p.X / size, Y: p.Y / size}
}

// angle is that between leg and line on one side, in degrees.
func (m *mouth) angle(i int) float64 {
	_, leg, line := m.side(i)
	return math.Acos(min(max(float64(leg.X*line.X)+float64(leg.Y*line.Y), -1), 1)) * 180 / math.Pi
}

// beside is how much of the line is looked at on one side, mm.
func (m *mouth) beside(i int) float64 {
	if i == 0 {
		return min(reach, max(m.from, 0))
	}
	return min(reach, max(m.edge.Length.Value.Number-m.to, 0))
}

// rise is how far a smooth line passes from the corner that the folded dart
// makes: half way to the chord, as a parabola does that leaves both sides
// equally far from it.
func (m *mouth) rise(turn float64) float64 {
	return min(m.beside(0), m.beside(1)) * math.Sin(math.Abs(turn)/2*math.Pi/180) / 2
}

// join lays both sides of the mouth leg to leg.
func (m *mouth) join(turn float64) *LineAcross {
	a, b := m.plan.Legs()
	j := &LineAcross{Seam: say.Of("garment.the-dart"), Names: [2]string{m.edge.ref, say.Of("garment.beyond", m.edge.ref)}, Turn: turn, Step: b - a}
	j.Lay = func() LaidJoin { return m.lay(j.Step) }
	return j
}

// lay lays them so for a drawing.
func (m *mouth) lay(step float64) (out LaidJoin) {
	a, b := m.plan.Legs()
	o := m.edge.piece.Outline
	const steps = 12
	for i, leg := range [...]float64{a, b} {
		corner, along, _ := m.side(i)
		put := func(q shape.Point) shape.Point {
			d := q.Sub(corner)
			at := shape.Point{X: float64(d.X*along.Y) - float64(d.Y*along.X), Y: float64(d.X*along.X) + float64(d.Y*along.Y)}
			if i == 1 {
				at.Y -= step
			}
			return at
		}
		far := min(reach, leg)
		for k := range steps + 1 {
			part := float64(k) / steps
			out.Seams[i] = append(out.Seams[i], put(shape.Point{X: corner.X + float64(along.X*far*part), Y: corner.Y + float64(along.Y*far*part)}))
			s := m.from - m.beside(0)*part
			if i == 1 {
				s = m.to + m.beside(1)*part
			}
			at, _, _ := o.PointOn(m.edge.Name, s)
			out.Lines[i] = append(out.Lines[i], put(at))
		}
	}
	return out
}

// grainOf is how the grain of a piece lies, in degrees from the line it is
// drawn along; false where it may lie any way.
func grainOf(p *Piece) (float64, bool) {
	switch p.Grain {
	case "along":
		return 0, true
	case "across":
		return 90, true
	case "bias":
		return 45, true
	}
	return 0, false
}

// grainsBeside tells of pieces whose grain lies otherwise than that of the
// piece they are like, or that they are sewn to side by side. That may be meant.
func (w *truer) grainsBeside() {
	for _, p := range w.g.Pieces {
		if other := w.named[p.Record.Like.V]; p.Record.Like.Given() && other != nil {
			at := p.Record.At
			if p.Record.Grain.Given() {
				at = p.Record.Grain.At
			}
			w.grainBeside(p, other, say.With("garment.beside-which-it-is-like", p.Name, other.Name), w.Join("truing.", p.form.anchor, ".grain-like"), at)
		}
	}
	ids := words.NamesFor(len(w.g.Seams))
	for _, s := range w.g.Seams {
		id := ids.Unique(s.Name)
		if s.broken || s.set || len(s.Sides[0].Edges) != 1 || len(s.Sides[1].Edges) != 1 || s.Record.Gather.Given() {
			continue
		}
		a, b := s.Sides[0].Edges[0].Piece, s.Sides[1].Edges[0].Piece
		w.grainBeside(a, b, say.With("garment.beside-at", a.Name, b.Name, s.Name), w.Join("truing.", id, ".grain"), s.Record.At)
	}
}

func (w *truer) grainBeside(a, b *Piece, what, id string, at fault.Pos) {
	one, ok1 := grainOf(a)
	two, ok2 := grainOf(b)
	if a == b || !ok1 || !ok2 || one == two {
		return
	}
	t := w.grainsApart(a, b, one, two)
	c := Check{Kind: "grain", What: what, At: at}
	c.Off = w.Figure(id, say.Of("garment.grains-apart"), what, t, measure.UnitDegree, say.Of("garment.the-angle-between-the-grain-of-both"), figure.Derived)
	w.g.hold(c)
}

// grainsApart is the angle between the grains of two pieces.
func (w *truer) grainsApart(a, b *Piece, one, two float64) figure.Term {
	for _, p := range [...]*Piece{a, b} {
		if at := p.form.grain.At; at.Given() {
			w.Remark(figure.Written, say.Of("garment.grain-of", p.Name), p.Grain, at, "")
		} else {
			w.Remark(figure.Default, say.Of("garment.grain-of", p.Name), p.Grain, fault.Pos{}, "default")
		}
	}
	if one < two {
		one, two = two, one
	}
	return w.Constant(one, measure.UnitDegree).Minus(w.Constant(two, measure.UnitDegree))
}

// grainAt is where the grain of a piece is written, or the piece is.
func (p *Piece) grainAt() fault.Pos {
	if p.form.grain.Given() {
		return p.form.grain.At
	}
	return p.Record.At
}
