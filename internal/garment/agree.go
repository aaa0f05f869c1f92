package garment

import (
	"fmt"
	"math"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// headWords and holeWords begin the names of edges that make a sleeve head and
// an armhole (terms of the trade).
var (
	headWords = []string{"cap", "sleeve cap", "sleeve head", "head", "crown", "sleeve crown"}
	holeWords = []string{"armhole", "armscye", "scye"}
)

func allNamed(list []EdgeUse, begins []string) bool {
	for _, u := range list {
		ok := false
		for _, word := range begins {
			ok = ok || strings.HasPrefix(words.Plain(u.Edge.Name), word)
		}
		if !ok {
			return false
		}
	}
	return len(list) > 0
}

// headSide is the side of a seam that is a sleeve head, where the other is an
// armhole; −1 where it is no such seam.
func (s *Seam) headSide() int {
	for i := range s.Sides {
		if allNamed(s.Sides[i].Edges, headWords) && allNamed(s.Sides[1-i].Edges, holeWords) {
			return i
		}
	}
	return -1
}

// sleeveHead holds a sleeve head against its armhole.
func (w *truer) sleeveHead(s *Seam, id string) {
	head := s.headSide()
	if head < 0 || s.miscounted || !s.Sides[0].Length.Value.Known() || !s.Sides[1].Length.Value.Known() || s.Record.Gather.Given() {
		return
	}
	a, b := &s.Sides[head].Length, &s.Sides[1-head].Length
	ease := a.Value.Number - b.Value.Number
	t := w.Of("sleeve head", a).Minus(w.Of("armhole", b))
	w.Note(w.lim.headLeast.Term(w.Pad, "least", mm), w.lim.headMost.Term(w.Pad, "most", mm))
	c := Check{Kind: "sleeve head", What: say.Of("garment.the-sleeve-head-at", s.Name), Judged: true, At: s.Record.At}
	c.Off = w.Figure(w.Join("truing.", id, ".head"), say.Of("garment.ease-of-the-sleeve-head"), s.Name, t, mm, say.Of("garment.sleeve-head-armhole"), w.lim.headMost.Source)
	least, most := w.lim.headLeast.V, w.lim.headMost.V
	c.Good = ease >= least-1e-6 && ease <= most+1e-6
	c.Limit = say.With("garment.to", w.tape().Number(least), w.tape().Exact(most))
	c.Mend = say.Of("garment.take-out-of-the-sleeve-head", w.tape().About(ease-most))
	if ease < least {
		c.Mend = say.Of("garment.raise-the-sleeve-head-or-take-out", w.tape().About((least-ease)/2), w.tape().About(least-ease))
	}
	w.g.hold(c)
}

// dartLegs holds the legs of darts against each other whose point was drawn.
func (w *truer) dartLegs() {
	for _, p := range w.g.Pieces {
		for i := range p.Darts {
			d := &p.Darts[i]
			if !d.Record.Point.Given() {
				continue // its point lies square to its mouth
			}
			a, b := d.Plan.Legs()
			what := say.Of("garment.the-legs-of-the-dart-on", p.Name, d.Record.Edge.V)
			w.Remark(figure.Written, "point", w.point(d.Plan.Point), d.Record.Point.At, "")
			w.Note(w.lim.legs.Term(w.Pad, "limit", mm))
			t := w.Found(say.Of("garment.leg-at-the-beginning"), a, mm).Minus(w.Found(say.Of("garment.leg-at-the-end"), b, mm))
			c := Check{Kind: "dart legs", What: what, Judged: true, At: d.Record.At}
			c.Off = w.Figure(w.Join("truing.", p.form.anchor, ".dart-", ordinalOf(i), ".legs"), say.Of("garment.legs-apart"), what, t, mm, say.Of("garment.leg-at-the-darts-beginning-leg-at"), w.lim.legs.Source)
			c.Good, c.Limit, c.Most = math.Abs(a-b) <= w.lim.legs.V+1e-6, w.lengthAtMost(w.lim.legs), w.lim.legs.V
			at := evenPoint(d.Plan)
			if len(p.Record.Darts) == 0 { // written where the piece it is like is drawn
				at = p.form.asDrawn(at)
			}
			now := fmt.Sprintf("[%s, %s]", w.written(at.X), w.written(at.Y))
			c.Mend = say.Of("garment.move-its-point-to", now)
			if o := w.fileDrawing(p); o != nil && d.Record.At == o.File.At {
				c.Mend = say.Of("garment.in-move-its-point-to", fileOf(o), pointIn(o, at))
			} else {
				var f fault.Fault
				f.InsteadAt(d.Record.Point.At, "", now)
				c.write = f.Correct
			}
			w.g.hold(c)
		}
	}
}

func ordinalOf(i int) string { return fmt.Sprint(i + 1) }

// evenPoint is the place nearest to a dart's point from which its legs are
// equal.
func evenPoint(d shape.DartPlan) shape.Point {
	mid := third(d.Begin, d.End, 1.5)
	m := d.End.Sub(d.Begin)
	v := d.Point.Sub(mid)
	size := float64(m.X*m.X) + float64(m.Y*m.Y)
	if !(size > 0) {
		return d.Point
	}
	t := (float64(v.X*m.X) + float64(v.Y*m.Y)) / size
	return shape.Point{X: d.Point.X - float64(m.X*t), Y: d.Point.Y - float64(m.Y*t)}
}

// grains checks that folds run with the grain, or square to it: else the other
// half lies off the grain by twice as much.
func (w *truer) grains() {
	for _, p := range w.g.Pieces {
		if !p.OnFold || !p.sound() || p.Record.Outline == nil || p.Grain == "any" || p.Grain == "bias" {
			continue
		}
		i := p.form.fold
		d := p.Outline.Edges[i].To.Sub(p.Outline.Start(i))
		lean := math.Atan2(math.Abs(d.X), math.Abs(d.Y)) * 180 / math.Pi
		lean = min(lean, 90-lean)
		what := say.Of("garment.the-fold-of", p.Name)
		w.Note(w.lim.grain.Term(w.Pad, "limit", measure.UnitDegree))
		w.drawnFrom(p)
		t := w.Found(say.Of("garment.between-the-fold-and-the-grain-or"), lean, measure.UnitDegree)
		c := Check{Kind: "grain", What: what, Judged: true, At: p.form.notes[i].at}
		c.Off = w.Figure(w.Join("truing.", p.form.anchor, ".grain"), say.Of("garment.fold-off-the-grain"), what, t, measure.UnitDegree, say.Of("garment.the-angle-between-the-fold-and-the"), w.lim.grain.Source)
		c.Good, c.Limit, c.Most = lean <= w.lim.grain.V+1e-6, atMost(w.lim.grain), w.lim.grain.V
		c.Mend = say.Of("garment.draw-the-fold-straight-up-or-turn", degrees(lean))
		w.g.hold(c)
	}
}

// linings holds every lining against the shell at the levels of the body that both
// cross. A hem is none: a lining may be made narrower there.
func (w *truer) linings() {
	for _, l := range w.g.Levels {
		if len(l.cross) == 0 || strings.HasSuffix(words.Plain(l.Name), "hem") || !l.Finished.Value.Known() || w.countedIn(l, "lining") {
			continue
		}
		lined, why := w.crossings(l.Name, w.girthsIn(l.Name, "lining"))
		if len(lined) == 0 || why != "" {
			continue
		}
		lining, shell := w.crossed(lined), w.crossed(l.cross)
		w.Note(w.lim.lining.Term(w.Pad, "limit", mm))
		w.besides(l)
		t := lining.Minus(shell)
		d := t.MM()
		c := Check{Kind: "lining", What: say.Of("garment.the-lining-at", l.Name), Judged: true, At: lined[0].piece.Record.At}
		c.Off = w.Figure(w.Join("truing.lining.", words.NamesFor(1).Unique(l.Name)), say.Of("garment.lining-wider-by"), l.Name, t, mm, say.Of("garment.sewn-width-times-times-cut-of-the"), w.lim.lining.Source)
		c.Good, c.Limit = d >= -w.lim.lining.V-1e-6, say.Of("garment.at-least", w.tape().Exact(w.lim.lining.V))
		c.Mend = say.Of("garment.widen-the-lining-by-in-all", w.tape().About(-d))
		w.g.hold(c)
	}
}

// countedIn reports whether what a level is counted over lies in a layer.
func (w *girthWalk) countedIn(l *Level, layer string) bool {
	return len(l.Girths) > 0 && w.g.Sewn.Copies[l.Girths[0].Chords[0].Copy].Layer == layer
}

// crossed is Σ sewn width × times cut of the pieces that cross a level.
func (w *girthWalk) crossed(list []crossing) figure.Term {
	terms := make([]figure.Term, len(list))
	for i := range list {
		terms[i] = w.Of(list[i].fig.Of, list[i].fig).By(float64(list[i].times))
		if f := list[i].drawn(); f != nil {
			terms[i] = terms[i].Times(w.Of(say.Of("garment.drawn-in-by", f.Of), f))
		}
	}
	return w.Sum(terms...)
}

// drawn is what the edge that lies at a level is drawn in to by elastic or ribbing; nil
// where nothing does.
func (c *crossing) drawn() *figure.Figure {
	switch e := c.edge; {
	case e == nil || e.seam != nil && !e.seam.stretches():
		return nil
	case e.Drawn.ID != "":
		return &e.Drawn
	case e.finish != nil && e.finish.Drawn.ID != "":
		return &e.finish.Drawn
	}
	return nil
}

// likes tells by how much the edges of a derived piece differ from those of
// the piece it is like. Nothing is wrong with that; where they are sewn to each
// other the seam tells.
func (w *truer) likes() {
	for _, p := range w.g.Pieces {
		shell := w.named[p.coverOf()]
		if !p.changed() || shell == nil || !p.sound() || !shell.sound() {
			continue
		}
		for k := range p.Edges {
			e := &p.Edges[k]
			other := shell.edgeCalled(e.Name)
			if other == nil || !e.Sewn.Value.Known() || !other.Sewn.Value.Known() || len(e.note.altered) == len(other.note.altered) {
				continue
			}
			c := Check{Kind: "like", What: say.With("garment.against", e.ref, other.ref), At: p.Record.Change[0].At}
			t := w.Of(e.ref, &e.Sewn).Minus(w.Of(other.ref, &other.Sewn))
			c.Off = w.Figure(w.Join(e.base, ".against"), say.Of("garment.longer-by"), e.ref, t, mm, say.Of("garment.sewn-length-sewn-length-of-the-same"), figure.Derived)
			w.g.hold(c)
		}
	}
}
