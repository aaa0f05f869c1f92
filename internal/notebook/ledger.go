package notebook

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Ledger is what came of a cloth, what was cut off and counted, and what is
// left of it.
type Ledger struct {
	Rows     []LedgerRow
	Left     figure.Figure // on the shelf today
	Reserved []ClothBuild  // builds whose cloth is still to be cut
	Over     figure.Figure // when these are cut; not set where there are none
}

// A LedgerRow is one movement of a cloth.
type LedgerRow struct {
	Day  record.Day
	What string
	For  Link          // the build it was cut off for; no address where it is none
	Came figure.Figure // not set where nothing came
	Cut  figure.Figure // not set where nothing was cut off
	Left figure.Figure // on the shelf after it
}

// ledgerOf is the ledger of a cloth without what is reserved; nil where nothing is
// written of its length. The function finds a build by its slug.
func ledgerOf(c *record.Cloth, style measure.Style, build func(slug string) (Link, bool)) *Ledger {
	list := c.Movements()
	if len(list) == 0 {
		return nil
	}
	l, pad := &Ledger{}, figure.NewPad(style)
	before := pad.Constant(0, measure.UnitMM)
	for i := range list {
		m := &list[i]
		id := "ledger." + c.Slug + "." + strconv.Itoa(i+1)
		row := LedgerRow{Day: m.Day, What: m.For}
		t := pad.Length("length", m.Length)
		left := t
		switch m.Kind {
		case record.CameIn:
			row.What = "came"
			if m.Lot != "" {
				row.What += say.Of("notebook.lot", m.Lot)
			}
			row.Came = pad.Figure(id+".came", "came", c.Name.V, t, measure.UnitM, say.Of("notebook.as-written"), figure.Derived)
			left = before.Plus(t)
		case record.WasCut:
			if link, ok := build(m.Build); ok {
				row.For, row.What = link, m.Part
			}
			row.Cut = pad.Figure(id+".cut-off", say.Of("notebook.cut-off"), c.Name.V, t, measure.UnitM, say.Of("notebook.as-written"), figure.Derived)
			left = before.Minus(t)
		case record.WasCounted:
			row.What = "counted"
			if i > 0 && list[i-1].Known {
				row.What += unlike(m.Left-list[i-1].Left, style)
			}
		}
		if m.Note != "" {
			row.What += ": " + m.Note
		}
		if m.Known {
			row.Left = pad.Figure(id+".left", say.Of("notebook.on-the-shelf-2"), c.Name.V, left, measure.UnitM, say.Of("notebook.on-the-shelf-before-came-cut-off"), figure.Derived)
			before = pad.Of(say.Of("notebook.on-the-shelf-before"), &row.Left)
		}
		l.Rows = append(l.Rows, row)
	}
	left := pad.Unknown(say.Of("notebook.nothing-is-written-of-what-came-and"))
	if garment.OnShelf(c) {
		left = garment.OnShelfOf(pad, c)
	}
	l.Left = pad.Figure("ledger."+c.Slug+".on-shelf", say.Of("notebook.on-the-shelf-2"), c.Name.V, left, measure.UnitM, say.Of("notebook.counted-came-cut-off"), figure.Derived)
	return l
}

// unlike says how a count differs from what was reckoned.
func unlike(by measure.Length, style measure.Style) string {
	switch {
	case by >= measure.Millimetre:
		return say.Of("notebook.more-than-expected", style.Cloth(by))
	case by <= -measure.Millimetre:
		return say.Of("notebook.less-than-expected", style.Cloth(-by))
	}
	return say.Of("notebook.as-expected")
}

// reserve notes the builds whose cloth is still to be cut, and what is over then.
func (l *Ledger) reserve(slug string, builds []ClothBuild, style measure.Style) {
	pad := figure.NewPad(style)
	left := pad.Of(say.Of("notebook.on-the-shelf-2"), &l.Left)
	for _, b := range builds {
		if b.IsCut || b.State == "set aside" {
			continue
		}
		l.Reserved = append(l.Reserved, b)
		left = left.Minus(needed(pad, &b))
	}
	if len(l.Reserved) == 0 {
		return
	}
	title := say.Of("notebook.over-when-these-are-cut")
	if left.Known() && left.MM() < 0 {
		title, left = say.Of("notebook.short-when-these-are-cut"), pad.Constant(0, measure.UnitMM).Minus(left)
	}
	l.Over = pad.Figure("ledger."+slug+".over", title, "", left, measure.UnitM, say.Of("notebook.on-the-shelf-what-each-is-to"), figure.Derived)
}

// needed is what a build is to have of a cloth, as its own page works it out.
func needed(pad *figure.Pad, b *ClothBuild) figure.Term {
	v, name := b.Needed.Value, say.Of("notebook.of", b.Part, b.Name)
	if !v.Known() {
		return pad.Unknown(name + ": " + v.Why)
	}
	return pad.Found(name, v.Number, v.Unit)
}
