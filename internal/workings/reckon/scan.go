package reckon

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind uint8

const (
	number kind = iota
	word
	sign // one of + − × ÷ ( ) , | √ π ² ³ :
	odd  // what no sum is made of
)

// A token is one number with its unit, one word or one sign.
type token struct {
	kind     kind
	text     string
	value    float64
	decimals int
	step     float64 // of a printed fraction: 1/16; 0 for a decimal number
	unit     string
	glued    bool // no space before it
}

var parts = map[string]float64{"½": 0.5, "¼": 0.25, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875, "⅓": 1.0 / 3, "⅔": 2.0 / 3}

// scan parts one link of a sum into tokens.
func scan(text string) []token {
	var out []token
	glued := false
	for text != "" {
		r, n := utf8.DecodeRuneInString(text)
		var t token
		switch {
		case unicode.IsSpace(r):
			text, glued = text[n:], false
			continue
		case digit(text) || parts[string(r)] != 0:
			t, n = scanNumber(text)
		case unicode.IsLetter(r) && r != 'π' && r != 'Σ' || r == '"':
			t, n = scanWord(text)
		case strings.ContainsRune("+−×÷()|,√π²³", r):
			t = token{kind: sign, text: string(r)}
		default:
			t = token{kind: odd, text: string(r)}
		}
		t.glued = glued
		out = append(out, t)
		text, glued = text[n:], true
	}
	return out
}

func digit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }

// scanNumber reads a number: figures in groups, a decimal point, a fraction
// behind it, and its unit.
func scanNumber(text string) (token, int) {
	t := token{kind: number}
	whole, n := figures(text)
	switch {
	case n > 0 && strings.HasPrefix(text[n:], ".") && digit(text[n+1:]):
		more, m := figures(text[n+1:])
		whole, n, t.decimals = whole+"."+more, n+1+m, len(more)
		t.value, _ = strconv.ParseFloat(whole, 64)
	case n > 0:
		t.value, _ = strconv.ParseFloat(whole, 64)
		if m, under := fraction(text[n:]); m > 0 && under > 0 { // 1/16 alone
			t.value, t.step, n = t.value/under, 1/under, n+m
		} else if m, v, step := behind(text[n:]); m > 0 { // 5 1/16
			t.value, t.step, n = t.value+v, step, n+m
		}
	}
	if r, m := utf8.DecodeRuneInString(text[n:]); parts[string(r)] != 0 {
		t.value, t.step, n = t.value+parts[string(r)], 0.125, n+m
	}
	sym, m := symbol(text[n:])
	t.unit, t.text = sym, text[:n+m]
	return t, n + m
}

// figures reads digits, in groups of three with a narrow gap or in one run.
func figures(text string) (string, int) {
	n := 0
	for digit(text[n:]) {
		n++
	}
	out := text[:n]
	for n > 0 {
		rest, ok := strings.CutPrefix(text[n:], "\u202f")
		if !ok || len(rest) < 3 || !digit(rest) || !digit(rest[1:]) || !digit(rest[2:]) || digit(rest[3:]) {
			break
		}
		out += rest[:3]
		n += len("\u202f") + 3
	}
	return out, n
}

// fraction reads "/16" right behind a number.
func fraction(text string) (n int, under float64) {
	if !strings.HasPrefix(text, "/") || !digit(text[1:]) {
		return 0, 0
	}
	d, m := figures(text[1:])
	under, _ = strconv.ParseFloat(d, 64)
	return 1 + m, under
}

// behind reads " 1/16" behind a whole number.
func behind(text string) (n int, v, step float64) {
	rest := strings.TrimLeft(text, " \u00a0")
	gap := len(text) - len(rest)
	if gap == 0 || !digit(rest) {
		return 0, 0, 0
	}
	over, m := figures(rest)
	k, under := fraction(rest[m:])
	if k == 0 || under == 0 {
		return 0, 0, 0
	}
	top, _ := strconv.ParseFloat(over, 64)
	return gap + m + k, top / under, 1 / under
}

// symbol reads the unit behind a number, with the space before it.
func symbol(text string) (string, int) {
	rest := strings.TrimLeft(text, " \u00a0")
	gap := len(text) - len(rest)
	end := 0
	for end < len(rest) {
		r, n := utf8.DecodeRuneInString(rest[end:])
		if !unicode.IsLetter(r) && !strings.ContainsRune("/²³°%", r) || r == 'π' {
			break
		}
		end += n
	}
	if end > 0 && end < len(rest) && (digit(rest[end:]) || rest[end] == '-' || rest[end] == '(' && rest[:end] == "min" && gap > 0) {
		return "", 0
	}
	if _, ok := unitOf(rest[:end]); ok {
		return rest[:end], gap + end
	}
	if r, n := utf8.DecodeRuneInString(rest); r == '×' && strings.TrimLeft(rest[n:], " ") == "" { // a ratio: "1.06 ×"
		return "×", gap + n
	}
	return "", 0
}

// scanWord reads a word of a name, or a quoted name.
func scanWord(text string) (token, int) {
	if text[0] == '"' {
		if end := strings.IndexByte(text[1:], '"'); end >= 0 {
			return token{kind: word, text: text[:end+2]}, end + 2
		}
	}
	end := 0
	for end < len(text) {
		r, n := utf8.DecodeRuneInString(text[end:])
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("-._'’&/", r) || r == 'π' {
			break
		}
		end += n
	}
	if end == 0 {
		_, end = utf8.DecodeRuneInString(text)
		return token{kind: odd, text: text[:end]}, end
	}
	return token{kind: word, text: text[:end]}, end
}

// decimalsByUnit is how many decimals the most exact number of each unit in a
// sum has: the others, whose closing zeros are not printed, were rounded there.
func decimalsByUnit(text string) map[string]int {
	out := map[string]int{}
	for _, link := range chain(text) {
		for _, t := range scan(link.Text) {
			if t.kind == number {
				out[t.unit] = max(out[t.unit], t.decimals)
			}
		}
	}
	return out
}

// halfOf is half a step of the last digit that a number shows, in its unit.
func halfOf(t token) float64 {
	switch {
	case t.step > 0, t.decimals == 0 && (t.unit == "in" || t.unit == "yd" || t.unit == "ft"):
		if t.unit == "yd" {
			return 1.0 / 32 / 36 // yards are given in eighths, or with inches behind
		}
		return 1.0 / 32 // inches are shown to the nearest sixteenth
	case t.decimals == 0 && t.unit == "h":
		return 0.5 / 60 // hours with no minutes behind are whole to the minute
	}
	return 0.5 * math.Pow10(-t.decimals)
}

// errOf is how far printing may have moved a number.
func errOf(t token, steps map[string]int) float64 {
	u, _ := unitOf(t.unit)
	switch {
	case t.step > 0 && t.unit == "":
		return 0 // a ratio such as 3/4
	case t.decimals > 0:
		if u.dim.Money != 0 {
			return 0 // money is exact
		}
		return 0.5 * math.Pow10(-t.decimals)
	case t.step > 0, t.unit == "in" || t.unit == "yd" || t.unit == "ft":
		if d := steps[t.unit]; d > 0 {
			return 0.5 * math.Pow10(-d)
		}
		return halfOf(t)
	case t.unit == "" && steps[""] < 3:
		return 0 // a count
	case steps[t.unit] > 0 && u.dim.Money == 0:
		return 0.5 * math.Pow10(-steps[t.unit])
	}
	return 0
}
