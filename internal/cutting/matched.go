package cutting

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/lay"
)

// closeEnough is how far off nobody sees, mm.
const closeEnough = 0.5

// A Matched is how two lines of pieces meet in the pattern, in words: left and right as
// one, as the one that is further off.
type Matched struct {
	What          string // as the record names it
	Lines         string // "front.side to back.side"
	Along, Across string // "" where that is not asked
}

// matched are the matches of a lay in words, with a figure for each that can be measured.
func (l *Lay) matched() {
	for i := range l.Problem.Matches {
		m := &l.Problem.Matches[i]
		if l.saidWorse(m) {
			continue
		}
		one := Matched{What: m.What, Lines: m.Lines}
		if m.Along.Asked {
			one.Along = l.met(m, &m.Along, "along the cloth")
		}
		if m.Across.Asked {
			one.Across = l.met(m, &m.Across, "across it")
		}
		l.Matches = append(l.Matches, one)
	}
}

// saidWorse reports whether another match of the same lines is said in place of one: one
// that is further off, or as far and stands before it.
func (l *Lay) saidWorse(m *Match) bool {
	far := func(m *Match) float64 { return max(m.Along.All, m.Across.All) }
	before := true
	for i := range l.Problem.Matches {
		o := &l.Problem.Matches[i]
		switch {
		case o == m:
			before = false
		case o.What != m.What || o.Lines != m.Lines || m.Along.Asked && !o.Along.Asked || m.Across.Asked && !o.Across.Asked:
		case far(o) > far(m)+tolerance, (before || o.Along.Asked && !m.Along.Asked) && far(o) >= far(m)-tolerance:
			return true
		}
	}
	return false
}

// met says how two lines meet in one direction, and adds the figure of what is left over.
func (l *Lay) met(m *Match, met *Met, way string) string {
	if met.Never {
		return "cannot meet: " + met.Why
	}
	l.pad.Note(l.lengthTerm())
	title := m.Lines + ", " + way
	if m.Lines != m.What {
		title = m.What + ", " + title
	}
	l.LeftOver = append(l.LeftOver, l.figure("match-"+strconv.Itoa(len(l.LeftOver)+1), title+": difference at most",
		l.pad.Found("where the plan lays them", met.All, millimetres), millimetres,
		"how far apart in the repeat the two lie that are sewn to each other, where that is most along the sewing line", figure.Derived))
	about := l.Problem.tape.about
	switch {
	case met.Off > closeEnough:
		return about(met.Off) + " off: others come first"
	case met.All > closeEnough:
		return "meets where it begins, then up to " + about(met.All) + " off: " + met.Why
	case met.OnLine:
		return "on a leading line"
	case met.Mirror:
		return "meets as a mirror image"
	}
	return "meets"
}

// matchingCosts is how much longer the lay is for what must meet in the pattern.
func (l *Lay) matchingCosts(plain *lay.Plan) {
	if plain == nil {
		return
	}
	t := l.lengthTerm().Minus(l.pad.Found("the lay without matching", plain.Length, millimetres))
	if t.MM() < tolerance {
		t = l.pad.Greatest(t, l.pad.Constant(0, millimetres))
	}
	l.MatchCost = l.figure("lay-match", "matching takes more cloth by", t, millimetres, "length of the lay − length of the lay without matching", figure.Derived)
}

// unmatched lays the pieces without regard to the pattern; nil where nothing is matched or
// there is no such plan.
func (c *Cutter) unmatched(l *Lay) *lay.Plan {
	if len(l.Problem.Lay.Ties) == 0 {
		return nil
	}
	p := l.Problem.Lay
	p.Ties = nil
	plan, err := c.plan(c.ctx, &p, nil)
	if err != nil || len(plan.Unplaced) > 0 {
		return nil
	}
	return plan
}
