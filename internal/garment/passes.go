package garment

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/trade"
)

// headUsual is the head of an adult, mm, where the record gives none, and headKnit how
// many times its length an edge of a knit opens (common practice, no source).
const (
	headUsual = 550
	headKnit  = 1.5
)

// widerBy is how many times its length an edge opens when it is stretched, and whether
// its cloth says so.
func (w *doubter) widerBy(e *PieceEdge) (share float64, said bool) {
	u := EdgeUse{Piece: e.piece, Edge: e}
	c := w.stretchCloth(e.piece, !steep(u))
	switch {
	case c == nil || !c.Gives():
		return 1, true
	case c.Stretch.Given() && e.piece.Grain != "bias":
		return 1 + float64(stretchIn(c, e.piece.Grain, !steep(u)).V)/100, true
	}
	return headKnit, false
}

// A passage is how far an opening opens for what must pass it, mm.
type passage struct {
	long, most float64 // all round, and stretched
	guessed    bool    // nobody says how far its cloth stretches
	further    bool    // a closure or a slit ends at it, or the record has not come so far
	at         fault.Pos
}

// passageOf measures round an opening and looks what opens it further.
func (w *doubter) passageOf(o *sewn.Opening) passage {
	r := passage{long: -o.Lap, most: -o.Lap, at: w.edgeAt(o.Spans[0].Side).note.at}
	seen := map[*PieceEdge]bool{}
	for _, sp := range o.Spans {
		e := w.edgeAt(sp.Side)
		r.further = r.further || e.finish == nil && e.seam == nil && !foldedBand(e.piece)
		seen[e] = true
		share, said := w.widerBy(e)
		r.long, r.most, r.guessed = r.long+sp.Length(), r.most+float64(sp.Length()*share), r.guessed || !said
	}
	r.further = r.further || w.slitAt(seen)
	return r
}

// slitAt reports whether a closure or a slit ends at one of these edges, or at the edge
// they are sewn to, as the slit of a skirt does at its band.
func (w *doubter) slitAt(round map[*PieceEdge]bool) bool {
	meets := func(e *PieceEdge) bool {
		return round[e] || w.besideRound(e.beside(1), round) || w.besideRound(e.beside(-1), round)
	}
	for _, c := range w.slits {
		for _, id := range c.Joins {
			if j := &w.g.Sewn.Joins[id]; meets(w.edgeAt(j.A.Side)) || meets(w.edgeAt(j.B.Side)) {
				return true
			}
		}
		for _, sp := range c.Open {
			if meets(w.edgeAt(sp.Side)) {
				return true
			}
		}
	}
	return false
}

// besideRound reports whether an edge lies round an opening, or carries a piece that does.
func (w *doubter) besideRound(e *PieceEdge, round map[*PieceEdge]bool) bool {
	if e == nil || round[e] {
		return e != nil
	}
	if e.seam == nil {
		return false
	}
	for _, u := range e.seam.Sides[1-e.side].Edges {
		for k := range u.Piece.Edges {
			if round[&u.Piece.Edges[k]] {
				return true
			}
		}
	}
	return false
}

// passesHead warns of a neck that is closed all round and too narrow for a head.
func (w *doubter) passesHead() {
	head, at := headUsual*1.0, fault.Pos{}
	if l, ok := w.t.BodyLength(w.b.DraftedFor, "head"); ok {
		head, at = l.V.MM(), l.At
		if head < headUsual/2 {
			return // asked about with the other measurements
		}
	} else if trade.WhoIs(w.b.For.Who.V) == trade.Child {
		return
	}
	for i := range w.opens {
		if w.openingName(w.opens[i].Spans) != "neck" {
			continue
		}
		r := w.passageOf(&w.opens[i])
		if r.further || w.opens[i].Lap > 0 || r.most >= head {
			continue
		}
		if at.Given() {
			r.at = at
		}
		w.faults.LookAgain(r.at, say.Of("garment.make-it-wider-or-put-a-zip"), say.Of("garment.the-neck-the-head-is", w.opensTo(r), w.tape().About(head)))
	}
}

// opensTo tells how far an opening opens.
func (w *doubter) opensTo(r passage) string {
	switch {
	case r.most > r.long && r.guessed:
		return say.Of("garment.is-all-round-and-stretched-to-about", w.tape().About(r.long), w.tape().About(r.most))
	case r.most > r.long:
		return say.Of("garment.opens-to", w.tape().About(r.most))
	}
	return say.Of("garment.is-all-round", w.tape().About(r.long))
}

// waistOfHip is the waist of half of all people for one of their hip, by who they are
// (ANSUR II, Paquette and others 2012, worked out from its public data).
var waistOfHip = map[trade.Wearer]float64{trade.Woman: 0.837, trade.Man: 0.919, trade.Anyone: 0.837}

// overHead reports whether a garment has a neck, to be put on by.
func (w *doubter) overHead() bool {
	return slices.ContainsFunc(w.opens, func(o sewn.Opening) bool { return w.openingName(o.Spans) == "neck" })
}

// passesHips warns of a waist that is closed all round and lets no hips through, of what
// is put on by it: a skirt, trousers. A body whose hip nobody wrote has that of most. A
// band that laps opens itself alone, not what hangs from it.
func (w *doubter) passesHips() {
	hip, ok := w.t.BodyLength(w.b.DraftedFor, "hip")
	round, about := hip.V.MM(), ""
	if !ok {
		waist, known := w.t.BodyLength(w.b.DraftedFor, "waist")
		share := waistOfHip[trade.WhoIs(w.b.For.Who.V)]
		if !known || share == 0 {
			return
		}
		round, about = waist.V.MM()/share, say.Of("garment.about")
	}
	if w.overHead() || slices.ContainsFunc(w.notions, func(n record.Notion) bool { return isZip(&n) }) {
		return // a zip without a place is told
	}
	for i := range w.opens {
		if w.openingName(w.opens[i].Spans) != "waist" {
			continue
		}
		r := w.passageOf(&w.opens[i])
		if r.further || r.most >= round || !ok && r.most > r.long {
			continue // how far it must stretch for hips that nobody wrote is not known
		}
		w.faults.LookAgain(r.at, say.Of("garment.put-a-zip-into-a-seam-or"), say.Of("garment.the-waist-and-the-hips-are-they", w.opensTo(r), about, w.tape().About(round)))
	}
}
