package trade

import (
	"errors"
	"math"
	"sort"
	"strconv"
	"strings"
	"unicode"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// Bounds on a formula; anything longer is a slip, not a seam.
const (
	maxExprLength = 400
	maxExprDepth  = 40
)

type nodeKind int

const (
	numberNode nodeKind = iota
	nameNode
	negateNode
	binaryNode
	groupNode // parentheses the maker wrote; kept so that the working shows them
)

type exprNode struct {
	kind        nodeKind
	num         float64
	name, op    string // op as printed: + − × ÷ < ≤ > ≥ = ≠
	left, right *exprNode
}

func (n *exprNode) compares() bool {
	return n.kind == binaryNode && strings.Contains("<≤>≥=≠", n.op)
}

func (n *exprNode) names(set map[string]bool) {
	if n == nil {
		return
	}
	if n.kind == nameNode && n.name != "pi" {
		set[n.name] = true
	}
	n.left.names(set)
	n.right.names(set)
}

func (n *exprNode) value(p Params) (float64, error) {
	switch n.kind {
	case numberNode:
		return n.num, nil
	case nameNode:
		return lookUp(n.name, p)
	case groupNode:
		return n.left.value(p)
	case negateNode:
		v, err := n.left.value(p)
		return -v, err
	}
	l, err := n.left.value(p)
	if err != nil {
		return 0, err
	}
	r, err := n.right.value(p)
	if err != nil {
		return 0, err
	}
	switch n.op {
	case "+":
		return l + r, nil
	case "−":
		return l - r, nil
	case "×":
		return l * r, nil
	case "÷":
		if r == 0 {
			return 0, errors.New(say.Of("trade.divides-by-which-is-0", n.right.print(nil)))
		}
		return l / r, nil
	}
	return 0, errors.New(say.Of("trade.a-comparison-cannot-stand-inside-a-sum"))
}

func lookUp(name string, p Params) (float64, error) {
	if name == "pi" {
		return math.Pi, nil
	}
	if v, ok := p[name]; ok {
		return v, nil
	}
	known := make([]string, 0, len(p))
	for k := range p {
		known = append(known, k)
	}
	hint := nearestName(name, known)
	return 0, errors.New(say.Of("trade.no-value-for", say.Quoted(name), hint))
}

func nearestName(name string, known []string) string {
	// sorted, so that of two equally near names the same one is always offered
	sort.Strings(known)
	if h := meant.Hint(name, known); h != "" {
		return "; " + h
	}
	return ""
}

// print writes the node with names, or with their values where p is given.
func (n *exprNode) print(p Params) string {
	switch n.kind {
	case numberNode:
		return number(n.num)
	case nameNode:
		if p == nil {
			return n.name
		}
		if n.name == "pi" {
			return "3.14159"
		}
		return number(p[n.name])
	case groupNode:
		return "(" + n.left.print(p) + ")"
	case negateNode:
		return "−" + n.left.print(p)
	default:
		return n.left.print(p) + " " + n.op + " " + n.right.print(p)
	}
}

type exprParser struct {
	runes []rune
	at    int
	depth int
}

func parseExpr(text string) (*exprNode, error) {
	if len(text) > maxExprLength {
		return nil, errors.New(say.Of("trade.longer-than-characters", maxExprLength))
	}
	p := &exprParser{runes: []rune(text)}
	if p.peek() == 0 {
		return nil, errors.New(say.Of("trade.the-formula-is-empty"))
	}
	n, err := p.comparison()
	if err != nil {
		return nil, err
	}
	if c := p.peek(); c != 0 {
		return nil, p.unexpected(say.Of("trade.an-operator-such-as"))
	}
	return n, nil
}

// peek skips blanks and returns the next character, 0 at the end.
func (p *exprParser) peek() rune {
	for p.at < len(p.runes) && unicode.IsSpace(p.runes[p.at]) {
		p.at++
	}
	if p.at == len(p.runes) {
		return 0
	}
	if p.runes[p.at] == 0 {
		return unicode.ReplacementChar
	}
	return p.runes[p.at]
}

func (p *exprParser) unexpected(wanted string) error {
	c := p.peek()
	if c == 0 {
		return errors.New(say.Of("trade.ends-where-was-expected", wanted))
	}
	return errors.New(say.Of("trade.character-is-where-was-expected", p.at+1, say.Quoted(string(c)), wanted))
}

// signs maps what may be typed to what is printed.
var signs = map[rune]string{'+': "+", '-': "−", '−': "−", '–': "−", '*': "×", '×': "×", '·': "×", '/': "÷", '÷': "÷"}

func (p *exprParser) comparison() (*exprNode, error) {
	left, err := p.sum()
	if err != nil {
		return nil, err
	}
	op := p.compareSign()
	if op == "" {
		return left, nil
	}
	right, err := p.sum()
	if err != nil {
		return nil, err
	}
	if p.compareSign() != "" {
		return nil, errors.New(say.Of("trade.compares-more-than-two-values-write-two"))
	}
	return &exprNode{kind: binaryNode, op: op, left: left, right: right}, nil
}

func (p *exprParser) compareSign() string {
	c := p.peek()
	next := rune(0)
	if p.at+1 < len(p.runes) {
		next = p.runes[p.at+1]
	}
	two := map[string]string{"<=": "≤", ">=": "≥", "==": "=", "!=": "≠"}
	if op := two[string(c)+string(next)]; op != "" {
		p.at += 2
		return op
	}
	if c != 0 && strings.ContainsRune("<≤>≥=≠", c) {
		p.at++
		return string(c)
	}
	return ""
}

func (p *exprParser) sum() (*exprNode, error) { return p.chain("+−", p.product) }

func (p *exprParser) product() (*exprNode, error) { return p.chain("×÷", p.unary) }

// chain reads operands joined by any of the given signs, left to right.
func (p *exprParser) chain(ops string, operand func() (*exprNode, error)) (*exprNode, error) {
	left, err := operand()
	if err != nil {
		return nil, err
	}
	for {
		op := signs[p.peek()]
		if op == "" || !strings.Contains(ops, op) {
			return left, nil
		}
		p.at++
		right, err := operand()
		if err != nil {
			return nil, err
		}
		left = &exprNode{kind: binaryNode, op: op, left: left, right: right}
	}
}

func (p *exprParser) unary() (*exprNode, error) {
	if p.depth++; p.depth > maxExprDepth {
		return nil, errors.New(say.Of("trade.nested-too-deeply"))
	}
	defer func() { p.depth-- }()
	if signs[p.peek()] == "−" {
		p.at++
		n, err := p.unary()
		if err != nil {
			return nil, err
		}
		return &exprNode{kind: negateNode, left: n}, nil
	}
	return p.operand()
}

func (p *exprParser) operand() (*exprNode, error) {
	c := p.peek()
	switch {
	case c == '(':
		p.at++
		n, err := p.sum()
		if err != nil {
			return nil, err
		}
		if p.peek() != ')' {
			return nil, p.unexpected(say.Of("trade.a-closing-parenthesis"))
		}
		p.at++
		return &exprNode{kind: groupNode, left: n}, nil
	case c >= '0' && c <= '9' || c == '.':
		return p.number()
	case isNameRune(c) && !unicode.IsDigit(c):
		return p.name(), nil
	}
	return nil, p.unexpected(say.Of("trade.a-number-or-a-name"))
}

func (p *exprParser) number() (*exprNode, error) {
	start := p.at
	for p.at < len(p.runes) && strings.ContainsRune("0123456789.", p.runes[p.at]) {
		p.at++
	}
	text := string(p.runes[start:p.at])
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return nil, errors.New(say.Of("trade.is-not-a-number", say.Quoted(text)))
	}
	if p.at < len(p.runes) && isNameRune(p.runes[p.at]) {
		return nil, p.unexpected(say.Of("trade.an-operator-write-2-width-and-lengths"))
	}
	return &exprNode{kind: numberNode, num: v}, nil
}

func (p *exprParser) name() *exprNode {
	start := p.at
	for p.at < len(p.runes) && isNameRune(p.runes[p.at]) {
		p.at++
	}
	name := string(p.runes[start:p.at])
	if name == "π" {
		name = "pi"
	}
	return &exprNode{kind: nameNode, name: name}
}

func isNameRune(r rune) bool {
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}
