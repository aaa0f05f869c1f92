package cutting

import (
	"hembook/internal/fitting"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// rounds works out what the rounds of fitting did, and how long the lays
// became by them where a lay of the garment as it was then is kept.
func (c *Cutter) rounds(out *Cutting) {
	r := c.tailor.Rounds(out.Garment)
	if !r.Any() {
		return
	}
	out.Rounds = r
	if c.opt.Mode == None {
		return
	}
	before := c.laid(r.Draft, out)
	for _, round := range r.List {
		after := c.laid(round.After, out)
		for i := range after {
			for k := range before {
				if before[k].Part == after[i].Part {
					base := "round." + strconv.Itoa(round.Number)
					round.Effects = fitting.AppendEffect(round.Effects, c.usual.style, base, fitting.RoundTitle(round.Number), &before[k].Length, &after[i].Length, say.Of("cutting.lay-3", after[i].Part), round.Record.At)
				}
			}
		}
		before = after
	}
}

// laid lists the lays that are kept of a garment as it was after a round.
func (c *Cutter) laid(g *garment.Garment, out *Cutting) []*Lay {
	if g == out.Garment.Garment {
		return out.Lays
	}
	var list []*Lay
	for _, cloth := range g.Cloths {
		p, err := newProblem(g, cloth, c.usual.style)
		if err != nil {
			continue
		}
		if plan, ok := c.store.kept(&p.Lay, c.opt.Tries); ok && len(plan.Unplaced) == 0 {
			l := &Lay{Part: cloth.Part, Cloth: cloth, Problem: p, Plan: plan, build: g.Build, pad: figure.NewPad(c.usual.style)}
			l.Width = l.widthFigure()
			l.lengthFigures()
			list = append(list, l)
		}
	}
	return list
}
