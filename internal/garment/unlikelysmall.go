package garment

import (
	"math"
	"slices"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// What is seldom smaller, mm (all common practice, no source): in a pocket a hand finds room;
// a narrower band is a binding; a shallower pleat is a pin tuck; and a card of silk has more.
const (
	leastPocket = 40
	leastBand   = 8
	leastPleat  = 4
	leastReel   = 5000
)

// tellSmall asks about what is so small that it was probably meant in another unit.
func (w *doubter) tellSmall() {
	for _, p := range w.g.Pieces {
		if p.sound() {
			w.smallPocket(p)
			w.narrowBand(p)
			w.shallowPleats(p)
		}
	}
	for i := range w.b.Thread {
		if r := w.b.Thread[i].V.Reel; r.Given() && r.V.MM() < leastReel {
			now := w.written(r.V.MM()) + " m"
			w.faults.LookAgain(r.At, say.Of("garment.did-you-mean-if-not-leave-it", now), say.Of("garment.is-little-thread-for-a-reel", w.tape().Exact(r.V.MM()))).
				InsteadAt(r.At, "", now)
		}
	}
}

// tenfold warns of a length, and asks whether ten times of it was meant.
func (w *doubter) tenfold(l record.Length, says string) {
	w.offer(w.faults.LookAgain(l.At, "", says), l, l.V.MM()*10)
}

func (w *doubter) smallPocket(p *Piece) {
	r := p.Record.Rectangle
	if r == nil || !words.AnyOf(p.Name, []string{"pocket", "patch"}) || r.Across.V.MM() >= leastPocket || r.Along.V.MM() >= leastPocket {
		return
	}
	line := "[" + w.written(r.Across.V.MM()*10) + ", " + w.written(r.Along.V.MM()*10) + "]"
	w.faults.LookAgain(r.At, say.Of("garment.did-you-mean-rectangle-if-not-leave", line), say.Of("garment.is-little-for-a-pocket", p.Name, say.Of("garment.by", w.tape().Exact(r.Across.V.MM()), w.tape().Exact(r.Along.V.MM())))).
		InsteadAt(r.At, "", line)
}

func (w *doubter) narrowBand(p *Piece) {
	if b := p.Record.Band; b != nil && b.Width.Given() && b.Width.V.MM() < leastBand {
		w.tenfold(b.Width, say.Of("garment.is-wide-little-for-a-band", p.Name, w.tape().Exact(b.Width.V.MM())))
	}
}

// shallowPleats asks about pleats; a tuck may be as shallow as it likes.
func (w *doubter) shallowPleats(p *Piece) {
	for i := range p.Record.Pleats {
		r := &p.Record.Pleats[i]
		k := slices.IndexFunc(p.PleatFolds, func(q PleatFold) bool { return q.Record.Edge.At == r.Edge.At })
		switch r.Kind.V {
		case "", "knife", "box", "inverted":
		default:
			continue
		}
		if k < 0 {
			continue
		}
		switch now := p.PleatFolds[k].Depth; {
		case r.Depth.Given() && r.Depth.V.MM() < leastPleat && !deepened(r.Depth.V.MM(), now):
			w.tenfold(r.Depth, say.Of("garment.the-pleats-of-are-deep-little", p.Name, r.Edge.V, w.tape().Exact(r.Depth.V.MM())))
		case r.Closes.Given() && now < leastPleat:
			w.faults.LookAgain(r.Count.At, say.Of("garment.write-fewer-or-call-them-pin-tucks"), say.Of("garment.the-pleats-of-come-to-deep", p.Name, r.Edge.V, w.tape().Tenth(now)))
		}
	}
}

// deepened reports whether fittings made a shallow pleat deep enough from what was written,
// and not from ten times as much: then it was as shallow as that.
func deepened(written, now float64) bool {
	return now >= leastPleat && math.Abs(now-written) < math.Abs(now-10*written)
}
