package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
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
	t.Allowance = w.sum("total.allowance-length", "allowances, length", measure.UnitM, cloths(func(c *Cloth) *figure.Figure { return &c.Length }), "nothing is cut", "Σ over the cloths")
	t.Area = w.sum("total.allowance", "allowances, area", measure.UnitM2, cloths(func(c *Cloth) *figure.Figure { return &c.Allowance }), "nothing is cut", "Σ over the cloths")
	t.CutArea = w.sum("total.cut-area", "cloth cut", measure.UnitM2, cut, "nothing is cut", "Σ over the cloths")
	t.Share = w.share("total.share", "", &t.Area, &t.CutArea)
	var sewn []*figure.Figure
	for i := range w.g.Rows {
		if r := &w.g.Rows[i]; r.Lasting {
			sewn = append(sewn, r.Length)
		}
	}
	t.Seams = w.sum("total.sewn", "seams, hems and darts", measure.UnitM, sewn, "nothing is sewn", "Σ of all seams, finishes, darts and pleats stitched down, each once however many rows it has")
	t.Mass = w.sum("total.mass", "weight", measure.UnitG, w.masses(), "nothing of it has a weight", "Σ of cloths and notions; thread where a reel's weight is written")
}

func (w *totaller) masses() []*figure.Figure {
	var out []*figure.Figure
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

// sum adds up figures of one dimension; one that is not known makes the sum so.
func (w *totaller) sum(id, title string, unit measure.Unit, figures []*figure.Figure, empty, rule string) figure.Figure {
	return w.Total(id, title, w.name, unit, figures, empty, rule)
}
