package sewn

import (
	"cmp"
	"math"
	"slices"
)

// An endOf is one end of a chord.
type endOf struct{ chord, end int }

// A link is two ends of chords that meet at a join.
type link struct {
	one, two endOf
	crosses  Crosses
}

// linked says which ends of chords meet: the nearest first.
func (s *Surface) linked(chords []Chord) map[endOf]link {
	at := map[SideID][]endOf{}
	for c := range chords {
		for e, places := range chords[c].ends {
			for _, p := range places {
				at[p.Side] = append(at[p.Side], endOf{c, e})
			}
		}
	}
	var all []link
	for c := range chords {
		for e, places := range chords[c].ends {
			for _, p := range places {
				all = s.meetings(all, chords, at, endOf{c, e}, p)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b link) int {
		return cmp.Compare(math.Round(a.crosses.Off/touch), math.Round(b.crosses.Off/touch))
	})
	out := map[endOf]link{}
	for _, l := range all {
		_, one := out[l.one]
		_, two := out[l.two]
		if one || two {
			continue
		}
		out[l.one] = l
		back := l
		back.one, back.two = l.two, l.one
		back.crosses.At[0], back.crosses.At[1] = l.crosses.At[1], l.crosses.At[0]
		back.crosses.Met = s.meets(l.crosses.Join, l.crosses.At[1])
		out[l.two] = back
	}
	return out
}

// meets is the place that meets a place over a join.
func (s *Surface) meets(id JoinID, p Place) Place {
	side, at := s.Joins[id].across(p.Side, p.At)
	return Place{side, at}
}

// meetings adds the ends that one end of a chord may meet over a join.
func (s *Surface) meetings(all []link, chords []Chord, at map[SideID][]endOf, end endOf, p Place) []link {
	for _, t := range s.taken(p.Side, nil) {
		if p.At < t.From-touch || p.At > t.To+touch {
			continue
		}
		j := &s.Joins[t.join]
		other := j.A
		if j.A == t.Span {
			other = j.B
		}
		part := 0.5
		if t.Length() > 0 {
			part = min(max((p.At-t.From)/t.Length(), 0), 1)
		}
		met := other.To - part*other.Length()
		for _, o := range at[other.Side] {
			if o == end {
				continue
			}
			for _, q := range chords[o.chord].ends[o.end] {
				if off := math.Abs(q.At - met); q.Side == other.Side && off <= carried {
					all = append(all, link{end, o, Crosses{Join: t.join, Off: off, At: [2]Place{p, q}, Met: Place{other.Side, met}}})
				}
			}
		}
	}
	return all
}

// strung strings chords to girths, in the order of the copies.
func (s *Surface) strung(level, layer string, chords []Chord, links map[endOf]link) []Girth {
	done := make([]bool, len(chords))
	var out []Girth
	for c := range chords {
		if done[c] {
			continue
		}
		begin, closed := s.begin(c, links)
		g := Girth{Level: level, Layer: layer, Closed: closed}
		at := begin
		for {
			done[at.chord] = true
			g.Chords = append(g.Chords, chords[at.chord])
			g.Length += chords[at.chord].Length
			leave := endOf{at.chord, 1 - at.end}
			l, ok := links[leave]
			if !ok {
				g.Ends = [2]End{s.endOf(chords, begin), s.endOf(chords, leave)}
				break
			}
			g.Crosses = append(g.Crosses, l.crosses)
			if at = l.two; at == begin || done[at.chord] {
				break
			}
		}
		out = append(out, g)
	}
	return out
}

// begin is the end of a chord that a girth begins at: of one that ends, an end
// of it; of one that comes back, the chord looked at.
func (s *Surface) begin(c int, links map[endOf]link) (endOf, bool) {
	at := endOf{c, 0}
	for range len(links) + 1 {
		l, ok := links[at]
		if !ok {
			return at, false
		}
		at = endOf{l.two.chord, 1 - l.two.end}
		if at.chord == c {
			return endOf{c, 0}, true
		}
	}
	return endOf{c, 0}, true
}

func (s *Surface) endOf(chords []Chord, e endOf) End {
	places := chords[e.chord].ends[e.end]
	end := End{Place: places[0], Join: -1}
	for _, p := range places {
		for _, t := range s.taken(p.Side, nil) {
			if p.At < t.From-touch || p.At > t.To+touch || s.Joins[t.join].Kind == Fold {
				continue
			}
			j := &s.Joins[t.join]
			other := j.A
			if j.A == t.Span {
				other = j.B
			}
			end.Join, end.Beyond, end.Place = t.join, s.Copies[s.Sides[other.Side].Copy].Name, p
		}
	}
	return end
}
