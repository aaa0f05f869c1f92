package garment

import (
	"hembook/internal/say"
)

// wholeRun lays the edges of a side end to end as often as each lies in one of
// the runs that are sewn: copies of one edge side by side, or a run about its
// middle. Where the record does not tell their order, why says so.
func wholeRun(list []walked, runs int) (out []walked, why string) {
	each := make([]int, len(list))
	equal, turned := true, false
	for i, e := range list {
		each[i] = e.edge.Times / runs
		equal = equal && each[i] == each[0]
		turned = turned || each[i] > 1 && (e.edge.piece.OnFold || e.edge.piece.Mirrored)
		if runs > 1 && each[i] > 1 && e.edge.piece.Mirrored {
			return nil, say.Of("garment.nothing-tells-which-way-round-the-of", each[i], e.edge.ref, runs)
		}
	}
	switch {
	case equal && !turned:
		return endToEnd(list, each[0]), ""
	case equal && each[0]%2 == 0:
		if first, last := list[0].opens(false), list[len(list)-1].opens(true); first != last {
			return endToEnd(aboutMiddle(list, first, false), each[0]/2), ""
		}
	case len(list) > 1 && each[0] == 1 && allTwo(each[1:]):
		return aboutMiddle(list, true, true), ""
	case len(list) > 1 && each[len(each)-1] == 1 && allTwo(each[:len(each)-1]):
		return aboutMiddle(list, false, true), ""
	}
	return nil, say.Of("garment.nothing-says-how-follow-each-other", timesOf(list, each))
}

func allTwo(each []int) bool {
	for _, n := range each {
		if n != 2 {
			return false
		}
	}
	return true
}

// timesOf lists edges with how often each lies in the run.
func timesOf(list []walked, each []int) string {
	out := ""
	for i, e := range list {
		switch {
		case i > 0 && i == len(list)-1:
			out += say.Of("garment.and-5")
		case i > 0:
			out += ", "
		}
		out += e.edge.ref + " (" + times(each[i]) + ")"
	}
	if len(list) == 1 {
		return say.Of("garment.the-copies-of", out)
	}
	return out
}

// opens reports whether a walked edge begins (or ends) at the middle of its
// piece or garment: at a fold, or at an edge that is sewn to its own mirror
// image.
func (e walked) opens(atEnd bool) bool {
	step := -1
	if e.against != atEnd {
		step = 1
	}
	beside := e.edge.beside(step)
	if beside.Fold {
		return e.edge.piece.OnFold
	}
	s := beside.seam
	return e.edge.piece.Mirrored && s != nil && !s.broken && len(s.Sides[0].Edges) == 1 && len(s.Sides[1].Edges) == 1 &&
		s.Sides[0].Edges[0].Edge == s.Sides[1].Edges[0].Edge
}

// aboutMiddle lays a run on both sides of its middle, which is where it begins
// (first) or where it ends; single says that the edge there lies across it once.
func aboutMiddle(list []walked, first, single bool) []walked {
	var back []walked
	for i := len(list) - 1; i >= 0; i-- {
		e := list[i]
		e.against = !e.against
		back = append(back, e)
	}
	var out []walked
	switch {
	case first && single:
		out = append(back[:len(back)-1], list...)
	case first:
		out = append(back, list...)
	case single:
		out = append(append(out, list...), back[1:]...)
	default:
		out = append(append(out, list...), back...)
	}
	return endToEnd(out, 1)
}

// endToEnd lays edges so many times one after another, from nought on.
func endToEnd(list []walked, n int) []walked {
	out := make([]walked, 0, len(list)*n)
	at := 0.0
	for range n {
		for _, e := range list {
			e.begins = at
			at += e.edge.sewn
			out = append(out, e)
		}
	}
	return out
}

// notWalked tells why a seam is not walked from notch to notch, where there is
// something to walk.
func (w *walker) notWalked(s *Seam, why string) {
	if why == toldElsewhere {
		return
	}
	marked := [2]bool{}
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			for k := range u.Edge.piece.form.notches {
				marked[i] = marked[i] || u.Edge.piece.form.is(u.Edge, u.Edge.piece.form.notches[k].Edge.V)
			}
		}
	}
	if marked[0] && marked[1] || len(s.Record.Stretches) > 0 {
		w.faults.LookAgain(s.Record.At, say.Of("garment.name-the-edge-that-lies-across-the"),
			say.Of("garment.not-compared-from-notch-to-notch", s.Name, why))
	}
}
