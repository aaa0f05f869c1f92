package trade_test

import (
	"fmt"

	"hembook/internal/trade"
)

// A French seam of 6 and 9 mm, first trimmed to 3: what each side gives up,
// and what is wrong with trimming too little.
func ExampleSeamType_Allowances() {
	french, _ := trade.SeamTypeNamed("french")
	a, b, _ := french.Allowances(trade.Params{"first": 6, "trim": 3, "second": 9})
	fmt.Println(a.Working, "mm on one side,", b.Value, "on the other")
	broken, _ := french.Broken(trade.Params{"first": 6, "trim": 6, "second": 5}, nil)
	fmt.Println(broken[0].Working)
	// Output:
	// first + second = 6 + 9 = 15 mm on one side, 15 on the other
	// trim < second: 6 < 5
}

// The cross-section is geometry alone: strokes for the layers, lines for the
// threads, measured distances.
func ExampleSeamType_Section() {
	felled, _ := trade.SeamTypeNamed("flat-felled")
	s, _ := felled.Section(nil)
	for _, l := range s.Layers {
		fmt.Println(l.Role, "from", l.Start, "to", l.End)
	}
	fmt.Println(len(s.Stitches), "rows;", s.Dims[0].Text)
	// Output:
	// cloth a from on to raw
	// cloth b from on to raw
	// 2 rows; finished width 9 mm
}

func ExamplePlausible() {
	_, says := trade.Plausible("bust", 92, trade.Woman)
	fmt.Println(says)
	// Output:
	// a bust girth of 92 mm is outside everyone measured (695 to 1266 mm); did you mean 920 mm (92 cm)?
}

func ExampleFlammability() {
	f := trade.Flammability([]string{"silk"}, 60, trade.PlainSurface)
	fmt.Println(f.State+":", f.Reason)
	fmt.Println(f.Working)
	// Output:
	// flagged: light plain cloth with silk, which the rule does not exempt
	// 60 g/m² = 1.77 oz/yd²; the limit is 2.6 oz/yd² = 88.155 g/m²
}
