package garment

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// zipsOpen warns of zips that open nothing, and of linings that are sewn shut behind one.
func (w *doubter) zipsOpen() {
	for i := range w.notions {
		n := &w.notions[i]
		if !isZip(n) || w.faults.HasErrors() {
			continue
		}
		if n.SetOut() {
			w.zipPlaced(n)
			if use, ok := w.use(n.Along.V); ok && w.opensBy(n) {
				w.shutBehind(n, use.Edge)
			}
			continue
		}
		if !n.Along.Given() {
			w.zipNowhere(n)
			continue
		}
		use, ok := w.use(n.Along.V)
		switch {
		case !ok || slices.Contains(w.g.Apart, use.Piece.Name):
		case !n.Length.Given() && use.Edge.seam != nil && w.opensBy(n):
			w.faults.LookAgain(n.Along.At, say.Of("garment.say-how-long-it-is-as-length", w.written(200)), say.Of("garment.has-no-length-so-it-opens-all", n.Name.V, use.Edge.ref, w.tape().About(use.Edge.sewn)))
		case w.opensBy(n):
			w.shutBehind(n, use.Edge)
		case use.Edge.inLine(): // the surface opens no seam of lines, and the figures do
		default:
			w.faults.LookAgain(n.Along.At, say.Of("garment.name-the-edge-that-it-opens-as", w.seamedEdge(use.Edge)), say.Of("garment.nothing-of-is-left-open-for", use.Edge.ref, n.Name.V))
		}
	}
}

// hookRoom is how far below the upper end of its edge a zip may begin, so that a hook has
// room above it, mm (own choice, no source).
const hookRoom = 15.0

// zipPlaced warns of a zip that is said to lie at a place: it opens its edge from the upper
// end on, for as long as it is.
func (w *doubter) zipPlaced(n *record.Notion) {
	use, ok := w.use(n.Along.V)
	if !ok {
		return
	}
	upper, lower := use.Edge.neighbour(true), use.Edge.neighbour(false)
	atTop := func(at record.Where) bool { return at.V.From == upper && at.V.By.MM() <= hookRoom }
	told := func(at record.Where, hint string) {
		says := say.Of("garment.opens-from-not", n.Name.V, use.Edge.ref, upper, zipPlace(w, at))
		if at.V.From != "" && at.V.By == 0 {
			says = say.Of("garment.opens-from-not-from", n.Name.V, use.Edge.ref, upper, at.V.From)
		}
		w.faults.LookAgain(at.At, hint, says).Without(at.At)
	}
	switch first, last, place := n.First, n.Last, n.Place; {
	case place.Given():
		told(place, say.Of("garment.leave-at-out-length-says-how-far"))
	case first.V.From == lower && lower != upper:
		told(first, say.Of("garment.leave-first-out-the-lower-end-is"))
	case last.Given() && atTop(last):
		w.faults.LookAgain(last.At, say.Of("garment.leave-last-out-its-upper-end-lies"), say.Of("garment.opens-from-downwards", n.Name.V, use.Edge.ref, upper)).Without(last.At)
	case last.Given():
		told(last, say.Of("garment.leave-last-out-and-say-its-length"))
	case first.Given() && !atTop(first):
		told(first, say.Of("garment.leave-first-out-or-sew-the-part"))
	}
}

// zipPlace is a place as it is told: "400 from waist".
func zipPlace(w *doubter, at record.Where) string {
	switch {
	case at.V.Middle:
		return say.Of("garment.the-middle")
	case at.V.From == "":
		return w.written(at.V.By.MM())
	}
	return say.Of("garment.from", w.written(at.V.By.MM()), at.V.From)
}

// inLine reports whether a seam sews an edge with others end to end.
func (e *PieceEdge) inLine() bool {
	return e.seam != nil && len(e.seam.Sides[0].Edges) > 1 && len(e.seam.Sides[1].Edges) > 1
}

// zipNowhere warns of a zip of which no edge is named, in a garment that has seams and
// is opened by nothing else; one that lies nowhere on the body is that of a pocket.
func (w *doubter) zipNowhere(n *record.Notion) {
	if len(w.g.Seams) == 0 || len(w.slits) > 0 || len(n.In) > 0 || n.Where.V == "other" {
		return
	}
	w.faults.LookAgain(n.Name.At, say.Of("garment.say-which-edge-it-opens-as-along", w.seamedEdge(nil)), say.Of("garment.no-edge-is-named-for-every-seam", n.Name.V))
}

// seamedEdge is an edge that a zip is most often set in: a centre back, a side; of the
// piece of an edge that is none, where one is given.
func (w *doubter) seamedEdge(of *PieceEdge) string {
	for _, word := range []string{"centre", "center", "side"} {
		for _, p := range w.g.Pieces {
			for k := range p.Edges {
				if e := &p.Edges[k]; e != of && (of == nil || of.piece == p) && e.seam != nil && words.AnyOf(e.Name, []string{word}) {
					return e.ref
				}
			}
		}
	}
	return "back.centre"
}

// opensBy reports whether a notion opens and closes anything.
func (w *doubter) opensBy(n *record.Notion) bool {
	s := w.g.Sewn
	return slices.ContainsFunc(s.Joins, func(j sewn.Join) bool {
		return j.Kind == sewn.Closing && s.Plan.Closures[j.By].Name == n.Name.V
	})
}

// shutBehind warns of a lining whose edge behind a zip is sewn whole.
func (w *doubter) shutBehind(n *record.Notion, e *PieceEdge) {
	if !n.Length.Given() || e.seam == nil {
		return
	}
	for _, p := range w.g.Pieces {
		own := p.edgeCalled(e.Name)
		if !lines(p, e.piece) || own == nil || own.seam == nil || own.seam.broken || own.note.whole != "" || !behindAlone(own.seam) {
			continue
		}
		open := n.Length.V.MM()
		if own.sewn-open < shutLeast {
			continue
		}
		if other := p.openBeside(e, open); other != "" {
			w.faults.LookAgain(n.Along.At, say.Of("garment.did-you-mean-if-not-leave-it", other), say.Of("garment.the-lining-is-open-behind", other, n.Name.V, e.ref)).
				InsteadAt(n.Along.At, e.ref, other)
			return
		}
		w.faults.LookAgain(own.seam.Record.At, w.sewnBelow(own.seam, open),
			say.Of("garment.is-sewn-up-to-the-top-behind", say.Quoted(own.seam.Name), w.tape().About(open), e.ref, n.Name.V))
		return
	}
}

// openBeside is the edge of a shell, other than the one given, behind which its lining has
// an edge that is left open for as much as a zip is long; "" where there is none.
func (p *Piece) openBeside(e *PieceEdge, open float64) string {
	for k := range p.Edges {
		part := &p.Edges[k]
		other := e.piece.edgeCalled(part.note.whole)
		if part.seam == nil && part.finish == nil && other != nil && other != e && math.Abs(part.sewn-open) <= zipOver {
			return other.ref
		}
	}
	return ""
}

// sewnBelow tells how a seam of one edge to a side is written that leaves so much open at
// its upper end.
func (w *doubter) sewnBelow(s *Seam, open float64) string {
	if from := w.sewnFrom(s, "", open); from != "" {
		return say.Of("garment.sew-it-below-the-zip-only", from)
	}
	return say.Of("garment.leave-as-much-of-it-open")
}

// sewnFrom is how a seam of one edge to a side is written that leaves so much open at one
// end, sewn from the edge called so that lies at the other; "" for the lower one of each.
func (w *index) sewnFrom(s *Seam, from string, open float64) string {
	var parts []string
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			at := from
			if at == "" || at != u.Edge.neighbour(true) && at != u.Edge.neighbour(false) {
				at = u.Edge.neighbour(false)
			}
			parts = append(parts, u.Edge.ref+" from "+at+" for "+w.written(u.Edge.sewn-open))
		}
	}
	if len(parts) != 2 {
		return ""
	}
	return s.Name + ": [" + strings.Join(parts, ", ") + "]"
}

// shutLeast is how much of a lining's edge is sewn, at least, where it can be told from
// one that is left open whole, mm.
const shutLeast = 10

// lines reports whether a piece is the lining of another: like it or called after it,
// and a lining by its cloth or its name.
func lines(p, shell *Piece) bool {
	if p == shell || !cutIn(p, "lining") && !words.AnyOf(p.Name, []string{"lining"}) || cutIn(shell, "lining") {
		return false
	}
	name := strings.TrimSpace(strings.ReplaceAll(words.Plain(p.Name), "lining", ""))
	return alike(p, shell) || name == words.Plain(shell.Name)
}

// behindAlone reports whether a seam joins linings to each other, and to nothing of the
// shell, nor leaves open what its type has a zip for.
func behindAlone(s *Seam) bool {
	if s.kind != nil && s.kind.Opens() {
		return false
	}
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			if !cutIn(u.Piece, "lining") && !words.AnyOf(u.Piece.Name, []string{"lining"}) {
				return false
			}
		}
	}
	return true
}

// neighbour is the name of the edge that an edge meets at its upper end, or at its lower
// one.
func (e *PieceEdge) neighbour(upper bool) string {
	p := e.piece
	at := slices.IndexFunc(p.Edges, func(o PieceEdge) bool { return o.Name == e.Name })
	by := 1
	if rises := e.corner(false).Y < e.corner(true).Y; rises != upper {
		by = len(p.Edges) - 1
	}
	return p.Edges[(at+by)%len(p.Edges)].Name
}
