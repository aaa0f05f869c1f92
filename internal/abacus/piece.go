package abacus

import (
	"math"
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

func (g *garment) makePieces() {
	for _, name := range g.build.get("pieces").words() {
		for _, one := range g.handsOf(name) {
			p := g.makePiece(one)
			p.slug = slug(p.name)
			g.measure(p)
			g.pieces = append(g.pieces, p)
		}
	}
}

// makePiece draws a piece by its name, that it is like first, with all the
// changes it has seen.
func (g *garment) makePiece(name string) *piece {
	v := g.recordOf(name)
	var p *piece
	if v.get("like").there() {
		p = g.makePiece(v.get("like").text())
	} else {
		p = &piece{count: 1, levels: map[string]float64{}, panels: 0}
		g.draw(p, v, name)
	}
	p.name = name
	if of := v.get("of"); of.there() {
		if v.get("like").there() && allLining(of.texts()) && !allLining(p.of) {
			p.lines = g.linesOfLining(p.lines, name)
		}
		p.of = of.texts()
	} else if p.of == nil {
		p.of = g.parts[:1]
	}
	if cut := v.get("cut"); cut.there() {
		p.readCut(cut.text())
		p.said = true
	}
	if grain := v.get("grain"); grain.there() {
		p.grain = grain.text()
	}
	if v.get("allowance").there() {
		p.allowance = v.get("allowance")
	}
	g.say(p, v.get("edges"))
	g.readFolds(p, v)
	p.callLevels()
	p.usualCut()
	for _, c := range v.get("change").named() {
		edge, dart := edgeOrDart(c.name)
		g.change(p, c.node, edge, dart)
	}
	if _, hand := g.handOf(name); hand {
		p.count /= 2
	}
	g.fit(p)
	return p
}

func (g *garment) recordOf(name string) node {
	v := g.build.get("pieces").get(name)
	if whole, hand := g.handOf(name); hand {
		v = g.build.get("pieces").get(whole)
	}
	if !v.there() {
		giveUp("no piece %q", name)
	}
	return v
}

// readCut reads "1", "1 on fold", "2", "4 alike".
func (p *piece) readCut(text string) {
	words := strings.Fields(text)
	n, ok := mixed(words[0])
	if !ok {
		giveUp("cut: %q", text)
	}
	p.count, p.half, p.alike = n, strings.Contains(text, "fold"), strings.Contains(text, "alike")
}

// usualCut is how a piece is cut of which nothing is said: one with a fold on it;
// a rectangle, trapezoid, sector or ring with nothing on it, which is its own
// mirror image, once. Whether another is its own is not worked out here.
func (p *piece) usualCut() {
	if p.said {
		return
	}
	p.half = slices.ContainsFunc(p.edges, func(e *edge) bool { return e.fold })
	if !p.half && p.drawnFreely {
		giveUp("whether %s is its own mirror image is not worked out here", p.name)
	}
}

// readFolds reads darts, pleats and levels; what is written replaces what the
// piece it is like has.
func (g *garment) readFolds(p *piece, v node) {
	p.drawnFreely = p.drawnFreely || v.get("darts").there() || v.get("pleats").there() || v.get("gathers").there() || v.get("notches").there() || v.get("lines").there()
	if v.get("darts").there() {
		p.darts = nil
		for _, d := range v.get("darts").named() {
			one := &dart{name: d.get("name").text(), edge: d.name, at: d.get("at").length(g.units),
				width: d.get("width").length(g.units), length: d.get("length").lengthOr(g.units, 0)}
			if d.get("point").there() {
				at := d.get("point").point(g.units)
				one.point = &at
			}
			p.darts = append(p.darts, one)
		}
	}
	if v.get("gathers").there() {
		p.gathers = nil
		for _, d := range v.get("gathers").named() {
			one := gather{edge: d.name, ratio: 2, into: d.get("into").lengthOr(g.units, 0), rows: numberOr(d.get("rows"), 2)}
			if n := d.node; !n.isMap() {
				one.ratio = n.number()
			} else if r := d.get("ratio"); r.there() {
				one.ratio = r.number()
			}
			p.gathers = append(p.gathers, one)
		}
	}
	if v.get("pleats").there() {
		p.pleats = nil
		for _, d := range v.get("pleats").named() {
			if !d.get("drawn").yes() {
				g.pleatIn(p, d)
				continue
			}
			one := pleat{d.name, 0, 0, numberOr(d.get("count"), 1)}
			if into := d.get("into"); into.there() {
				one.into = into.length(g.units)
			} else {
				one.depth = d.get("depth").length(g.units)
			}
			if kind := d.get("kind"); kind.there() && (kind.text() == "box" || kind.text() == "inverted") {
				one.depth *= 2 // they take twice what a knife pleat does
			}
			p.pleats = append(p.pleats, one)
		}
	}
	if v.get("lines").there() {
		p.lines = nil
		for _, l := range v.get("lines").named() {
			p.lines = append(p.lines, pieceLine{l.name, l.node})
		}
	}
	for _, name := range v.get("levels").words() {
		if _, known := p.levels[name]; !known {
			p.names = append(p.names, name)
		}
		p.levels[name] = v.get("levels").get(name).length(g.units)
	}
}

// say applies what `edges:` says of edges.
func (g *garment) say(p *piece, edges node) {
	for _, name := range edges.words() {
		e, v := p.edge(name), edges.get(name)
		switch {
		case v.text() == "fold":
			e.fold = true
			continue
		case !v.isMap():
			e.own = v
			continue
		}
		if v.get("allowance").there() {
			e.own = v.get("allowance")
		}
		e.level = textOr(v.get("level"), e.level)
		e.corner = textOr(v.get("corner"), e.corner)
		if v.get("fold").there() {
			e.fold = v.get("fold").yes()
		}
		e.name = textOr(v.get("name"), e.name)
	}
}

// levelNames are the levels of body and limbs that an edge may be called after.
var levelNames = strings.Split("chest,bust,underbust,waist,high hip,hip,seat,hem,upper arm,biceps,elbow,wrist,sleeve hem,thigh,knee,calf,ankle,leg hem", ",")

// callLevels: an edge called as a level lies at it, if nothing else is said of it,
// it is sewn and the piece has no height for that level.
func (p *piece) callLevels() {
	for _, e := range p.edges {
		name := strings.ReplaceAll(strings.ToLower(e.name), "-", " ")
		if _, higher := p.levels[name]; e.level == "" && !e.fold && slices.Contains(levelNames, name) && !higher {
			e.level = name
		}
	}
}

// liesAt reports whether the edge lies at a level.
func (e *edge) liesAt(level string) bool { return e.level == level && level != "none" }

// measured is a side of a piece, across it or along it, which may be written in repeats
// of the cloth as it is once washed.
func (g *garment) measured(piece, n node, across bool) float64 {
	number, repeats := strings.CutSuffix(strings.TrimSuffix(n.text(), "s"), " repeat")
	if !repeats {
		return n.length(g.units)
	}
	if grain := piece.get("grain"); grain.there() && grain.text() == "across" {
		across = !across
	}
	way, part := "along", g.parts[0]
	if across {
		way = "across"
	}
	if of := piece.get("of"); of.there() {
		part = of.texts()[0]
	}
	many, ok := mixed(number)
	cloth := g.cloths[part]
	if !ok || !cloth.get("repeat").get(way).there() {
		giveUp("%q is no length", n.text())
	}
	return many * cloth.get("repeat").get(way).length(g.shop) * (1 - numberOr(cloth.get("shrink").get(way), 0)/100)
}

// draw draws a piece's first outline.
func (g *garment) draw(p *piece, v node, name string) {
	switch {
	case v.get("outline").there():
		g.drawOutline(p, v.get("outline"))
		p.drawnFreely = true
	case v.get("rectangle").there():
		sides := v.get("rectangle").list()
		if len(sides) != 2 {
			giveUp("a rectangle has two sides, not %d", len(sides))
		}
		s := point{g.measured(v, sides[0], true), g.measured(v, sides[1], false)}
		p.rectangle = true
		p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{s.x, 0}, s, point{0, s.y})
	case v.get("trapezoid").there():
		t := v.get("trapezoid")
		b, top, h := t.get("bottom").length(g.units), t.get("top").length(g.units), t.get("height").length(g.units)
		in := (b - top) / 2
		p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{b, 0}, point{b - in, h}, point{in, h})
	case v.get("band").there():
		g.drawBand(p, v, name)
	case v.get("border").there():
		g.drawBorder(p, v.get("border"))
	case v.get("circle").there():
		g.drawRing(p, v)
	case v.get("godet").there():
		p.godet = v.get("godet")
		h := p.godet.get("height").length(g.units)
		a := g.godetAngle(p)
		p.sector(0, h, a)
	default:
		giveUp("a piece is drawn in no way that is known here")
	}
}

func (g *garment) godetAngle(p *piece) float64 {
	if p.godet.get("angle").there() {
		n, _ := splitUnit(strings.TrimSuffix(p.godet.get("angle").text(), "°"))
		f, _ := mixed(n)
		return f * math.Pi / 180
	}
	return p.godet.get("hem").length(g.units) / p.godet.get("height").length(g.units)
}

func (g *garment) drawOutline(p *piece, v node) {
	var at point
	if v.get("from").there() {
		at = v.get("from").point(g.units)
	}
	first := at
	for _, name := range v.words() {
		if name == "from" {
			continue
		}
		e, to := v.get(name), first // the last edge ends where the first began
		if end := e.of("to"); end.isList() {
			to = end.point(g.units)
		}
		one := &edge{name: name, path: []point{at, to}, straight: true, fold: e.get("fold").yes() || e.text() == "fold",
			level: e.get("level").text(), corner: e.get("corner").text(), own: e.get("allowance")}
		if c := e.get("curve"); c.there() {
			one.path, one.straight = bezier(at, c.list()[0].point(g.units), c.list()[1].point(g.units), to), false
		}
		p.edges = append(p.edges, one)
		at = to
	}
}

func (p *piece) polygon(names []string, corners ...point) {
	for i, name := range names {
		p.edges = append(p.edges, &edge{name: name, path: []point{corners[i], corners[(i+1)%len(corners)]}, straight: true})
	}
}

// A ring skirt of k turns has the inner radius r = W ÷ 2πk; its panels are
// equal, each with the grain down its middle.
func (g *garment) drawRing(p *piece, v node) {
	p.ring = v.get("circle")
	turns := p.ring.get("share").number()
	waist, length := p.ring.get("waist").length(g.units), p.ring.get("length").length(g.units)
	if !p.ring.get("panels").there() {
		giveUp("how many panels a ring needs is not worked out here")
	}
	p.panels = p.ring.get("panels").number()
	p.count = p.panels
	r := waist / (2 * math.Pi * turns)
	p.sector(r, r+length, 2*math.Pi*turns/p.panels)
}

// sector is a part of a ring that hangs down from the origin; with no inner
// radius it is a godet.
func (p *piece) sector(inner, outer, angle float64) {
	from, to := -math.Pi/2-angle/2, -math.Pi/2+angle/2
	hem := arc(outer, from, to)
	in := arc(inner, to, from)
	right := []point{hem[len(hem)-1], in[0]}
	left := []point{in[len(in)-1], hem[0]}
	if inner > 0 {
		p.edges = append(p.edges, &edge{name: "waist", path: in})
	}
	p.edges = append(p.edges, &edge{name: "left", path: left, straight: true},
		&edge{name: "hem", path: hem}, &edge{name: "right", path: right, straight: true})
}

// measure measures the edges of a piece, darts and pleats closed.
func (g *garment) measure(p *piece) {
	for _, e := range p.edges {
		e.length = pathLength(e.path)
		for _, d := range p.darts {
			if d.edge == e.name && !d.dropped {
				e.intake += d.width
			}
		}
		for _, d := range p.pleats {
			if d.edge != e.name {
				continue
			}
			if d.into > 0 && p.half {
				e.intake += e.length - d.into/2
			} else if d.into > 0 {
				into := d.into
				before, _, after := p.neighbours(e.name)
				if p.half && (before.fold || after.fold) { // both halves of it
					into /= 2
				}
				e.intake += e.length - into
			}
			e.intake += 2 * d.depth * d.count
		}
		for _, in := range p.letIn {
			if in.closes(e.name) {
				e.intake += in.takes
			}
		}
		for _, d := range p.gathers {
			if d.edge == e.name && d.into > 0 {
				into := d.into
				before, _, after := p.neighbours(e.name)
				if p.half && (before.fold || after.fold) { // both halves of it
					into /= 2
				}
				e.intake += e.length - into
			} else if d.edge == e.name {
				e.intake += e.length - e.length/d.ratio
			}
		}
		e.sewn = e.length - e.intake
		if by, any := g.widened(p, e); any {
			e.sewn += by
			e.placketed = true
		}
	}
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

// turnedIn is the length along which the plies of a piece, of the same cloth outside and
// inside, are sewn to each other alone: all edges that nothing is said of.
func (g *garment) turnedIn(p *piece) (sum float64) {
	if p.pliesSewn() == float64(len(p.sewnIn())) {
		return 0
	}
	for _, e := range p.edges {
		if !e.fold && len(e.finishedBy) == 0 && !g.isJoined(e) {
			sum += e.sewn * p.occurs()
		}
	}
	return sum
}

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

// pieceFigures are the figures of every piece.
func (g *garment) pieceFigures(out Figures) {
	for _, p := range g.pieces {
		id := "piece." + p.slug + "."
		for _, e := range p.edges {
			at := id + "edge." + slug(e.name) + "."
			out.put(at+"length", e.length, "mm")
			out.put(at+"allowance", e.allowance, "mm")
			if e.intake > 0 {
				out.put(at+"intake", e.intake, "mm")
			}
			if e.intake > 0 || e.placketed {
				out.put(at+"sewn", e.sewn, "mm")
			}
		}
		g.lineFigures(out, p, id)
		g.turnFigures(out, p, id)
		if rows := p.pleatsSewn(); rows > 0 {
			out.put(id+"pleats", rows/1000, "m")
		}
		if turned := g.turnedIn(p); turned > 0 {
			out.put(id+"turned", turned/1000, "m")
		}
		area, cut := p.areas()
		out.put(id+"area", area/100, "cm²")
		out.put(id+"cut-area", cut/100, "cm²")
		out.put(id+"allowance", (cut-area)/100, "cm²")
		out.put(id+"share", (cut-area)/cut*100, "%")
		least, most := p.bounds()
		out.put(id+"width", most.x-least.x, "mm")
		out.put(id+"height", most.y-least.y, "mm")
		g.formFigures(out, p, id)
	}
}

func (g *garment) formFigures(out Figures, p *piece, id string) {
	if p.ring.there() {
		k, w, l := p.ring.get("share").number(), p.ring.get("waist").length(g.units), p.ring.get("length").length(g.units)
		r := w / (2 * math.Pi * k)
		out.put(id+"inner-radius", r, "mm")
		out.put(id+"outer-radius", r+l, "mm")
		out.put(id+"hem", 2*math.Pi*k*(r+l), "mm")
		out.put(id+"ring-area", math.Pi*k*((r+l)*(r+l)-r*r)/1e6, "m²")
		out.put(id+"panel-angle", 360*k/p.panels, "°")
		out.put(id+"panels", p.panels, "")
	}
	if p.band > 0 {
		out.put(id+"band-length", p.band, "mm")
	}
	if p.godet.there() {
		a, h := g.godetAngle(p), p.godet.get("height").length(g.units)
		out.put(id+"angle", a*180/math.Pi, "°")
		out.put(id+"adds", a*h, "mm")
		out.put(id+"chord", 2*h*math.Sin(a/2), "mm")
	}
}
