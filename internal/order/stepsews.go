package order

import (
	"slices"

	"hembook/internal/garment"
	"hembook/internal/sewn"
)

// A StepSewing is a step that is the first to sew something.
type StepSewing struct {
	Step int // in the turn of the steps, from 1
	ID   string
}

// StepsThatSew lists the steps that are the first to sew something, in their
// turn: a seam, a finish, or the darts, pleats and gathers of a piece.
func (t *Together) StepsThatSew() []StepSewing {
	turn := inTurn(t.steps)
	sews := make([]bool, len(turn)+1)
	for _, n := range t.Numbered {
		sews[n.Step] = true
	}
	for _, step := range t.folded {
		sews[step] = true
	}
	var out []StepSewing
	for i, s := range turn {
		if sews[i+1] {
			out = append(out, StepSewing{i + 1, s.ID})
		}
	}
	return out
}

// A foldsOf names the darts, the pleats or the gathers of a piece.
type foldsOf struct {
	kind  garment.RowKind
	piece string
}

// foldedIn is which step is the first to sew the darts, pleats and gathers of each piece.
func foldedIn(g *garment.Garment, steps []*Step) map[foldsOf]int {
	turn := inTurn(steps)
	out := map[foldsOf]int{}
	for i := range g.Rows {
		r := &g.Rows[i]
		if r.Kind != garment.DartRow && r.Kind != garment.PleatRow && r.Kind != garment.GatherRow {
			continue
		}
		for _, k := range r.Steps() {
			if k >= len(steps) {
				continue
			}
			step := slices.Index(turn, steps[k]) + 1
			for _, piece := range foldedPieces(g, r) {
				key := foldsOf{r.Kind, piece}
				if had := out[key]; had == 0 || step < had {
					out[key] = step
				}
			}
		}
	}
	return out
}

// foldedPieces are the pieces that a row of darts, pleats or gathers is sewn in: the one it
// is of, or those that are gathered for its seam.
func foldedPieces(g *garment.Garment, r *garment.Row) []string {
	var out []string
	for _, p := range g.Pieces {
		for _, q := range p.Gathered {
			if r.Kind == garment.GatherRow && q.Of == r.Of && !slices.Contains(out, p.Name) {
				out = append(out, p.Name)
			}
		}
	}
	if len(out) == 0 {
		out = append(out, r.Of)
	}
	return out
}

// StepOfFolds is the step that sews the darts, the pleats or the gathers of a piece first;
// 0 where none does.
func (t *Together) StepOfFolds(kind garment.RowKind, piece string) int {
	return t.folded[foldsOf{kind, piece}]
}

// FoldsSewn are the kinds of rows that a step sews first in the pieces of a net, beside its
// seams: darts, pleats, gathers.
func (t *Together) FoldsSewn(n *sewn.Net, step int) []garment.RowKind {
	var out []garment.RowKind
	for _, kind := range []garment.RowKind{garment.DartRow, garment.PleatRow, garment.GatherRow} {
		if slices.ContainsFunc(n.Laid, func(l sewn.Laid) bool { return t.StepOfFolds(kind, t.Sewn.Copies[l.Copy].Name) == step }) {
			out = append(out, kind)
		}
	}
	return out
}

// StepOfSeam is the step that sews a seam of the surface's plan first; 0 where
// none does.
func (t *Together) StepOfSeam(seam int) int { return t.stepOf(t.NumberOfSeam(seam)) }

// StepOfFinish is the step that sews a finish first; 0 where none does.
func (t *Together) StepOfFinish(name string) int { return t.stepOf(t.NumberOfFinish(name)) }

// StepOfSetOn is the step that sews a piece onto the face of another; 0 where none does.
func (t *Together) StepOfSetOn(seam string) int { return t.stepOf(t.NumberOfSetOn(seam)) }

func (t *Together) stepOf(number int) int {
	if number == 0 {
		return 0
	}
	return t.Numbered[number-1].Step
}

// SewsItAlone reports whether the step that sews a seam or finish sews nothing
// beside it, nor sets a zip or buttons into it: only then is its rate that of the
// seam.
func (t *Together) SewsItAlone(k Numbered) bool {
	for _, o := range t.Numbered {
		if o.Number != k.Number && o.StepID == k.StepID {
			return false
		}
	}
	for i := range t.Sewn.Joins {
		j := &t.Sewn.Joins[i]
		if !k.Finish && j.Kind == sewn.Closing && t.NumberOfSeam(j.Seam) == k.Number {
			return false
		}
	}
	return true
}
