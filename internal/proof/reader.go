package proof

import "bytes"

// A reader takes a text apart into words and numbers, in small letters, and
// hands on a hash of each. Whatever stands between two of them is left out, so
// that a text is found again however it was quoted, escaped or broken:
//
//   - a word is a run of letters, a number a run of digits with points among
//     them; in scripts that put no spaces between words each letter is a word;
//   - \u00fc, %C3%BC and &#252; are read as the letter they stand for;
//   - in HTML and XML a tag parts words, and what stands inside it is read by
//     itself.
type reader struct {
	emit   func(h uint64)
	inside func(text []byte) // what stands inside a tag
	markup bool
	links  bool // %20 stands for a letter

	most, had int  // it stops after so many words, where most is not 0
	done      bool // it has had them

	kind wordKind
	n    int
	x, h uint64
}

type wordKind uint8

const (
	between wordKind = iota
	letters
	digits
)

// What the bytes of a text are.
const (
	isOther uint8 = iota
	isLetter
	isDigit
	isSpecial // looked at more closely
)

var classes, small = func() (class, lower [256]uint8) {
	for i := range 256 {
		b := byte(i)
		lower[i] = b
		switch {
		case b >= 'a' && b <= 'z':
			class[i] = isLetter
		case b >= 'A' && b <= 'Z':
			class[i], lower[i] = isLetter, b+'a'-'A'
		case b >= '0' && b <= '9':
			class[i] = isDigit
		case b >= 0x80, b == '<', b == '&', b == '%', b == '\\', b == '.':
			class[i] = isSpecial
		}
	}
	return class, lower
}()

const mixer = 0x9e3779b97f4a7c15

func mix(h uint64) uint64 {
	h *= mixer
	return h ^ h>>29
}

func (r *reader) put(k wordKind, b byte) {
	if r.kind != k {
		r.flush()
		r.kind = k
	}
	r.x = r.x<<8 | uint64(b)
	if r.n++; r.n&7 == 0 {
		r.h, r.x = mix(r.h^r.x), 0
	}
}

// flush ends the word that is being read.
func (r *reader) flush() {
	if r.kind == between {
		return
	}
	h := mix(mix(r.h^r.x) + uint64(r.n))
	r.kind, r.n, r.x, r.h = between, 0, 0, 0
	if r.done {
		return
	}
	r.emit(h)
	r.had++
	r.done = r.had == r.most
}

// begin makes it ready to read so many words.
func (r *reader) begin(most int) {
	r.kind, r.n, r.x, r.h = between, 0, 0, 0
	r.most, r.had, r.done = most, 0, false
}

// read takes a text apart, its last word included.
func (r *reader) read(text []byte) {
	r.readOn(text)
	r.flush()
}

// readOn takes a text apart and leaves its last word open.
func (r *reader) readOn(text []byte) {
	for i := 0; i < len(text) && !r.done; {
		b := text[i]
		switch classes[b] {
		case isLetter:
			r.put(letters, small[b])
			i++
		case isDigit:
			r.put(digits, b)
			i++
		case isOther:
			if r.kind != between {
				r.flush()
			}
			i++
		default:
			i += r.special(text[i:])
		}
	}
}

// special reads what may stand for something else, and returns its length.
func (r *reader) special(rest []byte) int {
	switch b := rest[0]; {
	case b == '.':
		if r.kind == digits && len(rest) > 1 && classes[rest[1]] == isDigit {
			r.put(digits, '.')
			return 1
		}
	case b == '<':
		if r.markup {
			return r.tag(rest)
		}
	case b == '&':
		if r.markup {
			return r.entity(rest)
		}
	case b == '%':
		if v, ok := hexOf(rest, 1, 2); ok && r.links {
			r.one([]byte{byte(v)}) // a letter of several bytes comes byte by byte
			return 3
		}
	case b == '\\':
		if v, ok := hexOf(rest, 2, 4); ok && rest[1] == 'u' {
			r.letter(rune(v))
			return 6
		}
	default:
		return r.foreign(rest)
	}
	r.flush()
	return 1
}

// letter reads a letter that was written as a number.
func (r *reader) letter(c rune) {
	if c == '<' || c == '&' || c == '%' || c == '\\' || c == '.' {
		r.flush()
		return
	}
	r.one([]byte(string(c)))
}

func (r *reader) one(b []byte) {
	switch classes[b[0]] {
	case isLetter:
		r.put(letters, small[b[0]])
	case isDigit:
		r.put(digits, b[0])
	case isOther:
		r.flush()
	default:
		if len(b) == 1 {
			if b[0] >= 0x80 {
				r.put(letters, b[0])
			} else {
				r.flush()
			}
			return
		}
		r.foreign(b)
	}
}

// foreign reads a character beyond ASCII. Signs part words; Latin, Greek and
// their like make them; East Asian letters are words by themselves.
func (r *reader) foreign(rest []byte) int {
	b := rest[0]
	size := sizeOf(b, len(rest))
	switch {
	case isSign(rest):
		r.flush()
	case b >= 0xe2:
		r.flush()
		for _, c := range rest[:size] {
			r.put(letters, c)
		}
		r.flush()
	default:
		for i, c := range rest[:size] {
			if i == 1 && b == 0xc3 && c >= 0x80 && c <= 0x9e && c != 0x97 {
				c += 0x20 // À and à are one
			}
			r.put(letters, c)
		}
	}
	return size
}

// sizeOf is how many bytes a character has, by its first.
func sizeOf(b byte, left int) int {
	switch {
	case b >= 0xf0:
		return min(4, left)
	case b >= 0xe0:
		return min(3, left)
	case b >= 0xc0:
		return min(2, left)
	}
	return 1
}

// isSign reports whether a character beyond ASCII parts words.
func isSign(c []byte) bool {
	b := c[0]
	return b == 0xc2 || b >= 0xf0 || b == 0xe2 && !bytes.HasPrefix(c, []byte("€")) || bytes.HasPrefix(c, []byte("\xe3\x80"))
}

func hexOf(b []byte, from, n int) (v int, ok bool) {
	if len(b) < from+n {
		return 0, false
	}
	for _, c := range b[from : from+n] {
		switch {
		case c >= '0' && c <= '9':
			v = v<<4 | int(c-'0')
		case c >= 'a' && c <= 'f', c >= 'A' && c <= 'F':
			v = v<<4 | int(c|0x20-'a') + 10
		default:
			return 0, false
		}
	}
	return v, true
}

// tag passes over a tag, which parts words, and reads what stands inside it.
func (r *reader) tag(rest []byte) int {
	r.flush()
	end := bytes.IndexByte(rest, '>')
	if end < 0 {
		return 1
	}
	if r.inside != nil {
		r.inside(insideOf(rest[:end]))
	}
	return end + 1
}

// insideOf is what stands inside a tag behind its name.
func insideOf(tag []byte) []byte {
	if stop := bytes.IndexAny(tag, " \t\n"); stop > 0 {
		return tag[stop:]
	}
	return nil
}

// tags reads on inside a tag, and inside those that follow.
func (r *reader) tags(text []byte) {
	for !r.done {
		end := bytes.IndexByte(text, '>')
		if end < 0 {
			return
		}
		r.entities(text[:end])
		next := bytes.IndexByte(text[end:], '<')
		if next < 0 {
			return
		}
		text = text[end+next:]
		if end = bytes.IndexByte(text, '>'); end < 0 {
			return
		}
		text = text[end-len(insideOf(text[:end])):]
	}
}

// entities reads what stands inside a tag, links among it.
func (r *reader) entities(text []byte) {
	for !r.done {
		i := bytes.IndexByte(text, '&')
		if i < 0 {
			r.read(text)
			return
		}
		r.readOn(text[:i])
		text = text[i+r.entity(text[i:]):]
	}
}

// entity reads &#252; and its like; of the named ones all are signs here.
func (r *reader) entity(rest []byte) int {
	end := bytes.IndexByte(rest[:min(len(rest), 12)], ';')
	if end < 0 {
		r.flush()
		return 1
	}
	body := rest[1:end]
	if len(body) < 2 || body[0] != '#' {
		r.flush()
		return end + 1
	}
	v, base, body := 0, 10, body[1:]
	if body[0] == 'x' || body[0] == 'X' {
		base, body = 16, body[1:]
	}
	for _, c := range body {
		d, ok := hexOf([]byte{c}, 0, 1)
		if !ok || d >= base {
			r.flush()
			return 1
		}
		v = min(v*base+d, 0x10ffff)
	}
	r.letter(rune(v))
	return end + 1
}
