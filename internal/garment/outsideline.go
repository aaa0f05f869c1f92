package garment

import (
	"slices"

	"hembook/internal/record"
)

// withoutPlaces leaves out of a lining that is like a piece of the outside the lines of
// that on which something is put there, as a strap or a pocket: all that are neither cut
// nor folded, and that nothing names on the lining itself.
func (w *derivation) withoutPlaces(p, other *Piece) {
	if !onlyLining(p.Record.Of) || onlyLining(other.form.of) {
		return
	}
	f := &p.form
	f.lines = slices.DeleteFunc(slices.Clone(f.lines), func(l record.LineSpec) bool {
		return !l.Slit.V && !l.Fold.V && !w.namesLine(p.Record, l.Name.V)
	})
}

// onlyLining reports whether a piece is cut in lining, and beside it in nothing but what
// backs it.
func onlyLining(of record.List[record.Text]) bool {
	lining := false
	for _, part := range of {
		switch LayerOf(part.V) {
		case "lining":
			lining = true
		case "":
		default:
			return false
		}
	}
	return lining
}

// namesLine reports whether a seam, a finish, a notion or an alteration names a line of a
// piece.
func (w *derivation) namesLine(p *record.Piece, line string) bool {
	is := func(e record.EdgeRef) bool { return e.Piece == p.Name.V && e.Edge == line }
	return slices.ContainsFunc(w.b.Seams, func(s record.Seam) bool {
		return slices.ContainsFunc(s.Join, func(side record.List[record.EdgeRef]) bool { return slices.ContainsFunc(side, is) })
	}) ||
		slices.ContainsFunc(w.b.Finishes, func(f record.Finish) bool { return slices.ContainsFunc(f.Of, is) }) ||
		slices.ContainsFunc(w.b.Notions, func(n record.Notion) bool { return is(n.Along.V) || is(n.HolesOn.V) }) ||
		slices.ContainsFunc(Alterations(w.b), func(a Alteration) bool { return a.Piece == p.Name.V && a.line == line })
}
