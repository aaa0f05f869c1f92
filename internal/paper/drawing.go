package paper

import "math"

// Sketch is a drawing set into a document at its true size; one wider than
// the page is made smaller, unless Exact.
type Sketch struct {
	Drawing Drawing
	Caption string
	Exact   bool // never made smaller: a ruler, a test square
}

// A Drawing is lines, areas and words in millimetres, x to the right and y
// down from its upper left corner.
type Drawing struct {
	Wide, High float64
	Marks      []Mark // in the order they are drawn, and read
	Alt        string // what it shows, in words
}

// A Mark is one thing in a drawing: a Path or a Label.
type Mark interface{ mark() }

// A Point in millimetres.
type Point struct{ X, Y float64 }

// A Path is a line of straight stretches and cubic curves, or the area within.
type Path struct {
	Steps []Step
	Pen   Pen
	Fill  Ink // NoInk for none; where a path crosses itself, even-odd
}

// A Step is one stretch of a path.
type Step struct {
	Kind   StepKind
	C1, C2 Point // control points of a curve
	To     Point
}

// A StepKind is what a step does.
type StepKind int

// The kinds of step.
const (
	MoveTo StepKind = iota
	LineTo
	CurveTo
	ClosePath // To is not looked at
)

// A Pen draws lines. The zero Pen draws none.
type Pen struct {
	Weight float64   // millimetres
	Ink    Ink       // NoInk draws nothing
	Dash   []float64 // millimetres drawn and left out by turns; nil for a full line
	Butt   bool      // ends cut off square; else round
}

// An Ink is a colour by its part in a drawing; HTML gives it by light and
// dark, PDF as on paper.
type Ink int

// The inks.
const (
	NoInk      Ink = iota
	Dark           // lines and words
	Faded          // lines of lesser weight, small words
	Thread         // sewing lines
	Ground         // the paper itself, to cover what lies below
	Tissue         // a light area
	RoundOne       // rounds of a fitting; each has a dash of its own too
	RoundTwo       //
	RoundThree     //
	Chalk          // rules between rows, lightest of all
)

// A Label is words in a drawing.
type Label struct {
	At     Point // on the base line
	Text   string
	Size   float64 // points
	Anchor Anchor
	Turn   float64 // degrees against the clock about At
	Strong bool
	Ink    Ink // NoInk for Dark
}

// An Anchor is which part of a label stands at its point.
type Anchor int

// The anchors.
const (
	Begin Anchor = iota
	Middle
	End
)

func (Path) mark()  {}
func (Label) mark() {}

// Move begins a path, or a new part of one.
func (p *Path) Move(x, y float64) *Path { return p.add(Step{Kind: MoveTo, To: Point{x, y}}) }

// Line goes straight to (x, y).
func (p *Path) Line(x, y float64) *Path { return p.add(Step{Kind: LineTo, To: Point{x, y}}) }

// Curve goes to (x, y) by a cubic curve.
func (p *Path) Curve(x1, y1, x2, y2, x, y float64) *Path {
	return p.add(Step{Kind: CurveTo, C1: Point{x1, y1}, C2: Point{x2, y2}, To: Point{x, y}})
}

// Close goes straight back to where this part of the path began.
func (p *Path) Close() *Path { return p.add(Step{Kind: ClosePath}) }

func (p *Path) add(s Step) *Path {
	p.Steps = append(p.Steps, s)
	return p
}

// Circle adds a whole circle, of four curves that stray from it by less than
// 0.03 % of the radius.
func (p *Path) Circle(x, y, r float64) *Path { return p.Ellipse(x, y, r, r) }

// Ellipse adds a whole ellipse with upright axes.
func (p *Path) Ellipse(x, y, rx, ry float64) *Path {
	const k = 4 * (math.Sqrt2 - 1) / 3
	p.Move(x+rx, y)
	p.Curve(x+rx, y+k*ry, x+k*rx, y+ry, x, y+ry)
	p.Curve(x-k*rx, y+ry, x-rx, y+k*ry, x-rx, y)
	p.Curve(x-rx, y-k*ry, x-k*rx, y-ry, x, y-ry)
	p.Curve(x+k*rx, y-ry, x+rx, y-k*ry, x+rx, y)
	return p.Close()
}

// Rect adds a rectangle by its upper left corner.
func (p *Path) Rect(x, y, wide, high float64) *Path {
	return p.Move(x, y).Line(x+wide, y).Line(x+wide, y+high).Line(x, y+high).Close()
}

// Arrow adds an open arrow head at (x, y) that points along (dx, dy), its
// barbs as long as long.
func (p *Path) Arrow(x, y, dx, dy, long float64) *Path {
	far := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if far == 0 {
		return p
	}
	ux, uy := dx/far*long, dy/far*long
	const half = 0.4
	p.Move(x-ux-half*uy, y-uy+half*ux)
	p.Line(x, y)
	return p.Line(x-ux+half*uy, y-uy-half*ux)
}

// LabelWide is how wide a label is set, in millimetres.
func LabelWide(l Label) float64 {
	f := sans()
	if l.Strong {
		f = sansBold()
	}
	return f.wide(clean(l.Text), l.Size)
}

// Scaled is the drawing k times as large: lines and letters too.
func (d Drawing) Scaled(k float64) Drawing {
	by := func(q Point) Point { return Point{q.X * k, q.Y * k} }
	out := Drawing{Wide: d.Wide * k, High: d.High * k, Alt: d.Alt, Marks: make([]Mark, len(d.Marks))}
	for i, m := range d.Marks {
		switch m := m.(type) {
		case Path:
			steps := make([]Step, len(m.Steps))
			for n, s := range m.Steps {
				steps[n] = Step{s.Kind, by(s.C1), by(s.C2), by(s.To)}
			}
			dash := make([]float64, len(m.Pen.Dash))
			for n, v := range m.Pen.Dash {
				dash[n] = v * k
			}
			m.Steps, m.Pen.Weight, m.Pen.Dash = steps, m.Pen.Weight*k, dash
			out.Marks[i] = m
		case Label:
			m.At, m.Size = by(m.At), m.Size*k
			out.Marks[i] = m
		}
	}
	return out
}
