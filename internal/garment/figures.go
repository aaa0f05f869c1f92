package garment

import (
	"hembook/internal/figure"
	"hembook/internal/record"
)

// A gatherer collects figures in order, each once.
type gatherer struct {
	list []figure.Figure
	seen map[string]bool
}

func (g *gatherer) add(figures ...*figure.Figure) {
	for _, f := range figures {
		if f.ID == "" || g.seen[f.ID] {
			continue
		}
		g.seen[f.ID] = true
		g.list = append(g.list, *f)
	}
}

func (g *gatherer) all(figures []figure.Figure) {
	for i := range figures {
		g.add(&figures[i])
	}
}

func (g *gatherer) strips(list []StripNeed) {
	for i := range list {
		g.add(&list[i].Cut, &list[i].Length)
	}
}

// Figures returns every public figure, in the order of the record: pieces,
// seams, finishes, levels, lengths, hangs, cloths, threads, bias, notions,
// steps, stages, techniques, totals. Their IDs are unique.
func (g *Garment) Figures() []figure.Figure {
	out := &gatherer{list: make([]figure.Figure, 0, 512), seen: make(map[string]bool, 512)}
	for _, p := range g.Pieces {
		out.add(&p.Area, &p.CutArea, &p.Allowance, &p.Share, &p.Width, &p.Height)
		out.all(p.Extra)
		for k := range p.Edges {
			e := &p.Edges[k]
			out.add(&e.Length, &e.Intake, &e.Sewn, &e.Allowance)
		}
		for k := range p.Darts {
			out.add(&p.Darts[k].Leg)
		}
		for k := range p.AtLevels {
			out.add(&p.AtLevels[k].Width)
		}
	}
	for _, s := range g.Seams {
		out.add(&s.Sides[0].Length, &s.Sides[1].Length, &s.Length, &s.Total, &s.Differ, &s.Full, &s.Gives[0], &s.Gives[1], &s.Width)
		out.strips(s.Strips)
	}
	for _, f := range g.Finishes {
		out.add(&f.Total, &f.Takes, &f.Width)
		out.strips(f.Strips)
	}
	for _, l := range g.Levels {
		out.add(&l.Finished, &l.Drafted, &l.Ease, &l.EasePart, &l.Least, &l.LetOut, &l.Measured, &l.Off)
	}
	for _, l := range g.Lengths {
		out.add(&l.Finished, &l.Measured, &l.Off)
	}
	for i := range g.Truing {
		out.add(&g.Truing[i].Off)
	}
	for _, h := range g.Hangs {
		h.figures(out)
	}
	g.rest(out)
	return out.list
}

func (g *Garment) rest(out *gatherer) {
	for _, c := range g.Cloths {
		out.add(&c.Area, &c.pieces, &c.CutArea, &c.Allowance, &c.Share, &c.Length, &c.Needed, &c.Mass)
	}
	for _, t := range g.Threads {
		out.add(&t.Needle, &t.Under, &t.Total, &t.Reels, &t.Mass)
	}
	for _, b := range g.Bias {
		out.add(&b.Cut, &b.Length, &b.Square, &b.SquareSewn)
		out.all(b.Remnants)
	}
	for _, n := range g.Notions {
		out.add(&n.Count, &n.Length, &n.Total, &n.Gap, &n.Mass)
		for i := range n.Each {
			out.add(&n.Each[i].Length)
		}
	}
	for _, s := range g.Steps {
		out.add(&s.Spent, &s.Metres, &s.Rate)
	}
	for _, groups := range [][]*TimeGroup{g.Stages, g.Ways} {
		for _, t := range groups {
			out.add(&t.Spent)
		}
	}
	t := &g.Totals
	out.add(&t.Allowance, &t.Area, &t.CutArea, &t.Share, &t.Seams, &t.Spent, &t.Mass)
}

// PrivateFigures returns every figure that rests on private data: costs, and
// the fit on the wearer's own body. Their IDs are unique, and unlike those of
// the public figures.
func (g *Garment) PrivateFigures() []figure.Private {
	out := append([]figure.Private(nil), g.Costs...)
	for _, kept := range g.Fit {
		f := kept.Open(record.ToFigure)
		for _, one := range []figure.Figure{f.Body, f.Ease, f.EasePart} {
			if one.ID != "" {
				out = append(out, record.Keep(one))
			}
		}
	}
	return out
}
