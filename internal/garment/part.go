package garment

import (
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A span is a part of an edge: from so many millimetres along it to so many, as
// the outline runs.
type span struct {
	edge     string // by the name it has now
	from, to float64
	name     string // what the part is called
	at       fault.Pos
	beside   bool // only rows of stitching name it: it stays a part of the edge named whole
}

// A divided edge is one of which parts are named.
type divided struct {
	all  []string // the edges it has become, in their order
	rest []string // of these, those that no part has taken
}

// splitParts makes edges of their own of the parts of edges that seams and finishes
// name. An edge named whole gives way to them: what is left of it keeps its name.
// All else, lengths and allowances, walking and sewing, then knows edges alone.
func (w *derivation) splitParts(list []*Piece) {
	parts := map[*Piece][]span{}
	see := func(ref record.EdgeRef, beside bool) {
		p := w.named[ref.Piece]
		if p == nil || ref.Part.Whole() || !slices.Contains(list, p) || p.form.why != "" || p.form.slit {
			return
		}
		if s, ok := w.spanOf(p, ref); ok {
			s.beside = beside
			parts[p] = append(parts[p], s)
		}
	}
	for i := range w.b.Seams {
		for _, side := range w.b.Seams[i].Join {
			for _, ref := range side {
				see(ref, false)
			}
		}
	}
	for i := range w.b.Finishes {
		t := w.t.types[w.b.Finishes[i].Type.V]
		for _, ref := range w.b.Finishes[i].Of {
			see(ref, t != nil && t.RowsOnly)
		}
	}
	for _, p := range list {
		if spans := parts[p]; len(spans) > 0 {
			w.split(p, spans)
		}
	}
}

// spanOf is where on its edge a part lies.
func (w *index) spanOf(p *Piece, ref record.EdgeRef) (span, bool) {
	f := &p.form
	first, count := f.find(ref.Edge)
	if count == 0 {
		return span{}, false // told by the reader
	}
	s := span{edge: f.notes[first].name, name: ref.Edge + " " + ref.Part.String(), at: ref.At}
	length, _ := f.outline.LengthOf(s.edge)
	if f.outline.Edges[first].Fold && p.Record.Like.V == "" {
		w.faults.Wrong(ref.At, say.Of("garment.a-fold-is-not-sewn"), say.Of("garment.lies-on-a-fold", p.Name+"."+ref.Edge))
		return s, false
	}
	from, ok := w.spotTold(p, ref, ref.Part.From)
	if !ok {
		return s, false
	}
	to := from + ref.Part.For.MM()
	switch {
	case ref.Part.To != "":
		if to, ok = w.spotTold(p, ref, ref.Part.To); !ok {
			return s, false
		}
	case from >= length-touches:
		to = from - ref.Part.For.MM()
	}
	if to < -touches || to > length+touches {
		w.pastEnd(p.Name+"."+ref.Edge, length, ref.Part.For.MM(), ref.Part.From, ref.At)
		return s, false
	}
	s.from, s.to = f.fromStart(from, length), f.fromStart(to, length)
	if s.from > s.to {
		s.from, s.to = s.to, s.from
	}
	s.from, s.to = max(s.from, 0), min(s.to, length)
	if s.to-s.from < leastPart {
		w.faults.Wrong(ref.At, say.Of("garment.name-two-places-that-lie-apart"), say.Of("garment.is-nothing-both-lie-along", ref, w.tape().About(from)))
		return s, false
	}
	return s, true
}

// leastPart is how long a part of an edge must be, mm (own choice, no source).
const leastPart = 1

func (w *index) spotTold(p *Piece, ref record.EdgeRef, name string) (float64, bool) {
	at, ok := p.form.spot(ref.Edge, p.formerly(name))
	if !ok {
		at, ok = p.form.spot(ref.Edge, name)
	}
	if !ok && p.form.isLevel(name) {
		w.notCrossed(p.Name+"."+ref.Edge, name, ref.At)
	}
	return at, ok
}

// split cuts the outline of a piece where parts begin and end.
func (w *derivation) split(p *Piece, list []span) {
	f := &p.form
	if f.parts == nil {
		f.uneven = f.lopsided()
	}
	slices.SortStableFunc(list, func(a, b span) int {
		if a.edge != b.edge {
			if a.edge < b.edge {
				return -1
			}
			return 1
		}
		return sign(a.from - b.from)
	})
	f.parts, f.divided = map[string]string{}, map[string]*divided{}
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].edge == list[0].edge {
			n++
		}
		divide(p, w.apart(p, list[:n]))
		list = list[n:]
	}
}

func sign(d float64) int {
	switch {
	case d < 0:
		return -1
	case d > 0:
		return 1
	}
	return 0
}

// apart takes parts that are one for one, and tells of those that lie over each
// other.
func (w *derivation) apart(p *Piece, list []span) []span {
	f := &p.form
	var out []span
	for _, s := range list {
		f.parts[s.name] = s.name
		if n := len(out); n > 0 && s.from < out[n-1].to-leastPart/2.0 {
			last := out[n-1]
			if math.Abs(last.from-s.from) < leastPart/2.0 && math.Abs(last.to-s.to) < leastPart/2.0 {
				f.parts[s.name] = last.name
				out[n-1].beside = last.beside && s.beside
				continue
			}
			w.faults.Wrong(s.at, say.Of("garment.let-one-begin-where-the-other-ends"), say.Of("garment.and-lie-over-each-other-for", p.Name, last.name, s.name, w.tape().About(min(last.to, s.to)-s.from)))
			delete(f.parts, s.name)
			continue
		}
		out = append(out, s)
	}
	return out
}

// divide cuts one edge of a piece into the parts that are named and what is left.
func divide(p *Piece, list []span) {
	f := &p.form
	first, count := f.find(list[0].edge)
	n := len(f.notes)
	whole := f.notes[first]
	length, _ := f.outline.LengthOf(whole.name)
	all := withRest(list, whole.name, length)
	outline := f.outline
	outline.Edges = slices.Clone(outline.Edges)
	var notes []edgeNote
	before := make([]float64, n) // how much of the divided edge lies before each of its own
	for k := 1; k < count; k++ {
		i := (first + k - 1) % n
		before[(first+k)%n] = before[i] + f.outline.EdgeLength(i)
	}
	for i := range n {
		if (i-first+n)%n >= count {
			notes = append(notes, f.notes[i])
			continue
		}
		notes = append(notes, cutEdge(&outline, len(notes), f.notes[i], before[i], f.outline.EdgeLength(i), all)...)
	}
	d := &divided{}
	for _, s := range all {
		d.all = append(d.all, s.name)
		if s.at == (fault.Pos{}) || s.beside {
			d.rest = append(d.rest, s.name)
		}
	}
	f.moveMarks(whole.name, length, all)
	f.outline, f.notes = outline, notes
	f.divided[whole.name] = d
	if whole.before != "" {
		f.divided[whole.before] = d
	}
}

// withRest puts between parts of an edge what is left of it.
func withRest(list []span, whole string, length float64) []span {
	var out []span
	at, rests := 0.0, 0
	rest := func(to float64) {
		if to-at < leastPart {
			return
		}
		name := whole
		if rests++; rests > 1 {
			name = say.Of("garment.further-on", whole)
			for k := rests; k > 2; k-- {
				name += say.Of("garment.and-on")
			}
		}
		out = append(out, span{edge: whole, from: at, to: to, name: name})
	}
	for _, s := range list {
		rest(s.from)
		if len(out) > 0 && s.from-at < leastPart {
			s.from = at
		}
		out = append(out, s)
		at = s.to
	}
	rest(length)
	if last := &out[len(out)-1]; last.to > length-leastPart {
		last.to = length
	}
	if out[0].from < leastPart {
		out[0].from = 0
	}
	return out
}

// cutEdge cuts the edge i of an outline, which is a stretch of a divided edge, where
// spans of that begin, and answers the notes of what it has become.
func cutEdge(o *shape.Outline, i int, note edgeNote, before, length float64, all []span) []edgeNote {
	var cuts []float64
	for _, s := range all[1:] {
		if at := s.from - before; at > touches && at < length-touches {
			cuts = append(cuts, at)
		}
	}
	for k := len(cuts) - 1; k >= 0; k-- {
		*o = o.Split(i, cuts[k], "", "")
	}
	out := make([]edgeNote, len(cuts)+1)
	for k := range out {
		from, to := 0.0, length
		if k > 0 {
			from = cuts[k-1]
		}
		if k < len(cuts) {
			to = cuts[k]
		}
		out[k] = note
		s := spanAt(all, before+(from+to)/2)
		if s.name != note.name {
			out[k].name, out[k].before = s.name, ""
		}
		if s.at != (fault.Pos{}) {
			out[k].part = s.at
		}
		out[k].whole = note.name
		if k < len(cuts) {
			out[k].to = note.at // no corner is written there
		}
		o.Edges[i+k].Name = s.name
	}
	return out
}

func spanAt(all []span, at float64) span {
	for _, s := range all {
		if at <= s.to {
			return s
		}
	}
	return all[len(all)-1]
}

// moveMarks lets darts, notches, pleats and the corners of levels lie on what a
// divided edge has become.
func (f *form) moveMarks(whole string, length float64, all []span) {
	place := func(along record.Length) (string, record.Length) {
		at := f.fromStart(along.V.MM(), length)
		s := spanAt(all, at)
		along.V = measure.MM(f.fromStart(at-s.from, s.to-s.from))
		return s.name, along
	}
	f.darts, f.notches, f.folds = slices.Clone(f.darts), slices.Clone(f.notches), slices.Clone(f.folds)
	for i := range f.darts {
		if d := &f.darts[i]; f.called(d.Edge.V) == whole && d.Along.Given() {
			d.Edge.V, d.Along = place(d.Along)
		}
	}
	for i := range f.notches {
		if n := &f.notches[i]; f.called(n.Edge.V) == whole && n.Along.Given() {
			n.Edge.V, n.Along = place(n.Along)
		}
	}
	for i := range f.folds {
		q := &f.folds[i]
		onPart(all, whole, &q.Edge, &q.Lines.Mouth)
		onPart(all, whole, &q.Lines.Far, &q.Lines.FarMouth)
	}
	corners := map[string][]string{}
	for level, list := range f.corners {
		list = slices.Clone(list)
		for i, name := range list {
			if f.called(name) == whole {
				list[i] = all[0].name
			}
		}
		corners[level] = list
	}
	f.corners = corners
}

// onPart lets what lies between two places along an edge lie on the part of it that
// its middle is on.
func onPart(all []span, whole string, edge *string, at *[2]float64) {
	if *edge != whole {
		return
	}
	s := spanAt(all, (at[0]+at[1])/2)
	*edge, at[0], at[1] = s.name, max(at[0]-s.from, 0), min(at[1], s.to)-s.from
}

// usesOf finds the edges that a record names: of an edge named whole what its parts
// have left. What is not there the reader has faulted.
func (w *derivation) usesOf(ref record.EdgeRef) ([]EdgeUse, bool) {
	p := w.named[ref.Piece]
	if p == nil {
		return nil, false
	}
	if l := p.lineCalled(ref.Edge); l != nil {
		return []EdgeUse{{p, l.Edge, ref.Hand}}, true
	}
	names := []string{ref.Edge}
	if d := p.form.divided[ref.Edge]; d != nil && ref.Part.Whole() {
		if names = d.rest; len(names) == 0 {
			w.faults.Wrong(ref.At, say.Of("garment.leave-it-out-here-or-name-a"), say.Of("garment.all-of-is-sewn-elsewhere-part-by", p.Name, ref.Edge))
		}
	} else if !ref.Part.Whole() {
		names = []string{p.form.parts[partName(ref.Edge, ref.Part)]}
	}
	var out []EdgeUse
	for _, name := range names {
		if e := p.edgeCalled(name); e != nil && name != "" {
			out = append(out, EdgeUse{p, e, ref.Hand})
		}
	}
	return out, len(out) > 0
}

func partName(edge string, part phrase.Stretch) string { return edge + " " + part.String() }

// EdgesOf are the edges that one named whole has become, in their order: itself
// where no part of it is named.
func (g *Garment) EdgesOf(ref record.EdgeRef) []EdgeUse {
	for _, p := range g.Pieces {
		if p.Name != ref.Piece {
			continue
		}
		names := []string{ref.Edge}
		if d := p.form.divided[ref.Edge]; d != nil {
			names = d.all
		}
		var out []EdgeUse
		for _, name := range names {
			if e := p.edgeCalled(name); e != nil {
				out = append(out, EdgeUse{p, e, ref.Hand})
			}
		}
		return out
	}
	return nil
}
