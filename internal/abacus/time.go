package abacus

import (
	"slices"
	"strings"
)

// A step is one step of the order of work.
type step struct {
	id          string
	takes, wait float64 // minutes
	spent       float64
	clocked     bool
	last        string // when it was last worked on
	record      node
	after       []string
}

func (g *garment) steps() []*step {
	var list []*step
	names := g.build.get("work").words()
	for i, name := range names {
		v := g.build.get("work").get(name)
		s := &step{id: slug(name), takes: v.of("takes").minutes(), wait: v.get("wait").minutes(), record: v}
		switch after := v.get("after"); {
		case !after.there() && i > 0:
			s.after = []string{slug(names[i-1])}
		case after.there():
			for _, before := range after.texts() {
				if before != "nothing" {
					s.after = append(s.after, stepCalled(names, before))
				}
			}
		}
		for _, j := range g.build.get("journal").list() {
			if j.get("did").there() && stepCalled(names, j.get("did").text()) == s.id && j.get("for").there() {
				s.spent += j.get("for").minutes()
				s.clocked = true
				s.last = max(s.last, j.get("at").text())
			}
		}
		list = append(list, s)
	}
	return list
}

// stepCalled is the step that is called so, or else the only one that begins with
// these words.
func stepCalled(names []string, word string) string {
	word = slug(word)
	found := ""
	for _, name := range names {
		switch own := slug(name); {
		case own == word:
			return own
		case strings.HasPrefix(own, word+"-"):
			found = own
		}
	}
	if found == "" {
		giveUp("no step %q", word)
	}
	return found
}

func (g *garment) spentInAll() (sum float64, any bool) {
	for _, s := range g.steps() {
		sum += s.spent
		any = any || s.clocked
	}
	return sum, any
}

// metres is how much is sewn in a step.
func (g *garment) metres(s *step) float64 {
	sum := 0.0
	for _, name := range s.record.get("sews").texts() {
		for _, one := range g.seams {
			if one.name == name {
				sum += one.sewn() / 1000 * (1 + g.linesBeside(one.record, one.kind, one.names, false)) // a row beside it is a line of its own
			}
		}
		for _, one := range g.finishes {
			if one.name == name && one.kind.sewn() {
				sum += one.total / 1000
			}
			if one.name == name {
				sum += one.total / 1000 * g.linesBeside(one.record, one.kind, one.names, true)
			}
		}
	}
	for _, p := range g.pieces {
		if g.dartStep(p) == s.id {
			sum += (p.dartsSewn() + p.pleatsSewn() + g.turnedIn(p)) / 1000
		}
	}
	return sum
}

// dartStep is the step that sews the darts of a piece, and turns its plies in, where no step speaks of darts:
// the first at the machine or by hand that sews an edge of it, for they are closed
// before that; where none does, the first of any stage.
func (g *garment) dartStep(p *piece) string {
	any := ""
	for _, s := range g.steps() {
		for _, name := range s.record.get("sews").texts() {
			if !g.hasEdgeOf(name, p) {
				continue
			}
			if any == "" {
				any = s.id
			}
			if stage := s.record.get("stage").text(); stage == "sewing" || stage == "finishing" || stage == "" {
				return s.id
			}
		}
	}
	return any
}

// hasEdgeOf says whether the seam or finish of this name has an edge of a piece.
func (g *garment) hasEdgeOf(name string, p *piece) bool {
	for _, one := range g.seams {
		for _, u := range slices.Concat(one.sides[0], one.sides[1], one.behind) {
			if one.name == name && u.p == p {
				return true
			}
		}
	}
	for _, one := range g.finishes {
		for _, u := range one.uses {
			if one.name == name && u.p == p {
				return true
			}
		}
	}
	return false
}

// plannedInAll adds up what all steps are to take, where each of them says it or only
// lets time pass.
func (g *garment) plannedInAll() (sum float64, all bool) {
	for _, s := range g.steps() {
		if s.takes == 0 && s.wait == 0 {
			return 0, false
		}
		sum += s.takes
	}
	return sum, sum > 0
}

func (g *garment) timeFigures(out Figures) {
	groups := map[string]float64{}
	var order []string
	for _, s := range g.steps() {
		id := "step." + s.id + "."
		if m := g.metres(s); m > 0 {
			out.put(id+"metres", m, "m")
		}
		if !s.clocked {
			out.unknown(id+"spent", "nothing is clocked for it")
			continue
		}
		out.put(id+"spent", s.spent, "min")
		for kind, word := range map[string]string{"stage": s.record.get("stage").text(), "technique": g.wayOf(s)} {
			if word == "" {
				continue
			}
			name := kind + "." + slug(word) + ".spent"
			if !slices.Contains(order, name) {
				order = append(order, name)
			}
			groups[name] += s.spent
		}
	}
	for _, name := range order {
		out.put(name, groups[name], "min")
	}
	if sum, any := g.spentInAll(); any {
		out.put("total.spent", sum, "min")
	} else if sum, all := g.plannedInAll(); all {
		out.put("total.hours-planned", sum, "min")
	}
	g.chainFigures(out)
}

// done says which steps are done: those that were worked on, if as much time as
// was planned is clocked, or if something that needs them was worked on since.
func done(list []*step) map[string]bool {
	out := map[string]bool{}
	for _, s := range list {
		enough := s.spent >= s.takes
		for _, later := range list {
			enough = enough || later.last > s.last && needs(list, later, s.id)
		}
		out[s.id] = s.clocked && enough
	}
	return out
}

// needs reports whether a step comes after another, by however many between.
func needs(list []*step, s *step, id string) bool {
	if slices.Contains(s.after, id) {
		return true
	}
	for _, between := range list {
		if slices.Contains(s.after, between.id) && needs(list, between, id) {
			return true
		}
	}
	return false
}

// chainFigures are what is left, and the longest chain of it: labour and waits,
// each step after what it needs, found by trying every chain.
func (g *garment) chainFigures(out Figures) {
	list := g.steps()
	if len(list) == 0 {
		return
	}
	byID := map[string]*step{}
	planned := 0.0
	for _, s := range list {
		byID[s.id] = s
		planned += s.takes
	}
	over := done(list)
	left := func(s *step) float64 {
		if over[s.id] {
			return 0
		}
		return max(0, s.takes-s.spent)
	}
	sum := 0.0
	for _, s := range list {
		sum += left(s)
	}
	out.put("order.planned", planned, "min")
	out.put("order.left", sum, "min")
	best := 0.0
	var names []string
	var ties int
	var follow func(s *step, so float64, names []string) // from a step back to the first
	follow = func(s *step, so float64, behind []string) {
		if over[s.id] {
			return
		}
		so += left(s) + s.wait
		chain := append([]string{s.id}, behind...)
		switch {
		case so > best+1e-9:
			best, names, ties = so, chain, 0
		case so > best-1e-9:
			ties++
		}
		for _, need := range s.after {
			follow(byID[need], so, chain)
		}
	}
	for _, s := range list {
		follow(s, 0, nil)
	}
	out.put("order.critical-path", best, "min")
	if ties == 0 && best > 0 {
		out.set("order.chain", Figure{Words: strings.Join(names, " → ")})
	}
}
