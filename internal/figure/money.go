package figure

import (
	"errors"

	"github.com/shopspring/decimal"

	"hembook/internal/measure"
)

// paid is an amount of money in exact decimals, rounded to the smallest coin
// of its currency.
func (p *Pad) paid(t Term) Value {
	var c till
	amount, err := c.add(p, t.at)
	if err != nil {
		return Value{Why: err.Error()}
	}
	m := measure.Money{Amount: amount.Round(mostDigits), Currency: c.currency}.Round() // a third of a cent, thrice, is a cent
	return Value{Money: &m}
}

// A till works out an expression in decimals, of one currency.
type till struct{ currency string }

// mostDigits is how many decimals a quotient is worked out to.
const mostDigits = 12

func (c *till) add(p *Pad, at int32) (decimal.Decimal, error) {
	n := p.nodes.at(at)
	switch n.op {
	case opInput:
		if m := p.origins.at(n.a).money; m > 0 {
			return c.amount(p.money[m-1], n.unit)
		}
	case opAdd, opTake, opTimes, opOver:
		return c.pair(p, n)
	case opSum, opNamedSum:
		sum := decimal.Zero
		for _, k := range (span{n.a, n.b}).of(p.kids) {
			v, err := c.add(p, k)
			if err != nil {
				return sum, err
			}
			sum = sum.Add(v)
		}
		return sum, nil
	}
	return decimal.NewFromFloat(n.v), nil
}

// amount takes money for one of a unit as money for one of its base unit.
func (c *till) amount(m measure.Money, per measure.Unit) (decimal.Decimal, error) {
	if c.currency == "" {
		c.currency = m.Currency
	}
	if _, err := m.Add(measure.Money{Currency: c.currency}); err != nil {
		return decimal.Zero, err
	}
	if per == measure.NoUnit {
		return m.Amount, nil
	}
	return m.Amount.DivRound(decimal.NewFromFloat(scaleOf(per)), 2*mostDigits), nil
}

func (c *till) pair(p *Pad, n *node) (decimal.Decimal, error) {
	a, err := c.add(p, n.a)
	if err != nil {
		return a, err
	}
	b, err := c.add(p, n.b)
	switch {
	case err != nil:
		return b, err
	case n.op == opAdd:
		return a.Add(b), nil
	case n.op == opTake:
		return a.Sub(b), nil
	case n.op == opTimes:
		return a.Mul(b), nil
	case b.IsZero():
		return b, errors.New("there is nothing to divide by")
	}
	return a.DivRound(b, 2*mostDigits), nil
}
