package cutting

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/lay/verify"
)

// TestAnyLay: whatever rectangles and trapezoids are cut from whatever cloth,
// the plan is sound, the figures agree with each other, and laying once more
// gives the same.
func TestAnyLay(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		length := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(r, name) }
		cloth := fmt.Sprintf("width: %d\nselvedge: %d\nshrink: {along: %d, across: %d}\non-hand: %d\nweight: 200 g/m2\nprice: 9.99 EUR\none-way: %v\nfaces: %s\n",
			length("width", 600, 1600), length("selvedge", 0, 15), length("along", 0, 8), length("across", 0, 4), length("on hand", 100, 4000),
			rapid.Bool().Draw(r, "one-way"), rapid.SampledFrom([]string{"one", "two"}).Draw(r, "faces"))
		var pieces strings.Builder
		pieces.WriteString("pieces:\n")
		for i := range length("pieces", 1, 4) {
			form := fmt.Sprintf("rectangle: [%d, %d]", length("w", 40, 300), length("h", 40, 300))
			if rapid.Bool().Draw(r, "trapezoid") {
				form = fmt.Sprintf("trapezoid: {bottom: %d, top: %d, height: %d}", length("bottom", 60, 300), length("top", 40, 280), length("high", 60, 300))
			}
			fmt.Fprintf(&pieces, "  p%d: {cut: %s, grain: %s, allowance: %d, %s}\n", i,
				rapid.SampledFrom([]string{"1", "2", "2 alike", "4", "3 alike"}).Draw(r, "cut"),
				rapid.SampledFrom([]string{"along", "across", "bias", "any"}).Draw(r, "grain"), length("allowance", 0, 20), form)
		}
		b := benchWith(t, cloth, pieces.String())
		b.opt.Tries = 4000
		l := b.lay()
		if l.Plan == nil {
			r.Fatalf("not laid: %s", l.Why)
		}
		if faults := verify.Check(&l.Problem.Lay, l.Plan, tolerance); len(faults) > 0 {
			r.Fatalf("%v", faults)
		}
		consistent(r, l)
		again := b.lay()
		if again.Plan.Length != l.Plan.Length || len(again.Left) != len(l.Left) {
			r.Errorf("laid once more: %v, first %v", again.Plan.Length, l.Plan.Length)
		}
	})
}

func consistent(r *rapid.T, l *Lay) {
	v := func(name string, x float64, ok bool) {
		if !ok {
			r.Errorf("%s is %v", name, x)
		}
	}
	long, need := l.Length.Value.Number, l.Needed.Value.Number*1e3
	v("the bound", l.Bound.Value.Number, l.Bound.Value.Number <= long*(1+1e-9))
	v("what is used", l.Used.Value.Number, l.Used.Value.Number > 0 && l.Used.Value.Number <= 100+1e-6)
	v("the allowances", l.Share.Value.Number, l.Share.Value.Number >= 0 && l.Share.Value.Number < l.Used.Value.Number)
	v("cloth needed", need, need >= long+50-1e-6)
	v("the utilisation of the engine", l.Plan.Utilisation, l.Plan.Utilisation*100 < l.Used.Value.Number*1.02+1e-6 && l.Plan.Utilisation*100 > l.Used.Value.Number*0.98)
	copies := 0
	for _, q := range l.Chalked {
		copies++
		if q.Pair {
			copies++
		}
		v("an end", q.End, q.End >= 0 && q.EndTo <= long+1e-6 && q.Side >= -1e-6 && q.SideTo <= l.Plan.Width+1e-3)
	}
	v("the number of copies", float64(copies), copies == l.Problem.copies())
}
