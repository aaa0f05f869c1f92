package garment

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A purse gathers what is paid for.
type purse struct{ parts []figure.Figure }

func (p *purse) add(f figure.Figure) { p.parts = append(p.parts, f) }

// costs works out what the build costs (figure 17). It is private, all of it.
func (w *work) costs() {
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
	w.g.Costs = make([]figure.Private, 0, len(p.parts)+len(bought))
	for _, f := range append(p.parts, bought...) {
		w.g.Costs = append(w.g.Costs, record.Keep(f))
	}
}

// price is money as the record has it, in the workroom's currency where none is
// written; not known, because it is not written.
func (w *work) price(name string, m record.Money, per measure.Unit, none string) figure.Term {
	if !m.Given() {
		return w.Unknown(none)
	}
	v := m.V
	if v.Currency == "" {
		v.Currency = w.t.usual.currency
	}
	return w.Price(name, v, per, m.At)
}

func (w *work) written(id, title, of string, m record.Money) figure.Figure {
	return w.paid(id, title, of, w.price(title, m, measure.NoUnit, "it is not written"), "as the record says", figure.Recorded)
}

// paid finishes a figure that is an amount of money.
func (w *work) paid(id, title, of string, t figure.Term, rule string, source trade.Source) figure.Figure {
	return w.Figure(id, title, of, t, measure.NoUnit, rule, source)
}

const usedRule = "area cut ÷ usable width ÷ (1 − shrink along) × price: it is paid for as it was before it was washed"

// clothCosts is the cloth in the garment, as if nothing of it were left over.
func (w *work) clothCosts(p *purse) {
	for _, c := range w.g.Cloths {
		if !c.cut() {
			continue
		}
		cut := w.Of("area cut", &c.CutArea)
		t := w.Unknown("the cloth is not known")
		if c.Cloth != nil {
			price := w.price("price", c.Cloth.Price.Open(record.ToFigure), w.t.perMetre(), "the cloth has no price")
			t = cut.Over(UsableWidthOf(w.Pad, c.Cloth))
			if along := c.Cloth.Shrink.Along; along.Given() {
				t = t.Over(w.Number(1).Minus(w.Written("shrink along", float64(along.V), measure.UnitPercent, along.At)))
			}
			t = t.Times(price)
		} else {
			w.Note(cut)
		}
		p.add(w.paid(w.Join("cost.cloth.", c.anchor), "cloth used", c.Part, t, usedRule, figure.Derived))
	}
}

// UsableWidthOf is the width of a cloth that pieces may lie on, as a term:
// width × (1 − shrink across) less both selvedges.
func UsableWidthOf(p *figure.Pad, c *record.Cloth) figure.Term {
	t := p.Length("width of the cloth", c.Width)
	if c.Shrink.Across.Given() {
		t = t.Times(p.Number(1).Minus(p.Written("shrink across", float64(c.Shrink.Across.V), measure.UnitPercent, c.Shrink.Across.At)))
	}
	if c.Selvedge.Given() {
		t = t.Minus(p.Number(2).Times(p.Length("selvedge", c.Selvedge)))
	}
	return t
}

// cut reports whether anything is cut from the cloth.
func (c *Cloth) cut() bool { return len(c.Pieces) > 0 || c.CutArea.Value.Known() }

// boughtCosts is the cloth as it is bought, which the lay decides.
func (w *work) boughtCosts() []figure.Figure {
	var out []figure.Figure
	for _, c := range w.g.Cloths {
		if c.cut() {
			t := w.Of("cloth needed", &c.Needed)
			out = append(out, w.paid(w.Join("cost.cloth-bought.", c.anchor), "cloth bought", c.Part, t, "cloth needed × price", figure.Derived))
		}
	}
	return out
}

func (w *work) notionCosts(p *purse) {
	for _, n := range w.g.Notions {
		r := n.Record
		by, per, rule := &n.Count, measure.NoUnit, "how many × price of one"
		if soldByLength(r) && n.Total.ID != "" {
			by, per, rule = &n.Total, w.t.perMetre(), "length of all × price by length"
		}
		price := w.price("price", r.Price.Open(record.ToFigure), per, "it has no price")
		p.add(w.paid(w.Join("cost.notion.", n.anchor), "notion", r.What.V, w.Of("how much", by).Times(price), rule, figure.Derived))
	}
}

// threadCosts counts whole reels.
func (w *work) threadCosts(p *purse) {
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
func (w *work) labourCost(p *purse, own *record.Costs) {
	rate := own.Labour
	if !rate.Given() {
		rate = w.t.room.Workroom.Labour.Open(record.ToFigure)
	}
	hour := w.price("an hour", rate, measure.UnitHour, "neither the record nor the workroom says what an hour is worth")
	t := w.Of("time clocked", &w.g.Totals.Spent).Times(hour)
	p.add(w.paid("cost.labour", "labour", "", t, "time clocked × what an hour is worth", figure.Derived))
}

func (w *work) costTotal(p *purse) figure.Figure {
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
	return w.paid("cost.total", "cost in all", "", w.Sum(terms...), "Σ of cloth used, notions, thread, labour, postage and what else is written", figure.Derived)
}

// leftOver is what the price asked leaves over the cost.
func (w *work) leftOver(asked, total *figure.Figure) figure.Figure {
	cost := w.Of("cost", total)
	if !cost.Known() {
		cost = cost.Unless("the cost is not known")
	}
	return w.paid("cost.left", "left of the price", "", w.Of("price asked", asked).Minus(cost), "price asked − cost", figure.Derived)
}
