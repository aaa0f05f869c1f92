package garment

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// placeMarks works out how far along their edges darts and notches lie that are
// measured from elsewhere than where the edge begins, as the piece is drawn.
func (w *derivation) placeMarks(p *Piece) {
	f := &p.form
	w.layLines(p, false)
	unplaced := func(at record.Where, along record.Length) bool { return follows(at) && !along.Given() }
	if f.why != "" || !slices.ContainsFunc(f.notches, func(n record.NotchSpec) bool { return unplaced(n.Place, n.Along) }) &&
		!slices.ContainsFunc(f.darts, func(d record.DartSpec) bool { return unplaced(d.Place, d.Along) }) {
		return
	}
	f.darts, f.notches = slices.Clone(f.darts), slices.Clone(f.notches)
	for i := range f.notches {
		if n := &f.notches[i]; unplaced(n.Place, n.Along) {
			n.Along = w.alongOf(p, n.Edge.V, n.Place, len(p.Record.Notches) > 0)
		}
	}
	for i := range f.darts {
		if d := &f.darts[i]; unplaced(d.Place, d.Along) {
			d.Along = w.alongOf(p, d.Edge.V, d.Place, len(p.Record.Darts) > 0)
		}
	}
}

// follows reports whether a place is measured from elsewhere than the edge's start.
func follows(at record.Where) bool { return at.Given() && !at.V.Plain() }

// alongOf is how far along an edge, from where it begins as the record has it, a
// place lies; not given where it lies nowhere on it, which is told where it is asked for.
func (w *index) alongOf(p *Piece, edge string, at record.Where, told bool) record.Length {
	return w.alongIn(p, &p.form, edge, at, told)
}

// alongIn is alongOf on a form of the piece.
func (w *index) alongIn(p *Piece, f *form, edge string, at record.Where, told bool) record.Length {
	edge = p.formerly(edge)
	length, ok := f.lengthAlong(edge)
	if !ok {
		return record.Length{}
	}
	given := func(mm float64) record.Length { return record.Length{V: measure.MM(mm), At: at.At} }
	if at.V.Middle {
		if mm, named := f.spot(edge, "middle"); named {
			return given(mm)
		}
		return given(length / 2)
	}
	from, ok := f.spot(edge, p.formerly(at.V.From))
	if !ok {
		if told && f.isLevel(at.V.From) {
			w.notCrossed(p.Name+"."+f.called(edge), at.V.From, at.At)
		}
		return record.Length{}
	}
	by := at.V.By.MM()
	if from >= length-meets {
		from, by = length, -by
	}
	if mm := from + by; mm >= -touches && mm <= length+touches {
		return given(min(max(mm, 0), length))
	}
	if told {
		w.pastEnd(p.Name+"."+f.called(edge), length, at.V.By.MM(), at.V.From, at.At)
	}
	return record.Length{}
}

// formerly is the name that an edge of a piece had before it got a better one.
func (p *Piece) formerly(edge string) string {
	for i := range p.Record.Edges {
		if e := &p.Record.Edges[i]; e.V.Name.Given() && e.V.Name.V == edge {
			return e.Name.V
		}
	}
	return edge
}

func (w *index) notCrossed(edge, level string, at fault.Pos) {
	w.faults.Wrong(at, say.Of("garment.measure-from-an-edge-it-meets-or"), say.Of("garment.the-level-does-not-cross", level, edge))
}

// keepFromEnd lets marks that are measured from the end of an edge stay so far from
// it, and those at its middle half way, where a change made the edge longer; before
// is the outline as it was.
func (f *form) keepFromEnd(before shape.Outline) {
	by := func(edge string, at record.Where) measure.Length {
		name := f.called(edge)
		was, ok := before.LengthOf(name)
		is, still := f.outline.LengthOf(name)
		if !ok || !still || !follows(at) {
			return 0
		}
		if at.V.Middle {
			return measure.MM((is - was) / 2)
		}
		if from, ok := f.spot(edge, at.V.From); ok && from >= is-touches {
			return measure.MM(is - was)
		}
		return 0
	}
	f.darts, f.notches = slices.Clone(f.darts), slices.Clone(f.notches)
	for i := range f.darts {
		f.darts[i].Along.V += by(f.darts[i].Edge.V, f.darts[i].Place)
	}
	for i := range f.notches {
		f.notches[i].Along.V += by(f.notches[i].Edge.V, f.notches[i].Place)
	}
}

// touches is how near places on an edge must be to be one, mm.
const touches = 1e-6

// meets is how near its end a line must meet an edge to end there, mm: where it meets a
// curve is found by halving and is less exact than what is measured along one edge.
const meets = 1e-3

func (w *index) pastEnd(edge string, length, by float64, from string, at fault.Pos) {
	w.faults.Wrong(at, say.Of("garment.measure-less-or-from-the-other-end"), say.Of("garment.from-is-past-the-end-is-long", w.tape().Exact(by), from, edge, w.tape().About(length)))
}

// spot is how far along an edge, from where it begins as the record has it, a name
// lies: the edge that it meets there, a notch on it, or a level that crosses it.
func (f *form) spot(edge, name string) (float64, bool) {
	if l := f.laidLine(edge); l != nil {
		return f.spotOnLine(l, name)
	}
	first, count := f.find(f.called(edge))
	length, ok := f.outline.LengthOf(f.called(edge))
	n := len(f.notes)
	if !ok || count == 0 {
		return 0, false
	}
	is := func(i int) bool { return f.notes[i].name == name || f.notes[i].before == name }
	switch {
	case is((first + n - 1) % n):
		return f.fromStart(0, length), true
	case is((first + count) % n):
		return f.fromStart(length, length), true
	}
	for i := range f.notches {
		if m := &f.notches[i]; m.Name.V == name && f.called(m.Edge.V) == f.called(edge) && m.Along.Given() {
			return m.Along.V.MM(), true
		}
	}
	if at, ok := f.crossedBy(f.called(edge), name); ok {
		return f.fromStart(at, length), true
	}
	if !f.isLevel(name) {
		return 0, false
	}
	y, _ := f.levels.Get(name)
	before := 0.0
	for k := range count {
		i := (first + k) % n
		for _, at := range f.outline.LevelPoints(y.V.MM()) {
			if at.Edge == i {
				return f.fromStart(before+at.Along, length), true
			}
		}
		before += f.outline.EdgeLength(i)
	}
	return 0, false
}

// fromStart turns a distance along an edge as the outline runs into one from where
// the record begins it.
func (f *form) fromStart(at, length float64) float64 {
	if f.reversed {
		return length - at
	}
	return at
}

func (f *form) isLevel(name string) bool {
	y, ok := f.levels.Get(name)
	return ok && y.Given()
}
