package cutting

import (
	"errors"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Problem is what is cut from one cloth of a garment, ready for the engine.
type Problem struct {
	Part    string
	Lay     lay.Problem
	Pieces  []*garment.Piece // one for each of Lay.Pieces; nil for cloth that strip is cut from
	Stages  int              // how many stages there are
	Area    float64          // of all that is laid, allowances included, mm²
	Allowed float64          // of all its allowances, mm²
	NotLaid []string         // what is cut from the cloth but not laid, each with why
	Matches []Match          // what must meet in the pattern of the cloth
	Notes   []string         // what a reader of the plan should know

	tape   tape
	blocks map[int]stripBlock // of the pieces that are cloth for strip
}

// Told are the notes of a problem, and what is cut from the cloth but is not in the plan.
func (p *Problem) Told() []string {
	out := slices.Clone(p.Notes)
	for _, n := range p.NotLaid {
		out = append(out, say.Of("cutting.not-in-the-plan", n))
	}
	return out
}

// errNothing says that a cloth is not cut at all.
var errNothing = say.Error("cutting.nothing-is-cut-from-it")

// newProblem makes the problem of one cloth of a garment, its names and notes
// in the units of the style. The error says, in the maker's words, why there is
// none.
func newProblem(g *garment.Garment, c *garment.Cloth, style measure.Style) (*Problem, error) {
	cloth, err := clothOf(c)
	if err != nil {
		return nil, err
	}
	p := &Problem{Part: c.Part, tape: tapeOf(style), blocks: map[int]stripBlock{}}
	p.Lay.Cloth = cloth
	stages, _ := g.Build.CutOrder.Get(c.Part)
	last := 0
	for _, piece := range c.Pieces {
		at := stageOf(stages, piece.Name)
		if at == len(stages) {
			last = 1
		}
		if err := p.add(piece, at); err != nil {
			return nil, err
		}
	}
	if p.addStrips(g, c, len(stages)) {
		last = 1
	}
	if len(p.Lay.Pieces) == 0 {
		if len(p.NotLaid) > 0 {
			return nil, errors.New(p.NotLaid[0])
		}
		return nil, errNothing
	}
	p.Stages = len(stages) + last
	p.match(g, c)
	return p, nil
}

// clothOf is the cloth as it lies ready to be cut: washed and straightened.
func clothOf(c *garment.Cloth) (lay.Cloth, error) {
	r := c.Cloth
	switch {
	case r == nil:
		return lay.Cloth{}, errors.New(say.Of("cutting.the-cloth-is-not-known"))
	case !r.Width.Given():
		return lay.Cloth{}, errors.New(say.Of("cutting.the-cloth-has-no-width"))
	}
	usable := garment.UsableWidth(r)
	if !(usable > 0) {
		return lay.Cloth{}, errors.New(say.Of("cutting.its-selvedges-leave-nothing-of-its-width"))
	}
	oneWay := r.OneWay.V
	if c.Use.OneWay.Given() {
		oneWay = c.Use.OneWay.V
	}
	oneWay = oneWay || r.Uneven.V
	out := lay.Cloth{
		Width: usable, OneWay: oneWay, Reversible: r.Faces.V == "two", Fold: foldOf(c.Use.Fold.V),
		RepeatAlong: r.WashedRepeat(false), RepeatAcross: r.WashedRepeat(true),
	}
	edge := r.Selvedge.V.MM()
	if out.Lined = r.Repeat.Line.Given() && out.RepeatAcross > 0; out.Lined {
		out.Line = r.Repeat.Line.V.MM()*(1-float64(r.Shrink.Across.V)/100) - edge
	}
	for i := range r.Flaws {
		out.Flaws = append(out.Flaws, cornersOf(r.Flaws[i].Outline, edge))
	}
	return out, nil
}

// foldOf reads the record's word; every way is tried where it has none.
func foldOf(word string) lay.Fold {
	switch word {
	case "open":
		return lay.Open
	case "lengthwise":
		return lay.Lengthwise
	case "crosswise":
		return lay.Crosswise
	case "both selvedges":
		return lay.BothSelvedges
	case "part of width":
		return lay.PartWidth
	case "part of length":
		return lay.PartLength
	case "folded":
		return lay.AnyFold
	}
	return lay.EitherWay
}

// cornersOf turns corners of a record (x from the left edge of the cloth, y
// along the selvedge) into the engine's, x along and y from the selvedge's
// inner edge.
func cornersOf(outline []record.Val[record.XY], edge float64) []lay.Point {
	out := make([]lay.Point, len(outline))
	for i := range outline {
		out[i] = lay.Point{X: outline[i].V.Y, Y: outline[i].V.X - edge}
	}
	return out
}

// stageOf is the stage a piece is laid in; pieces not named come last.
func stageOf(stages []record.CutGroup, name string) int {
	for i, s := range stages {
		if slices.ContainsFunc(s, func(t record.Text) bool { return t.V == name }) {
			return i
		}
	}
	return len(stages)
}

// add adds a pattern piece.
func (p *Problem) add(piece *garment.Piece, stage int) error {
	many := max(1, piece.CutIn(p.Part))
	out := lay.Piece{Name: piece.Name, Quantity: many, Mirrored: piece.Pairs || piece.PliesIn(p.Part) == 2, Stage: stage} // the inside faces the outside
	ring, fold, err := ringOf(piece)
	if err != nil {
		return fault.Wrapping(err, say.Of("cutting.piece-cannot-be-laid", say.Quoted(piece.Name), err))
	}
	out.Outline = onCloth(ring)
	out.OnFold, out.FoldEdge = fold >= 0, max(fold, 0)
	switch piece.Grain {
	case "across":
		out.Turns = []float64{90, 270}
	case "bias":
		out.Grain = lay.Bias
		if p.Lay.Cloth.OneWay { // the engine keeps one of two opposite turns
			out.Turns = []float64{45, 225}
		}
	case "any":
		out.Grain = lay.AnyWay
	}
	p.Lay.Pieces = append(p.Lay.Pieces, out)
	p.Pieces = append(p.Pieces, piece)
	n := float64(many)
	p.Area += areaOf(out.Unfold()) * n
	allowance := piece.Cut.AllowanceArea * n
	if piece.OnFold {
		allowance *= 2
	}
	p.Allowed += allowance
	return nil
}

// onCloth lays an outline with its y along the cloth. Seen from above with
// the cut end towards you the piece is then as drawn.
func onCloth(ring shape.Ring) []lay.Point {
	out := make([]lay.Point, len(ring))
	for i, q := range ring {
		out[i] = lay.Point{X: q.Y, Y: q.X}
	}
	return out
}

// areaOf is the area inside a ring, whichever way it runs.
func areaOf(pts []lay.Point) float64 {
	sum := 0.0
	for i := range pts {
		a, b := pts[i], pts[(i+1)%len(pts)]
		sum += float64((a.X-pts[0].X)*(b.Y-pts[0].Y)) - float64((a.Y-pts[0].Y)*(b.X-pts[0].X))
	}
	return max(sum, -sum) / 2
}
