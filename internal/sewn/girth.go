package sewn

import (
	"slices"

	"hembook/internal/shape"
)

// A Girth is one way round, or across, at a level: from seam to seam over the
// closed pieces until it comes back to itself or ends.
type Girth struct {
	Level   string
	Layer   string
	Chords  []Chord
	Crosses []Crosses // from each chord to the next; where it is closed, from the last to the first too
	Closed  bool      // it comes back to itself
	Behind  bool      // it lies in what lies behind another part of its layer
	Ends    [2]End    // where it begins and ends, if it is not closed
	Length  float64
}

// A Chord is the part of a girth that lies on one copy.
type Chord struct {
	Copy   CopyID
	Edge   string  // the edge that lies at the level; "" where it runs across the piece
	Y      float64 // the height as drawn
	From   shape.Point
	To     shape.Point
	Darts  []float64 // what each dart that it crosses takes out of it
	Pleats []float64 // and each fold that is stitched there
	Taken  float64   // all that darts and pleats take out of it
	Arc    float64   // the angle of its arc, in radians, where it is one
	Length float64

	ends [2][]Place
}

// A Crosses is a join that a girth crosses.
type Crosses struct {
	Join JoinID
	Off  float64 // by how much the level of the next copy misses this one's, along the seam
	At   [2]Place
	Met  Place // where this one's meets the next copy
}

// A Place is a place along a side, counted against the clock on the closed side.
type Place struct {
	Side SideID
	At   float64
}

// An End is where a girth ends.
type End struct {
	Place  Place
	Join   JoinID // the join it ends at, whose other piece does not bear the level; −1 at an opening
	Beyond string // that piece
}

// carried is how far the ends of a level may lie apart at a seam and still be one
// line, mm (common practice, no source).
const carried = 25

// Crossed lists the joins that a girth crosses, each once, folds left out: what
// can be let out there is let out at them.
func (g *Girth) Crossed(s *Surface) []JoinID {
	var out []JoinID
	for _, c := range g.Crosses {
		if s.Joins[c.Join].Kind != Fold && !slices.Contains(out, c.Join) {
			out = append(out, c.Join)
		}
	}
	return out
}

// Walk walks a level over a layer. Of pieces that meet along the level only the
// shorter line counts. Girths that lie behind come last.
func (s *Surface) Walk(level, layer string) []Girth {
	var chords []Chord
	for id := range s.Copies {
		if s.Copies[id].Layer == layer {
			chords = append(chords, s.chords(CopyID(id), level)...)
		}
	}
	links := s.linked(chords)
	out := s.strung(level, layer, chords, links)
	behind := s.Behind()
	for i := range out {
		out[i].Behind = behind[out[i].Chords[0].Copy]
	}
	out = s.oneStorey(out)
	slices.SortStableFunc(out, func(a, b Girth) int {
		if a.Behind != b.Behind && a.Behind {
			return 1
		} else if a.Behind != b.Behind {
			return -1
		}
		return 0
	})
	return out
}

// Levels lists the levels that pieces of a layer bear, by name.
func (s *Surface) Levels(layer string) []string {
	var out []string
	add := func(name string) {
		if name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for i := range s.Plan.Pieces {
		p := &s.Plan.Pieces[i]
		if !slices.Contains(p.Layers, layer) {
			continue
		}
		for k := range p.Edges {
			add(p.Edges[k].Level)
		}
		for k := range p.Levels {
			add(p.Levels[k].Name)
		}
	}
	slices.Sort(out)
	return out
}
