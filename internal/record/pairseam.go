package record

import (
	"slices"

	"hembook/internal/words"
)

// partSeams sews what joins a pair that is told apart: at either side by itself where each
// of its edges is there at the left and at the right, else in one line.
func (w *pairing) partSeams() []Seam {
	var out []Seam
	for i := range w.b.Seams {
		s := w.b.Seams[i]
		switch hand, one := w.handOf(&s); {
		case s.Place.Given():
			out = append(out, w.setOnEither(s)...)
		case one:
			out = append(out, w.sideOf(s, hand))
		case !w.joinsPair(&s):
			out = append(out, s)
		case w.mirrored(&s):
			a, b := w.sideOf(s, Left), w.sideOf(s, Right)
			s.Join = []List[EdgeRef]{a.Join[0], b.Join[1]}
			out = append(out, s)
		case w.eitherSide(&s):
			out = append(out, w.seamsOf(s)...)
		default:
			s.Join = slices.Clone(s.Join)
			for k := range s.Join {
				s.Join[k] = w.both(s.Join[k])
			}
			out = append(out, s)
		}
	}
	return out
}

// joinsPair reports whether a seam joins an edge of a pair that is told apart.
func (w *pairing) joinsPair(s *Seam) bool {
	return slices.ContainsFunc(s.Join, func(side List[EdgeRef]) bool {
		return slices.ContainsFunc(side, func(e EdgeRef) bool { return w.apart[e.Piece] })
	})
}

// handOf is the one side of the body that a seam is sewn at: it names a left one alone, or
// a right one, and all its other edges are there at both sides.
func (w *pairing) handOf(s *Seam) (out Hand, one bool) {
	for _, side := range s.Join {
		for _, e := range side {
			hand, _, ok := w.hand(e)
			switch {
			case ok && out != "" && out != hand, !ok && !w.atEither(e):
				return "", false
			case ok:
				out = hand
			}
		}
	}
	return out, out != ""
}

// mirrored reports whether a seam sews edges to their own mirror images, as a centre back.
func (w *pairing) mirrored(s *Seam) bool {
	return len(s.Join) == 2 && len(s.Join[0]) > 0 && slices.EqualFunc(s.Join[0], s.Join[1], func(a, b EdgeRef) bool {
		return a.Piece == b.Piece && a.Edge == b.Edge && a.Part == b.Part
	})
}

// eitherSide reports whether every edge of a seam is there at the left and at the right.
func (w *pairing) eitherSide(s *Seam) bool {
	return !slices.ContainsFunc(s.Join, func(side List[EdgeRef]) bool {
		return slices.ContainsFunc(side, func(e EdgeRef) bool { return !w.atEither(e) })
	})
}

// atEither reports whether an edge is there at the left and at the right: of a pair, or of
// a piece cut on the fold where it does not go on across that.
func (w *pairing) atEither(e EdgeRef) bool {
	if w.apart[e.Piece] {
		return true
	}
	p := w.b.pieceCalled(e.Piece)
	if p == nil {
		return false
	}
	cut := w.b.cutOf(p)
	return cut.N == 2 && cut.pair() || cut.N == 1 && cut.OnFold && !w.b.meetsFold(p, e.Edge)
}

// meetsFold reports whether an edge of a piece lies on its fold or ends there.
func (b *Build) meetsFold(p *Piece, edge string) bool {
	round := b.edgesRound(p, 0)
	k := slices.IndexFunc(round, func(r roundEdge) bool { return r.name == edge || r.now == edge })
	if k < 0 {
		return true // a line, or what is told elsewhere
	}
	n := len(round)
	return round[k].fold || round[(k+1)%n].fold || round[(k+n-1)%n].fold
}

// seamsOf are the left and the right of a seam.
func (w *pairing) seamsOf(s Seam) []Seam {
	return w.either(s, func(hand Hand) Seam { return w.sideOf(s, hand) })
}

func (w *pairing) either(s Seam, side func(Hand) Seam) []Seam {
	var out []Seam
	for _, hand := range bothHands {
		one := side(hand)
		one.Name.V = eitherName(hand, s.Name.V, func(name string) bool { return slices.Contains(w.b.sewn(), name) })
		one.Pair = s.Name.V
		w.seams[s.Name.V] = append(w.seams[s.Name.V], one.Name.V)
		out = append(out, one)
	}
	return out
}

// sideOf is a seam at one side of the body.
func (w *pairing) sideOf(s Seam, hand Hand) Seam {
	s.Join = slices.Clone(s.Join)
	for k := range s.Join {
		s.Join[k] = slices.Clone(s.Join[k])
		for n := range s.Join[k] {
			s.Join[k][n] = w.onSide(s.Join[k][n], hand)
		}
	}
	return s
}

// setOnEither sets a piece on a pair where one of the two is told apart: a pair of them on
// both, a single one on the left.
func (w *pairing) setOnEither(s Seam) []Seam {
	if len(s.Join) != 2 || len(s.Join[0]) != 1 || len(s.Join[1]) != 1 {
		return []Seam{s}
	}
	under := w.b.pieceCalled(s.Join[1][0].Piece)
	pair := under != nil && w.b.cutOf(under).pair()
	on := func(hand Hand) Seam {
		one := w.sideOf(s, hand)
		if e := &one.Join[1][0]; e.Hand != "" { // a pair of one outline: the one that it lies on
			e.Piece, e.Hand = hand.of(e.Piece), ""
		}
		return one
	}
	switch {
	case pair && w.apart[s.Join[0][0].Piece]:
		return w.either(s, on)
	case w.apart[s.Join[1][0].Piece]:
		return []Seam{on(Left)}
	}
	return []Seam{s}
}

// partNotions lays what lies along a pair along the left one and the right one. Buttons lie
// along one front, and their holes along the other: a woman's right front laps over.
func (w *pairing) partNotions() []Notion {
	var out []Notion
	for _, n := range w.b.Notions {
		n.In = anew(n.In, w.seams)
		along, holes := n.Along.V, n.HolesOn.V
		if w.apart[holes.Piece] {
			n.HolesOn.V = w.onSide(holes, Right)
		}
		if !w.apart[along.Piece] {
			out = append(out, n)
			continue
		}
		if n.Is() == "zip" || n.SetOut() && !onLimb(along.Piece) {
			out = append(out, w.closes(n))
			continue
		}
		for _, hand := range bothHands {
			one := n
			one.Along.V, one.Name.V = w.onSide(along, hand), eitherName(hand, n.Name.V, func(name string) bool { return w.b.notionCalled(name) })
			if w.apart[holes.Piece] {
				one.HolesOn.V = w.onSide(holes, hand)
			}
			w.along[n.Name.V] = append(w.along[n.Name.V], one.Name.V)
			out = append(out, one)
		}
	}
	return out
}

// closes lets a notion that closes a pair lie along one of it, and its holes along the other.
func (w *pairing) closes(n Notion) Notion {
	under, over := Left, Right
	if who := w.b.For.Who.V; who == "man" || who == "boy" {
		under, over = Right, Left
	}
	along := n.Along.V
	n.Along.V = w.onSide(along, under)
	if n.NeedsHoles() && !n.HolesOn.Given() {
		n.HolesOn = Val[EdgeRef]{w.onSide(along, over), n.Along.At}
	}
	return n
}

func (b *Build) notionCalled(name string) bool {
	return slices.ContainsFunc(b.Notions, func(n Notion) bool { return n.Name.V == name })
}

// onLimb reports whether a piece goes round an arm or a leg by its name (terms of the trade).
func onLimb(piece string) bool { return words.AnyOf(piece, []string{"sleeve", "leg", "cuff"}) }
