package cutting

import (
	"fmt"

	"hembook/internal/garment"
	"hembook/internal/lay"
)

// match puts the pieces of cloth with a repeat on one phase: along the cloth
// by a level they share, across it by the middle of each piece (common
// practice, no source). Pieces without that level are not matched, and the
// notes say so.
func (p *Problem) match(c *garment.Cloth) {
	cloth := &p.Lay.Cloth
	if cloth.RepeatAlong == 0 && cloth.RepeatAcross == 0 {
		return
	}
	level := sharedLevel(c.Pieces)
	var free []string
	for i, piece := range p.Pieces {
		if piece == nil {
			continue
		}
		y, ok := levelOf(piece, level)
		if !ok && cloth.RepeatAlong > 0 {
			free = append(free, piece.Name)
			continue
		}
		least, most := piece.CutWhole.Bounds()
		p.Lay.Pieces[i].Match = []lay.Match{{Name: "repeat", At: lay.Point{X: y, Y: (least.X + most.X) / 2}}}
	}
	if level != "" && cloth.RepeatAlong > 0 {
		p.Notes = append(p.Notes, fmt.Sprintf("the repeat is matched along the cloth at the %s", level))
	}
	if cloth.RepeatAcross > 0 {
		p.Notes = append(p.Notes, "the repeat is matched across the cloth at the middle of each piece")
	}
	if len(free) > 0 {
		p.Notes = append(p.Notes, "not matched to the repeat, because they share no line: "+joined(free))
	}
}

// sharedLevel is the level most pieces have; the first of equals.
func sharedLevel(pieces []*garment.Piece) string {
	var order []string
	count := map[string]int{}
	for _, p := range pieces {
		seen := map[string]bool{}
		for _, l := range p.AtLevels {
			if seen[l.Level] {
				continue
			}
			seen[l.Level] = true
			if count[l.Level]++; count[l.Level] == 1 {
				order = append(order, l.Level)
			}
		}
	}
	best := ""
	for _, l := range order {
		if best == "" || count[l] > count[best] {
			best = l
		}
	}
	return best
}

func levelOf(p *garment.Piece, level string) (float64, bool) {
	for _, l := range p.AtLevels {
		if l.Level == level {
			return l.Y, true
		}
	}
	return 0, false
}
