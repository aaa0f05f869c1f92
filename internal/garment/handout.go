package garment

// A NotchAt is a notch on an edge of a piece, so many millimetres from where
// the edge begins as the outline runs.
type NotchAt struct {
	Name, Edge string
	Along      float64
}

// NotchesAlong lists the notches of a piece, those of the piece it is like
// where it has none of its own.
func (p *Piece) NotchesAlong() []NotchAt {
	var out []NotchAt
	for i := range p.form.notches {
		n := &p.form.notches[i]
		e := p.edgeCalled(n.Edge.V)
		if e == nil || !n.Along.Given() {
			continue
		}
		at := n.Along.V.MM()
		if p.form.reversed {
			at = e.Length.Value.Number - at
		}
		out = append(out, NotchAt{n.Name.V, e.Name, at})
	}
	for _, at := range p.crossed {
		out = append(out, NotchAt{"", at.edge, at.along})
	}
	return out
}
