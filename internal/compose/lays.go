package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// lays shows how each cloth is laid: the drawing, the figures, and a table of
// the distances to chalk from for those who do not see the drawing.
func lays(d *Draft, b *notebook.BuildPage) {
	for i := range b.Lays {
		l := &b.Lays[i]
		d.Add(document.Turn{}, document.Heading{Level: 3, Words: l.Part, Aside: l.Cloth})
		if l.Why != "" {
			d.Say(document.Say("No lay plan: " + l.Why + "."))
			continue
		}
		figures := make([]*figure.Figure, 0, len(l.Figures)+1)
		for k := range l.Figures {
			figures = append(figures, &l.Figures[k])
		}
		d.Facts(append(figures, &l.OnHand)...)
		if len(l.Drawing) > 0 {
			d.Add(document.Sketch{Drawn: l.Drawing})
			d.Note("In each piece: its number, how far it lies from " + l.Along + ", and from " + l.Across + ". R: a remnant.")
		}
		d.doing(l.Doing)
		d.ways(l)
		d.matched(l)
		left := d.Within(func() { d.leftOver(l) })
		if len(l.Chalked) > beside || len(left) == 0 {
			d.chalked(l)
			d.Add(left...)
			continue
		}
		d.Add(document.Columns{Of: [][]document.Block{d.Within(func() { d.chalked(l) }), left}})
	}
}

// doing lists how folded cloth is folded, chalked and cut, in order.
func (d *Draft) doing(lines []string) {
	if len(lines) == 0 {
		return
	}
	list := document.List{Numbered: true}
	for _, line := range lines {
		list.Items = append(list.Items, document.Item{Phrase: d.Phrase(document.Say(line))})
	}
	d.Add(list)
}

// ways tables and draws what would help where the shelf has too little.
func (d *Draft) ways(l *notebook.LayPlan) {
	if len(l.Ways) == 0 {
		return
	}
	t := d.Table("Ways to get by: "+l.Cloth, document.Words("way"), document.Figures("takes"), document.Words("on the shelf")).Long()
	var drawn document.Sketches
	for i := range l.Ways {
		w := &l.Ways[i]
		t.Row(w.What)
		t.Cell(document.As(document.Measured, d.Style.Length(measure.MM(w.Takes).Round(measure.Millimetre)))).Words(ShelfWords(d.Style, w.Over))
		if len(w.Drawing) > 0 {
			drawn.Of = append(drawn.Of, document.Sketch{Drawn: w.Drawing, Caption: w.What})
		}
	}
	t.End()
	if len(drawn.Of) > 0 {
		d.Add(drawn)
	}
}

// ShelfWords says what the shelf has over, or what it still lacks, mm.
func ShelfWords(style measure.Style, over float64) string {
	length := func(mm float64) string { return style.Length(measure.MM(mm).Round(measure.Millimetre)) }
	if over < 0 {
		return "still " + length(-over) + " short"
	}
	return length(over) + " over"
}

// matched tables what must meet in the pattern of the cloth, and how it does.
func (d *Draft) matched(l *notebook.LayPlan) {
	if len(l.Matches) == 0 {
		return
	}
	t := d.Table("What meets in the pattern: "+l.Cloth, document.Words("seam or line"), document.Words("along the cloth"), document.Words("across it")).Long()
	for i := range l.Matches {
		m := &l.Matches[i]
		t.Row(draw.MatchWords(m)).Words(m.Along, m.Across)
	}
	t.End()
}

// beside is how many pieces a chalk table has at most for another to stand beside it.
const beside = 24

// leftOver tables the remnants by their numbers in the drawing.
func (d *Draft) leftOver(l *notebook.LayPlan) {
	if len(l.Left) == 0 {
		return
	}
	t := d.Table("Remnants of "+l.Cloth, document.Words("remnant"), document.Figures("up to"), document.Figures("area"))
	for k := range l.Left {
		r := &l.Left[k]
		size := d.Style
		if size.System == measure.Both {
			size.System = measure.Metric
		}
		t.RowOf(document.As(document.Strong, "R"+strconv.Itoa(k+1))).
			Cell(document.As(document.Measured, size.Length(measure.MM(r.Wide).Round(measure.Millimetre))+" × "+size.Length(measure.MM(r.Long).Round(measure.Millimetre)))).Figures(&r.Area)
	}
	t.End()
}

// chalked lists where each piece lies.
func (d *Draft) chalked(l *notebook.LayPlan) {
	if len(l.Chalked) == 0 {
		return
	}
	t := d.Table("Chalk table: "+l.Cloth, document.Words("number and piece"),
		document.Figures("from "+l.Across), document.Figures("from "+l.Along), document.Words("turned")).Long()
	for i := range l.Chalked {
		q := &l.Chalked[i]
		name := q.Piece
		if copies := draw.WhichCopies(q); copies != "" {
			name += ", " + copies
		}
		t.RowOf(document.As(document.Strong, strconv.Itoa(q.Number)), document.Say(" "+name))
		t.Cell(d.fromTo(q.Side, q.SideTo))
		t.Cell(d.fromTo(q.End, q.EndTo)).Words(draw.TurnWords(q))
	}
	t.End()
}

// fromTo is where something begins and ends, in whole millimetres.
func (d *Draft) fromTo(from, to float64) document.Inline {
	return document.Quantity(d.Style.Range(measure.MM(from).Round(measure.Millimetre), measure.MM(to).Round(measure.Millimetre)))
}

// hangs shows how far hems dropped before they were levelled.
func hangs(d *Draft, b *notebook.BuildPage) {
	for _, h := range b.Hangs {
		d.Add(document.Turn{}, document.Heading{Level: 3, ID: h.Anchor, Words: "Hem, after hanging: " + h.Name},
			document.Sketch{Draw: func() *drawing.Drawing { return draw.Hem(h, d.Style) }})
		d.Facts(&h.Around, &h.Longest, &h.Least, &h.Spread, &h.Bias)
		t := d.Table("How far it dropped", document.Words("place"), document.Figures("from the start"), document.Figures("drop"), document.Figures("to cut off")).Long()
		for i := range h.Stations {
			s := &h.Stations[i]
			t.Row(strconv.Itoa(i+1)).Figures(&s.Along, &s.Drop, &s.Cut)
		}
		t.End()
	}
}
