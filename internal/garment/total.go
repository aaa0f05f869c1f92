package garment

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A totaller adds up a garment whose figures are all there.
type totaller struct {
	*desk
	name string // of the garment
	g    *Garment
}

// totals are the sums over the build.
func (w *totaller) totals() {
	t := &w.g.Totals
	cloths := func(pick func(*Cloth) *figure.Figure) []*figure.Figure {
		var out []*figure.Figure
		for _, c := range w.g.Cloths {
			if len(c.Pieces) > 0 {
				out = append(out, pick(c))
			}
		}
		return out
	}
	var cut []*figure.Figure
	for _, c := range w.g.Cloths {
		if c.IsCut() {
			cut = append(cut, &c.CutArea)
		}
	}
	t.Allowance = w.sum("total.allowance-length", say.Of("garment.allowances-length"), measure.UnitM, cloths(func(c *Cloth) *figure.Figure { return &c.Length }), say.Of("garment.nothing-is-cut"), say.Of("garment.over-the-cloths"))
	t.Area = w.sum("total.allowance", say.Of("garment.allowances-area"), measure.UnitM2, cloths(func(c *Cloth) *figure.Figure { return &c.Allowance }), say.Of("garment.nothing-is-cut"), say.Of("garment.over-the-cloths"))
	t.CutArea = w.sum("total.cut-area", say.Of("garment.cloth-cut"), measure.UnitM2, cut, say.Of("garment.nothing-is-cut"), say.Of("garment.over-the-cloths"))
	t.Share = w.share("total.share", "", &t.Area, &t.CutArea)
	var sewn []*figure.Figure
	for i := range w.g.Rows {
		if r := &w.g.Rows[i]; r.Lasting {
			sewn = append(sewn, r.Length)
		}
	}
	t.Seams = w.sum("total.sewn", say.Of("garment.seams-hems-and-darts"), measure.UnitM, sewn, say.Of("garment.nothing-is-sewn"), say.Of("garment.of-all-seams-finishes-darts-and-pleats"))
	w.weigh()
}

// weigh adds up what a garment weighs; where something of it has no weight, what the rest
// does.
func (w *totaller) weigh() {
	t := &w.g.Totals
	var all, weighed []*figure.Figure
	add := func(name string, f *figure.Figure) {
		all = append(all, f)
		if f.Value.Known() {
			weighed = append(weighed, f)
		} else {
			t.Unweighed = append(t.Unweighed, name)
		}
	}
	for _, c := range w.g.Cloths {
		if c.IsCut() || len(w.g.Pieces) > 0 { // what came to be lined came in a cloth that nothing is cut from
			add(c.Part, &c.Mass)
		}
	}
	for _, n := range w.g.Notions {
		add(n.Record.Name.V, &n.Mass)
	}
	for _, thread := range w.g.Threads {
		if thread.Mass.Value.Known() {
			add(thread.Name, &thread.Mass)
		}
	}
	if len(w.g.Pieces) == 0 { // it came as it is, and what was done to it is all that stands here
		t.Own = w.Figure("total.mass-own", "weight", say.Of("garment.the-garment-itself"), w.Unknown(say.Of("garment.it-has-no-pieces-here")), measure.UnitG, say.Of("garment.what-it-is-cut-from-weighed"), figure.Derived)
		add(say.Of("garment.garment-itself"), &t.Own)
	}
	t.Mass = w.sum("total.mass", "weight", measure.UnitG, all, say.Of("garment.nothing-of-it-has-a-weight"), say.Of("garment.of-cloths-and-notions-thread-where-a"))
	if len(weighed) > 0 && len(t.Unweighed) > 0 {
		t.Weighed = w.sum("total.mass-known", say.Of("garment.weight-of-what-has-one"), measure.UnitG, weighed, "", say.Of("garment.of-the-cloths-and-notions-whose-weight"))
	}
}

// mostUnweighed is how many things without a weight are named.
const mostUnweighed = 3

// WeightBeside is a garment's weight, and what must be said beside it where something of
// it has none: "and the zip".
func (t *Totals) WeightBeside() (f *figure.Figure, beside string) {
	if t.Weighed.ID == "" {
		return &t.Mass, ""
	}
	names := t.Unweighed
	if more := len(names) - mostUnweighed; more > 1 {
		names = append(names[:mostUnweighed:mostUnweighed], say.Of("garment.more", strconv.Itoa(more)))
	}
	return &t.Weighed, say.Of("garment.and-the", meant.List(names, "and"))
}

// sum adds up figures of one dimension; one that is not known makes the sum so.
func (w *totaller) sum(id, title string, unit measure.Unit, figures []*figure.Figure, empty, rule string) figure.Figure {
	return w.Total(id, title, w.name, unit, figures, empty, rule)
}
