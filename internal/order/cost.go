package order

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A purse gathers what is paid for.
type purse struct{ parts []figure.Figure }

func (p *purse) add(f figure.Figure) { p.parts = append(p.parts, f) }

// costs works out what the build costs (figure 17). It is private, all of it.
func (w *bookkeeper) costs() {
	own := w.b.Costs.Open(record.ToFigure)
	var p purse
	w.clothCosts(&p)
	w.notionCosts(&p)
	w.threadCosts(&p)
	w.labourCost(&p, &own)
	if own.Post.Given() {
		p.add(w.written("cost.post", "postage", "", own.Post))
	}
	slugs := words.NamesFor(len(own.Other))
	for i := range own.Other {
		name := own.Other[i].Name.V
		p.add(w.written(w.Join("cost.other.", slugs.Unique(name)), "cost", name, own.Other[i].V))
	}
	total := w.costTotal(&p)
	p.parts = append(p.parts, total)
	if own.Price.Given() {
		asked := w.written("cost.price", "price asked", "", own.Price)
		p.parts = append(p.parts, asked, w.leftOver(&asked, &total))
	}
	bought := w.boughtCosts()
	w.o.Costs = make([]figure.Private, 0, len(p.parts)+len(bought))
	for _, f := range append(p.parts, bought...) {
		w.o.Costs = append(w.o.Costs, record.Keep(f))
	}
}

// price is money as the record has it, in the workroom's currency where none is
// written; not known, because it is not written.
func (w *bookkeeper) price(name string, m record.Money, per measure.Unit, none string) figure.Term {
	if !m.Given() {
		return w.Unknown(none)
	}
	v := m.V
	if v.Currency == "" {
		v.Currency = w.currency
	}
	return w.Price(name, v, per, m.At)
}

func (w *bookkeeper) written(id, title, of string, m record.Money) figure.Figure {
	return w.paid(id, title, of, w.price(title, m, measure.NoUnit, "it is not written"), "as the record says", figure.Recorded)
}

// paid finishes a figure that is an amount of money.
func (w *bookkeeper) paid(id, title, of string, t figure.Term, rule string, source trade.Source) figure.Figure {
	return w.Figure(id, title, of, t, measure.NoUnit, rule, source)
}

const usedRule = "area cut ÷ usable width ÷ (1 − shrink along) × price: it is paid for as it was before it was washed"

// clothCosts is the cloth in the garment, as if nothing of it were left over.
func (w *bookkeeper) clothCosts(p *purse) {
	for _, c := range w.g.Cloths {
		if !c.IsCut() {
			continue
		}
		cut := w.Of("area cut", &c.CutArea)
		t := w.Unknown("the cloth is not known")
		if c.Cloth != nil {
			price := w.price("price", c.Cloth.Price.Open(record.ToFigure), w.perMetre(), "the cloth has no price")
			t = cut.Over(garment.UsableWidthOf(w.Pad, c.Cloth))
			if along := c.Cloth.Shrink.Along; along.Given() {
				t = t.Over(w.Number(1).Minus(w.Written("shrink along", float64(along.V), measure.UnitPercent, along.At)))
			}
			t = t.Times(price)
		} else {
			w.Note(cut)
		}
		p.add(w.paid(w.Join("cost.cloth.", c.Slug), "cloth used", c.Part, t, usedRule, figure.Derived))
	}
}

// boughtCosts is the cloth as it is bought, which the lay decides.
func (w *bookkeeper) boughtCosts() []figure.Figure {
	var out []figure.Figure
	for _, c := range w.g.Cloths {
		if c.IsCut() {
			t := w.Of("cloth needed", &c.Needed)
			out = append(out, w.paid(w.Join("cost.cloth-bought.", c.Slug), "cloth bought", c.Part, t, "buy × price", figure.Derived))
		}
	}
	return out
}

func (w *bookkeeper) notionCosts(p *purse) {
	for _, n := range w.g.Notions {
		r := n.Record
		by, per, rule := &n.Count, measure.NoUnit, "how many × price of one"
		if garment.SoldByLength(r) && n.Total.ID != "" {
			by, per, rule = &n.Total, w.perMetre(), "length of all × price by length"
		}
		price := w.price("price", r.Price.Open(record.ToFigure), per, "it has no price")
		p.add(w.paid(w.Join("cost.notion.", n.Slug), "notion", r.Name.V, w.Of("how much", by).Times(price), rule, figure.Derived))
	}
}

// threadCosts counts whole reels.
func (w *bookkeeper) threadCosts(p *purse) {
	for i, t := range w.g.Threads {
		var price record.Money
		if spec, ok := w.b.Thread.Get(t.Name); ok {
			price = spec.Price.Open(record.ToFigure)
		}
		cost := w.Of("reels", &t.Reels).Times(w.price("price of a reel", price, measure.NoUnit, "it has no price"))
		p.add(w.paid(w.Join("cost.thread.", strconv.Itoa(i+1)), "thread", t.Name, cost, "reels to have × price of a reel", figure.Derived))
	}
}

// labourCost is what the time clocked is worth: by the build's rate, else the
// workroom's.
func (w *bookkeeper) labourCost(p *purse, own *record.Costs) {
	rate := own.Labour
	if !rate.Given() {
		rate = w.room.Workroom.Labour.Open(record.ToFigure)
	}
	hour := w.price("an hour", rate, measure.UnitHour, "neither the record nor the workroom says what an hour is worth")
	t := w.Of("hours", &w.o.Spent).Times(hour)
	p.add(w.paid("cost.labour", "work", "", t, "hours × what an hour is worth", figure.Derived))
}

func (w *bookkeeper) costTotal(p *purse) figure.Figure {
	terms := make([]figure.Term, len(p.parts))
	for i := range p.parts {
		f := &p.parts[i]
		name, of := f.Title, f.Title
		if f.Of != "" {
			name, of = w.Join(f.Title, ", ", f.Of), f.Title+" of "+f.Of
		}
		terms[i] = w.Of(name, f)
		if !f.Value.Known() {
			terms[i] = terms[i].Unless(of + ": " + f.Value.Why)
		}
	}
	return w.paid("cost.total", "cost", "", w.Sum(terms...), "Σ of cloth used, notions, thread, work, postage and what else is written", figure.Derived)
}

// leftOver is what the price asked leaves over the cost.
func (w *bookkeeper) leftOver(asked, total *figure.Figure) figure.Figure {
	cost := w.Of("cost", total)
	if !cost.Known() {
		cost = cost.Unless("the cost is not known")
	}
	return w.paid("cost.left", "left over after costs", "", w.Of("price asked", asked).Minus(cost), "price asked − cost", figure.Derived)
}

// perMetre is the unit that prices by length are for: a metre, or a yard in a
// workroom that measures in inches.
func (w *bookkeeper) perMetre() measure.Unit {
	if w.room.BareUnit() == measure.UnitIn {
		return measure.UnitYd
	}
	return measure.UnitM
}
