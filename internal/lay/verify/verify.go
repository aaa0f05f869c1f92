// Package verify checks a lay plan against its problem without trusting the
// engine: it shares only the plain data types with package lay, places every
// outline by itself and measures how deep outlines reach into each other.
//
// It promises to name every fault it finds, in plain words; it does not
// judge how good a plan is.
package verify

import (
	"fmt"
	"math"

	"hembook/internal/lay"
)

// Check returns what is wrong with a plan; nil when nothing is. Lengths may
// be off by tolerance, in the problem's unit (0.001 for millimetres).
func Check(p *lay.Problem, plan *lay.Plan, tolerance float64) []string {
	c := &checker{p: p, plan: plan, tol: tolerance}
	if !c.known() || !c.sizes() {
		return c.faults // what follows would measure what is not there
	}
	c.counts()
	c.lay()
	c.withinCloth()
	c.apart()
	c.matched()
	return c.faults
}

type point = lay.Point

type checker struct {
	p      *lay.Problem
	plan   *lay.Plan
	tol    float64
	at     [][]point // outlines on the cloth, one per placement
	faults []string
}

func (c *checker) say(format string, a ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, a...))
}

func (c *checker) name(i int) string {
	pl := c.plan.Placements[i]
	return fmt.Sprintf("piece %q copy %d", c.p.Pieces[pl.Piece].Name, pl.Copy)
}

// known asks for pieces that there are.
func (c *checker) known() bool {
	for _, at := range c.plan.Placements {
		if at.Piece < 0 || at.Piece >= len(c.p.Pieces) {
			c.say("there is no piece %d", at.Piece)
		}
	}
	return len(c.faults) == 0
}

// sizes asks for numbers that are numbers and for the cloth's own width.
func (c *checker) sizes() bool {
	for _, at := range c.plan.Placements {
		if !number(at.X) || !number(at.Y) || !number(at.Turn) {
			c.say("a place is not a number")
		}
		if q := &c.p.Pieces[at.Piece]; q.OnFold && (q.FoldEdge < 0 || q.FoldEdge >= len(q.Outline)) {
			c.say("piece %q has no edge %d to lie on the fold", q.Name, q.FoldEdge)
		}
		if at.Pair && c.plan.Fold == lay.Open {
			c.say("piece %q is laid as a pair on open cloth", c.p.Pieces[at.Piece].Name)
		}
		if at.Unfolded && !c.p.Pieces[at.Piece].OnFold {
			c.say("piece %q is unfolded, but is no half", c.p.Pieces[at.Piece].Name)
		}
	}
	width := c.folded()
	if c.p.Cloth.Outline == nil && !(math.Abs(c.plan.Width-width) <= c.tol) {
		c.say("the lay is %.6g wide, its cloth %.6g", c.plan.Width, width)
	}
	if !number(c.plan.Length) {
		c.say("the length is not a number")
	}
	return len(c.faults) == 0
}

func number(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// counts asks for every copy once, placed or named as unplaced.
func (c *checker) counts() {
	type key struct{ piece, copy int }
	seen := map[key]int{}
	for _, at := range c.plan.Placements {
		seen[key{at.Piece, at.Copy}]++
		if at.Pair {
			seen[key{at.Piece, at.Copy + 1}]++
		}
	}
	for _, u := range c.plan.Unplaced {
		seen[key{u.Piece, u.Copy}]++
	}
	want := 0
	for i, q := range c.p.Pieces {
		for k := range max(1, q.Quantity) {
			want++
			if n := seen[key{i, k}]; n != 1 && !(n == 0 && c.plan.Fold != lay.Open && seen[key{i, k - 1}] == 1 && k%2 == 1 && len(c.plan.Unplaced) > 0) {
				c.say("piece %q copy %d is laid %d times", q.Name, k, n)
			}
		}
	}
	if len(seen) > want {
		c.say("copies are laid that nobody asked for")
	}
}

// lay puts every outline on the cloth and checks turn and side.
func (c *checker) lay() {
	c.at = make([][]point, len(c.plan.Placements))
	for i, at := range c.plan.Placements {
		q := &c.p.Pieces[at.Piece]
		c.turnAllowed(i, q)
		outline := q.Outline
		if at.Unfolded {
			outline = doubled(q)
		}
		sin, cos := math.Sincos(at.Turn * math.Pi / 180)
		if r := math.Mod(at.Turn, 90); r == 0 {
			sin, cos = math.Round(sin), math.Round(cos)
		}
		for _, v := range outline {
			if at.Mirrored {
				v.Y = -v.Y
			}
			c.at[i] = append(c.at[i], point{X: v.X*cos - v.Y*sin + at.X, Y: v.X*sin + v.Y*cos + at.Y})
		}
		c.inPart(i, q)
	}
}

// doubled is the outline with its mirror image beyond the fold edge.
func doubled(q *lay.Piece) []point {
	n := len(q.Outline)
	a, b := q.Outline[q.FoldEdge], q.Outline[(q.FoldEdge+1)%n]
	ux, uy := b.X-a.X, b.Y-a.Y
	l2 := ux*ux + uy*uy
	var half, other []point
	for k := 1; k <= n; k++ {
		half = append(half, q.Outline[(q.FoldEdge+k)%n])
	}
	for k := n - 2; k >= 1; k-- {
		v := half[k]
		s := ((v.X-a.X)*uy - (v.Y-a.Y)*ux) / l2
		other = append(other, point{X: v.X - 2*s*uy, Y: v.Y + 2*s*ux})
	}
	return append(half, other...)
}

func (c *checker) turnAllowed(i int, q *lay.Piece) {
	at := c.plan.Placements[i]
	allowed := q.Turns
	if allowed == nil {
		switch q.Grain {
		case lay.AnyWay:
			allowed = []float64{at.Turn}
			if c.p.Cloth.OneWay && math.Cos(at.Turn*math.Pi/180) < -1e-9 {
				c.say("%s points against the one way of the cloth", c.name(i))
			}
		case lay.Bias:
			allowed = []float64{45, 135, 225, 315}
		default:
			allowed = []float64{0, 180}
		}
		if c.p.Cloth.OneWay && q.Grain != lay.AnyWay {
			allowed = allowed[:len(allowed)/2]
		}
	}
	ok := false
	for _, t := range allowed {
		ok = ok || math.Abs(math.Remainder(at.Turn-t, 360)) < 1e-9
	}
	if !ok {
		c.say("%s is turned by %g, which is not allowed", c.name(i), at.Turn)
	}
	if c.p.Cloth.Reversible || q.OnFold || at.Pair {
		return
	}
	if want := q.Mirrored && at.Copy%2 == 1; want != at.Mirrored {
		c.say("%s lies on the wrong side", c.name(i))
	}
}

// withinCloth checks ends, selvedges, the remnant's outline, holes and flaws.
func (c *checker) withinCloth() {
	cloth := &c.p.Cloth
	for i, ring := range c.at {
		lo, hi := bounds(ring)
		if cloth.Outline != nil {
			if d := outDepth(ring, cloth.Outline); d > c.tol {
				c.say("%s leaves the remnant by %.3g", c.name(i), d)
			}
		} else if over := max(-lo.X, -lo.Y, hi.X-c.length(), hi.Y-c.plan.Width); over > c.tol {
			c.say("%s leaves the cloth by %.3g", c.name(i), over)
		}
		for k, hole := range append(append([][]point(nil), cloth.Holes...), cloth.Flaws...) {
			for _, h := range c.ontoLayer(i, hole) {
				if d := Penetration(ring, h); d > c.tol {
					c.say("%s covers hole or flaw %d by %.3g", c.name(i), k+1, d)
				}
			}
		}
	}
}

// apart checks every pair for overlap and clearance.
func (c *checker) apart() {
	gap := c.p.Cloth.Clearance
	for i := range c.at {
		loI, hiI := bounds(c.at[i])
		for j := range i {
			loJ, hiJ := bounds(c.at[j])
			if loI.X >= hiJ.X+gap || loJ.X >= hiI.X+gap || loI.Y >= hiJ.Y+gap || loJ.Y >= hiI.Y+gap {
				continue
			}
			if d := Penetration(c.at[i], c.at[j]); d > c.tol {
				c.say("%s and %s overlap by %.3g", c.name(j), c.name(i), d)
			} else if gap > 0 {
				if d := gapBetween(c.at[i], c.at[j]); d < gap-c.tol {
					c.say("%s and %s are %.6g apart, not %g", c.name(j), c.name(i), d, gap)
				}
			}
		}
	}
}
