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
	Darts  []float64 // what each dart that it crosses takes out of it
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

// atCorner is how near a level may come to a corner of a piece before it
// belongs to the corner, mm; carried is how far the ends of a level may lie
// apart at a seam and still be one line (common practice, no source).
const (
	atCorner = 2
	carried  = 25
)

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
	out = s.oneStorey(out)
	behind := s.Behind()
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

// Across lists the parts of a level on one copy of a piece: the half as drawn of
// one cut on the fold.
func (s *Surface) Across(piece, level string) []Chord {
	for id := range s.Copies {
		if s.Copies[id].Name == piece {
			return s.chords(CopyID(id), level)
		}
	}
	return nil
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
			out = append(out, s.acrossAt(id, p, s.heightOf(id, &p.Levels[i]), p.Levels[i].Corners)...)
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
	ch.ends = [2][]Place{{{before, s.Sides[before].Closed}}, {{after, 0}}}
	if s.Copies[id].Hand < 0 {
		ch.ends[0], ch.ends[1] = ch.ends[1], ch.ends[0]
	}
	return ch
}

// heightOf is the height of a level: that of a corner it belongs to.
func (s *Surface) heightOf(id CopyID, l *Level) float64 {
	for _, side := range s.Copies[id].Sides {
		if len(l.Corners) > 0 && s.Sides[side].Edge == l.Corners[0] {
			return s.corner(side).Y
		}
	}
	return l.Y
}

// corner is where a side begins as drawn.
func (s *Surface) corner(id SideID) shape.Point {
	c := s.Sides[id].Copy
	return s.Plan.Pieces[s.Copies[c].Piece].Outline.Start(s.shapes[s.Copies[c].Piece].sides[s.Sides[id].Index].first)
}

// Corners names the edges that begin at the corners of an outline that a level
// belongs to, as it is drawn: those within 2 mm in which, or next to which, the
// level line ends; a corner at a fold is none.
func Corners(o shape.Outline, y float64) []string {
	var out []string
	sides := o.Sides()
	n := len(o.Edges)
	for _, at := range o.LevelPoints(y) {
		for k, side := range sides {
			part := (at.Edge - side.First + n) % n
			if part >= side.Count {
				continue
			}
			before, next := sides[(k+len(sides)-1)%len(sides)], sides[(k+1)%len(sides)]
			begin, end := math.Abs(o.Start(side.First).Y-y), math.Abs(o.Start(next.First).Y-y)
			switch {
			case side.Fold:
			case begin <= atCorner && begin <= end && !before.Fold:
				out = append(out, side.Name)
			case end <= atCorner && !next.Fold:
				out = append(out, next.Name)
			}
		}
	}
	return out
}

// betweenCorners is a level that belongs to a corner at both its ends.
func (s *Surface) betweenCorners(id CopyID, corners []string) (Chord, bool) {
	ch := Chord{Copy: id}
	n := 0
	for _, side := range s.Copies[id].Sides {
		if n < 2 && slices.Contains(corners, s.Sides[side].Edge) {
			before := s.step(side, -int(s.Copies[id].Hand))
			ch.ends[n] = s.cornerPlaces(before, side)
			if n == 0 {
				ch.From = s.corner(side)
			} else {
				ch.To = s.corner(side)
			}
			n++
		}
	}
	if ch.From.X > ch.To.X {
		ch.From, ch.To, ch.ends[0], ch.ends[1] = ch.To, ch.From, ch.ends[1], ch.ends[0]
	}
	ch.Y = (ch.From.Y + ch.To.Y) / 2
	return ch, n == 2
}

// acrossAt are the stretches of a level across a piece.
func (s *Surface) acrossAt(id CopyID, p *Piece, y float64, corners []string) []Chord {
	if len(corners) == 2 {
		if ch, ok := s.betweenCorners(id, corners); ok {
			return []Chord{s.closed(p, ch)}
		}
	}
	points := p.Outline.LevelPoints(y)
	var out []Chord
	for k := 0; k+1 < len(points); k += 2 {
		ch := Chord{Copy: id, Y: y}
		var corner [2]bool
		ch.From, ch.ends[0], corner[0] = s.endAt(id, p, points[k], y, corners)
		ch.To, ch.ends[1], corner[1] = s.endAt(id, p, points[k+1], y, corners)
		switch {
		case corner[0] && !corner[1]:
			ch.Y = ch.From.Y
			ch.To, ch.ends[1] = s.endBeside(id, p, points[k+1], ch.Y)
		case corner[1] && !corner[0]:
			ch.Y = ch.To.Y
			ch.From, ch.ends[0] = s.endBeside(id, p, points[k], ch.Y)
		}
		out = append(out, s.closed(p, ch))
	}
	return out
}

// closed is a part of a level with the darts that it crosses closed.
func (s *Surface) closed(p *Piece, ch Chord) Chord {
	ch.Length = math.Hypot(ch.To.X-ch.From.X, ch.To.Y-ch.From.Y)
	for i := range p.Darts {
		d := &p.Darts[i]
		if takes := d.takes(ch.Y, ch.From.X, ch.To.X); takes > 0 && !s.endsOn(&ch, d) {
			ch.Darts, ch.Taken = append(ch.Darts, takes), ch.Taken+takes
		}
	}
	ch.Length = max(ch.Length-ch.Taken, 0)
	return ch
}

// endsOn reports whether a level runs out through the edge that a dart opens
// on. At a corner it does where the mouth is upright.
func (s *Surface) endsOn(ch *Chord, d *Dart) bool {
	mouth := d.End.Sub(d.Begin)
	for _, places := range ch.ends {
		for _, p := range places {
			if s.Sides[p.Side].Edge == d.Edge && (len(places) == 1 || math.Abs(mouth.Y) > math.Abs(mouth.X)) {
				return true
			}
		}
	}
	return false
}

// takes is what a dart takes out of a level between two places. Closed, the two
// legs lie on each other: a level that meets a leg a part of the way from the
// point to the mouth goes on from the other leg as far down, so that it loses
// that part of what the mouth measures across: at the waist, the gap between the
// legs. Where it runs out through the edge that the dart opens on it goes on
// higher or lower by just so much that it loses nothing, the edge being straight
// there; a level that meets one leg only runs out through the mouth itself.
func (d *Dart) takes(y, from, to float64) float64 {
	a, one := onLeg(d.Point, d.Begin, y)
	b, two := onLeg(d.Point, d.End, y)
	inside := func(end shape.Point, part float64) bool {
		x := d.Point.X + part*(end.X-d.Point.X)
		return x >= from-touch && x <= to+touch
	}
	if one && two && inside(d.Begin, a) && inside(d.End, b) {
		return (a + b) / 2 * math.Abs(d.End.X-d.Begin.X)
	}
	return 0
}

// onLeg is where on a leg, in parts of the way from the dart's point to its
// mouth, a level meets it.
func onLeg(point, end shape.Point, y float64) (part float64, meets bool) {
	if (point.Y <= y) == (end.Y <= y) {
		return 0, false
	}
	return (y - point.Y) / (end.Y - point.Y), true
}

// endAt is where a level ends on a copy: the point, the places along its sides
// (two at a corner), and whether it is one of the corners that it belongs to. A
// corner that a fitting has brought near it is where it goes on from, but it is
// measured where it runs.
func (s *Surface) endAt(id CopyID, p *Piece, at shape.LevelPoint, y float64, corners []string) (shape.Point, []Place, bool) {
	side, along := s.sideWith(id, p, at.Edge, at.Along)
	e := &s.Sides[side]
	start, _, _ := p.Outline.PointOn(e.Edge, 0)
	end, _, _ := p.Outline.PointOn(e.Edge, e.Length)
	nearStart, nearEnd := math.Abs(start.Y-y) <= atCorner, math.Abs(end.Y-y) <= atCorner
	if nearStart && nearEnd {
		nearStart, nearEnd = along <= e.Length/2, along > e.Length/2
	}
	hand := int(s.Copies[id].Hand)
	before, after := s.step(side, -hand), s.step(side, hand)
	switch {
	case nearStart && slices.Contains(corners, e.Edge):
		return start, s.cornerPlaces(before, side), true
	case nearEnd && slices.Contains(corners, s.Sides[after].Edge):
		return end, s.cornerPlaces(side, after), true
	}
	here := shape.Point{X: at.X, Y: y}
	switch {
	case e.Fold: // a fold ends at no seam
	case nearStart && !s.Sides[before].Fold:
		return here, s.cornerPlaces(before, side), false
	case nearEnd && !s.Sides[after].Fold:
		return here, s.cornerPlaces(side, after), false
	}
	return here, []Place{{side, s.along(side, s.closedAt(side, along))}}, false
}

// endBeside is where a level that was moved to the corner at its other end ends
// now: the nearest crossing on the edge that it ended on.
func (s *Surface) endBeside(id CopyID, p *Piece, was shape.LevelPoint, y float64) (shape.Point, []Place) {
	best := was
	least := math.Inf(1)
	for _, at := range p.Outline.LevelPoints(y) {
		if off := math.Abs(at.X - was.X); at.Edge == was.Edge && off < least {
			best, least = at, off
		}
	}
	side, along := s.sideWith(id, p, best.Edge, best.Along)
	return shape.Point{X: best.X, Y: y}, []Place{{side, s.along(side, s.closedAt(side, along))}}
}

// cornerPlaces are the places of the corner between two sides, as drawn one
// after the other.
func (s *Surface) cornerPlaces(before, after SideID) []Place {
	return []Place{{before, s.along(before, s.Sides[before].Closed)}, {after, s.along(after, 0)}}
}

func (s *Surface) closedAt(id SideID, along float64) float64 {
	return s.shapes[s.Copies[s.Sides[id].Copy].Piece].sides[s.Sides[id].Index].closedAt(along)
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
	ch := Chord{Copy: id, Y: y, Arc: p.Arc, Length: radius * p.Arc}
	n := 0
	for _, side := range s.Copies[id].Sides {
		e := &s.Sides[side]
		a, _, _ := p.Outline.PointOn(e.Edge, 0)
		b, _, _ := p.Outline.PointOn(e.Edge, e.Length)
		from, to := math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y)
		if math.Abs(from-to) < 1 || radius < min(from, to)-touch || radius > max(from, to)+touch || n > 1 {
			continue
		}
		ch.ends[n] = []Place{{side, s.along(side, s.closedAt(side, math.Abs(radius-from)))}}
		n++
	}
	if n < 2 {
		return nil
	}
	return []Chord{ch}
}
