package order

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
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
		asked := w.written("cost.price", say.Of("order.price-asked"), "", own.Price)
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
	return w.paid(id, title, of, w.price(title, m, measure.NoUnit, say.Of("order.it-is-not-written")), say.Of("order.as-the-record-says"), figure.Recorded)
}

// paid finishes a figure that is an amount of money.
func (w *bookkeeper) paid(id, title, of string, t figure.Term, rule string, source trade.Source) figure.Figure {
	return w.Figure(id, title, of, t, measure.NoUnit, rule, source)
}

var usedRule = say.Of("order.area-cut-by-usable-width-by-1")

// clothCosts is the cloth in the garment, as if nothing of it were left over.
func (w *bookkeeper) clothCosts(p *purse) {
	for _, c := range w.g.Cloths {
		if !c.IsCut() {
			continue
		}
		cut := w.Of(say.Of("order.area-cut"), &c.CutArea)
		t := w.Unknown(say.Of("order.the-cloth-is-not-known"))
		if c.Cloth != nil {
			price := w.price("price", c.Cloth.Price.Open(record.ToFigure), w.perMetre(), say.Of("order.the-cloth-has-no-price"))
			t = cut.Over(garment.UsableWidthOf(w.Pad, c.Cloth))
			if along := c.Cloth.Shrink.Along; along.Given() {
				t = t.Over(w.Number(1).Minus(w.Written(say.Of("order.shrink-along"), float64(along.V), measure.UnitPercent, along.At)))
			}
			t = t.Times(price)
		} else {
			w.Note(cut)
		}
		p.add(w.paid(w.Join("cost.cloth.", c.Slug), say.Of("order.cloth-used"), c.Part, t, usedRule, figure.Derived))
	}
}

// boughtCosts is the cloth as it is bought, which the lay decides.
func (w *bookkeeper) boughtCosts() []figure.Figure {
	var out []figure.Figure
	for _, c := range w.g.Cloths {
		if c.IsCut() {
			t := w.Of(say.Of("order.cloth-needed"), &c.Needed)
			out = append(out, w.paid(w.Join("cost.cloth-bought.", c.Slug), say.Of("order.cloth-bought"), c.Part, t, say.Of("order.buy-times-price"), figure.Derived))
		}
	}
	return out
}

func (w *bookkeeper) notionCosts(p *purse) {
	for _, n := range w.g.Notions {
		r := n.Record
		by, per, rule := &n.Count, measure.NoUnit, say.Of("order.how-many-times-price-of-one")
		if garment.SoldByLength(r) && n.Total.ID != "" {
			by, per, rule = &n.Total, w.perMetre(), say.Of("order.length-of-all-times-price-by-length")
		}
		price := w.price("price", r.Price.Open(record.ToFigure), per, say.Of("order.it-has-no-price"))
		p.add(w.paid(w.Join("cost.notion.", n.Slug), "notion", r.Name.V, w.Of(say.Of("order.how-much"), by).Times(price), rule, figure.Derived))
	}
}

// threadCosts counts whole reels.
func (w *bookkeeper) threadCosts(p *purse) {
	for i, t := range w.g.Threads {
		var price record.Money
		if spec, ok := w.b.Thread.Get(t.Name); ok {
			price = spec.Price.Open(record.ToFigure)
		}
		cost := w.Of("reels", &t.Reels).Times(w.price(say.Of("order.price-of-a-reel"), price, measure.NoUnit, say.Of("order.it-has-no-price")))
		p.add(w.paid(w.Join("cost.thread.", strconv.Itoa(i+1)), "thread", t.Name, cost, say.Of("order.reels-to-have-times-price-of-a"), figure.Derived))
	}
}

// labourCost is what the time clocked is worth: by the build's rate, else the
// workroom's.
func (w *bookkeeper) labourCost(p *purse, own *record.Costs) {
	rate := own.Labour
	if !rate.Given() {
		rate = w.room.Workroom.Labour.Open(record.ToFigure)
	}
	hour := w.price(say.Of("order.an-hour"), rate, measure.UnitHour, say.Of("order.neither-the-record-nor-the-workroom"))
	t := w.Of("hours", &w.o.Spent).Times(hour)
	p.add(w.paid("cost.labour", "work", "", t, say.Of("order.hours-times-what-an-hour-is-worth"), figure.Derived))
}

func (w *bookkeeper) costTotal(p *purse) figure.Figure {
	terms := make([]figure.Term, len(p.parts))
	for i := range p.parts {
		f := &p.parts[i]
		name, of := f.Title, f.Title
		if f.Of != "" {
			name, of = w.Join(f.Title, ", ", f.Of), say.Of("order.of", f.Title, f.Of)
		}
		terms[i] = w.Of(name, f)
		if !f.Value.Known() {
			terms[i] = terms[i].Unless(of + ": " + f.Value.Why)
		}
	}
	return w.paid("cost.total", "cost", "", w.Sum(terms...), say.Of("order.of-cloth-used-notions-thread-work"), figure.Derived)
}

// leftOver is what the price asked leaves over the cost.
func (w *bookkeeper) leftOver(asked, total *figure.Figure) figure.Figure {
	cost := w.Of("cost", total)
	if !cost.Known() {
		cost = cost.Unless(say.Of("order.the-cost-is-not-known"))
	}
	return w.paid("cost.left", say.Of("order.left-over-after-costs"), "", w.Of(say.Of("order.price-asked"), asked).Minus(cost), say.Of("order.price-asked-cost"), figure.Derived)
}

// perMetre is the unit that prices by length are for: a metre, or a yard in a
// workroom that measures in inches.
func (w *bookkeeper) perMetre() measure.Unit {
	if w.room.BareUnit() == measure.UnitIn {
		return measure.UnitYd
	}
	return measure.UnitM
}
