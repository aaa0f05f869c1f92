package sewn

import (
	"fmt"
	"slices"
	"strings"
)

// Once is the net with one of each thing that is made several times over, as of six aprons
// in two sizes one of either: what hangs together in the whole garment, of the same
// pieces with the same hands, is laid once. A left and a right are not alike. Where nothing of several pieces is
// made twice it is the net itself; else what no seam joins is laid once too.
func (n *Net) Once(s *Surface) *Net {
	things, alike := s.things(), map[string]int{}
	kept, left := map[CopyID]bool{}, false
	for _, thing := range things {
		key := s.madeOf(thing)
		if alike[key]++; alike[key] > 1 && s.severalOf(thing) {
			left = true
			continue
		}
		for _, id := range thing {
			kept[id] = true
		}
	}
	if !left {
		return n
	}
	seen := map[string]bool{}
	for _, thing := range things {
		if key := s.madeOf(thing); !s.severalOf(thing) && seen[key] {
			for _, id := range thing {
				delete(kept, id)
			}
		} else {
			seen[key] = true
		}
	}
	whole := &Net{Layer: n.Layer, Gap: n.Gap, drawn: n.drawn, Meetings: n.Meetings, Openings: n.Openings}
	for i := range n.Laid {
		if kept[n.Laid[i].Copy] {
			whole.Laid = append(whole.Laid, n.Laid[i])
		}
	}
	if len(whole.Laid) == len(n.Laid) {
		return n
	}
	out := whole.part(s, whole.clusters(s, len(whole.Laid)))
	out.named(s)
	return out
}

// named letters the joins of each seam anew, from a.
func (n *Net) named(s *Surface) {
	times := map[int]int{}
	for i := range n.Meetings {
		if n.Meetings[i].Pair != "" {
			times[s.Joins[n.Meetings[i].Join].Seam]++
		}
	}
	at := map[int]int{}
	for i := range n.Meetings {
		m := &n.Meetings[i]
		seam := s.Joins[m.Join].Seam
		switch {
		case m.Pair == "":
		case times[seam] == 1:
			m.Pair = ""
		default:
			m.Pair = pairName(at[seam])
			at[seam]++
		}
	}
}

// things are the copies of all layers as seams and folds join them, each thing and the
// things in the order of their copies.
func (s *Surface) things() [][]CopyID {
	to := make([]int, len(s.Copies))
	for i := range to {
		to[i] = i
	}
	var first func(i int) int
	first = func(i int) int {
		if to[i] != i {
			to[i] = first(to[i])
		}
		return to[i]
	}
	for i := range s.Joins {
		a, b := first(int(s.Sides[s.Joins[i].A.Side].Copy)), first(int(s.Sides[s.Joins[i].B.Side].Copy))
		to[max(a, b)] = min(a, b)
	}
	var out [][]CopyID
	at := map[int]int{}
	for i := range s.Copies {
		k, ok := at[first(i)]
		if !ok {
			k = len(out)
			at[first(i)], out = k, append(out, nil)
		}
		out[k] = append(out[k], CopyID(i))
	}
	return out
}

// madeOf names the pieces of a thing with their hands: things of one name are alike.
func (s *Surface) madeOf(thing []CopyID) string {
	var out []string
	for _, id := range thing {
		out = append(out, fmt.Sprint(s.Copies[id].Piece, " ", s.Copies[id].Layer, " ", s.Copies[id].Hand))
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}

// severalOf reports whether a thing is of more than one piece.
func (s *Surface) severalOf(thing []CopyID) bool {
	return slices.ContainsFunc(thing, func(id CopyID) bool { return s.Copies[id].Piece != s.Copies[thing[0]].Piece })
}
