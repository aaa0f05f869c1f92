package lay

import (
	"math"

	"hembook/internal/fault"
)

// match settles on which phase of the repeat every named point falls, and
// leaves each piece the turns that can keep to it.
//
// Along the cloth the first piece of each chain of names lies flush with the
// cut end (the cut may be made anywhere); across, flush with the selvedge.
func (m *model) match(p *Problem) fault.List {
	alongPhase, acrossPhase := map[string]float64{}, map[string]float64{}
	left := make([]bool, len(m.items))
	for i := range m.items {
		left[i] = len(p.Pieces[m.items[i].piece].Match) > 0
	}
	for {
		k := m.nextToMatch(p, left, alongPhase)
		if k < 0 {
			return nil
		}
		left[k] = false
		it := &m.items[k]
		piece := &p.Pieces[it.piece]
		var kept []int
		for _, s := range it.shapes {
			sh := m.shapes[s]
			if m.matchShape(p, piece, &sh, alongPhase, acrossPhase) {
				m.shapes = append(m.shapes, sh)
				kept = append(kept, len(m.shapes)-1)
			}
		}
		if len(kept) == 0 {
			return fault.List{{Of: pieceName(piece, it.piece), Severity: fault.Error, Message: "its match points cannot all fall on the repeat",
				Hint: "their distances differ from those of the pieces it is matched to, or the cloth has no room for it at that phase"}}
		}
		it.shapes = kept
	}
}

// nextToMatch prefers an item that shares a name with those settled.
func (m *model) nextToMatch(p *Problem, left []bool, settled map[string]float64) int {
	first := -1
	for i := range m.items {
		if !left[i] {
			continue
		}
		if first < 0 {
			first = i
		}
		for _, q := range p.Pieces[m.items[i].piece].Match {
			if _, ok := settled[q.Name]; ok {
				return i
			}
		}
	}
	return first
}

// matchShape sets the shape's phases, or says that it cannot keep to the
// settled ones. New names are settled by it.
func (m *model) matchShape(p *Problem, piece *Piece, s *shape, along, across map[string]float64) bool {
	rx, ry := p.Cloth.RepeatAlong*m.scale, p.Cloth.RepeatAcross*m.scale
	px, py := make([]float64, len(piece.Match)), make([]float64, len(piece.Match))
	for i, q := range piece.Match {
		at := turned([]Point{{q.At.X * m.scale, q.At.Y * m.scale}}, s.turn, s.mirrored)[0]
		px[i], py[i] = at.X+s.offX, at.Y+s.offY
	}
	phaseX, okX := phaseOf(piece, px, along, rx, -s.box.minX)
	phaseY, okY := phaseOf(piece, py, across, ry, -s.box.minY)
	if !okX || !okY {
		return false
	}
	if rx > 0 {
		s.stepX, s.phaseX = rx, phaseX
	}
	if ry > 0 && !s.onFold {
		s.stepY, s.phaseY = ry, phaseY
	}
	if _, ok := s.domain(m.maxLength, m.width); !ok {
		return false // the cloth ends between two phases
	}
	if rx > 0 {
		settle(piece, px, along, phaseX)
	}
	if s.stepY > 0 {
		settle(piece, py, across, phaseY)
	}
	return true
}

// phaseOf finds the place (modulo the repeat) that puts every settled name
// on its phase; free when none is settled.
func phaseOf(piece *Piece, off []float64, settled map[string]float64, repeat, free float64) (float64, bool) {
	phase, have := free, false
	if repeat <= 0 {
		return free, true
	}
	for i, q := range piece.Match {
		want, ok := settled[q.Name]
		if !ok {
			continue
		}
		if !have {
			phase, have = want-off[i], true
		} else if !samePhase(phase+off[i], want, repeat) {
			return 0, false
		}
	}
	if !have { // two points of one new name must agree with each other
		for i, q := range piece.Match {
			for k := range i {
				if piece.Match[k].Name == q.Name && !samePhase(off[i], off[k], repeat) {
					return 0, false
				}
			}
		}
	}
	return phase, true
}

func samePhase(a, b, repeat float64) bool {
	d := (a - b) / repeat
	return math.Abs(d-math.Round(d)) < 1e-6
}

func settle(piece *Piece, off []float64, settled map[string]float64, phase float64) {
	for i, q := range piece.Match {
		if _, ok := settled[q.Name]; !ok {
			settled[q.Name] = phase + off[i]
		}
	}
}
