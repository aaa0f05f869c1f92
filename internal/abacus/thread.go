package abacus

import (
	"math"
	"slices"
)

// A thread is what is sewn with one thread.
type thread struct {
	name          string
	record        node
	needle, under float64 // m, without waste
	basting       float64 // m of both, taken out again
	used, unknown bool    // unknown: a stitch of it has no published ratio
	reel          float64 // m
}

func (g *garment) threads() []*thread {
	var list []*thread
	reel := g.workroom.get("usual").get("reel").lengthOr(g.shop, 200000)
	group := g.build.get("thread")
	for _, name := range group.words() {
		list = append(list, &thread{name: name, record: group.get(name), reel: group.get(name).get("reel").lengthOr(g.units, reel) / 1000})
	}
	if len(list) == 0 {
		list = append(list, &thread{name: "thread", reel: reel / 1000})
	}
	sew := func(v node, kind seamType, metres float64) {
		t := list[0]
		for _, one := range list {
			if one.name == v.get("thread").text() {
				t = one
			}
		}
		for _, p := range kind.passes {
			st := g.stitch(p.sewnWith(v.get("stitch").text(), kind))
			t.used = true
			t.unknown = t.unknown || !st.known
			t.needle += metres * p.rows * st.total * st.needle
			t.under += metres * p.rows * st.total * st.under
			if p.temporary {
				t.basting += metres * p.rows * st.total * (st.needle + st.under)
			}
		}
	}
	straight := func(t *thread, metres float64) (needle, under float64) {
		st := g.stitch("301")
		t.used = true
		return metres * st.total * st.needle, metres * st.total * st.under
	}
	called := func(name string) *thread {
		for _, t := range list {
			if t.name == name {
				return t
			}
		}
		return list[0]
	}
	for _, p := range g.pieces { // a dart is sewn along one leg, with what its piece is first sewn with
		if metres := p.dartsSewn() / 1000; metres > 0 {
			t := called(g.firstThread(p))
			needle, under := straight(t, metres)
			t.needle, t.under = t.needle+needle, t.under+under
		}
	}
	for _, p := range g.pieces { // and so are folds that are stitched down
		if metres := p.pleatsSewn() / 1000; metres > 0 {
			t := called(g.firstThread(p))
			needle, under := straight(t, metres)
			t.needle, t.under = t.needle+needle, t.under+under
		}
	}
	for _, p := range g.pieces { // and so is gathered: rows along the whole edge, taken out again
		if metres := p.gatheringSewn() / 1000; metres > 0 {
			t := called(g.firstThread(p))
			needle, under := straight(t, metres)
			t.needle, t.under, t.basting = t.needle+needle, t.under+under, t.basting+needle+under
		}
	}
	for _, p := range g.pieces { // and so are edges that are sewn to their own plies
		if metres := g.turnedIn(p) / 1000; metres > 0 {
			t := called(g.firstThread(p))
			needle, under := straight(t, metres)
			t.needle, t.under = t.needle+needle, t.under+under
		}
	}
	beside := func(v node, kind seamType, names map[string]float64, finish bool, metres float64) {
		for _, r := range g.besideRows(v, kind, names, finish) {
			t, st := called(r.thread.text()), g.stitch(textOr(r.stitch, "301"))
			t.used = true
			t.unknown = t.unknown || !st.known
			t.needle += metres * r.lines * st.total * st.needle
			t.under += metres * r.lines * st.total * st.under
		}
	}
	for _, s := range g.seams {
		sew(s.record, s.kind, s.sewn()/1000)
		beside(s.record, s.kind, s.names, false, s.sewn()/1000)
		if s.record.get("gather").there() { // two rows along the longer side, taken out when the seam is sewn
			t := called(s.record.get("thread").text())
			needle, under := straight(t, 2*max(s.sum[0], s.sum[1])*s.times/1000)
			t.needle, t.under, t.basting = t.needle+needle, t.under+under, t.basting+needle+under
		}
	}
	for _, f := range g.finishes {
		sew(f.record, f.kind, f.total/1000)
		beside(f.record, f.kind, f.names, true, f.total/1000)
	}
	return list
}

// firstThread is the thread that the record's first seam of a piece is sewn
// with, or its first finish; "" where none is said.
func (g *garment) firstThread(p *piece) string {
	for _, s := range g.seams {
		for _, u := range slices.Concat(s.sides[0], s.sides[1], s.behind) {
			if u.p == p {
				return s.record.get("thread").text()
			}
		}
	}
	for _, f := range g.finishes {
		for _, u := range f.uses {
			if u.p == p {
				return f.record.get("thread").text()
			}
		}
	}
	return ""
}

// dartsSewn is the length of a piece's darts, each once along a leg for every
// time that it is there, in every cloth the piece is sewn in.
func (p *piece) dartsSewn() float64 {
	sum := 0.0
	for _, d := range p.darts {
		if d.dropped {
			continue
		}
		left, _, tip := p.dartCorners(d)
		leg := tip.sub(left).size()
		if d.point == nil {
			leg = math.Hypot(d.width/2, d.length)
		}
		sum += leg * p.occurs() * p.pliesSewn()
	}
	return sum
}

// gatheringSewn is the length of the rows that draw up edges of a piece, each along the
// edge as it is cut, for every time that it is there.
func (p *piece) gatheringSewn() float64 {
	sum := 0.0
	for _, d := range p.gathers {
		sum += d.rows * p.edge(d.edge).length * p.occurs() * p.pliesSewn()
	}
	return sum
}

func (t *thread) total(waste float64) float64 { return (t.needle + t.under) * (1 + waste/100) }

func (t *thread) reels(waste float64) float64 { return math.Ceil(t.total(waste)/t.reel - 1e-9) }

func (g *garment) waste() float64 {
	return numberOr(g.workroom.get("usual").get("thread-waste"), 15)
}

func (g *garment) threadFigures(out Figures) {
	for _, t := range g.threads() {
		if !t.used {
			continue
		}
		id := "thread." + slug(t.name) + "."
		if t.unknown {
			for _, f := range []string{"needle", "under", "total", "reels"} {
				out.unknown(id+f, "a stitch has no published ratio")
			}
			continue
		}
		out.put(id+"needle", t.needle, "m")
		out.put(id+"under", t.under, "m")
		out.put(id+"total", t.total(g.waste()), "m")
		out.put(id+"reels", t.reels(g.waste()), "")
		if mass, known := t.mass(); known {
			out.put(id+"mass", mass, "g")
		}
	}
}

func (t *thread) mass() (float64, bool) {
	m := t.record.get("weight")
	if !m.there() || !t.used || t.unknown {
		return 0, false
	}
	return (t.needle + t.under - t.basting) / t.reel * m.grams(), true
}

// sewnWith is the stitch of a pass: the one that the type names for it, or the
// record's own, or lockstitch. Where the type names a stitch for every pass,
// the record's own stands for the first of them. Basting stays what it is.
func (p pass) sewnWith(own string, kind seamType) string {
	free := false
	for _, other := range kind.passes {
		free = free || other.stitch == "" && !other.temporary
	}
	switch {
	case p.temporary && p.stitch == "":
		return "301"
	case p.temporary:
		return p.stitch
	case own != "" && (p.stitch == "" || !free && p.stitch == kind.passes[0].stitch):
		return own
	case p.stitch != "":
		return p.stitch
	}
	return "301"
}

// stitch is how much thread a stitch takes. Stitches by hand of which nothing
// is published take what hand stitches take where their type is not said.
func (g *garment) stitch(name string) stitch {
	st := g.tables.stitches[name]
	if st.hand && !st.known {
		return g.tables.stitches["200"]
	}
	return st
}
