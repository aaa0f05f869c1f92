package garment

import (
	"math"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// buttonsByTenth asks about the first and the last of buttons that lie so near the end of
// their line that no stand is left beyond them, where ten times as far was probably meant.
func (w *doubter) buttonsByTenth() {
	for i := range w.notions {
		n := &w.notions[i]
		p := w.named[n.Along.V.Piece]
		if p == nil || !p.sound() || !n.NeedsHoles() || !n.SetOut() {
			continue
		}
		w.byTenth(p, n, n.First)
		w.byTenth(p, n, n.Last)
	}
}

// byTenth asks about one place, if a button lies there.
func (w *doubter) byTenth(p *Piece, n *record.Notion, at record.Where) {
	by, along := at.V.By.MM(), p.formerly(n.Along.V.Edge)
	long, ok := p.form.lengthAlong(along)
	if !ok || by <= 0 || by >= n.Size.V.MM()/2+standBeyond || 10*by > long/2 {
		return
	}
	for k := range p.Chalked {
		c := &p.Chalked[k]
		if c.Notion != n.Name.V || c.HoleOnly || c.Open && c.leaves(&p.form.outline) != nil {
			continue // told where its buttonhole runs off the piece
		}
		lies := p.form.nearestAlong(along, c.At)
		if end := min(lies, long-lies); end < by-1 || end > by+1 || p.awayFrom(at.V.From, c.At) > by+1 {
			continue // from a mark within the line; or the edge runs away from it, as a V neck does
		}
		now := say.Of("garment.from", w.written(10*by), at.V.From)
		w.faults.LookAgain(at.At, say.Of("garment.did-you-mean-if-not-leave-it", now), say.Of("garment.a-button-lies-so-near-the-end", n.Name.V, w.tape().Exact(by), w.tape().Exact(n.Size.V.MM()))).
			InsteadAt(at.At, "", now)
		return
	}
}

// awayFrom is how far a point lies from an edge of its piece, mm; without end where it has
// no such edge.
func (p *Piece) awayFrom(edge string, q shape.Point) float64 {
	e := p.edgeCalled(edge)
	if e == nil {
		return math.Inf(1)
	}
	name := p.form.called(p.formerly(edge))
	length, _ := p.form.outline.LengthOf(name)
	near, _, ok := p.form.outline.PointOn(name, nearestAlong(p.form.outline, name, length, q))
	if !ok {
		return math.Inf(1)
	}
	return far(near, q)
}

// holesWithButtons tells of a row of buttons that is said for one of a pair, and their
// buttonholes with it: the other one has nothing to button to.
func (w *doubter) holesWithButtons() {
	for i := range w.notions {
		n := &w.notions[i]
		p := w.named[n.Along.V.Piece]
		if p == nil || p.Record.Pair == "" || !n.NeedsHoles() || n.HolesOn.Given() || !n.SetOut() || n.Place.Given() || words.AnyOf(p.Name, limbPieces) {
			continue
		}
		w.faults.LookAgain(n.Along.At, say.Of("garment.did-you-mean-if-not-leave-it", p.Record.Pair+"."+n.Along.V.Edge), say.Of("garment.and-their-buttonholes-both-lie-on", n.Name.V, p.Name)).
			InsteadAt(n.Along.At, p.Name, p.Record.Pair)
	}
}
