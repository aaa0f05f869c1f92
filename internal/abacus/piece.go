package abacus

import (
	"slices"
	"strings"
)

// A garment is one build while it is worked out.
type garment struct {
	tables   *Tables
	types    map[string]seamType // the trade's and the workroom's own
	workroom node
	ways     map[string]node // the headers of the techniques' pages, by their names
	build    node
	cloths   map[string]node // the file of each cloth, by its part
	parts    []string        // the cloths' parts, in order
	units    string          // what a bare length of the build is in
	shop     string          // and of the workroom
	round    int
	pieces   []*piece
	seams    []*seam
	finishes []*finish
}

func newGarment(room Workroom, tables *Tables, build string, round int) *garment {
	g := &garment{tables: tables, round: round, cloths: map[string]node{}, types: map[string]seamType{}}
	g.workroom = readYAML("workroom", room["content/workroom.yaml"])
	g.build = readYAML(build, room["content/builds/"+build+"/build.yaml"])
	for name, st := range tables.types {
		g.types[name] = st
	}
	g.ways = waysOf(room)
	own := &Tables{types: g.types}
	own.addTypes(g.workroom.get("seam-types"))
	g.shop = textOr(g.workroom.get("units"), "mm")
	g.units = textOr(g.build.get("units"), g.shop)
	for _, part := range g.build.get("cloth").words() {
		use := g.build.get("cloth").get(part)
		file := use.text()
		if use.isMap() {
			file = use.get("use").text()
		}
		g.parts = append(g.parts, part)
		g.cloths[part] = readYAML(file, room["content/cloth/"+file+".yaml"])
	}
	return g
}

func textOr(v node, otherwise string) string {
	if !v.there() {
		return otherwise
	}
	return v.text()
}

// A piece is one pattern piece as drawn.
type piece struct {
	name        string
	slug        string
	of          []string
	count       float64 // how many are cut
	grain       string  // along, where nothing is said
	half        bool    // drawn as a half, cut on the fold
	alike       bool    // cut all of one hand
	rectangle   bool    // drawn as one
	drawnFreely bool    // an outline, or something with darts or pleats
	said        bool    // the record says how often it is cut
	edges       []*edge
	darts       []*dart
	pleats      []pleat
	letIn       []letIn
	places      []setPlace // of what is set on it
	lines       []pieceLine
	gathers     []gather
	levels      map[string]float64
	names       []string // of its levels, in order
	allowance   node
	ring        node // set for ring skirts
	godet       node
	panels      float64
	band        float64 // how long it is, of a band
	bandRecord  node

	cutRing       []point // the cutting line, once it is drawn
	area, cutArea float64 // of one whole piece, once they are found
}

// An edge is a part of a piece's outline.
type edge struct {
	name      string
	path      []point // in the way it is drawn
	straight  bool
	fold      bool
	level     string
	corner    string
	own       node // its own allowance
	allowance float64
	intake    float64
	sewn      float64
	length    float64
	needs     []float64 // what its seams ask of it
	finished  []float64 // and its finishes

	finishedBy []*finish
	innerOf    *seam // of the inner edge of a folded band, what sews its outer one, and on which side
	innerOn    int

	placketed bool // plackets make it longer or shorter
}

type dart struct {
	name, edge        string
	at, width, length float64
	point             *point
	dropped           bool
}

type gather struct {
	edge        string
	ratio, into float64
	rows        float64
}

type pleat struct {
	edge        string
	depth, into float64 // what each goes under, or what all close to
	count       float64
}

// occurs is how often an edge of the piece is there, in one cloth.
func (p *piece) occurs() float64 {
	if p.half {
		return 2 * p.count
	}
	return p.count
}

func (p *piece) edge(name string) *edge {
	for _, e := range p.edges {
		if e.name == name {
			return e
		}
	}
	giveUp("%s has no edge %q", p.name, name)
	return nil
}

func (p *piece) outline() []point {
	var ring []point
	for _, e := range p.edges {
		ring = append(ring, e.path[:len(e.path)-1]...)
	}
	return ring
}

// in reports whether the piece is cut in this part.
func (p *piece) in(part string) bool {
	for _, o := range p.of {
		if o == part {
			return true
		}
	}
	return false
}

// stiffening lies between the others and is caught with them: no seam is sewn
// for it alone.
func stiffening(part string) bool {
	return part == "fusing" || part == "interlining" || part == "backing"
}

// sewnIn are the cloths in which the piece is sewn: all but stiffening, unless
// there is nothing else. Two plies of one cloth are caught in the same rows.
func (p *piece) sewnIn() []string {
	var out []string
	for _, o := range p.of {
		if !stiffening(o) && !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	if len(out) == 0 {
		return p.of[:1]
	}
	return out
}

// plies is how often a piece is cut in a cloth for each of it.
func (p *piece) plies(part string) (n float64) {
	for _, o := range p.of {
		if o == part {
			n++
		}
	}
	return n
}

// pliesSewn is in how many plies a piece is sewn, whatever their cloths.
func (p *piece) pliesSewn() (n float64) {
	for _, part := range p.sewnIn() {
		n += p.plies(part)
	}
	return n
}

// liesBehind: a piece that is called so lies behind what it is like.
func (p *piece) liesBehind() bool { return strings.HasPrefix(p.name, "inner ") }

func (g *garment) piece(name string) *piece {
	for _, p := range g.pieces {
		if p.name == name {
			return p
		}
	}
	giveUp("no piece %q", name)
	return nil
}

// edgeOf finds "piece.edge".
func (g *garment) edgeOf(text string) (*piece, *edge) {
	name, word, _ := strings.Cut(text, ".")
	p := g.piece(name)
	return p, p.edge(word)
}
