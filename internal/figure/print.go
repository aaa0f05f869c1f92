package figure

import (
	"math"
	"strconv"
	"sync"

	"hembook/internal/measure"
)

// How tightly a printed term holds together; one inside a tighter one stands
// in brackets.
const (
	looseRank = iota // a, up to the next b
	sumRank
	productRank
	powerRank
	wholeRank
)

// A printer writes an expression with its numbers.
type printer struct {
	pad  *Pad
	b    []byte
	more int // further decimals of the numbers that go in
}

// printers keeps printers with the memory they have written in: a notebook has
// a hundred thousand sums.
var printers = sync.Pool{New: func() any { return new(printer) }}

func (p *Pad) printer() *printer {
	pr := printers.Get().(*printer)
	*pr = printer{pad: p, b: pr.b[:0]}
	return pr
}

func (pr *printer) done() {
	pr.pad = nil
	printers.Put(pr)
}

// mostMore bounds how many further decimals are tried.
const mostMore = 4

// Sum is the expression with its numbers and its result, in the units of the
// room: "224.225 mm − 24 mm = 200.225 mm". What is only one value is printed
// as that value; what is not known has no sum. The numbers shown give the
// result shown, to its last digit.
func (w Working) Sum() string {
	if w.root == 0 {
		return ""
	}
	p, n := w.pad, w.pad.nodes.at(w.root-1)
	if n.why > 0 {
		return ""
	}
	pr := p.printer()
	defer pr.done()
	unit := w.resultUnit(n)
	switch {
	case n.op == opRemark:
		return p.origins.at(n.a).text
	case n.op == opFound:
		pr.s(p.origins.at(n.a).text).s(": ").quantity(n.v, unit, pr.decimals(unit))
		return string(pr.b)
	case n.op == opInput || n.op == opNumber:
		pr.value(n, w.unit)
		return string(pr.b)
	}
	decimals := pr.settle(w.root-1, unit)
	pr.term(w.root-1, looseRank)
	pr.s(" = ").result(w.root-1, unit, decimals)
	return string(pr.b)
}

// currency is that of the first amount in an expression.
func (pr *printer) currency(at int32) string {
	found := ""
	pr.pad.walk(at, true, func(k *node, _ bool) {
		if m := pr.pad.origins.at(k.a).money; m > 0 && found == "" {
			found = pr.pad.money[m-1].Currency
		}
	})
	return found
}

func (pr *printer) s(text string) *printer { pr.b = append(pr.b, text...); return pr }

// quantity writes a value in a unit.
func (pr *printer) quantity(v float64, u measure.Unit, decimals int) *printer {
	x := v / scaleOf(u)
	if u == measure.UnitIn && pr.sixteenths(x) {
		return pr
	}
	pr.b = appendNumber(pr.b, x, decimals)
	if symbol := u.Symbol(); symbol != "" && u != measure.UnitRatio {
		if u != measure.UnitDegree {
			pr.s(" ")
		}
		pr.s(symbol)
	}
	return pr
}

// sixteenths writes a length of whole sixteenths of an inch as a tape reads it.
func (pr *printer) sixteenths(x float64) bool {
	n := math.Round(x * 16)
	if math.Abs(x*16-n) > 1e-6 || math.Abs(n) > 1e9 || math.Mod(n, 16) == 0 {
		return false
	}
	text, _ := measure.Inches(measure.MM(x * 25.4))
	pr.s(text)
	return true
}

// result writes what an expression comes to.
func (pr *printer) result(at int32, u measure.Unit, decimals int) *printer {
	n := pr.pad.nodes.at(at)
	if n.dim != (dim{money: 1}) {
		return pr.quantity(n.v, u, decimals)
	}
	if v := pr.pad.paid(Term{pr.pad, at}); v.Known() {
		pr.s(v.Money.String())
	}
	return pr
}

// printed is the unit a node's own number is printed in.
func (pr *printer) printed(n *node) measure.Unit { return pr.pad.shown(n.unit) }

// value writes an origin's value, as used; in a unit of its own where the figure
// has another one.
func (pr *printer) value(n *node, as measure.Unit) *printer {
	u := pr.printed(n)
	switch {
	case n.why > 0:
		return pr.s("not known")
	case n.op == opRemark:
		return pr.s(pr.pad.origins.at(n.a).text)
	case n.op == opInput && pr.pad.origins.at(n.a).money > 0:
		pr.s(pr.pad.money[pr.pad.origins.at(n.a).money-1].String())
		if n.unit != measure.NoUnit {
			pr.s("/").s(n.unit.Symbol())
		}
		return pr
	case u == measure.NoUnit && as != measure.NoUnit:
		u = pr.pad.shown(as)
	}
	return pr.quantity(n.v, u, pr.decimals(u)+pr.more)
}

// term writes a node, in brackets where it would fall apart.
func (pr *printer) term(at int32, rank int) {
	n := pr.pad.nodes.at(at)
	own := rankOf(n)
	if n.v < 0 && (n.op == opInput || n.op == opNumber || n.op == opFound) {
		own = looseRank // a minus sign of its own
	}
	if own < rank {
		pr.s("(")
		defer pr.s(")")
	}
	pr.bare(n)
}

func rankOf(n *node) int {
	switch n.op {
	case opUp, opNearest, opRest:
		return looseRank
	case opAdd, opTake:
		return sumRank
	case opSum, opNamedSum:
		if n.b == 1 {
			return wholeRank
		}
		return sumRank
	case opTimes, opOver:
		return productRank
	case opSquare:
		return powerRank
	}
	return wholeRank
}

func (pr *printer) bare(n *node) {
	switch n.op {
	case opNumber:
		if n.v == math.Pi {
			pr.s("π")
			return
		}
		pr.value(n, measure.NoUnit)
	case opInput:
		pr.value(n, measure.NoUnit)
	case opFound:
		pr.named(n)
		pr.value(n, measure.NoUnit)
	case opWithheld:
		pr.bare(pr.pad.nodes.at(n.a))
	case opCurve:
		pr.curve(n)
	case opSize:
		pr.s("|").term(n.a, looseRank)
		pr.s("|")
	case opSquare:
		pr.square(n)
	case opRoot:
		pr.s("√(").term(n.a, looseRank)
		pr.s(")")
	case opSine:
		pr.s("sin(").term(n.a, looseRank)
		pr.s(")")
	case opAdd:
		pr.infix(n, " + ", sumRank, sumRank)
	case opTake:
		pr.infix(n, " − ", sumRank, productRank)
	case opTimes:
		pr.infix(n, " × ", productRank, productRank)
	case opOver:
		pr.infix(n, " ÷ ", productRank, powerRank)
	case opUp:
		pr.postfix(n, ", up to the next ")
	case opNearest:
		pr.postfix(n, ", to the nearest ")
	case opRest:
		pr.postfix(n, ", less whole turns of ")
	case opSum, opNamedSum:
		pr.sum(n)
	case opMost:
		pr.list("greatest of (", n)
	case opLeast:
		pr.list("least of (", n)
	}
}

func (pr *printer) infix(n *node, sign string, left, right int) {
	pr.term(n.a, left)
	pr.s(sign).term(n.b, right)
}

func (pr *printer) postfix(n *node, words string) {
	pr.term(n.a, sumRank)
	pr.s(words).term(n.b, sumRank)
}

// square sets a quantity in brackets, as "24 mm²" would be an area.
func (pr *printer) square(n *node) {
	k := pr.pad.nodes.at(n.a)
	if rankOf(k) == wholeRank && (k.dim != dim{} || k.v < 0) {
		pr.s("(").term(n.a, looseRank)
		pr.s(")²")
		return
	}
	pr.term(n.a, wholeRank)
	pr.s("²")
}

// sum writes the terms of a fold, those below nothing taken away.
func (pr *printer) sum(n *node) {
	for i, k := range (span{n.a, n.b}).of(pr.pad.kids) {
		c := *pr.pad.nodes.at(k)
		leafy := c.op == opInput || c.op == opNumber || c.op == opFound
		switch {
		case i == 0:
		case leafy && c.v < 0:
			pr.s(" − ")
		default:
			pr.s(" + ")
		}
		if n.op == opNamedSum && c.op == opInput {
			pr.named(&c)
		}
		if i > 0 && leafy && c.v < 0 {
			c.v = -c.v
			pr.bare(&c)
			continue
		}
		pr.term(k, sumRank)
	}
}

// named writes the name of an origin before its value.
func (pr *printer) named(n *node) {
	if !n.op.leafy() {
		return
	}
	l := pr.pad.origins.at(n.a)
	if name := l.name + l.text; name != "" {
		if pr.s(name); name[len(name)-1] >= '0' && name[len(name)-1] <= '9' {
			pr.s(":") // "bone 1: 2", so that it does not run into its value
		}
		pr.s(" ")
	}
}

func (pr *printer) list(words string, n *node) {
	pr.s(words)
	for i, k := range (span{n.a, n.b}).of(pr.pad.kids) {
		if i > 0 {
			pr.s(", ")
		}
		pr.term(k, looseRank)
	}
	pr.s(")")
}

// curve tells a cubic by its control points, all in one unit.
func (pr *printer) curve(n *node) {
	u := pr.printed(n)
	pr.s("along the curve")
	for i := int32(0); i < 8; i += 2 {
		x, y := pr.pad.points[n.a+i], pr.pad.points[n.a+i+1]
		pr.s(" (")
		pr.b = appendNumber(pr.b, x/scaleOf(u), 3)
		pr.s(", ")
		pr.b = appendNumber(pr.b, y/scaleOf(u), 3)
		pr.s(")")
	}
	pr.s(" ").s(u.Symbol())
}

// appendNumber writes v with up to so many decimals, half away from zero, the
// way package measure prints: a true minus sign, and thin gaps between groups
// of three from five figures on.
func appendNumber(dst []byte, v float64, decimals int) []byte {
	pow := math.Pow10(decimals)
	scaled := math.Round(math.Abs(v) * pow)
	if !(scaled < 1e15) {
		return append(dst, measure.Style{}.Number(v, decimals)...)
	}
	n := int64(scaled)
	if n == 0 {
		return append(dst, '0')
	}
	if v < 0 {
		dst = append(dst, "−"...)
	}
	unit := int64(pow)
	dst = appendWhole(dst, n/unit)
	rest := n % unit
	if rest == 0 {
		return dst
	}
	dst = append(dst, '.')
	for rest > 0 {
		unit /= 10
		dst = append(dst, byte('0'+rest/unit))
		rest %= unit
	}
	return dst
}

func appendWhole(dst []byte, n int64) []byte {
	if n < 10_000 {
		return strconv.AppendInt(dst, n, 10)
	}
	var room [24]byte
	digits := strconv.AppendInt(room[:0], n, 10)
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			dst = append(dst, "\u202f"...)
		}
		dst = append(dst, d)
	}
	return dst
}

// Text prints a value as a working shows it in a room of millimetres: to three
// decimals.
func (v Value) Text() string {
	switch {
	case !v.Known():
		return "not known"
	case v.Money != nil:
		return v.Money.String()
	case v.Moment != nil:
		return v.Moment.Format(MomentForm)
	}
	return measure.Style{}.PreciseQuantity(v.Quantity)
}
