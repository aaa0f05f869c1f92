package sewn

import (
	"cmp"
	"math"
	"slices"
)

// A Sewing says how a seam is sewn when its turn comes.
type Sewing struct {
	Seam   int
	Turn   int      // of those given, from 0
	Round  bool     // in the round: a line of it comes back to itself already
	Around float64  // the shortest such line, mm; 0 where it is sewn flat
	Closes []Closed // what comes to be closed by it
	Early  []int    // seams that end in the middle of an edge of it and have a later turn: sewn over it they cannot be sewn to their ends
	Shut   bool     // all round it is closed already, so that nothing but the seam itself leads in
}

// A Closed is a line that comes back to itself once a seam is sewn: one that another
// seam sews later, or an opening of the garment.
type Closed struct {
	Loop
	Seam int // the one that sews it later; −1 for an opening
}

// InTurn says how each seam is sewn, given the seams of the plan turn by turn. Seams of
// one turn are taken as sewn one after another as given. What no turn has is never sewn.
func (s *Surface) InTurn(turns [][]int) []Sewing {
	return newOrdering(s, turns).sewings(turns)
}

func newOrdering(s *Surface, turns [][]int) *ordering {
	o := &ordering{s: s, turn: make([]int, len(s.Plan.Seams)), done: make([]bool, len(s.Plan.Seams))}
	for i := range o.turn {
		o.turn[i] = -1
	}
	for t, seams := range turns {
		for _, i := range seams {
			if o.turn[i] < 0 {
				o.turn[i] = t
			}
		}
	}
	o.joins = make([][]JoinID, len(s.Plan.Seams))
	for id := range s.Joins {
		if j := &s.Joins[id]; j.Seam >= 0 && j.Kind != Closing {
			o.joins[j.Seam] = append(o.joins[j.Seam], JoinID(id))
		}
	}
	o.divide()
	return o
}

// sewings says how each seam is sewn, once it is known what hangs together.
func (o *ordering) sewings(turns [][]int) (out []Sewing) {
	for t, seams := range turns {
		for _, i := range seams {
			if o.done[i] || o.turn[i] != t || len(o.joins[i]) == 0 {
				continue
			}
			w := Sewing{Seam: i, Turn: t, Shut: o.shut(i), Early: o.early(i)}
			p := o.partOf(i)
			before := p.lines
			w.Round, w.Around = o.round(i, before)
			o.done[i] = true
			p.lines = o.linesOf(p)
			w.Closes = o.closes(i, before, p.lines)
			out = append(out, w)
		}
	}
	return out
}

// FinishedRound reports whether a finish is worked in the round where the seams that
// done tells of are sewn: whether a line of it comes back to itself.
func (s *Surface) FinishedRound(finish string, done func(seam int) bool) bool {
	open := func(id JoinID) bool {
		j := &s.Joins[id]
		return j.Kind == Closing || j.Seam >= 0 && !done(j.Seam)
	}
	for _, layer := range s.Layers() {
		for _, l := range s.loops(layer, open) {
			if !slices.ContainsFunc(l.Spans, func(sp Span) bool { return s.FinishOf(sp.Side) != finish }) {
				return true
			}
		}
	}
	return false
}

// An ordering is a garment being sewn, seam by seam.
type ordering struct {
	s     *Surface
	turn  []int // by seam; −1 where none sews it
	done  []bool
	joins [][]JoinID // by seam, zips left out
	walk  walker
	hangs links       // which copies any joins put together
	parts []*partSewn // by the root of their copies
}

// A partSewn is what hangs together once all is sewn: no line leads out of it.
type partSewn struct {
	sides [][]SideID  // by layer
	lines []keyedLoop // its boundary as it is now
}

// A keyedLoop is a loop of a boundary, with what tells it apart from others.
type keyedLoop struct {
	Loop
	key []spanKey
}

// A spanKey tells a stretch that begins nowhere else, to a thousandth of a millimetre.
type spanKey struct {
	side SideID
	from int64
}

// open reports whether a join is not there yet; a zip is open throughout.
func (o *ordering) open(id JoinID) bool {
	j := &o.s.Joins[id]
	return j.Kind == Closing || j.Seam >= 0 && !o.done[j.Seam]
}

// divide finds what hangs together, all that one seam sews among it.
func (o *ordering) divide() {
	o.walk = walker{s: o.s, open: o.open}
	o.hangs, o.parts = newLinks(len(o.s.Copies)), make([]*partSewn, len(o.s.Copies))
	for i := range o.s.Joins {
		j := &o.s.Joins[i]
		own := int(o.s.Sides[j.A.Side].Copy)
		o.hangs.link(own, int(o.s.Sides[j.B.Side].Copy))
		if j.Seam >= 0 && len(o.joins[j.Seam]) > 0 {
			o.hangs.link(own, int(o.s.Sides[o.s.Joins[o.joins[j.Seam][0]].A.Side].Copy))
		}
	}
}

// partOf is what a seam that has joins is a part of.
func (o *ordering) partOf(seam int) *partSewn {
	root := o.hangs.root(int(o.s.Sides[o.s.Joins[o.joins[seam][0]].A.Side].Copy))
	if o.parts[root] == nil {
		p := new(partSewn)
		for _, layer := range o.s.Layers() {
			p.sides = append(p.sides, o.s.sidesIn(layer, func(c CopyID) bool { return o.hangs.root(int(c)) == root }))
		}
		p.lines = o.linesOf(p)
		o.parts[root] = p
	}
	return o.parts[root]
}

// linesOf is the boundary of a part as it is now, layer by layer.
func (o *ordering) linesOf(p *partSewn) (out []keyedLoop) {
	for _, sides := range p.sides {
		for _, l := range o.walk.loops(sides) {
			out = append(out, keyedLoop{l, keyOf(&l)})
		}
	}
	return out
}

// has reports whether a seam sews a stretch.
func (o *ordering) has(seam int, sp Span) bool {
	return slices.ContainsFunc(o.joins[seam], func(id JoinID) bool {
		j := &o.s.Joins[id]
		return inside(sp, j.A) || inside(sp, j.B)
	})
}

func inside(sp, of Span) bool {
	return sp.Side == of.Side && sp.From >= of.From-touch && sp.To <= of.To+touch
}

// sewsAll reports whether a seam sews all of a line.
func (o *ordering) sewsAll(seam int, l *Loop) bool {
	return len(o.joins[seam]) > 0 && !slices.ContainsFunc(l.Spans, func(sp Span) bool { return !o.sews(seam, sp) })
}

// sews reports whether a seam sews a stretch, in several joins perhaps.
func (o *ordering) sews(seam int, sp Span) bool {
	if o.has(seam, sp) {
		return true
	}
	covered := 0.0
	for _, id := range o.joins[seam] {
		for _, of := range [...]Span{o.s.Joins[id].A, o.s.Joins[id].B} {
			if of.Side == sp.Side {
				covered += max(min(of.To, sp.To)-max(of.From, sp.From), 0)
			}
		}
	}
	return covered >= sp.Length()-touch*10
}

// round reports whether a line that a seam sews comes back to itself, and how far round
// the shortest is.
func (o *ordering) round(seam int, lines []keyedLoop) (is bool, around float64) {
	for k := range lines {
		if l := &lines[k].Loop; o.sewsAll(seam, l) && (!is || l.Length < around) {
			is, around = true, l.Length
		}
	}
	return is, around
}

// closes are the lines that were not there before a seam was sewn and are whole now:
// all of one is sewn by one later seam, or nothing of it by any.
func (o *ordering) closes(seam int, before, after []keyedLoop) (out []Closed) {
	for k := range after {
		l := &after[k].Loop
		if slices.ContainsFunc(before, func(was keyedLoop) bool { return slices.Equal(was.key, after[k].key) }) {
			continue
		}
		by := o.laterSeam(l)
		switch {
		case by >= 0 && by != seam:
			out = append(out, Closed{*l, by})
		case !slices.ContainsFunc(l.Spans, o.everSewn):
			out = append(out, Closed{*l, -1})
		}
	}
	return out
}

// keyOf is the same for loops of the same stretches, wherever they begin.
func keyOf(l *Loop) []spanKey {
	key := make([]spanKey, len(l.Spans))
	for i, sp := range l.Spans {
		key[i] = spanKey{sp.Side, int64(math.Round(sp.From * 1000))}
	}
	slices.SortFunc(key, func(a, b spanKey) int { return cmp.Or(cmp.Compare(a.side, b.side), cmp.Compare(a.from, b.from)) })
	return key
}

// laterSeam is the seam not sewn yet that sews all of a line; −1 where none does.
func (o *ordering) laterSeam(l *Loop) int {
	for i := range o.s.Plan.Seams {
		if !o.done[i] && o.sewsAll(i, l) {
			return i
		}
	}
	return -1
}

// everSewn reports whether a seam that is not sewn yet joins some of a stretch.
func (o *ordering) everSewn(sp Span) bool {
	for _, id := range o.s.JoinsOf(sp.Side) {
		j := &o.s.Joins[id]
		if j.Seam < 0 || o.done[j.Seam] || j.Kind == Closing {
			continue
		}
		for _, of := range [...]Span{j.A, j.B} {
			if of.Side == sp.Side && min(of.To, sp.To)-max(of.From, sp.From) > touch {
				return true
			}
		}
	}
	return false
}

// early are the seams with a later turn that meet a seam in the middle of an edge of
// its other side.
func (o *ordering) early(seam int) (out []int) {
	for _, one := range o.joins[seam] {
		for _, two := range o.joins[seam] {
			a, b := &o.s.Joins[one], &o.s.Joins[two]
			for _, pair := range [...][4]Span{{a.A, a.B, b.A, b.B}, {a.B, a.A, b.B, b.A}} {
				// The two go on along one edge on the far side and change from side to side here.
				near, far, next, beyond := pair[0], pair[1], pair[2], pair[3]
				if far.Side != beyond.Side || near.Side == next.Side || far.From-beyond.To > touch || beyond.To-far.From > touch {
					continue
				}
				for _, by := range o.s.seamsAt(near) {
					if by != seam && o.turn[by] > o.turn[seam] && !slices.Contains(out, by) {
						out = append(out, by)
					}
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

// seamsAt are the seams of the side that follows where a stretch ends, if that is at a
// corner.
func (s *Surface) seamsAt(sp Span) (out []int) {
	if sp.To < s.Sides[sp.Side].Closed-touch {
		return nil
	}
	next := s.next(sp.Side)
	for _, t := range s.taken(next, nil) {
		if j := &s.Joins[t.join]; t.From <= touch && j.Kind == Sewn {
			out = append(out, j.Seam)
		}
	}
	return out
}
