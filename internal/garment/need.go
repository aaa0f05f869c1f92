package garment

import (
	"math"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A ClothNeed is what a planned lay asks of a cloth (figures 12 and 13).
type ClothNeed struct {
	Laid   Figure        // the lay's length before the cloth has shrunk
	Needed Figure        // to buy: with straightening, in the shop's steps
	Spare  Figure        // on hand − needed; not set where nothing is on hand
	Enough bool          // on hand is enough
	Cost   PrivateFigure // of the cloth needed
}

// Need works out how much of a cloth a lay of so many millimetres takes:
// length ÷ (1 − shrink along) + straightening at both ends, rounded up to the
// shop's step. The figures bear the same IDs in every garment, so that
// Needed stands for the one [Tailor.Derive] left unknown.
func (t *Tailor) Need(c *Cloth, lay float64) ClothNeed {
	w := &work{t: t}
	base := "cloth." + c.anchor
	var out ClothNeed
	if c.Cloth == nil || !(lay > 0) || !finite(lay) {
		why := unknown("the cloth is not known")
		if c.Cloth != nil {
			why = unknown("the lay has no length")
		}
		w.note(Input{Name: "lay", Value: w.mm(lay).end(), From: "the lay plan"})
		out.Laid = w.figure(base+".laid", "cloth the lay takes", c.Part, why, laidRule, derived)
		out.Needed = w.figure(base+".needed", "cloth needed", c.Part, why, neededRule, practice)
		out.Cost = record.Keep(w.figure("cost.cloth-bought."+c.anchor, "cloth bought", c.Part, why, boughtRule, derived))
		return out
	}
	out.Laid = w.laid(c, base, lay)
	out.Needed = w.needed(c, base, &out.Laid)
	if hand := c.Cloth.OnHand; hand.Given() {
		w.lengthIn("on hand", hand)
		w.figureIn("needed", &out.Laid)
		spare := hand.V.MM() - out.Laid.Value.Number - 2*t.usual.straightening.v
		w.n(hand.V.MM()).s(" − ").n(out.Laid.Value.Number).s(" − 2 × ").n(t.usual.straightening.v).s(" = ").mm(spare)
		out.Spare = w.figure(base+".spare", "left over of what is on hand", c.Part, inMM(spare),
			"on hand − cloth the lay takes − straightening; less than nothing is short by so much", derived)
		out.Enough = spare >= -1e-6
	}
	out.Cost = record.Keep(w.bought(c, &out.Needed))
	return out
}

const (
	laidRule   = "length of the lay ÷ (1 − shrink along)"
	neededRule = "cloth the lay takes + 2 × straightening, rounded up to the shop's step"
	boughtRule = "cloth needed × price"
)

func (w *work) laid(c *Cloth, base string, lay float64) Figure {
	shrink := float64(c.Cloth.Shrink.Along.V)
	w.note(Input{Name: "lay", Value: w.mm(lay).end(), From: "the lay plan"})
	source := trade.Source("derived (ISO 5077:2007, change in per cent of the length before)")
	if c.Cloth.Shrink.Along.Given() {
		w.note(Input{Name: "shrink along", Value: w.n(shrink).s(" %").end(), At: c.Cloth.Shrink.Along.At})
	} else {
		w.note(Input{Name: "shrink along", Value: "0 %", From: "nothing is written: taken as washed already"})
	}
	v := lay / (1 - shrink/100)
	w.n(lay).s(" ÷ (1 − ").n(shrink).s(" %) = ").mm(v)
	return w.figure(base+".laid", "cloth the lay takes", c.Part, inMM(v), laidRule, source)
}

func (w *work) needed(c *Cloth, base string, laid *Figure) Figure {
	straighten, step := w.t.usual.straightening, w.t.usual.step
	if c.Cloth.Step.Given() {
		step = setting{c.Cloth.Step.V.MM(), c.Cloth.Step.At, recorded}
	}
	w.figureIn("cloth the lay takes", laid)
	straighten.input(&w.ink, "straightening", measure.UnitMM)
	step.input(&w.ink, "shop's step", measure.UnitMM)
	whole := laid.Value.Number + 2*straighten.v
	v := math.Ceil(whole/step.v-1e-9) * step.v
	w.n(laid.Value.Number).s(" + 2 × ").n(straighten.v).s(" = ").n(whole).s(", rounded up to ").mm(v)
	return w.figure(base+".needed", "cloth needed", c.Part, inMM(v), neededRule, practice)
}

func (w *work) bought(c *Cloth, needed *Figure) Figure {
	id := "cost.cloth-bought." + c.anchor
	w.figureIn("cloth needed", needed)
	price := c.Cloth.Price.Open(record.ToFigure)
	if !price.Given() {
		return w.figure(id, "cloth bought", c.Part, unknown("the cloth has no price"), boughtRule, derived)
	}
	each := w.moneyIn("price", price)
	length, _ := measure.FromMM(needed.Value.Number)
	cost, err := measure.Price{Money: each, Per: w.t.perMetre()}.ForLength(length)
	if err != nil {
		return w.figure(id, "cloth bought", c.Part, unknown(err.Error()), boughtRule, derived)
	}
	cost = cost.Round()
	w.mm(needed.Value.Number).s(" × ").s(each.String()).s("/").s(w.t.perMetre().Symbol()).s(" = ").s(cost.String())
	return w.figure(id, "cloth bought", c.Part, inMoney(cost), boughtRule, derived)
}

// UsableWidth is the width of a cloth that pieces may lie on, in millimetres:
// width × (1 − shrink across) less both selvedges.
func UsableWidth(c *record.Cloth) float64 { return usableWidth(c) }
