package sewn

import (
	"math"
	"slices"
)

// openZips opens the seams that a zip is set in, for its length, from the end
// that lies on an opening: before the lines that are sewn over them are found.
func (b *builder) openZips() {
	for i := range b.s.Plan.Closures {
		c := &b.s.Plan.Closures[i]
		key, ok := b.find(c.Edge)
		if !ok || c.Length <= 0 {
			continue
		}
		for id := range b.s.Joins {
			j := &b.s.Joins[id]
			if j.Kind == Sewn && (b.isEdge(j.A.Side, key) || b.isEdge(j.B.Side, key)) && j.A.Length() > touch {
				b.open(i, JoinID(id), c.Length, b.opensAtStart(JoinID(id), c))
				break
			}
		}
	}
}

func (b *builder) isEdge(id SideID, k edgeKey) bool {
	s := &b.s.Sides[id]
	return b.s.Copies[s.Copy].Piece == k.piece && s.Index == k.side
}

// level is how much higher than the other the upper of two ends lies at least, mm.
const level = 10

// opensAtStart says which end of a join a zip begins at: the one that lies on an
// opening; of two such ends the upper one. Where neither is the upper one, or a zip may
// as well begin below, as at a wrist, it is in doubt.
func (b *builder) opensAtStart(id JoinID, c *Closure) bool {
	begin, end := b.onOpening(id, true), b.onOpening(id, false)
	if begin != end {
		return begin
	}
	j := &b.s.Joins[id]
	if before, after := b.neighbours(j, c); !c.Either && c.Above != "" && before != after {
		switch c.Above {
		case before:
			return true
		case after:
			return false
		}
	}
	rise := b.heightAt(j.A.Side, j.A.From) - b.heightAt(j.A.Side, j.A.To)
	if begin && (c.Either || math.Abs(rise) < level) && c.Length < j.A.Length()-touch &&
		b.doubt(doubt{WhichEnd, c.Name, []string{c.Edge.Piece}}) {
		return rise <= 0
	}
	return rise > 0
}

// neighbours are the edges beside the ends of a join, where its first stretch begins and
// where that ends, of the piece whose edge a closure lies along.
func (b *builder) neighbours(j *Join, c *Closure) (before, after string) {
	side := func(id SideID) (string, string) {
		return b.s.Sides[b.s.step(id, -1)].Edge, b.s.Sides[b.s.next(id)].Edge
	}
	if key, _ := b.find(c.Edge); !b.isEdge(j.A.Side, key) { // the two are sewn against each other
		after, before = side(j.B.Side)
		return before, after
	}
	return side(j.A.Side)
}

// open makes a closure of a length of a join, from where its first stretch
// begins or from where that ends.
func (b *builder) open(by int, id JoinID, length float64, begin bool) {
	j := &b.s.Joins[id]
	if length >= j.A.Length()-touch {
		j.Kind, j.By = Closing, by
		return
	}
	part := length / j.A.Length()
	rest, zip := *j, *j
	if begin {
		at, met := j.A.From+length, j.B.To-part*j.B.Length()
		zip.A.To, zip.B.From = at, met
		rest.A.From, rest.B.To = at, met
	} else {
		at, met := j.A.To-length, j.B.From+part*j.B.Length()
		zip.A.From, zip.B.To = at, met
		rest.A.To, rest.B.From = at, met
	}
	zip.Kind, zip.By = Closing, by
	*j = rest
	b.add(zip)
}

func (b *builder) heightAt(id SideID, at float64) float64 { return b.s.HeightAt(id, at) }

// HeightAt is the height of the outline, as drawn, at a place of its closed side.
func (s *Surface) HeightAt(id SideID, at float64) float64 {
	side := &s.Sides[id]
	c := &s.Copies[side.Copy]
	p, _, _ := s.Plan.Pieces[c.Piece].Outline.PointOn(side.Edge, s.shapes[c.Piece].sides[side.Index].drawnAt(s.along(id, at)))
	return p.Y
}

// onOpening reports whether a join ends on an opening where its first stretch
// begins (or ends): the corner is not shut all round by joins.
func (b *builder) onOpening(id JoinID, begin bool) bool {
	j := &b.s.Joins[id]
	// Round the corner at the end of A, or of B where A begins.
	span := j.A
	if begin {
		span = j.B
	}
	side, at := span.Side, span.To
	for range 4 * (len(b.s.Joins) + 4) {
		if at >= b.s.Sides[side].Closed-touch {
			side, at = b.s.next(side), 0
		}
		next := slices.IndexFunc(b.s.taken(side, nil), func(t stretch) bool { return t.From >= at-touch && t.From <= at+touch })
		if next < 0 {
			return true
		}
		t := b.s.taken(side, nil)[next]
		if t.join == id {
			return false
		}
		other := b.s.Joins[t.join].A
		if other == t.Span {
			other = b.s.Joins[t.join].B
		}
		side, at = other.Side, other.To
	}
	return false
}

// closures joins the edges that a zip or buttons close and no seam of the
// surface joins: right to left.
func (b *builder) closures() {
	for i := range b.s.Plan.Closures {
		c := &b.s.Plan.Closures[i]
		key, ok := b.find(c.Edge)
		if !ok {
			continue
		}
		for _, layer := range b.s.Plan.Pieces[key.piece].Layers[:min(1, len(b.s.Plan.Pieces[key.piece].Layers))] {
			list := b.sidesOf(key, layer)
			if on, ok := b.find(c.On); ok && on != key {
				b.closeOn(i, list, b.sidesOf(on, layer))
				continue
			}
			for k, one := range list {
				for _, two := range list[k+1:] {
					if b.s.free(one) && b.s.free(two) && b.facing(one, two) {
						b.close(i, one, two, c.Length)
					}
				}
			}
		}
		b.closeSlits(i, key)
	}
}

// closeOn closes sides on those of another edge: both ends of one piece, as of a cuff,
// else what lies on the same side of the body.
func (b *builder) closeOn(by int, list, on []SideID) {
	for _, same := range [...]bool{true, false} {
		for _, one := range list {
			for _, two := range on {
				x, y := b.s.Sides[one].Copy, b.s.Sides[two].Copy
				if x == y == same && (same || b.s.Copies[x].Hand == b.s.Copies[y].Hand) && b.s.free(one) && b.s.free(two) {
					b.close(by, one, two, b.s.Plan.Closures[by].Length)
				}
			}
		}
	}
}

// closeSlits lets a zip close what a seam leaves open of an edge that it lies along.
func (b *builder) closeSlits(by int, key edgeKey) {
	for id := range b.s.Joins {
		for _, pair := range b.s.openBeside(JoinID(id)) {
			if b.isEdge(pair[0], key) || b.isEdge(pair[1], key) {
				b.close(by, pair[0], pair[1], b.s.Plan.Closures[by].Length)
			}
		}
	}
}

// facing reports whether two sides of one edge can be closed on each other: their copies
// are a left and a right. What is its own mirror image and not yet laid either way is
// turned over for it.
func (b *builder) facing(one, two SideID) bool {
	x, y := &b.s.Copies[b.s.Sides[one].Copy], &b.s.Copies[b.s.Sides[two].Copy]
	switch {
	case x.Hand != y.Hand:
	case y.free:
		y.Hand = -y.Hand
	case x.free:
		x.Hand = -x.Hand
	default:
		return false
	}
	x.free, y.free = false, false
	return true
}

// close lays a closure along two free sides, from their upper end.
func (b *builder) close(by int, one, two SideID, length float64) {
	j := Join{A: b.s.whole(one), B: b.s.whole(two), Seam: -1, Kind: Closing, By: by}
	if length > 0 && length < j.A.Length()-touch {
		if b.heightAt(one, 0) > b.heightAt(one, j.A.To) {
			j.A.To, j.B.From = length, j.B.To-length
		} else {
			j.A.From, j.B.To = j.A.To-length, length
		}
	}
	b.add(j)
}

// carryZipsOn lets a zip that is longer than its edge go on over the corner
// into the seam that continues there.
func (b *builder) carryZipsOn() {
	for id := range b.s.Joins {
		j := b.s.Joins[id]
		if j.Kind != Closing {
			continue
		}
		c := &b.s.Plan.Closures[j.By]
		over := c.Length - b.closedBy(j.By)
		if c.Length <= 0 || over <= touch {
			continue
		}
		lower := b.heightAt(j.A.Side, 0) < b.heightAt(j.A.Side, j.A.To)
		if next, begin, ok := b.continued(JoinID(id), lower); ok {
			b.open(j.By, next, min(over, b.s.Joins[next].A.Length()), begin)
		}
	}
}

// closedBy is the length that a closure closes.
func (b *builder) closedBy(by int) float64 {
	sum := 0.0
	for i := range b.s.Joins {
		if j := &b.s.Joins[i]; j.Kind == Closing && j.By == by {
			sum += j.A.Length()
		}
	}
	return sum
}

// continued finds the seam of one edge to one edge that goes on where a closure
// ends at its lower end, and which end of it lies there.
func (b *builder) continued(id JoinID, atStart bool) (next JoinID, begin, ok bool) {
	j := &b.s.Joins[id]
	corner := b.corners()
	side, at := j.A.Side, j.A.To
	if atStart {
		at = j.A.From
	}
	here := corner.of(b.s, side, at)
	for k := range b.s.Joins {
		o := &b.s.Joins[k]
		if o.Kind != Sewn || len(b.s.Plan.Seams[o.Seam].Sides) != 2 || len(b.s.Plan.Seams[o.Seam].Sides[0])+len(b.s.Plan.Seams[o.Seam].Sides[1]) != 2 {
			continue
		}
		if o.A.Length() < b.s.Sides[o.A.Side].Closed-touch || b.s.Plan.Seams[o.Seam].Run {
			continue
		}
		if begins := corner.of(b.s, o.A.Side, o.A.From) == here; begins || corner.of(b.s, o.A.Side, o.A.To) == here {
			return JoinID(k), begins, true
		}
	}
	return 0, false, false
}

// vertices are the corners of all copies, those that joins lay on each other
// as one.
type vertices struct{ links }

// corners counts the corner at which a side begins by the side's number.
func (b *builder) corners() vertices {
	return b.cornersOf(func(j *Join) bool { return j.Kind != Caught })
}

// cornersOf is the same with the joins that count.
func (b *builder) cornersOf(counts func(*Join) bool) vertices {
	v := vertices{newLinks(len(b.s.Sides))}
	for i := range b.s.Joins {
		j := &b.s.Joins[i]
		if !counts(j) {
			continue
		}
		for _, p := range [...][2]int{{v.of(b.s, j.A.Side, j.A.From), v.of(b.s, j.B.Side, j.B.To)}, {v.of(b.s, j.A.Side, j.A.To), v.of(b.s, j.B.Side, j.B.From)}} {
			if p[0] >= 0 && p[1] >= 0 {
				v.link(p[0], p[1])
			}
		}
	}
	return v
}

// of is the corner at a place of a side; −1 where there is none.
func (v vertices) of(s *Surface, id SideID, at float64) int {
	switch {
	case at <= touch:
		return v.root(int(id))
	case at >= s.Sides[id].Closed-touch:
		return v.root(int(s.next(id)))
	}
	return -1
}
