package cutting

import (
	"math"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

func stepOf(c *record.Cloth, u *usual) record.Length {
	if c.Step.Given() {
		return c.Step
	}
	return u.step
}

// straightened is the lay before the cloth has shrunk, with both ends straightened.
func (l *Lay) straightened(u *usual) figure.Term {
	t := l.lengthTerm()
	if along := l.Cloth.Cloth.Shrink.Along; along.Given() {
		t = t.Over(l.pad.Number(1).Minus(l.pad.Written(say.Of("cutting.shrink-along"), float64(along.V), measure.UnitPercent, along.At)))
	}
	return t.Plus(l.pad.Number(2).Times(l.setting(say.Of("cutting.straightening-of-each-end"), u.straightening)))
}

// setting is a length of the workroom's, written or usual.
func (l *Lay) setting(name string, v record.Length) figure.Term {
	if v.Given() {
		return l.pad.Length(name, v)
	}
	return l.pad.Usual(name, v.V.MM(), millimetres)
}

// needed is the cloth to have (figure 12).
func (l *Lay) needed(u *usual) {
	rule := say.Of("cutting.length-of-the-lay-by-1-shrink")
	var t figure.Term
	if l.Plan != nil {
		t = l.straightened(u)
		if step := stepOf(l.Cloth.Cloth, u); step.V > 0 {
			t = t.Up(l.setting(say.Of("cutting.the-shops-step"), step))
		}
	}
	l.Needed = l.figure("needed", "buy", t, measure.UnitM, rule, figure.Practice)
}

// onHand compares with what is on the shelf (figure 13), unless the cloth is cut:
// that is not held against the shelf of today. Cloth on the shelf counts as not yet
// washed.
func (l *Lay) onHand(u *usual) {
	title, rule := say.Of("cutting.over-on-the-shelf"), say.Of("cutting.on-the-shelf-length-of-the-lay")
	var t figure.Term
	c := l.Cloth.Cloth
	switch {
	case c != nil && l.build != nil && l.build.HasCut(c, l.Part):
		l.Enough = true
		return
	case l.Plan == nil:
	case !garment.OnShelf(c):
		t = l.pad.Unknown(say.Of("cutting.the-cloth-does-not-say-how-much"))
	default:
		have, want := garment.OnShelfOf(l.pad, c), l.straightened(u)
		over := math.Round((have.MM()-want.MM())*1e3) / 1e3
		l.Enough = over >= 0
		t = have.Minus(want)
		switch {
		case !l.Enough:
			title = say.Of("cutting.short-on-the-shelf")
			rule = say.Of("cutting.length-of-the-lay-by-1-shrink-2")
			t = want.Minus(have)
		case t.MM() < 0: // less than a micrometre
			t = l.pad.Greatest(t, l.pad.Constant(0, millimetres))
		}
	}
	l.OnHand = l.figure("on-hand", title, t, measure.UnitM, rule, figure.Derived)
}

// Short warns of each cloth that is still to be cut and of which the shelf has less
// than its lay takes, with what would help at least cost; where there is no lay yet, of one
// of which it has less than any lay needs.
func (c *Cutting) Short() []fault.Fault {
	var faults fault.Faults
	for _, l := range c.Lays {
		at := l.Cloth.Use.Use.At
		switch {
		case l.Enough:
		case l.Plan == nil:
			if by := l.shortOfAny(); by > closeEnough {
				faults.LookAgain(at, say.Of("cutting.hembook-lay-says-what-would-help", c.Garment.Build.Slug), say.Of("cutting.the-shelf-has-less-than-any-lay", l.Part, l.pad.Tape(by)))
			}
		case l.OnHand.Value.Known():
			hint := say.Of("cutting.see-what-came-and-what-was-cut", l.Cloth.Use.Use.V)
			if len(l.Ways) > 0 && rank(l.Ways[0]) == 0 {
				hint = say.Of("cutting.more-ways-hembook-lay", l.Ways[0].What, c.Garment.Build.Slug)
			}
			faults.LookAgain(at, hint, say.Of("cutting.the-shelf-has-less-than-the-lay", l.Part, l.pad.Tape(l.OnHand.Value.In(millimetres).Number)))
		}
	}
	c.shortTogether(&faults)
	return faults.Sorted()
}

// shortTogether warns of a cloth that several parts are still to be cut from, of which
// the shelf has enough for each of them and not for all.
func (c *Cutting) shortTogether(faults *fault.Faults) {
	told := map[*record.Cloth]bool{}
	for _, l := range c.Lays {
		cloth := l.Cloth.Cloth
		if cloth == nil || told[cloth] {
			continue
		}
		told[cloth] = true
		var parts []string
		last, over := l, 0.0
		for _, o := range c.Lays {
			if o.Cloth.Cloth == cloth && o.Plan != nil && o.Enough && o.OnHand.ID != "" && o.OnHand.Value.Known() {
				parts, last, over = append(parts, o.Part), o, over+o.OnHand.Value.In(millimetres).Number
			}
		}
		if len(parts) < 2 {
			continue
		}
		short := float64(garment.OnShelfOf(l.pad, cloth).MM()*float64(len(parts)-1)) - over
		if short > 1e-3 {
			faults.LookAgain(last.Cloth.Use.Use.At, say.Of("cutting.see-what-came-and-what-was-cut", last.Cloth.Use.Use.V),
				say.Of("cutting.are-cut-from-and-the-shelf-has", strings.Join(parts, " and "), last.Use(), l.pad.Tape(short)))
		}
	}
}

// shortOfAny is how much less the shelf has than a lay of the bound's length takes, mm; 0
// where that is not known.
func (l *Lay) shortOfAny() float64 {
	c := l.Cloth.Cloth
	if l.Problem == nil || c == nil || !garment.OnShelf(c) || l.build != nil && l.build.HasCut(c, l.Part) {
		return 0
	}
	takes := l.Problem.Lay.Bound().Length / (1 - float64(c.Shrink.Along.V)/100)
	return takes - garment.OnShelfOf(l.pad, c).MM()
}

// mass is the weight of the cloth needed, over its full width and before it is washed.
func (l *Lay) mass() {
	var t figure.Term
	rule := say.Of("cutting.buy-times-width-of-the-cloth-times")
	if c := l.Cloth.Cloth; l.Plan != nil {
		per := l.pad.Unknown(say.Of("cutting.the-cloth-has-no-weight"))
		if c.Mass.Given() {
			per = l.pad.Written(say.Of("cutting.weight-of-a-square-metre"), float64(c.Mass.V), measure.UnitGPerM2, c.Mass.At)
		}
		t = l.pad.Of("buy", &l.Needed).Times(l.pad.Length(say.Of("cutting.width-of-the-cloth"), c.Width)).Times(per)
		if c.Weighed.V == "washed" && per.Known() {
			t = l.unwashed(t)
			rule += say.Of("cutting.times-1-shrink-along-times-1-shrink")
		}
	}
	l.Mass = l.figure("needed-mass", say.Of("cutting.weight-of-this-cloth"), t, measure.UnitG, rule, figure.Derived)
}

// unwashed is the weight of cloth as it is bought, of which a square metre was weighed
// after it was washed: there was less of it in a square metre.
func (l *Lay) unwashed(t figure.Term) figure.Term {
	shrink := l.Cloth.Cloth.Shrink
	for _, s := range []struct {
		name string
		by   record.Percent
	}{{say.Of("cutting.shrink-along"), shrink.Along}, {say.Of("cutting.shrink-across"), shrink.Across}} {
		if s.by.Given() {
			t = t.Times(l.pad.Number(1).Minus(l.pad.Written(s.name, float64(s.by.V), measure.UnitPercent, s.by.At)))
		}
	}
	return t
}

// money is what the cloth needed costs, and what of it must still be bought
// (figure 17). A lay runs over no join: where the cloth on hand is too short
// the whole length is bought.
func (l *Lay) money(u *usual) {
	all := l.cost(u, "cost.cloth-bought.", say.Of("cutting.cloth-bought"), say.Of("cutting.buy-times-price"), false)
	buy := l.cost(u, "cost.cloth-to-buy.", say.Of("cutting.cloth-still-to-buy"), say.Of("cutting.nothing-where-it-is-cut-or-the"), l.Enough)
	l.Bought, l.ToBuy = record.Keep(all), record.Keep(buy)
}

func (l *Lay) cost(u *usual, base, title, rule string, nothing bool) figure.Figure {
	id := base + strings.TrimSuffix(strings.TrimPrefix(l.base(), "cloth."), ".")
	t := l.pad.Unknown(l.Why)
	if l.Plan != nil {
		t = l.price(u)
		need := l.pad.Of("buy", &l.Needed)
		if nothing {
			if l.pad.Note(need); l.OnHand.ID != "" {
				l.pad.Note(l.pad.Of(l.OnHand.Title, &l.OnHand))
			}
			need = l.pad.Constant(0, measure.UnitM)
		}
		t = need.Times(t)
	}
	return l.pad.Figure(id, title, l.Part, t, measure.NoUnit, rule, figure.Derived)
}

// price is what the cloth costs by the metre or yard.
func (l *Lay) price(u *usual) figure.Term {
	price := l.Cloth.Cloth.Price.Open(record.ToFigure)
	if !price.Given() {
		return l.pad.Unknown(say.Of("cutting.the-cloth-has-no-price"))
	}
	each := price.V
	if each.Currency == "" {
		each.Currency = u.currency
	}
	return l.pad.Price("price", each, u.per, price.At)
}
