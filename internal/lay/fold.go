package lay

import (
	"math"
	"slices"
)

// A Fold says how cloth lies to be cut from, and in a problem which lays are wanted.
type Fold int

const (
	Open          Fold = iota // a single layer
	Lengthwise                // in the middle of its width, selvedge on selvedge
	Crosswise                 // in the middle of its length, cut end on cut end
	BothSelvedges             // lengthwise twice: both selvedges are folded in until they meet
	PartWidth                 // the left selvedge is folded in so far as it serves; the rest is a single layer
	PartLength                // lengthwise from the cut end so far as it serves; the rest is a single layer
	AnyFold                   // wanted: any of the folds
	EitherWay                 // wanted: a single layer or any of the folds
)

// wants tells whether a lay of one kind will do where another is asked for.
func (f Fold) wants(lying Fold) bool {
	return f == lying || f == EitherWay || f == AnyFold && lying != Open
}

// Holds tells whether a plan lies a way that a problem with this fold wants.
func (f Fold) Holds(plan *Plan) bool { return f.wants(plan.Fold) }

// A Folding is how the cloth of a plan is folded: what was folded in lies under the rest,
// which has its right side up.
type Folding struct {
	Fold      Fold    // Open to PartLength
	Near, Far float64 // how much of the width is folded in at the left and at the right selvedge
	Long      float64 // PartLength: how far from the cut end it is folded
}

// Folded tells whether any of the cloth lies in two layers.
func (f Folding) Folded() bool { return f.Fold != Open }

// Layers is how many lengths of cloth one length of the lay takes.
func (f Folding) Layers() float64 {
	if f.Fold == Crosswise {
		return 2
	}
	return 1
}

// Across is how wide cloth of a width lies.
func (f Folding) Across(width float64) float64 {
	if f.Fold == PartLength {
		return width
	}
	return width - f.Near - f.Far
}

// A Zone is a part of the cloth as it lies: a rectangle in one layer or in two.
type Zone struct {
	From, To  float64 // along the cloth; To is +Inf where it goes on to the end of the lay
	Near, Far float64 // across it
	Double    bool
	OnNear    bool // its side Near is a fold
	OnFar     bool // its side Far is
	OnFrom    bool // its end From is
}

// Zones are the parts of cloth of a width as it lies, from the fold on.
func (f Folding) Zones(width float64) []Zone {
	end := math.Inf(1)
	switch f.Fold {
	case Lengthwise:
		return []Zone{{To: end, Far: width / 2, Double: true, OnNear: true}}
	case Crosswise:
		return []Zone{{To: end, Far: width, Double: true, OnFrom: true}}
	case BothSelvedges:
		return []Zone{{To: end, Far: f.Near, Double: true, OnNear: true},
			{To: end, Near: f.Near, Far: f.Near + f.Far, Double: true, OnFar: true}}
	case PartWidth:
		return []Zone{{To: end, Far: f.Near, Double: true, OnNear: true}, {To: end, Near: f.Near, Far: width - f.Near}}
	case PartLength:
		return []Zone{{To: f.Long, Far: width / 2, Double: true, OnNear: true}, {From: f.Long, To: end, Far: width}}
	}
	return []Zone{{To: end, Far: width}}
}

// A ply is one layer of a zone on the cloth opened out: what lies at (x, y) is at
// x·xx + dx along it and y·yy + dy across it.
type ply struct{ xx, dx, yy, dy float64 }

// plies are the layers of a zone, the upper one first, for cloth of a width and a lay
// that takes a length of it.
func (f Folding) plies(z Zone, width, length float64) []ply {
	upper := ply{1, 0, 1, f.Near}
	switch {
	case f.Fold == Crosswise:
		return []ply{{1, length / 2, 1, 0}, {-1, length / 2, 1, 0}}
	case !z.Double && f.Fold == PartLength:
		return []ply{{1, 0, 1, 0}}
	case !z.Double:
		return []ply{upper}
	case z.OnFar:
		return []ply{upper, {1, 0, -1, 2*(width-f.Far) - f.Near}}
	}
	return []ply{upper, {1, 0, -1, f.Near}}
}

func (l ply) at(q Point) Point { return Point{float64(l.xx*q.X) + l.dx, float64(l.yy*q.Y) + l.dy} }

// back is where a point of the cloth lies.
func (l ply) back(q Point) Point { return Point{l.xx * (q.X - l.dx), l.yy * (q.Y - l.dy)} }

// folded is a ring of the cloth as it lies in one layer.
func (l ply) folded(ring []Point) []Point {
	out := make([]Point, len(ring))
	for i, q := range ring {
		out[i] = l.back(q)
	}
	return out
}

// ZoneOf is the zone that a placement lies in: the one that holds its middle.
func (p *Problem) ZoneOf(plan *Plan, at Placement) Zone {
	b := boxOf(p.Placed(at))
	x, y := (b.minX+b.maxX)/2, (b.minY+b.maxY)/2
	zones := plan.Zones(p.Cloth.Width)
	for _, z := range zones {
		if x >= z.From && x <= z.To && y >= z.Near && y <= z.Far {
			return z
		}
	}
	return zones[0]
}

// OnThis is a plan as it lies on the cloth of this problem, which may have another width:
// what hangs on the right selvedge, folded in, moves with it.
func (p *Problem) OnThis(plan *Plan) *Plan {
	out := *plan
	width := p.Cloth.Width
	if p.Cloth.Outline != nil {
		return &out
	}
	switch plan.Fold {
	case Lengthwise, PartLength:
		out.Near = width / 2
	case BothSelvedges:
		out.Placements = slices.Clone(plan.Placements)
		out.Far = width/2 - plan.Near
		for k := range out.Placements {
			if at := &out.Placements[k]; boxOf(p.Placed(*at)).maxY > plan.Near+1e-6*plan.Width {
				at.Y += out.Far - plan.Far
			}
		}
	}
	out.Width = out.Across(width)
	return &out
}

// WithSelvedges is a plan on cloth folded lengthwise as it lies on wider cloth, moved with
// the selvedges, so that what is flawed there is as far from its pieces as it was; nil where
// it has no need to move.
func (p *Problem) WithSelvedges(plan *Plan) *Plan {
	by := p.Cloth.Width/2 - plan.Near
	if plan.Fold != Lengthwise || by <= 0 || p.Cloth.Outline != nil || len(p.Cloth.Flaws) == 0 {
		return nil
	}
	out := p.OnThis(plan)
	out.Placements = slices.Clone(plan.Placements)
	for k := range out.Placements {
		out.Placements[k].Y += by
	}
	return out
}

// Opened is a plan of the pieces on folded cloth opened out: a single layer, in which
// what the lower layers give lies mirrored beyond the folds.
func (p *Problem) Opened(plan *Plan) *Plan {
	out := &Plan{Width: p.Cloth.Width, Length: plan.Length}
	for _, at := range plan.Placements {
		plies := plan.plies(p.ZoneOf(plan, at), p.Cloth.Width, plan.Length)
		upper, q := at, &p.Pieces[at.Piece]
		to := plies[0].at(Point{at.X, at.Y})
		upper.X, upper.Y = to.X, to.Y
		upper.Pair, upper.Unfolded = false, q.OnFold
		out.Placements = append(out.Placements, upper)
		if !at.Pair || len(plies) < 2 {
			continue
		}
		lower := upper
		to = plies[1].at(Point{at.X, at.Y})
		lower.Copy, lower.X, lower.Y, lower.Mirrored = at.Copy+1, to.X, to.Y, !at.Mirrored
		if lower.Turn = normalTurn(-at.Turn); plies[1].xx < 0 {
			lower.Turn = normalTurn(180 - at.Turn)
		}
		out.Placements = append(out.Placements, p.rightWayUp(lower))
	}
	return out
}
