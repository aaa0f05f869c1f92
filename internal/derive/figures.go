package derive

import (
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/order"
	"hembook/internal/record"
)

func addStrips(out *figure.Gatherer, list []garment.StripNeed) {
	for i := range list {
		out.Add(&list[i].Cut, &list[i].Each, &list[i].Length)
	}
}

// Figures returns every public figure, in the order of the record: pieces,
// seams, finishes, levels, lengths, hangs, cloths, threads, bias, notions,
// steps, stages, techniques, totals. Their IDs are unique.
func (g *Garment) Figures() []figure.Figure { return g.gather().Figures() }

// Lineage knows which of the public figures rest on which.
func (g *Garment) Lineage() *figure.Lineage { return g.gather().Lineage() }

func (g *Garment) gather() *figure.Gatherer {
	out := figure.NewGatherer(512)
	for _, p := range g.Pieces {
		out.Add(&p.Area, &p.CutArea, &p.Allowance, &p.Share, &p.Width, &p.Height)
		out.All(p.Extra)
		for k := range p.Edges {
			e := &p.Edges[k]
			out.Add(&e.Length, &e.Intake, &e.Sewn, &e.Drawn, &e.Allowance, &e.Spare, &e.SparePlain, &e.SpareOther, &e.SpareOtherPlain)
		}
		for k := range p.Darts {
			out.Add(&p.Darts[k].Leg)
		}
		for i := range p.Lines {
			out.Add(&p.Lines[i].Length)
		}
		out.Add(&p.DartsSewn, &p.PleatsSewn, &p.Turned)
		if r := p.Rolled; r != nil {
			out.Add(&r.Apart, &r.Needs) // what it has is held in Truing
		}
		for k := range p.AtLevels {
			out.Add(&p.AtLevels[k].Width)
		}
	}
	for _, s := range g.Seams {
		out.Add(&s.Sides[0].Length, &s.Sides[1].Length, &s.Length, &s.Total, &s.Gathered, &s.Differ, &s.Full, &s.Gives[0], &s.Gives[1], &s.Width, &s.Crossed)
		for i := range s.Plies {
			out.Add(&s.Plies[i].Length, &s.Plies[i].Beside, &s.Plies[i].Differ)
		}
		addStrips(out, s.Strips)
	}
	for _, f := range g.Finishes {
		out.Add(&f.Total, &f.Takes, &f.Width, &f.Drawn)
		addStrips(out, f.Strips)
	}
	for _, l := range g.Fit.Levels {
		out.Add(&l.Finished, &l.Gap, &l.Most, &l.Drafted, &l.Ease, &l.EasePart, &l.Worn, &l.Stays, &l.Least, &l.LetOut, &l.LetOutPlain, &l.Measured, &l.Off)
	}
	for i := range g.Openings {
		out.Add(&g.Openings[i].Length)
	}
	for i := range g.Slits {
		out.Add(&g.Slits[i].Length)
	}
	for _, l := range g.Fit.Lengths {
		out.Add(&l.Finished, &l.Measured, &l.Off)
	}
	for i := range g.Truing {
		out.Add(&g.Truing[i].Off)
	}
	for _, h := range g.Fit.Hangs {
		out.Add(&h.Around, &h.Longest, &h.Least, &h.Spread, &h.Bias)
		for i := range h.Stations {
			s := &h.Stations[i]
			out.Add(&s.Along, &s.Drop, &s.Cut, &s.Grain)
		}
	}
	g.rest(out)
	return out
}

func (g *Garment) rest(out *figure.Gatherer) {
	for _, c := range g.Cloths {
		out.Add(&c.Area, &c.PiecesCut, &c.CutArea, &c.Allowance, &c.Share, &c.Length, &c.Needed, &c.Mass)
	}
	for _, t := range g.Threads {
		out.Add(&t.Needle, &t.Under, &t.Total, &t.Reels, &t.Mass)
	}
	for _, b := range g.Bias {
		out.Add(&b.Cut, &b.Length, &b.Square, &b.SquareSewn)
		out.All(b.Remnants)
	}
	for _, p := range g.Pieces {
		for i := range p.Gathered {
			r := p.Gathered[i]
			out.Add(&r.Full, &r.Sewn, &r.Thread)
		}
	}
	for _, n := range g.Notions {
		out.Add(&n.Count, &n.Length, &n.Total, &n.Gap, &n.Hole, &n.HolesSewn, &n.Stand, &n.ToHave, &n.SewnOn, &n.Mass)
		for i := range n.Each {
			out.Add(&n.Each[i].Length)
		}
	}
	for _, s := range g.Steps {
		out.Add(&s.Spent, &s.Metres, &s.Rate)
	}
	for _, groups := range [][]*order.TimeGroup{g.Stages, g.Ways} {
		for _, t := range groups {
			out.Add(&t.Spent)
		}
	}
	t := &g.Totals
	out.Add(&t.Allowance, &t.Area, &t.CutArea, &t.Share, &t.Seams, &g.Spent, &g.Hours, &t.Own, &t.Mass, &t.Weighed)
}

// LateFigures returns the figures of a garment that are worked out only when
// they are asked for: fibre content, customs, the fit table and the order of
// work as it stands; those on the wearer's own body apart.
func (t *Tailor) LateFigures(g *Garment, s order.Standing) ([]figure.Figure, []figure.Private) {
	content := t.Content(g)
	out := content.Figures()
	add := func(f figure.Figure) {
		if f.ID != "" {
			out = append(out, f)
		}
	}
	add(t.Customs(g, content).Net)
	for _, r := range t.Through(g.Garment) {
		add(r.Plies)
		add(r.Thickness)
	}
	var private []figure.Private
	for _, row := range t.Worn(g) {
		if row.Again != nil {
			add(row.Garment) // read again later; else it is a level's own
		}
		add(row.OnDraft)
		if body := row.Body.Open(record.ToFigure); body != nil {
			private = append(private, record.Keep(body.Ease))
		}
	}
	return append(out, t.Timing(g, s).Figures()...), private
}

// PrivateFigures returns every figure that rests on private data: costs, and
// the fit on the wearer's own body. Their IDs are unique, and unlike those of
// the public figures.
func (g *Garment) PrivateFigures() []figure.Private {
	out := append([]figure.Private(nil), g.Costs...)
	for _, kept := range g.Fit.OnBody {
		f := kept.Open(record.ToFigure)
		for _, one := range []figure.Figure{f.Body, f.Ease, f.EasePart} {
			if one.ID != "" {
				out = append(out, record.Keep(one))
			}
		}
	}
	return out
}
