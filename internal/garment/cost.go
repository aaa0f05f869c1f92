package garment

import (
	"strconv"

	"github.com/shopspring/decimal"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// A purse adds up money of one currency.
type purse struct {
	sum   measure.Money
	parts []Figure
	why   string // why the sum is not known
}

func (p *purse) add(f Figure) {
	p.parts = append(p.parts, f)
	switch {
	case p.why != "":
	case !f.Value.Known():
		p.why = f.Title + " of " + f.Of + ": " + f.Value.Why
		if f.Of == "" {
			p.why = f.Title + ": " + f.Value.Why
		}
	case p.sum.Currency == "":
		p.sum = *f.Value.Money
	default:
		sum, err := p.sum.Add(*f.Value.Money)
		if err != nil {
			p.why = err.Error()
			return
		}
		p.sum = sum
	}
}

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
	slugs := namesFor(len(own.Other))
	for i := range own.Other {
		name := own.Other[i].Name.V
		p.add(w.written(w.join("cost.other.", slugs.unique(name)), "cost", name, own.Other[i].V))
	}
	total := w.costTotal(&p)
	p.parts = append(p.parts, total)
	if own.Price.Given() {
		asked := w.written("cost.price", "price asked", "", own.Price)
		p.parts = append(p.parts, asked, w.leftOver(&asked, &total))
	}
	bought := w.boughtCosts()
	w.g.Costs = make([]PrivateFigure, 0, len(p.parts)+len(bought))
	for _, f := range append(p.parts, bought...) {
		w.g.Costs = append(w.g.Costs, record.Keep(f))
	}
}

// money fills in the workroom's currency where none is written.
func (w *work) money(m measure.Money) measure.Money {
	if m.Currency == "" {
		m.Currency = w.t.usual.currency
	}
	return m
}

func inMoney(m measure.Money) Value { return Value{Money: &m} }

// moneyIn notes an amount as an input.
func (w *work) moneyIn(name string, m record.Money) measure.Money {
	v := w.money(m.V)
	w.note(Input{Name: name, Value: v.String(), At: m.At})
	return v
}

func (w *work) written(id, title, of string, m record.Money) Figure {
	v := w.moneyIn(title, m)
	w.s(v.String())
	return w.figure(id, title, of, inMoney(v), "as the record says", recorded)
}

// clothCosts is the cloth in the garment, as if nothing of it were left over.
func (w *work) clothCosts(p *purse) {
	for _, c := range w.g.Cloths {
		if !c.cut() {
			continue
		}
		const title, rule = "cloth used", "area cut ÷ usable width × price"
		id := w.join("cost.cloth.", c.anchor)
		w.figureIn("area cut", &c.CutArea)
		why := ""
		var price record.Money
		switch {
		case c.Cloth == nil:
			why = "the cloth is not known"
		case !c.CutArea.Value.Known():
			why = c.CutArea.Value.Why
		default:
			if price = c.Cloth.Price.Open(record.ToFigure); !price.Given() {
				why = "the cloth has no price"
			}
		}
		if why != "" {
			p.add(w.figure(id, title, c.Part, unknown(why), rule, derived))
			continue
		}
		w.lengthIn("width of the cloth", c.Cloth.Width)
		each := w.moneyIn("price", price)
		used := measure.MM(c.CutArea.Value.Number * 1e6 / usableWidth(c.Cloth))
		cost, err := measure.Price{Money: each, Per: w.t.perMetre()}.ForLength(used)
		if err != nil {
			p.add(w.figure(id, title, c.Part, unknown(err.Error()), rule, derived))
			continue
		}
		cost = cost.Round()
		w.n4(c.CutArea.Value.Number).s(" m² ÷ ").n(usableWidth(c.Cloth)).s(" mm × ").s(each.String()).s("/").s(w.t.perMetre().Symbol()).s(" = ").s(cost.String())
		p.add(w.figure(id, title, c.Part, inMoney(cost), rule, derived))
	}
}

// cut reports whether anything is cut from the cloth.
func (c *Cloth) cut() bool { return len(c.Pieces) > 0 || c.CutArea.Value.Known() }

// boughtCosts is the cloth as it is bought, which the lay decides.
func (w *work) boughtCosts() []Figure {
	var out []Figure
	for _, c := range w.g.Cloths {
		if !c.cut() {
			continue
		}
		w.figureIn("cloth needed", &c.Needed)
		out = append(out, w.figure(w.join("cost.cloth-bought.", c.anchor), "cloth bought", c.Part, unknown(c.Needed.Value.Why), "cloth needed × price", derived))
	}
	return out
}

func (w *work) notionCosts(p *purse) {
	for _, n := range w.g.Notions {
		r := n.Record
		id := w.join("cost.notion.", n.anchor)
		by, rule := &n.Count, "how many × price of one"
		if soldByLength(r) && n.Total.ID != "" {
			by, rule = &n.Total, "length of all × price of a metre"
		}
		w.figureIn("how much", by)
		price := r.Price.Open(record.ToFigure)
		switch {
		case !price.Given():
			p.add(w.figure(id, "notion", r.What.V, unknown("it has no price"), rule, derived))
		case !by.Value.Known():
			p.add(w.figure(id, "notion", r.What.V, unknown(by.Value.Why), rule, derived))
		default:
			each := w.moneyIn("price", price)
			cost := each.Mul(decimal.NewFromFloat(by.Value.Number)).Round()
			w.q(by.Value.Quantity).s(" × ").s(each.String()).s(" = ").s(cost.String())
			p.add(w.figure(id, "notion", r.What.V, inMoney(cost), rule, derived))
		}
	}
}

// threadCosts counts whole reels.
func (w *work) threadCosts(p *purse) {
	for i, t := range w.g.Threads {
		id := w.join("cost.thread.", strconv.Itoa(i+1))
		const rule = "reels to have × price of a reel"
		w.figureIn("reels", &t.Reels)
		var price record.Money
		if spec, ok := w.b.Thread.Get(t.Name); ok {
			price = spec.Price.Open(record.ToFigure)
		}
		switch {
		case !price.Given():
			p.add(w.figure(id, "thread", t.Name, unknown("it has no price"), rule, derived))
		case !t.Reels.Value.Known():
			p.add(w.figure(id, "thread", t.Name, unknown(t.Reels.Value.Why), rule, derived))
		default:
			each := w.moneyIn("price of a reel", price)
			cost := each.Mul(decimal.NewFromFloat(t.Reels.Value.Number)).Round()
			w.n(t.Reels.Value.Number).s(" × ").s(each.String()).s(" = ").s(cost.String())
			p.add(w.figure(id, "thread", t.Name, inMoney(cost), rule, derived))
		}
	}
}

// labourCost is the time clocked at the build's rate, else the workroom's.
func (w *work) labourCost(p *purse, own *record.Costs) {
	rate := own.Labour
	if !rate.Given() {
		rate = w.t.room.Workroom.Labour.Open(record.ToFigure)
	}
	const id, title, rule = "cost.labour", "labour", "time clocked × what an hour is worth"
	spent := &w.g.Totals.Spent
	w.figureIn("time clocked", spent)
	switch {
	case !rate.Given():
		p.add(w.figure(id, title, "", unknown("neither the record nor the workroom says what an hour is worth"), rule, derived))
	case !spent.Value.Known():
		p.add(w.figure(id, title, "", unknown(spent.Value.Why), rule, derived))
	default:
		each := w.moneyIn("an hour", rate)
		minutes := decimal.NewFromFloat(spent.Value.Number)
		cost := measure.Money{Amount: each.Amount.Mul(minutes).DivRound(decimal.NewFromInt(60), 12), Currency: each.Currency}.Round()
		w.n(spent.Value.Number).s(" min ÷ 60 × ").s(each.String()).s(" = ").s(cost.String())
		p.add(w.figure(id, title, "", inMoney(cost), rule, derived))
	}
}

func (w *work) costTotal(p *purse) Figure {
	for i := range p.parts {
		f := &p.parts[i]
		name := f.Title
		if f.Of != "" {
			name = w.join(f.Title, ", ", f.Of)
		}
		w.figureIn(name, f)
	}
	const rule = "Σ of cloth used, notions, thread, labour, postage and what else is written"
	if p.why != "" {
		return w.figure("cost.total", "cost in all", "", unknown(p.why), rule, derived)
	}
	for i := range p.parts {
		if i > 0 {
			w.s(" + ")
		}
		w.s(measure.Style{}.Money(measure.Money{Amount: p.parts[i].Value.Money.Amount}))
	}
	w.s(" = ").s(p.sum.String())
	return w.figure("cost.total", "cost in all", "", inMoney(p.sum), rule, derived)
}

// leftOver is what the price asked leaves over the cost.
func (w *work) leftOver(asked, total *Figure) Figure {
	w.figureIn("price asked", asked).figureIn("cost", total)
	const id, title, rule = "cost.left", "left of the price", "price asked − cost"
	if !total.Value.Known() {
		return w.figure(id, title, "", unknown("the cost is not known"), rule, derived)
	}
	less := *total.Value.Money
	less.Amount = less.Amount.Neg()
	left, err := asked.Value.Money.Add(less)
	if err != nil {
		return w.figure(id, title, "", unknown(err.Error()), rule, derived)
	}
	w.s(asked.Value.Money.String()).s(" − ").s(total.Value.Money.String()).s(" = ").s(left.String())
	return w.figure(id, title, "", inMoney(left), rule, derived)
}
