package cutting

import (
	"fmt"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// A usual is what holds in a workroom where a cloth says nothing.
type usual struct {
	straightening, step, allowance record.Length
	currency                       string
	per                            measure.Unit // what a cloth's price is for
}

func usualOf(room *record.Room) usual {
	w := room.Workroom
	u := usual{w.Usual.Straightening, w.Usual.ShopStep, w.Usual.Allowance, w.Currency.Or("EUR"), measure.UnitM}
	or := func(l *record.Length, to measure.Length) {
		if !l.Given() {
			l.V = to
		}
	}
	or(&u.straightening, 25*measure.Millimetre)
	or(&u.step, 10*measure.Centimetre)
	or(&u.allowance, 15*measure.Millimetre)
	if room.BareUnit() == measure.UnitIn {
		u.per = measure.UnitYd
	}
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

func (l *Lay) sheet() *sheet {
	return &sheet{base: strings.TrimSuffix(l.Cloth.Needed.ID, "needed"), part: l.Part}
}

func (l *Lay) widthFigure() garment.Figure {
	s := l.sheet()
	const title, rule = "usable width", "width × (1 − shrink across) − 2 × selvedge"
	c := l.Cloth.Cloth
	if c == nil || !c.Width.Given() {
		return s.figure("width", title, unknown(l.Why), rule, "", derived)
	}
	v := garment.UsableWidth(c)
	s.noteAt("width of the cloth", mm(c.Width.V.MM()), c.Width.At)
	s.noteAt("selvedge", mm(c.Selvedge.V.MM()), c.Selvedge.At)
	s.noteAt("shrink across", percent(c.Shrink.Across), c.Shrink.Across.At)
	sum := fmt.Sprintf("%s × (1 − %s) − 2 × %s = %s", mm(c.Width.V.MM()), percent(c.Shrink.Across), number(c.Selvedge.V.MM(), 3), mm(v))
	return s.figure("width", title, of(v, millimetres), rule, sum, derived)
}

func percent(p record.Percent) string { return number(float64(p.V), 3) + " %" }

func wayOf(p *lay.Plan) string {
	if p.Folded {
		return "folded"
	}
	return "open"
}

// lengthFigures are the lengths of the lay, open and folded.
func (l *Lay) lengthFigures() {
	s := l.sheet()
	const rule = "how far from the cut end the last piece reaches, in the shortest lay found"
	if l.Plan == nil {
		l.Length = s.figure("lay", "length of the lay", unknown(l.Why), rule, "", engine)
		return
	}
	l.Length = l.reach(l.Plan, "lay", "length of the lay, "+wayOf(l.Plan), rule)
	if o := l.Plan.Other; o != nil {
		l.Other = l.reach(o, "lay-other", "length of the lay, "+wayOf(o)+", which is longer", rule)
		if o.Length-l.Plan.Length < tolerance {
			l.Other.Title = "length of the lay, " + wayOf(o) + ", which is the same"
		}
	}
}

// reach is the length of one lay with the piece that sets it.
func (l *Lay) reach(p *lay.Plan, name, title, rule string) garment.Figure {
	s := l.sheet().use("usable width", &l.Width)
	s.note("pieces to cut", number(float64(l.Problem.copies()), 0), "the record")
	s.note("places tried", number(float64(p.Work), 0), "the lay plan")
	last, far := 0, -1.0
	for i, at := range p.Placements {
		for _, q := range l.Problem.Lay.Placed(at) {
			if q.X > far {
				last, far = i, q.X
			}
		}
	}
	at := p.Placements[last]
	sum := fmt.Sprintf("%s %d ends %s from the cut end", l.Problem.Lay.Pieces[at.Piece].Name, at.Copy+1, mm(p.Length))
	f := s.figure(name, title, of(p.Length, millimetres), rule, sum, engine)
	if p == l.Plan && p.NotFolded != "" {
		f.Working.Inputs = append(f.Working.Inputs, garment.Input{Name: "folded", Value: "not possible: " + p.NotFolded, From: "the lay plan"})
	}
	return f
}

// shares are what the pieces and their allowances take of the cloth laid on.
func (l *Lay) shares() {
	one := func(name, title, what, rule string, area float64) garment.Figure {
		s := l.sheet()
		if l.Plan == nil {
			return s.figure(name, title, unknown(l.Why), rule, "", derived)
		}
		s.note(what, number(area/1e6, 4)+" m²", "the cut outlines")
		s.use("length of the lay", &l.Length).use("usable width", &l.Width)
		v := 100 * area / (l.Plan.Length * l.Problem.Lay.Cloth.Width)
		sum := fmt.Sprintf("%s m² ÷ (%s × %s) = %s %%", number(area/1e6, 4), mm(l.Plan.Length), mm(l.Problem.Lay.Cloth.Width), number(v, 3))
		return s.figure(name, title, of(v, measure.UnitPercent), rule, sum, derived)
	}
	var pieces, allowances float64
	if l.Problem != nil {
		pieces, allowances = l.Problem.Area, l.Problem.Allowed
	}
	l.Used = one("lay-used", "cloth laid on that is used", "area of the pieces as cut", "area of the pieces as cut ÷ (length of the lay × usable width)", pieces)
	l.Share = one("lay-share", "cloth laid on that is allowances", "area of the allowances", "area of the allowances ÷ (length of the lay × usable width)", allowances)
}

// boundFigures say how much could still be won.
func (l *Lay) boundFigures() {
	s := l.sheet()
	const title, gain = "no lay is shorter than", "what could still be won, at most"
	if l.Plan == nil {
		l.Bound = s.figure("lay-bound", title, unknown(l.Why), "", "", derived)
		l.Gain = s.figure("lay-gain", gain, unknown(l.Why), "", "", derived)
		return
	}
	bound, longest := l.Problem.bound()
	rule, sum := "the longest piece, turned as short as it may lie", longest+": "+mm(bound)
	if longest == "" {
		width := l.Problem.Lay.Cloth.Width
		rule = "area of the pieces as cut ÷ usable width"
		sum = fmt.Sprintf("%s m² ÷ %s = %s", number(l.Problem.Area/1e6, 4), mm(width), mm(bound))
		s.note("area of the pieces as cut", number(l.Problem.Area/1e6, 4)+" m²", "the cut outlines").use("usable width", &l.Width)
	}
	l.Bound = s.figure("lay-bound", title, of(bound, millimetres), rule, sum, derived)
	v := snap(max(0, l.Plan.Length-bound))
	s.use("length of the lay", &l.Length).use(title, &l.Bound)
	l.Gain = s.figure("lay-gain", gain, of(v, millimetres), "length of the lay − the length no lay undercuts",
		fmt.Sprintf("%s − %s = %s", number(l.Plan.Length, 3), number(bound, 3), mm(v)), derived)
}
