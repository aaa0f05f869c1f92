package garment

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// mostStitched is the share of its length that a pleat is seldom stitched down beyond: one
// that is stitched nearly all its length is called a tuck (common practice, no source).
const mostStitched = 0.8

// leastStitched is how long, in mm, a pleat is stitched at least for a tenth of it to be meant.
const leastStitched = 200

// stitchedShut asks about pleats that are stitched down nearly all their length.
func (w *doubter) stitchedShut() {
	told := map[fault.Pos]bool{}
	for _, p := range w.g.Pieces {
		for i := range p.PleatFolds {
			q := &p.PleatFolds[i]
			if at := q.Record.Stitched.At; !told[at] && w.nearlyTuck(p, q) {
				told[at] = true
			}
		}
	}
}

// nearlyTuck asks about one pleat; false where there is nothing to ask.
func (w *doubter) nearlyTuck(p *Piece, q *PleatFold) bool {
	down, long := q.Record.Stitched, q.Lines.Place.Length()
	s := down.V.By.MM()
	if q.Whole || !down.Given() || down.V.Level != "" || s < leastStitched || s <= mostStitched*long || s > long {
		return false
	}
	w.doubt(record.Length{V: down.V.By, At: down.At}, true, "", say.Of("garment.the-pleats-of-are-stitched-down-of", p.Name, q.Edge, w.tape().Exact(s), w.tape().About(long)))
	return true
}

// buttonsClose asks about buttons whose buttonholes, along their line, nearly meet.
func (w *doubter) buttonsClose() {
	told := map[string]bool{}
	for _, p := range w.g.Pieces {
		for k := 1; k < len(p.Chalked); k++ {
			a, b := &p.Chalked[k-1], &p.Chalked[k]
			apart, hole := a.At.Apart(b.At), b.Hole[0].Apart(b.Hole[1])
			upright := math.Abs(b.Hole[0].Apart(a.At)-b.Hole[1].Apart(a.At)) > hole/2
			n := w.notionCalled(b.Notion)
			if a.Notion != b.Notion || told[b.Notion] || !b.Open || !upright || n == nil || apart >= 1.5*hole || apart <= hole {
				continue
			}
			told[b.Notion] = true
			hint, at := say.Of("garment.fewer-of-them-or-first-and-last"), n.At
			if name := n.First.V.From; name != "" && name == n.Last.V.From {
				hint, at = say.Of("garment.first-and-last-are-both-measured-from", name), n.Last.At
			}
			w.faults.LookAgain(at, hint, say.Of("garment.lie-apart-and-each-buttonhole-is-long", n.Name.V, w.tape().About(apart), w.tape().About(hole)))
		}
	}
}

func (w *doubter) notionCalled(name string) *record.Notion {
	for i := range w.notions {
		if w.notions[i].Name.V == name {
			return &w.notions[i]
		}
	}
	return nil
}

// shortTapes asks about tapes and the like that are a small part of what they lie along.
func (w *doubter) shortTapes() {
	for i := range w.notions {
		n := &w.notions[i]
		if !n.Length.Given() || !n.Along.Given() || n.SetOut() || isZip(n) || !n.InLengths() || !n.Along.V.Part.Whole() {
			continue
		}
		u, ok := w.use(n.Along.V)
		if long := n.Length.V.MM(); ok && long < u.Edge.sewn/longTimes {
			f := w.faults.LookAgain(n.Length.At, say.Of("garment.name-the-part-of-it-that-it"), say.Of("garment.is-long-and-is", n.Name.V, w.tape().Exact(long), u.Edge.ref, w.tape().About(u.Edge.sewn)))
			if now := 10 * long; now <= longTimes*u.Edge.sewn {
				w.offer(f, n.Length, now)
			}
		}
	}
}

// bandsLonger asks about folded bands that are longer than what they are sewn to, where the
// share was probably taken the other way round.
func (w *doubter) bandsLonger() {
	for i := range w.b.Pieces {
		b := w.b.Pieces[i].Band
		if b == nil || !b.Folded.V || b.Share.V <= 1 {
			continue
		}
		now := strconv.FormatFloat(math.Round(100/float64(b.Share.V))/100, 'f', -1, 64)
		w.faults.LookAgain(b.Share.At, say.Of("garment.did-you-mean-if-not-leave-it", now), say.Of("garment.is-longer-than-what-it-is-sewn", w.b.Pieces[i].Name.V)).InsteadAt(b.Share.At, "", now)
	}
}

// finishedTwice tells of an edge that two finishes make neat.
func (w *doubter) finishedTwice() {
	for k, f := range w.g.Finishes {
		if f.rowsOnly() {
			continue
		}
		for _, u := range f.Edges {
			j := slices.IndexFunc(w.g.Finishes[:k], func(o *Finish) bool {
				return !o.rowsOnly() && slices.ContainsFunc(o.Edges, func(v EdgeUse) bool {
					return v.Piece == u.Piece && v.Edge == u.Edge && (v.Hand == u.Hand || v.Hand == "" || u.Hand == "")
				})
			})
			if j < 0 {
				continue
			}
			w.faults.LookAgain(f.Record.At, w.otherMeant(u, say.Of("garment.name-it-in-one-of-them")), say.Of("garment.is-finished-twice-by-and-by", u.Edge.ref, w.g.Finishes[j].Name, f.Name))
			break
		}
	}
}

// hemmedInSeam tells of an edge that a seam joins whole and that is hemmed or faced
// besides: it can only be neatened there.
func (w *doubter) hemmedInSeam() {
	for _, f := range w.g.Finishes {
		for _, u := range f.Edges {
			e := u.Edge
			if e.seam == nil || e.seam.set || u.Hand != "" || e.seam.onOneHand(e) || f.neatens(e.allow) {
				continue
			}
			w.faults.LookAgain(f.Record.At, w.otherMeant(u, say.Of("garment.take-it-out-of-the-one-that-is", f.Name, e.seam.Name)), say.Of("garment.is-sewn-and-finished-too", e.ref, e.seam.Name, f.Name))
			break
		}
	}
}

// onOneHand reports whether the seam sews the edge of one of a pair alone.
func (s *Seam) onOneHand(e *PieceEdge) bool {
	return slices.ContainsFunc(s.Sides[:], func(side SeamSide) bool {
		return slices.ContainsFunc(side.Edges, func(u EdgeUse) bool { return u.Edge == e && u.Hand != "" })
	})
}

// neatens reports whether a finish leaves an edge to be sewn: it turns nothing, or turns
// it once by less than its allowance.
func (f *Finish) neatens(allowance float64) bool {
	if f.kind == nil || f.rowsOnly() || !f.kind.Wants.Take(trade.OnEdge) || f.kind.Corner == trade.CornerMitre || f.kind.Corner == "" {
		return true
	}
	if len(f.kind.Folds) != 1 {
		return false
	}
	turned, err := f.kind.Folds[0].Value(f.Params)
	return err == nil && turned < allowance
}

// otherMeant proposes the edge of the name of another that nothing sews and nothing
// finishes; else it says something else.
func (w *doubter) otherMeant(u EdgeUse, otherwise string) string {
	for _, p := range w.g.Pieces {
		for i := range p.Edges {
			if e := &p.Edges[i]; p != u.Piece && !slices.Contains(w.g.Apart, p.Name) && e.Name == u.Edge.Name && e.SewnBy == "" && !e.Fold {
				return say.Of("garment.is-meant-in-one-of-them-nothing", e.ref)
			}
		}
	}
	return otherwise
}

// ofName is the verb that a name wants, which is that of one thing or of several.
func ofName(name, one, several string) string {
	if words.Stem(name) == name {
		return one
	}
	return several
}
