package cutting

import (
	"math"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/say"
)

// biasTurn is how far from the grain a piece on the bias lies, in degrees.
const biasTurn = 45

// onGrain says of what is cut otherwise than along the grain where it cannot meet in the
// pattern: across it, and on the bias where the other is not.
func (m *matcher) onGrain(one *Match) {
	first, second := m.p.Pieces[one.pairs[0][0].Piece], m.p.Pieces[one.pairs[0][1].Piece]
	for _, g := range []*garment.Piece{first, second} {
		if g.Grain != "along" && g.Grain != "bias" {
			one.never(say.Of("cutting.is-not-cut-along-the-grain", g.Name))
			return
		}
	}
	if first.Grain != second.Grain {
		if second.Grain == "bias" {
			first, second = second, first
		}
		one.never(say.Of("cutting.is-cut-on-the-bias-and-is", first.Name, second.Name))
	}
}

// lean turns the two pieces on the bias that meet in a match: each to the side on which
// their lines meet best in all joins of a seam, if it has not been turned before. Mirrored
// copies lean to the other side, so that stripes come to points in the seam between them.
func (m *matcher) lean(all []matchedJoin, one *Match) {
	a, b := one.pairs[0][0].Piece, one.pairs[0][1].Piece
	if m.p.Pieces[a].Grain != "bias" || m.p.Pieces[b].Grain != "bias" {
		return
	}
	p, q := &m.p.Lay.Pieces[a].Shown, &m.p.Lay.Pieces[b].Shown
	if *p == 0 && *q != 0 {
		p, q = q, p
	}
	if *p == 0 {
		*p = biasTurn
	}
	if *q != 0 {
		return
	}
	*q = biasTurn
	same := m.misses(all, a, b)
	if *q = -biasTurn; m.misses(all, a, b) > same-tolerance {
		*q = biasTurn
	}
}

// misses is how far lines of two pieces are off that would meet at one point of one of
// their joins, in the directions that are asked.
func (m *matcher) misses(all []matchedJoin, a, b int) float64 {
	var pairs [][2]lay.TiedPoint
	for i := range all {
		for _, p := range all[i].pairs {
			if p[0].Piece == b {
				p[0], p[1] = p[1], p[0]
			}
			if p[0].Piece == a && p[1].Piece == b {
				pairs = append(pairs, p)
			}
		}
	}
	far := 0.0
	if m.asks(all[0].entry, false) {
		far += m.spread(pairs, false, 1)
	}
	if m.asks(all[0].entry, true) {
		far += math.Min(m.spread(pairs, true, 1), m.spread(pairs, true, -1))
	}
	return far
}

// slanted are the edges of a match that come to points in their seam.
func (m *matcher) slanted(one *Match) string {
	if m.p.Pieces[one.pairs[0][0].Piece].Grain == "bias" {
		return say.Of("cutting.stripes-on-the-bias")
	}
	return say.Of("cutting.slanted-edges")
}

// pointAlike lets pieces on the bias of one-way cloth lean to both sides where they are
// matched: the tops of both point the same way along it.
func (p *Problem) pointAlike() {
	if !p.Lay.Cloth.OneWay {
		return
	}
	for i := range p.Lay.Pieces {
		if q := &p.Lay.Pieces[i]; q.Grain == lay.Bias && q.Shown != 0 {
			q.Turns = []float64{biasTurn, 360 - biasTurn}
		}
	}
}
