package figure

import (
	"math"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A Pad is what expressions are written on. A garment has hundreds of figures,
// so they share one, and a term costs a few words of memory. It is written by
// one goroutine; once all figures are made, many may read them. The zero Pad
// prints in millimetres; [NewPad] makes one for a room.
type Pad struct {
	imperial bool
	length   measure.Unit // of metric lengths: centimetres, or unset for millimetres
	nodes    stock[node]
	origins  stock[origin]
	kids     []int32
	whys     []string
	money    []measure.Money
	points   []float64
	extras   []int32 // of finished figures
	pending  []int32 // of the figure being written
	page     strings.Builder
}

// NewPad makes a pad that prints as a room does: in inches, yards and ounces, or
// with its lengths in centimetres. A room that shows both systems has its sums
// in the metric one.
func NewPad(style measure.Style) *Pad {
	p := &Pad{imperial: style.System == measure.Imperial}
	if style.Unit == measure.UnitCM {
		p.length = measure.UnitCM
	}
	return p
}

// A span is a part of a list.
type span struct{ from, n int32 }

func (s span) of(list []int32) []int32 { return list[s.from : s.from+s.n] }

type op uint8

const (
	opNumber   op = iota // a number that is no input: 2, 180°
	opInput              // an input
	opRemark             // an input without a number
	opFound              // an input that nothing but the program's search or geometry gives, told in words
	opCurve              // the length of a cubic, told by its points
	opWithheld           // a, not known for a reason of its own
	opSize
	opSquare
	opRoot
	opSine
	opAdd
	opTake
	opTimes
	opOver
	opRest    // what is left of a after whole turns of b
	opUp      // a, up to the next whole b
	opNearest // a, to the nearest whole b
	opSum
	opNamedSum
	opMost
	opLeast
)

// A node is one term. Lengths are in mm, masses in g, times in min, angles in
// degrees, money in units of its currency, all else in products of these.
type node struct {
	v    float64
	a, b int32 // operands; of an input its origin; of a fold its span of kids
	why  int32 // 1 + the place of the reason why it is not known; 0 where it is
	dim  dim
	op   op
	unit measure.Unit // it is printed in; NoUnit where its dimension decides
}

// An origin is one value that an expression begins with, and where it came from.
type origin struct {
	kind       Kind
	name, from string
	text       string // of a remark its value, of what was found the words that tell it
	at         fault.Pos
	shown      bool  // the sum shows it in other words
	money      int32 // 1 + its place among the amounts; 0 where it is none
}

// A Term is a part of an expression. The zero Term is none.
type Term struct {
	pad *Pad
	at  int32
}

// Given reports whether there is a term.
func (t Term) Given() bool { return t.pad != nil }

func (t Term) node() *node { return t.pad.nodes.at(t.at) }

// Known reports whether the term has a value.
func (t Term) Known() bool { return t.pad != nil && t.node().why == 0 }

// Bare reports whether the term is a number without a unit.
func (t Term) Bare() bool { return t.node().dim == dim{} }

// In is the term's number in a unit of its dimension.
func (t Term) In(u measure.Unit) float64 { return t.node().v / scaleOf(u) }

// MM is a length's number of millimetres.
func (t Term) MM() float64 { return t.node().v }

func (p *Pad) add(n node) Term {
	return Term{p, p.nodes.add(n)}
}

func (p *Pad) origin(l origin, o op, q measure.Quantity) Term {
	d, s := unitOf(q.Unit)
	return p.add(node{op: o, v: q.Number * s, a: p.origins.add(l), dim: d, unit: q.Unit})
}

// Unknown is a term that is not known, because …
func (p *Pad) Unknown(why string) Term {
	p.whys = append(p.whys, why)
	return p.add(node{op: opNumber, why: int32(len(p.whys))})
}

// Unless is the term, or one that is not known where there is a reason; what
// went in is still listed.
func (t Term) Unless(why string) Term {
	if why == "" {
		return t
	}
	t.pad.whys = append(t.pad.whys, why)
	n := t.node()
	return t.pad.add(node{op: opWithheld, v: n.v, a: t.at, why: int32(len(t.pad.whys)), dim: n.dim, unit: n.unit})
}

// Number is a bare number that is no input: the 2 of "2 × width".
func (p *Pad) Number(v float64) Term { return p.add(node{op: opNumber, v: v}) }

// Constant is a quantity that is no input: 180°.
func (p *Pad) Constant(v float64, u measure.Unit) Term {
	d, s := unitOf(u)
	return p.add(node{op: opNumber, v: v * s, dim: d, unit: u})
}

// Pi is π.
func (p *Pad) Pi() Term { return p.Number(math.Pi) }

// Written is a quantity that stands in a file.
func (p *Pad) Written(name string, v float64, u measure.Unit, at fault.Pos) Term {
	return p.origin(origin{kind: Written, name: name, at: at}, opInput, measure.Quantity{Number: v, Unit: u})
}

// Length is a length that stands in a file; one that could not be read is not known.
func (p *Pad) Length(name string, l record.Length) Term {
	if !l.Given() {
		return p.unread(origin{kind: Told, name: name, from: unreadable}, name+" could not be read", measure.UnitMM)
	}
	return p.Written(name, l.V.MM(), measure.UnitMM, l.At)
}

// unreadable is where a length comes from that is written and cannot be one.
const unreadable = "what could not be read"

// unread is an origin that is not known.
func (p *Pad) unread(l origin, why string, u measure.Unit) Term {
	t := p.origin(l, opInput, measure.Quantity{Unit: u})
	p.whys = append(p.whys, why)
	t.node().why = int32(len(p.whys))
	return t
}

// Of is another figure.
func (p *Pad) Of(name string, f *Figure) Term {
	l := origin{kind: Figured, name: name, from: f.ID}
	v := f.Value
	switch {
	case !v.Known():
		return p.unread(l, v.Why, f.Working.unit)
	case v.Money != nil:
		return p.amount(l, *v.Money, measure.NoUnit)
	case v.Moment != nil:
		l.text = v.Moment.Format(MomentForm)
		return p.origin(l, opRemark, measure.Quantity{})
	}
	return p.origin(l, opInput, v.Quantity)
}

// Usual is what is taken where nothing is written.
func (p *Pad) Usual(name string, v float64, u measure.Unit) Term {
	return p.origin(origin{kind: Default, name: name, from: "default"}, opInput, measure.Quantity{Number: v, Unit: u})
}

// Row is a value of a published table.
func (p *Pad) Row(name string, v float64, u measure.Unit, source trade.Source) Term {
	return p.origin(origin{kind: Tabled, name: name, from: string(source)}, opInput, measure.Quantity{Number: v, Unit: u})
}

// Sourced is a value of any kind, with where it comes from.
func (p *Pad) Sourced(k Kind, name string, v float64, u measure.Unit, at fault.Pos, from string) Term {
	return p.origin(origin{kind: k, name: name, at: at, from: from}, opInput, measure.Quantity{Number: v, Unit: u})
}

// Point writes a point in the units of the room, given in mm: "(12, 0.5)".
func (p *Pad) Point(x, y float64) string {
	s := scaleOf(p.shown(measure.UnitMM))
	b := appendNumber([]byte("("), x/s, 3)
	b = appendNumber(append(b, ", "...), y/s, 3)
	return string(append(b, ')'))
}

// Tape writes a length, given in mm, as the room's tape reads it: to a whole
// millimetre, or to a sixteenth of an inch.
func (p *Pad) Tape(mm float64) string {
	if p.imperial {
		text, _ := measure.Inches(measure.MM(mm))
		return text
	}
	return measure.Style{Unit: p.length}.Length(measure.MM(mm).Round(measure.Millimetre))
}

// Told is a value known from elsewhere, said in words: "the lay plan".
func (p *Pad) Told(name string, v float64, u measure.Unit, from string) Term {
	return p.origin(origin{kind: Told, name: name, from: from}, opInput, measure.Quantity{Number: v, Unit: u})
}

// Found is a value that no sum of a few numbers gives: how far a lay reaches,
// where a level line crosses an outline. The words tell what it is.
func (p *Pad) Found(words string, v float64, u measure.Unit) Term {
	return p.origin(origin{kind: Told, text: words}, opFound, measure.Quantity{Number: v, Unit: u})
}

// Price is money that stands in a file, for one of a unit; NoUnit where it is
// an amount.
func (p *Pad) Price(name string, m measure.Money, per measure.Unit, at fault.Pos) Term {
	return p.amount(origin{kind: Written, name: name, at: at}, m, per)
}

func (p *Pad) amount(l origin, m measure.Money, per measure.Unit) Term {
	p.money = append(p.money, m)
	l.money = int32(len(p.money))
	v, _ := m.Amount.Float64()
	t := p.origin(l, opInput, measure.Quantity{Number: v})
	n := t.node()
	n.dim, n.unit = dim{money: 1}, per
	if per != measure.NoUnit {
		d, s := unitOf(per)
		n.dim = n.dim.over(d)
		n.v /= s
	}
	return t
}

// Remark is an input without a number: a word of the record, a moment.
func (p *Pad) Remark(kind Kind, name, text string, at fault.Pos, from string) *Pad {
	return p.Note(p.origin(origin{kind: kind, name: name, text: text, at: at, from: from}, opRemark, measure.Quantity{}))
}

// Shown is a remark whose numbers the sum shows: a corner of an outline.
func (p *Pad) Shown(kind Kind, name, text string, at fault.Pos, from string) *Pad {
	return p.Note(p.origin(origin{kind: kind, name: name, text: text, at: at, from: from, shown: true}, opRemark, measure.Quantity{}))
}

// Note makes a term an input of the figure being written though its sum may not
// show it.
func (p *Pad) Note(list ...Term) *Pad {
	for _, t := range list {
		if t.Given() {
			p.pending = append(p.pending, t.at)
		}
	}
	return p
}

// Join returns texts set end to end, many in one piece of memory: the IDs of
// figures.
func (p *Pad) Join(parts ...string) string {
	n := 0
	for _, s := range parts {
		n += len(s)
	}
	const page = 4 << 10
	if p.page.Cap()-p.page.Len() < n {
		p.page = strings.Builder{}
		p.page.Grow(max(page, n))
	}
	from := p.page.Len()
	for _, s := range parts {
		p.page.WriteString(s)
	}
	return p.page.String()[from:]
}

// Figure finishes a figure: its value is the term's in the unit, its inputs
// those of the term and those noted.
func (p *Pad) Figure(id, title, of string, t Term, u measure.Unit, rule string, source trade.Source) Figure {
	f := Figure{ID: id, Title: title, Of: of, Working: Working{Rule: rule, Source: source, pad: p, unit: u}}
	from := int32(len(p.extras))
	p.extras = append(p.extras, p.pending...)
	p.pending = p.pending[:0]
	f.Working.extras = span{from, int32(len(p.extras)) - from}
	f.Working.root = 1 + t.at
	f.Value = p.valueOf(t, u)
	return f
}

// Moment finishes a figure that is a moment, told in words.
func (p *Pad) Moment(id, title, of, words string, v Value, rule string, source trade.Source) Figure {
	text := words
	if v.Moment != nil {
		text += ": " + v.Moment.Format(MomentForm)
	}
	t := p.origin(origin{kind: Told, text: text}, opRemark, measure.Quantity{}).Unless(v.Why)
	f := p.Figure(id, title, of, t, measure.NoUnit, rule, source)
	f.Value = v
	return f
}

// Words finishes a working that is no sum: told in words, its inputs those
// noted.
func (p *Pad) Words(words, rule string, source trade.Source) Working {
	t := p.origin(origin{kind: Told, text: words}, opRemark, measure.Quantity{})
	return p.Figure("", "", "", t, measure.NoUnit, rule, source).Working
}

func (p *Pad) valueOf(t Term, u measure.Unit) Value {
	n := t.node()
	d, s := unitOf(u)
	switch {
	case n.why > 0:
		return Value{Why: p.whys[n.why-1]}
	case n.dim == dim{money: 1} && u == measure.NoUnit:
		return p.paid(t)
	case n.dim != d:
		return Value{Why: unfit(n.dim, d)}
	}
	number := n.v / s
	if math.IsNaN(number) || math.IsInf(number, 0) {
		return Value{Why: "the numbers are beyond what can be calculated"}
	}
	return Value{Quantity: measure.Quantity{Number: number, Unit: u}, Exact: u == measure.UnitCount}
}

// A copier copies expressions to another pad.
type copier struct{ from, to *Pad }

func (c copier) node(at int32) int32 {
	n := *c.from.nodes.at(at)
	switch {
	case n.op.leafy():
		l := *c.from.origins.at(n.a)
		l.name, l.from, l.text = strings.Clone(l.name), strings.Clone(l.from), strings.Clone(l.text)
		if l.money > 0 {
			c.to.money = append(c.to.money, c.from.money[l.money-1])
			l.money = int32(len(c.to.money))
		}
		n.a = c.to.origins.add(l)
	case n.op == opCurve:
		c.to.points = append(c.to.points, c.from.points[n.a:n.a+8]...)
		n.a = int32(len(c.to.points) - 8)
	case n.op.folds():
		list := make([]int32, 0, n.b)
		for _, k := range (span{n.a, n.b}).of(c.from.kids) {
			list = append(list, c.node(k))
		}
		n.a = int32(len(c.to.kids))
		c.to.kids = append(c.to.kids, list...)
	case n.op != opNumber: // it has operands
		n.a = c.node(n.a)
		if n.op.pairs() {
			n.b = c.node(n.b)
		}
	}
	if n.why > 0 {
		c.to.whys = append(c.to.whys, strings.Clone(c.from.whys[n.why-1]))
		n.why = int32(len(c.to.whys))
	}
	return c.to.nodes.add(n)
}

func (o op) leafy() bool { return o == opInput || o == opRemark || o == opFound }
func (o op) folds() bool { return o >= opSum }
func (o op) pairs() bool { return o >= opAdd && o < opSum }
