package measure

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hembook/internal/say"
)

// This file holds what the scanner says when it meets what it cannot read.

// instead returns the whole text with a stretch of it written otherwise, as a
// hint shows it.
func (s *scanner) instead(from, to int, by string) string {
	return clip(strings.TrimSpace(s.text[:from] + by + s.text[to:]))
}

// afterNumber refuses what looks like more of a number than can be read.
func (s *scanner) afterNumber(n *ratio) error {
	start, next := s.at, s.ahead(1)
	switch c := s.peek(); {
	case s.programmers(n):
		return s.notShown(n.from)
	case c == ',' && isDigit(next):
		return s.comma(n)
	case c == '.' && (next == '.' || isDigit(next)):
		return wrongAt(s.text, start, say.Of("measure.two-decimal-points-in-one-number"), "")
	case c == '.' && !isUnitLetter(next):
		return wrongAt(s.text, start, say.Of("measure.a-decimal-point-with-nothing-after-it"), say.Of("measure.write", s.instead(start, start+1, "")))
	case s.slash() > 0 && (isDigit(s.ahead(s.slash())) || n.den > 1):
		return wrongAt(s.text, n.from, say.Of("measure.a-fraction-is-made-of-two-whole"),
			say.Of("measure.write-it-like-5-8-or-as"))
	}
	if _, _, width := s.vulgar(); width > 0 {
		return wrongAt(s.text, n.from, say.Of("measure.two-fractions-in-a-row"), "")
	}
	return s.rangeOrTwo(n)
}

func (s *scanner) skipDigits() {
	for isDigit(s.peek()) {
		s.at++
	}
}

// programmers tells whether the number at hand goes on as programs write
// numbers: 1e3, 1_000, 0x10.
func (s *scanner) programmers(n *ratio) bool {
	next := s.ahead(1)
	switch s.peek() {
	case 'e', 'E':
		return isDigit(next) || (next == '+' || next == '-') && isDigit(s.ahead(2))
	case '_':
		return isDigit(next)
	case 'x', 'X', 'o', 'O', 'b', 'B':
		return s.text[n.from:s.at] == "0" && strings.IndexByte("0123456789abcdefABCDEF", next) >= 0 && s.at+1 < len(s.text)
	}
	return false
}

// notShown refuses a number, from a place to where its word ends, that stands
// on no tape, scale or clock.
func (s *scanner) notShown(from int) error {
	end := s.at
	for end < len(s.text) && s.text[end] != ' ' {
		end++
	}
	word := s.text[from:end]
	hint, meant := say.Of("measure.write-it-in-figures-as-12-5"), ""
	if plain := strings.ReplaceAll(word, "_", ""); strings.Trim(plain, "0123456789.") == "" {
		hint, meant = say.Of("measure.write", clip(plain)), s.text[:from]+plain+s.text[end:]
	}
	return wrongAs(s.text, from, notShownBy(s.want, word), hint, meant)
}

// minusNothing refuses 0 with a minus before it, from a place to the one at hand.
func (s *scanner) minusNothing(from int) error {
	return wrongAs(s.text, from, notShownBy(s.want, strings.TrimSpace(s.text[from:s.at])), say.Of("measure.write-0-without-the-minus"),
		s.text[:from]+"0"+s.text[s.at:])
}

// notShownBy says of a number where one of its dimension would be read off.
func notShownBy(dim Dimension, number string) string {
	number = quote(number)
	switch dim {
	case LengthDim:
		return say.Of("measure.is-no-number-a-tape-shows", number)
	case MassDim, ArealMassDim:
		return say.Of("measure.is-no-number-a-scale-shows", number)
	case DurationDim:
		return say.Of("measure.is-no-time-a-clock-shows", number)
	}
	return say.Of("measure.is-no-plain-number", number)
}

// rangeOrTwo refuses a second number right after the first.
func (s *scanner) rangeOrTwo(n *ratio) error {
	start := s.at
	s.skipSpace()
	dash := s.dash()
	if dash > 0 {
		s.at += dash
		s.skipSpace()
	}
	second := s.at
	s.skipDigits()
	end := s.at
	s.at = start
	switch {
	case end == second:
		return nil
	case dash > 0:
		return wrongAt(s.text, n.from, say.Of("measure.a-range-where-one-value-belongs"), say.Of("measure.write-one-number"))
	case end-second == 3 && start-n.from <= 3 && n.den == 1:
		joined := s.instead(start, second, "")
		return wrongAs(s.text, n.from, say.Of("measure.two-numbers-in-a-row"), say.Of("measure.write-without-the-space", joined), joined)
	}
	return wrongAt(s.text, n.from, say.Of("measure.two-numbers-in-a-row"), say.Of("measure.give-the-first-a-unit-or-write"))
}

// dash returns the width of a hyphen, en dash or minus.
func (s *scanner) dash() int {
	if s.peek() == '-' {
		return 1
	}
	if rest := s.text[s.at:]; strings.HasPrefix(rest, "–") || strings.HasPrefix(rest, minusSign) {
		return 3
	}
	return 0
}

// comma refuses a decimal comma, or a comma between thousands.
func (s *scanner) comma(n *ratio) error {
	start := s.at
	s.at++
	s.skipDigits()
	meant := s.instead(start, start+1, ".")
	hint := say.Of("measure.write", meant)
	if s.at-start == 4 && n.den == 1 {
		hint = say.Of("measure.write-or-if-the-comma-parts-thousands", meant, s.instead(start, start+1, ""))
	}
	return wrongAs(s.text, n.from, say.Of("measure.a-comma-inside-a-number"), hint, meant)
}

// noNumber says why no number stands at hand.
func (s *scanner) noNumber() error {
	rest := s.text[s.at:]
	if s.done() {
		return wrongAt(s.text, s.at, say.Of("measure.no-number"), "")
	}
	r, _ := utf8.DecodeRuneInString(rest)
	switch word := strings.ToLower(strings.TrimLeft(rest, ".")); {
	case unicode.IsDigit(r):
		latin := latinFigures(s.text)
		return wrongAs(s.text, s.at, say.Of("measure.figures-other-than-0-to-9"), say.Of("measure.write", quote(latin)), latin)
	case strings.HasPrefix(word, "nan"), strings.HasPrefix(word, "inf"):
		return s.notShown(s.at)
	case r == ',' && len(rest) > 1 && isDigit(rest[1]):
		meant := s.instead(s.at, s.at+1, "0.")
		return wrongAs(s.text, s.at, say.Of("measure.a-comma-inside-a-number"), say.Of("measure.write", meant), meant)
	case s.dash() > 0 || r == '+':
		return wrongAt(s.text, s.at, say.Of("measure.a-sign-cannot-stand-here"), "")
	case r == '.':
		return wrongAt(s.text, s.at, say.Of("measure.a-point-without-figures"), "")
	}
	return s.wordFirst()
}

// wordFirst says what to do about text that starts with a word.
func (s *scanner) wordFirst() error {
	end := s.at
	for end < len(s.text) && s.text[end] != ' ' && !isDigit(s.text[end]) {
		end++
	}
	word := s.text[s.at:end]
	hint, meant := s.said()
	rest := strings.TrimSpace(s.text[end:])
	if u := lookUp(word); u != NoUnit && rest != "" && isDigit(rest[0]) && u.Symbol() != "" {
		hint = say.Of("measure.write-the-number-first", quote(rest+" "+u.Symbol()))
		meant = s.text[:s.at] + rest + " " + u.Symbol()
	}
	return wrongAs(s.text, s.at, say.Of("measure.a-number-should-stand-where-does", quote(word)), hint, meant)
}

// latinFigures returns text with the decimal digits of every script written
// as 0 to 9.
func latinFigures(text string) string {
	return strings.Map(func(r rune) rune {
		if r < utf8.RuneSelf || !unicode.IsDigit(r) {
			return r
		}
		for _, span := range unicode.Nd.R16 {
			if r >= rune(span.Lo) && r <= rune(span.Hi) {
				return '0' + (r-rune(span.Lo))%10
			}
		}
		for _, span := range unicode.Nd.R32 {
			if r >= rune(span.Lo) && r <= rune(span.Hi) {
				return '0' + (r-rune(span.Lo))%10
			}
		}
		return r
	}, text)
}

// isUnitLetter tells whether c may begin a unit.
func isUnitLetter(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= utf8.RuneSelf
}
