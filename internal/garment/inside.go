package garment

import (
	"slices"

	"hembook/internal/sewn"
)

// faceLinings lets a facing that goes on into a lining lie in the lining's layer: the two
// make the inside of the garment together, whatever the facing is cut from. It goes on
// into it where an edge of it is sewn to one of the lining's, or lies in one line with
// one.
func faceLinings(p *sewn.Plan) {
	if !anyPiece(p, isOuterFacing) || !anyPiece(p, isLining) {
		return
	}
	at := insides{}
	for i := range p.Pieces {
		at[p.Pieces[i].Name] = &p.Pieces[i]
	}
	for again := true; again; { // a facing may go on into the lining by another facing
		again = false
		for i := range p.Seams {
			again = at.face(p.Seams[i].Sides) || again
		}
	}
}

func anyPiece(p *sewn.Plan, is func(*sewn.Piece) bool) bool {
	for i := range p.Pieces {
		if is(&p.Pieces[i]) {
			return true
		}
	}
	return false
}

// isOuterFacing reports whether a piece lies behind others of the outer layer alone.
func isOuterFacing(q *sewn.Piece) bool {
	return q.Behind && len(q.Layers) == 1 && q.Layers[0] == outerLayer
}

// isLining reports whether a piece is of other layers than the outer one.
func isLining(q *sewn.Piece) bool { return len(q.Layers) > 0 && !slices.Contains(q.Layers, outerLayer) }

// insides are pieces by their names.
type insides map[string]*sewn.Piece

// lining is the layers of a lining among the edges of a side; nil where there is none.
func (at insides) lining(side []sewn.EdgeRef) (layers []string) {
	for _, r := range side {
		if q := at[r.Piece]; q != nil && isLining(q) {
			layers = q.Layers
		}
	}
	return layers
}

// face puts the facings of a seam into the layers of the lining that they go on into, and
// reports whether there were any.
func (at insides) face(sides [][]sewn.EdgeRef) (moved bool) {
	for k, side := range sides {
		layers := at.lining(side)
		if layers == nil {
			layers = at.lining(sides[(k+1)%len(sides)])
		}
		for _, r := range side {
			if q := at[r.Piece]; layers != nil && q != nil && isOuterFacing(q) {
				q.Layers, moved = layers, true
			}
		}
	}
	return moved
}
