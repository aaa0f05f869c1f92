package abacus

import (
	"math"
	"slices"
	"strings"
)

// A seam is a join of two runs of edges.
type seam struct {
	name   string
	slug   string
	record node
	kind   seamType
	sides  [2][]use
	behind []use              // what is caught in it behind its first side
	names  map[string]float64 // the measures of its type
	sum    [2]float64         // the lengths of the two sides, as sewn once
	length float64            // the shorter
	times  float64            // how often it is sewn
	lines  float64            // and how often in one cloth
	strip  string             // the part its strips are cut from; "" where they are not cut from one
	open   float64            // what stays open for a zip
	bandOn int                // the side a band stands on by its bottom
	lapOn  int                // the side that is the longer by an overlap
	band   node               // what the record says of it; nothing where there is none
}

// sewn is the length of all its lines, without what stays open for a zip.
func (s *seam) sewn() float64 { return s.length*s.times - s.open }

// leaveOpen finds the zip of a seam: one on an edge of it that is shorter than
// the seam.
func (g *garment) leaveOpen(s *seam) {
	for _, v := range g.build.get("notions").named() {
		length := v.get("length").lengthOr(g.units, 0)
		if !isZip(v) || !v.get("along").there() || v.get("every").there() || length == 0 || length >= s.length || s.open > 0 {
			continue
		}
		_, e := g.edgeOf(v.get("along").text())
		for _, side := range s.sides {
			for _, u := range side {
				if u.e == e {
					s.open = length
				}
			}
		}
	}
}

// isZip: a notion is what its name or its own word says.
func isZip(v named) bool {
	is := v.name
	if v.get("what").there() {
		is = v.get("what").text()
	}
	return slices.Contains(strings.Fields(strings.ToLower(is)), "zip")
}

// A use is one edge in a seam or finish.
type use struct {
	p *piece
	e *edge
	n float64 // how often it occurs here
}

type finish struct {
	name   string
	slug   string
	record node
	kind   seamType
	uses   []use
	names  map[string]float64
	total  float64 // mm
	places float64 // how often its edges and slits are there
	strip  string
}

func (g *garment) makeSeams() {
	for _, v := range seamsOf(g.build.get("seams")) {
		s := &seam{name: v.name, record: v.node, strip: v.get("strip").text()}
		s.slug = slug(s.name)
		if setsOn(v.node) { // its edges are those that nothing else names
			g.seams = append(g.seams, s)
			continue
		}
		join := v.of("join").list()
		for side := range s.sides {
			for _, t := range join[side].texts() {
				p, e := g.edgeOf(t)
				s.sides[side] = append(s.sides[side], use{p: p, e: e})
			}
		}
		for _, side := range join[2:] {
			for _, t := range side.texts() {
				p, e := g.edgeOf(t)
				s.behind = append(s.behind, use{p: p, e: e, n: p.occurs()})
			}
		}
		s.kind, s.names = g.kindOf(v.node, slices.Concat(s.sides[0], s.sides[1]))
		s.settleSides(g.units)
		s.findBand()
		g.foldBand(s)
		for side, uses := range s.sides {
			for _, u := range uses {
				u.e.needs = append(u.e.needs, evaluate(s.kind.gives[side], s.names))
			}
		}
		third := s.kind.gives[0]
		if s.kind.third != "" {
			third = s.kind.third
		}
		for _, u := range s.behind {
			u.e.needs = append(u.e.needs, evaluate(third, s.names))
		}
		s.sew(g.units)
		g.leaveOpen(s)
		g.seams = append(g.seams, s)
	}
	for _, v := range g.build.get("finishes").named() {
		f := &finish{name: v.name, record: v.node, strip: v.get("strip").text()}
		f.slug = slug(f.name)
		f.kind, f.names = g.kindOf(v.node, nil)
		for _, t := range g.bothHands(v.get("of").texts()) {
			p, e, times := g.finishedEdge(t)
			if !f.kind.rowsOnly {
				e.finished = append(e.finished, evaluate(f.kind.gives[0], f.names))
				e.finishedBy = append(e.finishedBy, f)
			}
			f.uses = append(f.uses, use{p: p, e: e, n: p.occurs() * times * float64(len(p.sewnIn()))})
			f.places += p.occurs() * float64(len(p.sewnIn()))
			f.total += e.sewn * p.occurs() * times * float64(len(p.sewnIn()))
		}
		g.finishes = append(g.finishes, f)
	}
	for _, s := range g.seams {
		if setsOn(s.record) {
			g.setOn(s)
		}
	}
}

// seamsOf are seams by their names: a list behind a name is its two sides.
func seamsOf(v node) []named {
	var out []named
	for _, name := range v.words() {
		out = append(out, named{name, v.get(name)})
	}
	return out
}

// kindOf is the type of a seam or finish and its measures, each as it says.
// Where it does not say its allowance, it takes the least that its edges are
// given by their own words or their piece's; where none is, the workroom's
// usual one in place of a type's 15 mm. All else is the type's own.
func (g *garment) kindOf(v node, uses []use) (seamType, map[string]float64) {
	kind, known := g.types[textOr(v.get("type"), "lapped-turned")]
	if !known {
		giveUp("no seam type %q", v.get("type").text())
	}
	names := map[string]float64{}
	usual := g.workroom.get("usual").get("allowance")
	for _, name := range kind.names {
		names[name] = kind.defaults[name]
		if name == "allowance" {
			given := math.Inf(1)
			for _, u := range uses {
				if own, ok := g.given(u.p, u.e); ok && own > 0 { // one of none says nothing of how wide
					given = math.Min(given, own)
				}
			}
			switch {
			case !math.IsInf(given, 1):
				names[name] = given
			case kind.defaults[name] == 15 && usual.there():
				names[name] = usual.length(g.shop)
			}
		}
		names[name] = v.get(name).lengthOr(g.units, names[name])
	}
	return kind, names
}

// given is the allowance that an edge has by its own words, or its piece's.
func (g *garment) given(p *piece, e *edge) (float64, bool) {
	switch {
	case e.fold:
		return 0, true
	case e.own.there():
		return e.own.length(g.units), true
	case p.allowance.there():
		return p.allowance.length(g.units), true
	}
	return 0, false
}

// sew counts how often the edges of a seam occur and adds them up. Pieces that
// are cut in several cloths are sewn cloth by cloth, in those that all of them
// are cut in. A run is sewn as often as all its edges can be shared out
// equally, and once where a closure overlaps.
func (s *seam) sew(units string) {
	cloths := s.sides[0][0].p.sewnIn()
	for _, side := range s.sides {
		for _, u := range side {
			var both []string
			for _, c := range cloths {
				for _, o := range u.p.sewnIn() {
					if c == o {
						both = append(both, c)
					}
				}
			}
			cloths = both
		}
	}
	layers := math.Max(1, float64(len(cloths)))
	equal := true
	s.times = 0
	for _, side := range s.sides {
		for i := range side {
			side[i].n = side[i].p.occurs()
			equal = equal && side[i].n == s.sides[0][0].n
			s.times = share(s.times, side[i].rounds())
		}
	}
	switch {
	case equal && len(s.sides[0]) == 1 && len(s.sides[1]) == 1: // else they are sewn end to end
		s.times = s.sides[0][0].n
	case s.overlap().there():
		s.times = 1
	}
	s.lines = s.times
	for side, uses := range s.sides {
		for _, u := range uses {
			s.sum[side] += u.e.sewn * u.n / s.times
		}
	}
	if s.selfJoined() {
		s.times /= 2
	}
	s.times *= layers
	a, b := s.drawnUp(units)
	s.length = math.Min(a, b)
	if s.band.get("share").there() { // it is sewn along the edge that it is stretched to
		s.length = s.sum[1-s.bandOn]
	}
}

// behindLength is how long what is caught in behind is, for one seam.
func (s *seam) behindLength() (sum float64) {
	for _, u := range s.behind {
		sum += u.e.sewn * u.n / s.lines
	}
	return sum
}

// share is the largest number that both can be divided by.
func share(a, b float64) float64 {
	for b > 0 {
		a, b = b, math.Mod(a, b)
	}
	return a
}

// rounds is how many lines an edge makes in a run: one that ends on the fold of
// its piece goes on there into the other half.
func (u use) rounds() float64 {
	before, _, after := u.p.neighbours(u.e.name)
	if u.p.half && (before.fold || after.fold) {
		return u.p.count
	}
	return u.n
}

// overlap is how much longer the first side is meant to be, for a closure. A
// type that has a measure of this name means something else by the word.
func (s *seam) overlap() node {
	if _, measure := s.kind.defaults["overlap"]; measure {
		return node{}
	}
	if s.band.there() {
		return s.band.get("lap")
	}
	return s.record.get("overlap")
}

// drawnUp is how long the two sides are that are sewn to each other: of one that others
// are gathered to, and that laps, without what laps.
func (s *seam) drawnUp(units string) (a, b float64) {
	a, b = s.sum[0], s.sum[1]
	if s.record.get("gather").there() && s.overlap().there() {
		if s.lapOn == 1 {
			return a, b - s.overlap().length(units)
		}
		a -= s.overlap().length(units)
	}
	return a, b
}

// tolerance is how far the two sides may differ.
func (s *seam) tolerance(g *garment) float64 {
	return s.record.get("tolerance").lengthOr(g.units, g.workroom.get("usual").get("tolerance").lengthOr(g.shop, 3))
}

// selfJoined: an edge that is sewn to its own mirror image takes two of its
// occurrences for every seam.
func (s *seam) selfJoined() bool {
	return len(s.sides[0]) == 1 && len(s.sides[1]) == 1 && s.sides[0][0].e == s.sides[1][0].e
}

// findAllowances settles every edge's allowance: none on a fold; its own; what
// its finish needs; its piece's; the most that the seams there need; the
// workroom's usual; 15 mm.
func (g *garment) findAllowances() {
	usual := g.workroom.get("usual").get("allowance").lengthOr(g.shop, 15)
	for _, p := range g.pieces {
		for _, e := range p.edges {
			own, given := g.given(p, e)
			switch {
			case e.fold || e.own.there():
				e.allowance = own
			case len(e.finished) > 0:
				e.allowance = slices.Max(e.finished)
			case given:
				e.allowance = own
			case len(e.needs) > 0:
				e.allowance = slices.Max(e.needs)
			case e.innerOf != nil:
				e.allowance = evaluate(e.innerOf.kind.gives[e.innerOn], e.innerOf.names)
			default:
				e.allowance = usual
			}
		}
	}
}

// ends is how an edge's allowance ends, and how deep its turns are: as the edge
// says itself, else as its finish is turned where no seam takes the edge. What
// is less than 8 mm in all is cut off square.
func (e *edge) ends() (corner string, turns []float64) {
	if e.corner != "" || len(e.needs) > 0 || len(e.finishedBy) == 0 {
		return e.corner, nil
	}
	f := e.finishedBy[0]
	sum := 0.0
	for _, formula := range f.kind.folds {
		v := evaluate(formula, f.names)
		turns, sum = append(turns, v), sum+v
	}
	if f.kind.corner == "mirror" && sum < 8 {
		return "square", nil
	}
	return f.kind.corner, turns
}

func (g *garment) seamFigures(out Figures) {
	for _, s := range g.seams {
		id := "seam." + s.slug + "."
		a, b := s.sum[0], s.sum[1]
		x, y := s.drawnUp(g.units)
		longer, shorter := math.Max(x, y), math.Min(x, y)
		out.put(id+"side-1", a, "mm")
		out.put(id+"side-2", b, "mm")
		out.put(id+"length", s.length, "mm")
		out.put(id+"total", s.sewn()/1000, "m")
		out.put(id+"fullness", longer/shorter, "×")
		r := s.record
		lap := s.overlap().lengthOr(g.units, 0)
		if s.lapOn == 1 {
			a, b = b, a
		}
		switch {
		case s.band.get("share").there():
			out.put(id+"difference", math.Abs(a-lap-b*s.band.get("share").number()), "mm")
		case r.get("gather").there():
			out.put(id+"difference", math.Abs(longer-r.get("gather").number()*shorter), "mm")
		case r.get("ease").there():
			out.put(id+"difference", math.Abs(longer-shorter-r.get("ease").length(g.units)), "mm")
		case s.overlap().there():
			out.put(id+"difference", math.Abs(a-b-lap), "mm")
		default:
			out.put(id+"difference", longer-shorter, "mm")
		}
		if len(s.behind) > 0 {
			beside := s.sides[0][0]
			own, along := s.behindLength(), beside.e.sewn*beside.n/s.lines
			out.put(id+"side-3", own, "mm")
			out.put(id+"side-3.beside", along, "mm")
			out.put(id+"difference-3", math.Abs(own-along), "mm")
		}
		out.put(id+"takes-1", evaluate(s.kind.gives[0], s.names), "mm")
		out.put(id+"takes-2", evaluate(s.kind.gives[1], s.names), "mm")
		out.put(id+"width", evaluate(s.kind.width, s.names), "mm")
	}
	for _, f := range g.finishes {
		id := "finish." + f.slug + "."
		out.put(id+"total", f.total/1000, "m")
		out.put(id+"takes", evaluate(f.kind.gives[0], f.names), "mm")
		out.put(id+"width", evaluate(f.kind.width, f.names), "mm")
	}
}
