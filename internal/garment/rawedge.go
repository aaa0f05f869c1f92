package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/words"
)

// mostLoose is the part of the edges of the joined pieces that may be loose for that
// to be told in a record without an order of work: one in which more is has not come so
// far yet.
const mostLoose = 1.0 / 3

// farEnough reports whether a record has come so far that an edge left raw is a slip: it
// has an order of work, or finishes others. What errors bring with them is not told.
func (w *opener) farEnough(loose int) bool {
	switch {
	case w.faults.HasErrors():
		return false
	case w.planned:
		return true
	}
	all := 0
	for _, p := range w.g.Pieces {
		if !slices.Contains(w.g.Apart, p.Name) {
			all += len(p.Edges)
		}
	}
	return len(w.g.Finishes) > 0 && float64(loose) <= mostLoose*float64(all)
}

// tellLoose warns of outer edges that are neither joined nor finished: once of all of
// which no more is known.
func (w *opener) tellLoose(list []*PieceEdge) {
	if !w.farEnough(len(list)) {
		return
	}
	var raw []*PieceEdge
	for _, e := range list {
		switch {
		case e.Fold: // that its piece is not cut on the fold is told
		case e.seam != nil: // a seam names it, which could not be put together
		case e.meant: // the seam that it is proposed for tells of it
		case e.note.whole != "":
			w.faults.LookAgain(e.note.at, say.Of("garment.name-that-part-too-or-the-edge"), say.Of("garment.the-rest-of-is-joined-to-nothing", e.piece.Name, e.note.whole, w.tape().About(e.sewn)))
		case e.mayFold():
			w.faults.LookAgain(e.note.at, say.Of("garment.does-it-lie-on-the-fold-fold", e.Name), say.Of("garment.is-joined-to-nothing-and-not-finished", e.ref))
		default:
			raw = append(raw, e)
		}
	}
	if len(raw) > 0 {
		w.tellRaw(raw)
	}
}

// tellFacings warns of strips shaped like the edges that they face which no seam names:
// their finish alone sews nothing on.
func (w *opener) tellFacings() {
	if !w.farEnough(0) || len(w.g.Seams) == 0 {
		return
	}
	for _, name := range w.g.Apart {
		p := w.named[name]
		if p == nil || p.Record.Border == nil || len(p.Record.Border.Along) == 0 || len(p.Of) == 0 || !sewnApart(p.Of[0]) {
			continue
		}
		along := p.Record.Border.Along[0]
		w.faults.LookAgain(p.Record.At, say.Of("garment.write-a-seam-for-the-facing", along.String(), name+"."+along.Edge), say.Of("garment.is-in-no-seam", name))
	}
}

// mostNamed is how many raw edges are named in one fault.
const mostNamed = 6

// tellRaw warns of all the raw edges of a garment at once, where the first is written.
func (w *opener) tellRaw(raw []*PieceEdge) {
	are, them := "are", "them"
	if len(raw) == 1 {
		are, them = "is", "it"
	}
	slices.SortStableFunc(raw, func(a, b *PieceEdge) int { return w.placeIn(a.piece) - w.placeIn(b.piece) })
	named := rawRefs(raw)
	if more := len(named) - mostNamed; more > 1 {
		named = append(named[:mostNamed:mostNamed], say.Of("garment.more", strconv.Itoa(more)))
	}
	w.faults.LookAgain(raw[0].note.at, w.finishMeant(raw, them), say.Of("garment.joined-to-nothing-and-not-finished", meant.List(named, "and"), are))
}

// placeIn is where in the record's order a piece stands.
func (w *opener) placeIn(p *Piece) int { return slices.Index(w.g.Pieces, p) }

func rawRefs(list []*PieceEdge) (out []string) {
	for _, e := range list {
		out = append(out, e.ref)
	}
	return out
}

// finishMeant says what was probably meant by raw edges: one more in a finish of others
// called so, a hem, or what closes or neatens any edge.
func (w *opener) finishMeant(raw []*PieceEdge, them string) string {
	for _, f := range w.g.Finishes {
		if add := f.alike(raw); len(add) > 0 {
			return f.withThese(add, len(raw), them)
		}
	}
	var hems []string
	for _, e := range raw {
		if called := openingCalled(e.Name); called == "hem" || called == "wrist" || e.Level == "hem" {
			hems = append(hems, e.ref)
		}
	}
	if len(hems) == 0 {
		return say.Of("garment.join-in-a-seam-or-finish-under", them)
	}
	kind := "double-turned-hem"
	if c := w.clothOf(raw[0].piece); c != nil && (c.Structure.V == "knitted" || c.Stretch.Given()) {
		kind = "twin-needle-hem"
	}
	return say.Of("garment.finish-under-finishes-as-hem-type-type", them, listed(hems), kind)
}

// alike are the edges that are called as one that a finish makes neat.
func (f *Finish) alike(raw []*PieceEdge) (out []*PieceEdge) {
	if f.Record.Type.V == "raw" {
		return nil
	}
	for _, e := range raw {
		if slices.ContainsFunc(f.Edges, func(u EdgeUse) bool { return u.Edge.Name == e.Name && u.Edge.line == nil }) {
			out = append(out, e)
		}
	}
	return out
}

// withThese says how a finish takes in edges, of so many that are raw.
func (f *Finish) withThese(add []*PieceEdge, all int, them string) string {
	var of []string
	for _, u := range f.Edges {
		of = append(of, u.Edge.ref)
	}
	whole := say.Of("garment.to-of", f.Name, strings.Join(append(of, rawRefs(add)...), ", "))
	if len(add) == all {
		return say.Of("garment.add", them, whole)
	}
	return say.Of("garment.add-join-the-others-or-finish-them", meant.List(rawRefs(add), "and"), whole)
}

// listed is names as a record has them: one alone, several in brackets.
func listed(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return "[" + strings.Join(names, ", ") + "]"
}

// mayFold reports whether an edge is called as one that lies on a fold, runs along the
// grain, and is the last of a drawn outline without one.
func (e *PieceEdge) mayFold() bool {
	o := e.piece.Record.Outline
	if o == nil || o.File.Given() || e.piece.Record.Pair != "" || e.piece.Outline.FoldEdge() >= 0 || !words.AnyOf(e.Name, []string{"centre", "center", "middle"}) {
		return false
	}
	return math.Abs(e.corner(false).X-e.corner(true).X) < 1e-6
}
