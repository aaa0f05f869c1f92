package garment

import (
	"cmp"
	"errors"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// An Alteration is a change that does something to a line: of a round of
// fitting, or of a piece that is like another.
type Alteration struct {
	Change *record.Change
	Round  *record.Fitting // nil where it is a piece's own change
	Piece  string
	edge   string // "" where it is a dart's, or one of pleats
	dart   string
	line   string // the line that it changes
	pleat  string // the edge of the pleats that it changes
	gather string // the edge whose gathers it changes
	notion string // what is set out along an edge, which it changes
	setOn  string // the seam that sets a piece on another, which it moves
	border bool   // it is no change of the record: a dart is folded out of a border
}

// Alterations lists what the rounds of fitting alter, in order.
func Alterations(b *record.Build) []Alteration {
	var out []Alteration
	for _, f := range b.InOrder() {
		for i := range f.Change {
			c := &f.Change[i]
			if n := notionOf(b, c); n != nil {
				out = append(out, Alteration{Change: c, Round: f, Piece: pieceOf(b, n), notion: n.Name.V})
				continue
			}
			if s := setOnOf(b, c); s != nil {
				out = append(out, Alteration{Change: c, Round: f, Piece: s.Join[0][0].Piece, setOn: s.Name.V})
				continue
			}
			ref, ok := c.Part()
			if !ok || !c.Does() {
				continue
			}
			a := Alteration{Change: c, Round: f, Piece: ref.Piece, edge: ref.Edge}
			if c.Dart.Given() {
				a.edge, a.dart = "", ref.Edge
			}
			if c.Pleat.Given() {
				a.edge, a.pleat = "", ref.Edge
			}
			if c.Line.Given() {
				a.edge, a.line = "", ref.Edge
			}
			if c.Gather.Given() {
				a.edge, a.gather = "", ref.Edge
			}
			out = append(out, a)
		}
	}
	return out
}

// notionOf is what is set out along an edge that a change alters; nil where it alters
// none.
func notionOf(b *record.Build, c *record.Change) *record.Notion {
	if !c.Notion.Given() || !c.Does() {
		return nil
	}
	for i := range b.Notions {
		if n := &b.Notions[i]; n.Name.V == c.Notion.V && (n.SetOut() || n.InLengths()) {
			return n
		}
	}
	return nil
}

// pieceOf is the piece that a notion lies on, the first of those of its channel; "" where
// it lies on none.
func pieceOf(b *record.Build, n *record.Notion) string {
	switch {
	case n.Along.Given():
		return n.Along.V.Piece
	case len(n.Laid) > 0:
		return n.Laid[0].Piece
	}
	for _, in := range n.In {
		for i := range b.Seams {
			if s := &b.Seams[i]; s.Name.V == in.V && len(s.Join) > 0 && len(s.Join[0]) > 0 {
				return s.Join[0][0].Piece
			}
		}
		for i := range b.Finishes {
			if f := &b.Finishes[i]; f.Name.V == in.V && len(f.Of) > 0 {
				return f.Of[0].Piece
			}
		}
	}
	return ""
}

// drawnIn is how many of the alterations the outlines of the record show
// already.
func drawnIn(list []Alteration) int {
	n := 0
	for n < len(list) && list[n].Round.Drawn.V {
		n++
	}
	return n
}

// roundAt is the round after which a garment with so many alterations stands.
func roundAt(b *record.Build, list []Alteration, inForce int) int {
	switch {
	case inForce > 0 && inForce < len(list):
		return list[inForce-1].Round.Round.V
	case inForce == 0 && len(list) > 0, len(b.Fittings) == 0:
		return 0
	}
	rounds := b.InOrder()
	return rounds[len(rounds)-1].Round.V
}

// name says in a working where an alteration comes from.
func (a Alteration) name() string {
	switch {
	case a.border:
		return say.Of("garment.border-the-dart-folded-out")
	case a.Round == nil:
		return "change"
	}
	return words.Fitting(a.Round.Round.V)
}

// words says in a working what an alteration does.
func (a Alteration) words(style measure.Style) string {
	if a.border {
		return figure.AsItStands
	}
	return a.Piece + " " + ChangeWords(a.Change, style)
}

// ChangeWords says what a change does, as "side moved 4 mm outwards".
func ChangeWords(c *record.Change, style measure.Style) string {
	if c.Notion.Given() {
		return notionBecomes(c, style)
	}
	if c.Gather.Given() {
		return gatherBecomes(c, style)
	}
	if c.Slash.Given() {
		return slashBecomes(c, style)
	}
	if c.SetOn.Given() {
		return setOnBecomes(c, style)
	}
	what := c.Edge.V
	if c.Dart.Given() {
		what = say.Of("garment.dart", c.Dart.V)
	}
	if c.Pleat.Given() {
		what = c.Pleat.V
		if ref, ok := c.Part(); ok {
			what = ref.Edge
		}
		return say.Of("garment.pleats", what, pleatsBecome(c, style))
	}
	if c.Line.Given() {
		what = c.Line.V
		if ref, ok := c.Part(); ok {
			what = ref.Edge
		}
		return what + lineBecomes(c, style)
	}
	if ref, ok := c.Part(); ok {
		what = ref.Edge
		if c.Dart.Given() {
			what += say.Of("garment.dart-2")
		}
	}
	for _, part := range []struct {
		l      record.Length
		before string
		sides  [2]string
	}{
		{c.Move, say.Of("garment.moved"), [2]string{say.Of("garment.outwards"), say.Of("garment.inwards")}},
		{c.Start, say.Of("garment.moved-at-its-start"), [2]string{say.Of("garment.outwards"), say.Of("garment.inwards")}},
		{c.End, say.Of("garment.moved-at-its-end"), [2]string{say.Of("garment.outwards"), say.Of("garment.inwards")}},
		{c.Lengthen, say.Of("garment.made"), [2]string{say.Of("garment.longer"), say.Of("garment.shorter")}},
	} {
		if part.l.Given() {
			v, side := part.l.V, part.sides[0]
			if v < 0 {
				v, side = -v, part.sides[1]
			}
			what += part.before + style.Length(v) + side
		}
	}
	switch {
	case c.Curve.Given():
		what += say.Of("garment.drawn-anew")
	case c.Rotate != nil:
		what += say.Of("garment.turned-to-at", c.Rotate.To.V, style.Length(c.Rotate.Along.V))
	case c.Close.V:
		what += say.Of("garment.folded-out")
	case c.Unsewn.V:
		what += say.Of("garment.left-out")
	}
	for _, part := range []struct {
		l    record.Length
		word string
	}{{c.Width, say.Of("garment.wide")}, {c.Length, say.Of("garment.long")}} {
		if part.l.Given() {
			what += ", " + style.Length(part.l.V) + part.word
		}
	}
	if c.Dart.Given() && c.Along.Given() {
		what += say.Of("garment.at", style.Length(c.Along.V))
	}
	return what
}

// An alterer makes the changes of fittings to the pieces, or takes them back.
type alterer struct {
	*index
	alterations []Alteration // of the rounds of fitting, in order
	inForce     int          // how many of them the garment has
	step        float64      // how far the ends of a line may lie apart at a dart, mm
}

// refit applies to a piece what the rounds of fitting altered on it: undone
// where the record's outline shows more rounds than are in force.
func (w *alterer) refit(p *Piece) {
	f := &p.form
	if f.why != "" || w.named[p.Name] != p || len(w.alterations) == 0 || f.outline.Check() != nil {
		return
	}
	drawn := drawnIn(w.alterations)
	for i := drawn - 1; i >= w.inForce; i-- {
		if a := w.alterations[i]; a.Piece == p.Name && a.ofPiece() && f.why == "" {
			w.undo(p, a)
		}
	}
	for i := drawn; i < w.inForce; i++ {
		if a := w.alterations[i]; a.Piece == p.Name && a.ofPiece() {
			w.twiceAltered(p, a)
			w.shareChange(p, a)
			w.alter(p, a)
			p.refitted = true
		}
	}
}

// shareForm keeps the form that pieces like this one take over apart from its own
// as soon as a change is made to this piece alone.
func shareForm(p *Piece) {
	f := &p.form
	if f.shared == nil {
		kept := *f
		kept.outline.Edges = slices.Clone(f.outline.Edges)
		kept.notes = slices.Clone(f.notes)
		f.shared = &kept
	}
}

// shareChange makes the change in the form that others take over, where that is kept
// apart and the change is for them too.
func (w *alterer) shareChange(p *Piece, a Alteration) {
	if a.Change.Alone.V {
		shareForm(p)
		return
	}
	if p.form.shared != nil {
		told := w.faults
		w.alterForm(p, p.form.shared, a)
		w.faults = told
	}
}

// alter applies a change to a piece.
func (w *alterer) alter(p *Piece, a Alteration) {
	a.Piece = p.Name
	if a.Change.Does() && w.alterForm(p, &p.form, a) {
		w.notFollowed(p, a)
	}
}

// alterForm applies a change to a form; false where it cannot be done, which
// is told.
func (w *alterer) alterForm(p *Piece, f *form, a Alteration) bool {
	if a.Change.Slash.Given() {
		return w.slash(p, f, a)
	}
	if a.dart != "" {
		return w.alterDart(p, f, a)
	}
	if a.pleat != "" {
		return alterPleat(f, a)
	}
	if a.line != "" {
		return alterLine(f, a)
	}
	if a.gather != "" {
		return alterGather(f, a)
	}
	first, count := f.find(a.edge)
	if count == 0 || f.outline.Check() != nil {
		return false // told where it stands
	}
	if f.slit {
		w.faults.Wrong(a.Change.At, say.Of("garment.change-its-waist-or-length-or-cut"), say.Of("garment.is-a-whole-circle-in-one-piece", p.Name))
		return false
	}
	o, err := alterEdge(f.outline, first, count, f.asSeen(a.Change), f.reversed)
	if err == nil {
		err = o.Check()
	}
	if err != nil {
		w.faults.Wrong(a.Change.At, hintFor(a.Change), say.Of("garment.cannot-be", p.Name, a.edge, didWords(a.Change, w.tape()), oneLine(err)))
		return false
	}
	before := f.outline
	f.outline = o
	f.keepFromEnd(before)
	f.ring, f.skirt, f.godet = nil, nil, nil
	f.altered = append(slices.Clip(f.altered), a)
	n := len(f.notes)
	from, to := first+n-1, first+n+count
	if a.Change.Curve.Given() {
		from, to = from+1, to-1
	}
	for i := from; i <= to; i++ {
		f.mark(i%n, a)
	}
	return true
}

// mark notes on an edge what altered it, once.
func (f *form) mark(i int, a Alteration) {
	note := &f.notes[i]
	if k := len(note.altered); k == 0 || note.altered[k-1].Change != a.Change {
		note.altered = append(slices.Clip(note.altered), a)
	}
}

func hintFor(c *record.Change) string {
	switch {
	case c.Curve.Given():
		return say.Of("garment.give-it-control-points-between-which-it")
	case c.Lengthen.Given():
		return say.Of("garment.change-it-by-less-or-draw-the")
	}
	return say.Of("garment.move-it-by-less-or-draw-the")
}

func didWords(c *record.Change, tape words.Tape) string {
	switch {
	case c.Move.Given():
		return say.Of("garment.moved-by", tape.Exact(c.Move.V.MM()))
	case c.Lengthen.Given():
		return say.Of("garment.lengthened-by", tape.Exact(c.Lengthen.V.MM()))
	case c.Curve.Given():
		return say.Of("garment.drawn-anew-2")
	}
	return say.Of("garment.moved-at-its-ends")
}

// alterEdge does what a change says of an edge. reversed says that the outline
// was drawn the other way round, so that its start is now its end.
func alterEdge(o shape.Outline, first, count int, c *record.Change, reversed bool) (shape.Outline, error) {
	var err error
	last := (first + count - 1) % len(o.Edges)
	if c.Curve.Given() {
		var at []shape.Point
		for _, p := range c.Curve.V {
			at = append(at, point(p))
		}
		if len(at) != 3*count-1 {
			return o, errors.New(say.Of("garment.it-is-drawn-in-parts-which-points", count, 3*count-1))
		}
		if reversed {
			slices.Reverse(at)
		}
		o = o.Redrawn(first, at)
	}
	if c.Move.Given() && c.Move.V != 0 {
		if o, err = o.EdgeMoved(first, count, c.Move.V.MM()); err != nil {
			return o, err
		}
	}
	if start, end := c.Start.V.MM(), c.End.V.MM(); start != 0 || end != 0 {
		if reversed {
			start, end = end, start
		}
		if o, err = o.EndsMoved(first, count, start, end); err != nil {
			return o, err
		}
	}
	if by := c.Lengthen.V.MM(); by != 0 {
		at := last
		if reversed {
			at = first
		}
		if o, err = o.Lengthened(at, by, reversed); err != nil {
			return o, err
		}
	}
	return o, nil
}

// undo takes a change of a round out of an outline that was drawn with it.
func (w *alterer) undo(p *Piece, a Alteration) {
	f := &p.form
	if a.Change.Alone.V {
		shareForm(p)
	}
	for _, each := range []*form{f, f.shared} {
		if each == nil || each == f.shared && a.Change.Alone.V {
			continue
		}
		first, count := each.find(a.edge)
		if a.Change.Slash.Given() || a.dart != "" || a.pleat != "" || a.line != "" || a.gather != "" || a.Change.Curve.Given() || count == 0 {
			each.why = say.Of("garment.the-is-drawn-into-its-outline-and", words.Fitting(a.Round.Round.V))
			continue
		}
		o, err := each.outline.Before(func(x shape.Outline) (shape.Outline, error) {
			return alterEdge(x, first, count, each.asSeen(a.Change), each.reversed)
		})
		if err != nil {
			each.why = say.Of("garment.the-is-drawn-into-its-outline-and-2", words.Fitting(a.Round.Round.V), err)
			continue
		}
		drawn := each.outline
		each.outline = o
		each.keepFromEnd(drawn)
		each.ring, each.skirt, each.godet = nil, nil, nil
	}
}

// twiceAltered warns of a change to a piece that has followed the same change
// of the piece it is like already.
func (w *alterer) twiceAltered(p *Piece, a Alteration) {
	for _, b := range p.form.altered {
		if b.Round == a.Round && b.Piece != p.Name && b.edge == a.edge && b.dart == a.dart && b.pleat == a.pleat && b.line == a.line && b.gather == a.gather {
			w.faults.LookAgain(a.Change.At, say.Of("garment.leave-it-out-or-write-alone-true"),
				say.Of("garment.follows-line-so-this-moves-it-twice", p.Name, b.Piece, b.Change.At.Line)).
				Set(cmp.Or(b.Change.Edge.At, b.Change.Whole.At), "move", "alone: true")
			return
		}
	}
}

// notFollowed warns where a piece's own drawing keeps a round's change to the
// piece it is like from reaching it.
func (w *alterer) notFollowed(p *Piece, a Alteration) {
	if a.Round != nil || !a.Change.Curve.Given() {
		return
	}
	for _, b := range p.form.altered {
		if b.Round != nil && b.edge == a.edge && b.edge != "" {
			w.faults.LookAgain(a.Change.At, say.Of("garment.draw-this-curve-anew-too"),
				say.Of("garment.has-a-curve-of-its-own-and", p.Name, a.edge, words.Fitting(b.Round.Round.V), b.Change.At.Line))
			return
		}
	}
}

// ownDarts warns where darts of a piece's own keep a round's change to a dart
// of the piece it is like from reaching it.
func (w *alterer) ownDarts(p *Piece) {
	if len(p.Record.Darts) == 0 || !p.Record.Like.Given() {
		return
	}
	for _, b := range p.form.altered {
		if b.Round != nil && b.dart != "" {
			w.faults.LookAgain(p.Record.Darts[0].At, say.Of("garment.change-its-dart-too-or-leave-its"),
				say.Of("garment.has-darts-of-its-own-and-did", p.Name, words.Fitting(b.Round.Round.V), b.Change.At.Line))
			return
		}
	}
}

// alterEach changes those of a form's pleats, gathers or lines that an alteration is of,
// in a copy, since other states of the piece have the list too; false where there are none.
func alterEach[T any](f *form, list *[]T, a Alteration, meant func(*T) bool, change func(*T)) (done bool) {
	*list = slices.Clone(*list)
	for i := range *list {
		if one := &(*list)[i]; meant(one) {
			change(one)
			done = true
		}
	}
	if done {
		f.altered = append(slices.Clip(f.altered), a)
	}
	return done
}
