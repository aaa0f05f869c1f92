package compose

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// truing shows whether what must meet does meet, and draws the lines that run
// across a join with both pieces laid edge to edge.
func truing(d *Draft, b *notebook.BuildPage) {
	if len(b.Truing) == 0 {
		return
	}
	d.Note(say.Of("compose.compared-before-cutting-edges-that-are"))
	d.Say(document.Say(garment.Outcome(b.Truing)))
	if bad := garment.NotMet(b.Truing); len(bad) > 0 {
		d.checks(say.Of("compose.to-correct"), bad)
	}
	d.joins(b.Truing)
	for _, part := range []struct {
		caption string
		kinds   []string
	}{
		{say.Of("compose.notches"), []string{"notches", "stretch"}},
		{say.Of("compose.lines-that-cross-a-seam"), []string{"line", "step"}},
		{say.Of("compose.sleeve-heads-darts-and-grain"), []string{"sleeve head", "dart legs", "grain"}},
		{say.Of("compose.lining-and-shell"), []string{"lining", "like"}},
	} {
		of := chosen(b.Truing, func(c *garment.Check) bool {
			return slices.Contains(part.kinds, c.Kind) && (c.Good || !c.Judged)
		})
		some := chosen(of, tells)
		if len(some) > 0 {
			d.checks(part.caption, some)
		}
		d.holding(part.caption, chosen(of, func(c *garment.Check) bool { return !tells(c) }), len(some))
	}
}

// chosen are the comparisons of a kind.
func chosen(list []garment.Check, which func(*garment.Check) bool) (out []garment.Check) {
	for i := range list {
		if which(&list[i]) {
			out = append(out, list[i])
		}
	}
	return out
}

// differs reports whether a tape or a protractor would show what was found.
func differs(c *garment.Check) bool {
	return !c.Off.Value.Known() || math.Abs(c.Off.Value.Number) >= 0.5
}

// nearLimit is how much of what is allowed a comparison must take up to be told by itself.
const nearLimit = 2.0 / 3

// tells reports whether a comparison is told by itself: one that is near its limit, or
// that differs where no limit says how far it may.
func tells(c *garment.Check) bool {
	if !differs(c) {
		return false
	}
	return !c.Judged || c.Most <= 0 || !c.Off.Value.Known() || math.Abs(c.Off.Value.Number) >= nearLimit*c.Most
}

// holding says in a sentence of comparisons that hold, with room, that they do.
func (d *Draft) holding(of string, rest []garment.Check, others int) {
	if len(rest) == 0 {
		return
	}
	who := say.Of("compose.all", few(len(rest)))
	switch {
	case others > 0 && len(rest) == 1:
		who = say.Of("compose.the-other-one")
	case others > 0:
		who = say.Of("compose.the-other", few(len(rest)))
	case len(rest) == 1:
		who = say.Of("compose.the-one-comparison")
	}
	ends := d.mostOf(rest)
	how := say.Of("compose.meet-exactly")
	if len(ends) > 0 {
		how = say.Of("compose.hold-the-most-that-is-found")
	}
	if len(rest) == 1 {
		how = strings.NewReplacer("meet", "meets", "hold", "holds").Replace(how)
	}
	says := upperFirst(who) + how
	if others == 0 {
		says = of + ": " + who + how
	}
	d.Say(append([]document.Inline{document.Say(says)}, ends...)...)
}

// mostOf says of comparisons that hold how far off they are at most, for each limit.
func (d *Draft) mostOf(list []garment.Check) (says []document.Inline) {
	most := map[string]int{}
	var limits []string
	for i := range list {
		c := &list[i]
		if !differs(c) || !c.Off.Value.Known() {
			continue
		}
		at, known := most[c.Limit]
		if !known {
			limits = append(limits, c.Limit)
		}
		if !known || math.Abs(c.Off.Value.Number) > math.Abs(list[at].Off.Value.Number) {
			most[c.Limit] = i
		}
	}
	for k, limit := range limits {
		if k > 0 {
			says = append(says, document.Say(", "))
		}
		says = append(says, d.value(toAbsolute(&list[most[limit]].Off).Value), document.Say(say.Of("compose.where-is-allowed", limit)))
	}
	if len(says) > 0 {
		says = append(says, document.Say("."))
	}
	return says
}

// toAbsolute is a figure without its sign.
func toAbsolute(f *figure.Figure) *figure.Figure {
	out := *f
	out.Value.Number = math.Abs(out.Value.Number)
	return &out
}

// mostJoins is how many drawings stand side by side before a page may end.
const mostJoins = 24

// checks tables comparisons.
func (d *Draft) checks(caption string, list []garment.Check) {
	d.Add(document.Turn{})
	t := d.Table(caption, document.Words(say.Of("compose.where")), document.Words(say.Of("compose.what")), document.Figures(say.Of("compose.found")), document.Words(say.Of("compose.allowed")), document.Words(say.Of("compose.to-correct-it"))).Long()
	for i := range list {
		c := &list[i]
		t.Row(draw.EdgeNames(c.What)).Words(c.Off.Title).Figures(found(c))
		limit := document.As(document.Measured, c.Limit)
		if c.Judged && !c.Good { // those that hold are told of once, above the table
			t.Cell(limit, document.Verdict(false, "", doesNotMeet))
		} else {
			t.Cell(limit)
		}
		t.Words(draw.EdgeNames(c.Mend))
	}
	t.End()
}

// found is how far off a comparison is: where it does not meet, to a tenth, so
// that what is allowed is seen to be less.
func found(c *garment.Check) *figure.Figure {
	if !c.Judged || c.Good {
		return &c.Off
	}
	return toTenths(&c.Off)
}

// toTenths is a length as it is shown to a tenth of a millimetre.
func toTenths(f *figure.Figure) *figure.Figure {
	out := *f
	out.Value.Number, out.Value.Exact = tenths(out.Value.Number), true
	return &out
}

// leastTurn is the turn of a line, in degrees, from which on it is drawn: what
// turns less nobody sees, and the table tells it.
const leastTurn = 1

// joins draws the lines across joins that turn at all.
func (d *Draft) joins(list []garment.Check) {
	var all []document.Sketch
	for i := range list {
		if j := list[i].Join; j != nil && math.Abs(j.Turn) >= leastTurn {
			all = append(all, document.Sketch{Draw: func() *drawing.Drawing { return draw.Join(j) }, Caption: j.Seam + ", 1 : 2"})
		}
	}
	for some := range slices.Chunk(all, mostJoins) {
		d.Add(document.Turn{})
		if &some[0] == &all[0] {
			d.Add(document.Heading{Level: 3, ID: "laid-together", Words: say.Of("compose.two-pieces-laid-together-at-the-seam")})
			d.Note(say.Of("compose.dotted-the-line-straight-on"))
		}
		d.Add(document.Sketches{Of: some})
	}
}
