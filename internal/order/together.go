package order

import (
	"math"
	"slices"
	"sync"

	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// A Together is what is shown of how a garment goes together.
type Together struct {
	Sewn     *sewn.Surface
	Numbered []Numbered       // its seams and finishes, in the order in which they are sewn
	Types    []string         // how each of them is sewn
	Choices  []garment.Choice // what the record leaves open
	pieces   map[string]*garment.Piece
	rows     []garment.Row
	steps    []*Step
	seams    []string        // names, by the number of the seam in the surface's plan
	planned  []*garment.Seam // and the seams themselves; nil for what is none of the garment's
	bySeam   []int           // and their numbers in Numbered; 0 for none
	finishes map[string]int  // and those of finishes
	setOn    map[string]int  // and of seams that sew a piece onto the face of another, which the plan does not have
	edges    map[edgeOfPiece]*garment.PieceEdge
	folded   map[foldsOf]int // the step that sews them first

	mu    sync.Mutex
	laid  map[string]*layerNets // by layer, once they were asked for
	shown map[*sewn.Net][]Shown // what each net shows, likewise

	sewOnce sync.Once
	sewing  []SeamSewing // how its seams are sewn, once it was asked for
}

// An edgeOfPiece names an edge.
type edgeOfPiece struct{ piece, edge string }

// A layerNets is a layer laid flat, whole and in parts that can be shown.
type layerNets struct {
	whole *sewn.Net
	parts []*sewn.Net
}

// A Shown is a seam or finish that a net shows.
type Shown struct {
	Numbered
	Type string
}

// Shown lists the seams and finishes that a net shows, by their numbers. The list is
// the same for all who ask.
func (t *Together) Shown(n *sewn.Net) []Shown {
	t.mu.Lock()
	defer t.mu.Unlock()
	list, known := t.shown[n]
	if !known {
		list = t.shownOn(n)
		if t.shown == nil {
			t.shown = map[*sewn.Net][]Shown{}
		}
		t.shown[n] = list
	}
	return list
}

func (t *Together) shownOn(n *sewn.Net) []Shown {
	seen := make([]bool, len(t.Numbered)+1) // 0 for what has no number
	for _, m := range n.Meetings {
		if j := &t.Sewn.Joins[m.Join]; t.Sewn.ShowsSeam(j) {
			seen[t.NumberOfSeam(j.Seam)] = true
		}
	}
	for _, l := range n.Openings {
		for _, sp := range l.Spans {
			seen[t.NumberOfFinish(t.finishOf(sp))] = true
		}
	}
	var out []Shown
	for i := range n.Laid {
		if p := t.Piece(t.Sewn.Copies[n.Laid[i].Copy].Name); p != nil {
			for k := range p.Edges {
				seen[t.NumberOfSetOn(p.Edges[k].SewnBy)] = true
			}
		}
	}
	for i, k := range t.Numbered { // which are numbered from 1 on
		if seen[k.Number] {
			out = append(out, Shown{k, t.Types[i]})
		}
	}
	return out
}

// finishOf is what makes a stretch neat; "" where nothing does.
func (t *Together) finishOf(sp sewn.Span) string { return t.Sewn.FinishOf(sp.Side) }

// An Opening is a line of a layer that stays open, or a part of a seam that a zip
// or buttons close.
type Opening struct {
	Name   string
	Times  int     // how many there are alike
	Length float64 // of each, mm
}

// Openings lists the openings of a net with all closed that closes, those that
// are alike as one, and then what closes and opens.
func (t *Together) Openings(n *sewn.Net) []Opening {
	var out []Opening
	add := func(name string, length float64) {
		for i := range out {
			if o := &out[i]; o.Name == name && math.Abs(o.Length-length) < 0.5 {
				o.Times++
				return
			}
		}
		out = append(out, Opening{name, 1, length})
	}
	for _, l := range t.Sewn.Loops(n.Layer, true) {
		if n.In(t.Sewn, l.Spans[0]) {
			o := t.Sewn.Lapped(t.Sewn.WithoutSlits(l))
			add(t.openingName(o.Loop), o.Length)
		}
	}
	for _, m := range n.Meetings {
		if j := &t.Sewn.Joins[m.Join]; j.Kind == sewn.Closing && j.By >= 0 {
			c := &t.Sewn.Plan.Closures[j.By]
			along := t.edgeName(j.A)
			if named := c.Edge.Piece + " " + c.Edge.Edge; t.edgeName(j.B) == named { // as the record says it
				along = named
			}
			add(c.Name+", "+along, j.A.Length())
		}
	}
	for _, slit := range t.Sewn.Slits() {
		if slit.By < 0 && slit.Layer == n.Layer && n.In(t.Sewn, slit.Open[0]) {
			add(say.Of("order.left-open", t.seams[slit.Seam]), slit.Length)
		}
	}
	return out
}

func (t *Together) edgeName(sp sewn.Span) string {
	side := &t.Sewn.Sides[sp.Side]
	return t.Sewn.Copies[side.Copy].Name + " " + side.Edge
}

// openingName is the name of what makes most of it neat, else of the edge that
// most of it lies along, with the piece where it is one.
func (t *Together) openingName(l sewn.Loop) string {
	long := map[string]float64{}
	pieces := map[string]string{}
	best := ""
	for _, sp := range l.Spans {
		name := t.finishOf(sp)
		if name == "" {
			side := &t.Sewn.Sides[sp.Side]
			name = side.Edge
			if e := t.edges[edgeOfPiece{t.Sewn.Copies[side.Copy].Name, side.Edge}]; e != nil && e.AtFold() {
				name = e.Opens() // what the band goes round opens at its fold
			} else if p := t.Sewn.Copies[side.Copy].Name; pieces[name] == "" {
				pieces[name] = p
			} else if pieces[name] != p {
				pieces[name] = "\x00"
			}
		}
		if long[name] += sp.Length(); best == "" || long[name] > long[best]+0.5 {
			best = name
		}
	}
	if p := pieces[best]; p != "" && p != "\x00" {
		return p + " " + best
	}
	return best
}

// GoesTogether is nil where nothing is joined.
func GoesTogether(g *garment.Garment, steps []*Step) *Together {
	if g.Sewn == nil || len(g.Sewn.Joins) == 0 {
		return nil
	}
	t := &Together{Sewn: g.Sewn, Choices: g.Choices, Numbered: inNumbers(g, steps), rows: g.Rows, steps: steps, finishes: map[string]int{}, setOn: map[string]int{}, pieces: map[string]*garment.Piece{}, folded: foldedIn(g, steps), edges: map[edgeOfPiece]*garment.PieceEdge{}}
	seams := map[string]int{}
	for _, k := range t.Numbered {
		t.Types = append(t.Types, typeOf(g, k))
		if k.Finish {
			t.finishes[k.Name] = k.Number
		} else {
			seams[k.Name] = k.Number
		}
	}
	for i := range g.Sewn.Plan.Seams {
		name, s := "", g.SeamOf(i)
		if s != nil {
			name = s.Name
		}
		t.planned = append(t.planned, s)
		t.seams, t.bySeam = append(t.seams, name), append(t.bySeam, seams[name])
	}
	for _, s := range g.Seams {
		if s.SetsOn() {
			t.setOn[s.Name] = seams[s.Name]
		}
	}
	for _, p := range slices.Backward(g.Pieces) {
		t.pieces[p.Name] = p
		for k := range slices.Backward(p.Edges) { // of two edges of one name the first is meant
			t.edges[edgeOfPiece{p.Name, p.Edges[k].Name}] = &p.Edges[k]
		}
	}
	return t
}

// Piece is a piece by its name; nil where there is none.
func (t *Together) Piece(name string) *garment.Piece { return t.pieces[name] }

// Within is what of pleats, gathers, slits and rows beside edges the pieces of a net have.
type Within struct{ Pleats, Gathers, Slits, Rows bool }

// Within tells what of these a net shows.
func (t *Together) Within(n *sewn.Net) (in Within) {
	for i := range n.Laid {
		p := t.Piece(t.Sewn.Copies[n.Laid[i].Copy].Name)
		if p == nil {
			continue
		}
		in.Pleats = in.Pleats || len(p.PleatFolds) > 0
		in.Gathers = in.Gathers || len(p.Gathered) > 0
		in.Rows = in.Rows || len(p.Beside) > 0
		in.Slits = in.Slits || slices.ContainsFunc(p.Lines, func(l garment.PieceLine) bool { return l.Slit })
	}
	return in
}

// RowsOf are the rows that hold a seam or finish, in the order of its passes.
func (t *Together) RowsOf(k Numbered) []*garment.Row {
	kind := garment.SeamRow
	if k.Finish {
		kind = garment.FinishRow
	}
	var out []*garment.Row
	for i := range t.rows {
		if r := &t.rows[i]; r.Kind == kind && r.Of == k.Name && !r.Temporary {
			out = append(out, r)
		}
	}
	return out
}

// typeOf is how a seam or finish is sewn.
func typeOf(g *garment.Garment, k Numbered) string {
	for _, s := range g.Seams {
		if !k.Finish && s.Name == k.Name {
			return s.Type.Title
		}
	}
	for _, f := range g.Finishes {
		if k.Finish && f.Name == k.Name {
			return f.Type.Title
		}
	}
	return ""
}

// Layers lists its layers, the outer one first.
func (t *Together) Layers() []string {
	out := t.Sewn.Layers()
	if i := slices.Index(out, "outer"); i > 0 {
		out = append([]string{"outer"}, slices.Delete(out, i, i+1)...)
	}
	return out
}

// mostOnNet is how many copies one net shows at most: more can neither be read
// nor does a page bear them.
const mostOnNet = 24

// Nets are the nets of a layer: one, or several where it has very many pieces. Of what is made
// several times over they show one.
func (t *Together) Nets(layer string) []*sewn.Net { return t.lay(layer).parts }

// Net is a layer's whole net, however many pieces it has.
func (t *Together) Net(layer string) *sewn.Net { return t.lay(layer).whole }

// lay lays a layer flat, the first time that it is asked for: several pages and
// sheets show the same.
func (t *Together) lay(layer string) *layerNets {
	t.mu.Lock()
	defer t.mu.Unlock()
	n := t.laid[layer]
	if n == nil {
		n = &layerNets{whole: t.Sewn.Net(layer)}
		n.parts = n.whole.Once(t.Sewn).Parts(t.Sewn, mostOnNet)
		if t.laid == nil {
			t.laid = map[string]*layerNets{}
		}
		t.laid[layer] = n
	}
	return n
}

// NumberOfSeam is the number of a seam of the surface's plan; 0 for none.
func (t *Together) NumberOfSeam(seam int) int {
	if seam < 0 || seam >= len(t.bySeam) {
		return 0
	}
	return t.bySeam[seam]
}

// NumberOfSetOn is the number of a seam that sews a piece onto the face of another; 0 for
// none.
func (t *Together) NumberOfSetOn(name string) int { return t.setOn[name] }

// NumberOfFinish is the number of a finish; 0 for none.
func (t *Together) NumberOfFinish(name string) int { return t.finishes[name] }
