package garment

import (
	"hembook/internal/meant"
	"hembook/internal/say"
)

// pair finds which marks of the two sides meet: those of one name, else those
// without a name in their order, else the ends of edges where both sides have
// as many. Notches that meet none are held against the ends of edges of the
// other side, where it has no notches and as many ends.
func (w *walker) pair(s *Seam, marks *[2][]waymark) [][2]waymark {
	out, left := w.namedPairs(s, marks)
	w.notchSlip(left)
	out = append(out, w.plainPairs(s, left)...)
	for k := 1; k < len(out); k++ { // in the order of the first side
		for j := k; j > 0 && out[j][0].at < out[j-1][0].at; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

// namedPairs pairs the notches of one name, the first with the first and so
// on; left are the marks of both sides that meet none by their name.
func (w *walker) namedPairs(s *Seam, marks *[2][]waymark) (out [][2]waymark, left [2][]waymark) {
	for i := range marks {
		for _, m := range marks[i] {
			own, other := named(marks[i], m), named(marks[1-i], m)
			switch {
			case len(other) == 0:
				left[i] = append(left[i], m)
			case len(own) != len(other) && i == 0 && m.nth == 0:
				w.faults.LookAgain(s.Record.At, say.Of("garment.mark-the-missing-ones-or-give-them"), say.Of("garment.its-edges-have-and-notches-called", s.Name, len(own), len(other), say.Quoted(m.name)))
			case len(own) == len(other) && i == 0:
				out = append(out, [2]waymark{m, other[m.nth]})
			}
		}
	}
	return out, left
}

// named are the notches of a side that bear the name of a notch.
func named(list []waymark, like waymark) (out []waymark) {
	if like.spec == nil || like.name == "" {
		return nil
	}
	for _, m := range list {
		if m.spec != nil && m.name == like.name {
			out = append(out, m)
		}
	}
	return out
}

// notchSlip warns of a notch that meets none by its name, where one of the other side
// does neither and is called nearly so.
func (w *walker) notchSlip(left [2][]waymark) {
	var lone [2][]waymark
	var names [2][]string
	for i := range left {
		for _, m := range left[i] {
			if m.spec != nil && m.name != "" {
				lone[i], names[i] = append(lone[i], m), append(names[i], m.name)
			}
		}
	}
	for i := range lone {
		for _, m := range lone[i] {
			near := meant.Nearest(m.name, names[1-i])
			if near == "" || i == 1 && meant.Nearest(near, names[1]) == m.name && len(near) <= len(m.name) {
				continue // of the two the shorter is the slip
			}
			if i == 0 && len(near) < len(m.name) {
				continue
			}
			w.faults.LookAgain(m.spec.Name.At, meant.Ask(near), say.Of("garment.the-notch-of-meets-none-of-that", say.Quoted(m.name), m.edge.ref)).Instead(m.name, near)
		}
	}
}

func (w *walker) plainPairs(s *Seam, left [2][]waymark) [][2]waymark {
	var notches, ends [2][]waymark
	for i := range left {
		for _, m := range left[i] {
			switch {
			case m.spec == nil:
				ends[i] = append(ends[i], m)
			case m.name == "":
				notches[i] = append(notches[i], m)
			}
		}
	}
	var out [][2]waymark
	if a, b := len(notches[0]), len(notches[1]); a == b {
		out = inOrder(out, notches[0], notches[1])
	} else if a > 0 && b > 0 {
		w.faults.LookAgain(s.Record.At, say.Of("garment.mark-the-missing-ones-or-give-those"), say.Of("garment.of-the-notches-without-a-name-has", s.Name, s.Sides[0].Length.Of, a, s.Sides[1].Length.Of, b))
	}
	if len(ends[0]) == len(ends[1]) {
		return inOrder(out, ends[0], ends[1])
	}
	return append(out, notchesAtEnds(left, ends)...)
}

func inOrder(out [][2]waymark, a, b []waymark) [][2]waymark {
	for k := range a {
		out = append(out, [2]waymark{a[k], b[k]})
	}
	return out
}

// notchesAtEnds holds the notches of one side, none of which meets a notch,
// against the ends of edges of the other.
func notchesAtEnds(left, ends [2][]waymark) [][2]waymark {
	var notches [2][]waymark
	for i := range left {
		for _, m := range left[i] {
			if m.spec != nil {
				notches[i] = append(notches[i], m)
			}
		}
	}
	for i := range notches {
		if len(notches[i]) > 0 && len(notches[1-i]) == 0 && len(notches[i]) == len(ends[1-i]) {
			sides := [2][]waymark{notches[0], notches[1]}
			sides[1-i] = ends[1-i]
			return inOrder(nil, sides[0], sides[1])
		}
	}
	return nil
}
