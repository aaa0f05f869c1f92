package sewn

import (
	"math"
	"slices"
)

// Joints of two lines that lie no farther from each other than this are one, mm;
// where both lines have equally many, each may be off by more.
const (
	jointsOne  = 6
	jointsPair = 15
)

// layChain joins two lines part by part: both are cut wherever one of them has
// a joint, and stretched between joints that are one.
func (b *builder) layChain(r *run, m meeting, overlap float64) {
	one, two := newWay(m.one, false), newWay(m.two, true)
	one.total = max(one.total-overlap, 0)
	if one.total <= touch || two.total <= touch {
		return
	}
	cuts := cutsOf(&one, &two)
	for k := 1; k < len(cuts); k++ {
		from, to := cuts[k-1], cuts[k]
		if to[0]-from[0] <= touch || to[1]-from[1] <= touch {
			continue
		}
		b.add(Join{A: one.span(from[0], to[0]), B: two.span(from[1], to[1]), Seam: r.seam, Kind: r.kind, By: -1})
	}
}

// A way is one of two lines that are joined, walked from where both begin.
type way struct {
	parts     []Span
	begins    []float64
	total     float64
	backwards bool
}

func newWay(parts []Span, backwards bool) way {
	w := way{parts: parts, backwards: backwards}
	for _, p := range parts {
		w.begins = append(w.begins, w.total)
		w.total += p.Length()
	}
	return w
}

// span is the stretch of a side between two places that lie in one part.
func (w *way) span(from, to float64) Span {
	k := len(w.begins) - 1
	for k > 0 && w.begins[k] > (from+to)/2 {
		k--
	}
	p, at := w.parts[k], w.begins[k]
	from, to = max(from-at, 0), min(to-at, p.Length())
	if w.backwards {
		return Span{p.Side, p.To - to, p.To - from}
	}
	return Span{p.Side, p.From + from, p.From + to}
}

// joints are the places between its parts.
func (w *way) joints() []float64 {
	var out []float64
	for _, at := range w.begins[1:] {
		if at > touch && at < w.total-touch {
			out = append(out, at)
		}
	}
	return out
}

// cutsOf are the places at which both lines are cut, in pairs that meet.
func cutsOf(one, two *way) [][2]float64 {
	a, c := one.joints(), two.joints()
	scale := two.total / one.total
	anchors := [][2]float64{{0, 0}}
	paired := len(a) == len(c)
	for k := range a {
		paired = paired && math.Abs(a[k]*scale-c[k]) <= jointsPair
	}
	met := [2][]bool{make([]bool, len(a)), make([]bool, len(c))}
	for i := range a {
		for k := range c {
			if met[1][k] || paired && i != k || !paired && math.Abs(a[i]*scale-c[k]) > jointsOne {
				continue
			}
			if last := anchors[len(anchors)-1]; a[i] > last[0] && c[k] > last[1] {
				anchors = append(anchors, [2]float64{a[i], c[k]})
				met[0][i], met[1][k] = true, true
				break
			}
		}
	}
	anchors = append(anchors, [2]float64{one.total, two.total})
	cuts := slices.Clone(anchors)
	for i := range a {
		if !met[0][i] {
			cuts = append(cuts, between(anchors, a[i], 0))
		}
	}
	for k := range c {
		if !met[1][k] {
			cuts = append(cuts, between(anchors, c[k], 1))
		}
	}
	slices.SortFunc(cuts, func(x, y [2]float64) int {
		switch {
		case x[0] < y[0]:
			return -1
		case x[0] > y[0]:
			return 1
		}
		return 0
	})
	return cuts
}

// between is a place of one line (0) or the other (1) with the one it meets, in
// proportion between anchors.
func between(anchors [][2]float64, at float64, which int) [2]float64 {
	for k := 1; k < len(anchors); k++ {
		from, to := anchors[k-1], anchors[k]
		if at <= to[which] {
			part := (at - from[which]) / (to[which] - from[which])
			out := [2]float64{}
			out[which] = at
			out[1-which] = from[1-which] + part*(to[1-which]-from[1-which])
			return out
		}
	}
	return anchors[len(anchors)-1]
}
