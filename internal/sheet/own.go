package sheet

import (
	"slices"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
)

// own is words of the maker in the sheet's language. Where she wrote none in it they
// stand as she has them, behind the name of their language.
func (c *speaker) own(s record.Spoken) []document.Inline {
	words, tongue := s.In(c.t.code)
	if tongue == c.t.code {
		return []document.Inline{document.Say(compose.PlainWords(words))}
	}
	return []document.Inline{document.As(document.Small, c.inTongue(tongue)+" "), {Words: compose.PlainWords(words), Language: tongue}}
}

// inTongue says in which language words are that are not in the sheet's.
func (c *speaker) inTongue(code string) string { return "(" + c.t.say("tongue."+code) + ")" }

// after is words of the maker behind others.
func (c *speaker) after(first document.Inline, s record.Spoken) []document.Inline {
	return append([]document.Inline{first, document.Say(" ")}, c.own(s)...)
}

// ownAlone is words of the maker where nothing but letters can stand, as below a picture.
func (c *speaker) ownAlone(s record.Spoken) string {
	words, _ := s.In(c.t.code)
	return compose.PlainWords(words)
}

// called is what the garment is called.
func (c *composer) called() string {
	words, _ := c.build.Name.In(c.t.code)
	return words
}

// pictured is what the garment's picture shows.
func (c *composer) pictured() string {
	if alt := c.build.Picture.Alt; alt.Given() {
		return c.ownAlone(alt)
	}
	return c.called()
}

// points are the maker's own words, point by point. That they are in another language is
// said of the first that is.
func (c *writer) points(list []record.Spoken) document.List {
	var out document.List
	said := ""
	for _, w := range list {
		says := c.own(w)
		if last := len(says) - 1; last > 0 {
			if says[last].Language == said {
				says = says[last:]
			}
			said = says[len(says)-1].Language
		}
		out.Items = append(out.Items, document.Item{Phrase: c.Phrase(says...)})
	}
	return out
}

// ownOnSheets are the maker's words that sheets show, by what they are in the record.
func (f *facts) ownOnSheets() []ownWords {
	b := f.build
	p := &b.Packet
	out := []ownWords{
		{"summary:", list(b.Summary), []string{"agree", "card", "remake"}}, {"card:", p.Card, []string{"card"}}, {"wear:", p.Wear, []string{"care-and-fit"}}, {"box:", p.Box, []string{"box"}}, {"store:", p.Store, []string{"box"}},
		{"mend:", p.Mend, []string{"repairs"}}, {"keep:", p.Keep, []string{"repairs"}}, {say.Of("sheet.because-of-the-care"), list(p.Care.Because), []string{"care-and-fit"}},
	}
	var notes, seen, again, called []record.Spoken
	for i := range b.Later {
		again = append(again, b.Later[i].Because)
	}
	for i := range b.Pieces {
		notes = append(notes, b.Pieces[i].Note)
		called = append(called, b.Pieces[i].Called)
	}
	for i := range b.Seams {
		notes = append(notes, b.Seams[i].Note)
	}
	for i := range b.Finishes {
		notes = append(notes, b.Finishes[i].Note)
	}
	for i := range b.Work {
		notes = append(notes, b.Work[i].Note)
	}
	for i := range b.Fittings {
		seen = append(seen, b.Fittings[i].Saw)
	}
	return append(out, ownWords{say.Of("sheet.called-of-the-pieces"), called, []string{"remake"}}, ownWords{say.Of("sheet.notes-of-pieces-seams-and-steps"), notes, []string{"remake"}}, ownWords{say.Of("sheet.because-of-what-was-measured-later"), again, []string{"care-and-fit"}}, ownWords{say.Of("sheet.saw-of-the-fittings"), seen, []string{"fit", "remake"}})
}

// An ownWords is words of the maker that stand behind a word of the record.
type ownWords struct {
	of    string
	words []record.Spoken
	on    []string // the sheets that show them
}

// lacks reports whether some of them do not stand in a language.
func (o ownWords) lacks(code string) bool {
	for _, s := range o.words {
		if s.Given() && !s.Has(code) {
			return true
		}
	}
	return false
}

func list(s record.Spoken) []record.Spoken { return []record.Spoken{s} }

// unsaid refuses what keeps a wearer safe and does not stand in the language of the
// sheets: whoever cannot read it is not warned.
func (f *finder) unsaid(code string, has func(sheet string) bool) {
	p := &f.build.Packet
	ask := func(of string, s record.Spoken) {
		if s.Given() && !s.Has(code) {
			words, tongue := s.In(code)
			f.never("words", s.At, say.Of("sheet.write-it-in-both", of, tongue, fault.Shorten(words), code), say.Of("sheet.is-not-as-the-sheets-are-and", of, inLanguage(code)))
		}
	}
	if has("care-and-fit") {
		ask("note:", p.Note)
		ask("nightwear:", p.Nightwear)
	}
	for _, one := range slices.Clone(f.list) {
		if one.Reason != "" && one.About != "customs" { // its form is in English
			ask(one.About+":", f.reason(one.About))
		}
	}
}
