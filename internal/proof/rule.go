package proof

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// A phrase is what is looked for: the words of a text, in their order.
type phrase struct {
	text   string
	value  string // the value alone, where a word stands before it
	exact  string // it must stand just so, or in capitals; "" where it need not
	also   string // these digits must stand in the file
	number bool   // it is a number, which a figure may have by chance
	bare   bool   // it is not looked for inside tags, where drawings have their numbers
}

var (
	amount = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?)\s*([A-Z]{3}|€)$|^([A-Z]{3}|€)\s*([0-9]+(?:\.[0-9]+)?)$`)
	number = regexp.MustCompile(`^-?[0-9]+(?:\.[0-9]+)?(?: [a-z%°"']{1,4})?$`)
)

// phrasesOf says in which forms a private value is looked for.
func phrasesOf(s *record.Secret) []phrase {
	text := strings.Join(strings.Fields(s.Text), " ")
	if m := amount.FindStringSubmatch(text); m != nil {
		return amountPhrases(m[1]+m[4], m[2]+m[3])
	}
	if day, err := time.Parse(time.DateOnly, text); err == nil {
		return beside(s.Name, text, day.Format("2 January 2006"), day.Format("January 2 2006"))
	}
	if number.MatchString(text) {
		return figurePhrases(s, text)
	}
	if !telling(text) {
		if len(text) >= 4 {
			return beside(s.Name, text)
		}
		return nil
	}
	out := textPhrases(text)
	for _, line := range s.Lines {
		if line = strings.Join(strings.Fields(line), " "); telling(line) {
			out = append(out, textPhrases(line)...)
		}
	}
	return out
}

// telling reports whether a text tells something by itself.
func telling(text string) bool {
	count, words := 0, 0
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		runes := []rune(w)
		count += len(runes)
		words++
		if len(runes) >= 4 && strings.ContainsFunc(w, unicode.IsUpper) || !unicode.IsLower(runes[0]) && !unicode.IsUpper(runes[0]) && len(runes) >= 2 {
			return true // a name, or a word in a script without small letters
		}
	}
	return words >= 2 && count >= 10 || strings.Contains(text, "@")
}

// Long texts are looked for in parts of so many words.
const part = 6

func textPhrases(text string) []phrase {
	words := strings.Fields(text)
	if len(words) == 1 && !strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return []phrase{{text: text, exact: text}}
	}
	if len(words) <= part+2 {
		return []phrase{{text: text}}
	}
	var out []phrase
	for at := 0; at+part <= len(words); at += part {
		end := at + part
		if len(words)-end < part {
			end = min(len(words), at+part)
		}
		if p := strings.Join(words[at:end], " "); telling(p) {
			out = append(out, phrase{text: p})
		}
	}
	if rest := strings.Join(words[len(words)-part:], " "); telling(rest) {
		out = append(out, phrase{text: rest})
	}
	return out
}

// amountPhrases are an amount with its currency on either side, and by itself
// where it has six digits.
func amountPhrases(number, currency string) []phrase {
	codes := []string{currency}
	switch currency {
	case "EUR":
		codes = append(codes, "€")
	case "€":
		codes = append(codes, "EUR")
	}
	var out []phrase
	for _, n := range numberForms(number) {
		for _, c := range codes {
			out = append(out, phrase{text: n + " " + c, also: n}, phrase{text: c + " " + n, also: n})
		}
		out = append(out, alone(n)...)
	}
	return out
}

// alone looks for a number by itself if it has digits enough.
func alone(n string) []phrase {
	if len(strings.Trim(strings.ReplaceAll(n, ".", ""), "0")) < 6 {
		return nil
	}
	return []phrase{{text: n, value: n, number: true, bare: true}}
}

// numberForms are a number as it was written, in full cents, and without
// noughts at its end.
func numberForms(n string) []string {
	out := []string{n}
	v, err := strconv.ParseFloat(n, 64)
	if err != nil {
		return out
	}
	for _, more := range []string{strconv.FormatFloat(v, 'f', 2, 64), strconv.FormatFloat(v, 'f', -1, 64)} {
		if w, _ := strconv.ParseFloat(more, 64); w == v && more != out[0] && more != out[len(out)-1] {
			out = append(out, more)
		}
	}
	return out
}

// figurePhrases are a number beside its word, a length in every unit, and by
// itself where it has six digits.
func figurePhrases(s *record.Secret, text string) []phrase {
	n, _, _ := strings.Cut(text, " ")
	n = strings.TrimPrefix(n, "-")
	forms := numberForms(n)
	if s.Length > 0 {
		mm := s.Length.MM()
		for _, v := range []float64{mm, mm / 10, mm / 25.4} {
			forms = append(forms, strconv.FormatFloat(v, 'f', 1, 64), strconv.FormatFloat(v, 'f', -1, 64))
		}
		forms = append(forms, strings.TrimSuffix(measure.Style{System: measure.Imperial}.Length(s.Length), " in"))
	}
	var out []phrase
	for _, f := range forms {
		f = strings.TrimSuffix(f, ".0")
		if len(f) < 2 || len(f) > 8 {
			continue
		}
		for _, p := range beside(s.Name, f, strings.Replace(f, ".", ",", 1)) {
			p.number, p.bare = true, s.Name == "height" // as drawings have it
			out = append(out, p)
		}
	}
	return append(out, alone(n)...)
}

// beside looks for values only where the word that they are the value of
// stands before them.
func beside(name string, values ...string) (out []phrase) {
	values = slices.Compact(values)
	if strings.TrimFunc(name, func(r rune) bool { return !unicode.IsLetter(r) }) == "" {
		return nil
	}
	for _, v := range values {
		p := phrase{text: name + " " + v, value: v}
		if strings.IndexFunc(v, func(r rune) bool { return r != '.' && !unicode.IsDigit(r) }) < 0 {
			p.also = v
		}
		out = append(out, p)
	}
	return out
}
