package trade

import (
	"iter"
	"math"
	"slices"
)

// A Stack is what lies on each other at one place across a seam: how many plies of each
// role, the garment counted.
type Stack map[Role]int

// Stacks are what lies on each other across a seam as it is drawn at its usual measures,
// place by place; what lies nowhere deeper in any role than another does is left out. A
// cord, and what goes round it, is: it stands beside the allowances once they are
// pressed. Empty where the type has no drawing.
func (t SeamType) Stacks() []Stack {
	s, err := t.Section(nil)
	if err != nil {
		return nil
	}
	var at []float64
	for i := range s.Layers {
		for _, p := range s.Layers[i].Path {
			at = append(at, p.X)
		}
	}
	slices.Sort(at)
	var out []Stack
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] < 1e-6 {
			continue
		}
		if x := (at[i] + at[i-1]) / 2; !s.corded(x) {
			out = deeper(out, s.stackAt(x))
		}
	}
	return out
}

// stackAt counts the plies that lie over a place.
func (s *Section) stackAt(x float64) Stack {
	out := Stack{}
	for i := range s.Layers {
		l := &s.Layers[i]
		for k := 1; k < len(l.Path); k++ {
			if (l.Path[k-1].X < x) != (l.Path[k].X < x) {
				out[l.Role]++
			}
		}
	}
	return out
}

// corded reports whether a cord lies over a place, or near it.
func (s *Section) corded(x float64) bool {
	return slices.ContainsFunc(s.Layers, func(l Layer) bool {
		return l.End == Closed && slices.ContainsFunc(l.Path, func(p Pt) bool { return math.Abs(p.X-x) < 1.5*s.Ply })
	})
}

// deeper adds a stack to those of which none has as much of everything.
func deeper(list []Stack, s Stack) []Stack {
	if slices.ContainsFunc(list, func(o Stack) bool { return o.holds(s) }) {
		return list
	}
	return append(slices.DeleteFunc(list, s.holds), s)
}

// holds reports whether a stack has at least as many plies of each role as another.
func (s Stack) holds(o Stack) bool {
	for role, n := range o {
		if s[role] < n {
			return false
		}
	}
	return true
}

// Roles are the roles of a stack and how many plies it has of each, in one order always.
func (s Stack) Roles() iter.Seq2[Role, int] {
	return func(yield func(Role, int) bool) {
		for i := range roles {
			if n := s[roles[i].role]; n > 0 && !yield(roles[i].role, n) {
				return
			}
		}
	}
}
