package order

import (
	"slices"

	"hembook/internal/garment"
)

// inTurn lists steps in an order in which they can be done: as the record has
// them, each after what it waits for.
func inTurn(steps []*Step) []*Step {
	out := make([]*Step, 0, len(steps))
	left := slices.Clone(steps)
	for len(left) > 0 {
		next := slices.IndexFunc(left, func(s *Step) bool {
			return !slices.ContainsFunc(left, func(o *Step) bool { return o != s && s.waitsFor(o) })
		})
		next = max(next, 0) // steps that wait for each other stay as they are
		out, left = append(out, left[next]), slices.Delete(left, next, next+1)
	}
	return out
}

func (s *Step) waitsFor(o *Step) bool {
	for _, a := range s.Record.After {
		if a.V == o.ID {
			return true
		}
	}
	return false
}

// A Numbered is a seam or a finish with its number: all are counted in the order
// in which they are sewn, those that no step sews last.
type Numbered struct {
	Number int
	Name   string
	Finish bool   // it is a finish
	Step   int    // which step sews it first, from 1 in their turn; 0 where none does
	StepID string // that step's
}

// inNumbers numbers the seams and finishes of a garment.
func inNumbers(g *garment.Garment, steps []*Step) []Numbered {
	var out []Numbered
	add := func(name string, finish bool, step int, id string) {
		if !slices.ContainsFunc(out, func(n Numbered) bool { return n.Name == name && n.Finish == finish }) {
			out = append(out, Numbered{len(out) + 1, name, finish, step, id})
		}
	}
	for i, s := range inTurn(steps) {
		for _, name := range s.Record.Sews {
			switch {
			case slices.ContainsFunc(g.Seams, func(s *garment.Seam) bool { return s.Name == name.V }):
				add(name.V, false, i+1, s.ID)
			case slices.ContainsFunc(g.Finishes, func(f *garment.Finish) bool { return f.Name == name.V }):
				add(name.V, true, i+1, s.ID)
			}
		}
	}
	for _, s := range g.Seams {
		add(s.Name, false, 0, "")
	}
	for _, f := range g.Finishes {
		add(f.Name, true, 0, "")
	}
	return out
}
