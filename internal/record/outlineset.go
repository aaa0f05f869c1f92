package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/shape/trace"
)

// spreadFiles makes of "panels: {outline: pattern/stays.svg}" a piece for each that the
// file draws, called as there; panels stands for all of them. A piece that is itself
// called like one that the file draws was to be that one, and a file of which another
// piece takes one by its name is not meant as a whole.
func (o *outlineReader) spreadFiles() {
	if !slices.ContainsFunc(o.b.Pieces, wholeFile) {
		return
	}
	var out []Piece
	o.b.like.pieces = map[string][]string{}
	for _, p := range o.b.Pieces {
		drawn := o.drawnTogether(&p)
		if len(drawn) < 2 {
			out = append(out, p)
			continue
		}
		for _, d := range drawn {
			one, spec := p, *p.Outline
			spec.File.V += "#" + d.Name
			spec.Edges = slices.Clone(spec.Edges)
			one.Outline, one.Name = &spec, Text{d.Name, p.Name.At}
			one.Darts, one.Notches, one.Levels = slices.Clone(p.Darts), slices.Clone(p.Notches), slices.Clone(p.Levels)
			out = append(out, one)
			o.b.like.pieces[p.Name.V] = append(o.b.like.pieces[p.Name.V], d.Name)
		}
	}
	o.b.Pieces = out
}

// wholeFile reports whether a piece has its outline from a file without a name in it.
func wholeFile(p Piece) bool {
	return p.Outline != nil && p.Outline.File.Given() && !strings.Contains(p.Outline.File.V, "#")
}

// drawnTogether are the pieces that a file draws, where they are meant as a whole.
func (o *outlineReader) drawnTogether(p *Piece) []trace.Drawn {
	if !wholeFile(*p) || !p.Name.Given() {
		return nil
	}
	file := p.Outline.File.V
	if slices.ContainsFunc(o.b.Pieces, func(q Piece) bool {
		return q.Outline != nil && (strings.HasPrefix(q.Outline.File.V, file+"#") || q.Outline.File.V == file && q.Name.V != p.Name.V)
	}) {
		return nil
	}
	quiet := *o
	quiet.faults = &fault.Faults{} // what is wrong with it is told when the pieces are drawn
	d := quiet.drawing(p.Outline, file)
	o.b.like.unread = o.b.like.unread || d == nil
	if d == nil || slices.ContainsFunc(d.Pieces, func(t trace.Drawn) bool {
		return t.Name == "" || t.Name == p.Name.V || strings.ContainsAny(t.Name, "#.")
	}) {
		return nil
	}
	return d.Pieces
}

// ownName is the file with the name of the piece after it, where it draws one of that
// name; "" where not.
func (o *outlineReader) ownName(spec *OutlineSpec, file string, names []string) string {
	for i := range o.b.Pieces {
		if p := &o.b.Pieces[i]; p.Outline == spec && slices.Contains(names, p.Name.V) {
			return file + "#" + p.Name.V
		}
	}
	return ""
}
