package compose

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
	"hembook/internal/words"
)

// lays shows how each cloth is laid: the drawing, the figures, and a table of
// the distances to chalk from for those who do not see the drawing.
func lays(d *Draft, b *notebook.BuildPage) {
	for i := range b.Lays {
		l := &b.Lays[i]
		d.Add(document.Turn{}, document.Heading{Level: 3, ID: "lay-" + words.Slug(l.Part), Words: upperFirst(l.Part), Aside: l.Cloth})
		if l.Why != "" {
			d.Say(document.Say(say.Of("compose.no-lay-plan", l.Why)))
			continue
		}
		d.Add(document.Section{As: "laying", Blocks: d.Within(func() { d.laying(l) })})
		d.matched(l)
		d.ways(l)
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
	t := d.Table(say.Of("compose.ways-to-get-by", l.Cloth), document.Words(say.Of("compose.way")), document.Figures(say.Of("compose.takes")), document.Words(say.Of("compose.on-the-shelf"))).Long()
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
		return say.Of("compose.still-short", length(-over))
	}
	return say.Of("compose.over", length(over))
}

// laying is the sheet that one cuts a cloth from: how much to buy, the plan, and where to
// chalk.
func (d *Draft) laying(l *notebook.LayPlan) {
	figures := make([]*figure.Figure, 0, len(l.Figures)+1)
	for k := range l.Figures {
		figures = append(figures, &l.Figures[k])
	}
	d.Facts(append(figures, &l.OnHand)...)
	if len(l.Drawing) > 0 {
		d.Add(document.Sketch{Drawn: l.Drawing, Narrow: l.Narrow, ID: l.Anchor})
		d.Note(d.planWords(l))
	}
	d.doing(l.Doing)
	for _, n := range l.Notes {
		d.Note(strings.ToUpper(n[:1]) + n[1:] + ".")
	}
	chalk := d.Within(func() { d.chalked(l, 0, len(l.Chalked)) })
	left := d.Within(func() { d.leftOver(l) })
	if len(l.Chalked) > ChalkBeside {
		half := (len(l.Chalked) + 1) / 2
		chalk = d.Within(func() { d.chalked(l, 0, half) })
		d.Add(document.Columns{Of: [][]document.Block{chalk, d.Within(func() { d.chalked(l, half, len(l.Chalked)) })}})
		d.Add(left...)
	} else if len(left) > 0 {
		d.Add(document.Columns{Of: [][]document.Block{chalk, left}})
	} else {
		d.Add(chalk...)
	}
}

// planWords says what the drawing of a lay shows.
func (d *Draft) planWords(l *notebook.LayPlan) string {
	tapes := "cm"
	if d.Style.One().System == measure.Imperial {
		tapes = "inches"
	}
	words := say.Of("compose.measure-from-and-from-to-the-red", l.Across, l.Along, tapes)
	if len(l.Left) > 0 {
		words += say.Of("compose.r-a-remnant-with-the-largest-rectangle")
	}
	for i := range l.Chalked {
		if l.Chalked[i].Strip > 0 {
			words += say.Of("compose.slanting-lines-strip-the-one-to-the")
			break
		}
	}
	if len(l.Stripes) > 0 {
		words += say.Of("compose.fine-lines-the-stripes")
	}
	return words
}

// matched tables what must meet in the pattern of the cloth, and how it does.
func (d *Draft) matched(l *notebook.LayPlan) {
	if len(l.Matches) == 0 {
		return
	}
	t := d.Table(say.Of("compose.what-meets-in-the-pattern", l.Cloth), document.Words(say.Of("compose.seam-or-line")), document.Words(say.Of("compose.along-the-cloth")), document.Words(say.Of("compose.across-it"))).Long()
	for i := range l.Matches {
		m := &l.Matches[i]
		t.Row(draw.MatchWords(m)).Words(m.Along, m.Across)
	}
	t.End()
}

// ChalkBeside is how many pieces a chalk table has at most; a longer one is set in two
// beside each other.
const ChalkBeside = 14

// leftOver tables the remnants by their numbers in the drawing.
func (d *Draft) leftOver(l *notebook.LayPlan) {
	if len(l.Left) == 0 {
		return
	}
	t := d.Table(say.Of("compose.remnants-of", l.Cloth), document.Words(say.Of("compose.remnant")), document.Figures(say.Of("compose.holds", d.tapeUnit())), document.Figures(say.Of("compose.area")), document.Words(say.Of("compose.room-for")))
	var narrow []string
	for k := range l.Left {
		r, name := &l.Left[k], "R"+strconv.Itoa(k+1)
		if k > 0 && min(r.Wide, r.Long) < leastRemnant {
			narrow = append(narrow, name)
			continue
		}
		t.Row(name).Cell(d.tapes(r.Wide, r.Long)).Figures(&r.Area).Words(someOf(roomFor(l, r)))
	}
	t.End()
	if len(narrow) > 0 {
		d.Note(say.Of("compose.narrower-than", d.Style.Length(measure.MM(leastRemnant)), strings.Join(narrow, ", ")))
	}
}

// roomFor names the pieces of a lay that a remnant would give once more, lying as they lie,
// the largest first: what a slip of the shears, or the next garment, may be cut from it.
func roomFor(l *notebook.LayPlan, r *notebook.LayRemnant) (names []string) {
	room := func(i int) float64 { q := &l.Chalked[i]; return (q.SideTo - q.Side) * (q.EndTo - q.End) }
	var fit []int
	for i := range l.Chalked {
		if q := &l.Chalked[i]; !q.OnFold && q.SideTo-q.Side <= r.Wide && q.EndTo-q.End <= r.Long {
			fit = append(fit, i)
		}
	}
	slices.SortStableFunc(fit, func(a, b int) int { return cmp.Compare(room(b), room(a)) })
	for _, i := range fit {
		if name := l.Chalked[i].Piece; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// leastRemnant is how wide the largest rectangle in a remnant is at least, mm, for its
// figures to stand in the table: a pocket or a facing is cut from it. Narrower ones are
// only numbered in the plan.
const leastRemnant = 200

// chalked lists where pieces lie, in the order of chalking, and how much room each takes.
func (d *Draft) chalked(l *notebook.LayPlan, from, to int) {
	if from >= to {
		return
	}
	unit := d.tapeUnit()
	caption := say.Of("compose.where-to-chalk", l.Cloth)
	if from > 0 {
		caption += say.Of("compose.continued")
	}
	t := d.Table(caption, document.Words(say.Of("compose.number-and-piece")), document.Figures(say.Of("compose.from", unit, l.Across)), document.Figures(say.Of("compose.from", unit, l.Along)), document.Figures(say.Of("compose.takes")), document.Words(say.Of("compose.done")))
	for i := range l.Chalked[from:to] {
		q := &l.Chalked[from+i]
		name := q.Piece
		if copies := draw.WhichCopies(q); copies != "" {
			name += ", " + copies
		}
		head := document.Phrase{document.As(document.Strong, strconv.Itoa(q.Number)), document.Say(" " + name)}
		if turned := draw.TurnWords(q); turned != "" {
			head = append(head, document.As(document.Small, turned))
		}
		t.RowOf(head...).Cell(d.tapes(q.Side)).Cell(d.tapes(q.End)).Cell(d.tapes(q.SideTo-q.Side, q.EndTo-q.End)).Words("☐")
	}
	t.End()
}

// tapeUnit is what tapes leave unsaid.
func (d *Draft) tapeUnit() string {
	if d.Style.One().System == measure.Imperial {
		return "in"
	}
	return "mm"
}

// within are lengths as one tape has them, none longer than it is.
func (d *Draft) within(mm ...float64) document.Inline {
	step := 1.0
	if d.Style.One().System == measure.Imperial {
		step = 25.4 / 16
	}
	for i := range mm {
		mm[i] = math.Floor(mm[i]/step+1e-6) * step
	}
	return d.tapes(mm...)
}

// tapes are lengths as one tape has them, in whole millimetres or sixteenths of an inch,
// without their unit.
func (d *Draft) tapes(mm ...float64) document.Inline {
	one := d.Style.One()
	var words []string
	for _, v := range mm {
		text, _ := measure.Inches(measure.MM(v))
		if one.System != measure.Imperial {
			text = one.Number(math.Round(v), 0)
		}
		words = append(words, strings.TrimSuffix(text, " in"))
	}
	return document.As(document.Measured, strings.Join(words, " × "))
}

// hangs shows how far hems dropped before they were levelled.
func hangs(d *Draft, b *notebook.BuildPage) {
	for _, h := range b.Hangs {
		d.Add(document.Turn{}, document.Heading{Level: 3, ID: h.Anchor, Words: say.Of("compose.after-hanging", strings.ReplaceAll(h.Name, ".", " "))},
			document.Sketch{Draw: func() *drawing.Drawing { return draw.Hem(h, d.Style) }})
		d.Facts(&h.Around, &h.Longest, &h.Least, &h.Spread, &h.Bias)
		t := d.Table(say.Of("compose.how-far-it-dropped"), document.Words(say.Of("compose.place")), document.Figures(say.Of("compose.from-the-start")), document.Figures(say.Of("compose.drop")), document.Figures(say.Of("compose.to-cut-off"))).Long()
		for i := range h.Stations {
			s := &h.Stations[i]
			t.Row(strconv.Itoa(i+1)).Figures(&s.Along, &s.Drop, &s.Cut)
		}
		t.End()
	}
}
