package shape

// moved returns the outline with every point put through f.
func (o Outline) moved(f func(Point) Point) Outline {
	m := Outline{From: f(o.From), Edges: make([]Edge, len(o.Edges))}
	for i, e := range o.Edges {
		e.To = f(e.To)
		if e.Curved {
			e.C1, e.C2 = f(e.C1), f(e.C2)
		}
		m.Edges[i] = e
	}
	return m
}

// Reversed returns the outline run the other way round: the same edges
// with the same names, in the opposite order.
func (o Outline) Reversed() Outline {
	n := len(o.Edges)
	if n == 0 {
		return o
	}
	r := Outline{From: o.Edges[n-1].To, Edges: make([]Edge, n)}
	for i, e := range o.Edges {
		e.To, e.C1, e.C2 = o.Start(i), e.C2, e.C1
		r.Edges[n-1-i] = e
	}
	return r
}

// Mirrored returns the piece turned face down: every x becomes −x. The
// edges keep their names and run in the opposite order, so that the inside
// stays on the same hand.
func (o Outline) Mirrored() Outline {
	return o.moved(func(p Point) Point { return Point{-p.X, p.Y} }).Reversed()
}

// FoldEdge returns the index of the first edge on the fold, or −1.
func (o Outline) FoldEdge() int {
	for i, e := range o.Edges {
		if e.Fold {
			return i
		}
	}
	return -1
}
