package paper

import (
	"slices"
	"strings"
	"unicode"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// A setting is how words are set: face, size, ink and where they lead.
type setting struct {
	face *face
	size float64 // points
	ink  drawing.Ink
	link string
}

// A fragment is words of one setting on one line.
type fragment struct {
	setting
	text string
	wide float64 // millimetres
	x    float64 // from the line's left
}

// A textLine is a line of text.
type textLine struct {
	pieces []fragment
	wide   float64
}

// An atom is letters between which a line is not broken.
type atom struct {
	pieces []fragment
	wide   float64
	space  float64 // the space before it, where it does not begin a line
	newRow bool    // a line begins before it in any case
}

// An atomiser cuts a phrase into atoms.
type atomiser struct {
	faces faces
	atoms []atom
	open  bool // the last atom may still grow
	space float64
	row   bool
	last  rune
}

func (a *atomiser) add(text string, s setting) {
	text = document.Clean(text)
	blank, _ := s.face.width(' ')
	blank *= s.size * mmPerPoint
	for _, r := range text {
		switch {
		case r == '\n':
			a.open, a.row, a.space = false, len(a.atoms) > 0, 0
		case r == ' ':
			a.open, a.space = false, max(a.space, blank)
		default:
			a.letter(r, s)
		}
		a.last = r
	}
}

func (a *atomiser) letter(r rune, s setting) {
	if a.open && mayPart(a.last, r) {
		a.open = false
	}
	f, r := a.faces.pick(s.face, r)
	s.face = f
	w, _ := f.width(r)
	w *= s.size * mmPerPoint
	if !a.open {
		a.atoms = append(a.atoms, atom{space: a.space, newRow: a.row})
		a.open, a.space, a.row = true, 0, false
	}
	at := &a.atoms[len(a.atoms)-1]
	if n := len(at.pieces); n > 0 && at.pieces[n-1].setting == s {
		at.pieces[n-1].text += string(r)
		at.pieces[n-1].wide += w
	} else {
		at.pieces = append(at.pieces, fragment{setting: s, text: string(r), wide: w})
	}
	at.wide += w
}

// mayPart reports whether a line may be broken between two letters that no
// space parts: beside ideographs and kana, but no line begins with closing
// marks or ends with opening ones (JIS X 4051, the part most texts need).
func mayPart(before, after rune) bool {
	if !isIdeograph(before) && !isIdeograph(after) {
		return false
	}
	return !strings.ContainsRune("、。，．・：；？！」』）】〕〉》ーゝゞ々ぁぃぅぇぉっゃゅょァィゥェォッャュョ,.:;!?)]}%°℃", after) &&
		!strings.ContainsRune("「『（【〔〈《([{", before)
}

func isIdeograph(r rune) bool {
	return r >= 0x2E80 && (unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) || r >= 0x3000 && r <= 0x30FF || r >= 0xFF00 && r <= 0xFFEF)
}

// fill breaks atoms into lines no wider than wide.
func fill(atoms []atom, wide float64) []textLine {
	var lines []textLine
	var now textLine
	flush := func() {
		if len(now.pieces) > 0 {
			lines = append(lines, now)
		}
		now = textLine{}
	}
	for _, a := range splitWide(atoms, wide) {
		if a.newRow || len(now.pieces) > 0 && now.wide+a.space+a.wide > wide+1e-6 {
			flush()
		}
		now.add(a)
	}
	flush()
	return lines
}

// splitWide cuts atoms that are wider than a whole line.
func splitWide(atoms []atom, wide float64) []atom {
	for i, a := range atoms {
		if a.wide <= wide {
			continue
		}
		out := append([]atom(nil), atoms[:i]...)
		for _, a := range atoms[i:] {
			out = a.cut(out, wide)
		}
		return out
	}
	return atoms
}

// softHyphen parts a word at the end of a line: it is seen, and whoever copies or searches
// the text has the word whole.
const softHyphen = '\u00ad'

// cut parts an atom at the last syllable that a line has room for, with a hyphen; what is
// no word of letters, or has a syllable wider than a line, after any letter.
func (a atom) cut(out []atom, wide float64) []atom {
	if a.wide <= wide {
		return append(out, a)
	}
	var word strings.Builder
	for _, p := range a.pieces {
		word.WriteString(p.text)
	}
	may := syllables(word.String())
	part := atom{space: a.space, newRow: a.newRow}
	var parted atom // the part as it was at the last syllable's end
	since, n := 0, 0
	letters := a.letters()
	for i := 0; i < len(letters); i++ {
		l := letters[i]
		if slices.Contains(may, i) && i > since {
			hyphen := l.with(softHyphen)
			if part.wide+hyphen.wide <= wide {
				parted, n = part.joined(hyphen), i
			}
		}
		if part.wide > 0 && part.wide+l.wide > wide {
			if n > since {
				part, i = parted, n
			}
			out = append(out, part)
			part, since = atom{}, i
			l = letters[i]
		}
		part = part.joined(l)
	}
	return append(out, part)
}

// letters are an atom's letters, one by one.
func (a atom) letters() (out []fragment) {
	for _, p := range a.pieces {
		for _, r := range p.text {
			out = append(out, p.with(r))
		}
	}
	return out
}

// with is one letter in the setting of a fragment.
func (f fragment) with(r rune) fragment {
	w, _ := f.face.width(r)
	return fragment{setting: f.setting, text: string(r), wide: w * f.size * mmPerPoint}
}

// joined is an atom with letters behind it.
func (a atom) joined(f fragment) atom {
	a.pieces = slices.Clone(a.pieces)
	if n := len(a.pieces); n > 0 && a.pieces[n-1].setting == f.setting {
		a.pieces[n-1].text += f.text
		a.pieces[n-1].wide += f.wide
	} else {
		a.pieces = append(a.pieces, f)
	}
	a.wide += f.wide
	return a
}

// add sets an atom at the end of a line. The space before it belongs to the
// piece before, so that copied text keeps it.
func (l *textLine) add(a atom) {
	n := len(l.pieces)
	if n > 0 && a.space > 0 {
		last := &l.pieces[n-1]
		blank, _ := last.face.width(' ')
		last.text += " "
		last.wide += blank * last.size * mmPerPoint
		l.wide = last.x + last.wide
	}
	for _, p := range a.pieces {
		if n := len(l.pieces); n > 0 && l.pieces[n-1].setting == p.setting {
			l.pieces[n-1].text += p.text
			l.pieces[n-1].wide += p.wide
		} else {
			p.x = l.wide
			l.pieces = append(l.pieces, p)
		}
		l.wide += p.wide
	}
}

// widths are the width of the widest atom and of the text on one line.
func widths(atoms []atom) (least, most float64) {
	sum := 0.0
	for _, a := range atoms {
		if a.newRow {
			sum = 0
		} else if sum > 0 {
			sum += a.space
		}
		sum += a.wide
		least, most = max(least, a.wide), max(most, sum)
	}
	return least, most
}
