package shape

import "github.com/peterstace/simplefeatures/geom"

// A limit is a line beyond which some strips are cut away: where
// dot(p − at, out) > 0. It concerns count segments from first on, or, when
// count is negative, everything.
type limit struct {
	at, out      Point
	first, count int
}

// everywhere stands for a part that only such limits concern that concern
// everything.
const everywhere = -1

// thin is half the width, in millimetres, below which a part is left out:
// unions with needles hundreds of millimetres long and a millionth wide
// are not reliable.
const thin = 1e-4

// parts are the strips beside the segments and the corners' ends, as
// convex polygons cut off at folds and, where they must be, at mirrored
// hems. They have the tops that the direct way gives them, so that both
// ways agree wherever it succeeds, and reach to the full length of their
// segments at corners where it does not.
func (b *border) parts() ([]geom.Geometry, tops) {
	t, limits := b.stripTops()
	var parts []geom.Geometry
	for k := range b.base {
		for _, strip := range uncrossed(b.base[k], t.from[k], t.to[k], b.base.at(k+1)) {
			parts = b.appendPart(parts, strip, limits, k)
		}
		tip := Ring{b.base[k], t.to[b.previous(k)], t.from[k]}
		parts = b.appendPart(parts, tip, limits, everywhere)
	}
	return parts, t
}

// uncrossed is a strip between the near side ad and the far side bc. Where
// a curve is tighter than its allowance ab and dc cross: the strip is then
// the triangles on either side of the crossing.
func uncrossed(a, b, c, d Point) []Ring {
	p, ok := crossAt(a, b, d, c)
	if !ok || nearer(b, c, joined) {
		return []Ring{{a, b, c, d}}
	}
	return []Ring{{a, p, d}, {p, c, b}, {p, b, c}} // one of the last two is inside out and left out
}

// stripTops are the far sides of the strips, and the lines at which the
// strips end short.
func (b *border) stripTops() (tops, []limit) {
	t := b.untrimmed()
	limits := b.folds()
	for k := range b.base { // joints of curves end on their normals, however tight the curve
		if c, j := b.turn(k), b.previous(k); b.of[j] == b.of[k] && c.sin < -straight {
			m := c.end1()
			if c.cos > 0.5 {
				m = c.meeting()
			}
			t.to[j], t.from[k] = m, m
		}
	}
	for k := range b.base {
		c, j := b.turn(k), b.previous(k)
		switch {
		case b.of[j] == b.of[k]:
		case c.sin < -straight && !b.onFold(j, k):
			b.trim(t, k, c) // where there is no room near by, full width
		case !b.trimmed(t, k):
			t.to[j], t.from[k] = c.end1(), c.end2()
		}
	}
	for k := range b.base {
		f := b.finish(k)
		if !f.mirrored {
			continue
		}
		c := b.turn(k)
		if l, short := b.mirrorLimit(t, f, k, c); short {
			limits = append(limits, l)
			t.to[b.previous(k)], t.from[k] = c.end1(), c.end2()
		}
	}
	b.untangle(t)
	return t, limits
}

// untangle gives tops that were trimmed until they run backward their full
// length at the corner again.
func (b *border) untangle(t tops) {
	for k, dir := range b.dir {
		if dot(t.to[k].Sub(t.from[k]), dir) >= -touch {
			continue
		}
		l := b.next(k)
		if begin := b.turn(k).end2(); b.of[b.previous(k)] != b.of[k] && dot(t.from[k].Sub(begin), dir) > 0 {
			t.from[k] = begin
		}
		if end := b.turn(l).end1(); b.of[l] != b.of[k] && dot(t.to[k].Sub(end), dir) < 0 {
			t.to[k] = end
		}
	}
}

// folds are the lines of the folds, which limit everything.
func (b *border) folds() []limit {
	var limits []limit
	for k, i := range b.of {
		if b.edges[i].Fold {
			limits = append(limits, limit{b.base[k], b.dir[k].right(), 0, -1})
		}
	}
	return limits
}

// mirrorLimit is the slanting end of a mirrored hem at the corner where
// segment k begins, and whether it takes off more than the hem's nearest
// segment has.
func (b *border) mirrorLimit(t tops, f cornerEnd, k int, c turn) (limit, bool) {
	way, j := unit(f.from.Sub(f.to)), b.previous(k)
	if b.corners[b.of[k]].rule > b.corners[b.of[j]].rule {
		l := limit{f.from, way.left(), k, b.stretch(k, c, b.on)}
		return l, dot(t.to[k].Sub(f.to), b.dir[k]) < 0
	}
	count := b.stretch(j, c, b.back)
	first := (j - count + 1 + len(b.base)) % len(b.base)
	return limit{f.to, way.left(), first, count}, dot(f.from.Sub(t.from[j]), b.dir[j]) < 0
}

// stretch counts the segments of the edge beside a corner, from segment k
// on in the way that step takes, as far as the corner's allowances reach.
func (b *border) stretch(k int, c turn, step func(k, x int) int) int {
	reach := 2 * mitreLimit * max(c.a1, c.a2)
	for x := 1; x < len(b.base); x++ {
		i := step(k, x)
		if i < 0 || distance(b.base[i], c.at) > reach && distance(b.base.at(i+1), c.at) > reach {
			return x
		}
	}
	return len(b.base)
}

// appendPart adds a convex part, cut off at the limits that concern its
// segment, unless nothing is left of it.
func (b *border) appendPart(parts []geom.Geometry, r Ring, limits []limit, k int) []geom.Geometry {
	for _, l := range limits {
		if l.count < 0 || k != everywhere && (k-l.first+len(b.base))%len(b.base) < l.count {
			r = l.clip(r)
		}
	}
	sound := r[:0:len(r)]
	for _, p := range r {
		p = snap(p)
		if len(sound) == 0 || p != sound[len(sound)-1] && p != sound[0] {
			sound = append(sound, p)
		}
	}
	if r = sound; r.simple() {
		return appendSound(parts, r)
	}
	for k := 1; k+1 < len(r); k++ { // hardly a strip at all
		parts = appendSound(parts, Ring{r[0], r[k], r[k+1]})
	}
	return parts
}

// appendSound adds a part unless it is a needle or turned inside out.
func appendSound(parts []geom.Geometry, r Ring) []geom.Geometry {
	if len(r) < 3 || !(r.Area() > thin*r.perimeter()) {
		return parts
	}
	return append(parts, polygon(r))
}

// clip cuts a convex ring off at the line.
func (l limit) clip(r Ring) Ring {
	kept := make(Ring, 0, len(r)+1)
	for k, p := range r {
		q := r.at(k + 1)
		here, there := dot(p.Sub(l.at), l.out), dot(q.Sub(l.at), l.out)
		if here <= 0 {
			kept = append(kept, p)
		}
		if here < 0 && there > 0 || here > 0 && there < 0 {
			kept = append(kept, lerp(p, q, here/(here-there)))
		}
	}
	return kept
}
