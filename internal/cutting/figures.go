package cutting

import (
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A usual is what holds in a workroom where a cloth says nothing.
type usual struct {
	straightening, step, allowance record.Length
	currency                       string
	style                          measure.Style
	per                            measure.Unit // what a cloth's price is for
}

func usualOf(room *record.Room) usual {
	w := room.Workroom
	u := usual{w.Usual.Straightening, w.Usual.ShopStep, w.Usual.Allowance, w.Currency.Or("EUR"), w.Style(), measure.UnitM}
	or := func(l *record.Length, to measure.Length) {
		if !l.Given() {
			l.V = to
		}
	}
	straightening, step := 25*measure.Millimetre, 10*measure.Centimetre
	if room.BareUnit() == measure.UnitIn { // there cloth is sold by the eighth of a yard (common practice, no source)
		u.per = measure.UnitYd
		straightening, step = measure.Inch, measure.Yard/8
	}
	or(&u.straightening, straightening)
	or(&u.step, step)
	or(&u.allowance, 15*measure.Millimetre)
	return u
}

// figures fills in every figure of a lay that has its cloth, and its plan or
// the reason why there is none.
func (l *Lay) figures(u *usual) {
	l.Width = l.widthFigure()
	l.lengthFigures()
	l.shares()
	l.boundFigures()
	l.needed(u)
	l.onHand(u)
	l.mass()
	l.money(u)
}

// figure finishes a figure of the lay; without a plan it is not known.
func (l *Lay) figure(name, title string, t figure.Term, u measure.Unit, rule string, source trade.Source) figure.Figure {
	if !t.Given() {
		t = l.pad.Unknown(l.Why)
	}
	return l.pad.Figure(l.base()+name, title, l.Part, t, u, rule, source)
}

// base is what the IDs of a lay's figures begin with: "cloth.shell.".
func (l *Lay) base() string { return strings.TrimSuffix(l.Cloth.Needed.ID, "needed") }

func (l *Lay) widthFigure() figure.Figure {
	var t figure.Term
	if c := l.Cloth.Cloth; c != nil && c.Width.Given() {
		t = garment.UsableWidthOf(l.pad, c)
	}
	return l.figure("width", say.Of("cutting.usable-width"), t, millimetres, say.Of("cutting.width-times-1-shrink-across-2-times"), figure.Derived)
}

// reachRule is how the length of a lay is found.
func reachRule(f lay.Folding) string {
	if f.Fold == lay.Crosswise {
		return say.Of("cutting.twice-how-far-from-the-fold-the")
	}
	return say.Of("cutting.how-far-from-the-cut-end-the")
}

// lengthFigures are the lengths of the lay, open and folded.
func (l *Lay) lengthFigures() {
	if l.Plan == nil {
		l.Length = l.figure("lay", "lay", figure.Term{}, millimetres, reachRule(lay.Folding{}), engine)
		return
	}
	l.Length = l.reach(l.Plan, "lay", say.Of("cutting.lay", FoldWords(l.Plan.Folding)))
	if o := l.Plan.Other; o != nil {
		than := say.Of("cutting.which-is-longer")
		switch by := o.Length - l.Plan.Length; {
		case len(o.Untied) > len(l.Plan.Untied):
			than = say.Of("cutting.in-which-not-all-can-be-matched")
		case by < tolerance:
			than = say.Of("cutting.which-is-the-same")
		}
		l.Other = l.reach(o, "lay-other", say.Of("cutting.lay-2", FoldWords(o.Folding), than))
	}
}

// reach is the length of one lay with the piece that sets it.
func (l *Lay) reach(p *lay.Plan, name, title string) figure.Figure {
	last, far := 0, -1.0
	for i, at := range p.Placements {
		for _, q := range l.Problem.Lay.Placed(at) {
			if q.X > far {
				last, far = i, q.X
			}
		}
	}
	at := p.Placements[last]
	l.pad.Note(l.pad.Of(say.Of("cutting.usable-width"), &l.Width))
	l.pad.Note(l.pad.Told(say.Of("cutting.places-tried"), float64(p.Tried), measure.UnitCount, say.Of("cutting.the-lay-plan")))
	if p == l.Plan && p.NotFolded != "" {
		l.pad.Remark(figure.Told, "folded", say.Of("cutting.not-possible", p.NotFolded), fault.Pos{}, say.Of("cutting.the-lay-plan"))
	}
	words := say.Of("cutting.ends-so-far-from", l.Problem.Lay.Pieces[at.Piece].Name, at.Copy+1, AlongFrom(p.Folding))
	found := l.pad.Found(words, p.Length/p.Layers(), millimetres)
	if n := p.Layers(); n > 1 {
		found = found.Times(l.pad.Constant(n, measure.UnitCount))
	}
	return l.figure(name, title, found, millimetres, reachRule(p.Folding), engine)
}

// lengthTerm is the length of the lay; none where there is no plan.
func (l *Lay) lengthTerm() figure.Term {
	return l.pad.Of(say.Of("cutting.length-of-the-lay"), &l.Length)
}

func (l *Lay) areaTerm(what string, area float64) figure.Term {
	return l.pad.Found(what, area/1e6, measure.UnitM2)
}

// shares are what the pieces and their allowances take of the cloth laid on.
func (l *Lay) shares() {
	one := func(name, title, what, rule string, area float64) figure.Figure {
		var t figure.Term
		if l.Plan != nil {
			t = l.areaTerm(what, area).Over(l.lengthTerm().Times(l.pad.Of(say.Of("cutting.usable-width"), &l.Width)))
		}
		return l.figure(name, title, t, measure.UnitPercent, rule, figure.Derived)
	}
	var pieces, allowances float64
	if l.Problem != nil {
		pieces, allowances = l.Problem.Area, l.Problem.Allowed
	}
	l.Used = one("lay-used", "used", piecesCut, say.Of("cutting.by-length-of-the-lay-times-usable", piecesCut), pieces)
	l.Share = one("lay-share", say.Of("cutting.allowances-in-the-lay"), say.Of("cutting.area-of-the-allowances"), say.Of("cutting.area-of-the-allowances-by-length-of"), allowances)
}

var piecesCut = say.Of("cutting.area-of-the-pieces-as-cut")
