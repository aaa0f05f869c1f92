package dxf

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// A drafter gathers the lines of the pieces.
type drafter struct {
	in      *file
	parts   int
	inserts int
	unseen  []string // layers of the piece being drawn whose lines were left out
	fault   *fault.Fault
}

// A pose places what a block draws: x' = ax + cy + e, y' = bx + dy + f.
type pose struct{ a, b, c, d, e, f float64 }

var upright = pose{a: 1, d: 1}

func (m pose) apply(p shape.Point) shape.Point {
	return shape.Point{X: float64(m.a*p.X) + float64(m.c*p.Y) + m.e, Y: float64(m.b*p.X) + float64(m.d*p.Y) + m.f}
}

func (m pose) times(n pose) pose {
	return pose{
		a: float64(m.a*n.a) + float64(m.c*n.b), b: float64(m.b*n.a) + float64(m.d*n.b),
		c: float64(m.a*n.c) + float64(m.c*n.d), d: float64(m.b*n.c) + float64(m.d*n.d),
		e: float64(m.a*n.e) + float64(m.c*n.f) + m.e, f: float64(m.b*n.e) + float64(m.d*n.f) + m.f,
	}
}

// draw makes a piece of every block that draws lines; where there is none, of
// every named layer, its lines those of the layers whose names begin with its
// own; where there is none of those either, of everything.
func draw(in *file) (*trace.Drawing, *fault.Fault) {
	d := &drafter{in: in}
	out := &trace.Drawing{UnitX: in.unit, UnitY: in.unit}
	unit := in.unit
	for _, name := range in.order {
		b := in.blocks[name]
		if strings.HasPrefix(name, "*") || d.placedByPiece(name) {
			continue
		}
		drawn := trace.Drawn{ID: name, Name: titleOf(b.entities, name), At: trace.Where{Line: b.line, What: "block " + quoted(name)}}
		if layer, frozen := d.frozen(name); frozen {
			out.Hidden = append(out.Hidden, trace.Hidden{Name: drawn.Name, In: layer}, trace.Hidden{Name: name, In: layer})
			continue
		}
		d.add(out, drawn, d.poseOf(b), b.entities, name, drawn.Name)
		unit = orUnit(unit, b.entities)
	}
	unit = orUnit(unit, in.entities)
	if len(out.Pieces) == 0 && len(out.Hidden) == 0 {
		d.byLayer(out)
	}
	out.UnitX, out.UnitY = unit, unit
	if d.fault != nil {
		return nil, d.fault
	}
	return out, nil
}

// add adds a piece with the lines of entities to a drawing, or to what it does
// not show where all of them are on layers that it does not.
func (d *drafter) add(out *trace.Drawing, drawn trace.Drawn, m pose, list []entity, names ...string) {
	d.unseen = nil
	for _, e := range list {
		d.entity(e, m, names, 0, &drawn.Strokes)
	}
	drawn.Unseen = d.unseen
	switch {
	case len(drawn.Strokes) > 0:
		out.Pieces = append(out.Pieces, drawn)
	case len(d.unseen) > 0:
		if drawn.Name == "" {
			drawn.Name = d.unseen[0]
		}
		out.Hidden = append(out.Hidden, trace.Hidden{Name: drawn.Name, In: d.unseen[0]}, trace.Hidden{Name: drawn.ID, In: d.unseen[0]})
	}
}

// frozen reports whether a block is placed on frozen layers only, and names one
// of them: what is placed there is not shown, whatever layers its lines are on.
func (d *drafter) frozen(name string) (layer string, frozen bool) {
	for i := range d.in.entities {
		e := &d.in.entities[i]
		if e.kind != "INSERT" || e.text(2) != name {
			continue
		}
		layer = e.layer()
		if frozen = d.in.unseen[layer]; !frozen {
			return "", false
		}
	}
	return layer, frozen
}

func quoted(s string) string { return `"` + shorten(s) + `"` }

// placedByPiece reports whether a block is part of another one: a notch that
// is drawn once and placed often.
func (d *drafter) placedByPiece(name string) bool {
	for _, other := range d.in.order {
		for _, e := range d.in.blocks[other].entities {
			if e.kind == "INSERT" && e.text(2) == name && other != name {
				return true
			}
		}
	}
	return false
}

// poseOf is how a block is turned, mirrored and stretched where the drawing
// places it; where it lies does not matter. A block that is placed more than
// once, or not at all, is taken as it is drawn.
func (d *drafter) poseOf(b *block) pose {
	var found *entity
	for i := range d.in.entities {
		e := &d.in.entities[i]
		if e.kind != "INSERT" || e.text(2) != b.name {
			continue
		}
		if found != nil {
			return upright
		}
		found = e
	}
	if found == nil {
		return upright
	}
	m := placing(found, b)
	m.e, m.f = 0, 0
	return m
}

// placing is the transform of an INSERT.
func placing(e *entity, b *block) pose {
	sx, sy := 1.0, 1.0
	if p, ok := e.get(41); ok && p.number() != 0 {
		sx = p.number()
	}
	if p, ok := e.get(42); ok && p.number() != 0 {
		sy = p.number()
	}
	sin, cos := math.Sincos(e.number(50) * math.Pi / 180)
	if q := e.number(50) / 90; q == math.Trunc(q) && math.Abs(q) < 1e6 {
		k := (int(q)%4 + 4) % 4
		sin, cos = [4]float64{0, 1, 0, -1}[k], [4]float64{1, 0, -1, 0}[k]
	}
	m := pose{a: cos * sx, b: sin * sx, c: -sin * sy, d: cos * sy, e: e.number(10), f: e.number(20)}
	return mirroredOut(e, m.times(pose{a: 1, d: 1, e: -b.baseX, f: -b.baseY}))
}

// mirroredOut follows an extrusion that points away: such an entity is drawn
// as seen from behind, x running to the left.
func mirroredOut(e *entity, m pose) pose {
	if p, ok := e.get(230); ok && p.number() < 0 {
		return pose{a: -1, d: 1}.times(m)
	}
	return m
}

// titleOf is the name a text in a block gives its piece, as pattern exchange
// has it (from memory: ASTM D6673).
func titleOf(list []entity, otherwise string) string {
	for i := range list {
		if text, ok := words(&list[i]); ok {
			if k, v, ok := strings.Cut(text, ":"); ok && strings.EqualFold(strings.TrimSpace(k), "piece name") && strings.TrimSpace(v) != "" {
				return strings.TrimSpace(v)
			}
		}
	}
	return otherwise
}

// words are the words of a text entity.
func words(e *entity) (string, bool) {
	if e.kind != "TEXT" && e.kind != "MTEXT" && e.kind != "ATTRIB" && e.kind != "ATTDEF" {
		return "", false
	}
	text := ""
	for _, p := range e.pairs {
		if p.code == 3 && e.kind == "MTEXT" || p.code == 1 {
			text += plain(p.value)
		}
	}
	return text, true
}

// orUnit is the unit a text says, as pattern exchange has it (from memory:
// ASTM D6673), where it is not known yet.
func orUnit(unit float64, list []entity) float64 {
	for i := range list {
		if unit > 0 {
			return unit
		}
		if text, ok := words(&list[i]); ok {
			k, v, _ := strings.Cut(strings.ToLower(text), ":")
			switch {
			case strings.TrimSpace(k) != "units":
			case strings.TrimSpace(v) == "metric":
				return 1
			case strings.TrimSpace(v) == "english":
				return 25.4
			}
		}
	}
	return unit
}

// byLayer makes pieces of the layers of a drawing without blocks.
func (d *drafter) byLayer(out *trace.Drawing) {
	var bases []string // layers that name a piece
	for i := range d.in.entities {
		l := d.in.entities[i].layer()
		if l == "" || isNumbered(l) || trace.Automatic(l) || meaningOf(l).Told || slices.Contains(bases, l) {
			continue
		}
		bases = append(bases, l)
	}
	bases = slices.DeleteFunc(bases, func(l string) bool { // "front notches" belongs to "front"
		return slices.ContainsFunc(bases, func(base string) bool { return base != l && meaningOf(l, base).Told })
	})
	if len(bases) == 0 {
		var drawn trace.Drawn
		drawn.At = trace.Where{What: "drawing"}
		drawn.Name = titleOf(d.in.entities, "")
		d.add(out, drawn, upright, d.in.entities)
		return
	}
	for _, base := range bases {
		drawn := trace.Drawn{ID: base, Name: base, At: trace.Where{What: "layer " + quoted(base)}}
		var own []entity
		for _, e := range d.in.entities {
			l := e.layer()
			if l == base || meaningOf(l, base).Told && !meaningOf(l).Told && !isNumbered(l) {
				own = append(own, e)
			}
		}
		d.add(out, drawn, upright, own, base)
	}
}

// passedOver are entities that draw no line of a pattern.
var passedOver = []string{"TEXT", "MTEXT", "ATTRIB", "ATTDEF", "SEQEND", "VIEWPORT", "DIMENSION", "HATCH", "IMAGE", "SOLID", "TRACE", "LEADER", "VERTEX", "ENDBLK"}

// entity adds the lines of one entity.
func (d *drafter) entity(e entity, m pose, piece []string, nested int, out *[]trace.Stroke) {
	if d.fault != nil || slices.Contains(passedOver, e.kind) || e.number(60) == 1 { // 60: not shown
		return
	}
	if e.kind == "INSERT" {
		d.insert(e, m, piece, nested, out)
		return
	}
	meaning := ownMeaning(&e, piece)
	if meaning.Role == trace.Aside {
		return
	}
	if _, unseen := d.in.unseen[e.layer()]; unseen {
		if !slices.Contains(d.unseen, e.layer()) {
			d.unseen = append(d.unseen, e.layer())
		}
		return
	}
	s, f := stroke(&e)
	if f != nil {
		d.fault = f
		return
	}
	if s == nil {
		return
	}
	if d.parts += len(s.Parts); d.parts > mostParts {
		d.fault = wrong(e.where(), "", say.Of("dxf.the-lines-of-the-file-have-more", mostParts))
		return
	}
	if e.kind != "LINE" && e.kind != "POINT" {
		m = m.times(mirroredOut(&e, upright))
	}
	s.Role, s.Name, s.Fold, s.At = meaning.Role, meaning.Name, meaning.Fold, e.where()
	s.Apply(m.apply)
	*out = append(*out, *s)
}

// ownMeaning is what a line is: by what was written with it for this program,
// else by its layer.
func ownMeaning(e *entity, piece []string) trace.Meaning {
	for i, p := range e.pairs {
		if p.code == 1001 && strings.TrimSpace(p.value) == application && i+1 < len(e.pairs) && e.pairs[i+1].code == 1000 {
			return trace.MeaningOf(plain(e.pairs[i+1].value))
		}
	}
	return meaningOf(e.layer(), piece...)
}

func (d *drafter) insert(e entity, m pose, piece []string, nested int, out *[]trace.Stroke) {
	b := d.in.blocks[e.text(2)]
	if b == nil {
		d.fault = wrong(e.where(), "", say.Of("dxf.it-places-the-block-which-the-file", say.Quoted(shorten(e.text(2)))))
		return
	}
	if d.in.unseen[e.layer()] {
		return // frozen
	}
	d.inserts++
	if nested >= mostNested || d.inserts > mostInserts {
		d.fault = wrong(e.where(), say.Of("dxf.does-a-block-place-itself"), say.Of("dxf.blocks-are-nested-more-than-deep-or", mostNested, mostInserts))
		return
	}
	m = m.times(placing(&e, b))
	for _, one := range b.entities {
		d.entity(one, m, piece, nested+1, out)
	}
}
