package garment

import (
	"hembook/internal/trade"
)

// finishes works out what every finish takes.
func (w *work) finishes() {
	for _, f := range w.g.Finishes {
		base := w.join("finish.", f.anchor)
		w.finishLength(f, base)
		w.finishTakes(f, base)
		if f.kind != nil {
			w.broken(f.kind, f.Name, f.Params, f.Record.With, f.Record.Type.At)
			f.Strips = w.stripsOf(f.kind, f.Params, base, f.Name, f.Record.Strip.V, f.Total.Value)
			f.Thread = w.threadOf(f.kind, f.Record.Stitch, f.Record.Thread.V, f.Name, &f.Total)
		}
	}
}

func (w *work) finishLength(f *Finish, base string) {
	total, why := 0.0, ""
	if len(f.Edges) == 0 {
		why = "no edge of it is there"
	}
	for _, u := range f.Edges {
		w.figureIn(u.Edge.ref, &u.Edge.Sewn)
		if !u.Edge.Sewn.Value.Known() {
			why = "the length of " + u.Edge.ref + " is not known"
		}
	}
	for i, u := range f.Edges {
		if i > 0 {
			w.s(" + ")
		}
		times := u.Edge.Times * u.Piece.sets()
		w.n(u.Edge.sewn).s(" × ").i(times)
		total += u.Edge.sewn * float64(times)
	}
	w.s(" = ").n(total / 1e3).s(" m")
	v := inM(total)
	if why != "" {
		v = unknown(why)
	}
	f.Total = w.figure(w.join(base, ".total"), "length finished in all", f.Name, v, "sum of sewn length × times the edge occurs", derived)
}

func (w *work) finishTakes(f *Finish, base string) {
	takes, width := w.join(base, ".takes"), w.join(base, ".width")
	var a, b trade.Worked
	err := error(nil)
	if f.kind != nil {
		if a, err = f.kind.Gives.A.Eval(f.Params); err == nil {
			b, err = f.kind.SeamType.Width.Eval(f.Params)
		}
		if err != nil {
			w.faults.Errorf(f.Record.Type.At, "", "%q: %s", f.Name, err)
		}
	}
	if f.kind == nil || err != nil {
		why := unknown("the finish is not known")
		f.Takes = w.figure(takes, "allowance it takes", f.Name, why, "as the finish says", derived)
		f.Width = w.figure(width, "finished width", f.Name, why, "as the finish says", derived)
		return
	}
	w.typeInputs(f.kind, f.Params, f.Record.With, nil)
	w.s(a.Working).s(" mm")
	f.Takes = w.figure(takes, "allowance it takes", f.Name, inMM(a.Value), w.prettyRule(f.kind.Gives.A), f.kind.Source)
	w.typeInputs(f.kind, f.Params, f.Record.With, nil)
	w.s(b.Working).s(" mm")
	f.Width = w.figure(width, "finished width", f.Name, inMM(b.Value), w.prettyRule(f.kind.SeamType.Width), f.kind.Source)
	for _, u := range f.Edges {
		if e := u.Edge; !e.Fold && a.Value > e.allow+1e-6 {
			w.faults.Errorf(f.Record.At, "give the edge "+mmText(a.Value)+", or make the finish narrower", "%q takes %s, but %s has %s",
				f.Name, mmText(a.Value), e.ref, mmText(e.allow))
		}
	}
}

// sets is in how many cloths a piece is cut that are sewn by themselves; at
// least one.
func (p *Piece) sets() int {
	n := 0
	for _, part := range p.Of {
		if sewnApart(part) {
			n++
		}
	}
	return max(n, 1)
}
