package measure

import (
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// mark returns the decimal mark of the language of s: "." for the empty tag,
// English, a tag that is not understood, and a language whose mark belongs to
// other figures than 0 to 9.
func (s Style) mark() string {
	if s.Language == "" || s.Language == "en" {
		return "."
	}
	tag, err := language.Parse(s.Language)
	if err != nil {
		return "."
	}
	text := message.NewPrinter(tag).Sprint(number.Decimal(1.5))
	if mark, ok := strings.CutPrefix(text, "1"); ok {
		if mark, ok := strings.CutSuffix(mark, "5"); ok {
			return mark
		}
	}
	return "."
}
