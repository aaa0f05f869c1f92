package garment

import (
	"math"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A waymark is a place on a side of a seam: a notch, or where one edge of a run
// ends and the next begins.
type waymark struct {
	name    string
	nth     int     // which of those of its name on its side; 0 for the first
	at      float64 // sewn length from where the walk begins, mm
	edge    *PieceEdge
	against bool              // its edge is walked from its end to its start
	spec    *record.NotchSpec // nil for an end of an edge
}

// A walker walks the edges of a seam along each other, from notch to notch.
type walker struct {
	*index
	lim *limits
}

// walk compares the two sides of a seam notch by notch.
func (w *walker) walk(s *Seam, id string) {
	sides, why := w.walkedSides(s)
	if s.miscounted && why != "" {
		why = toldElsewhere
	}
	if why != "" {
		w.notWalked(s, why)
		return
	}
	var marks [2][]waymark
	var total [2]float64
	for i := range sides {
		marks[i], total[i] = w.marksOf(sides[i])
	}
	pairs := w.pair(s, &marks)
	if len(pairs) == 0 {
		w.stretchesUnknown(s, nil)
		return
	}
	pairs = append(append([][2]waymark{{{name: "start"}, {name: "start"}}}, pairs...), [2]waymark{{name: "end", at: total[0]}, {name: "end", at: total[1]}})
	w.stretchesUnknown(s, pairs)
	meant := s.eased()
	far := s.farOff(pairs)
	for k := 1; k < len(pairs); k++ {
		w.stretch(s, id, k, pairs, meant, far[k-1] || far[k])
		if k < len(pairs)-1 {
			w.notch(s, id, k, pairs[k], meant && !far[k])
		}
	}
}

// eased reports whether the sides are meant to differ as a whole, so that
// notches need not lie equally far along.
func (s *Seam) eased() bool {
	return s.gathersEdge() || s.Record.Ease.Given() || s.Record.Gather.Given() || s.closure().Given() || len(s.Record.Stretches) > 0 || s.stretches()
}

// notchFar is how far beyond the ease of a seam two notches that meet must lie apart
// for the notch to be mistaken and not the ease, mm (common practice, no source).
const notchFar = 40

// farOff says which pairs lie further apart than the ease of their whole seam could
// make them, while the sides themselves meet.
func (s *Seam) farOff(pairs [][2]waymark) []bool {
	out := make([]bool, len(pairs))
	if !s.slack() || !s.Meets {
		return out
	}
	for k := 1; k < len(pairs)-1; k++ {
		p := &pairs[k]
		off := math.Abs(p[0].at - p[1].at)
		out[k] = p[0].spec != nil && p[1].spec != nil && off > math.Abs(s.Record.Ease.V.MM())+notchFar
	}
	return out
}

// marksOf lists the marks of a side in the order of the walk.
func (w *walker) marksOf(list []walked) (out []waymark, total float64) {
	for i := range list {
		e := &list[i]
		f := &e.edge.piece.form
		if i > 0 {
			out = append(out, waymark{name: joinName(list[i-1].edge, e.edge), at: e.begins, edge: e.edge, against: e.against})
		}
		from := len(out)
		for k := range f.notches {
			n := &f.notches[k]
			if !f.is(e.edge, n.Edge.V) || !n.Along.Given() {
				continue
			}
			at, ok := sewnAlong(e.edge, f.inner(e.edge.piece.Outline, e.edge.Name, n.Along.V.MM()))
			if !ok {
				continue
			}
			if e.against {
				at = e.edge.sewn - at
			}
			m := waymark{name: n.Name.V, at: e.begins + at, edge: e.edge, against: e.against, spec: n}
			place := len(out)
			for place > from && out[place-1].at > m.at {
				place--
			}
			out = append(out[:place], append([]waymark{m}, out[place:]...)...)
		}
		total += e.edge.sewn
	}
	seen := map[string]int{}
	for i := range out {
		out[i].nth = seen[out[i].name]
		seen[out[i].name]++
	}
	return out, total
}

// joinName is what is said of where one edge of a run ends and the next begins.
func joinName(a, b *PieceEdge) string {
	if a == b && a.piece.OnFold && a.meetsFold() {
		return say.Of("garment.the-fold-of", a.ref)
	}
	if a == b {
		return say.Of("garment.where-one-and-the-next-meet", a.ref)
	}
	return say.Of("garment.where-and-meet", a.ref, b.ref)
}

// sewnAlong is how far along an edge a place lies once darts and pleats are
// sewn: those before it are taken off.
func sewnAlong(e *PieceEdge, at float64) (float64, bool) {
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
	for _, part := range f.foldedAway(e.Name) {
		darts += part.at[1] - part.at[0]
		before += min(max(at-part.at[0], 0), part.at[1]-part.at[0])
	}
	if flat := length - darts; flat > 1e-6 {
		return (at - before) * e.sewn / flat, true
	}
	return 0, false
}

// checkNotches faults notches that lie beyond their edge.
func (w *walker) checkNotches() {
	for _, p := range w.g.Pieces {
		if len(p.Record.Notches) == 0 {
			continue
		}
		for i := range p.form.notches {
			n := &p.form.notches[i]
			e := p.edgeCalled(n.Edge.V)
			if e != nil && n.Along.Given() && n.Along.V.MM() > e.Length.Value.Number+1e-6 {
				w.faults.Wrong(n.Along.At, say.Of("garment.move-it-along-the-edge"), say.Of("garment.the-notch-on-lies-along-and-the", e.ref, w.tape().Tenth(n.Along.V.MM()), w.tape().Tenth(e.Length.Value.Number)))
			}
		}
	}
}

func (m waymark) title(k int) string {
	if m.name == "" {
		return say.Of("garment.notch", strconv.Itoa(k))
	}
	name := m.name
	if m.spec != nil {
		name = say.Of("garment.notch", name)
	}
	if m.nth > 0 {
		name += " (" + strconv.Itoa(m.nth+1) + ")"
	}
	return name
}

// notch checks that two notches that meet lie equally far along.
func (w *walker) notch(s *Seam, id string, k int, p [2]waymark, meant bool) {
	off := p[0].at - p[1].at
	apart := w.markTerm(p[0]).Minus(w.markTerm(p[1]))
	if !meant {
		w.Note(w.lim.notches.Term(w.Pad, "limit", mm))
	}
	for i := range s.Sides {
		w.Note(w.Of(say.Of("garment.length-of-the-edge"), &s.Sides[i].Length)) // a notch lies so far along all of it
	}
	c := Check{Kind: "notches", What: w.Join(s.Name, ": ", p[0].title(k)), Judged: !meant, At: markAt(s, p[1])}
	c.Off = w.Figure(w.Join("truing.", id, ".notch-", strconv.Itoa(k)), say.Of("garment.notches-apart"), c.What, apart, mm,
		say.Of("garment.sewn-length-along-the-first-edge-along"), w.lim.notches.Source)
	c.Good = math.Abs(off) <= w.lim.notches.V+1e-6
	c.Limit = w.lengthAtMost(w.lim.notches)
	c.Mend = say.Of("garment.lengthen-or-its-neighbour-by", p[1].edge.ref, w.tape().Tenth(math.Abs(off)))
	for i := range p { // that of the second edge, or else of the first
		m, by := &p[1], off
		if i > 0 {
			m, by = &p[0], -off
		}
		if now, ok := m.movedBy(by); ok {
			at := w.written(now)
			c.Mend = say.Of("garment.move-that-of-to-at", m.edge.ref, at)
			var f fault.Fault
			f.InsteadAt(m.spec.Along.At, "", at)
			c.write = f.Correct
			break
		}
	}
	w.g.hold(c)
}

// movedBy is where on its edge a notch lies that is moved so far along the walk; false
// where it is none, would leave its edge, or the record has the edge folded.
func (m *waymark) movedBy(mm float64) (along float64, ok bool) {
	if m.spec == nil || m.edge.piece.letIn() {
		return 0, false
	}
	if m.against {
		mm = -mm
	}
	if m.edge.piece.form.reversed {
		mm = -mm
	}
	along = m.spec.Along.V.MM() + mm
	return along, along >= 0 && along <= m.edge.Length.Value.Number
}

// markTerm is how far along its side a mark lies.
func (w *walker) markTerm(m waymark) figure.Term {
	switch {
	case m.edge == nil: // an end of the seam
		return w.Constant(m.at, mm)
	case m.spec != nil:
		w.notchWritten(say.Of("garment.notch-on", m.edge.ref), m.spec)
	}
	return w.Found(say.Of("garment.along", m.edge.ref), m.at, mm)
}

// notchWritten notes where a notch lies as the record has it: from the edge's start, from
// elsewhere, or half way.
func (w *walker) notchWritten(name string, n *record.NotchSpec) {
	at := n.Place
	switch {
	case !follows(at):
		w.Note(w.Length(name, n.Along))
	case at.V.Middle:
		w.Remark(figure.Written, name, "middle", at.At, "")
	case at.V.By == 0:
		w.Remark(figure.Written, name, at.V.From, at.At, "")
	default:
		w.Remark(figure.Written, name, say.Of("garment.from", w.shelf.Workroom.Style().One().Length(at.V.By), at.V.From), at.At, "")
	}
}

func markAt(s *Seam, m waymark) fault.Pos {
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
func (w *walker) stretchesUnknown(s *Seam, pairs [][2]waymark) {
	for i := range s.Record.Stretches {
		st := &s.Record.Stretches[i]
		found := false
		for k := 1; k < len(pairs); k++ {
			found = found || st.From.Or("start") == pairs[k-1][0].name && st.To.Or("end") == pairs[k][0].name
		}
		if !found && st.At.Given() {
			w.faults.Wrong(st.At, say.Of("garment.name-two-notches-that-follow-each-other"), say.Of("garment.no-part-from-to", s.Name, say.Quoted(st.From.Or("start")), say.Quoted(st.To.Or("end"))))
		}
	}
}

// stretch checks how the sides differ between two pairs of notches.
func (w *walker) stretch(s *Seam, id string, k int, pairs [][2]waymark, meant, far bool) {
	from, to := pairs[k-1], pairs[k]
	a, b := to[0].at-from[0].at, to[1].at-from[1].at
	d := a - b
	w.Note(w.Of(say.Of("garment.first-edge"), &s.Sides[0].Length), w.Of(say.Of("garment.second-edge"), &s.Sides[1].Length))
	spec := s.meantIn(from[0].name, to[0].name)
	limit := w.lim.notches
	slack := s.slack() && !far // of a notch far off is told by itself
	judged := !meant || len(s.Record.Stretches) > 0 || slack
	at := s.Record.At
	if spec != nil {
		at = spec.At
	}
	if judged {
		w.Note(limit.Term(w.Pad, "limit", mm))
	}
	first := w.markTerm(to[0]).Minus(w.markTerm(from[0]))
	second := w.markTerm(to[1]).Minus(w.markTerm(from[1]))
	t, rule := w.lessMeant(spec, first, second), say.Of("garment.first-edge-second-edge-between-the")
	if slack {
		t, rule = w.beyondEase(s, first, second), say.Of("garment.how-far-the-longer-edge-the-other")
	}
	off := t.MM()
	c := Check{Kind: "stretch", What: w.Join(s.Name, ": from ", from[0].title(k-1), " to ", to[0].title(k)), Judged: judged, At: at, taken: spec == nil && !meant}
	c.Off = w.Figure(w.Join("truing.", id, ".stretch-", strconv.Itoa(k)), "difference", c.What, t, mm,
		rule, limit.Source)
	c.Good = math.Abs(off) <= limit.V+1e-6
	c.Limit = w.lengthAtMost(limit)
	c.slack = slack
	c.Mend = say.Of("garment.move-the-notches-or-write-ease", w.written(math.Abs(d)), between(from[0], to[0]))
	w.g.hold(c)
}

// slack reports whether an ease is meant along the seam as a whole: any of its
// stretches may hold some of it, none more than all, and none less than nothing.
func (s *Seam) slack() bool {
	return s.Record.Ease.Given() && !s.Record.Gather.Given() && !s.closure().Given() && len(s.Record.Stretches) == 0
}

// beyondEase is how far a stretch of a seam with ease holds less than nothing of
// it, or more than all.
func (w *walker) beyondEase(s *Seam, a, b figure.Term) figure.Term {
	longer := s.headSide()
	if longer < 0 && s.Sides[1].Length.Value.Number > s.Sides[0].Length.Value.Number {
		longer = 1
	}
	if longer == 1 {
		a, b = b, a
	}
	return w.Greatest(w.Constant(0, mm), b.Minus(a), a.Minus(b).Minus(w.Length("ease", s.Record.Ease).Size()))
}

// between says from which notch to which; where an end has no name, for this part.
func between(from, to waymark) string {
	if from.name == "" || to.name == "" || from.edge != nil && from.spec == nil || to.edge != nil && to.spec == nil {
		return say.Of("garment.for-this-part")
	}
	return say.Of("garment.from-to", from.name, to.name)
}

// lessMeant is by how much a stretch differs from what is meant.
func (w *walker) lessMeant(spec *record.StretchSpec, a, b figure.Term) figure.Term {
	switch {
	case spec != nil && spec.Ease.Given():
		ease := w.Length(say.Of("garment.ease-meant"), spec.Ease)
		if a.MM() < b.MM() {
			return a.Minus(b).Plus(ease)
		}
		return a.Minus(b).Minus(ease)
	case spec != nil && spec.Gather.Given():
		long, short := a, b
		if a.MM() < b.MM() {
			long, short = b, a
		}
		return long.Minus(w.Written(say.Of("garment.gather-meant"), float64(spec.Gather.V), measure.UnitCount, spec.Gather.At).Times(short))
	}
	return a.Minus(b)
}

// corner is where an edge begins (or ends) on its outline.
func (e *PieceEdge) corner(atEnd bool) shape.Point {
	if atEnd {
		return e.piece.Outline.Start(e.beside(1).Index)
	}
	return e.piece.Outline.Start(e.Index)
}
