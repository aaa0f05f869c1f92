package document

// A Card is a sheet of paper lying on its side and folded once down its middle:
// four faces of half its size, read in this order. Its document has no other
// blocks and no footer.
type Card struct{ Front, Left, Right, Back Face }

// A Face is what stands on one side of a folded card.
type Face struct {
	Centred bool    // its words and pictures stand in the middle of it
	Top     []Block // from its head downwards
	Foot    []Block // standing on its foot; may be nil
}

// Faces are the four, as they are read.
func (c *Card) Faces() []Face { return []Face{c.Front, c.Left, c.Right, c.Back} }

// Sides are the faces as they are printed: two beside each other on the outside
// and two inside, from the left.
func (c *Card) Sides() [2][2]Face { return [2][2]Face{{c.Back, c.Front}, {c.Left, c.Right}} }

// CardText is how wide a face's words are set, in millimetres: the same on A4 and
// on Letter, so that a card breaks its lines alike.
const CardText = 112.0

// card writes a card as its faces, one after the other.
func (h *HTML) card(c *Card) {
	for i, f := range c.Faces() {
		h.Put(`<section class="face `).Put([...]string{"front", "left", "right", "back"}[i])
		if f.Centred {
			h.Put(" centred")
		}
		h.Put("\"><div>\n")
		h.blocks(f.Top)
		h.Put("</div>\n")
		if len(f.Foot) > 0 {
			h.Put("<div>\n")
			h.blocks(f.Foot)
			h.Put("</div>\n")
		}
		h.Put("</section>\n")
	}
}
