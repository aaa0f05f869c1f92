package garment

import (
	"slices"

	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// alterDart does to a dart what a change says; false where it cannot be done,
// which is told.
func (w *alterer) alterDart(p *Piece, f *form, a Alteration) bool {
	i, ok := w.dartNamed(p, f, a)
	if !ok {
		return false
	}
	c := a.Change
	f.darts = slices.Clone(f.darts)
	d := &f.darts[i]
	switch {
	case c.Unsewn.V:
		f.darts = slices.Delete(f.darts, i, i+1)
		f.gone = append(slices.Clip(f.gone), a)
	case c.Rotate != nil || c.Close.V:
		if !w.reshape(p, f, a, i) {
			return false
		}
	default:
		for _, part := range []struct {
			to   *record.Length
			from record.Length
		}{{&d.Width, c.Width}, {&d.Length, c.Length}, {&d.Along, c.Along}} {
			if part.from.Given() {
				*part.to = part.from
			}
		}
		if c.Length.Given() {
			d.Point = record.Val[record.XY]{}
		}
		d.At = c.At
	}
	f.altered = append(slices.Clip(f.altered), a)
	return true
}

// dartNamed finds the one dart a change means.
func (w *alterer) dartNamed(p *Piece, f *form, a Alteration) (int, bool) {
	at := a.Change.Dart.At
	found := -1
	for i := range f.darts {
		d := &f.darts[i]
		if d.Name.Given() && d.Name.V == a.dart {
			return i, true
		}
		if f.called(d.Edge.V) != f.called(a.dart) {
			continue
		}
		if found >= 0 {
			w.faults.Wrong(at, say.Of("garment.give-each-a-name-and-write-that"), say.Of("garment.has-several-darts-on", say.Quoted(p.Name), a.dart))
			return 0, false
		}
		found = i
	}
	if found >= 0 {
		return found, true
	}
	for _, b := range f.gone {
		if b.dart == a.dart {
			w.faults.Wrong(at, say.Of("garment.leave-this-change-out"), say.Of("garment.has-no-dart-any-more-took-it", p.Name, say.Quoted(a.dart), b.whose(), b.Change.At.Line))
			return 0, false
		}
	}
	var names []string
	for i := range f.darts {
		names = append(names, f.darts[i].Name.Or(f.darts[i].Edge.V))
	}
	near := meant.Nearest(a.dart, names)
	hint := meant.Ask(near)
	if hint == "" && len(names) > 0 {
		hint = say.Of("garment.there-is-one-on", names[0])
	}
	w.faults.Wrong(at, hint, say.Of("garment.has-no-dart-on", say.Quoted(p.Name), a.dart)).Instead(a.dart, near)
	return 0, false
}

func (a Alteration) whose() string {
	if a.Round == nil {
		return say.Of("garment.the-change-of", a.Piece)
	}
	return say.Of("garment.the", a.name())
}

// called is the name an edge has now, by any name it had.
func (f *form) called(edge string) string {
	if first, count := f.find(edge); count > 0 {
		return f.notes[first].name
	}
	return edge
}

// plan is where a dart of a form lies.
func (f *form) plan(o shape.Outline, d *record.DartSpec) (shape.DartPlan, error) {
	at := d.Along.V.MM()
	edge := f.called(d.Edge.V)
	if f.reversed {
		length, _ := o.LengthOf(edge)
		at = length - at
	}
	length := d.Length.V.MM()
	if d.Point.Given() {
		length = 1 // the point is set below
	}
	plan, err := shape.Dart{Edge: edge, At: at, Width: d.Width.V.MM(), Length: length}.Plan(o)
	if err == nil && d.Point.Given() {
		plan = plan.WithPoint(o, point(d.Point.V))
	}
	return plan, err
}

// reshape turns a dart to another edge, or folds it out.
func (w *alterer) reshape(p *Piece, f *form, a Alteration, i int) bool {
	d, c := f.darts[i], a.Change
	from, to := f.called(d.Edge.V), ""
	if c.Rotate != nil {
		to = f.called(c.Rotate.To.V)
	}
	plan, err := f.plan(f.outline, &d)
	old := f.outline
	var r shape.Reshaped
	hint := say.Of("garment.move-it-as-rotate-or-leave-it")
	if err == nil && c.Rotate != nil {
		if !w.turnsOnto(p, f, a, old) {
			return false
		}
		hint = say.Of("garment.turn-it-to-another-edge-or-farther")
		r, err = old.DartTurned(plan, from, to, f.inner(old, to, c.Rotate.Along.V.MM()))
	} else if err == nil {
		r, err = old.DartFolded(plan)
	}
	if err == nil {
		err = r.Outline.Check()
	}
	if err != nil {
		w.faults.Wrong(c.At, hint, say.Of("garment.the-dart-on-cannot-be", p.Name, d.Edge.V, map[bool]string{true: say.Of("garment.folded-out-2"), false: "turned"}[c.Close.V], oneLine(err)))
		return false
	}
	f.outline = r.Outline
	notes := make([]edgeNote, len(r.From))
	for k, was := range r.From {
		if was < 0 {
			was, _ = f.find(to)
		}
		notes[k] = f.notes[was]
	}
	f.notes = notes
	f.ring, f.skirt, f.godet = nil, nil, nil
	for k := range f.notes {
		if name := f.notes[k].name; name == from || name == to {
			f.mark(k, a)
		}
	}
	f.darts = slices.Delete(f.darts, i, i+1)
	mouths := f.mouths(old)
	f.shift(from, d.Along.V.MM(), -plan.Intake)
	if c.Rotate == nil {
		f.gone = append(slices.Clip(f.gone), a)
		f.swing(&r, mouths)
		w.tellStep(p, a, &d, r.Step)
		return true
	}
	f.shift(to, c.Rotate.Along.V.MM(), r.Opened.Width)
	f.swing(&r, mouths)
	opened := record.DartSpec{At: c.At, Name: d.Name, Edge: c.Rotate.To}
	opened.Along = record.Length{V: measure.MM(f.inner(r.Outline, to, r.Opened.At)), At: c.Rotate.Along.At}
	opened.Width = record.Length{V: measure.MM(r.Opened.Width), At: c.Rotate.At}
	opened.Length = record.Length{V: measure.MM(r.Opened.Length), At: c.Rotate.At}
	f.darts = append(f.darts, opened)
	return true
}

// turnsOnto faults a dart that is turned to an edge that is not there, or to a
// place beyond its end.
func (w *alterer) turnsOnto(p *Piece, f *form, a Alteration, o shape.Outline) bool {
	to, at := a.Change.Rotate.To, a.Change.Rotate.Along
	length, ok := o.LengthOf(f.called(to.V))
	switch {
	case !ok:
		var names []string
		for _, n := range f.notes {
			names = append(names, n.name)
		}
		w.faults.Wrong(to.At, meant.Among(to.V, names, say.Of("garment.its-edges")), say.Of("garment.there-is-no-edge-on-the-piece", say.Quoted(to.V), say.Quoted(p.Name))).Instead(to.V, meant.Nearest(to.V, names))
	case at.V.MM() > length+1e-6:
		w.faults.Wrong(at.At, say.Of("garment.measure-along-the-edge-from-where-it"), say.Of("garment.is-only-long-and-the-dart-is", a.name(), p.Name, to.V, w.tape().Tenth(length), w.tape().Tenth(at.V.MM())))
	default:
		return true
	}
	return false
}

// mouths is where the darts of a form open on its outline: half way between
// their legs.
func (f *form) mouths(o shape.Outline) []shape.Point {
	out := make([]shape.Point, len(f.darts))
	for i := range f.darts {
		edge := f.called(f.darts[i].Edge.V)
		out[i], _, _ = o.PointOn(edge, f.inner(o, edge, f.darts[i].Along.V.MM()))
	}
	return out
}

// swing takes along the points of darts, where they were drawn, whose mouths
// lie on the part that was turned.
func (f *form) swing(r *shape.Reshaped, before []shape.Point) {
	for i, now := range f.mouths(r.Outline) {
		d := &f.darts[i]
		if !d.Point.Given() || r.Swung(before[i]).Apart(now) >= before[i].Apart(now) {
			continue
		}
		at := r.Swung(point(d.Point.V))
		d.Point.V = record.XY{X: at.X, Y: at.Y}
	}
}

// tellStep warns of a dart whose legs, as the far edge cuts them, differ.
func (w *alterer) tellStep(p *Piece, a Alteration, d *record.DartSpec, step float64) {
	if most := w.step; step > most+1e-6 {
		w.faults.LookAgain(a.Change.At, say.Of("garment.draw-the-far-edge-so-that-both"), say.Of("garment.folding-out-the-dart-on-leaves-a", p.Name, d.Edge.V, w.tape().Tenth(step)))
	}
}

// inner turns a distance along an edge as the record has it into one along the
// edge as the outline runs, and back.
func (f *form) inner(o shape.Outline, edge string, s float64) float64 {
	if !f.reversed {
		return s
	}
	length, _ := o.LengthOf(edge)
	return length - s
}

// shift moves the darts and notches of an edge that lie beyond a place where
// its length changed by so much.
func (f *form) shift(edge string, place, by float64) {
	beyond := func(name string, at record.Length) bool { return f.called(name) == edge && at.V.MM() > place+1e-6 }
	f.notches = slices.Clone(f.notches)
	for i := range f.darts {
		if d := &f.darts[i]; beyond(d.Edge.V, d.Along) {
			d.Along.V += measure.MM(by)
		}
	}
	for i := range f.notches {
		if n := &f.notches[i]; beyond(n.Edge.V, n.Along) {
			n.Along.V += measure.MM(by)
		}
	}
}
