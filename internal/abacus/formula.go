package abacus

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// evaluate works out a formula of the trade's tables: numbers, names, the four
// operations, brackets, and pi.
func evaluate(formula string, names map[string]float64) float64 {
	e := &evaluator{rest: formula, names: names, whole: formula}
	v := e.sum()
	if e.skip(); e.rest != "" {
		giveUp("formula %q: %q is left over", formula, e.rest)
	}
	return v
}

type evaluator struct {
	rest, whole string
	names       map[string]float64
}

func (e *evaluator) skip() { e.rest = strings.TrimLeft(e.rest, " ") }

func (e *evaluator) take(sign string) bool {
	e.skip()
	rest, ok := strings.CutPrefix(e.rest, sign)
	if ok {
		e.rest = rest
	}
	return ok
}

func (e *evaluator) sum() float64 {
	v := e.product()
	for {
		switch {
		case e.take("+"):
			v += e.product()
		case e.take("-"):
			v -= e.product()
		default:
			return v
		}
	}
}

func (e *evaluator) product() float64 {
	v := e.atom()
	for {
		switch {
		case e.take("*"):
			v *= e.atom()
		case e.take("/"):
			v /= e.atom()
		default:
			return v
		}
	}
}

func (e *evaluator) atom() float64 {
	if e.take("-") {
		return -e.atom()
	}
	if e.take("(") {
		v := e.sum()
		if !e.take(")") {
			giveUp("formula %q: a bracket is not closed", e.whole)
		}
		return v
	}
	e.skip()
	end := strings.IndexFunc(e.rest, func(r rune) bool {
		return r != '.' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	if end < 0 {
		end = len(e.rest)
	}
	word := e.rest[:end]
	e.rest = e.rest[end:]
	if f, err := strconv.ParseFloat(word, 64); err == nil {
		return f
	}
	if word == "pi" {
		return math.Pi
	}
	v, known := e.names[word]
	if !known {
		giveUp("formula %q: what is %q?", e.whole, word)
	}
	return v
}
