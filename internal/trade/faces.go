package trade

import (
	"math"
	"slices"
)

// facedRoles are the plies beside the two sides of a seam whose faces differ.
var facedRoles = []Role{ClothC, Tape, Facing, Lining, Ribbing}

// faceStrips finds the right side of strips, facings and third pieces: the row that sews
// one on right sides together holds it against the cloth, wherever both lie in the end. One
// that is laid on or wrapped round shows its right side (common practice, no source).
func (s *Section) faceStrips(t *SeamType) {
	for i := range s.Layers {
		l := &s.Layers[i]
		if l.Face != 0 || l.End == Closed || !slices.Contains(facedRoles, l.Role) {
			continue
		}
		for k := range t.Passes {
			p := &t.Passes[k]
			if !p.Through.passes(l.Role) {
				continue
			}
			laid := p.Together == LaidFlat
			if l.Face = s.toward(l, k+1, laid); laid || p.Together == WrongTogether {
				l.Face = -l.Face
			}
			if l.Face != 0 {
				break
			}
		}
	}
}

// passes reports whether a row passes a ply.
func (t Through) passes(r Role) bool {
	return slices.ContainsFunc(t, func(row []Role) bool { return slices.Contains(row, r) })
}

// toward is the side of a layer on which the cloth lies that a row holds it to; 0 where
// the row does not pass it. Where the layer lies there in several plies it is the nearest
// that is meant, or the one farthest out.
func (s *Section) toward(l *Layer, row int, outermost bool) (face Face) {
	best := math.Inf(1)
	if outermost {
		best = math.Inf(-1)
	}
	for _, st := range s.Stitches {
		if st.Row != row {
			continue
		}
		cloth := s.clothOn(st)
		for _, own := range crossings(l.Path, st) {
			if d, side, ok := own.nearest(cloth); ok && d > best == outermost {
				best, face = d, side
			}
		}
	}
	return face
}

// clothOn is where a thread passes the sides of a seam.
func (s *Section) clothOn(st SectionStitch) (out []crossing) {
	for k := range s.Layers {
		if o := &s.Layers[k]; o.Role == ClothA || o.Role == ClothB {
			out = append(out, crossings(o.Path, st)...)
		}
	}
	return out
}

// nearest is how far the nearest of others lies, and on which side.
func (c crossing) nearest(others []crossing) (d float64, side Face, ok bool) {
	d = math.Inf(1)
	for _, o := range others {
		dx, dy := o.at.X-c.at.X, o.at.Y-c.at.Y
		if far := math.Sqrt(dx*dx + dy*dy); far < d {
			d, side, ok = far, faceLeft, true
			if c.along.X*dy < c.along.Y*dx {
				side = faceRight
			}
		}
	}
	return d, side, ok
}

// A crossing is where a thread passes a ply, and the way the ply goes there.
type crossing struct{ at, along Pt }

func crossings(path []Pt, st SectionStitch) []crossing {
	var out []crossing
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		if t, ok := meetsAt(a, b, st.From, st.To); ok {
			along := Pt{b.X - a.X, b.Y - a.Y}
			out = append(out, crossing{Pt{a.X + t*along.X, a.Y + t*along.Y}, along})
		}
	}
	return out
}

// meetsAt is where on the way from a to b, as a share of it, the line from c to d is met.
func meetsAt(a, b, c, d Pt) (float64, bool) {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, d.X-c.X, d.Y-c.Y
	turn := ux*vy - uy*vx
	if turn == 0 {
		return 0, false
	}
	wx, wy := c.X-a.X, c.Y-a.Y
	t, u := (wx*vy-wy*vx)/turn, (wx*uy-wy*ux)/turn
	return t, t >= 0 && t <= 1 && u >= 0 && u <= 1
}
