package garment

import (
	"math"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A walked edge is an edge as it is walked along in a seam.
type walked struct {
	edge    *PieceEdge
	against bool    // walked from its end to its start
	begins  float64 // how far along the seam it begins, sewn
}

// A mark is a place on a side of a seam: a notch, or where one edge of a run
// ends and the next begins.
type mark struct {
	name string
	at   float64 // sewn length from where the walk begins, mm
	edge *PieceEdge
	spec *record.NotchSpec // nil for an end of an edge
}

// walk compares the two sides of a seam notch by notch.
func (w *work) walk(s *Seam, id string) {
	sides, ok := w.walkedSides(s)
	if !ok {
		return
	}
	var marks [2][]mark
	var total [2]float64
	for i := range sides {
		marks[i], total[i] = w.marksOf(sides[i])
	}
	pairs := w.pair(s, &marks)
	if len(pairs) == 0 {
		w.stretchesUnknown(s, nil)
		return
	}
	pairs = append(append([][2]mark{{{name: "start"}, {name: "start"}}}, pairs...), [2]mark{{name: "end", at: total[0]}, {name: "end", at: total[1]}})
	w.stretchesUnknown(s, pairs)
	meant := s.eased()
	for k := 1; k < len(pairs); k++ {
		w.stretch(s, id, k, pairs, meant)
		if k < len(pairs)-1 {
			w.notch(s, id, k, pairs[k], meant)
		}
	}
}

// eased reports whether the sides are meant to differ as a whole, so that
// notches need not lie equally far along.
func (s *Seam) eased() bool {
	return s.Record.Ease.Given() || s.Record.Gather.Given() || s.closure().Given() || len(s.Record.Stretches) > 0
}

// walkedSides lays the edges of both sides end to end as they are sewn; false
// where the record does not tell how often each lies in the run.
func (w *work) walkedSides(s *Seam) (sides [2][]walked, ok bool) {
	times := 0
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if !u.Edge.Sewn.Value.Known() || u.Edge.Times == 0 {
				return sides, false
			}
			if times == 0 {
				times = u.Edge.Times
			}
			if u.Edge.Times != times {
				return sides, false
			}
		}
	}
	first := s.Sides[0].Edges[0].Edge
	sides[0] = inRun(s.Sides[0].Edges, false)
	other := s.Sides[1].Edges[0].Edge
	sides[1] = inRun(s.Sides[1].Edges, sides[0][0].against == s.runAlike(first, other))
	return sides, true
}

// inRun says which way each edge of a run is walked: so that it begins where
// the one before it ended. otherwise is the way of the first where nothing at
// its ends tells.
func inRun(list []EdgeUse, otherwise bool) []walked {
	out := make([]walked, len(list))
	at := 0.0
	for i, u := range list {
		out[i] = walked{edge: u.Edge, against: otherwise, begins: at}
		if len(list) > 1 && i == 0 {
			if way, ok := joinsNext(u.Edge, list[1].Edge); ok {
				out[i].against = way
			}
		}
		if i > 0 {
			out[i].against = beginsAt(out[i-1], u.Edge)
		}
		at += u.Edge.sewn
	}
	return out
}

// joinsNext reports whether an edge must be walked against its own way for its
// last corner to lie at the next edge of the run.
func joinsNext(e, next *PieceEdge) (against, ok bool) {
	if e.piece != next.piece || e == next {
		return false, false
	}
	switch {
	case e.beside(1) == next && e.beside(-1) != next:
		return false, true
	case e.beside(-1) == next && e.beside(1) != next:
		return true, true
	}
	return false, false
}

// beginsAt reports whether the next edge of a run is walked against its own way
// to begin where the one before it ended: at the corner of the same piece, or
// at that whose neighbours are sewn together.
func beginsAt(last walked, next *PieceEdge) bool {
	if last.edge.piece == next.piece && last.edge != next {
		return next.beside(-1) != last.edge && next.beside(1) == last.edge
	}
	corner := last.edge.beside(1)
	if last.against {
		corner = last.edge.beside(-1)
	}
	start, end := likeness(corner, next.beside(-1)), likeness(corner, next.beside(1))
	return end > start
}

// beside is the edge after (1) or before (−1) on the piece.
func (e *PieceEdge) beside(step int) *PieceEdge {
	n := len(e.piece.Edges)
	return &e.piece.Edges[(e.place()+n+step)%n]
}

// runAlike reports whether two edges that are joined run the same way as they
// are drawn.
func (s *Seam) runAlike(a, b *PieceEdge) bool {
	switch {
	case s.Record.Walk.Given():
		return s.Record.Walk.V == "alike"
	case a == b:
		return true
	}
	same := likeness(a.beside(-1), b.beside(-1)) + likeness(a.beside(1), b.beside(1))
	cross := likeness(a.beside(-1), b.beside(1)) + likeness(a.beside(1), b.beside(-1))
	if same != cross {
		return same > cross
	}
	up := func(e *PieceEdge) float64 {
		o := e.piece.Outline
		return o.Start(e.beside(1).Index).Y - o.Start(e.Index).Y
	}
	if u, v := up(a), up(b); math.Abs(u) > 1e-3 && math.Abs(v) > 1e-3 {
		return (u > 0) == (v > 0)
	}
	return false // two pieces beside each other run round the other way
}

// likeness is how much speaks for two edges meeting at one end of a seam.
func likeness(a, b *PieceEdge) int {
	n := 0
	switch {
	case a == b, a.seam != nil && a.seam == b.seam, a.finish != nil && a.finish == b.finish, a.Level != "" && a.Level == b.Level:
		n += 3
	}
	if a.Name == b.Name {
		n += 2
	}
	if a.Fold && b.Fold {
		n++
	}
	return n
}

// marksOf lists the marks of a side in the order of the walk.
func (w *work) marksOf(list []walked) (out []mark, total float64) {
	for i := range list {
		e := &list[i]
		f := &e.edge.piece.form
		if i > 0 {
			out = append(out, mark{name: "where " + list[i-1].edge.ref + " and " + e.edge.ref + " meet", at: e.begins, edge: e.edge})
		}
		from := len(out)
		for k := range f.notches {
			n := &f.notches[k]
			if !f.is(e.edge, n.Edge.V) || !n.Along.Given() {
				continue
			}
			at, ok := w.sewnAlong(e.edge, f.inner(e.edge.piece.Outline, e.edge.Name, n.Along.V.MM()))
			if !ok {
				continue
			}
			if e.against {
				at = e.edge.sewn - at
			}
			m := mark{name: n.Name.V, at: e.begins + at, edge: e.edge, spec: n}
			place := len(out)
			for place > from && out[place-1].at > m.at {
				place--
			}
			out = append(out[:place], append([]mark{m}, out[place:]...)...)
		}
		total += e.edge.sewn
	}
	return out, total
}

// sewnAlong is how far along an edge a place lies once darts and pleats are
// sewn: darts before it are taken off, pleats in proportion.
func (w *work) sewnAlong(e *PieceEdge, at float64) (float64, bool) {
	length := e.Length.Value.Number
	if at < -1e-6 || at > length+1e-6 {
		return 0, false
	}
	f := &e.piece.form
	darts, before := 0.0, 0.0
	for i := range f.darts {
		d := &f.darts[i]
		if !f.is(e, d.Edge.V) {
			continue
		}
		darts += d.Width.V.MM()
		mid := f.inner(e.piece.Outline, e.Name, d.Along.V.MM())
		before += min(max(at-(mid-d.Width.V.MM()/2), 0), d.Width.V.MM())
	}
	if flat := length - darts; flat > 1e-6 {
		return (at - before) * e.sewn / flat, true
	}
	return 0, false
}

// checkNotches faults notches that lie beyond their edge.
func (w *work) checkNotches() {
	for _, p := range w.g.Pieces {
		for i := range p.Record.Notches {
			n := &p.Record.Notches[i]
			e := p.edgeCalled(n.Edge.V)
			if e != nil && n.Along.Given() && n.Along.V.MM() > e.Length.Value.Number+1e-6 {
				w.faults.Errorf(n.Along.At, "move it along the edge", "the notch on %s lies %s along, and the edge is %s long", e.ref, text1(n.Along.V.MM()), text1(e.Length.Value.Number))
			}
		}
	}
}

// pair finds which marks of the two sides meet: those of one name, else those
// without a name in their order, else the ends of edges where both sides have
// as many.
func (w *work) pair(s *Seam, marks *[2][]mark) [][2]mark {
	var out [][2]mark
	var plain [2][]mark
	for i := range marks {
		for _, m := range marks[i] {
			if m.spec == nil || m.name == "" {
				plain[i] = append(plain[i], m)
				continue
			}
			if i == 0 {
				if other, ok := named(marks[1], m.name); ok {
					out = append(out, [2]mark{m, other})
				}
			}
		}
	}
	out = append(out, w.plainPairs(s, plain)...)
	for k := 1; k < len(out); k++ { // in the order of the first side
		for j := k; j > 0 && out[j][0].at < out[j-1][0].at; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

func named(list []mark, name string) (mark, bool) {
	for _, m := range list {
		if m.spec != nil && m.name == name {
			return m, true
		}
	}
	return mark{}, false
}

func (w *work) plainPairs(s *Seam, plain [2][]mark) [][2]mark {
	var out [][2]mark
	for _, notches := range [...]bool{true, false} {
		var of [2][]mark
		for i := range plain {
			for _, m := range plain[i] {
				if (m.spec != nil) == notches {
					of[i] = append(of[i], m)
				}
			}
		}
		if len(of[0]) != len(of[1]) {
			if notches && len(of[0]) > 0 && len(of[1]) > 0 {
				w.faults.Warnf(s.Record.At, "mark the missing ones, or give those that meet a name:", "the sides of %q have %d and %d notches without a name", s.Name, len(of[0]), len(of[1]))
			}
			continue
		}
		for k := range of[0] {
			out = append(out, [2]mark{of[0][k], of[1][k]})
		}
	}
	return out
}

func (m mark) title(k int) string {
	switch {
	case m.name == "":
		return "notch " + strconv.Itoa(k)
	case m.spec != nil:
		return "notch " + m.name
	}
	return m.name
}

// notch checks that two notches that meet lie equally far along.
func (w *work) notch(s *Seam, id string, k int, p [2]mark, meant bool) {
	off := p[0].at - p[1].at
	for i := range p {
		w.note(Input{Name: p[i].edge.ref, Value: w.mm(p[i].at).end(), At: w.markAt(s, p[i])})
	}
	if !meant {
		w.lim.notches.input(&w.ink, "limit", measure.UnitMM)
	}
	w.n(p[0].at).less(p[1].at).s(" = ").mm(off)
	c := Check{Kind: "notches", What: w.join(s.Name, ": ", p[0].title(k)), Judged: !meant, At: w.markAt(s, p[1])}
	c.Off = w.figure(w.join("true.", id, ".notch-", strconv.Itoa(k)), "notches apart", c.What, inMM(off),
		"sewn length along the first side − along the second, from where the walk begins", w.lim.notches.source)
	c.Good = math.Abs(off) <= w.lim.notches.v+1e-6
	c.Limit = atMost(w.lim.notches, " mm")
	if p[1].spec != nil {
		by := off
		if w.runsAgainst(s, 1, p[1].edge) {
			by = -by
		}
		if p[1].edge.piece.form.reversed {
			by = -by
		}
		c.Mend = "move that of " + p[1].edge.ref + " to at: " + string(appendNumber(nil, p[1].spec.Along.V.MM()+by, 1))
	} else {
		c.Mend = "lengthen " + p[1].edge.ref + " or its neighbour by " + text1(math.Abs(off))
	}
	w.check(c)
}

func (w *work) runsAgainst(s *Seam, side int, e *PieceEdge) bool {
	sides, _ := w.walkedSides(s)
	for _, each := range sides[side] {
		if each.edge == e {
			return each.against
		}
	}
	return false
}

func (w *work) markAt(s *Seam, m mark) record.Pos {
	if m.spec != nil {
		return m.spec.At
	}
	return s.Record.At
}

// meantIn is what a stretch of a seam is meant to differ by, as the record says.
func (s *Seam) meantIn(from, to string) *record.StretchSpec {
	for i := range s.Record.Stretches {
		st := &s.Record.Stretches[i]
		if st.From.Or("start") == from && st.To.Or("end") == to {
			return st
		}
	}
	return nil
}

// stretchesUnknown faults stretches whose notches are not there.
func (w *work) stretchesUnknown(s *Seam, pairs [][2]mark) {
	for i := range s.Record.Stretches {
		st := &s.Record.Stretches[i]
		found := false
		for k := 1; k < len(pairs); k++ {
			found = found || st.From.Or("start") == pairs[k-1][0].name && st.To.Or("end") == pairs[k][0].name
		}
		if !found && st.At.Given() {
			w.faults.Errorf(st.At, "name two notches that follow each other on both sides, or start or end", "%q has no stretch from %q to %q", s.Name, st.From.Or("start"), st.To.Or("end"))
		}
	}
}

// stretch checks how the sides differ between two pairs of notches.
func (w *work) stretch(s *Seam, id string, k int, pairs [][2]mark, meant bool) {
	from, to := pairs[k-1], pairs[k]
	a, b := to[0].at-from[0].at, to[1].at-from[1].at
	d := a - b
	w.figureIn("first side", &s.Sides[0].Length).figureIn("second side", &s.Sides[1].Length)
	spec := s.meantIn(from[0].name, to[0].name)
	limit := w.lim.notches
	judged := !meant || len(s.Record.Stretches) > 0
	at := s.Record.At
	if spec != nil {
		at = spec.At
		switch {
		case spec.Ease.Given():
			w.lengthIn("ease meant", spec.Ease)
		case spec.Gather.Given():
			w.note(Input{Name: "gather meant", Value: w.n(float64(spec.Gather.V)).end(), At: spec.Gather.At})
		}
	}
	if judged {
		limit.input(&w.ink, "limit", measure.UnitMM)
	}
	w.s("(").n(to[0].at).less(from[0].at).s(") − (").n(to[1].at).less(from[1].at).s(")")
	off := d
	if spec != nil {
		off = w.lessMeant(spec, a, b)
	}
	w.s(" = ").mm(off)
	c := Check{Kind: "stretch", What: w.join(s.Name, ": from ", from[0].title(k-1), " to ", to[0].title(k)), Judged: judged, At: at, taken: spec == nil && !meant}
	c.Off = w.figure(w.join("true.", id, ".stretch-", strconv.Itoa(k)), "sides differ by", c.What, inMM(off),
		"first side − second side between the notches, less what is meant to be eased or gathered in there", limit.source)
	c.Good = math.Abs(off) <= limit.v+1e-6
	c.Limit = atMost(limit, " mm")
	c.Mend = "move the notches, or write stretches: with ease: " + string(appendNumber(nil, math.Abs(d), 1)) + " for this part"
	w.check(c)
}

// lessMeant is by how much a stretch differs from what is meant, its terms
// added to the sum.
func (w *work) lessMeant(spec *record.StretchSpec, a, b float64) float64 {
	switch {
	case spec.Ease.Given():
		ease := math.Copysign(spec.Ease.V.MM(), a-b)
		w.less(ease)
		return a - b - ease
	case spec.Gather.Given():
		g := float64(spec.Gather.V)
		w.s(", longer − ").n(g).s(" × shorter")
		return max(a, b) - g*min(a, b)
	}
	return a - b
}

// corner is where an edge begins (or ends) on its outline.
func (e *PieceEdge) corner(atEnd bool) shape.Point {
	if atEnd {
		return e.piece.Outline.Start(e.beside(1).Index)
	}
	return e.piece.Outline.Start(e.Index)
}
