package measure

import (
	"strings"
	"sync"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// marks remembers the decimal mark of each language asked for.
var marks sync.Map

// mark returns the decimal mark of the language of s: "." for the empty tag,
// English, a tag that is not understood, and a language whose mark belongs to
// other figures than 0 to 9.
func (s Style) mark() string {
	if s.Language == "" || s.Language == "en" {
		return "."
	}
	if mark, ok := marks.Load(s.Language); ok {
		return mark.(string)
	}
	mark := markOf(s.Language)
	marks.Store(s.Language, mark)
	return mark
}

func markOf(name string) string {
	tag, err := language.Parse(name)
	if err != nil {
		return "."
	}
	text := message.NewPrinter(tag).Sprint(number.Decimal(1.5))
	mark, one := strings.CutPrefix(text, "1")
	mark, half := strings.CutSuffix(mark, "5")
	if !one || !half {
		return "."
	}
	return mark
}
