package garment

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// Topstitching and edge stitching: rows beside a seam, or inside a finished edge, that its
// type does not have. They are further passes of its type; on the pieces they run inside
// the sewing line.

// A besides is rows as the record has them, of one word.
type besides struct {
	*record.RowsBeside
	do string // trade.Topstitch or trade.EdgeStitch
}

// has reports whether one of the rows lies at that distance, mm.
func (r besides) has(d float64) bool {
	return slices.ContainsFunc(r.Rows, func(at record.Length) bool { return at.Given() && at.V.MM() == d })
}

// besidesOf are the rows that a record has beside one seam or finish, those nearest the
// edge first.
func besidesOf(top, edge *record.RowsBeside) (out []besides) {
	for _, r := range [...]besides{{edge, trade.EdgeStitch}, {top, trade.Topstitch}} {
		if r.Given() {
			out = append(out, r)
		}
	}
	return out
}

// A besideRow is one of them, of which the type has the pass.
type besideRow struct {
	spec besides
	at   record.Length
}

// A besided is a seam or a finish that rows are put beside.
type besided struct {
	name   string
	kind   *seamType
	params trade.Params
	pieces [2][]*Piece // on its sides
	list   []besides
}

// besideSeam puts rows beside a seam: its type has them from now on.
func (w *derivation) besideSeam(s *Seam) {
	list := besidesOf(&s.Record.Topstitch, &s.Record.EdgeStitch)
	if len(list) == 0 {
		return
	}
	b := &besided{s.Name, s.kind, s.Params, s.firstPieces(), list}
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if !slices.Contains(b.pieces[i], u.Piece) {
				b.pieces[i] = append(b.pieces[i], u.Piece)
			}
		}
	}
	b.list = w.seen(b)
	s.Type, s.besides = w.beside(b, s.Type)
}

// besideFinish puts rows inside a finished edge.
func (w *derivation) besideFinish(f *Finish) {
	list := besidesOf(&f.Record.Topstitch, &f.Record.EdgeStitch)
	if len(list) == 0 {
		return
	}
	b := &besided{f.Name, f.kind, f.Params, f.firstPiece(), list}
	for i := range list {
		if t := list[i].Towards; t.Given() {
			w.faults.Wrong(t.At, say.Of("garment.leave-it-out"), say.Of("garment.a-finished-edge-has-one-side-and", f.Name)).Without(t.At)
		}
	}
	b.list = w.seen(b)
	f.Type, f.besides = w.beside(b, f.Type)
}

// beside is a type with the rows that lie where they hold something; of the others it is
// told.
func (w *derivation) beside(b *besided, t trade.SeamType) (trade.SeamType, []besideRow) {
	var rows []trade.Beside
	var kept []besideRow
	for _, r := range b.list {
		w.rows.knownStitch(r.Stitch)
		on, turned := w.sidesFor(b, t, r)
		if turned {
			t = t.Turned()
		}
		for _, at := range r.Rows {
			if len(on) == 0 || !at.Given() || !w.holds(b, t, r, on, at) {
				continue
			}
			row := trade.Beside{Do: r.do, At: at.V.MM(), On: on, Stitch: cmp.Or(r.Stitch.V, lockstitch)}
			if slices.ContainsFunc(rows, func(o trade.Beside) bool { return math.Abs(o.At-row.At) < 0.5 }) {
				w.faults.LookAgain(at.At, say.Of("garment.leave-one-of-them-out"), say.Of("garment.two-rows-lie-from-it", b.name, w.tape().Exact(row.At)))
				continue
			}
			rows, kept = append(rows, row), append(kept, besideRow{r, at})
		}
	}
	return t.With(b.params, rows), kept
}

// sidesFor are the sides of the section on which rows lie: where they hold something, and
// where that is so on the piece that they are said to lie on. turned where the allowances
// are to be pressed the other way for that.
func (w *derivation) sidesFor(b *besided, t trade.SeamType, r besides) (on []trade.Half, turned bool) {
	for _, side := range [...]trade.Half{trade.LeftHalf, trade.RightHalf} {
		if _, most, err := t.Held(b.params, side); err == nil && most > 0 {
			on = append(on, side)
		}
	}
	if len(on) == 0 {
		w.faults.Wrong(r.At, say.Of("garment.leave-it-out-or-sew-it-so"), say.Of("garment.holds-nothing-beside-it-that-a-row", b.name, t.Name))
		return nil, false
	}
	if t.Kind == trade.Finish || !r.Towards.Given() {
		return on, false
	}
	side, ok := w.sideOf(b, r)
	switch {
	case !ok:
		return nil, false
	case t.MayTurn():
		return on, side == trade.RightHalf
	case slices.Contains(on, side):
		return []trade.Half{side}, false
	}
	w.faults.Wrong(r.Towards.At, say.Of("garment.leave-towards-out-or-let-the-edges"), say.Of("garment.a-lies-on-not-on", b.name, t.Name, b.pieces[1-side][0].Name, r.Towards.V))
	return nil, false
}

// sideOf is the side of the piece that rows are said to lie on; false where it is none of
// the seam's.
func (w *derivation) sideOf(b *besided, r besides) (trade.Half, bool) {
	var names []string
	for side, list := range b.pieces {
		for _, p := range list {
			if p.Name == r.Towards.V {
				return trade.Half(side), true
			}
			names = append(names, p.Name)
		}
	}
	w.faults.Wrong(r.Towards.At, meant.Hint(r.Towards.V, names), say.Of("garment.it-does-not-join", b.name, r.Towards.V)).Instead(r.Towards.V, meant.Nearest(r.Towards.V, names))
	return 0, false
}

// holds reports whether a row lies where it holds something, and tells of one that does
// not, and of one that its type has there already.
func (w *derivation) holds(b *besided, t trade.SeamType, r besides, on []trade.Half, at record.Length) bool {
	d := at.V.MM()
	for _, side := range on {
		if t.HasRow(b.params, side, d) {
			w.faults.LookAgain(at.At, say.Of("garment.leave-it-out"), say.Of("garment.has-a-row-from-it-already", b.name, t.Name, w.tape().Exact(d)))
			return false
		}
		if t.RowHolds(b.params, side, d) {
			continue
		}
		least, most, _ := t.Held(b.params, side)
		from, lies := say.Of("garment.from-the-seam"), say.Of("garment.its-allowances-which-are-wide-there", w.tape().Exact(most))
		if t.Kind == trade.Finish {
			from, lies = say.Of("garment.from-the-edge"), say.Of("garment.what-is-turned-in-or-sewn-under", w.tape().Exact(most))
		}
		hint, proposed := say.Of("garment.let-it-lie-at-most", w.written(most-1), from), ""
		if d <= least {
			hint, lies = say.Of("garment.let-it-lie-farther-off"), say.Of("garment.what-lies-under-it-which-begins-from", w.tape().Exact(least))
		} else if math.Mod(d, 10) == 0 && t.RowHolds(b.params, side, d/10) && !r.has(d/10) { // a point was left out
			hint = say.Of("garment.was-meant-it-lies-at-most", w.written(d/10), w.written(most-1), from)
			proposed = w.written(d / 10)
		}
		f := w.faults.Wrong(at.At, hint, say.Of("garment.a-row-misses", b.name, w.tape().Exact(d), from, lies))
		if proposed != "" {
			f.InsteadAt(at.At, "", proposed)
		}
		return false
	}
	return true
}

// seen are the rows of a seam or finish without those that are only usual, where it lies in
// a lining. It notes rows over a zip, whose type has rows of its own, and on a lining, where
// nobody sees them.
func (w *derivation) seen(b *besided) (out []besides) {
	lining := func(p *Piece) bool {
		return len(p.Of) > 0 && !slices.ContainsFunc(p.Of, func(part string) bool { return part != "lining" })
	}
	all := append(slices.Clone(b.pieces[0]), b.pieces[1]...)
	inLining := len(all) > 0 && !slices.ContainsFunc(all, func(p *Piece) bool { return !lining(p) })
	for _, r := range b.list {
		switch {
		case inLining && w.b.UsualRows(r.RowsBeside):
			continue
		case b.kind.Opens():
			w.faults.LookAgain(r.At, say.Of("garment.leave-it-out-or-let-the-zip"), say.Of("garment.rows-beside-it-run-over-its-zip", b.name, b.kind.Name))
		case inLining:
			w.faults.LookAgain(r.At, say.Of("garment.leave-it-out-unless-it-is-to"), say.Of("garment.it-lies-in-the-lining-where-nobody", b.name))
		}
		out = append(out, r)
	}
	return out
}

// rowsBeside adds rows beside a seam or finish: the last passes of its type.
func (w *stitching) rowsBeside(t *trade.SeamType, kind *seamType, of Row, list []besideRow, params trade.Params, sides [2][]*Piece) {
	first := len(t.Passes) - len(list)
	for i, b := range list {
		pass := &t.Passes[first+i]
		r := of
		r.Pass, r.pass, r.params = first+i+1, pass, params
		r.Rows, r.Stitch, r.Beside, r.set = pass.Rows, pass.Stitch, b.spec.do, &b.spec.Setting
		if b.spec.Thread.Given() {
			r.Thread = b.spec.Thread.V
		}
		if s := w.stitches[r.Stitch]; s != nil {
			r.Hand = s.Hand
		}
		r.plies = pliesOf(pass, parted(kind, sides))
		w.sewsRow(r)
	}
}

// A BesideLine is a row beside a seam, or inside a finished edge, where it runs on a piece.
type BesideLine struct {
	Of   string // the seam or finish
	Do   string // trade.Topstitch or trade.EdgeStitch, or the type of a finish that is rows and nothing else
	Edge string
	At   float64 // how far inside the edge, mm; outside it where negative
	Line []shape.Point
}

// besideOnPieces lays rows beside seams, inside finished edges, and those of finishes that
// are rows alone, on the pieces that they run on.
func (w *stitching) besideOnPieces() {
	for _, s := range w.g.Seams {
		for _, row := range s.Type.Beside() {
			for _, on := range row.On {
				side := int(on)
				if s.Type.IsTurned() {
					side = 1 - side
				}
				w.layBeside(s.Sides[side].Edges, s.Name, row)
			}
		}
	}
	for _, f := range w.g.Finishes {
		for _, row := range f.Type.Beside() {
			w.layBeside(f.Edges, f.Name, row)
		}
		if f.rowsOnly() {
			for _, in := range f.Type.OwnRows(f.Params) {
				w.layBeside(f.Edges, f.Name, trade.Beside{Do: f.Type.Name, At: in})
			}
		}
	}
}

func (w *stitching) layBeside(list []EdgeUse, of string, row trade.Beside) {
	const step = 2 // mm, along the edge
	for _, u := range list {
		length, ok := u.Piece.Outline.LengthOf(u.Edge.Name)
		if !ok || length <= 0 || u.Edge.line != nil {
			continue
		}
		if slices.ContainsFunc(u.Piece.Beside, func(l BesideLine) bool { return l.Of == of && l.Edge == u.Edge.Name && l.At == row.At }) {
			continue // both sides of the seam are this edge
		}
		line := insideLine(u.Piece, u.Edge.Name, length, row.At, max(int(length/step), 2))
		if len(line) > 1 {
			u.Piece.Beside = append(u.Piece.Beside, BesideLine{Of: of, Do: row.Do, Edge: u.Edge.Name, At: row.At, Line: line})
		}
	}
}

// BesideWords say of a piece, row by row of each seam, what runs beside which edges and how
// far inside: "topstitch 6 mm inside side".
func (p *Piece) BesideWords() (out []string) {
	for _, l := range p.Beside {
		off := strconv.FormatFloat(math.Abs(l.At), 'f', -1, 64)
		if l.At < 0 {
			out = append(out, say.Of("garment.mm-outside", l.Do, off, l.Edge))
		} else {
			out = append(out, say.Of("garment.mm-inside", l.Do, off, l.Edge))
		}
	}
	return out
}
