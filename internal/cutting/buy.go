package cutting

import (
	"fmt"
	"math"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// A want is how much cloth a lay of some length asks for.
type want struct {
	unshrunk float64 // mm: lay ÷ (1 − shrink along)
	exact    float64 // mm: with both ends straightened
	bought   float64 // mm: rounded up to the step
}

// wantFor works out the cloth to have for a lay, lengths in mm and shrinkage
// in per cent (figure 12). It is rounded to a micrometre before it is rounded
// up, so that 2400 ÷ 0.96 is 2500 and not a hair more.
func wantFor(lay, shrink, straightening, step float64) want {
	w := want{unshrunk: lay / (1 - shrink/100)}
	w.exact = w.unshrunk + 2*straightening
	w.bought = w.exact
	if step > 0 {
		micro, each := math.Round(w.exact*1e3), math.Round(step*1e3)
		w.bought = math.Ceil(micro/each) * each / 1e3
	}
	return w
}

func (l *Lay) want(u *usual) want {
	c := l.Cloth.Cloth
	return wantFor(l.Plan.Length, float64(c.Shrink.Along.V), u.straightening.V.MM(), stepOf(c, u).V.MM())
}

func stepOf(c *record.Cloth, u *usual) record.Length {
	if c.Step.Given() {
		return c.Step
	}
	return u.step
}

// needed is the cloth to have (figure 12).
func (l *Lay) needed(u *usual) {
	s := l.sheet()
	const rule = "length of the lay ÷ (1 − shrink along) + straightening at both ends, rounded up to the shop's step"
	if l.Plan == nil {
		l.Needed = s.figure("needed", "cloth needed", unknown(l.Why), rule, "", practice)
		return
	}
	c, w := l.Cloth.Cloth, l.want(u)
	step := stepOf(c, u)
	s.use("length of the lay", &l.Length)
	s.noteAt("shrink along", percent(c.Shrink.Along), c.Shrink.Along.At)
	s.noteAt("straightening of each end", mm(u.straightening.V.MM()), u.straightening.At)
	s.noteAt("the shop's step", mm(step.V.MM()), step.At)
	sum := fmt.Sprintf("%s ÷ (1 − %s) + 2 × %s = %s, rounded up to %s", mm(l.Plan.Length), percent(c.Shrink.Along),
		number(u.straightening.V.MM(), 3), mm(w.exact), mm(w.bought))
	l.Needed = s.figure("needed", "cloth needed", of(w.bought/1e3, measure.UnitM), rule, sum, practice)
}

// onHand compares with what is on the shelf (figure 13). Cloth on the shelf
// counts as not yet washed.
func (l *Lay) onHand(u *usual) {
	s := l.sheet()
	const rule = "cloth on hand − (length of the lay ÷ (1 − shrink along) + straightening at both ends)"
	title := "over on the cloth on hand"
	c := l.Cloth.Cloth
	switch {
	case l.Plan == nil:
		l.OnHand = s.figure("on-hand", title, unknown(l.Why), rule, "", derived)
		return
	case !c.OnHand.Given():
		l.OnHand = s.figure("on-hand", title, unknown("the cloth does not say how much is on hand"), rule, "", derived)
		return
	}
	w, have := l.want(u), c.OnHand.V.MM()
	over := math.Round((have-w.exact)*1e3) / 1e3
	s.noteAt("cloth on hand", mm(have), c.OnHand.At)
	s.use("length of the lay", &l.Length)
	l.Enough = over >= 0
	sum := fmt.Sprintf("%s − %s = %s", mm(have), mm(w.exact), mm(over))
	if !l.Enough {
		title = "missing on the cloth on hand"
		sum = fmt.Sprintf("%s − %s = −%s: %s are missing", mm(have), mm(w.exact), mm(-over), mm(-over))
	}
	l.OnHand = s.figure("on-hand", title, of(math.Abs(over)/1e3, measure.UnitM), rule, sum, derived)
}

// mass is the mass of the cloth needed, over its full width.
func (l *Lay) mass() {
	s := l.sheet()
	const title, rule = "mass of the cloth needed", "cloth needed × width of the cloth × mass per area"
	c := l.Cloth.Cloth
	switch {
	case l.Plan == nil:
		l.Mass = s.figure("needed-mass", title, unknown(l.Why), rule, "", derived)
		return
	case !c.Mass.Given():
		l.Mass = s.figure("needed-mass", title, unknown("the cloth has no mass per area"), rule, "", derived)
		return
	}
	long, wide, per := l.Needed.Value.Number, c.Width.V.MM()/1e3, float64(c.Mass.V)
	s.use("cloth needed", &l.Needed)
	s.noteAt("width of the cloth", mm(c.Width.V.MM()), c.Width.At)
	s.noteAt("mass per area", number(per, 3)+" g/m²", c.Mass.At)
	v := long * wide * per
	l.Mass = s.figure("needed-mass", title, of(v, measure.UnitG), rule,
		fmt.Sprintf("%s m × %s m × %s g/m² = %s g", number(long, 3), number(wide, 3), number(per, 3), number(v, 3)), derived)
}

// money is what the cloth needed costs, and what of it must still be bought
// (figure 17). A lay runs over no join: where the cloth on hand is too short
// the whole length is bought.
func (l *Lay) money(u *usual) {
	all := l.cost(u, "cost.cloth-bought.", "cloth bought", "cloth needed × price", false)
	buy := l.cost(u, "cost.cloth-to-buy.", "cloth still to buy", "nothing where the cloth on hand is enough, else cloth needed × price: a lay runs over no join", l.Enough)
	l.Bought, l.ToBuy = record.Keep(all), record.Keep(buy)
}

func (l *Lay) cost(u *usual, base, title, rule string, nothing bool) garment.Figure {
	s := l.sheet()
	name := s.base[len("cloth.") : len(s.base)-1]
	s.base = base
	s.use("cloth needed", &l.Needed)
	var price record.Money
	if l.Cloth.Cloth != nil {
		price = l.Cloth.Cloth.Price.Open(record.ToFigure)
	}
	switch {
	case l.Plan == nil:
		return s.figure(name, title, unknown(l.Why), rule, "", derived)
	case !price.Given():
		return s.figure(name, title, unknown("the cloth has no price"), rule, "", derived)
	}
	each := price.V
	if each.Currency == "" {
		each.Currency = u.currency
	}
	s.noteAt("price", each.String()+"/"+u.per.Symbol(), price.At)
	length := measure.MM(l.want(u).bought)
	if nothing {
		s.use(l.OnHand.Title, &l.OnHand)
		length = 0
	}
	cost, err := measure.Price{Money: each, Per: u.per}.ForLength(length)
	if err != nil {
		return s.figure(name, title, unknown(err.Error()), rule, "", derived)
	}
	cost = cost.Round()
	sum := fmt.Sprintf("%s m × %s/%s = %s", number(length.MM()/1e3, 3), each, u.per.Symbol(), cost)
	return s.figure(name, title, garment.Value{Money: &cost}, rule, sum, derived)
}
