package garment

import (
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
	"math"
)

// cutOut finds the cut outline (figure 3).
func (w *derivation) cutOut(p *Piece) {
	f := &p.form
	if f.why != "" {
		return
	}
	allow, corners := p.allowances(func(e *PieceEdge) (float64, shape.Corner) { return e.allow, e.finishCorner() })
	if f.slit {
		p.Cut = slitCut(p)
	} else {
		var err error
		if p.Cut, err = w.t.keeper.cut(f.kept, allow, corners); err != nil {
			w.shapeFaults(p, err)
			return
		}
	}
	p.openOut()
}

// openOut finds the whole of what is cut on fold.
func (p *Piece) openOut() {
	p.CutWhole = p.Cut.Ring
	if f := p.form.fold; p.OnFold {
		p.CutWhole = opened(p.Cut.Ring, p.Outline.Start(f), p.Outline.Edges[f].To)
	}
}

// allowances are those of the edges of the outline in turn, with the corners they end in.
func (p *Piece) allowances(of func(e *PieceEdge) (float64, shape.Corner)) ([]float64, []shape.Corner) {
	f := &p.form
	allow, corners := make([]float64, len(p.Outline.Edges)), make([]shape.Corner, len(p.Outline.Edges))
	for i := range corners {
		corners[i] = cornerOf(f.notes[i].corner.V)
	}
	for k := range p.Edges {
		e := &p.Edges[k]
		gives, corner := of(e)
		for i := e.Index; f.notes[i].name == e.note.name; i = (i + 1) % len(allow) {
			allow[i] = gives
			if f.notes[i].corner.V == "" {
				corners[i] = corner
			}
			if (i+1)%len(allow) == e.Index {
				break
			}
		}
	}
	return allow, corners
}

// finishCorner is how the finish of an edge wants its allowance to end: what is
// folded back lies on what it is folded over. An edge that a seam joins has the
// corners of its seam.
func (e *PieceEdge) finishCorner() shape.Corner {
	if e.seam != nil || e.finish == nil || e.finish.kind == nil {
		return shape.Mitre
	}
	return cornerOfFinish(e.finish.kind, e.finish.Params)
}

// cornerOfFinish is the corner that a finish of these measures wants.
func cornerOfFinish(t *seamType, params trade.Params) shape.Corner {
	corner, folds, err := t.Shape(params)
	switch {
	case err != nil || corner == trade.CornerMitre:
		return shape.Mitre
	case corner == trade.CornerMirror:
		return shape.Folded(folds...)
	case corner == trade.CornerSquare:
		return shape.Square
	}
	return shape.Mitre
}

func cornerOf(word string) shape.Corner {
	switch word {
	case "square":
		return shape.Square
	case "mirror":
		return shape.Mirror
	}
	return shape.Mitre
}

// shapeFaults says where an outline is wrong.
func (w *derivation) shapeFaults(p *Piece, err error) {
	f := &p.form
	f.why = say.Of("garment.its-outline-is-at-fault")
	if p.Record.Like.Given() && len(p.Record.Change) == 0 {
		return // told at the piece it is like
	}
	told := false
	for _, bad := range p.Outline.Flaws() {
		if bad.Kind == shape.Clockwise || bad.Kind == shape.SameName {
			continue
		}
		at := p.Record.At
		if p.Record.Outline != nil {
			at = p.Record.Outline.At
			if bad.Edge >= 0 && bad.Edge < len(f.notes) {
				at = f.notes[bad.Edge].at
			}
		}
		w.faults.Errorf(at, "", "%q%s: %s", p.Name, p.Record.DrawnIn(), bad.Told(func(mm float64) string { return w.tape().Exact(math.Round(10*mm) / 10) }, w.tape().Number))
		told = true
	}
	if !told {
		w.faults.Wrong(p.Record.At, "", say.Of("garment.no-allowances-can-be-added-to", say.Quoted(p.Name), err))
	}
}

// slitCut is the cut outline of a ring of one whole turn in one piece: it is
// slit along its sides, which have no allowance.
func slitCut(p *Piece) shape.Cut {
	var waist, hem float64
	for k := range p.Edges {
		switch e := &p.Edges[k]; e.note.name {
		case p.form.notes[0].name:
			waist = e.allow
		default:
			if e.Length.Value.Number > p.Ring.Length+1 {
				hem = e.allow
			}
		}
	}
	inner, outer := max(p.Ring.InnerRadius-waist, 1), p.Ring.OuterRadius+hem
	const turn = 2 * 3.141592653589793
	wide, err := shape.NewRingSkirt(1, turn*inner, outer-inner, 1)
	if err != nil {
		return shape.Cut{}
	}
	ring, of := wide.Panel.Flatten(0.05)
	return shape.Cut{Ring: ring, Of: of, Area: wide.Area, AllowanceArea: wide.Area - p.Ring.Area}
}

// opened mirrors the cut outline of a half about the fold and joins the two.
// nil is returned where the half meets the fold more than once.
func opened(half shape.Ring, a, b shape.Point) shape.Ring {
	way := b.Sub(a)
	size := float64(way.X*way.X) + float64(way.Y*way.Y)
	off := func(q shape.Point) float64 {
		d := q.Sub(a)
		return float64(way.X*d.Y) - float64(way.Y*d.X)
	}
	limit := size * 1e-7
	n := len(half)
	begin := -1
	for i := range half {
		if max(off(half[i]), -off(half[i])) <= limit && max(off(half[(i+1)%n]), -off(half[(i+1)%n])) > limit {
			if begin >= 0 {
				return nil
			}
			begin = i
		}
	}
	if begin < 0 {
		return nil
	}
	whole := make(shape.Ring, 0, 2*n)
	for k := range n {
		q := half[(begin+k)%n]
		whole = append(whole, q)
		if k > 0 && max(off(q), -off(q)) <= limit {
			break
		}
	}
	for k := len(whole) - 2; k > 0; k-- {
		q := whole[k]
		by := 2 * off(q) / size
		whole = append(whole, shape.Point{X: q.X + float64(way.Y*by), Y: q.Y - float64(way.X*by)})
	}
	return whole
}
