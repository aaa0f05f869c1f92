package garment

import (
	"errors"
	"slices"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// slash cuts a piece through and opens it, or laps it, as a change says; false where it
// cannot be done, which is told.
func (w *alterer) slash(p *Piece, f *form, a Alteration) bool {
	c := a.Change
	if !c.Spread.Given() || f.outline.Check() != nil {
		return false
	}
	if f.slit {
		w.faults.Wrong(c.At, say.Of("garment.cut-it-in-two-panels"), say.Of("garment.is-a-whole-circle-in-one-piece-2", p.Name))
		return false
	}
	cut, ok := w.slashOf(p, f, a)
	if !ok || w.slashMeets(p, f, a, cut) {
		return false
	}
	s, err := f.outline.Slashed(cut)
	if err == nil {
		err = s.Outline.Check()
	}
	if err != nil {
		hint := say.Of("garment.open-it-by-less-or-draw-the")
		switch {
		case errors.Is(err, shape.ErrFoldBent):
			hint = say.Of("garment.open-both-ends-alike-square-to-the")
		case errors.Is(err, shape.ErrSlashLeaves):
			hint = say.Of("garment.let-it-run-through-the-piece-from")
		case c.Spread.V[0] < 0 || c.Spread.V[1] < 0:
			hint = say.Of("garment.let-it-lap-by-less-or-draw")
		}
		w.faults.Wrong(c.At, hint, say.Of("garment.cannot-be-slashed", p.Name, oneLine(err)))
		return false
	}
	f.slashed(&s, cut)
	f.ring, f.skirt, f.godet = nil, nil, nil
	f.altered = append(slices.Clip(f.altered), a)
	for k := range f.notes {
		if on := f.notes[k].name; on == cut.On[0] || on == cut.On[1] {
			f.mark(k, a)
		}
	}
	return true
}

// slashOf finds where a slash lies on the outline.
func (w *alterer) slashOf(p *Piece, f *form, a Alteration) (cut shape.Slash, ok bool) {
	c := a.Change
	if a.edge != "" {
		cut.Moves = f.called(a.edge)
	}
	for k, end := range c.Slash.V {
		cut.Open[k] = c.Spread.V[k].MM()
		cut.On[k] = f.called(end.Edge)
		length, there := f.outline.LengthOf(cut.On[k])
		at := record.Length{V: end.Where.By, At: c.Slash.At}
		if !end.Where.Plain() {
			at = w.alongIn(p, f, end.Edge, record.Where{V: end.Where, At: c.Slash.At}, true)
		} else if at.V.MM() > length+touches {
			w.faults.Wrong(at.At, say.Of("garment.measure-less"), say.Of("garment.is-past-the-end-is-long", w.tape().Exact(at.V.MM()), p.Name, cut.On[k], w.tape().About(length)))
			return cut, false
		}
		if !there || !at.Given() {
			return cut, false // told where it stands
		}
		point, _, _ := f.outline.PointOn(cut.On[k], f.inner(f.outline, cut.On[k], at.V.MM()))
		if k == 0 {
			cut.From = point
		} else {
			cut.To = point
		}
	}
	return cut, true
}

// slashMeets tells of a slash that goes through a dart.
func (w *alterer) slashMeets(p *Piece, f *form, a Alteration, cut shape.Slash) bool {
	for i := range f.darts {
		plan, err := f.plan(f.outline, &f.darts[i])
		if err != nil {
			continue
		}
		if _, meets := (shape.Line{cut.From, cut.To}).Crosses(shape.Line{plan.Begin, plan.Point, plan.End, plan.Begin}); meets {
			name := f.darts[i].Name.Or(f.darts[i].Edge.V)
			if !strings.Contains(name, "dart") {
				name += say.Of("garment.dart-2")
			}
			w.faults.Wrong(a.Change.Slash.At, say.Of("garment.rotate-that-dart-or-close-it-first"), say.Of("garment.the-slash-of-meets-its", p.Name, name))
			return true
		}
	}
	return false
}

// slashed takes over an outline that was slashed, and lets all marks follow.
func (f *form) slashed(s *shape.Slashed, cut shape.Slash) {
	was := f.outline
	moved := func(edge string, at *record.Length) bool {
		name := f.called(edge)
		if !at.Given() {
			return false
		}
		along, gone := s.Along(name, f.inner(was, name, at.V.MM()))
		at.V = measure.MM(f.inner(s.Outline, name, along))
		return gone
	}
	f.darts, f.notches, f.lines = slices.Clone(f.darts), slices.Clone(f.notches), slices.Clone(f.lines)
	for i := range f.notches {
		moved(f.notches[i].Edge.V, &f.notches[i].Along)
	}
	for i := range f.darts {
		d := &f.darts[i]
		to := s.Stayed
		if moved(d.Edge.V, &d.Along) {
			to = s.Moved
		}
		d.Point.V = xyOf(to(point(d.Point.V)))
	}
	for i := range f.lines {
		f.lines[i] = lineSlashed(f.lines[i], s)
	}
	f.levelsSlashed(s)
	notes := make([]edgeNote, len(s.From))
	for k, of := range s.From {
		notes[k] = f.notes[of]
	}
	f.outline, f.notes = s.Outline, notes
}

func xyOf(p shape.Point) record.XY { return record.XY{X: p.X, Y: p.Y} }

// lineSlashed is a line on a piece with those of its points moved that lie on the part
// that is.
func lineSlashed(l record.LineSpec, s *shape.Slashed) record.LineSpec {
	moving := func(p shape.Point) func(shape.Point) shape.Point {
		if s.Holds(p) {
			return s.Moved
		}
		return s.Stayed
	}
	for _, end := range []*record.Val[record.Spot]{&l.From, &l.To} {
		if p := point(end.V.Point); end.Given() && end.V.Edge == "" {
			end.V.Point = xyOf(moving(p)(p))
		}
	}
	if len(l.Path) > 0 {
		to := moving(l.Path[len(l.Path)/2])
		l.Path = slices.Clone(l.Path)
		for i, p := range l.Path {
			l.Path[i] = to(p)
		}
	}
	return l
}

// levelsSlashed moves the levels that cross the moved part alone.
func (f *form) levelsSlashed(s *shape.Slashed) {
	f.levels = slices.Clone(f.levels)
	for i := range f.levels {
		l := &f.levels[i]
		at := f.outline.LevelPoints(l.V.V.MM())
		if !l.V.Given() || len(f.corners[l.Name.V]) > 0 || len(at) < 2 {
			continue
		}
		y, one, two := l.V.V.MM(), at[0].X, at[len(at)-1].X
		holds := func(part float64) bool { return s.Holds(shape.Point{X: one + float64(part*(two-one)), Y: y}) }
		if holds(0.02) && holds(0.5) && holds(0.98) {
			l.V.V += measure.MM(s.Moved(shape.Point{X: (one + two) / 2, Y: y}).Y - y)
		}
	}
}

// slashBecomes says what a slash did: "slashed from waist to hem, opened 15 mm".
func slashBecomes(c *record.Change, style measure.Style) string {
	a, b := c.Spread.V[0], c.Spread.V[1]
	out := say.Of("garment.slashed-from-to", c.Slash.V[0].Edge, c.Slash.V[1].Edge)
	if a < 0 || b < 0 {
		out, a, b = say.Of("garment.lapped", out), -a, -b
	} else {
		out += say.Of("garment.opened")
	}
	switch {
	case a == b:
		return out + style.Length(a)
	case a == 0:
		return say.Of("garment.at-4", out, style.Length(b), c.Slash.V[1].Edge)
	case b == 0:
		return say.Of("garment.at-4", out, style.Length(a), c.Slash.V[0].Edge)
	}
	return say.Of("garment.and-3", out, style.Length(a), style.Length(b))
}
