package garment

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A PleatFold is one fold of a pleat, as it lies on the piece laid open.
type PleatFold struct {
	Record   *record.PleatSpec
	Nth      int // which of the pleats of its record it belongs to, from 1
	Edge     string
	Depth    float64 // mm
	Taper    shape.Taper
	Lines    shape.PleatLines
	Stitched float64 // mm from the edge on that the fold is stitched to its place; 0 where it is not
	Whole    bool    // stitched all its length, a tuck
	Soft     bool    // not pressed
}

// Kind is what the pleat is called.
func (q *PleatFold) Kind() string { return q.Record.Kind.Or("knife") }

// softMark is how far the lines of pleats that are not pressed are drawn, mm (own
// choice, no source).
const softMark = 40

// Drawn is how much of a line of the fold is drawn, from the edge on.
func (q *PleatFold) Drawn(line shape.Line) shape.Line {
	if !q.Soft {
		return line
	}
	return q.upTo(line, max(q.Stitched, softMark))
}

// Sewn is the part of a line of the fold that is stitched.
func (q *PleatFold) Sewn(line shape.Line) shape.Line { return q.upTo(line, q.Stitched) }

// upTo is a line of the fold up to as far inside the edge as is said, along the place it is
// laid on: folds that taper slant, and end level with it.
func (q *PleatFold) upTo(line shape.Line, far float64) shape.Line {
	_, way := q.Lines.Place.At(0)
	inside := func(p shape.Point) float64 {
		d := p.Sub(line[0])
		return float64(d.X*way.X) + float64(d.Y*way.Y)
	}
	for k := 1; k < len(line); k++ {
		a, b := inside(line[k-1]), inside(line[k])
		if b > far && b > a {
			part := (far - a) / (b - a)
			end := shape.Point{X: line[k-1].X + float64(part*(line[k].X-line[k-1].X)), Y: line[k-1].Y + float64(part*(line[k].Y-line[k-1].Y))}
			return append(slices.Clone(line[:k]), end)
		}
	}
	return line
}

// PleatCount is how many pleats a piece has, as it is drawn.
func (p *Piece) PleatCount() int {
	n := 0
	for i := range p.PleatFolds {
		if q := &p.PleatFolds[i]; i == 0 || p.PleatFolds[i-1].Record != q.Record || p.PleatFolds[i-1].Nth != q.Nth {
			n++
		}
	}
	return n
}

// PleatWords says of each edge how its pleats are laid, as "waist: 2 box pleats 40 mm
// deep, stitched down 180 mm".
func (p *Piece) PleatWords(style measure.Style) (out []string) {
	for i := range p.PleatFolds {
		q := &p.PleatFolds[i]
		if i > 0 && p.PleatFolds[i-1].Record == q.Record || slices.ContainsFunc(p.PleatFolds[:i], func(b PleatFold) bool { return b.Record == q.Record }) {
			continue
		}
		n, folds := 0, 0
		for k := range p.PleatFolds {
			if b := &p.PleatFolds[k]; b.Record == q.Record {
				n, folds = max(n, b.Nth), folds+1
			}
		}
		what := q.Kind()
		if !strings.HasSuffix(what, "tuck") {
			what += " pleat"
		}
		if n > 1 {
			what += "s"
		}
		said := q.Edge + ": " + strconv.Itoa(n) + " " + what + " " + style.Length(measure.MM(q.Depth)) + " deep"
		if q.Taper != (shape.Taper{}) {
			said += ", tapering to " + style.Length(measure.MM(q.Taper.Depth)) + " at " + q.taperedAt()
		}
		switch {
		case q.Whole:
			said += ", stitched all the way"
		case q.Stitched > 0:
			said += ", stitched down " + style.Length(measure.MM(q.Stitched))
		}
		if q.Soft {
			said += ", left soft"
		}
		if folds < n*q.Record.Folds() {
			said += "; half of it lies beyond the fold of the cloth"
		}
		if q.Record.Kind.V == "growth tuck" { // geometry, exact
			said += "; let out, each adds " + style.Length(measure.MM(2*q.Depth))
		}
		out = append(out, said)
	}
	return out
}

// taperedAt is the level from which on a fold goes its other depth under, or how far that
// lies inside the edge.
func (q *PleatFold) taperedAt() string {
	if q.Record.Level.Given() {
		return q.Record.Level.V
	}
	return "the bend"
}

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
	var all []setPleat
	open, own := false, p.own(len(p.Record.Pleats) > 0)
	for i := range f.pleats {
		spec := &f.pleats[i]
		if f.called(spec.Edge.V) != edge {
			continue
		}
		if spec.Unread {
			return
		}
		if len(all) > 0 && open != spec.Drawn.V {
			w.pleatFault(own, spec.At, "write drawn: true of all of them, or draw none open", "%s.%s has pleats that are drawn open and others that are not", p.Name, edge)
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
		depth, ok := w.pleatDepth(p, spec, edge, length, len(places), own)
		if !ok {
			return
		}
		taper, ok := w.pleatTaper(p, spec, edge, length, len(places), own)
		if !ok {
			return
		}
		for k, at := range places {
			folds := f.foldsOf(p, spec, edge, at, length, max(depth, taper.Depth))
			for i := range folds {
				folds[i].Depth, folds[i].Taper = depth, taper
			}
			all = append(all, setPleat{spec, k + 1, at, folds})
		}
	}
	slices.SortStableFunc(all, func(a, b setPleat) int { return cmp.Compare(a.middle, b.middle) })
	if !w.pleatsApart(p, edge, all, open, own) {
		return
	}
	way := f.outline.PleatWay(edge, length/2)
	if open {
		w.openPleats(p, edge, way, all, length, own)
		return
	}
	w.closedPleats(p, edge, way, all, length, own)
}

func (w *pleater) pleatFault(own bool, at fault.Pos, hint, format string, args ...any) {
	if own {
		w.faults.Errorf(at, hint, format, args...)
	}
}

// foldsOf are the folds of a pleat: one, or two that lie away from each other or
// towards each other. At a fold of the cloth half of it is in the piece.
func (f *form) foldsOf(p *Piece, spec *record.PleatSpec, edge string, at, length, depth float64) []shape.PleatFold {
	out := 1.0 // the depths that its folds lie off the middle
	if spec.Drawn.V {
		out = 3
	}
	var list []shape.PleatFold
	switch spec.Kind.V {
	case record.BoxPleat:
		list = []shape.PleatFold{{Along: at - out*depth, Depth: depth, Onward: true}, {Along: at + out*depth, Depth: depth}}
	case record.InvertedPleat:
		list = []shape.PleatFold{{Along: at, Depth: depth}, {Along: at, Depth: depth, Onward: true}}
	default:
		onward := f.laidToStart(p, spec, edge, at, length)
		if !spec.Place.Given() && !spec.First.Given() && !spec.Last.Given() {
			at += besideMiddle(spec, onward, depth, length)
		}
		return []shape.PleatFold{{Along: at, Depth: depth, Onward: onward}}
	}
	first, last := f.onFoldAt(edge)
	if first && at < touches+leastPart/2.0 {
		return list[1:]
	}
	if last && at > length-touches-leastPart/2.0 {
		return list[:1]
	}
	return list
}

// besideMiddle is how far the fold of a pleat lies beside its place where pleats are
// spread evenly: drawn open, what it takes lies about it; else it is moved as far as what
// goes under needs, which may be all that is seen of it.
func besideMiddle(spec *record.PleatSpec, onward bool, depth, length float64) float64 {
	half := length / float64(2*max(spec.Count.Or(1), 1))
	by := min(max(depth-half, 0), half)
	if spec.Drawn.V {
		by = depth
	}
	if onward {
		return -by
	}
	return by
}

// onFoldAt reports whether an edge begins or ends at the fold of the cloth.
func (f *form) onFoldAt(edge string) (first, last bool) {
	i, count := f.find(edge)
	n := len(f.outline.Edges)
	return f.outline.Edges[(i+n-1)%n].Fold, f.outline.Edges[(i+count)%n].Fold
}

// laidToStart reports whether a fold is laid towards where the edge begins, as the
// outline runs: it goes under what lies onward.
func (f *form) laidToStart(p *Piece, spec *record.PleatSpec, edge string, at, length float64) bool {
	if spec.Towards.Given() {
		if to, ok := f.spot(p.formerly(spec.Edge.V), p.formerly(spec.Towards.V)); ok {
			return f.fromStart(to, length) < at
		}
	}
	if spec.Count.V > 1 { // several all lie one way, from the fold of the cloth to the side
		_, last := f.onFoldAt(edge)
		return last
	}
	return at < length/2-touches
}

// pleatPlaces are where the pleats lie, along the edge as the outline runs.
func (w *pleater) pleatPlaces(p *Piece, spec *record.PleatSpec, edge string, length float64, own bool) ([]float64, bool) {
	f := &p.form
	n := max(spec.Count.Or(1), 1)
	good := true
	place := func(at record.Where) float64 {
		l := w.alongOf(p, spec.Edge.V, at, own)
		if at.V.Plain() {
			l = record.Length{V: at.V.By, At: at.At}
			if l.V.MM() > length+touches {
				w.pleatFault(own, at.At, "measure less", "%s is past the end: %s.%s is %s long", w.tape().Exact(l.V.MM()), p.Name, edge, w.tape().About(length))
				good = false
			}
		}
		good = good && l.Given()
		return l.V.MM()
	}
	every := spec.Every.V.MM()
	out := make([]float64, n)
	spread := func(first, step float64) {
		for k := range out {
			out[k] = first + float64(step*float64(k))
		}
	}
	switch first, last := spec.First, spec.Last; {
	case spec.Place.Given():
		spread(place(spec.Place), 0)
	case first.Given() && last.Given():
		a, b := place(first), place(last)
		if every > 0 {
			gaps := math.Round(math.Abs(b-a) / every)
			if !spec.Count.Given() {
				n, out = int(gaps)+1, make([]float64, int(min(gaps, mostPlaces))+1)
			}
			if math.Abs(float64(every*float64(n-1))-math.Abs(b-a)) > divides {
				w.pleatFault(own, spec.Every.At, "leave every: or last: out", "%d pleats from %s to %s are not %s apart", n, w.written(a), w.written(b), w.written(every))
				return nil, false
			}
		}
		spread(a, (b-a)/float64(max(n-1, 1)))
	case first.Given() || last.Given():
		at := first
		if last.Given() {
			at = last
		}
		a := place(at)
		way := 1.0
		if from, ok := f.spot(p.formerly(spec.Edge.V), p.formerly(at.V.From)); ok && !at.V.Plain() && (from >= length-touches || from > a+touches) {
			way = -1
		}
		if last.Given() {
			way = -way
		}
		if every == 0 && n > 1 {
			every = math.Abs(length-2*a) / float64(n-1)
		}
		spread(a, way*every)
	case every > 0:
		spread(length/2-float64(every*float64(n-1))/2, every)
	default:
		spread(length/float64(2*n), length/float64(n))
	}
	for k := range out {
		if out[k] < -touches || out[k] > length+touches {
			if good {
				w.pleatFault(own, spec.At, "let them lie nearer", "%d pleats do not fit: %s.%s is %s long", n, p.Name, edge, w.tape().About(length))
			}
			return nil, false
		}
		out[k] = f.fromStart(min(max(out[k], 0), length), length)
	}
	return out, good
}

// pastTheEdge tells of pleats laid to the pattern of the cloth that take more of it than
// the edge has.
func (w *pleater) pastTheEdge(p *Piece, spec *record.PleatSpec, edge string, length float64, own bool) bool {
	n, has := spec.Count.Or(1), length*p.halved()
	takes := float64(n) * spec.Every.V.MM()
	if !spec.Drawn.V || spec.Repeats == 0 || takes <= has+touches {
		return false
	}
	word := " repeats"
	if spec.Repeats == 1 {
		word = " repeat"
	}
	hint := "lengthen the edge"
	if most := int((has + touches) / spec.Every.V.MM()); most > 0 {
		hint = "at most " + strconv.Itoa(most) + " of them, or lengthen the edge"
	}
	w.pleatFault(own, spec.Every.At, hint, "%d pleats of %s%s are %s, %s.%s has %s", n, strconv.FormatFloat(spec.Repeats, 'f', -1, 64), word, w.tape().About(takes), p.Name, edge, w.tape().About(has))
	return true
}

// halved is 2 for a piece that is drawn as half of itself, else 1.
func (p *Piece) halved() float64 {
	c := p.form.cut.V
	if !p.form.cut.Given() {
		c, _ = p.usualCut()
	}
	if c.OnFold {
		return 2
	}
	return 1
}

// pleatDepth is how deep each is: as written, or as it follows from what they close to.
func (w *pleater) pleatDepth(p *Piece, spec *record.PleatSpec, edge string, length float64, n int, own bool) (float64, bool) {
	whole := length * p.halved()
	into := spec.Into.V.MM()
	folds := float64(n*spec.Folds()) * p.halved()
	switch {
	case spec.Depth.Given() && spec.Into.Given():
		closed := whole
		if spec.Drawn.V {
			closed -= 2 * spec.Depth.V.MM() * folds
		}
		if math.Abs(closed-into) > w.tolerance {
			hint := "leave into: out, or correct the outline"
			if !spec.Drawn.V && math.Abs(closed-2*spec.Depth.V.MM()*folds-into) <= w.tolerance {
				hint = "is it drawn with them open? write drawn: true"
			}
			w.pleatFault(own, spec.Into.At, hint, "%s.%s is %s once they are folded, into: says %s", p.Name, edge, w.tape().About(closed), w.tape().Exact(into))
		}
	case spec.Into.Given():
		if whole-into < 1 {
			w.pleatFault(own, spec.Into.At, "draw it longer, or let into: be less", "%s.%s is %s long: nothing is left for pleats into %s", p.Name, edge, w.tape().About(whole), w.tape().Exact(into))
			return 0, false
		}
		return (whole - into) / (2 * folds), true
	}
	return spec.Depth.V.MM(), spec.Depth.Given()
}

// pleatsApart tells of pleats that lie over each other.
func (w *pleater) pleatsApart(p *Piece, edge string, all []setPleat, open, own bool) bool {
	takes := 0.0
	for i := range all {
		for _, fold := range all[i].folds {
			takes += 2 * fold.Depth
		}
	}
	if length, _ := p.form.outline.LengthOf(edge); open && takes >= length {
		w.pleatFault(own, all[0].spec.At, "take in less, or lengthen the edge", "%s.%s is %s long, its pleats take %s", p.Name, edge, w.tape().About(length), w.tape().About(takes))
		return false
	}
	for k := 0; k+1 < len(all); k++ {
		a, b := &all[k], &all[k+1]
		if len(a.folds) == 0 || len(b.folds) == 0 {
			continue
		}
		depth := max(a.folds[0].Depth, b.folds[0].Depth, a.folds[0].Taper.Depth, b.folds[0].Taper.Depth)
		apart := b.middle - a.middle
		two := a.spec.Folds()+b.spec.Folds() > 2
		takes := a.folds[0].Depth*float64(a.spec.Folds()) + b.folds[0].Depth*float64(b.spec.Folds())
		if open {
			apart -= takes
		}
		switch {
		case apart < -touches:
			w.pleatFault(own, b.spec.At, "let them lie farther apart", "pleats of %s.%s lie over each other by %s", p.Name, edge, w.tape().Tenth(-apart))
			return false
		case two && a.spec == b.spec && apart < 2*depth-0.05:
			most := apart / 2
			if open {
				most = (b.middle - a.middle) / 6
				if a.spec.Into.Given() {
					most = apart / 2
				}
			}
			w.pleatFault(own, a.spec.At, "depth at most "+w.written(math.Floor(most*10+1e-6)/10), "pleats overlap behind by %s: %s deep, %s apart once folded", w.tape().Tenth(2*depth-apart), w.tape().Tenth(depth), w.tape().Tenth(apart))
			return false
		}
	}
	return true
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
			w.pleatBeyond(p, edge, s, fold, length, own, err)
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
				w.pleatBeyond(p, edge, &all[of[k]], fold, length, own, alone)
				return
			}
		}
		w.pleatFault(own, all[0].spec.At, "draw the piece with them open, and write drawn: true", "the pleats of %s.%s cannot be opened: %s", p.Name, edge, oneLine(err))
		return
	}
	closed := f.outline
	f.outline = open.Outline
	notes := make([]edgeNote, len(open.Of))
	for k, was := range open.Of {
		notes[k] = f.notes[was]
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
func (w *pleater) pleatBeyond(p *Piece, edge string, s *setPleat, fold shape.PleatFold, length float64, own bool, err error) {
	room, parts := fold.Along, 1.0
	if fold.Onward {
		room = length - fold.Along
	}
	switch {
	case s.spec.Drawn.V && s.spec.Folds() == 1:
		parts = 2
	case s.spec.Drawn.V:
		room, parts = min(s.middle, length-s.middle), 3
	case s.spec.Kind.V == record.BoxPleat:
		room = min(s.middle, length-s.middle)
	}
	if room < 0 || !errors.Is(err, shape.ErrPleatBeyond) {
		w.pleatFault(own, s.spec.At, "move it along the edge, or make it less deep", "the pleat on %s.%s cannot be drawn: %s", p.Name, edge, oneLine(err))
		return
	}
	w.pleatFault(own, s.spec.At, "depth at most "+w.written(math.Floor(room/parts*10)/10)+", or move it", "the pleat on %s.%s goes under %s, and %s of %s lie beside it", p.Name, edge,
		w.tape().Tenth(fold.Depth), w.tape().About(room), edge)
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
			w.pleatFault(own, down.At, "write all, or less", "the pleats on %s.%s are %s long, stitched: says %s", p.Name, edge, w.tape().About(long), w.tape().Exact(q.Stitched))
		}
		q.Stitched = long
	}
	p.form.folds = append(p.form.folds, q)
}

// foldedAway lists what folds take of an edge: from and to along it, as the outline
// runs. Of tucks the edge at which they leave the piece has them too.
func (f *form) foldedAway(edge string) (out []foldedPart) {
	for i := range f.folds {
		q := &f.folds[i]
		if q.Edge == edge {
			out = append(out, foldedPart{q, q.Lines.Mouth})
		}
		if q.Whole && q.Lines.Far == edge {
			out = append(out, foldedPart{q, q.Lines.FarMouth})
		}
	}
	return out
}

// A foldedPart is a part of an edge that a fold takes.
type foldedPart struct {
	fold *PleatFold
	at   [2]float64
}

// pleatTerms are what pleats take in on an edge, those of one record together.
func (w *desk) pleatTerms(p *Piece, e *PieceEdge) (terms []figure.Term, at fault.Pos) {
	parts := p.form.foldedAway(e.Name)
	for len(parts) > 0 {
		spec, n, sum := parts[0].fold.Record, 0, 0.0
		var rest []foldedPart
		for _, part := range parts {
			if part.fold.Record != spec {
				rest = append(rest, part)
				continue
			}
			n, sum = n+1, sum+part.at[1]-part.at[0]
		}
		depth := parts[0].fold.Depth
		t := w.Found("folded away by pleats", sum, mm)
		if math.Abs(sum-float64(2*depth*float64(n))) < 1e-6 {
			deep := w.Length("depth of the pleats", spec.Depth)
			if !spec.Depth.Given() {
				w.Remark(figure.Written, "into", w.written(spec.Into.V.MM()), spec.Into.At, "")
				deep = w.Found("depth of the pleats", depth, mm)
			}
			t = w.Number(float64(n)).By(2).Times(deep)
		}
		terms, at, parts = append(terms, t), spec.At, rest
	}
	return terms, at
}

// alterPleat changes the pleats of an edge.
func alterPleat(f *form, a Alteration) bool {
	c := a.Change
	on := func(q *record.PleatSpec) bool { return f.called(q.Edge.V) == f.called(a.pleat) }
	return alterEach(f, &f.pleats, a, on, func(q *record.PleatSpec) {
		if c.Depth.Given() {
			q.Depth = c.Depth
		}
		if c.Count.Given() {
			q.Count = c.Count
		}
		if c.Stitched.Given() {
			q.Stitched = c.Stitched
		}
	})
}

// pleatsBecome says what a change of pleats does.
func pleatsBecome(c *record.Change, style measure.Style) (out string) {
	if c.Depth.Given() {
		out += ", " + style.Length(c.Depth.V) + " deep"
	}
	if c.Count.Given() {
		out += ", " + countWord(c.Count.V) + " of them"
	}
	switch down := c.Stitched; {
	case !down.Given():
	case down.V.All:
		out += ", stitched all the way"
	case down.V.Level != "":
		out += ", stitched down to the " + down.V.Level
	default:
		out += ", stitched down " + style.Length(down.V.By)
	}
	return out
}
