package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// A pieceShape is a piece as its copies need it.
type pieceShape struct {
	sides []pieceSide
	area  float64
	own   bool // it is its own mirror image
}

// A pieceSide is a named edge with all its parts.
type pieceSide struct {
	name    string
	first   int // the part it begins with
	count   int
	length  float64 // as drawn
	closed  float64
	fold    bool
	turns   bool // it lies on itself when its piece, its own mirror image, is turned over
	note    Edge
	mouths  []mouth   // of darts, along it
	faces   string    // which of front and back the names of piece and edge say
	before  []float64 // how much of the side lies before each of its parts
	heights []float64 // along the closed side as drawn, at equal steps, once they are asked for
}

// A mouth is where a dart opens on an edge, or a pleat.
type mouth struct{ from, to float64 }

// shapeOf measures a piece.
func shapeOf(p *Piece) pieceShape {
	sides := p.Outline.Sides()
	out := pieceShape{sides: make([]pieceSide, 0, len(sides))}
	for _, s := range sides {
		side := pieceSide{name: s.Name, first: s.First, count: s.Count, length: s.Length, fold: p.OnFold && s.Fold, faces: sideWords(p.Name + " " + s.Name)}
		at := 0.0
		side.before = make([]float64, 0, s.Count)
		for k := range s.Count {
			side.before = append(side.before, at)
			if k+1 < s.Count { // what lies before the next part
				at += p.Outline.EdgeLength((s.First + k) % len(p.Outline.Edges))
			}
		}
		for i := range p.Edges {
			if p.Edges[i].Name == s.Name {
				side.note = p.Edges[i]
			}
		}
		for i := range p.Darts {
			if d := &p.Darts[i]; d.Edge == s.Name {
				side.mouths = append(side.mouths, mouth{max(d.From, 0), min(d.To, s.Length)})
			}
		}
		for _, f := range side.note.Folds {
			side.mouths = append(side.mouths, mouth{max(f.From, 0), min(f.To, s.Length)})
		}
		slices.SortFunc(side.mouths, func(a, b mouth) int {
			if a.from < b.from {
				return -1
			}
			return 1
		})
		if side.closed = side.flat(); side.note.Into > 0 {
			side.closed = side.note.Into
		}
		out.sides = append(out.sides, side)
	}
	out.area = math.Abs(p.Outline.Area())
	images := p.Outline.OwnImages()
	out.own = len(images) > 0
	for i := range out.sides {
		s := &out.sides[i]
		s.turns = slices.ContainsFunc(images, func(image shape.OwnImage) bool { return image.Onto[s.first] == (s.first+s.count-1)%len(image.Onto) })
	}
	return out
}

// flat is the length of a side with its darts and pleats closed.
func (s *pieceSide) flat() float64 {
	sum := s.length
	for _, m := range s.mouths {
		sum -= max(m.to-m.from, 0)
	}
	return max(sum, 0)
}

// closedAt is how far along its closed side a place lies: darts and pleats before it
// are taken off.
func (s *pieceSide) closedAt(along float64) float64 {
	at := min(max(along, 0), s.length)
	for _, m := range s.mouths {
		at -= min(max(min(max(along, 0), s.length)-m.from, 0), max(m.to-m.from, 0))
	}
	if flat := s.flat(); flat > touch {
		return at * s.closed / flat
	}
	return 0
}

// cutOut cuts every copy, in every layer.
func (b *builder) cutOut() {
	for i := range b.s.Plan.Pieces {
		p := &b.s.Plan.Pieces[i]
		b.s.shapes = append(b.s.shapes, shapeOf(p))
		layers := make([][]CopyID, len(p.Layers))
		for l, layer := range p.Layers {
			if slices.Index(p.Layers, layer) < l {
				continue // a second ply of the same layer is sewn in with the first
			}
			if !slices.Contains(b.layers, layer) {
				b.layers = append(b.layers, layer)
			}
			layers[l] = b.copies(i, layer)
		}
		b.groups = append(b.groups, layers)
	}
	slices.Sort(b.layers)
	b.links = newLinks(len(b.s.Copies))
}

func (b *builder) copies(piece int, layer string) []CopyID {
	p := &b.s.Plan.Pieces[piece]
	var out []CopyID
	for n := range max(p.Count, 1) {
		switch {
		case p.OnFold:
			out = append(out, b.cut(piece, layer, n+1, 1), b.cut(piece, layer, n+1, -1))
		case p.Mirrored && n%2 == 1:
			out = append(out, b.cut(piece, layer, n+1, -1))
		default:
			out = append(out, b.cut(piece, layer, n+1, 1))
		}
	}
	return out
}

func (b *builder) cut(piece int, layer string, number int, hand int8) CopyID {
	id := CopyID(len(b.s.Copies))
	p := &b.s.Plan.Pieces[piece]
	c := Copy{Piece: piece, Name: p.Name, Layer: layer, Number: number, Hand: hand, cut: hand}
	c.free = b.s.shapes[piece].own && !p.OnFold
	for k := range b.s.shapes[piece].sides {
		s := &b.s.shapes[piece].sides[k]
		c.Sides = append(c.Sides, SideID(len(b.s.Sides)))
		b.s.Sides = append(b.s.Sides, Side{Copy: id, Edge: s.name, Index: k, Length: s.length, Closed: s.closed, Fold: s.fold})
	}
	b.s.Copies = append(b.s.Copies, c)
	return id
}

// folds joins the two halves of every piece cut on the fold.
func (b *builder) folds() {
	for i := range b.s.Plan.Pieces {
		if !b.s.Plan.Pieces[i].OnFold {
			continue
		}
		for _, group := range b.groups[i] {
			for k := 0; k+1 < len(group); k += 2 {
				one, other := &b.s.Copies[group[k]], &b.s.Copies[group[k+1]]
				for place := range one.Sides {
					if b.s.Sides[one.Sides[place]].Fold {
						b.add(Join{A: b.s.whole(one.Sides[place]), B: b.s.whole(other.Sides[place]), Seam: -1, Kind: Fold, By: -1})
					}
				}
			}
		}
	}
}

// along turns a closed length counted along an edge as it is drawn into one
// counted against the clock, and back.
func (s *Surface) along(id SideID, at float64) float64 {
	side := &s.Sides[id]
	if s.Copies[side.Copy].Hand < 0 {
		return side.Closed - at
	}
	return at
}
