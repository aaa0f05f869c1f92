package garment

import (
	"fmt"
	"math"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/shape"
)

// headWords and holeWords begin the names of edges that make a sleeve head and
// an armhole (terms of the trade).
var (
	headWords = []string{"cap", "sleeve cap", "sleeve head", "head", "crown", "sleeve crown"}
	holeWords = []string{"armhole", "armscye", "scye"}
)

func allNamed(list []EdgeUse, words []string) bool {
	for _, u := range list {
		ok := false
		for _, word := range words {
			ok = ok || strings.HasPrefix(plainName(u.Edge.Name), word)
		}
		if !ok {
			return false
		}
	}
	return len(list) > 0
}

// sleeveHead holds a sleeve head against its armhole.
func (w *work) sleeveHead(s *Seam, id string) {
	head := -1
	for i := range s.Sides {
		if allNamed(s.Sides[i].Edges, headWords) && allNamed(s.Sides[1-i].Edges, holeWords) {
			head = i
		}
	}
	if head < 0 || !s.Sides[0].Length.Value.Known() || !s.Sides[1].Length.Value.Known() || s.Record.Gather.Given() {
		return
	}
	a, b := &s.Sides[head].Length, &s.Sides[1-head].Length
	ease := a.Value.Number - b.Value.Number
	w.figureIn("sleeve head", a).figureIn("armhole", b)
	w.lim.headLeast.input(&w.ink, "least", measure.UnitMM)
	w.lim.headMost.input(&w.ink, "most", measure.UnitMM)
	w.n(a.Value.Number).less(b.Value.Number).s(" = ").mm(ease)
	c := Check{Kind: "sleeve head", What: "the sleeve head at " + s.Name, Judged: true, At: s.Record.At}
	c.Off = w.figure(w.join("true.", id, ".head"), "ease of the sleeve head", s.Name, inMM(ease), "sleeve head − armhole", w.lim.headMost.source)
	least, most := w.lim.headLeast.v, w.lim.headMost.v
	c.Good = ease >= least-1e-6 && ease <= most+1e-6
	c.Limit = string(appendNumber(nil, least, 1)) + " to " + string(appendNumber(nil, most, 1)) + " mm"
	c.Mend = "take " + text1(ease-most) + " out of the sleeve head"
	if ease < least {
		c.Mend = "raise the sleeve head by about " + text1((least-ease)/2) + ", or take " + text1(least-ease) + " out of the armhole"
	}
	w.check(c)
}

// dartLegs holds the legs of darts against each other whose point was drawn.
func (w *work) dartLegs() {
	for _, p := range w.g.Pieces {
		for i := range p.Darts {
			d := &p.Darts[i]
			if !d.Record.Point.Given() {
				continue // its point lies square to its mouth
			}
			a, b := d.Plan.Legs()
			what := fmt.Sprintf("the legs of the dart on %s.%s", p.Name, d.Record.Edge.V)
			w.note(Input{Name: "point", Value: w.place(d.Plan.Point), At: d.Record.Point.At})
			w.lim.legs.input(&w.ink, "limit", measure.UnitMM)
			w.n(a).less(b).s(" = ").mm(a - b)
			c := Check{Kind: "dart legs", What: what, Judged: true, At: d.Record.At}
			c.Off = w.figure(w.join("true.", p.form.anchor, ".dart-", ordinalOf(i), ".legs"), "legs apart", what, inMM(a-b), "leg at the dart's beginning − leg at its end", w.lim.legs.source)
			c.Good, c.Limit = math.Abs(a-b) <= w.lim.legs.v+1e-6, atMost(w.lim.legs, " mm")
			at := evenPoint(d.Plan)
			c.Mend = fmt.Sprintf("move its point to [%s, %s]", plainMM(at.X), plainMM(at.Y))
			w.check(c)
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
func (w *work) grains() {
	for _, p := range w.g.Pieces {
		if !p.OnFold || !p.sound() || p.Record.Outline == nil || p.Grain == "any" || p.Grain == "bias" {
			continue
		}
		i := p.form.fold
		d := p.Outline.Edges[i].To.Sub(p.Outline.Start(i))
		lean := math.Atan2(math.Abs(d.X), math.Abs(d.Y)) * 180 / math.Pi
		lean = min(lean, 90-lean)
		what := "the fold of " + p.Name
		w.note(Input{Name: "fold runs", Value: w.s("(").n(d.X).s(", ").n(d.Y).s(")").end(), At: p.form.notes[i].at})
		w.lim.grain.input(&w.ink, "limit", measure.UnitDegree)
		w.s("atan(").n(math.Abs(d.X)).s(" ÷ ").n(math.Abs(d.Y)).s("), or what is wanting to 90°, = ").n(lean).s("°")
		c := Check{Kind: "grain", What: what, Judged: true, At: p.form.notes[i].at}
		c.Off = w.figure(w.join("true.", p.form.anchor, ".grain"), "fold off the grain", what, inDegrees(lean), "the angle between the fold and the grain, or a line square to it", w.lim.grain.source)
		c.Good, c.Limit = lean <= w.lim.grain.v+1e-6, atMost(w.lim.grain, "°")
		c.Mend = "draw the fold straight up, or turn the piece by " + degrees(lean)
		w.check(c)
	}
}

// linings holds every lining against the shell at the levels that both cross.
func (w *work) linings() {
	for _, l := range w.g.Levels {
		if len(l.cross) == 0 || !l.Finished.Value.Known() || cutIn(l.cross[0].piece, "lining") {
			continue
		}
		var lined []crossing
		why := ""
		for _, p := range w.g.Pieces {
			if cutIn(p, "lining") {
				lined, why = w.crossing(lined, p, l.Name, why)
			}
		}
		if len(lined) == 0 || why != "" {
			continue
		}
		sum := [2]float64{}
		for i, list := range [2][]crossing{l.cross, lined} {
			for k := range list {
				w.figureIn(list[k].fig.Of, list[k].fig)
				sum[i] += list[k].width * float64(list[k].times)
			}
		}
		w.lim.lining.input(&w.ink, "limit", measure.UnitMM)
		d := sum[1] - sum[0]
		w.n(sum[1]).less(sum[0]).s(" = ").mm(d)
		c := Check{Kind: "lining", What: "the lining at " + l.Name, Judged: true, At: lined[0].piece.Record.At}
		c.Off = w.figure(w.join("true.lining.", namesFor(1).unique(l.Name)), "lining wider than the shell by", l.Name, inMM(d), "Σ sewn width × times cut of the lining − that of the shell", w.lim.lining.source)
		c.Good, c.Limit = d >= -w.lim.lining.v-1e-6, "at least −"+string(appendNumber(nil, w.lim.lining.v, 1))+" mm"
		c.Mend = "widen the lining by " + text1(-d) + " in all, or it will pull the shell in"
		w.check(c)
	}
}

// likes tells by how much the edges of a derived piece differ from those of
// the piece it is like. Nothing is wrong with that; where they are sewn to each
// other the seam tells.
func (w *work) likes() {
	for _, p := range w.g.Pieces {
		shell := w.named[p.Record.Like.V]
		if !p.changed() || shell == nil || !p.sound() || !shell.sound() {
			continue
		}
		for k := range p.Edges {
			e := &p.Edges[k]
			other := shell.edgeCalled(e.Name)
			if other == nil || !e.Sewn.Value.Known() || !other.Sewn.Value.Known() || len(e.note.altered) == len(other.note.altered) {
				continue
			}
			w.figureIn(e.ref, &e.Sewn).figureIn(other.ref, &other.Sewn)
			d := e.sewn - other.sewn
			w.n(e.sewn).less(other.sewn).s(" = ").mm(d)
			c := Check{Kind: "like", What: e.ref + " against " + other.ref, At: p.Record.Change[0].At}
			c.Off = w.figure(w.join(e.base, ".against"), "longer than that of the piece it is like", e.ref, inMM(d), "sewn length − sewn length of the same edge of the piece it is like", derived)
			w.check(c)
		}
	}
}
