package garment

import (
	"hembook/internal/measure"
)

// totals are the sums over the build.
func (w *work) totals() {
	t := &w.g.Totals
	cloths := func(pick func(*Cloth) *Figure) []*Figure {
		var out []*Figure
		for _, c := range w.g.Cloths {
			if len(c.Pieces) > 0 {
				out = append(out, pick(c))
			}
		}
		return out
	}
	var cut []*Figure
	for _, c := range w.g.Cloths {
		if c.cut() {
			cut = append(cut, &c.CutArea)
		}
	}
	t.Allowance = w.sum("total.allowance-length", "length of all allowances", measure.UnitM, cloths(func(c *Cloth) *Figure { return &c.Length }), "nothing is cut", "Σ over the cloths")
	t.Area = w.sum("total.allowance", "area of all allowances", measure.UnitM2, cloths(func(c *Cloth) *Figure { return &c.Allowance }), "nothing is cut", "Σ over the cloths")
	t.CutArea = w.sum("total.cut-area", "area of all that is cut", measure.UnitM2, cut, "nothing is cut", "Σ over the cloths")
	t.Share = w.share("total.share", "", &t.Area, &t.CutArea)
	var sewn, spent []*Figure
	for _, s := range w.g.Seams {
		sewn = append(sewn, &s.Total)
	}
	for _, f := range w.g.Finishes {
		sewn = append(sewn, &f.Total)
	}
	t.Seams = w.sum("total.sewn", "length sewn", measure.UnitM, sewn, "nothing is sewn", "Σ of all seams and finishes, each once however many rows it has")
	for _, s := range w.g.Steps {
		if s.Spent.Value.Known() {
			spent = append(spent, &s.Spent)
		}
	}
	t.Spent = w.sum("total.spent", "time clocked", measure.UnitMin, spent, "nothing is clocked", "Σ of the times clocked for every step")
	t.Mass = w.sum("total.mass", "mass of the garment", measure.UnitG, w.masses(), "nothing of it has a mass", "Σ of cloths and notions; thread where a reel's mass is written")
}

func (w *work) masses() []*Figure {
	var out []*Figure
	for _, c := range w.g.Cloths {
		if c.CutArea.Value.Known() || len(c.Pieces) > 0 {
			out = append(out, &c.Mass)
		}
	}
	for _, n := range w.g.Notions {
		out = append(out, &n.Mass)
	}
	for _, t := range w.g.Threads {
		if t.Mass.Value.Known() {
			out = append(out, &t.Mass)
		}
	}
	return out
}

// sum adds up figures of one unit; one that is not known makes the sum so.
func (w *work) sum(id, title string, unit measure.Unit, figures []*Figure, empty, rule string) Figure {
	total, why := 0.0, ""
	for _, f := range figures {
		w.figureIn(f.Of, f)
		if !f.Value.Known() && why == "" {
			why = f.Of + ": " + f.Value.Why
		}
	}
	for i, f := range figures {
		if i > 0 {
			w.s(" + ")
		}
		w.n(f.Value.Number)
		total += f.Value.Number
	}
	if len(figures) == 0 {
		why = empty
	}
	v := valueIn(total, unit)
	w.s(" = ").q(v.Quantity)
	if why != "" {
		v = unknown(why)
	}
	return w.figure(id, title, w.b.Name.V, v, rule, derived)
}
