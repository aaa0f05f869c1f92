package record

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/dxf"
	"hembook/internal/shape/svg"
	"hembook/internal/shape/trace"
)

// An outlineReader draws the pieces of one build whose outlines lie in files.
type outlineReader struct {
	r      *Room
	b      *Build
	faults *fault.Faults
	files  map[string]patternFile // by path: what lies there
}

// A patternFile is the text of a file, or why it cannot be had.
type patternFile struct {
	text []byte
	bad  string // empty where it was read
	hint string
	near string // the name of the file that was probably meant
}

// readOutlines fills in every outline that a file draws: its edges, and the
// darts, levels and grain that the piece itself says nothing of.
func (o *outlineReader) readOutlines() {
	b, faults := o.b, o.faults
	for i := range b.Pieces {
		spec := b.Pieces[i].Outline
		if spec == nil {
			continue
		}
		if !spec.File.Given() {
			drawnHere(&b.Pieces[i], faults)
			continue
		}
		o.outline(&b.Pieces[i])
	}
}

// drawnHere checks what only an outline drawn in the record must have, and
// what only one drawn in a file may have.
func drawnHere(p *Piece, faults *fault.Faults) {
	spec := p.Outline
	if !spec.From.Given() {
		spec.From.At = spec.At // [0, 0]
	}
	for i := range spec.Edges {
		switch e := &spec.Edges[i]; {
		case !e.At.Given() || e.unread || e.To.Given():
		case i == len(spec.Edges)-1:
			e.To = Val[XY]{spec.From.V, e.At} // it ends where the first began
		default:
			faults.Wrong(e.At, say.Of("record.write-where-it-ends-as-x-y", e.Name.V), say.Of("record.has-no-point", p.Name.V, e.Name.V))
		}
	}
	spec.bent(faults)
	for _, word := range []struct {
		name string
		at   fault.Pos
	}{{"units", spec.Units.At}, {"scale", spec.Scale.At}, {"corners", spec.Corners.At}, {"line", spec.Line.At}} {
		if word.at.Given() {
			faults.Wrong(word.at, say.Of("record.take-it-out-the-points-of-an"), say.Of("record.belongs-to-an-outline-from-a-file", word.name)).Without(word.at)
		}
	}
}

// outline draws one piece; where it cannot, the piece is left without edges.
func (o *outlineReader) outline(p *Piece) {
	if piece := o.assembled(p); piece != nil {
		fillIn(p, piece)
		return
	}
	p.Outline.Edges = nil
}

// assembled is the piece that the file draws; nil where it cannot be had,
// which is told.
func (o *outlineReader) assembled(p *Piece) *trace.Piece {
	spec := p.Outline
	if spec.From.Given() {
		o.faults.Wrong(spec.From.At, say.Of("record.leave-from-out"), say.Of("record.the-outline-is-drawn-by-a-file")).Without(spec.From.At)
		return nil
	}
	for i := range spec.Edges {
		if e := &spec.Edges[i]; e.To.Given() || e.Bend.Given() {
			o.faults.Wrong(e.At, say.Of("record.leave-to-and-curve-out"), say.Of("record.the-edge-is-drawn-by-a-file"))
			return nil
		}
	}
	file, id, _ := strings.Cut(spec.File.V, "#")
	drawing := o.drawing(spec, file)
	if drawing == nil {
		return nil
	}
	drawn := o.find(spec, drawing, file, strings.TrimSpace(id))
	if drawn == nil {
		return nil
	}
	piece, faults := drawn.Assemble(optionsOf(p))
	wrong := false
	for i := range faults {
		o.tell(spec, file, &faults[i])
		wrong = wrong || faults[i].Severity == fault.Error
	}
	if wrong {
		return nil
	}
	return piece
}

// tell tells what is wrong with a file at the line of the record that names
// it; the message says where in the file it is.
func (o *outlineReader) tell(spec *OutlineSpec, file string, f *fault.Fault) {
	tell := o.faults.Errorf
	if f.Severity == fault.Warning {
		tell = o.faults.Warnf
	}
	if !strings.HasPrefix(f.Message, "the file does not say how large") {
		tell(spec.File.At, f.Hint, "%s: %s", file, f.Placed())
		return
	}
	hint := say.Of("record.if-one-unit-of-it-is-1", spec.File.V)
	told := tell(spec.File.At, hint, "%s: %s", file, f.Placed())
	if spec.File.At == spec.At {
		told.Instead(spec.File.V, "{file: "+spec.File.V+", units: mm}")
	} else {
		told.Set(spec.At, "", "units: mm")
	}
}

func optionsOf(p *Piece) trace.Options {
	spec := p.Outline
	opt := trace.Options{Corner: spec.Corners.Or(0), Boundary: spec.Line.V == "boundary", KeepGrain: p.Grain.Given()}
	for i := range spec.Edges {
		opt.Names = append(opt.Names, spec.Edges[i].Name.V)
	}
	return opt
}

var unitOf = map[string]float64{"mm": 1, "cm": 10, "in": 25.4}

// drawing reads the file; nil where it cannot be used, which is told.
func (o *outlineReader) drawing(spec *OutlineSpec, file string) *trace.Drawing {
	full, bad := photoPath(o.b.Folder, file)
	if bad != "" {
		o.faults.Wrong(spec.File.At, say.Of("record.name-a-file-beside-the-record-as-2"), say.Of("record.the-pattern-file", say.Quoted(fault.Shorten(file)), bad))
		return nil
	}
	read := svg.Read
	switch strings.ToLower(path.Ext(file)) {
	case ".svg":
	case ".dxf":
		read = dxf.Read
	default:
		o.faults.Wrong(spec.File.At, say.Of("record.name-an-svg-or-dxf-file-as"), say.Of("record.is-not-a-pattern-file-that-can", say.Quoted(fault.Shorten(file))))
		return nil
	}
	lies, seen := o.files[full]
	if !seen {
		lies = o.load(full)
		o.files[full] = lies
	}
	if lies.bad != "" {
		f := o.faults.Wrong(spec.File.At, lies.hint, say.Of("record.the-pattern-file-cannot-be-read", say.Quoted(fault.Shorten(file)), lies.bad))
		f.Instead(path.Base(file), lies.near)
		return nil
	}
	drawing, fault := read(lies.text)
	if fault == nil {
		fault = drawing.Resize(unitOf[spec.Units.V], float64(spec.Scale.V))
	}
	if fault != nil {
		o.tell(spec, file, fault)
		return nil
	}
	return drawing
}

// load reads a file whole, within bounds.
func (o *outlineReader) load(full string) patternFile {
	f, err := o.r.FS.Open(full)
	if err != nil {
		hint, near := o.openPattern(full, err)
		return patternFile{bad: plainError(err), hint: hint, near: near}
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return patternFile{bad: plainError(err)}
	case !info.Mode().IsRegular():
		return patternFile{bad: say.Of("record.it-is-not-a-file")}
	case info.Size() > svg.MostBytes:
		return patternFile{bad: say.Of("record.it-is-at-most-are-read", sizeWords(info.Size()), sizeWords(svg.MostBytes)), hint: say.Of("record.take-out-pictures-that-were-put-into")}
	}
	text, err := io.ReadAll(io.LimitReader(f, svg.MostBytes+1))
	if err != nil {
		return patternFile{bad: plainError(err)}
	}
	return patternFile{text: text}
}

// openPattern answers a file that is not there with those that are, and the one that
// was probably meant.
func (o *outlineReader) openPattern(full string, err error) (hint, near string) {
	if !errors.Is(err, fs.ErrNotExist) {
		return openHint(err), ""
	}
	var there []string
	dir := path.Dir(full)
	entries, _ := fs.ReadDir(o.r.FS, dir)
	for _, e := range entries {
		if ext := strings.ToLower(path.Ext(e.Name())); ext == ".svg" || ext == ".dxf" {
			there = append(there, e.Name())
		}
	}
	if len(there) == 0 {
		return openHint(err), ""
	}
	return meant.Among(path.Base(full), there, say.Of("record.beside-it-there-are")), meant.Nearest(path.Base(full), there)
}

// find finds the piece asked for; nil where there is none, which is told.
func (o *outlineReader) find(spec *OutlineSpec, d *trace.Drawing, file, id string) *trace.Drawn {
	var names []string
	for i := range d.Pieces {
		if n := d.Pieces[i].Name; n != "" {
			names = append(names, n)
		}
	}
	hidden := slices.IndexFunc(d.Hidden, func(h trace.Hidden) bool { return id != "" && meant.Plain(h.Name) == meant.Plain(id) })
	switch {
	case hidden >= 0 && !o.draws(d, id):
		o.faults.Wrong(spec.File.At, showHint(d.Hidden[hidden]), say.Of("record.holds-the-piece-but-it-is-hidden", file, say.Quoted(fault.Shorten(id))))
		return nil
	case len(d.Pieces) == 0 && len(d.Hidden) > 0:
		o.faults.Wrong(spec.File.At, showHint(d.Hidden[0]), say.Of("record.draws-no-piece-is-hidden-there", file, say.Quoted(fault.Shorten(d.Hidden[0].Name))))
		return nil
	case len(d.Pieces) == 0:
		o.faults.Wrong(spec.File.At, "", say.Of("record.draws-no-piece", file))
		return nil
	case id == "" && len(d.Pieces) == 1:
		return &d.Pieces[0]
	case id == "":
		o.faults.Wrong(spec.File.At, say.Of("record.write-and-a-name-after-it-it", meant.List(names, "and")), say.Of("record.draws-pieces-and-the-outline-does-not", file, len(d.Pieces))).
			Instead(spec.File.V, o.ownName(spec, file, names))
		return nil
	case len(names) == 0:
		o.faults.Wrong(spec.File.At, say.Of("record.write-alone-or-name-the-group-of", file), say.Of("record.draws-one-piece-which-has-no-name", file))
		return nil
	}
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, func(a, b string) bool { return meant.Plain(a) == meant.Plain(b) }} {
		for i := range d.Pieces {
			if same(d.Pieces[i].ID, id) || same(d.Pieces[i].Name, id) {
				if slices.ContainsFunc(d.Pieces[i+1:], func(p trace.Drawn) bool { return same(p.ID, id) || same(p.Name, id) }) {
					o.faults.LookAgain(spec.File.At, say.Of("record.give-the-others-names-of-their-own"), say.Of("record.draws-several-pieces-called-the-first", file, say.Quoted(fault.Shorten(id))))
				}
				return &d.Pieces[i]
			}
		}
	}
	near := ""
	if name := meant.Nearest(id, names); name != "" {
		near = file + "#" + name
	}
	o.faults.Wrong(spec.File.At, meant.Among(id, names, say.Of("record.it-draws")), say.Of("record.draws-no-piece-2", file, say.Quoted(fault.Shorten(id)))).Instead(spec.File.V, near)
	return nil
}

// showHint says which layer must be shown.
func showHint(h trace.Hidden) string {
	if h.In == "" {
		return say.Of("record.show-its-layer-and-save-the-drawing")
	}
	return say.Of("record.show-the-layer-and-save-the-drawing", strconv.Quote(fault.Shorten(h.In)))
}

// draws reports whether a drawing shows a piece of that name.
func (o *outlineReader) draws(d *trace.Drawing, id string) bool {
	return slices.ContainsFunc(d.Pieces, func(p trace.Drawn) bool {
		return p.ID == id || meant.Plain(p.ID) == meant.Plain(id) || meant.Plain(p.Name) == meant.Plain(id)
	})
}

// fillIn writes the piece that a file draws into the record as if it had been
// drawn there. What the piece says itself stands.
func fillIn(p *Piece, from *trace.Piece) {
	spec, at := p.Outline, p.Outline.File.At
	spec.Drawn = from
	said := spec.Edges
	spec.From = Val[XY]{xyOf(from.Outline.From), at}
	spec.Edges = make([]EdgeLine, len(from.Outline.Edges))
	for i, e := range from.Outline.Edges {
		one := EdgeLine{At: at, Name: Text{e.Name, at}}
		if k := slices.IndexFunc(said, func(s EdgeLine) bool { return s.Name.V == e.Name }); k >= 0 {
			one = said[k]
		}
		one.To = Val[XY]{xyOf(e.To), one.At}
		if e.Curved {
			one.Curve = Val[Handles]{Handles{xyOf(e.C1), xyOf(e.C2)}, one.At}
		}
		if e.Fold && !one.Fold.Given() {
			one.Fold = Flag{true, one.At}
		}
		spec.Edges[i] = one
	}
	if from.Grain != "" && !p.Grain.Given() {
		p.Grain = Text{from.Grain, at}
	}
	if len(p.Darts) == 0 {
		for _, d := range from.Darts {
			p.Darts = append(p.Darts, dartAt(d, at))
		}
	}
	if len(p.Pleats) == 0 {
		for _, q := range from.Pleats {
			p.Pleats = append(p.Pleats, pleatAt(from, q, at))
		}
	}
	if len(p.Notches) == 0 {
		for _, n := range from.Notches {
			p.Notches = append(p.Notches, NotchSpec{At: at, Name: nameAt(n.Name, at), Edge: Text{n.Edge, at}, Along: lengthAt(n.At, at)})
		}
	}
	p.Placed = from.Places
	if len(p.Lines) == 0 {
		for _, l := range from.Lines {
			line := LineSpec{At: at, Name: Text{l.Name, at}, Path: l.Points, Slit: Flag{l.Of == trace.SlitLine, at}, Fold: Flag{l.Of == trace.Crease, at}}
			if l.Laid() {
				line.Laid = l.Kind()
			}
			p.Lines = append(p.Lines, line)
		}
	}
	for _, l := range from.Levels {
		if _, said := p.Levels.Get(l.Name); !said {
			p.Levels = append(p.Levels, Named[Length]{Text{l.Name, at}, lengthAt(l.Y, at)})
		}
	}
}

// DrawnIn names the file that draws the piece, in brackets after a space; ""
// where the record does.
func (p *Piece) DrawnIn() string {
	if p.Outline == nil || !p.Outline.File.Given() {
		return ""
	}
	return " (" + p.Outline.File.V + ")"
}

func xyOf(p shape.Point) XY { return XY{p.X, p.Y} }

func dartAt(d trace.Dart, at fault.Pos) DartSpec {
	out := DartSpec{At: at, Name: nameAt(d.Name, at), Edge: Text{d.Edge, at}, Along: lengthAt(d.At, at), Width: lengthAt(d.Width, at)}
	if d.Slanted {
		out.Point = Val[XY]{xyOf(d.Point), at}
	} else {
		out.Length = lengthAt(d.Length, at)
	}
	return out
}

// pleatAt is a pleat as a file draws it: open. Which way its fold is laid is said by the
// edge there.
func pleatAt(from *trace.Piece, q trace.Pleat, at fault.Pos) PleatSpec {
	out := PleatSpec{At: at, Edge: Text{q.Edge, at}, Kind: Text{q.Kind, at}, Depth: lengthAt(q.Depth, at), Drawn: Flag{true, at}}
	if q.Taper != (shape.Taper{}) {
		out.Then, out.Until = lengthAt(q.Taper.Depth, at), lengthAt(q.Taper.Until, at)
	}
	out.Place = Where{phrase.Where{By: measure.MM(q.At)}, at}
	if q.Kind == "knife" {
		sides := from.Outline.Sides()
		for k, s := range sides {
			if s.Name == q.Edge {
				to := (k + len(sides) - 1) % len(sides)
				if q.ToEnd {
					to = (k + 1) % len(sides)
				}
				out.Towards = Text{sides[to].Name, at}
			}
		}
	}
	return out
}

// nameAt is a name, not given where it is only a number.
func nameAt(name string, at fault.Pos) Text {
	if trace.Automatic(name) {
		return Text{}
	}
	return Text{name, at}
}

func lengthAt(mm float64, at fault.Pos) Length { return Length{measure.MM(mm), at} }
