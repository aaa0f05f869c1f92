package measure

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// longestDuration is the longest time that is read from text, 100 years.
const longestDuration = 36525 * 24 * time.Hour

// ParseDuration reads a time such as "50 min", "1 h 20 min", "24 h", "2 d" or
// "1:20" (hours and minutes), to the nearest nanosecond. A number without a
// unit is refused.
func ParseDuration(text string) (time.Duration, error) {
	if at := strings.IndexByte(text, ':'); at >= 0 {
		return parseClock(text, at)
	}
	s := scanner{text: text, want: DurationDim}
	all := newSum() // of nanoseconds
	_, err := s.parts(NoUnit, false, func(p amount) error {
		num, den := p.unit.Factor()
		all.add(p.ratio, num*int64(time.Minute), den)
		if all.over(int64(longestDuration)) {
			return wrongAt(text, p.from, say.Of("measure.the-time-is-longer-than-100-years"), say.Of("measure.is-the-unit-right"))
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	return time.Duration(all.round()), nil
}

// roundRat rounds a number that is not negative and fits, half up.
func roundRat(r *big.Rat) int64 {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	twice.Add(twice, r.Denom())
	return twice.Div(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2))).Int64()
}

// parseClock reads hours and minutes with a colon between.
func parseClock(text string, colon int) (time.Duration, error) {
	clean := strings.TrimSpace(text)
	hours, minutes, _ := strings.Cut(clean, ":")
	h, okH := smallNumber(hours, 4)
	m, okM := smallNumber(minutes, 2)
	switch {
	case !okH || !okM || len(minutes) != 2:
		return 0, wrongAt(text, 0, say.Of("measure.a-colon-in-a-time-parts-hours"),
			say.Of("measure.write-1-20-or-1-h-20"))
	case m > 59:
		return 0, wrongAt(text, colon+1, say.Of("measure.more-than-59-minutes-after-the-colon"),
			say.Of("measure.write-it-like-1-h-20-min"))
	}
	return time.Duration(h)*time.Hour + time.Duration(m)*time.Minute, nil
}

// smallNumber reads one to most figures.
func smallNumber(text string, most int) (int64, bool) {
	if text == "" || len(text) > most {
		return 0, false
	}
	n := int64(0)
	for i := range len(text) {
		if !isDigit(text[i]) {
			return 0, false
		}
		n = 10*n + int64(text[i]-'0')
	}
	return n, true
}

// within moves what is wrong with a stretch of text to its place in the whole; the
// stretch starts at a byte offset.
func within(err error, text string, from int) error {
	list, ok := errors.AsType[fault.List](err)
	if !ok {
		return err
	}
	moved := slices.Clone(list)
	for i := range moved {
		moved[i].At.Column += int32(utf8.RuneCountInString(text[:from]))
	}
	return moved
}
