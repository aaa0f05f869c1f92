package garment

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"sort"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A pleater lets the pleats and tucks of a record into its pieces.
type pleater struct {
	*index
	tolerance float64 // how far a closed edge may be from what it is to come to, mm
}

// letInPleats lets the pleats of pieces into their outlines, and finds their lines.
func (w *pleater) letInPleats(list []*Piece) {
	for _, p := range list {
		f := &p.form
		f.folds = nil
		if f.why != "" || len(f.pleats) == 0 || f.outline.Check() != nil {
			continue
		}
		done := map[string]bool{}
		for i := range f.pleats {
			if edge := f.called(f.pleats[i].Edge.V); !done[edge] {
				done[edge] = true
				w.pleatEdge(p, edge)
				p.pleatsWrong = p.pleatsWrong || !slices.ContainsFunc(f.folds, func(q PleatFold) bool { return q.Edge == edge })
			}
		}
	}
}

// letIn reports whether pleats are let into a piece that is drawn with them folded, so
// that its points are no longer those of the record.
func (p *Piece) letIn() bool {
	return slices.ContainsFunc(p.form.folds, func(q PleatFold) bool { return !q.Record.Drawn.V })
}

// A setPleat is one pleat at its place.
type setPleat struct {
	spec   *record.PleatSpec
	nth    int
	middle float64 // mm along the edge as the outline runs
	folds  []shape.PleatFold
}

// pleatEdge lets in the pleats of one edge.
func (w *pleater) pleatEdge(p *Piece, edge string) {
	f := &p.form
	length, ok := f.outline.LengthOf(edge)
	if !ok {
		return // told by the reader
	}
	type placed struct {
		spec   *record.PleatSpec
		places []float64
	}
	var specs []placed
	least, most := length, 0.0
	open, own := false, p.own(len(p.Record.Pleats) > 0)
	for i := range f.pleats {
		spec := &f.pleats[i]
		if f.called(spec.Edge.V) != edge {
			continue
		}
		if spec.Unread {
			return
		}
		if len(specs) > 0 && open != spec.Drawn.V {
			w.pleatFault(own, spec.At, say.Of("garment.write-drawn-true-of-all-of-them"), say.Of("garment.has-pleats-that-are-drawn-open-and", p.Name, edge))
			return
		}
		open = spec.Drawn.V
		if w.pastTheEdge(p, spec, edge, length, own) {
			return
		}
		places, ok := w.pleatPlaces(p, spec, edge, length, own)
		if !ok {
			return
		}
		specs = append(specs, placed{spec, places})
		least, most = min(least, slices.Min(places)), max(most, slices.Max(places))
	}
	way := f.wayOfPleats(edge, least, most, length)
	var all []setPleat
	for _, s := range specs {
		depth, ok := w.pleatDepth(p, s.spec, edge, length, len(s.places), own)
		if !ok {
			return
		}
		taper, ok := w.pleatTaper(p, s.spec, edge, length, len(s.places), own)
		if !ok {
			return
		}
		for k, at := range s.places {
			folds := f.foldsOf(p, s.spec, edge, way, at, length, max(depth, taper.Depth))
			for i := range folds {
				folds[i].Depth, folds[i].Taper = depth, taper
			}
			all = append(all, setPleat{s.spec, k + 1, at, folds})
		}
	}
	slices.SortStableFunc(all, func(a, b setPleat) int { return cmp.Compare(a.middle, b.middle) })
	if !w.pleatsApart(p, edge, all, open, own) {
		return
	}
	if open {
		w.openPleats(p, edge, way, all, length, own)
		return
	}
	w.closedPleats(p, edge, way, all, length, own)
}

func (w *pleater) pleatFault(own bool, at fault.Pos, hint, says string) {
	if own {
		w.faults.Wrong(at, hint, says)
	}
}

// flat lists the folds of all pleats in their order along the edge.
func flat(all []setPleat) (folds []shape.PleatFold, of []int) {
	for i := range all {
		for _, fold := range all[i].folds {
			folds, of = append(folds, fold), append(of, i)
		}
	}
	return folds, of
}

// openPleats finds the lines of pleats that the outline is drawn with.
func (w *pleater) openPleats(p *Piece, edge string, way shape.Point, all []setPleat, length float64, own bool) {
	f := &p.form
	folds, of := flat(all)
	for k, fold := range folds {
		s := &all[of[k]]
		lines, err := f.outline.PleatLines(edge, way, fold)
		if err != nil {
			w.pleatBeyond(p, edge, way, s, fold, length, own, err)
			continue
		}
		w.addFold(p, edge, s, fold, lines, own)
	}
}

// closedPleats cuts the outline open and lets the pleats in; all marks move along.
func (w *pleater) closedPleats(p *Piece, edge string, way shape.Point, all []setPleat, length float64, own bool) {
	f := &p.form
	folds, of := flat(all)
	open, err := f.outline.Pleated(edge, way, folds)
	if err == nil {
		err = open.Outline.Check()
	}
	if err != nil {
		for k, fold := range folds {
			if _, alone := f.outline.Pleated(edge, way, []shape.PleatFold{fold}); alone != nil {
				w.pleatBeyond(p, edge, way, &all[of[k]], fold, length, own, alone)
				return
			}
		}
		for i := range all {
			if s := &all[i]; w.deepest(p, edge, way, s, length) < s.folds[0].Depth { // its sides meet behind
				w.pleatBeyond(p, edge, way, s, s.folds[0], length, own, shape.ErrPleatBeyond)
				return
			}
		}
		w.pleatFault(own, all[0].spec.At, say.Of("garment.draw-the-piece-with-them-open-and"), say.Of("garment.the-pleats-of-cannot-be-opened", p.Name, edge, oneLine(err)))
		return
	}
	closed := f.outline
	f.outline = open.Outline
	notes := make([]edgeNote, len(open.Of))
	for k, was := range open.Of {
		notes[k] = f.notes[was]
		if a, b := open.Outline.Edges[k].To, closed.Edges[was].To; math.Hypot(a.X-b.X, a.Y-b.Y) > touches {
			notes[k].moved = true
		}
	}
	f.notes = notes
	f.ring, f.skirt, f.godet = nil, nil, nil
	f.moveOpen(closed, open)
	for i := range p.Chalked {
		c := &p.Chalked[i]
		c.At, c.Hole[0], c.Hole[1] = open.At(c.At), open.At(c.Hole[0]), open.At(c.Hole[1])
	}
	for i := range f.laid {
		points := slices.Clone(f.laid[i].points)
		for k := range points {
			points[k] = open.At(points[k])
		}
		f.laid[i].points = points
	}
	for k, lines := range open.Lines {
		w.addFold(p, edge, &all[of[k]], folds[k], lines, own)
	}
}

// moveOpen moves darts, notches, levels and folds to where they lie on the outline
// once it is cut open.
func (f *form) moveOpen(closed shape.Outline, open *shape.Pleated) {
	along := func(edge string, l *record.Length) {
		name := f.called(edge)
		was, _ := closed.LengthOf(name)
		is, ok := f.outline.LengthOf(name)
		if !ok || !l.Given() {
			return
		}
		at := f.fromStart(l.V.MM(), was)
		l.V = measure.MM(f.fromStart(open.Along(name, at), is))
	}
	f.darts, f.notches, f.levels = slices.Clone(f.darts), slices.Clone(f.notches), slices.Clone(f.levels)
	for i := range f.darts {
		d := &f.darts[i]
		along(d.Edge.V, &d.Along)
		if d.Point.Given() {
			q := open.At(point(d.Point.V))
			d.Point.V = record.XY{X: q.X, Y: q.Y}
		}
	}
	for i := range f.notches {
		along(f.notches[i].Edge.V, &f.notches[i].Along)
	}
	least, most := closed.Bounds()
	for i := range f.levels {
		l := &f.levels[i].V
		if l.Given() {
			l.V = measure.MM(open.At(shape.Point{X: (least.X + most.X) / 2, Y: l.V.MM()}).Y)
		}
	}
	f.folds = slices.Clone(f.folds)
	for i := range f.folds {
		q := &f.folds[i]
		for _, line := range []*shape.Line{&q.Lines.Place, &q.Lines.Inner, &q.Lines.Outer} {
			*line = slices.Clone(*line)
			for k, at := range *line {
				(*line)[k] = open.At(at)
			}
		}
		for k := range 2 {
			q.Lines.Mouth[k] = open.Along(q.Edge, q.Lines.Mouth[k])
			q.Lines.FarMouth[k] = open.Along(q.Lines.Far, q.Lines.FarMouth[k])
		}
	}
}

// pleatBeyond tells of a fold that goes under more than lies beside it.
func (w *pleater) pleatBeyond(p *Piece, edge string, way shape.Point, s *setPleat, fold shape.PleatFold, length float64, own bool, err error) {
	room, parts := fold.Along, 1.0
	if fold.Onward {
		room = length - fold.Along
	}
	switch {
	case s.spec.Drawn.V && s.spec.Folds() == 1:
		parts = 2
	case s.spec.Drawn.V:
		room, parts = min(s.middle, length-s.middle), 3
	default:
		room = w.deepest(p, edge, way, s, length)
	}
	if room < 0.1 || s.spec.Drawn.V && !errors.Is(err, shape.ErrPleatBeyond) {
		w.pleatFault(own, s.spec.At, say.Of("garment.move-it-along-the-edge-or-make-2"), say.Of("garment.the-pleat-on-cannot-be-drawn", p.Name, edge, oneLine(err)))
		return
	}
	w.pleatFault(own, s.spec.At, say.Of("garment.depth-at-most-or-move-it", w.written(math.Floor(room/parts*10)/10)), say.Of("garment.the-pleat-on-goes-under-and-of", p.Name, edge, w.tape().Tenth(fold.Depth), w.tape().About(room)))
}

// deepest is how deep a pleat can be let in where it lies, to a tenth of a millimetre,
// before it goes under more than lies beside it.
func (w *pleater) deepest(p *Piece, edge string, way shape.Point, s *setPleat, length float64) float64 {
	f := &p.form
	fits := func(tenths int) bool {
		folds := f.foldsOf(p, s.spec, edge, way, s.middle, length, float64(tenths)/10)
		open, err := f.outline.Pleated(edge, way, folds)
		return err == nil && open.Outline.Check() == nil
	}
	most := int(math.Ceil(s.folds[0].Depth * 10))
	return float64(sort.Search(most, func(k int) bool { return !fits(k + 1) })) / 10
}

// addFold notes a fold with how far it is stitched.
func (w *pleater) addFold(p *Piece, edge string, s *setPleat, fold shape.PleatFold, lines shape.PleatLines, own bool) {
	q := PleatFold{Record: s.spec, Nth: s.nth, Edge: edge, Depth: fold.Depth, Taper: fold.Taper, Lines: lines, Soft: s.spec.Soft.V}
	long := lines.Place.Length()
	down := s.spec.Stitched
	switch {
	case s.spec.Tuck():
		q.Stitched, q.Whole = long, true
	case down.V.Level != "":
		y, ok := p.form.levels.Get(down.V.Level)
		if q.Stitched = math.Abs(lines.Place[0].Y - y.V.MM()); !ok || math.Abs(lines.Place[0].X-lines.Place[1].X) > touches {
			q.Stitched = 0
		}
	case down.Given():
		q.Stitched = down.V.By.MM()
	}
	if q.Stitched > long+touches {
		least, most := p.form.outline.Bounds() // beyond the piece it is told as a digit too many
		if s.nth == 1 && fold == s.folds[0] && q.Stitched <= max(most.X-least.X, most.Y-least.Y) {
			w.pleatFault(own, down.At, say.Of("garment.write-all-or-less"), say.Of("garment.the-pleats-on-are-long-stitched-says", p.Name, edge, w.tape().About(long), w.tape().Exact(q.Stitched)))
		}
		q.Stitched = long
	}
	p.form.folds = append(p.form.folds, q)
}
