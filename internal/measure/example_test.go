package measure_test

import (
	"errors"
	"fmt"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

func ExampleParseLength() {
	for _, text := range []string{"15", "5/8 in", "1 1/4 yd", "3 ft 2 in"} {
		l, _ := measure.ParseLength(text, measure.UnitMM)
		fmt.Println(text, "=", l)
	}
	// Output:
	// 15 = 15 mm
	// 5/8 in = 15.875 mm
	// 1 1/4 yd = 1143 mm
	// 3 ft 2 in = 965.2 mm
}

func ExampleParseLength_wrong() {
	_, err := measure.ParseLength("5/8 inhc", measure.UnitMM)
	if wrong, ok := errors.AsType[fault.List](err); ok {
		fmt.Println("5/8 inhc")
		fmt.Printf("%*s %s\n", wrong[0].At.Column, "^", wrong[0].Message)
		fmt.Println(wrong[0].Hint)
	}
	// Output:
	// 5/8 inhc
	//     ^ unknown unit "inhc"
	// did you mean 5/8 in?
}

func ExampleStyle() {
	hem := measure.MM(15.875)
	fmt.Println(measure.Style{}.Length(hem))
	fmt.Println(measure.Style{}.Precise(hem))
	fmt.Println(measure.Style{System: measure.Both}.Length(hem))
	fmt.Println(measure.Style{System: measure.Imperial}.Cloth(19 * measure.Yard / 8))
	// Output:
	// 16 mm
	// 15.875 mm
	// 16 mm (5/8 in)
	// 2 3/8 yd
}

func ExampleInches() {
	text, off := measure.Inches(measure.MM(15))
	fmt.Println(text, "is off by", off)
	// Output: 9/16 in is off by −0.7125 mm
}
