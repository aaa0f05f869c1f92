package sheet

import (
	"strconv"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/paper"
)

// Room for drawings, in millimetres on paper.
const (
	pieceWide, pieceHigh = 54.0, 78.0  // for one piece
	layWide, layHigh     = 170.0, 88.0 // for one lay
)

// pieceDrawings shows every piece, three in a row, each as large as there is
// room.
func (c *composer) pieceDrawings() []paper.Block {
	var cells []paper.Block
	for _, p := range c.garment.Pieces {
		if len(p.Cut.Ring) < 3 {
			continue
		}
		scale := pieceScale(p)
		caption := p.Name + " · " + c.cutWords(p) + " · 1" + gap + ":" + gap + strconv.FormatFloat(scale, 'f', -1, 64)
		d := draw.Piece(p, draw.PieceStyle{Scale: scale, Parts: draw.OnSheet})
		d.Title = p.Name + ": " + c.allowances(p)
		cells = append(cells, paper.Sketch{Drawing: d, Caption: caption})
	}
	if len(cells) == 0 {
		return nil
	}
	out := []paper.Block{paper.Text{Phrase: paper.Aside(c.t.say("remake.drawn"))}} // before the drawings: it would be left alone after them
	for len(cells) > 0 {
		n := min(3, len(cells))
		row := paper.Columns{}
		for i := range 3 {
			var cell []paper.Block
			if i < n {
				cell = cells[i : i+1]
			}
			row.Blocks = append(row.Blocks, cell)
		}
		out = append(out, row)
		cells = cells[n:]
	}
	return out
}

func pieceScale(p *garment.Piece) float64 {
	least, most := p.Bounds()
	return draw.ScaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
}
