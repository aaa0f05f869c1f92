package cutting

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/lay"
	"hembook/internal/say"
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
			one.Along = l.met(m, &m.Along, say.Of("cutting.along-the-cloth"))
		}
		if m.Across.Asked {
			one.Across = l.met(m, &m.Across, say.Of("cutting.across-it"))
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
		return say.Of("cutting.cannot-meet", met.Why)
	}
	l.pad.Note(l.lengthTerm())
	title := m.Lines + ", " + way
	if m.Lines != m.What {
		title = m.What + ", " + title
	}
	l.LeftOver = append(l.LeftOver, l.figure("match-"+strconv.Itoa(len(l.LeftOver)+1), say.Of("cutting.difference-at-most", title),
		l.pad.Found(say.Of("cutting.where-the-plan-lays-them"), met.All, millimetres), millimetres,
		say.Of("cutting.how-far-apart-in-the-repeat-the"), figure.Derived))
	about := l.Problem.tape.about
	switch {
	case met.Off > closeEnough:
		return say.Of("cutting.off-others-come-first", about(met.Off))
	case met.All > closeEnough:
		return say.Of("cutting.meets-where-it-begins-then-up-to", about(met.All), met.Why)
	case met.OnLine:
		return say.Of("cutting.on-a-leading-line")
	case met.Mirror:
		return say.Of("cutting.meets-as-a-mirror-image")
	}
	return "meets"
}

// matchingCosts is how much longer the lay is for what must meet in the pattern.
func (l *Lay) matchingCosts(plain *lay.Plan) {
	if plain == nil {
		return
	}
	t := l.lengthTerm().Minus(l.pad.Found(say.Of("cutting.the-lay-without-matching"), plain.Length, millimetres))
	if t.MM() < tolerance {
		t = l.pad.Greatest(t, l.pad.Constant(0, millimetres))
	}
	l.MatchCost = l.figure("lay-match", say.Of("cutting.matching-takes-more-cloth-by"), t, millimetres, say.Of("cutting.length-of-the-lay-length-of-the"), figure.Derived)
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
