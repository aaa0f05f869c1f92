package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/lay"
	"hembook/internal/say"
)

// A border is a stretch of an edge of the cloth as it lies, along it, in mm.
type border struct {
	across, from, to float64
	as               drawing.Meaning // ClothFold, Selvedge, or ClothEdge where a selvedge is folded in
	out              float64         // the way the selvedge lies: −1 towards the top, 1 towards the foot
}

// borders are the edges along the cloth as it lies.
func (d *layDrawing) borders() []border {
	f, wide, end := d.l.Plan.Folding, d.l.Plan.Width, d.long
	fold := func(across, to float64) border { return border{across, 0, to, drawing.ClothFold, 0} }
	selvedge := func(across, from, to, out float64) border {
		return border{across, from, to, drawing.Selvedge, out}
	}
	switch f.Fold {
	case lay.Lengthwise:
		return []border{fold(0, end), selvedge(wide, 0, end, 1)}
	case lay.BothSelvedges:
		return []border{fold(0, end), {f.Near, 0, end, drawing.ClothEdge, 0}, fold(wide, end)}
	case lay.PartWidth:
		return []border{fold(0, end), {f.Near, 0, end, drawing.ClothEdge, 0}, selvedge(wide, 0, end, 1)}
	case lay.PartLength:
		return []border{fold(0, f.Long), selvedge(wide/2, 0, f.Long, 1), selvedge(0, f.Long, end, -1), selvedge(wide, f.Long, end, 1)}
	}
	return []border{selvedge(0, 0, end, -1), selvedge(wide, 0, end, 1)}
}

// cloth draws the edges of the cloth: ends, selvedges, folds, breaks.
func (d *layDrawing) cloth(r int, top, long float64) {
	from, to := d.span(r)
	for _, b := range d.borders() {
		if b.to > from && b.from < to {
			d.border(b, top, (max(b.from, from)-from)*d.k, (min(b.to, to)-from)*d.k)
		}
	}
	d.ends(r, top, long)
	upper, lower := d.edgeNames()
	d.small(drawing.End, long, top-d.edge-6.2, upper)
	d.small(drawing.End, long, top+d.wide+d.edge+2.8, lower)
}

// border draws one border in a row, between two places on paper.
func (d *layDrawing) border(b border, top, from, to float64) {
	y := top + b.across*d.k
	if b.as != drawing.Selvedge {
		d.Draw(b.as).Move(from, y).Line(to, y)
		return
	}
	d.Draw(drawing.Selvedge).Move(from, y+b.out*d.edge).Line(to, y+b.out*d.edge)
	if d.edge > 0 {
		d.Draw(drawing.ClothEdge).Move(from, y).Line(to, y)
	}
}

// ends draws what closes a row to both sides: the cut end or a crosswise fold, the end of
// the lay, or a break.
func (d *layDrawing) ends(r int, top, long float64) {
	head, foot := d.reach(r, true)
	switch {
	case r > 0:
		d.Draw(drawing.ClothFold).Move(0, top).Line(0, top+d.wide)
	case d.l.Plan.Fold == lay.Crosswise:
		d.Draw(drawing.ClothFold).Move(0, top-head).Line(0, top+foot)
	default:
		d.Draw(drawing.Selvedge).Move(0, top-head).Line(0, top+foot)
	}
	head, foot = d.reach(r, false)
	if r < d.rows-1 {
		d.Draw(drawing.ClothFold).Move(long, top).Line(long, top+d.wide)
	} else {
		d.Draw(drawing.ClothEdge).Move(long, top-head).Line(long, top+foot)
	}
	from, to := d.span(r)
	if f := d.l.Plan.Folding; f.Fold == lay.PartLength && f.Long > from && f.Long < to {
		d.Draw(drawing.ClothEdge).Move((f.Long-from)*d.k, top-d.edge).Line((f.Long-from)*d.k, top+d.wide+d.edge)
	}
}

// reach is how far the end of a row reaches beyond the usable cloth at its head, and from
// there to its foot.
func (d *layDrawing) reach(r int, left bool) (head, foot float64) {
	foot = d.wide
	switch f := d.l.Plan.Folding; {
	case f.Fold == lay.Lengthwise, f.Fold == lay.PartWidth:
		return 0, foot + d.edge
	case f.Fold == lay.BothSelvedges:
		return 0, foot
	case f.Fold == lay.PartLength && left && r == 0:
		return 0, foot/2 + d.edge
	}
	return d.edge, foot + d.edge
}

// edgeNames name the upper and the lower edge of the cloth as it lies.
func (d *layDrawing) edgeNames() (upper, lower string) {
	switch d.l.Plan.Fold {
	case lay.Lengthwise:
		return say.Of("draw.fold"), say.Of("draw.both-selvedges")
	case lay.BothSelvedges:
		return say.Of("draw.fold-the-selvedges-meet-between-the"), "fold"
	case lay.PartWidth:
		return say.Of("draw.fold-the-left-selvedge-lies-along-the"), say.Of("draw.right-selvedge")
	case lay.PartLength:
		return say.Of("draw.fold-then-left-selvedge"), say.Of("draw.right-selvedge")
	case lay.Crosswise:
		return say.Of("draw.left-selvedge-fold-at-the-left-end"), say.Of("draw.right-selvedge")
	}
	return say.Of("draw.left-selvedge"), say.Of("draw.right-selvedge")
}
