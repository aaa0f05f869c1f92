package measure

import (
	"math/bits"
	"strings"
	"unicode/utf8"

	"hembook/internal/say"
)

// A ratio is a number as it was read: num ÷ den, exactly, with the bytes of
// the text it stands in.
type ratio struct {
	num, den uint64
	fraction bool // written with a fraction, not with decimals
	from, to int
}

// Numbers are read exactly or not at all: a number of more figures than fit
// is refused.
const (
	mostFigures         = 18
	mostFractionFigures = 6
)

// pow10 holds the powers of ten that a number of mostFigures may need.
var pow10 = func() (p [mostFigures + 1]uint64) {
	p[0] = 1
	for i := 1; i < len(p); i++ {
		p[i] = 10 * p[i-1]
	}
	return p
}()

// A scanner walks over a text; at is a byte offset.
type scanner struct {
	text string
	at   int
	want Dimension
	bare Unit // what a number without a unit is in
	last Unit // of the part before the one at hand, NoUnit at the first
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

// peek returns the byte at hand, 0 at the end.
func (s *scanner) peek() byte { return s.ahead(0) }

func (s *scanner) ahead(n int) byte {
	if s.at+n >= len(s.text) {
		return 0
	}
	return s.text[s.at+n]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// gap returns the width in bytes of the space at hand, 0 if there is none.
func (s *scanner) gap() int {
	switch c := s.peek(); {
	case c == ' ' || c == '\t' || c == '\n' || c == '\r':
		return 1
	case c < utf8.RuneSelf:
		return 0
	}
	return s.narrowGap()
}

// narrowGap returns the width of a no-break, thin or narrow no-break space,
// the spaces that may stand inside a number.
func (s *scanner) narrowGap() int {
	rest := s.text[s.at:]
	switch {
	case strings.HasPrefix(rest, "\u00a0"):
		return 2
	case strings.HasPrefix(rest, "\u202f"), strings.HasPrefix(rest, "\u2009"):
		return 3
	}
	return 0
}

func (s *scanner) skipSpace() {
	for n := s.gap(); n > 0; n = s.gap() {
		s.at += n
	}
}

// sign reads a leading plus or minus.
func (s *scanner) sign() (negative, given bool) {
	switch {
	case s.peek() == '+':
		s.at++
		return false, true
	case s.peek() == '-':
		s.at++
		return true, true
	case strings.HasPrefix(s.text[s.at:], minusSign):
		s.at += len(minusSign)
		return true, true
	}
	return false, false
}

// slash returns the width of a slash of a fraction.
func (s *scanner) slash() int {
	if s.peek() == '/' {
		return 1
	}
	if rest := s.text[s.at:]; strings.HasPrefix(rest, "\u2044") || strings.HasPrefix(rest, "\u2215") {
		return 3
	}
	return 0
}

// vulgar returns the value of a fraction that is one character, such as ½,
// and its width.
func (s *scanner) vulgar() (num, den uint64, width int) {
	if s.peek() < utf8.RuneSelf {
		return 0, 0, 0
	}
	r, width := utf8.DecodeRuneInString(s.text[s.at:])
	if r >= '⅓' && r <= '⅞' {
		f := vulgarFractions[r-'⅓']
		return f[0], f[1], width
	}
	switch r {
	case '¼':
		return 1, 4, width
	case '½':
		return 1, 2, width
	case '¾':
		return 3, 4, width
	case '⅐':
		return 1, 7, width
	case '⅑':
		return 1, 9, width
	case '⅒':
		return 1, 10, width
	}
	return 0, 0, 0
}

// vulgarFractions are the characters U+2153 to U+215E in order (Unicode,
// chapter "Number Forms").
var vulgarFractions = [...][2]uint64{
	{1, 3}, {2, 3}, {1, 5}, {2, 5}, {3, 5}, {4, 5}, {1, 6}, {5, 6}, {1, 8}, {3, 8}, {5, 8}, {7, 8},
}

// number reads a number: 15, 1.5, .5, 5/8, 1 1/4, 1-1/4, 1½, ⅝, and groups
// of three figures with narrow spaces between.
func (s *scanner) number() (ratio, error) {
	n := ratio{den: 1, from: s.at}
	count, err := s.whole(&n)
	if err != nil {
		return n, err
	}
	if s.peek() == '.' && isDigit(s.ahead(1)) {
		err = s.decimals(&n)
	} else if width := s.slash(); width > 0 && count > 0 {
		err = s.below(&n, n.from, width)
	} else {
		err = s.mixed(&n, count)
	}
	if err != nil {
		return n, err
	}
	n.to = s.at
	return n, s.afterNumber(&n)
}

// whole reads figures into n and tells how many there were.
func (s *scanner) whole(n *ratio) (count int, err error) {
	start, grouped := s.at, 0
	for {
		for isDigit(s.peek()) {
			if n.num >= pow10[mostFigures-1] {
				return count, s.tooManyFigures(start)
			}
			n.num = 10*n.num + uint64(s.peek()-'0')
			s.at++
			count++
		}
		if count == 0 || count > 3 && grouped == 0 || !s.group() {
			return count, nil
		}
		s.at += s.narrowGap()
		grouped++
	}
}

// group tells whether a narrow space and exactly three figures follow.
func (s *scanner) group() bool {
	if s.peek() < utf8.RuneSelf {
		return false
	}
	w := s.narrowGap()
	return w > 0 && isDigit(s.ahead(w)) && isDigit(s.ahead(w+1)) && isDigit(s.ahead(w+2)) &&
		!isDigit(s.ahead(w+3)) && s.ahead(w+3) != '/'
}

// decimals reads a point and the figures after it into n.
func (s *scanner) decimals(n *ratio) error {
	s.at++
	start := s.at
	for isDigit(s.peek()) {
		s.at++
	}
	figures := strings.TrimRight(s.text[start:s.at], "0")
	if len(figures) > mostFigures {
		return s.tooManyFigures(n.from)
	}
	for i := range len(figures) {
		if n.num >= pow10[mostFigures-1] {
			return s.tooManyFigures(n.from)
		}
		n.num = 10*n.num + uint64(figures[i]-'0')
	}
	n.den = pow10[len(figures)]
	return nil
}

// mixed reads the fraction of a mixed number, if one follows, into n.
func (s *scanner) mixed(n *ratio, count int) error {
	before := s.at
	joined := count > 0 && s.peek() == '-'
	if joined {
		s.at++
	} else if count > 0 {
		s.skipSpace()
	}
	if num, den, width := s.vulgar(); width > 0 {
		s.at += width
		return s.add(n, ratio{num: num, den: den, from: before})
	}
	if count > 0 && isDigit(s.peek()) && (joined || s.at > before) {
		part := ratio{den: 1, from: s.at}
		if _, err := s.whole(&part); err != nil {
			return err
		}
		if width := s.slash(); width > 0 {
			if err := s.below(&part, part.from, width); err != nil {
				return err
			}
			return s.add(n, part)
		}
	}
	s.at = before // what follows is no fraction
	if count == 0 {
		return s.noNumber()
	}
	return nil
}

// below reads a slash and the number under it into n, a whole number so far.
func (s *scanner) below(n *ratio, from, width int) error {
	s.at += width
	start := s.at
	if !isDigit(s.peek()) {
		return wrongAt(s.text, from, say.Of("measure.a-fraction-with-nothing-below-its-line"), say.Of("measure.write-it-like-5-8"))
	}
	under := ratio{den: 1, from: s.at}
	if _, err := s.whole(&under); err != nil {
		return err
	}
	switch {
	case under.num == 0:
		return wrongAt(s.text, start, say.Of("measure.a-fraction-with-0-below-its-line"), "")
	case under.num >= pow10[mostFractionFigures] || n.num >= pow10[mostFractionFigures]:
		return wrongAt(s.text, from, say.Of("measure.a-fraction-of-too-many-figures"), say.Of("measure.write-a-decimal-number"))
	case s.peek() == '.' && isDigit(s.ahead(1)):
		return wrongAt(s.text, from, say.Of("measure.a-fraction-is-made-of-whole-numbers"), say.Of("measure.write-it-like-5-8-or-as"))
	}
	n.den, n.fraction = under.num, true
	return nil
}

// add adds a proper fraction to n, a whole number.
func (s *scanner) add(n *ratio, part ratio) error {
	if part.num >= part.den {
		return wrongAt(s.text, part.from, say.Of("measure.the-fraction-of-a-mixed-number-must"),
			say.Of("measure.was-a-figure-mistyped"))
	}
	high, low := bits.Mul64(n.num, part.den)
	sum, carry := bits.Add64(low, part.num, 0)
	if high+carry > 0 {
		return s.tooManyFigures(n.from)
	}
	n.num, n.den, n.fraction = sum, part.den, true
	return nil
}

func (s *scanner) tooManyFigures(from int) error {
	for isDigit(s.peek()) || s.peek() == '.' {
		s.at++
	}
	return wrongAt(s.text, from, say.Of("measure.the-number-has-too-many-figures"), say.Of("measure.round-it-to-what-can-be-measured"))
}
