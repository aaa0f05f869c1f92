package cutting

import (
	"cmp"
	"slices"
	"strconv"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/say"
)

// A WayOut is one way to get by with the cloth on the shelf, worked out by a lay of its own.
type WayOut struct {
	What  string
	Laid  *Lay    // its lay, to be drawn: problem, plan and places alone; nil where that is the one it is a way out of
	Lay   float64 // length of the lay, mm
	Takes float64 // cloth it takes, shrinkage and straightening included, mm
	Over  float64 // how much of the shelf is left then; below 0 it is still short, mm
}

// hidden are words in the names of pieces that are not seen on the finished garment, and may
// be cut from another cloth (common practice, no source).
var hidden = []string{"facing", "under collar", "pocket bag", "yoke lining", "stay"}

// widths are widths that cloth is sold in, mm (common practice, no source).
var widths = []float64{900, 1120, 1150, 1400, 1500, 1600}

// waysOut lists what would help where the shelf has less than a lay takes, those that are
// enough first and in each group what costs least first. It is empty where the shelf has
// enough, or where it is not known what it has.
func (c *Cutter) waysOut(l *Lay) []WayOut {
	if l.Plan == nil || l.Enough || !l.OnHand.Value.Known() {
		return nil
	}
	w := wayFinder{c: c, l: l, have: l.straightened(&c.usual).MM() - l.OnHand.Value.In(millimetres).Number}
	w.add(say.Of("cutting.leave-the-two-ends-unstraightened-if"), l.Plan.Length, false)
	w.bothWays()
	w.quarterTurn()
	w.onRemnants()
	w.narrowerHems()
	w.pieced()
	w.withoutMatching()
	w.otherCloth()
	w.more()
	w.wider()
	slices.SortStableFunc(w.found, func(a, b WayOut) int { return cmp.Compare(rank(a), rank(b)) })
	return w.found
}

// rank puts what is enough before what is not.
func rank(w WayOut) int {
	if w.Over >= -tolerance {
		return 0
	}
	return 1
}

// A wayFinder looks for ways out for one lay.
type wayFinder struct {
	c     *Cutter
	l     *Lay
	have  float64 // on the shelf, mm
	found []WayOut
}

// add adds a way if it takes less cloth than the lay does.
func (w *wayFinder) add(what string, length float64, straighten bool) {
	takes := length / (1 - float64(w.l.Cloth.Cloth.Shrink.Along.V)/100)
	if straighten {
		takes += 2 * w.c.usual.straightening.V.MM()
	}
	if takes < w.l.straightened(&w.c.usual).MM()-tolerance {
		w.found = append(w.found, WayOut{What: what, Lay: length, Takes: takes, Over: w.have - takes})
	}
}

// try lays another problem and adds what comes of it.
func (w *wayFinder) try(what string, p *lay.Problem) {
	plan, err := w.c.plan(w.c.ctx, p, nil)
	if err != nil || len(plan.Unplaced) > 0 {
		return
	}
	n := len(w.found)
	if w.add(what, plan.Length, true); len(w.found) > n {
		w.found[n].Laid = w.laid(p, plan)
	}
}

// laid is a plan as a lay that can be drawn.
func (w *wayFinder) laid(p *lay.Problem, plan *lay.Plan) *Lay {
	of := &Problem{Part: w.l.Part, Lay: *p, Pieces: make([]*garment.Piece, len(p.Pieces)), Stages: 1, tape: w.l.Problem.tape}
	for i := range p.Pieces {
		for k := range w.l.Problem.Lay.Pieces {
			if w.l.Problem.Lay.Pieces[k].Name == p.Pieces[i].Name {
				of.Pieces[i] = w.l.Problem.Pieces[k]
			}
		}
	}
	out := &Lay{Part: w.l.Part, Cloth: w.l.Cloth, Problem: of, Plan: plan}
	out.Chalked = of.positions(plan)
	out.Doing = out.doing()
	return out
}

func (w *wayFinder) withoutMatching() {
	if len(w.l.Problem.Lay.Ties) > 0 {
		p := w.l.Problem.Lay
		p.Ties = nil
		w.try(say.Of("cutting.match-nothing-in-the-pattern"), &p)
	}
}

func (w *wayFinder) bothWays() {
	c := w.l.Cloth.Cloth
	if p := w.l.Problem.Lay; p.Cloth.OneWay && c.Surface.V != "raised" && !c.Uneven.V {
		p.Cloth.OneWay = false
		w.try(say.Of("cutting.let-pieces-point-both-ways-if-that"), &p)
	}
}

// onRemnants cuts what will go from each remnant that is there, and the rest from the cloth.
func (w *wayFinder) onRemnants() {
	all := w.l.Problem.singles()
	for i := range w.l.Cloth.Cloth.Remnants {
		r := &w.l.Cloth.Cloth.Remnants[i]
		if r.IsOver(w.l.build.Slug) || r.From.V == w.l.build.Slug || w.l.Problem.Stages > 1 {
			continue
		}
		board := Board{Remnant: r, Name: r.Name.V}
		rest := w.c.fill(&board, w.l.Problem, all)
		if len(rest) == len(all) || len(rest) == 0 {
			continue // a remnant that holds all is told of by itself
		}
		p := w.l.Problem.Lay
		p.Ties, p.Pieces, p.Cloth.Fold = nil, nil, lay.Open
		for _, s := range rest {
			p.Pieces = append(p.Pieces, s.lay)
		}
		w.try(say.Of("cutting.cut-from-the-remnant-the-rest-from", countOf(len(all)-len(rest)), strconv.Quote(r.Name.V)), &p)
	}
}

func countOf(n int) string {
	if n == 1 {
		return say.Of("cutting.1-piece")
	}
	return say.Of("cutting.pieces", n)
}

// otherCloth leaves out each piece that is not seen.
func (w *wayFinder) otherCloth() {
	for i := range w.l.Problem.Lay.Pieces {
		name := w.l.Problem.Lay.Pieces[i].Name
		if len(w.l.Problem.Lay.Pieces) < 2 || len(w.l.Problem.Lay.Ties) > 0 ||
			!isHidden(name) {
			continue
		}
		p := w.l.Problem.Lay
		p.Pieces = slices.Delete(slices.Clone(p.Pieces), i, i+1)
		w.try(say.Of("cutting.cut-from-another-cloth", name), &p)
	}
}

// wider tries cloth of the next widths; the first that is enough ends it.
func (w *wayFinder) wider() {
	c := w.l.Cloth.Cloth
	for _, wide := range widths {
		usable := wide*(1-float64(c.Shrink.Across.V)/100) - 2*c.Selvedge.V.MM()
		if usable <= w.l.Problem.Lay.Cloth.Width {
			continue
		}
		p := w.l.Problem.Lay
		p.Cloth.Width, p.Cloth.Flaws = usable, nil
		n := len(w.found)
		w.try(say.Of("cutting.take-such-a-cloth-wide", w.l.Problem.tape.about(wide)), &p)
		if len(w.found) > n && rank(w.found[n]) == 0 {
			return
		}
	}
}
