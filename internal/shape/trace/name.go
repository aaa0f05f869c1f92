package trace

import (
	"regexp"
	"strconv"
	"strings"
)

// A Role is what a stroke of a piece is.
type Role uint8

// The roles. A stroke whose name tells none is part of the sewing line.
const (
	Sewing   Role = iota
	Boundary      // the cut line: followed only where the maker asks for it
	Mirror        // the line the piece is mirrored about: the edge on it is its fold
	Grain
	DartLine // a dart, or one leg of one
	NotchMark
	LevelLine
	PleatLine // one fold of a pleat: along its place, over to the fold and back
	PlaceMark // where a button or the like is put: its middle
	HoleLine  // a buttonhole, from end to end
	InnerLine // a line on the piece that other things lie along
	SlitLine  // one that is cut open
	Crease    // one along which the cloth is folded
	TapeLine  // where a tape lies on the piece
	BoneLine  // where boning does
	DrawLine  // where elastic does
	CordLine  // where a cord does
	Corner    // a point at which the sewing line has a corner, however flat
	Turn      // likewise, and where there are any, it has no others
	Origin    // the point that becomes (0, 0)
	Scale     // a line whose true length is its name
	Aside     // not part of the pattern
)

// roleWords are the first words of a name that tell a role, and roleNames the
// whole names that do.
var (
	roleWords = map[string]Role{
		"edge": Sewing, "fold": Sewing, "notch": NotchMark, "notches": NotchMark, "dart": DartLine, "darts": DartLine,
		"level": LevelLine, "levels": LevelLine, "pleat": PleatLine, "pleats": PleatLine, "place": PlaceMark, "places": PlaceMark, "buttonhole": HoleLine, "buttonholes": HoleLine,
		"line": InnerLine, "lines": InnerLine, "inner": InnerLine, "slit": SlitLine, "slits": SlitLine, "crease": Crease, "creases": Crease,
		"tape": TapeLine, "tapes": TapeLine, "boning": BoneLine, "bone": BoneLine, "bones": BoneLine, "elastic": DrawLine, "elastics": DrawLine, "cord": CordLine, "cords": CordLine, "corner": Corner, "corners": Corner, "scale": Scale,
		"gathers": Aside, "topstitching": Aside, "note": Aside, "notes": Aside, "inside": Aside,
	}
	roleNames = map[string]Role{
		"sewing": Sewing, "sewing line": Sewing, "edges": Sewing, "outline": Sewing,
		"cut": Boundary, "cut line": Boundary, "cutting line": Boundary, "cut outline": Boundary, "boundary": Boundary,
		"grain": Grain, "grain line": Grain, "grainline": Grain, "origin": Origin, "words": Aside, "mark": Aside, "marks": Aside,
	}
)

// A Meaning is what the name of an element says.
type Meaning struct {
	Role Role
	Told bool   // the name tells the role
	Name string // what remains of it
	Fold bool
}

// MeaningOf reads the name of an element of a piece: "side", "fold centre",
// "level hip", "dart 1", "grain". The piece's own name before it is dropped:
// "front-side" in the piece "front" is its edge "side".
func MeaningOf(name string, piece ...string) Meaning {
	name = strings.Join(strings.Fields(name), " ")
	for _, p := range piece {
		name = withoutPiece(name, p)
	}
	if Automatic(name) {
		return Meaning{}
	}
	plain := strings.ToLower(strings.Map(spaced, name))
	if role, ok := roleNames[strings.TrimSpace(strings.TrimRight(plain, "0123456789 "))]; ok {
		return Meaning{Role: role, Told: true}
	}
	first, _, _ := strings.Cut(plain, " ")
	role, ok := roleWords[first]
	if !ok {
		return Meaning{Name: name}
	}
	rest := strings.TrimLeft(name[len(first):], " -_.:")
	m := Meaning{Role: role, Told: true, Name: rest, Fold: first == "fold"}
	if m.Fold && rest == "" {
		m.Name = name
	}
	return m
}

// SpellLine is the name that [MeaningOf] reads as a line on a piece, a slit, a crease or
// the place of what lies along it.
func SpellLine(name string, of Role) string {
	word := map[Role]string{InnerLine: "line ", SlitLine: "slit ", Crease: "crease ", TapeLine: "tape ", BoneLine: "boning ", DrawLine: "elastic ", CordLine: "cord "}[of]
	if Automatic(word + name) {
		return "inner " + name
	}
	return word + name
}

// Spell is the name that [MeaningOf] reads as an edge of that name.
func Spell(edge string, fold bool, piece ...string) string {
	if fold {
		return "fold " + edge
	}
	if m := MeaningOf(edge, piece...); m.Told || m.Name != edge {
		return "edge " + edge
	}
	return edge
}

func spaced(r rune) rune {
	if strings.ContainsRune("-_.:", r) {
		return ' '
	}
	return r
}

func withoutPiece(name, piece string) string {
	if n := len(piece); n > 0 && len(name) > n+1 && strings.EqualFold(name[:n], piece) && strings.ContainsRune(" -_.:", rune(name[n])) {
		return strings.TrimLeft(name[n:], " -_.:")
	}
	return name
}

// automatic are the names that drawing programs make up for what nobody named.
var automatic = regexp.MustCompile(`(?i)^(path|rect|rectangle|line|polyline|polygon|circle|ellipse|g|group|use|svg|symbol|layer|ebene|calque|vector|shape|object|curve|compound ?path|text|image|defs)?([-_ ]?[0-9]+)*([-_ ](copy|kopie)([-_ ]?[0-9]+)*)?$`)

// Automatic reports whether a name was most likely made up by a program.
func Automatic(name string) bool { return automatic.MatchString(name) }

var (
	escape = regexp.MustCompile(`_x([0-9A-Fa-f]{2,4})_`)
	repeat = regexp.MustCompile(`_[0-9]+_$`)
)

// FromID undoes what programs do to a name so that it may be an id: letters
// as _x20_, and a number such as _2_ at the end of one used before.
func FromID(name string) string {
	name = escape.ReplaceAllStringFunc(name, func(s string) string {
		n, err := strconv.ParseUint(s[2:len(s)-1], 16, 16)
		if err != nil || n < 0x20 {
			return s
		}
		return string(rune(n))
	})
	return repeat.ReplaceAllString(name, "")
}
