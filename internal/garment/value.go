package garment

import (
	"strconv"
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
)

// unknown is a value that is not known, because …
func unknown(why string) figure.Value { return figure.Value{Why: why} }

func moment(t time.Time) figure.Value { return figure.Value{Moment: &t} }

// countOf writes how many there are of something: "1 edge", "4 edges".
func countOf(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// appendNumber writes v with up to so many decimals, as package measure does.
func appendNumber(dst []byte, v float64, decimals int) []byte {
	return append(dst, measure.Style{}.Number(v, decimals)...)
}

func plainNumber(v float64) string { return string(appendNumber(nil, v, 3)) }
