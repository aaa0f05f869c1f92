package svg

import (
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// A drafter walks the tree of elements and gathers the lines of its pieces.
type drafter struct {
	ids   map[string]*node
	uses  int
	parts int
	fault *fault.Fault
}

// A pose is how an element is seen: its transform to the root's units, the
// view it lies in, and what the elements around it say of it.
type pose struct {
	m      matrix
	in     view
	piece  []string // the names of the piece it belongs to; nil outside pieces
	role   trace.Role
	told   bool // an element around it tells the role
	nested int  // references it is reached by
}

func draw(root *node) (*trace.Drawing, *fault.Fault) {
	v, x, y := outermost(root)
	d := &drafter{ids: map[string]*node{}}
	d.index(root)
	out := &trace.Drawing{UnitX: x, UnitY: y}
	d.pieces(root, pose{m: identity, in: v}, out)
	out.Hidden = hiddenBelow(root, false, "", nil)
	if d.fault != nil {
		return nil, d.fault
	}
	if len(out.Pieces) == 0 && len(out.Loose) > 0 {
		out.Pieces, out.Loose = []trace.Drawn{{Strokes: out.Loose, Down: true, At: root.where()}}, nil
	}
	return out, nil
}

// hiddenBelow lists the groups and lines that are hidden, or lie in one that
// is; layer is the name of that.
func hiddenBelow(n *node, hidden bool, layer string, out []trace.Hidden) []trace.Hidden {
	for _, kid := range n.kids {
		in, within := hidden || kid.hidden, layer
		name := kid.called()
		if kid.hidden && !hidden {
			within = name
		}
		if in && name != "" && (isGroup(kid) || shapes[kid.name]) {
			out = append(out, trace.Hidden{Name: name, In: within})
		}
		out = hiddenBelow(kid, in, within, out)
	}
	return out
}

func (d *drafter) index(n *node) {
	if id := n.id(); id != "" && d.ids[id] == nil {
		d.ids[id] = n
	}
	for _, kid := range n.kids {
		d.index(kid)
	}
}

// pieces looks for pieces below an element: groups that bear a name and hold
// lines, and closed lines of their own that bear one. A group that holds named
// groups of lines is a layer, and they are the pieces.
func (d *drafter) pieces(n *node, p pose, out *trace.Drawing) {
	for _, kid := range n.kids {
		if d.fault != nil {
			return
		}
		name := kid.called()
		meaning := trace.MeaningOf(name)
		switch {
		case kid.hidden || neverDrawn[kid.name]:
		case name != "" && !meaning.Told && d.isPiece(kid):
			d.piece(kid, name, p, out)
		case isGroup(kid) && !meaning.Told:
			below, inner := d.enter(kid, p)
			if inner != nil {
				d.pieces(inner, below, out)
			}
		default:
			var strokes []trace.Stroke
			d.lines(kid, p, &strokes)
			out.Loose = append(out.Loose, strokes...)
		}
	}
}

var neverDrawn = map[string]bool{"defs": true, "symbol": true, "clipPath": true, "mask": true, "marker": true, "pattern": true, "metadata": true,
	"style": true, "title": true, "desc": true, "script": true, "linearGradient": true, "radialGradient": true, "filter": true, "image": true, "foreignObject": true}

var shapes = map[string]bool{"path": true, "rect": true, "circle": true, "ellipse": true, "line": true, "polyline": true, "polygon": true}

func isGroup(n *node) bool {
	return n.name == "g" || n.name == "svg" || n.name == "a" || n.name == "switch" || n.name == "use"
}

// isPiece reports whether a named element is a piece.
func (d *drafter) isPiece(n *node) bool {
	if !isGroup(n) {
		return shapes[n.name] && closes(n)
	}
	return d.edgeBelow(n, []string{n.called(), n.id()}, 0) && !d.layer(n, 0)
}

// layer reports whether a group holds pieces: groups that are named, tell no
// role and have lines in them, or two or more such closed lines.
func (d *drafter) layer(n *node, nested int) bool {
	if nested > mostNested {
		return false
	}
	closed := 0
	for _, kid := range d.below(n, nested) {
		if kid.hidden {
			continue
		}
		if !isGroup(kid) {
			if name := kid.called(); shapes[kid.name] && name != "" && !trace.MeaningOf(name, n.called(), n.id()).Told && closes(kid) {
				if closed++; closed > 1 {
					return true
				}
			}
			continue
		}
		name := kid.called()
		if name != "" && !trace.MeaningOf(name, n.called(), n.id()).Told && d.edgeBelow(kid, []string{n.called(), n.id(), name}, nested+1) {
			return true
		}
		if name == "" && d.layer(kid, nested+1) {
			return true
		}
	}
	return false
}

// below are the elements an element shows: its own, or those it refers to.
func (d *drafter) below(n *node, nested int) []*node {
	if n.name != "use" || nested > mostNested {
		return n.kids
	}
	if to := d.ids[strings.TrimPrefix(reference(n), "#")]; to != nil {
		if to.name == "symbol" {
			return to.kids
		}
		return []*node{to}
	}
	return nil
}

// edgeBelow reports whether a group of that name holds a line that is no mark: a group
// of marks alone is no piece. What a name says of a group holds for what is in it.
func (d *drafter) edgeBelow(n *node, piece []string, nested int) bool {
	if nested > mostNested {
		return false
	}
	for _, kid := range d.below(n, nested) {
		meaning := trace.MeaningOf(kid.called(), piece...)
		mark := meaning.Told && meaning.Role != trace.Sewing && meaning.Role != trace.Boundary
		if !kid.hidden && !mark && (shapes[kid.name] || isGroup(kid) && d.edgeBelow(kid, piece, nested+1)) {
			return true
		}
	}
	return false
}

// closes reports whether a shape is a closed one.
func closes(n *node) bool {
	switch n.name {
	case "rect", "circle", "ellipse", "polygon":
		return true
	case "path":
		return strings.ContainsAny(n.get("d"), "zZ")
	}
	return false
}

func (d *drafter) piece(n *node, name string, p pose, out *trace.Drawing) {
	p.piece = []string{name, trace.FromID(n.id())}
	drawn := trace.Drawn{ID: n.id(), Name: name, Down: true, At: n.where()}
	if isGroup(n) {
		below, inner := d.enter(n, p)
		if inner != nil {
			for _, kid := range inner.kids {
				d.lines(kid, below, &drawn.Strokes)
			}
		}
	} else {
		d.shape(n, p, trace.Meaning{}, &drawn.Strokes)
	}
	drawn.Doubled = d.doubled(n, nil)
	out.Pieces = append(out.Pieces, drawn)
}

// doubled lists the elements of a piece whose ids another bears before them.
func (d *drafter) doubled(n *node, out []trace.Double) []trace.Double {
	if first := d.ids[n.id()]; first != nil && first != n {
		out = append(out, trace.Double{At: n.where(), ID: n.id(), First: first.line})
	}
	for _, kid := range n.kids {
		out = d.doubled(kid, out)
	}
	return out
}

// lines gathers the lines of an element and of those below it.
func (d *drafter) lines(n *node, p pose, out *[]trace.Stroke) {
	if d.fault != nil || n.hidden || neverDrawn[n.name] {
		return
	}
	meaning := trace.MeaningOf(n.called(), p.piece...)
	if !meaning.Told && p.told {
		meaning.Role = p.role
	}
	if !isGroup(n) {
		if shapes[n.name] {
			d.shape(n, p, meaning, out)
		}
		return
	}
	below, inner := d.enter(n, p)
	if inner == nil {
		return
	}
	if meaning.Told {
		below.role, below.told = meaning.Role, true
	}
	begun := len(*out)
	for _, kid := range inner.kids {
		d.lines(kid, below, out)
	}
	if meaning.Name != "" { // a group of one named thing, as a level of several lines
		for i := begun; i < len(*out); i++ {
			if s := &(*out)[i]; s.Name == "" && s.Role == meaning.Role {
				s.Name, s.Fold = meaning.Name, meaning.Fold
			}
		}
	}
}

// enter is the pose of what lies in a group, and the element that holds it;
// nil where the group cannot be followed.
func (d *drafter) enter(n *node, p pose) (pose, *node) {
	m, f := ownTransform(n)
	if f != nil {
		d.fault = f
		return p, nil
	}
	p.m = p.m.times(m)
	switch n.name {
	case "svg":
		return d.inner(n, n, p), n
	case "use":
		return d.follow(n, p)
	}
	return p, n
}

func ownTransform(n *node) (matrix, *fault.Fault) {
	text := n.get("transform")
	if i := strings.Index(n.get("style"), "transform:"); i >= 0 && text == "" {
		text, _, _ = strings.Cut(n.get("style")[i+len("transform:"):], ";")
	}
	return transform(n, text)
}

// inner enters an svg or symbol element; outer says its place and size.
func (d *drafter) inner(n, outer *node, p pose) pose {
	x, y := p.in.length(n, "x", 'x', 0), p.in.length(n, "y", 'y', 0)
	if n != outer { // a use element has moved it already
		x, y = 0, 0
	}
	wide := p.in.length(outer, "width", 'x', p.in.length(n, "width", 'x', p.in.wide))
	high := p.in.length(outer, "height", 'y', p.in.length(n, "height", 'y', p.in.high))
	p.m = p.m.times(move(x, y)).times(fitted(n, wide, high))
	p.in = view{wide, high}
	if _, _, w, h, ok := box(n); ok {
		p.in = view{w, h}
	}
	return p
}

// reference is where a use element leads.
func reference(n *node) string {
	for _, a := range n.attr {
		if a.Name.Local == "href" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// follow enters what a use element refers to (SVG 2, section 5.6).
func (d *drafter) follow(n *node, p pose) (pose, *node) {
	to := reference(n)
	id, own := strings.CutPrefix(to, "#")
	target := d.ids[id]
	switch {
	case to == "":
		return p, nil
	case !own:
		d.fault = wrong(n.where(), say.Of("svg.copy-the-lines-into-the-drawing"), say.Of("svg.it-refers-to-another-file-which-is", say.Quoted(shorten(to))))
		return p, nil
	case target == nil:
		d.fault = wrong(n.where(), "", say.Of("svg.it-refers-to-which-the-file-does", say.Quoted(shorten(to))))
		return p, nil
	}
	d.uses++
	if p.nested++; p.nested > mostNested || d.uses > mostUses {
		d.fault = wrong(n.where(), say.Of("svg.does-an-element-refer-to-itself"), say.Of("svg.references-are-nested-more-than-deep-or", mostNested, mostUses))
		return p, nil
	}
	p.m = p.m.times(move(p.in.length(n, "x", 'x', 0), p.in.length(n, "y", 'y', 0)))
	if target.name == "symbol" {
		return d.inner(target, n, p), target
	}
	return p, &node{name: "g", kids: []*node{target}, line: n.line, column: n.column}
}

// shape adds the lines of one basic shape.
func (d *drafter) shape(n *node, p pose, meaning trace.Meaning, out *[]trace.Stroke) {
	m, f := ownTransform(n)
	var lines []subpath
	if f == nil {
		lines, f = outlineOf(n, p.in)
	}
	if f != nil {
		d.fault = f
		return
	}
	m = p.m.times(m)
	for _, l := range lines {
		if d.parts += len(l.parts); d.parts > mostParts {
			d.fault = wrong(n.where(), "", say.Of("svg.the-lines-of-the-file-have-more", mostParts))
			return
		}
		s := trace.Stroke{Role: meaning.Role, Name: meaning.Name, Fold: meaning.Fold, From: l.from, Parts: l.parts, Closed: l.closed, At: n.where()}
		s.Apply(func(q shape.Point) shape.Point {
			q = m.apply(q)
			return shape.Point{X: q.X, Y: -q.Y}
		})
		*out = append(*out, s)
	}
}

// outlineOf reads the geometry of a basic shape, in its own units.
func outlineOf(n *node, in view) ([]subpath, *fault.Fault) {
	x := func(name string) float64 { return in.length(n, name, 'x', 0) }
	y := func(name string) float64 { return in.length(n, name, 'y', 0) }
	switch n.name {
	case "path":
		return readPath(n.where(), n.get("d"))
	case "rect":
		rx, ry := in.length(n, "rx", 'x', -1), in.length(n, "ry", 'y', -1)
		if rx < 0 {
			rx = max(ry, 0)
		}
		if ry < 0 {
			ry = rx
		}
		if x("width") > 0 && y("height") > 0 {
			return []subpath{rectangle(x("x"), y("y"), x("width"), y("height"), rx, ry)}, nil
		}
	case "circle":
		if r := x("r"); r > 0 {
			return []subpath{ellipse(x("cx"), y("cy"), r, r)}, nil
		}
	case "ellipse":
		if x("rx") > 0 && y("ry") > 0 {
			return []subpath{ellipse(x("cx"), y("cy"), x("rx"), y("ry"))}, nil
		}
	case "line":
		l := subpath{from: shape.Point{X: x("x1"), Y: y("y1")}}
		l.straight(shape.Point{X: x("x2"), Y: y("y2")})
		return []subpath{l}, nil
	case "polyline", "polygon":
		return points(n)
	}
	return nil, nil
}

// points reads the points of a polyline or polygon.
func points(n *node) ([]subpath, *fault.Fault) {
	s := scanner{text: n.get("points")}
	l := subpath{closed: n.name == "polygon"}
	for k := 0; ; k++ {
		if s.separator(); s.done() {
			if k > 0 {
				return []subpath{l}, nil
			}
			return nil, nil
		}
		x, ok := s.number()
		s.separator()
		y, also := s.number()
		if !ok || !also {
			return nil, wrong(n.where(), say.Of("svg.two-numbers-make-a-point"), say.Of("svg.its-points-cannot-be-read-at-character", s.i+1))
		}
		if k == 0 {
			l.from = shape.Point{X: x, Y: y}
		} else {
			l.straight(shape.Point{X: x, Y: y})
		}
	}
}
