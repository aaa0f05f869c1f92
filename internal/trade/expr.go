package trade

import (
	"errors"
	"math"
	"sort"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// An Expr is a small formula over named parameters, as a seam type writes it:
// "first + second", "4 * width", "pi * cord + 2 * allowance", "trim < second".
// It knows + - * / (also × ÷ −), parentheses, pi, and one comparison at the
// outside (<, <=, >, >=, =, !=). The zero Expr is an absent formula.
type Expr struct {
	text         string
	root         *exprNode
	line, column int
}

// Params gives values to the names in a formula, in millimetres.
type Params map[string]float64

// A Worked value carries the substitution that led to it, so that the number
// is never shown bare: "first + second = 6 + 9 = 15".
type Worked struct {
	Value   float64
	Working string
}

// ReadExpr reads a formula. Errors say at which character and what was found.
func ReadExpr(text string) (Expr, error) {
	root, err := parseExpr(text)
	if err != nil {
		return Expr{}, err
	}
	return Expr{text: text, root: root}, nil
}

// UnmarshalYAML reads a formula and remembers where it stood.
func (e *Expr) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind != yaml.ScalarNode {
		return valueFault(n, say.Of("trade.a-formula-please-such-as-first-second"))
	}
	parsed, err := ReadExpr(n.Value)
	if err != nil {
		return valueFault(n, say.Of("trade.formula", say.Quoted(n.Value), err))
	}
	*e = parsed
	e.line, e.column = n.Line, n.Column
	return nil
}

// MarshalYAML writes the formula as it was read.
func (e Expr) MarshalYAML() (any, error) { return e.text, nil }

// Given reports whether there is a formula at all.
func (e Expr) Given() bool { return e.root != nil }

// String is the formula as written.
func (e Expr) String() string { return e.text }

// Pretty is the formula with the signs of print: 4 × width.
func (e Expr) Pretty() string {
	if e.root == nil {
		return ""
	}
	return e.root.print(nil)
}

// Compares reports whether the formula is a comparison rather than a value.
func (e Expr) Compares() bool { return e.root != nil && e.root.compares() }

// Names lists the parameters the formula uses, sorted, each once.
func (e Expr) Names() []string {
	set := map[string]bool{}
	if e.root != nil {
		e.root.names(set)
	}
	out := make([]string, 0, len(set))
	for n := range set {
		out = append(out, n)
	}
	sort.Strings(out)
	return out
}

// Eval computes the formula. It fails on a name without a value, a division by
// zero, a result too large to be a number, and on a comparison (see Holds).
func (e Expr) Eval(p Params) (Worked, error) {
	if e.root == nil {
		return Worked{}, errors.New(say.Of("trade.there-is-no-formula"))
	}
	if e.root.compares() {
		return Worked{}, errors.New(say.Of("trade.compares-two-values-and-is-not-one", say.Quoted(e.text)))
	}
	v, err := e.Value(p)
	if err != nil {
		return Worked{}, err
	}
	return Worked{v, e.working(p, v)}, nil
}

// Value is Eval without the substitution, for those who only compare.
func (e Expr) Value(p Params) (float64, error) {
	if e.root == nil {
		return 0, errors.New(say.Of("trade.there-is-no-formula"))
	}
	v, err := e.root.value(p)
	if err != nil {
		return 0, fault.Wrapping(err, say.Of("trade.formula", say.Quoted(e.text), err))
	}
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, errors.New(say.Of("trade.formula-the-result-is-too-large", say.Quoted(e.text)))
	}
	return v, nil
}

// A Builder puts a formula together of something else than numbers.
type Builder[T any] interface {
	Number(v float64) T
	Pi() T
	Name(name string) T
	Negate(a T) T
	Join(op string, a, b T) T // op is +, −, × or ÷
}

// Build puts together a formula that computes a value, the innermost first.
func Build[T any](e Expr, b Builder[T]) T { return build(e.root, b) }

func build[T any](n *exprNode, b Builder[T]) T {
	switch {
	case n == nil:
		return b.Number(0)
	case n.kind == numberNode:
		return b.Number(n.num)
	case n.kind == nameNode && n.name == "pi":
		return b.Pi()
	case n.kind == nameNode:
		return b.Name(n.name)
	case n.kind == groupNode:
		return build(n.left, b)
	case n.kind == negateNode:
		return b.Negate(build(n.left, b))
	}
	left := build(n.left, b)
	return b.Join(n.op, left, build(n.right, b))
}

// working writes symbols = numbers = result, leaving out a part that would
// only repeat the one before it.
func (e Expr) working(p Params, v float64) string {
	parts := []string{e.root.print(nil)}
	for _, s := range []string{e.root.print(p), number(v)} {
		if s != parts[len(parts)-1] {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, " = ")
}

// Holds evaluates a comparison; the working reads "trim < second: 3 < 9".
func (e Expr) Holds(p Params) (bool, string, error) {
	if e.root == nil || !e.root.compares() {
		return false, "", errors.New(say.Of("trade.is-not-a-comparison", say.Quoted(e.text)))
	}
	l, err := e.root.left.value(p)
	if err != nil {
		return false, "", fault.Wrapping(err, say.Of("trade.formula", say.Quoted(e.text), err))
	}
	r, err := e.root.right.value(p)
	if err != nil {
		return false, "", fault.Wrapping(err, say.Of("trade.formula", say.Quoted(e.text), err))
	}
	return compare(e.root.op, l, r), e.root.print(nil) + ": " + number(l) + " " + e.root.op + " " + number(r), nil
}

// compare allows for the last digits lost in binary arithmetic: lengths nearer
// than a millionth of a millimetre are the same length.
func compare(op string, l, r float64) bool {
	const same = 1e-6
	equal := math.Abs(l-r) <= same
	switch op {
	case "<":
		return l < r && !equal
	case "≤":
		return l < r || equal
	case ">":
		return l > r && !equal
	case "≥":
		return l > r || equal
	case "=":
		return equal
	default:
		return !equal
	}
}

// number prints a value for a working: at most three decimals, none needless.
func number(v float64) string {
	s := strconv.FormatFloat(v, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return strings.Replace(s, "-", "−", 1)
}
