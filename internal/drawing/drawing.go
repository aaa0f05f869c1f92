// Package drawing holds drawings as data and writes them.
//
// A drawing is built once: lines, areas and words in millimetres, each with a
// meaning (a seam line, a notch, the name of an edge) and no look. How a
// meaning looks is a table for each medium, so that a piece on a page, on a
// sheet, in a picture and at full size is in one hand. From the same data come
// SVG elements and files, PNG pictures and the lines of pages of a PDF.
//
// It promises true measures, the same bytes on every run and any machine, and
// that no word in a drawing can become markup. It knows nothing of garments
// and derives no figures.
package drawing

import (
	"math"
	"slices"
	"sync"

	"hembook/internal/shape"
)

// A Point is in millimetres; in a drawing x runs to the right and y down.
type Point = shape.Point

// A Drawing is marks in the order in which they are drawn and read. New gives
// an empty one.
type Drawing struct {
	Kind  string // what it is of, for a style sheet: piece, section, lay
	Title string // its name in words; without one it is for the eye only
	Desc  string // what it shows, in words; may be empty
	Box   Box    // what is shown, at its true size
	Marks []Mark
	ID    string   // by which windows of it are known on its page; "" where it has none
	Parts []Window // what a screen too narrow for it shows instead, one below the other
	path  Path     // of all marks, one after the other
	kept  bool

	leads   bool     // some of its marks lead somewhere
	shared  string   // by which the whole of it is drawn again on its page; "" where it is not
	repeats *Drawing // whose marks it has
}

// A Mark is a path of one meaning, or words.
type Mark struct {
	Means  Meaning
	Label  *Label  // words; nil for a path
	Name   string  // of the line, in a file that others read; else ""
	Thick  float64 // of what is drawn as thick as it is, in mm; else 0
	Colour string  // #rrggbb of what has a colour of its own, as cloth has; else ""
	ID     string  // by which other drawings on the same page draw it again; else ""
	op, pt int     // where its path begins
	Leads  string  // the place on its page that a tap on it leads to; else ""
	again  *Drawing
	mark   int // of again, whose path it has
}

// A Label is words, upright unless turned. Its size and letters are those of
// its voice.
type Label struct {
	X, Y   float64 // on the base line
	Words  string
	Aside  string // said after them in a smaller voice
	Voice  Voice
	Anchor Anchor
	Turn   float64 // degrees against the clock about (X, Y)
	Size   float64 // of letters that are not as large as their voice asks, in mm; else 0
	Leads  string  // the place on its page that a tap on it leads to; else ""
}

// A Window is a part of a drawing as large as the whole, and what is said of it.
type Window struct {
	Box     Box
	Caption string
}

// An Anchor is which part of a label stands at its point.
type Anchor uint8

// The anchors.
const (
	Begin Anchor = iota
	Middle
	End
)

var rooms = sync.Pool{New: func() any { return new(Drawing) }}

// New begins a drawing of a kind.
func New(kind string) *Drawing {
	d := rooms.Get().(*Drawing)
	d.Kind = kind
	return d
}

// Keep is the drawing, for whoever has it drawn several times: Free leaves it
// as it is.
func (d *Drawing) Keep() *Drawing {
	d.kept = true
	return d
}

// Shared is the drawing, kept, for others on the same page to repeat; id is its own
// there.
func (d *Drawing) Shared(id string) *Drawing {
	d.shared = id
	return d.Keep()
}

// Repeat is a drawing with all that a shared one shows, and as large.
func Repeat(of *Drawing) *Drawing {
	d := New(of.Kind)
	d.Title, d.Desc, d.Box, d.repeats = of.Title, of.Desc, of.Box, of
	d.Add(of)
	return d
}

// Free gives back the room a drawing takes, unless it is kept. It must not be
// used afterwards.
func (d *Drawing) Free() {
	if d.kept {
		return
	}
	clear(d.Marks)
	*d = Drawing{Marks: d.Marks[:0], path: Path{d.path.Ops[:0], d.path.Points[:0]}}
	rooms.Put(d)
}

// Draw begins a path and returns it, to be gone on with until something else
// is drawn or said.
func (d *Drawing) Draw(m Meaning) *Path { return d.add(Mark{Means: m}) }

// Thick begins a path that is so many millimetres thick, whatever its scale.
func (d *Drawing) Thick(m Meaning, mm float64) *Path { return d.add(Mark{Means: m, Thick: mm}) }

// Named begins a path that has a name of its own.
func (d *Drawing) Named(m Meaning, name string) *Path { return d.add(Mark{Means: m, Name: name}) }

// Known begins a path that other drawings on the same page draw again; id is its
// own there. The drawing must be kept. It returns which of the marks it is.
func (d *Drawing) Known(m Meaning, id string) (mark int, p *Path) {
	return len(d.Marks), d.add(Mark{Means: m, ID: id})
}

// Leading begins a path that is not seen, and leads to a place on its page where it is
// tapped, as the label does that must follow it and leads there too.
func (d *Drawing) Leading(to string) *Path {
	d.leads = true
	return d.add(Mark{Means: Unseen, Leads: to})
}

// Again draws a known mark of another drawing, here with a meaning of its own.
func (d *Drawing) Again(m Meaning, other *Drawing, mark int) {
	d.add(Mark{Means: m, again: other, mark: mark})
}

// Coloured begins a path around what has a colour of its own: #rrggbb, or ""
// for none.
func (d *Drawing) Coloured(m Meaning, colour string) *Path {
	return d.add(Mark{Means: m, Colour: colour})
}

// Say adds words, if there are any.
func (d *Drawing) Say(l Label) {
	if l.Words != "" {
		d.add(Mark{Means: Words, Label: &l})
	}
}

func (d *Drawing) add(m Mark) *Path {
	m.op, m.pt = len(d.path.Ops), len(d.path.Points)
	d.Marks = append(d.Marks, m)
	return &d.path
}

// Add draws all of another drawing where it is.
func (d *Drawing) Add(other *Drawing) {
	for i := range other.Marks {
		m := other.Marks[i]
		m.again = nil
		d.add(m).Append(other.Path(i))
	}
}

// Path is the path of mark i; empty for words.
func (d *Drawing) Path(i int) Path {
	m := &d.Marks[i]
	if m.again != nil {
		return m.again.Path(m.mark)
	}
	op, pt := len(d.path.Ops), len(d.path.Points)
	if i+1 < len(d.Marks) {
		op, pt = d.Marks[i+1].op, d.Marks[i+1].pt
	}
	return Path{d.path.Ops[m.op:op:op], d.path.Points[m.pt:pt:pt]}
}

// Wide and High are the size of what is shown.
func (d *Drawing) Wide() float64 { return d.Box.Right - d.Box.Left }

// High is described at Wide.
func (d *Drawing) High() float64 { return d.Box.Bottom - d.Box.Top }

// A Box is upright. The zero Box is a point.
type Box struct{ Left, Top, Right, Bottom float64 }

// Add widens a box until it holds a point.
func (b *Box) Add(x, y float64) {
	b.Left, b.Right = min(b.Left, x), max(b.Right, x)
	b.Top, b.Bottom = min(b.Top, y), max(b.Bottom, y)
}

// Holds reports whether a circle lies within a box.
func (b *Box) Holds(x, y, r float64) bool {
	return x-r >= b.Left && x+r <= b.Right && y-r >= b.Top && y+r <= b.Bottom
}

// A Frame puts millimetres of a thing, y up, into a drawing.
type Frame struct {
	Left, Top float64 // of the thing: where the drawing's (0, 0) lies
	K         float64 // millimetres of the drawing for one of the thing
}

// At is a place of the thing in the drawing.
func (f Frame) At(q Point) (x, y float64) { return (q.X - f.Left) * f.K, (f.Top - q.Y) * f.K }

// Turned is the drawing turned by a quarter against the clock.
func (d *Drawing) Turned() *Drawing {
	out := New(d.Kind)
	out.Title, out.Desc = d.Title, d.Desc
	out.Box = Box{d.Box.Top, -d.Box.Right, d.Box.Bottom, -d.Box.Left}
	for i, m := range d.Marks {
		if m.Label != nil {
			l := *m.Label
			l.X, l.Y, l.Turn = l.Y, -l.X, l.Turn+90
			m.Label = &l
		}
		m.again, m.ID = nil, ""
		p := d.Path(i)
		out.add(m).Ops = append(out.path.Ops, p.Ops...)
		for _, q := range p.Points {
			out.path.Points = append(out.path.Points, Point{X: q.Y, Y: -q.X})
		}
	}
	return out
}

// Righted turns words that stand upside down in a look about the middle of their letters,
// so that they are read from below or from the right, on the same side of what they lie along.
func (d *Drawing) Righted(look *Look) {
	for i, m := range d.Marks {
		if m.Label == nil {
			continue
		}
		turn := math.Mod(m.Label.Turn, 360)
		if turn < 0 {
			turn += 360
		}
		if turn <= 90+1e-6 || turn > 270+1e-6 {
			continue
		}
		l := *m.Label
		sin, cos := math.Sincos(l.Turn * math.Pi / 180)
		up := look.Letters(&l).Size * lettersHigh
		l.X, l.Y = l.X-float64(sin*up), l.Y-float64(cos*up)
		if l.Turn -= 180; l.Anchor != Middle {
			l.Anchor = End - l.Anchor
		}
		d.Marks[i].Label = &l
	}
}

// lettersHigh is how far letters reach over their base line, of their size.
const lettersHigh = 0.75

// Reworded is the drawing with what its words become.
func (d *Drawing) Reworded(become func(string) string) *Drawing {
	out := *d
	out.Title, out.Desc, out.Marks = become(d.Title), become(d.Desc), slices.Clone(d.Marks)
	for i, m := range d.Marks {
		if m.Label != nil {
			l := *m.Label
			l.Words, l.Aside = become(l.Words), become(l.Aside)
			out.Marks[i].Label = &l
		}
	}
	return &out
}

// Finite reports whether all its places are numbers, and it has a size.
func (d *Drawing) Finite() bool {
	ok := d.Wide() > 0 && d.High() > 0 && finite(d.Wide()+d.High())
	for _, q := range d.path.Points {
		ok = ok && finite(q.X+q.Y)
	}
	for _, m := range d.Marks {
		ok = ok && (m.Label == nil || finite(m.Label.X+m.Label.Y+m.Label.Turn+m.Label.Size))
	}
	return ok
}

func finite(v float64) bool { return v-v == 0 }

// unit is the direction of a way; upright where it has no length.
func unit(dx, dy float64) (ux, uy, long float64) {
	if long = math.Sqrt(float64(dx*dx) + float64(dy*dy)); long == 0 {
		return 0, -1, 0
	}
	return dx / long, dy / long, long
}
