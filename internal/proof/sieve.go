package proof

import "encoding/binary"

// A sieve tells in one quick pass over the bytes which looks cannot stand in a
// file: of each it knows the longest run of letters and digits, and that is not
// there. Most files hold none, and are not taken apart into words.
type sieve struct {
	four, three [1 << 10]uint64 // by a hash of the first bytes of runs of four and more, and of three
	runs        map[uint32][]run
	always      []int // looks without such a run
	has3        bool
	count       int
}

// A run is a look's longest run of letters and digits, in small letters.
type run struct {
	text string
	look int
}

// add adds a look.
func (s *sieve) add(look int, text string) {
	s.count = look + 1
	best := longestRun(text)
	if len(best) < 3 {
		s.always = append(s.always, look)
		return
	}
	if s.runs == nil {
		s.runs = map[uint32][]run{}
	}
	var v uint32
	if len(best) == 3 {
		v = uint32(best[0]) | uint32(best[1])<<8 | uint32(best[2])<<16
		h := slot(v)
		s.three[h>>6] |= 1 << (h & 63)
		s.has3 = true
	} else {
		v = binary.LittleEndian.Uint32([]byte(best))
		h := slot(v)
		s.four[h>>6] |= 1 << (h & 63)
	}
	s.runs[v] = append(s.runs[v], run{best, look})
}

func slot(v uint32) uint32 { return v * 0x9e3779b1 >> 16 }

// longestRun is the longest run of letters of ASCII, or of digits, in small
// letters; letters before digits, which stand everywhere.
func longestRun(text string) string {
	best, bestDigits := "", ""
	for at := 0; at < len(text); {
		end, class := at, classes[text[at]]
		for end < len(text) && classes[text[end]] == class {
			end++
		}
		switch n := end - at; {
		case class == isLetter && n > len(best):
			best = text[at:end]
		case class == isDigit && n > len(bestDigits):
			bestDigits = text[at:end]
		}
		at = end
	}
	if len(best) < 3 {
		best = bestDigits
	}
	out := []byte(best)
	for i := range out {
		out[i] = small[out[i]]
	}
	return string(out)
}

// through reports which looks may stand in the texts.
func (s *sieve) through(texts ...[]byte) []bool {
	wanted := make([]bool, s.count)
	for _, look := range s.always {
		wanted[look] = true
	}
	if len(s.runs) == 0 {
		return wanted
	}
	for _, text := range texts {
		s.sift(text, wanted)
	}
	return wanted
}

func (s *sieve) sift(text []byte, wanted []bool) {
	i := 0
	for ; i+4 <= len(text); i++ {
		v := binary.LittleEndian.Uint32(text[i:]) | 0x20202020
		if h := slot(v); s.four[h>>6]>>(h&63)&1 == 1 {
			s.look(v, text[i:], wanted)
		}
		if s.has3 {
			v &= 0xffffff
			if h := slot(v); s.three[h>>6]>>(h&63)&1 == 1 {
				s.look(v, text[i:], wanted)
			}
		}
	}
	if i+3 == len(text) && s.has3 {
		s.look(uint32(text[i])|uint32(text[i+1])<<8|uint32(text[i+2])<<16|0x202020, text[i:], wanted)
	}
}

// look notes the looks whose run stands at the beginning of a text.
func (s *sieve) look(v uint32, text []byte, wanted []bool) {
	for _, r := range s.runs[v] {
		if !wanted[r.look] && begins(text, r.text) {
			wanted[r.look] = true
		}
	}
}

func begins(text []byte, run string) bool {
	if len(text) < len(run) {
		return false
	}
	for i := range len(run) {
		if small[text[i]] != run[i] {
			return false
		}
	}
	return true
}
