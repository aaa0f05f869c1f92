package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// Parts divides a net into nets of at most so many copies: what is sewn together
// stays together as far as it can, both halves of a piece cut on the fold always.
// A net that is small enough is its own only part.
func (n *Net) Parts(s *Surface, most int) []*Net {
	if len(n.Laid) <= most {
		return []*Net{n}
	}
	var out []*Net
	var part [][]Laid
	count := 0
	end := func() {
		if count > 0 {
			out = append(out, n.part(s, part))
		}
		part, count = nil, 0
	}
	for _, c := range n.clusters(s, most) {
		if count+len(c) > most {
			end()
		}
		part, count = append(part, c), count+len(c)
	}
	end()
	return out
}

// Of is the part of a net that some pieces make, each group of it as it lies; what joins
// them to other pieces is not shown.
func (n *Net) Of(s *Surface, pieces []string) *Net {
	var part [][]Laid
	for g := Body; g < groups; g++ {
		var list []Laid
		for i := range n.Laid {
			if l := n.Laid[i]; l.Group == g && slices.Contains(pieces, s.Copies[l.Copy].Name) {
				list = append(list, l)
			}
		}
		if len(list) > 0 {
			part = append(part, list)
		}
	}
	out := n.part(s, part)
	out.Meetings = slices.DeleteFunc(out.Meetings, func(m Meeting) bool { return !m.Here[0] || !m.Here[1] })
	return out
}

// clusters are the copies of a net as they hang together, in clusters of at most
// so many, the body first.
func (n *Net) clusters(s *Surface, most int) [][]Laid {
	folded, sewn := n.neighbours(s)
	seen := map[CopyID]bool{}
	var out [][]Laid
	for g := Body; g < groups; g++ {
		for i := range n.Laid {
			if n.Laid[i].Group != g || seen[n.Laid[i].Copy] {
				continue
			}
			var cluster []Laid
			for queue := []CopyID{n.Laid[i].Copy}; len(queue) > 0; queue = queue[1:] {
				unit := append([]CopyID{queue[0]}, folded[queue[0]]...)
				if seen[queue[0]] || len(cluster) > 0 && len(cluster)+len(unit) > most {
					continue
				}
				for _, id := range unit {
					seen[id] = true
					cluster = append(cluster, *n.of(id))
					for _, to := range sewn[id] {
						if !seen[to] && n.of(to).Group == g {
							queue = append(queue, to)
						}
					}
				}
			}
			out = append(out, cluster)
		}
	}
	return out
}

// neighbours are the copies of a net that each one is folded to and sewn to.
func (n *Net) neighbours(s *Surface) (folded, sewn map[CopyID][]CopyID) {
	folded, sewn = map[CopyID][]CopyID{}, map[CopyID][]CopyID{}
	for i := range s.Joins {
		j := &s.Joins[i]
		a, b := s.Sides[j.A.Side].Copy, s.Sides[j.B.Side].Copy
		if a == b || n.of(a) == nil || n.of(b) == nil {
			continue
		}
		to := sewn
		if j.Kind == Fold {
			to = folded
		}
		to[a], to[b] = append(to[a], b), append(to[b], a)
	}
	return folded, sewn
}

// part is a net of some clusters of a net, laid in rows, each group in rows of
// its own.
func (n *Net) part(s *Surface, clusters [][]Laid) *Net {
	out := &Net{Layer: n.Layer, Gap: n.Gap, drawn: n.drawn}
	least, area := 0.0, 0.0
	for _, c := range clusters {
		low, high := laidBounds(c)
		least = max(least, high.X-low.X)
		area += float64((high.X - low.X + n.Gap) * (high.Y - low.Y + n.Gap))
	}
	var widths []float64 // the first of the best is taken: paper is about as wide as it is high
	for _, times := range [...]float64{1, 1.25, 1.5, 2} {
		widths = append(widths, max(least, float64(times*math.Sqrt(area))))
	}
	var places []shape.Point
	var size shape.Point
	for _, w := range widths {
		if at, all := n.rows(clusters, w); places == nil || max(all.X, all.Y) < max(size.X, size.Y) {
			places, size = at, all
		}
	}
	for i, c := range clusters {
		low, high := laidBounds(c)
		by := shape.Point{X: places[i].X - low.X, Y: places[i].Y - high.Y}
		for k := range c {
			c[k].Shift = c[k].Shift.Add(by)
			out.Laid = append(out.Laid, c[k])
		}
	}
	out.High.X, out.Low.Y = size.X, -size.Y
	slices.SortFunc(out.Laid, func(a, b Laid) int { return int(a.Copy) - int(b.Copy) })
	out.show(s, n)
	return out
}

// rows are where the upper left corners of clusters lie in rows of at most a width, each group
// in rows of its own, and how wide and high all of them are.
func (n *Net) rows(clusters [][]Laid, wide float64) (places []shape.Point, size shape.Point) {
	x, y, floor := 0.0, 0.0, 0.0
	for i, c := range clusters {
		low, high := laidBounds(c)
		switch fresh := i > 0 && c[0].Group != clusters[i-1][0].Group; {
		case fresh:
			x, y = 0, floor-blockGaps*n.Gap
		case x > 0 && x+high.X-low.X > wide:
			x, y = 0, floor-2*n.Gap
		}
		places = append(places, shape.Point{X: x, Y: y})
		size.X, floor = max(size.X, x+high.X-low.X), min(floor, y+low.Y-high.Y)
		x += high.X - low.X + 2*n.Gap
	}
	size.Y = -floor
	return places, size
}

// show lists what of the joins and openings of a whole net its part shows.
func (n *Net) show(s *Surface, whole *Net) {
	for _, m := range whole.Meetings {
		j := &s.Joins[m.Join]
		m.Here = [2]bool{n.has(s, j.A), n.has(s, j.B)}
		if !m.Here[0] && !m.Here[1] {
			continue
		}
		m.Far = m.Far || !m.Here[0] || !m.Here[1]
		n.Meetings = append(n.Meetings, m)
	}
	for _, l := range whole.Openings {
		l.Spans = slices.DeleteFunc(slices.Clone(l.Spans), func(sp Span) bool { return !n.has(s, sp) })
		if len(l.Spans) > 0 {
			n.Openings = append(n.Openings, l)
		}
	}
}

// laidBounds are the corners round copies as they lie in the net they are of.
func laidBounds(list []Laid) (low, high shape.Point) {
	low, high = list[0].ring.low, list[0].ring.high
	for i := range list {
		a, z := list[i].ring.low, list[i].ring.high
		low.X, low.Y = min(low.X, a.X), min(low.Y, a.Y)
		high.X, high.Y = max(high.X, z.X), max(high.Y, z.Y)
	}
	return low, high
}
