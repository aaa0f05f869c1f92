package garment

import (
	"cmp"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
)

var (
	letOutRule = say.Of("garment.what-the-seam-keeps-of-the-allowance")
	plainRule  = say.Of("garment.what-the-seam-keeps-of-the-allowance-2")
	nothingOut = say.Of("garment.nothing-for-what-holds-it-here-keeps")
)

// letOut is how much a level can be let out: by sewing its seams again in their
// own way, and, where that gives more, as plain seams.
func (w *letOuts) letOut(l *Level, base string) {
	id := w.Join(base, ".let-out")
	const title = "let-out"
	if len(l.cross) == 0 {
		l.LetOut = w.Figure(id, title, l.Name, w.Unknown(say.Of("garment.no-outline-marks-this-level")), mm, letOutRule, figure.Practice)
		return
	}
	if held := w.heldFast(l); held != nil {
		w.Remark(figure.Written, held.what, held.written, held.at, "")
		l.LetOut = w.Figure(id, title, l.Name, w.Constant(0, mm), mm, w.Join(nothingOut, held.name), figure.Practice)
		l.HeldBy = held.name
		return
	}
	rounds, why := w.givingRounds(l)
	if why == "" {
		why = w.letOutUnsure(l)
	}
	if why == "" {
		rounds[0].sides, why = w.leastStorey(l, rounds[0].sides)
	}
	own, holds := w.leastGiving(rounds, false)
	rule := w.Join(letOutRule, leastOf(rounds))
	if why == "" {
		rule = w.Join(rule, rowsOut(rounds[0].sides))
	}
	l.LetOut = w.Figure(id, title, l.Name, own.Unless(why), mm, rule, figure.Practice)
	if why != "" || !l.LetOut.Value.Known() {
		return
	}
	l.HeldBy = holds
	plain, _ := w.leastGiving(rounds, true)
	if !plain.Known() || plain.MM() <= l.LetOut.Value.Number+1e-6 {
		return
	}
	l.LetOutPlain = w.Figure(w.Join(base, ".let-out-plain"), say.Of("garment.let-out-sewn-again-as-plain-seams"), l.Name, plain, mm,
		w.Join(plainRule, leastOf(rounds), rowsShow(rounds[0].sides)), figure.Practice)
}

// A givingRound is one layer that goes round a level, with the sides it can give at.
type givingRound struct {
	name  string // "" for the one the level is counted over
	sides []givingSide
}

// givingRounds lists the layer that a level is counted over and those that are
// caught to it there, or says why they cannot be told.
func (w *letOuts) givingRounds(l *Level) (out []givingRound, why string) {
	sides, why := w.sidesThrough(l.Girths, l.Limbs)
	if why != "" {
		return nil, why
	}
	out = append(out, givingRound{"", sides})
	others, why := w.caughtRound(l)
	for _, o := range others {
		sides, why := w.sidesThrough(o.girths, l.Limbs)
		if why != "" {
			return nil, why
		}
		out = append(out, givingRound{o.name, sides})
	}
	return out, why
}

// leastGiving is what the layers that go round together can give: the least of them.
// holds names the one that gives least where that is not the layer that is counted.
func (w *letOuts) leastGiving(rounds []givingRound, plain bool) (t figure.Term, holds string) {
	if len(rounds) == 0 {
		return w.Constant(0, mm), ""
	}
	terms := make([]figure.Term, len(rounds))
	for i := range rounds {
		terms[i] = w.giving(rounds[i].sides, plain)
		if terms[i].Known() && i > 0 && terms[i].MM() < terms[0].MM()-1e-6 && (holds == "" || terms[i].MM() < t.MM()-1e-6) {
			t, holds = terms[i], rounds[i].holder()
		}
	}
	if holds == "" && terms[0].Known() && terms[0].MM() < 1e-6 {
		holds = rounds[0].holder()
	}
	return w.Least(terms...), holds
}

// holder is what lets a layer give less: what lies in all the seams that could, else
// the layer itself.
func (r *givingRound) holder() string {
	held := ""
	for i, s := range r.sides {
		if s.held == "" || i > 0 && s.held != held {
			return r.name
		}
		held = s.held
	}
	return cmp.Or(held, r.name)
}

// leastOf says of which layers the least counts, where there are several.
func leastOf(rounds []givingRound) string {
	if len(rounds) < 2 {
		return ""
	}
	names := make([]string, len(rounds)-1)
	for i := range names {
		names[i] = say.Of("garment.the", rounds[i+1].name)
	}
	return say.Of("garment.the-least-of-the-layers-caught-together", meant.List(names, "and"))
}

// rowsOut says of which seams rows beside them have to come out first.
func rowsOut(sides []givingSide) string {
	var names []string
	for _, s := range sides {
		if len(s.seam.Type.Beside()) > 0 && !slices.Contains(names, s.seam.Name) {
			names = append(names, s.seam.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return say.Of("garment.the-rows-beside-come-out-first-and", meant.List(names, "and"))
}

// rowsShow says so where old rows are seen outside afterwards.
func rowsShow(sides []givingSide) string {
	if slices.ContainsFunc(sides, func(s givingSide) bool { return s.seam.Type.RowsShow }) {
		return say.Of("garment.the-holes-of-the-old-rows-show")
	}
	return ""
}

// giving adds up what sides can give.
func (w *letOuts) giving(sides []givingSide, plain bool) figure.Term {
	terms := make([]figure.Term, len(sides))
	for i, s := range sides {
		terms[i] = w.spare(s, plain).By(s.times)
	}
	if len(terms) == 0 {
		return w.Found(say.Of("garment.no-sewn-edge-runs-through-it"), 0, mm)
	}
	return w.Sum(terms...)
}

// spare is what one side can give: what the seam keeps of its allowance, less
// what must stay to sew it again in its own way or as a plain seam; the least of
// all that lies there. What is clipped gives nothing.
func (w *letOuts) spare(s givingSide, plain bool) figure.Term {
	t := w.spareOfPly(s, plain)
	if len(s.behind) == 0 {
		return t
	}
	terms := []figure.Term{t}
	for _, e := range s.behind {
		ply := s
		ply.edge, ply.behind = e, nil
		if s.side == 1 && s.seam.kind.Sides() == 3 {
			ply.side = 2
		}
		if ply.held == "" {
			ply.held = w.liesIn(e)
		}
		terms = append(terms, w.spareOfPly(ply, plain))
	}
	return w.Least(terms...)
}

// spareOfPly is what one edge on a side can give.
func (w *letOuts) spareOfPly(s givingSide, plain bool) figure.Term {
	kind := s.seam.kind
	m := seamMeasures(s.seam).left(s.edge, s.side, w.margin)
	keeps := w.formula(kind.Keeps.Of(s.side), m)
	switch {
	case kind.Clipped, s.held != "":
		return w.AtLeastNothing(keeps.Minus(keeps))
	case plain:
		return w.AtLeastNothing(keeps.Minus(w.margin.Term(w.Pad, say.Of("garment.least-margin"), mm)))
	}
	holds, err := w.holdsOf(kind, s.side, s.edge, s.seam.Params)
	if err != nil {
		return keeps.Unless(err.Error())
	}
	return w.AtLeastNothing(keeps.Minus(w.formula(holds, m)))
}

// holdsOf is the formula of what must stay of an edge on a side of a seam, or in a
// finish: of several the one that asks for most.
func (w *letOuts) holdsOf(kind *seamType, side int, e *PieceEdge, params trade.Params) (trade.Expr, error) {
	p := trade.Params{trade.CutName: e.allow, trade.MarginName: w.margin.V}
	for name, v := range params {
		p[name] = v
	}
	keeps, err := kind.Keeps.Of(side).Value(p)
	if err != nil {
		return trade.Expr{}, err
	}
	p[trade.AllName] = keeps
	most, _, err := kind.Holds.Of(side).Largest(p)
	return most, err
}
