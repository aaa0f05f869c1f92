package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// scales are the scales that pieces are drawn to, largest first: millimetres
// of the piece for one millimetre on paper.
var scales = []float64{2, 4, 5, 8, 10, 15, 20, 25, 40, 50, 80, 100}

// ScaleFor is the largest scale at which pieces of that extent, in
// millimetres, fit the given width and height on paper.
func ScaleFor(wide, high, paperWide, paperHigh float64) float64 {
	for _, s := range scales {
		if wide/s <= paperWide && high/s <= paperHigh {
			return s
		}
	}
	return scales[len(scales)-1]
}

// Parts are what is drawn of a piece, joined with |.
type Parts uint32

// The parts.
const (
	Lines       Parts = 1 << iota // the line that is cut and the line that is sewn
	Levels                        // where waist, bust and the like run across, with their names
	Darts                         // their legs, and a cross at the point
	Pleats                        // folds, places and an arrow from the one to the other
	PleatWords                    // what is done at each of their lines
	Notches                       // strokes over the allowance
	Grain                         // an arrow along it
	Folds                         // a bracket that points to each
	FoldWords                     // what the bracket means
	Name                          // of the piece
	Label                         // its name, how often it is cut, of which garment
	EdgesBeside                   // the names of the edges and their allowances, outside
	EdgesWithin                   // the same, inside along the edges
	Bar                           // of the scale
	Gathers                       // rows that gather an edge
	Beside                        // rows beside seams and inside finished edges
	Chalk                         // where a button or the like is put, and its buttonhole
	Inner                         // slits, folds and other lines on it
	InnerWords                    // their names along them
	Laid                          // tapes, boning, elastic and cords, where they lie
	Named                         // each line alone and by its name, as files for others have it
	OnPage      = Lines | Levels | Darts | Pleats | Inner | InnerWords | Gathers | Beside | Laid | Chalk | Grain | Folds | Name | EdgesBeside | Bar
	OnSheet     = Lines | Darts | Pleats | Inner | Gathers | Beside | Laid | Chalk | Grain | Folds
	ToGive      = Lines | Levels | Darts | Pleats | Inner | Gathers | Beside | Laid | Chalk | Notches | Grain | Folds | Label | Named
	AtFullSize  = Lines | Levels | Darts | Pleats | PleatWords | Inner | InnerWords | Gathers | Beside | Laid | Chalk | Notches | Grain | Folds | FoldWords | Label | EdgesWithin
)

// PieceStyle says how pieces of one build are drawn.
type PieceStyle struct {
	Scale   float64 // millimetres of the piece for one on paper
	Parts   Parts   // 0 for OnPage
	Measure measure.Style
	Numbers map[measure.Quantity]string     // lengths printed before; may be nil
	Build   string                          // the garment's name, for the label; may be empty
	Called  string                          // what the piece is called there; empty for its own name
	Stripes []shape.Stripes                 // of its cloth, as they lie on it; none where that has none
	Leads   func(*garment.PieceEdge) string // the place on the page that tells of an edge; nil where none does
	Wide    func(drawing.Label) float64     // how wide a label is set; nil for an estimate
}

// Piece draws a pattern piece, to scale.
func Piece(p *garment.Piece, style PieceStyle) *drawing.Drawing {
	least, most := p.Bounds()
	d := newPiece(p, least, most, style)
	has := d.has
	var bar scaleBar
	if has(Bar) {
		bar = barFor(d.f.K, style.Measure)
	}
	if has(EdgesBeside) {
		d.Title, d.Desc = d.title(), d.desc()
		d.labelEdges()
	}
	d.Box.Left -= d.hand.rim
	d.Box.Top -= d.hand.rim
	d.Box.Right = max(d.Box.Right+d.hand.rim, bar.wide())
	barY := d.Box.Bottom + barTop
	if d.Box.Bottom += d.hand.rim; has(Bar) {
		d.Box.Bottom = barY + smallHeight/2 + margin/2
	}
	for _, part := range [...]struct {
		Parts
		draw func()
	}{
		{Lines, d.lines}, {Lines, d.stripes}, {Levels, d.levels}, {Darts, d.darts}, {Pleats, d.pleats}, {Inner, d.inner}, {Gathers, d.gathers}, {Beside, d.beside}, {Laid, d.laidIn}, {Chalk, d.chalk}, {Notches, d.notches}, {Grain, d.grain}, {Folds, d.folds},
		{Name, d.name}, {Label, d.label}, {PleatWords, d.pleatNames}, {FoldWords, d.foldNames}, {Levels, d.levelNames}, {Label, d.innerNames}, {Label, d.laidNames}, {EdgesBeside, d.edgesBeside}, {EdgesWithin, d.edgesWithin},
	} {
		if has(part.Parts) {
			part.draw()
		}
	}
	if has(Bar) {
		bar.draw(d.Drawing, 0, barY)
	}
	return d.Drawing
}

// has reports whether any of some parts is drawn.
func (d *pieceDrawing) has(parts Parts) bool { return d.style.Parts&parts != 0 }

// A hand is how large things are drawn, in millimetres on paper.
type hand struct {
	look       *drawing.Look
	rim        float64   // free space round a drawing
	exact      bool      // the cut line has all its points
	arrow      float64   // length of an arrow head
	cross      float64   // half of the cross at a dart's point
	grainAt    float64   // where on the widest stretch an upright grain arrow stands
	grainLeast float64   // half an arrow's length, at least and
	grainMost  float64   // at most
	grainDrop  float64   // how far below the middle an arrow across stands, of the piece's height
	heights    []float64 // where the widest stretch is looked for, of the piece's height
	narrow     float64   // a piece narrower than this has its label lying
	foldInset  float64   // how far a fold's bracket stands inside the fold
	foldEnd    float64   // how far off the fold its ends stand, and
	foldTip    float64   // their arrows
	levelGap   float64   // between the name of a level and the edge, and
	levelRise  float64   // the level
}

var (
	smallHand = hand{look: &drawing.Print, rim: margin, arrow: arrowLong, cross: cross, grainAt: 0.36, grainLeast: 1.2 * arrowLong, grainMost: 19,
		heights: []float64{0.5}, foldInset: foldInset, foldEnd: 0.4, foldTip: 0.2, levelGap: gap, levelRise: 0.5}
	fullHand = hand{look: &drawing.FullSize, rim: 1, exact: true, arrow: 3.5, cross: 1.2, grainAt: 0.4, grainLeast: 6, grainMost: 150, grainDrop: 0.22,
		heights: []float64{0.5, 0.42, 0.58, 0.34, 0.66}, narrow: 45, foldInset: 9, foldEnd: 1, foldTip: 1, levelGap: 3, levelRise: 1}
)

// A pieceDrawing is one piece being drawn.
type pieceDrawing struct {
	*drawing.Drawing
	p      *garment.Piece
	f      drawing.Frame
	style  PieceStyle
	hand   *hand
	mid    stretch
	labels []edgeLabel
	flat   shape.Ring // the sewing line in straight stretches, once it is asked for
	flatOf []int      // and the edge of each
	crowd  crowd      // at full size, what words keep off, once all lines are drawn
}

// newPiece begins a drawing of a piece that lies between two corners.
func newPiece(p *garment.Piece, least, most shape.Point, style PieceStyle) *pieceDrawing {
	if style.Parts == 0 {
		style.Parts = OnPage
	}
	d := &pieceDrawing{Drawing: drawing.New("piece"), p: p, style: style, hand: &smallHand, f: drawing.Frame{Left: least.X, Top: most.Y, K: 1 / style.Scale}}
	if d.has(Label) {
		d.hand = &fullHand
	}
	if d.has(Named) { // the piece keeps its own origin
		d.Title, d.f.Left, d.f.Top = p.Name, 0, 0
	}
	d.Box.Left, d.Box.Top = d.f.At(shape.Point{X: least.X, Y: most.Y})
	d.Box.Right, d.Box.Bottom = d.f.At(shape.Point{X: most.X, Y: least.Y})
	d.mid = d.middleStretch()
	return d
}

// title names the drawing.
func (d *pieceDrawing) title() string {
	return say.Of("draw.drawn-1", d.called(), strconv.FormatFloat(d.style.Scale, 'f', -1, 64))
}

// desc says in words what the drawing shows.
func (d *pieceDrawing) desc() string {
	var room [512]byte
	out := append(room[:0], say.Of("draw.cut-line-and-sewing-line-edges-in")...)
	for i := range d.p.Edges {
		e := &d.p.Edges[i]
		if i > 0 {
			out = append(out, "; "...)
		}
		out = append(out, e.Name...)
		if e.Length.Value.Known() {
			out = append(append(out, ' '), d.number(e.Length)...)
		}
		switch {
		case e.Fold:
			out = append(out, say.Of("draw.on-the-fold")...)
		case e.Allowance.Value.Known() && e.Allowance.Value.Number == 0:
			out = append(out, say.Of("draw.no-allowance")...)
		case e.Allowance.Value.Known():
			out = append(append(out, say.Of("draw.allowance")...), d.number(e.Allowance)...)
		}
	}
	out = append(out, '.')
	if n := len(d.p.Darts); n > 0 {
		out = append(strconv.AppendInt(append(out, ' '), int64(n), 10), say.Of("draw.dart")...)
		if n > 1 {
			out = append(out, 's')
		}
		out = append(out, '.')
	}
	if n := d.p.PleatCount(); n > 0 {
		out = append(strconv.AppendInt(append(out, ' '), int64(n), 10), " pleat"...)
		if n > 1 {
			out = append(out, 's')
		}
		out = append(out, '.')
	}
	if n := d.p.ButtonCount(); n > 0 {
		out = append(strconv.AppendInt(append(out, ' '), int64(n), 10), say.Of("draw.button")...)
		if n > 1 {
			out = append(out, 's')
		}
		out = append(out, '.')
	}
	for _, said := range d.p.LaidWords() {
		out = append(append(append(out, ' '), said...), '.')
	}
	for i := range d.p.Lines {
		l := &d.p.Lines[i]
		if l.Laid {
			continue
		}
		out = append(append(append(append(out, say.Of("draw.the")...), l.Kind()...), ' '), l.Name...)
		out = append(append(append(out, ", "...), d.number(l.Length)...), '.')
	}
	return string(append(append(append(out, say.Of("draw.grain")...), grainWords(d.p.Grain)...), '.'))
}

func grainWords(grain string) string {
	switch grain {
	case "across":
		return say.Of("draw.across-the-drawing")
	case "bias":
		return say.Of("draw.on-the-bias-2")
	case "any":
		return say.Of("draw.any-way")
	}
	return say.Of("draw.up-the-drawing")
}

// number is a length as a drawing shows it: in one unit, not two.
func (d *pieceDrawing) number(f figure.Figure) string {
	q := f.Value.Quantity
	if s, ok := d.style.Numbers[q]; ok {
		return s
	}
	style := d.style.Measure
	if style.System == measure.Both {
		style.System = measure.Metric
	}
	s := style.Quantity(q)
	if n := d.style.Numbers; n != nil {
		if len(n) > mostNumbers {
			clear(n)
		}
		n[q] = s
	}
	return s
}

// mostNumbers bounds how many printed lengths are kept.
const mostNumbers = 10_000

func (d *pieceDrawing) lines() {
	if !d.has(Named) {
		pieceLines(d.Drawing, d.f, d.p, d.hand.exact)
		return
	}
	cut := *d.p
	cut.Outline = shape.Outline{}
	pieceLines(d.Drawing, d.f, &cut, d.hand.exact)
	sides := d.p.Outline.Sides()
	for _, s := range sides {
		p := d.Named(drawing.SewLine, trace.Spell(s.Name, s.Fold, d.p.Name)).Edges(d.f, d.p.Outline, s.First, s.Count)
		if len(sides) == 1 {
			p.Close()
		}
	}
	x, y := d.f.At(shape.Point{})
	d.Named(drawing.Origin, "origin").Move(x, y)
}

// stripes draws the pattern of the cloth where the piece is cut.
func (d *pieceDrawing) stripes() {
	stripes(d.Drawing, d.f, d.style.Stripes, append([]shape.Ring{d.p.Cut.Ring}, d.p.Cut.Holes...)...)
}

// pieceLines draws the cut line and the sewing line.
func pieceLines(d *drawing.Drawing, f drawing.Frame, p *garment.Piece, exact bool) {
	if len(p.Cut.Ring) > 0 {
		cut, ring := d.Draw(drawing.CutLine), (*drawing.Path).Thinned
		if exact {
			ring = (*drawing.Path).Ring
		}
		ring(cut, f, p.Cut.Ring)
		for _, hole := range p.Cut.Holes {
			ring(cut, f, hole)
		}
	}
	if len(p.Outline.Edges) > 0 {
		d.Draw(drawing.SewLine).Outline(f, p.Outline)
	}
}
