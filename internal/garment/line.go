package garment

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A PieceLine is a line on a piece that other things lie along.
type PieceLine struct {
	Record *record.LineSpec
	Name   string
	Points shape.Line    // from where it begins, on the piece laid open
	Length figure.Figure // of one
	Slit   bool          // cut open: it has two sides
	Fold   bool          // the cloth is folded along it
	Place  string        // the piece that is set on this one there; "" of others
	Hand   string        // left or right, where it is set on one of a pair alone
	Again  bool          // what is set there is told at the line before, as a second of equal blocks
	Laid   bool          // a file draws it as the place of a notion, which is drawn there
	Edge   *PieceEdge    // what is sewn along it; of a slit both its sides
}

// Kind is what sort of line it is: "slit", "fold" or "line".
func (l *PieceLine) Kind() string {
	switch {
	case l.Place != "":
		return say.Of("garment.place-of")
	case l.Slit:
		return "slit"
	case l.Fold:
		return say.Of("garment.fold-line")
	}
	return "line"
}

// Says is what is done at a line, in a word or two; "" of one that only marks a place.
func (l *PieceLine) Says() string {
	switch {
	case l.Hand != "":
		return say.Of("garment.on-the-one-only", l.Hand)
	case l.Slit:
		return say.Of("garment.cut-open")
	case l.Fold:
		return say.Of("garment.fold-here")
	}
	return ""
}

// place is what a construction that wants certain places takes it for.
func (l *PieceLine) place() trade.SewnTo {
	if l.Slit {
		return trade.OnSlit
	}
	return trade.OnLine
}

// A laidLine is a line of a form where it lies.
type laidLine struct {
	spec   *record.LineSpec
	points shape.Line
}

// laidLine is a line of a form by its name; nil where it has none so called.
func (f *form) laidLine(name string) shape.Line {
	for i := range f.laid {
		if f.laid[i].spec.Name.V == name {
			return f.laid[i].points
		}
	}
	return nil
}

// layLines finds where the lines of a piece lie; told says whether those that lie nowhere
// are told of.
func (w *derivation) layLines(p *Piece, told bool) {
	f := &p.form
	f.laid = nil
	if f.why != "" || len(f.lines) == 0 || f.outline.Check() != nil {
		return
	}
	own := told && p.own(len(p.Record.Lines) > 0)
	for i := range f.lines {
		l := &f.lines[i]
		if _, count := f.find(l.Name.V); count > 0 {
			continue // told by the reader
		}
		points, bad := w.lay(p, l, own)
		if bad == nil {
			if far, leaves := f.outline.Leaves(f.onThisHalf(l, points)); leaves {
				bad = errLine
				w.lineFault(own, l.At, say.Of("garment.end-it-within-the-piece-or-begin"), say.Of("garment.leaves-the-piece-after", p.Name, l.Name.V, w.tape().About(far)))
			}
		}
		if bad != nil {
			continue
		}
		f.laid = append(f.laid, laidLine{l, points})
	}
}

// onThisHalf is a line as it lies on the half that is drawn: the place of what is sewn on,
// a closed line, may lie over the fold.
func (f *form) onThisHalf(l *record.LineSpec, points shape.Line) shape.Line {
	if n := len(l.Path); n > 2 && l.Path[0].Apart(l.Path[n-1]) < leastPart {
		return f.outline.Folded(points)
	}
	return points
}

func (w *derivation) lineFault(own bool, at fault.Pos, hint, says string) {
	if own {
		w.faults.Wrong(at, hint, says)
	}
}

// errLine says that a line cannot be laid, which is told.
var errLine = say.Error("garment.the-line-cannot-be-laid")

// lay is where one line lies.
func (w *derivation) lay(p *Piece, l *record.LineSpec, own bool) (shape.Line, error) {
	f := &p.form
	if len(l.Path) > 0 {
		return slices.Clone(l.Path), nil
	}
	if l.Along.Given() {
		if _, count := f.find(f.called(p.formerly(l.Along.V.Edge))); count == 0 {
			return nil, errLine // told by the reader
		}
		line, err := f.outline.Beside(f.called(p.formerly(l.Along.V.Edge)), l.Along.V.By.MM())
		if err != nil {
			w.lineFault(own, l.Along.At, say.Of("garment.let-it-run-nearer-to-the-edge"), say.Of("garment.cannot-be-drawn-2", p.Name, l.Name.V, err))
			return nil, errLine
		}
		if f.reversed {
			slices.Reverse(line)
		}
		return line, nil
	}
	from, square, ok := w.spotOn(p, l.From, own)
	if !ok {
		return nil, errLine
	}
	to := shape.Point{X: from.X + float64(square.X*l.Length.V.MM()), Y: from.Y + float64(square.Y*l.Length.V.MM())}
	if l.To.Given() {
		if to, _, ok = w.spotOn(p, l.To, own); !ok {
			return nil, errLine
		}
	} else if !l.Length.Given() || l.From.V.Edge == "" {
		return nil, errLine // told by the reader
	}
	if from.Apart(to) < leastPart {
		w.lineFault(own, l.At, say.Of("garment.let-it-end-elsewhere"), say.Of("garment.ends-where-it-begins", p.Name, l.Name.V))
		return nil, errLine
	}
	edges, ok := bentLine(from, to, l.Bend.V, l.Bend.Given())
	if !ok {
		w.lineFault(own, l.Bend.At, say.Of("garment.let-it-rise-less-or-draw-it"), say.Of("garment.rises-more-than-a-half-circle-does", p.Name, l.Name.V))
		return nil, errLine
	}
	return shape.LineOf(from, edges), nil
}

// bentLine draws from one point to another, straight or as is said.
func bentLine(from, to shape.Point, b record.Bend, bent bool) ([]shape.Edge, bool) {
	switch {
	case !bent:
		return []shape.Edge{{To: to}}, true
	case b.Rise == 0:
		return []shape.Edge{{To: to, Curved: true, C1: point(b.Handles[0]), C2: point(b.Handles[1])}}, true
	}
	var out []shape.Edge
	for _, e := range record.ArcBetween(record.XY(from), record.XY(to), b.Rise) {
		out = append(out, shape.Edge{To: point(e.To.V), Curved: true, C1: point(e.Curve.V[0]), C2: point(e.Curve.V[1])})
	}
	return out, len(out) > 0
}

// spotOn is where a place on a piece lies, and the way square to its edge into the piece.
func (w *derivation) spotOn(p *Piece, s record.Val[record.Spot], own bool) (at, square shape.Point, ok bool) {
	f := &p.form
	if s.V.Edge == "" {
		return point(s.V.Point), shape.Point{}, s.Given()
	}
	edge := f.called(p.formerly(s.V.Edge))
	along, ok := w.placeAlong(p, s.V.Edge, record.Where{V: s.V.Where, At: s.At}, own)
	if !ok {
		return at, square, false
	}
	at, way, ok := f.outline.PointOn(edge, f.inner(f.outline, edge, along))
	return at, shape.Point{X: -way.Y, Y: way.X}, ok
}

// placeAlong is how far along an edge or a line of a piece a place lies, from where that
// begins as the record has it; own says whether a place beyond it is told of.
func (w *derivation) placeAlong(p *Piece, edge string, at record.Where, own bool) (float64, bool) {
	length, ok := p.form.lengthAlong(p.formerly(edge))
	if !ok {
		return 0, false
	}
	if !at.V.Plain() {
		l := w.alongOf(p, edge, at, own)
		return l.V.MM(), l.Given()
	}
	if at.V.By.MM() > length+touches {
		w.lineFault(own, at.At, say.Of("garment.measure-less"), say.Of("garment.is-past-the-end-is-long", w.tape().Exact(at.V.By.MM()), p.Name, edge, w.tape().About(length)))
		return 0, false
	}
	return min(at.V.By.MM(), length), true
}

// lengthAlong is how long an edge or a line of a form is.
func (f *form) lengthAlong(name string) (float64, bool) {
	if l := f.laidLine(name); l != nil {
		return l.Length(), true
	}
	return f.outline.LengthOf(f.called(name))
}

// pointAlong is the point so far along an edge or a line as the record has it, and the
// way that runs there.
func (f *form) pointAlong(name string, along float64) (at, way shape.Point, ok bool) {
	if l := f.laidLine(name); l != nil {
		at, way = l.At(along)
		return at, way, true
	}
	edge := f.called(name)
	return f.outline.PointOn(edge, f.inner(f.outline, edge, along))
}

// spotOnLine is how far along a line a name lies: the edge that it meets, another line or
// a level that crosses it.
func (f *form) spotOnLine(l shape.Line, name string) (float64, bool) {
	if _, count := f.find(name); count > 0 {
		edge := f.called(name)
		if along, ok := f.outline.MetBy(edge, l); ok {
			at, _, _ := f.outline.PointOn(edge, along)
			return l.Holds(at)
		}
		return 0, false
	}
	across := f.laidLine(name)
	if y, ok := f.levels.Get(name); across == nil && ok && y.Given() {
		least, most := f.outline.Bounds()
		across = shape.Line{{X: least.X - 1, Y: y.V.MM()}, {X: most.X + 1, Y: y.V.MM()}}
	}
	if across == nil {
		return 0, false
	}
	return l.Crosses(across)
}

// crossedBy is how far along an edge, as the outline runs, a line meets it.
func (f *form) crossedBy(edge, line string) (float64, bool) {
	l := f.laidLine(line)
	if l == nil {
		return 0, false
	}
	return f.outline.MetBy(edge, l)
}

// settleLines makes figures of the lines of a piece, and edges of what is sewn along them.
func (w *derivation) settleLines(p *Piece) {
	f := &p.form
	p.Lines = make([]PieceLine, len(f.laid))
	slugs := words.NamesFor(len(f.laid))
	for i := range f.laid {
		spec := f.laid[i].spec
		l := &p.Lines[i]
		*l = PieceLine{Record: spec, Name: spec.Name.V, Points: f.laid[i].points, Slit: spec.Slit.V, Fold: spec.Fold.V}
		base := w.Join("piece.", f.anchor, ".line.", slugs.Unique(l.Name))
		ref := w.Join(p.Name, ".", l.Name)
		long := l.Points.Length()
		w.drawnFrom(p)
		w.Remark(figure.Written, l.Kind(), figure.AsItStands, spec.At, "")
		t := w.Found(l.Name, long, mm)
		rule := say.Of("garment.along-the-line-from-end-to-end")
		if spec.Length.Given() && math.Abs(spec.Length.V.MM()-long) < 1e-6 && !spec.Bend.Given() {
			t, rule = w.Length("length", spec.Length), say.Of("garment.as-the-record-says")
		}
		l.Length = w.Figure(w.Join(base, ".length"), "length", ref, t, mm, rule, figure.Derived)
		times := p.Count
		if p.OnFold {
			times *= 2
		}
		if l.Slit {
			times *= 2
		}
		l.Edge = &PieceEdge{Name: l.Name, Index: -1, Times: times, Length: l.Length, Sewn: l.Length, sewn: long,
			piece: p, note: &edgeNote{name: l.Name, at: spec.At, to: spec.At}, base: base, ref: ref, line: l}
	}
}

// rawSlits warns of slits whose sides nothing finishes, in a record that finishes edges.
func (w *doubter) rawSlits() {
	if len(w.g.Finishes) == 0 {
		return
	}
	for _, p := range w.g.Pieces {
		for i := range p.Lines {
			if l := &p.Lines[i]; l.Slit && l.Edge.finish == nil && l.Edge.seam == nil && p.own(len(p.Record.Lines) > 0) {
				w.faults.LookAgain(l.Record.At, say.Of("garment.finish-them-as-slits-type-overlocked", l.Edge.ref), say.Of("garment.the-slit-has-raw-sides", l.Edge.ref))
			}
		}
	}
}

// placketsBehind warns of a placket whose slit is measured from the underarm edge at the
// front of its sleeve: a placket lies towards the back, in line with the elbow (common
// practice, no source).
func (w *doubter) placketsBehind() {
	for _, p := range w.g.Pieces {
		for i := range p.Lines {
			l := &p.Lines[i]
			from := l.Record.From.V.Where.From
			other := strings.Replace(from, "front", "back", 1)
			if f := l.Edge.finish; !l.Slit || f == nil || f.kind == nil || !strings.Contains(f.kind.Name, "placket") || other == from || p.edgeCalled(other) == nil || !p.own(len(p.Record.Lines) > 0) {
				continue
			}
			w.faults.LookAgain(l.Record.From.At, say.Of("garment.did-you-mean-from-if-not-leave", other), say.Of("garment.the-placket-lies-towards", l.Edge.ref, from)).Instead(from, other)
		}
	}
}

// lineCalled finds a line of a piece; nil where it has none so called.
func (p *Piece) lineCalled(name string) *PieceLine {
	for i := range p.Lines {
		if p.Lines[i].Name == name {
			return &p.Lines[i]
		}
	}
	return nil
}

// alterLine changes a line of a form.
func alterLine(f *form, a Alteration) bool {
	c := a.Change
	called := func(l *record.LineSpec) bool { return l.Name.V == a.line }
	return alterEach(f, &f.lines, a, called, func(l *record.LineSpec) {
		if c.Move.Given() {
			l.Along.V.By -= c.Move.V
		}
		if c.Length.Given() {
			l.Length = c.Length
		}
		if c.Place.Given() {
			l.From.V.Where = c.Place.V
		}
	})
}

// withLines is a build of which what is set out along lines lies where the rounds in force
// have moved these to; the build itself where none has.
func withLines(b *record.Build, list []Alteration, inForce int) *record.Build {
	out := b
	for _, a := range list[drawnIn(list):max(inForce, drawnIn(list))] {
		for i := range b.Notions {
			if n := &out.Notions[i]; a.line != "" && a.Change.Move.Given() && n.Line.V == a.line && n.Along.V.Piece == a.Piece {
				out = ownNotions(b, out)
				out.Notions[i].Along.V.Inside -= a.Change.Move.V
			}
		}
	}
	return out
}

// lineBecomes says what a change of a line does.
func lineBecomes(c *record.Change, style measure.Style) (out string) {
	if c.Move.Given() {
		v, side := c.Move.V, say.Of("garment.outwards")
		if v < 0 {
			v, side = -v, say.Of("garment.inwards")
		}
		out += say.Of("garment.moved-2", style.Length(v), side)
	}
	if c.Place.Given() {
		out += say.Of("garment.begun-elsewhere")
		if c.Place.V.Plain() {
			out += say.Of("garment.along-its-edge", style.Length(c.Place.V.By))
		}
	}
	if c.Length.Given() {
		out += say.Of("garment.long-2", style.Length(c.Length.V))
	}
	return out
}

// LineWords says of each line of a piece what it is, as "slit: 130 mm, cut open".
func (p *Piece) LineWords(style measure.Style) (out []string) {
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Again {
			continue
		}
		said := l.Name + ": " + style.Length(measure.MM(l.Length.Value.Number))
		if what := l.Says(); what != "" {
			said += ", " + what
		}
		if l.Edge.SewnBy != "" {
			said += say.Of("garment.sewn-by", l.Edge.SewnBy)
		}
		out = append(out, said)
	}
	return out
}

// linesMirror reports whether the image of every line about an upright or a level line
// through the middle of the piece is a line of the same kind.
func (f *form) linesMirror(image *shape.OwnImage) bool {
	if len(f.laid) == 0 {
		return true
	}
	return slices.ContainsFunc(f.outline.MirrorsOf(image), func(mirror func(shape.Point) shape.Point) bool {
		return !slices.ContainsFunc(f.laid, func(l laidLine) bool {
			return !slices.ContainsFunc(f.laid, func(o laidLine) bool {
				return o.spec.Slit.V == l.spec.Slit.V && o.spec.Fold.V == l.spec.Fold.V && lineOnto(l.points, o.points, mirror)
			})
		})
	})
}

func lineOnto(l, onto shape.Line, mirror func(shape.Point) shape.Point) bool {
	long := l.Length()
	if math.Abs(onto.Length()-long) > marksWithin {
		return false
	}
	same, back := true, true
	for k := range 5 {
		s := long * float64(k) / 4
		at, _ := l.At(s)
		there, _ := onto.At(s)
		other, _ := onto.At(long - s)
		same = same && mirror(at).Apart(there) <= marksWithin
		back = back && mirror(at).Apart(other) <= marksWithin
	}
	return same || back
}
