package sewn

import (
	"math"
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
	Taken  float64 // what darts take out of it
	Length float64

	ends [2][]place
}

// A Crosses is a join that a girth crosses.
type Crosses struct {
	Join JoinID
	Off  float64 // by how much the level of the next copy misses this one's, along the seam
	At   [2]Place
}

// A Place is a place along a side, counted against the clock on the closed side.
type Place struct {
	Side SideID
	At   float64
}

type place = Place

// An End is where a girth ends.
type End struct {
	Place  Place
	Join   JoinID // the join it ends at, whose other piece does not bear the level; −1 at an opening
	Beyond string // that piece
}

// atCorner is how near a level may come to a corner of a piece before it
// belongs to the corner, mm; carried is how far the ends of a level may lie
// apart at a seam and still be one line (common practice, no source).
const (
	atCorner = 2
	carried  = 25
)

// Crossed lists the joins that a girth crosses, each once, folds left out.
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
	out = s.oneStorey(out)
	behind := map[CopyID]bool{}
	for _, c := range s.Components() {
		for _, id := range c.Copies {
			behind[id] = c.Behind
		}
	}
	for i := range out {
		out[i].Behind = behind[out[i].Chords[0].Copy]
	}
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

// chords are a copy's parts of a level.
func (s *Surface) chords(id CopyID, level string) []Chord {
	c := &s.Copies[id]
	p := &s.Plan.Pieces[c.Piece]
	var out []Chord
	for i := range p.Edges {
		if p.Edges[i].Level != level {
			continue
		}
		for _, side := range c.Sides {
			if s.Sides[side].Edge == p.Edges[i].Name && !s.Sides[side].Fold {
				out = append(out, s.alongEdge(id, side))
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	for i := range p.Levels {
		switch {
		case p.Levels[i].Name != level:
		case p.Arc > 0:
			out = append(out, s.arc(id, p, p.Levels[i].Y)...)
		default:
			out = append(out, s.acrossAt(id, p, p.Levels[i].Y)...)
		}
	}
	return out
}

// alongEdge is a level that lies along an edge: all of it, from corner to
// corner.
func (s *Surface) alongEdge(id CopyID, side SideID) Chord {
	e := &s.Sides[side]
	ch := Chord{Copy: id, Edge: e.Edge, Length: e.Closed, Taken: e.Length - e.Closed}
	o := &s.Plan.Pieces[s.Copies[id].Piece].Outline
	ch.From, _, _ = o.PointOn(e.Edge, 0)
	ch.To, _, _ = o.PointOn(e.Edge, e.Length)
	ch.Y = (ch.From.Y + ch.To.Y) / 2
	before, after := s.step(side, -1), s.step(side, 1)
	ch.ends = [2][]place{{{before, s.Sides[before].Closed}}, {{after, 0}}}
	if s.Copies[id].Hand < 0 {
		ch.ends[0], ch.ends[1] = ch.ends[1], ch.ends[0]
	}
	return ch
}

// acrossAt are the stretches of a level across a piece.
func (s *Surface) acrossAt(id CopyID, p *Piece, y float64) []Chord {
	points := p.Outline.LevelPoints(y)
	var out []Chord
	for k := 0; k+1 < len(points); k += 2 {
		ch := Chord{Copy: id, Y: y}
		var corner [2]bool
		ch.From, ch.ends[0], corner[0] = s.endAt(id, p, points[k], y)
		ch.To, ch.ends[1], corner[1] = s.endAt(id, p, points[k+1], y)
		switch {
		case corner[0] && !corner[1]:
			ch.Y = ch.From.Y
			ch.To, ch.ends[1] = s.endBeside(id, p, points[k+1], ch.Y)
		case corner[1] && !corner[0]:
			ch.Y = ch.To.Y
			ch.From, ch.ends[0] = s.endBeside(id, p, points[k], ch.Y)
		}
		ch.Length = math.Hypot(ch.To.X-ch.From.X, ch.To.Y-ch.From.Y)
		for i := range p.Darts {
			ch.Taken += p.Darts[i].takes(ch.Y, ch.From.X, ch.To.X)
		}
		ch.Length = max(ch.Length-ch.Taken, 0)
		out = append(out, ch)
	}
	return out
}

// takes is what a dart takes out of a level between two places: the gap between
// its legs where the level crosses both. A level that crosses one leg and runs
// out through the mouth goes along the axis of the folded dart and loses
// nothing.
func (d *Dart) takes(y, from, to float64) float64 {
	a, ok1 := onLine(d.Begin, d.Point, y)
	b, ok2 := onLine(d.End, d.Point, y)
	if !ok1 || !ok2 || min(a, b) < from-touch || max(a, b) > to+touch {
		return 0
	}
	return math.Abs(a - b)
}

// onLine is where a straight line from a to b crosses a level.
func onLine(a, b shape.Point, y float64) (x float64, crosses bool) {
	if (a.Y <= y) == (b.Y <= y) {
		return 0, false
	}
	return a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X), true
}

// endAt is where a level ends on a copy: the point, the places along its sides
// (two at a corner), and whether it is a corner.
func (s *Surface) endAt(id CopyID, p *Piece, at shape.LevelPoint, y float64) (shape.Point, []place, bool) {
	side, along := s.sideWith(id, p, at.Edge, at.Along)
	e := &s.Sides[side]
	start, _, _ := p.Outline.PointOn(e.Edge, 0)
	end, _, _ := p.Outline.PointOn(e.Edge, e.Length)
	nearStart, nearEnd := math.Abs(start.Y-y) <= atCorner, math.Abs(end.Y-y) <= atCorner
	if nearStart && nearEnd {
		nearStart, nearEnd = along <= e.Length/2, along > e.Length/2
	}
	hand := int(s.Copies[id].Hand)
	switch {
	case nearStart:
		return start, s.cornerPlaces(s.step(side, -hand), side), true
	case nearEnd:
		return end, s.cornerPlaces(side, s.step(side, hand)), true
	}
	return shape.Point{X: at.X, Y: y}, []place{{side, s.along(side, s.closedAt(side, along))}}, false
}

// endBeside is where a level that was moved to the corner at its other end ends
// now: the nearest crossing on the edge that it ended on.
func (s *Surface) endBeside(id CopyID, p *Piece, was shape.LevelPoint, y float64) (shape.Point, []place) {
	best := was
	least := math.Inf(1)
	for _, at := range p.Outline.LevelPoints(y) {
		if off := math.Abs(at.X - was.X); at.Edge == was.Edge && off < least {
			best, least = at, off
		}
	}
	side, along := s.sideWith(id, p, best.Edge, best.Along)
	return shape.Point{X: best.X, Y: y}, []place{{side, s.along(side, s.closedAt(side, along))}}
}

// cornerPlaces are the places of the corner between two sides, as drawn one
// after the other.
func (s *Surface) cornerPlaces(before, after SideID) []place {
	return []place{{before, s.along(before, s.Sides[before].Closed)}, {after, s.along(after, 0)}}
}

func (s *Surface) closedAt(id SideID, along float64) float64 {
	return s.shapes[s.Copies[s.Sides[id].Copy].Piece].sides[s.Sides[id].Place].closedAt(along)
}

// sideWith is the side of a copy that has a part of the outline, and how far
// along it a place on that part lies.
func (s *Surface) sideWith(id CopyID, p *Piece, part int, along float64) (SideID, float64) {
	sides := s.shapes[s.Copies[id].Piece].sides
	n := len(p.Outline.Edges)
	for k := range sides {
		if at := (part - sides[k].first + n) % n; at < sides[k].count {
			return s.Copies[id].Sides[k], sides[k].before[at] + along
		}
	}
	return s.Copies[id].Sides[0], along
}

// arc is a level of a panel of a ring about the origin: the arc through its
// middle at that height.
func (s *Surface) arc(id CopyID, p *Piece, y float64) []Chord {
	radius := math.Abs(y)
	ch := Chord{Copy: id, Y: y, Length: radius * p.Arc}
	n := 0
	for _, side := range s.Copies[id].Sides {
		e := &s.Sides[side]
		a, _, _ := p.Outline.PointOn(e.Edge, 0)
		b, _, _ := p.Outline.PointOn(e.Edge, e.Length)
		from, to := math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y)
		if math.Abs(from-to) < 1 || radius < min(from, to)-touch || radius > max(from, to)+touch || n > 1 {
			continue
		}
		ch.ends[n] = []place{{side, s.along(side, s.closedAt(side, math.Abs(radius-from)))}}
		n++
	}
	if n < 2 {
		return nil
	}
	return []Chord{ch}
}
