package measure

import (
	"strconv"
	"strings"

	"hembook/internal/say"
)

// numberWords are numbers as they are said.
var numberWords = map[string]int{
	"zero": 0, "no": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "eighteen": 18,
	"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "hundred": 100,
}

// partWords are parts of one as they are said.
var partWords = map[string]int{
	"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourths": 4,
	"eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16,
}

// InFigures writes a number that is said in words in figures, as "5/8" for "five
// eighths" and "1 1/2 in" for "one and a half inches"; "" where it is none.
func InFigures(text string) string {
	figures, rest, _ := inFigures(text)
	if figures == "" || rest != "" && lookUp(rest) == NoUnit {
		return ""
	}
	if rest != "" {
		figures += " " + lookUp(rest).Symbol()
	}
	return figures
}

// inFigures is the number that a text begins with in figures, what follows it, and
// whether it has a part.
func inFigures(text string) (figures, rest string, parts bool) {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(text, "-", " ")))
	whole, count, den, seen := 0, -1, 0, false
	i := 0
loop:
	for ; i < len(words); i++ {
		n, isNumber := numberWords[words[i]]
		part, isPart := partWords[words[i]]
		switch {
		case isNumber && count >= 20 && n < 10 && n > 0:
			count += n
			continue
		case isNumber && count < 0:
			count = n
		case isPart && den == 0:
			den = part
			if count < 0 {
				count = 1
			}
		case words[i] == "and" && den == 0 && count >= 0:
			whole, count = count, -1
			continue
		case words[i] == "a" || words[i] == "an" || words[i] == "of" && den > 0:
			continue
		default:
			break loop
		}
		seen = true
	}
	if !seen || count < 0 && whole == 0 {
		return "", text, false
	}
	rest = strings.Join(words[i:], " ")
	switch {
	case den == 0:
		return strconv.Itoa(whole + max(count, 0)), rest, false
	case whole > 0:
		figures = strconv.Itoa(whole) + " "
	}
	return figures + strconv.Itoa(count) + "/" + strconv.Itoa(den), rest, true
}

// aboutWords say that a number is not exact.
var aboutWords = []string{"approximately", "approx.", "approx", "about", "circa", "roughly", "around", "nearly", "ca.", "ca", "c.", "~", "≈", "±", "+/-", "+-"}

// exactly is a text without the word that says its number is not exact; "" where no
// such word begins it.
func exactly(text string) string {
	for _, word := range aboutWords {
		rest, cut := strings.CutPrefix(strings.ToLower(text), word)
		if rest = strings.TrimSpace(rest); cut && rest != "" && isDigit(rest[0]) {
			return rest
		}
	}
	return ""
}

// said answers a text that says its number in words, or that it is not exact.
func (s *scanner) said() (hint, meant string) {
	text := s.text[s.at:]
	if plain := exactly(text); plain != "" {
		return say.Of("measure.write", clip(s.text[:s.at]+plain)), s.text[:s.at] + plain
	}
	figures, rest, parts := inFigures(text)
	if figures == "" {
		return "", ""
	}
	switch unit := lookUp(rest); {
	case unit != NoUnit:
		figures += " " + unit.Symbol()
	case rest != "":
		return say.Of("measure.write-it-in-figures"), ""
	case parts && s.want == LengthDim && s.bare == UnitMM:
		figures += " in"
	}
	return say.Of("measure.write", figures), figures
}
