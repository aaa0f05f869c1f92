package svg

import "strconv"

// A scanner reads the numbers of path data, point lists and transforms
// (SVG 2, section 9.3.9).
type scanner struct {
	text string
	i    int
}

func (s *scanner) done() bool { return s.i >= len(s.text) }

func (s *scanner) space() {
	for !s.done() && isSpace(s.text[s.i]) {
		s.i++
	}
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' }

// separator skips white space and one comma.
func (s *scanner) separator() {
	s.space()
	if !s.done() && s.text[s.i] == ',' {
		s.i++
		s.space()
	}
}

// number reads one number; numbers may follow each other without a space, as
// in 1.5.5-2.
func (s *scanner) number() (float64, bool) {
	begin, i := s.i, s.i
	digits := func() int {
		n := 0
		for i < len(s.text) && s.text[i] >= '0' && s.text[i] <= '9' {
			i, n = i+1, n+1
		}
		return n
	}
	is := func(set string) bool {
		if i >= len(s.text) {
			return false
		}
		for k := range len(set) {
			if s.text[i] == set[k] {
				return true
			}
		}
		return false
	}
	if is("+-") {
		i++
	}
	n := digits()
	if is(".") {
		i++
		n += digits()
	}
	if n == 0 {
		return 0, false
	}
	if is("eE") {
		back := i
		i++
		if is("+-") {
			i++
		}
		if digits() == 0 {
			i = back // it is the unit em or ex, or no part of the number
		}
	}
	v, err := strconv.ParseFloat(s.text[begin:i], 64)
	if err != nil || !(v < 1e12 && v > -1e12) {
		return 0, false
	}
	s.i = i
	return v, true
}

// flag reads the 0 or 1 of an arc, which no space need follow.
func (s *scanner) flag() (bool, bool) {
	if s.done() || s.text[s.i] != '0' && s.text[s.i] != '1' {
		return false, false
	}
	s.i++
	return s.text[s.i-1] == '1', true
}
