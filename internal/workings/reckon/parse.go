package reckon

import (
	"errors"
	"fmt"
	"math"
)

// A unitsError says that units do not go together.
type unitsError struct {
	kind Kind
	say  string
}

func (e unitsError) Error() string { return e.say }

// A parser reads one link.
type parser struct {
	toks  []token
	at    int
	steps map[string]int
	lacks string // a unit that is missing, though what it would be is plain
}

func (p *parser) peek() token {
	if p.at < len(p.toks) {
		return p.toks[p.at]
	}
	return token{kind: odd}
}

func (p *parser) is(text string) bool {
	t := p.peek()
	return t.kind == sign && t.text == text
}

func (p *parser) take(text string) bool {
	if p.is(text) {
		p.at++
		return true
	}
	return false
}

// all reads the whole link.
func (p *parser) all() (Amount, error) {
	if len(p.toks) == 0 {
		return Amount{}, errors.New("nothing stands here")
	}
	a, err := p.sum()
	if err != nil {
		return Amount{}, err
	}
	if p.at < len(p.toks) {
		return Amount{}, fmt.Errorf("%q does not belong to a sum", p.peek().text)
	}
	if math.IsNaN(a.Value) || math.IsInf(a.Value, 0) {
		return Amount{}, errors.New("it has no value")
	}
	return a, nil
}

func (p *parser) sum() (Amount, error) {
	a, err := p.product()
	for err == nil {
		s := 1.0
		switch {
		case p.take("+"):
		case p.take("−"):
			s = -1
		default:
			return p.rounded(a)
		}
		var b Amount
		if b, err = p.product(); err == nil {
			a, err = p.add(a, b, s)
		}
	}
	return a, err
}

// add adds or takes away. A bare number beside one with a unit is a find, and
// is read in that unit so that the numbers can still be looked at.
func (p *parser) add(a, b Amount, s float64) (Amount, error) {
	if a.Dim != b.Dim {
		lack := func(x, y Amount) bool { return !x.Unit && x.Dim == None }
		switch {
		case lack(a, b):
			a = inUnitOf(a, b)
		case lack(b, a):
			b = inUnitOf(b, a)
		default:
			return a, unitsError{UnitsMixed, "what is added is not of one kind"}
		}
		p.lacks = "a number has no unit, and the one it is added to has"
	}
	return Amount{Value: a.Value + s*b.Value, Dim: a.Dim, Err: a.Err + b.Err, Factor: a.Factor, Unit: a.Unit || b.Unit}, nil
}

func inUnitOf(a, b Amount) Amount {
	f := b.factor()
	a.Value, a.Err, a.Half, a.Dim, a.Factor = a.Value*f, a.Err*f, a.Half*f, b.Dim, f
	return a
}

func (p *parser) product() (Amount, error) {
	a, err := p.factor()
	for err == nil {
		by := 1
		switch {
		case p.take("×"):
		case p.take("÷"):
			by = -1
		default:
			return a, nil
		}
		var b Amount
		if b, err = p.factor(); err == nil {
			a, err = times(a, b, by)
		}
	}
	return a, err
}

func times(a, b Amount, by int) (Amount, error) {
	dim, ok := a.Dim.times(b.Dim, by)
	if !ok {
		return a, unitsError{UnitsMixed, "two currencies"}
	}
	out := Amount{Dim: dim, Unit: a.Unit || b.Unit}
	if by > 0 {
		out.Value = a.Value * b.Value
		out.Err = math.Abs(a.Value)*b.Err + math.Abs(b.Value)*a.Err + a.Err*b.Err
		out.Factor = a.factor() * b.factor()
		return out, nil
	}
	if b.Value == 0 {
		return a, errors.New("it divides by nothing")
	}
	out.Value = a.Value / b.Value
	if least := math.Abs(b.Value) - b.Err; least > 0 {
		out.Err = (a.Err + math.Abs(out.Value)*b.Err) / least
	}
	out.Factor = a.factor() / b.factor()
	return out, nil
}

// factor reads a signed power, and a number that π or a root follows without
// a sign between.
func (p *parser) factor() (Amount, error) {
	if p.take("−") {
		a, err := p.factor()
		a.Value = -a.Value
		return a, err
	}
	a, err := p.power()
	for err == nil && (p.is("π") || p.is("√")) {
		var b Amount
		if b, err = p.power(); err == nil {
			a, err = times(a, b, 1)
		}
	}
	return a, err
}

func (p *parser) power() (Amount, error) {
	a, err := p.primary()
	for err == nil {
		n := 0
		switch {
		case p.take("²"):
			n = 2
		case p.take("³"):
			n = 3
		default:
			return a, nil
		}
		b := a
		for range n - 1 {
			if a, err = times(a, b, 1); err != nil {
				return a, err
			}
		}
	}
	return a, err
}

func (p *parser) primary() (Amount, error) {
	switch t := p.peek(); {
	case p.take("("):
		return p.closed(")")
	case p.take("|"):
		a, err := p.closed("|")
		a.Value = math.Abs(a.Value)
		return a, err
	case p.take("π"):
		return Amount{Value: math.Pi, Factor: 1}, nil
	case p.take("√"):
		return p.root()
	case t.kind == number, t.kind == word:
		return p.named()
	case t.text == "":
		return Amount{}, errors.New("a number is missing at its end")
	default:
		return Amount{}, fmt.Errorf("a number is missing before %q", t.text)
	}
}

func (p *parser) closed(by string) (Amount, error) {
	a, err := p.sum()
	if err == nil && !p.take(by) {
		err = fmt.Errorf("%q is missing", by)
	}
	a.Plain, a.Half = false, 0
	return a, err
}

func (p *parser) root() (Amount, error) {
	a, err := p.primary()
	if err != nil {
		return a, err
	}
	d := a.Dim
	if d.Length%2 != 0 || d.Mass%2 != 0 || d.Time%2 != 0 || d.Angle%2 != 0 || d.Money != 0 {
		return a, unitsError{UnitsMixed, "the root of what is no square"}
	}
	if a.Value < 0 {
		return a, errors.New("the root of less than nothing")
	}
	v := math.Sqrt(a.Value)
	return Amount{Value: v, Err: math.Sqrt(a.Value+a.Err) - v, Factor: math.Sqrt(a.factor()), Unit: a.Unit,
		Dim: Dim{Length: d.Length / 2, Mass: d.Mass / 2, Time: d.Time / 2, Angle: d.Angle / 2}}, nil
}

// named passes over the name before a number: words, numbers that words
// follow, brackets with no number in them.
func (p *parser) named() (Amount, error) {
	for words := 0; ; {
		t := p.peek()
		switch {
		case t.kind == word && p.call():
			return p.function()
		case p.words("least", "of", "("):
			return p.listed("min")
		case p.words("greatest", "of", "("):
			return p.listed("max")
		case p.words("along", "the", "curve"):
			return p.curve()
		case t.kind == word:
			p.at++
			words++
		case t.kind == number && t.unit == "" && p.at+1 < len(p.toks) && (p.toks[p.at+1].kind == word && !p.callAt(p.at+1)):
			p.at++
			words++
		case words > 0 && t.kind == number && t.unit == "" && p.at+1 < len(p.toks) && p.toks[p.at+1].text == ":": // "bone 1: 2"
			p.at += 2
		case words > 0 && p.words(",", "further", "on"): // a part of an edge: "apron.bib, further on 15 mm"
		case t.kind == number:
			p.at++
			return p.compound(t)
		case words > 0 && p.is("("):
			if end := p.nameInBrackets(); end > 0 {
				p.at = end
				continue
			}
			p.at++
			return p.closed(")")
		default:
			return Amount{}, errors.New("a name without its number")
		}
	}
}

// nameInBrackets is the place behind brackets that hold only words; 0 where
// they hold more.
func (p *parser) nameInBrackets() int {
	for i := p.at + 1; i < len(p.toks); i++ {
		switch t := p.toks[i]; {
		case t.kind == sign && t.text == ")":
			return i + 1
		case t.kind != word:
			return 0
		}
	}
	return 0
}

// compound reads what follows a number without a sign: "1 h 20 min", "2 yd 13
// 1/16 in".
func (p *parser) compound(t token) (Amount, error) {
	a := p.amount(t)
	for {
		if n := 1 / t.step; t.step > 0 && t.unit != "" && n != 2 && n != 4 && n != 8 && n != 16 && n != 32 && n != 64 {
			return a, fmt.Errorf("no rule is marked in %s", t.text)
		}
		next := p.peek()
		if next.kind != number {
			return a, nil
		}
		switch t.unit + " " + next.unit {
		case "h min", "d h", "yd in", "ft in", "yd ft", "kg g", "lb oz", "min s":
		default:
			return a, errors.New("two numbers with no sign between")
		}
		p.at++
		b := p.amount(next)
		a.Value, a.Err, a.Half, a.Factor = a.Value+b.Value, b.Err, b.Half, b.Factor
		t = next
	}
}

func (p *parser) amount(t token) Amount {
	a, _ := Of(t.value, t.unit)
	a.Half, a.Err, a.Plain = halfOf(t)*a.Factor, errOf(t, p.steps)*a.Factor, true
	a.Unit = a.Dim != None // a percentage or a count saves no length from being bare
	return a
}

func (p *parser) call() bool { return p.callAt(p.at) }

// callAt reports whether a function's name and its bracket stand at a place.
func (p *parser) callAt(at int) bool {
	if at+1 >= len(p.toks) || p.toks[at+1].text != "(" || !p.toks[at+1].glued {
		return false
	}
	switch p.toks[at].text {
	case "min", "max", "sin", "cos", "tan", "asin", "acos", "atan":
		return true
	}
	return false
}

func (p *parser) function() (Amount, error) {
	name := p.peek().text
	p.at += 2
	return p.listed(name)
}

// listed reads what a function is of, up to its bracket.
func (p *parser) listed(name string) (Amount, error) {
	var args []Amount
	for {
		a, err := p.sum()
		if err != nil {
			return a, err
		}
		args = append(args, a)
		if p.take(")") {
			break
		}
		if !p.take(",") {
			return a, fmt.Errorf("%q is missing", ")")
		}
	}
	if name == "min" || name == "max" {
		return extreme(name, args)
	}
	if len(args) != 1 {
		return Amount{}, fmt.Errorf("%s takes one number", name)
	}
	return turned(name, args[0])
}

func extreme(name string, args []Amount) (Amount, error) {
	out := args[0]
	for _, a := range args[1:] {
		if a.Dim != out.Dim {
			return out, unitsError{UnitsMixed, "what is compared is not of one kind"}
		}
		widest := max(out.Err, a.Err)
		if name == "min" && a.Value < out.Value || name == "max" && a.Value > out.Value {
			a.Unit = a.Unit || out.Unit
			out = a
		}
		out.Err = widest
	}
	out.Plain, out.Half = false, 0
	return out, nil
}

func turned(name string, a Amount) (Amount, error) {
	const radian = math.Pi / 180
	degree := Dim{Angle: 1}
	back := map[string]func(float64) float64{"asin": math.Asin, "acos": math.Acos, "atan": math.Atan}
	if f := back[name]; f != nil {
		if a.Dim != None {
			return a, unitsError{UnitsMixed, "the angle of what is no ratio"}
		}
		return Amount{Value: f(a.Value) / radian, Err: a.Err / radian, Dim: degree, Factor: 1, Unit: true}, nil
	}
	if a.Dim != degree {
		return a, unitsError{UnitsMissing, "an angle without °"}
	}
	f := map[string]func(float64) float64{"sin": math.Sin, "cos": math.Cos, "tan": math.Tan}[name]
	v := f(a.Value * radian)
	e := a.Err * radian
	if name == "tan" {
		e *= 1 + v*v
	}
	return Amount{Value: v, Err: e, Factor: 1}, nil
}
