package cutting

import (
	"cmp"
	"slices"
	"strconv"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Board is a remnant with what is laid on it.
type Board struct {
	Remnant *record.Remnant
	Name    string
	Chalked []Position // from the lower left corner of the box about it
	Plan    *lay.Plan  // nil where nothing goes on it
}

// OnBoards is a lay on several remnants of one cloth.
type OnBoards struct {
	Part   string
	Boards []Board  // in the order in which they are named
	Left   []string // the copies that will not go
	Notes  []string
}

// A single is one copy of a piece, as it is laid on a board of its own.
type single struct {
	piece, copy int // in the problem
	lay         lay.Piece
	area        float64
}

// LayOn lays the pieces that a build cuts from one of its cloths on remnants of it, one after
// the other: on each as much as will go, the largest pieces first. Every plan is kept, and
// checked as all are. The error says why there is nothing to lay.
func (c *Cutter) LayOn(b *record.Build, part string, remnants []*record.Remnant) (*OnBoards, error) {
	g := c.tailor.Derive(b).Garment
	k := slices.IndexFunc(g.Cloths, func(cloth *garment.Cloth) bool { return cloth.Part == part })
	if k < 0 {
		return nil, errNothing
	}
	p, err := newProblem(g, g.Cloths[k], c.usual.style)
	if err != nil {
		return nil, err
	}
	out := &OnBoards{Part: part}
	rest := p.singles()
	if len(p.Lay.Ties) > 0 {
		out.Notes = append(out.Notes, say.Of("cutting.the-pattern-is-not-matched-from-one"))
	}
	for _, r := range remnants {
		board := Board{Remnant: r, Name: r.Name.V}
		rest = c.fill(&board, p, rest)
		out.Boards = append(out.Boards, board)
	}
	for _, s := range rest {
		name := s.lay.Name
		if p.Lay.Pieces[s.piece].Quantity > 1 {
			name += " " + strconv.Itoa(s.copy+1)
		}
		out.Left = append(out.Left, name)
	}
	return out, nil
}

// singles are all copies of a problem one by one, the largest first. What is cut on the fold
// is opened out, and what is cut face down is turned over.
func (p *Problem) singles() []single {
	var out []single
	for i := range p.Lay.Pieces {
		q := &p.Lay.Pieces[i]
		for k := range max(1, q.Quantity) {
			one := *q
			one.Outline, one.OnFold, one.FoldEdge, one.Quantity, one.Mirrored, one.Stage = q.Unfold(), false, 0, 1, false, 0
			if q.Mirrored && k%2 == 1 {
				one.Outline = slices.Clone(one.Outline)
				for n := range one.Outline {
					one.Outline[n].Y = -one.Outline[n].Y
				}
			}
			out = append(out, single{i, k, one, areaOf(one.Outline)})
		}
	}
	return largestFirst(out)
}

// fill lays on a board what will go, and returns what will not.
func (c *Cutter) fill(b *Board, p *Problem, all []single) (rest []single) {
	outline, holes := remnantOf(b.Remnant)
	at := p.within(outline, holes...)
	at.Ties = nil
	var going []single
	for _, s := range all {
		at.Pieces = []lay.Piece{s.lay}
		if _, err := lay.Make(c.ctx, *at, lay.Options{Tries: 1, Cores: 1}); err != nil {
			rest = append(rest, s) // wider than the remnant, whichever way it lies
			continue
		}
		going = append(going, s)
	}
	at.Pieces = nil
	for _, s := range going {
		at.Pieces = append(at.Pieces, s.lay)
	}
	if len(going) == 0 {
		return rest
	}
	plan, err := c.plan(c.ctx, at, nil)
	if err != nil {
		return largestFirst(append(rest, going...))
	}
	for _, u := range plan.Unplaced {
		rest = append(rest, going[u.Piece])
	}
	if len(plan.Placements) > 0 {
		b.Plan, b.Chalked = plan, boardPositions(p, at, plan, going)
	}
	return largestFirst(rest)
}

// largestFirst puts copies in the order in which they are laid.
func largestFirst(list []single) []single {
	slices.SortStableFunc(list, func(a, b single) int {
		return cmp.Or(cmp.Compare(b.area, a.area), a.piece-b.piece, a.copy-b.copy)
	})
	return list
}

// boardPositions are the places of what lies on a board, as one chalks them.
func boardPositions(p *Problem, at *lay.Problem, plan *lay.Plan, going []single) []Position {
	on := &Problem{Lay: *at, Part: p.Part}
	for _, s := range going {
		on.Pieces = append(on.Pieces, p.Pieces[s.piece])
	}
	out := on.positions(plan)
	least := cornerOf(at.Cloth.Outline)
	for i := range out {
		s := going[plan.Placements[i].Piece]
		out[i].Copy = s.copy + 1
		g := p.Pieces[s.piece]
		out[i].Mirrored = p.Lay.Pieces[s.piece].Mirrored && s.copy%2 == 1 && (g == nil || g.Mirrored)
		out[i].End, out[i].EndTo = snap(out[i].End-least.X), snap(out[i].EndTo-least.X)
		out[i].Side, out[i].SideTo = snap(out[i].Side-least.Y), snap(out[i].SideTo-least.Y)
	}
	return chalkedInOrder(out)
}

// cornerOf is the corner of the box about a ring.
func cornerOf(ring []lay.Point) lay.Point {
	x, _, y, _ := extent(ring)
	return lay.Point{X: x, Y: y}
}
