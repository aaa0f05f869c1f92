package sheet

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// gap is a space at which a line does not break.
const gap = "\u00a0"

// list joins phrases as the language does.
func (c *speaker) list(items []string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return c.t.say("list.and", "first", c.Joined(items[:last]), "last", items[last])
}

// day writes a date as the language does.
func (c *speaker) day(d record.Day) string {
	return c.t.say("date.day", "day", strconv.Itoa(d.Day), "month", c.t.say("month."+strconv.Itoa(int(d.Month))), "year", strconv.Itoa(d.Year))
}

// metric writes a length in the sheet's metric unit, to the millimetre.
func (c *speaker) metric(l measure.Length) string {
	return strings.ReplaceAll(c.si.Length(l.Round(measure.Millimetre)), " ", gap)
}

// inches writes a length to the nearest 1/16 in.
func inches(l measure.Length) string {
	text, _ := measure.Inches(l)
	return strings.ReplaceAll(text, " ", gap)
}

// both writes a length twice: the wearer's unit first, the other after it.
func (c *speaker) both(f figure.Figure) document.Inline {
	l, ok := f.Value.Length()
	if !f.Value.Known() || f.ID == "" || !ok {
		return document.Say("–")
	}
	first, second := c.metric(l), inches(l)
	if c.inch {
		first, second = second, first
	}
	return document.Quantity(first, second)
}

// one writes a length once, in the wearer's unit.
func (c *speaker) one(f figure.Figure) string {
	l, ok := f.Value.Length()
	if !f.Value.Known() || f.ID == "" || !ok {
		return "–"
	}
	return c.oneLength(l)
}

func (c *speaker) oneLength(l measure.Length) string {
	if c.inch {
		return inches(l)
	}
	return c.metric(l)
}

// mm writes a length in the wearer's units.
func (c *speaker) mm(mm float64) string { return c.oneLength(measure.MM(mm)) }

// quantity writes any figure as a table shows it.
func (c *speaker) quantity(f figure.Figure) string {
	if f.ID == "" || !f.Value.Known() {
		return "–"
	}
	return strings.ReplaceAll(c.style.Quantity(f.Value.Quantity), " ", gap)
}

// mass writes grams, kilograms from one on; ounces beside them where the wearer
// reads inches.
func (c *speaker) mass(grams float64) string {
	q := measure.Quantity{Number: math.Round(grams), Unit: measure.UnitG}
	text := c.style.Number(q.Number, 0) + gap + "g"
	if grams >= 1000 {
		text = c.style.Number(grams/1000, 2) + gap + "kg"
	}
	if c.inch {
		oz := q.In(measure.UnitOz)
		text += " (" + c.style.Number(oz.Number, 1) + gap + "oz)"
	}
	return text
}

// metres writes a long seam's length.
func (c *speaker) metres(f figure.Figure) string {
	if f.ID == "" || !f.Value.Known() {
		return "–"
	}
	if f.Value.Unit == measure.UnitMM {
		return c.one(f)
	}
	return c.quantity(f)
}

// fibre is a fibre's name in the sheet's language.
func (c *composer) fibre(f label.FibrePart) string {
	switch {
	case f.Other && c.t.code == "en" && c.content.Market == "us":
		return "other fibers"
	case f.Other:
		return c.t.say("content.other")
	case c.t.code == "en":
		return f.Name
	}
	return c.fibreWord(f.Fibre, f.Name)
}

func (c *speaker) fibreWord(f trade.Fibre, own string) string {
	if w := f.Words[c.t.code]; w != "" {
		return w
	}
	c.t.lacked["fibre "+f.Name] = true
	return foreign("en") + own
}

// Share is a fibre with its percentage, as a label states it: 60 % wool.
func (c *composer) Share(f *label.FibrePart) string {
	return c.t.say("content.fibre", "share", c.percent(f.Label), "fibre", c.fibre(*f))
}

// percent is a share as the language writes it: 60%, 60 %.
func (c *speaker) percent(share float64) string {
	return c.t.say("number.percent", "n", c.style.Number(share, 1))
}

// says is what is said of a thing, behind the language's colon.
func (c *speaker) says(what, words string) string {
	return c.t.say("list.says", "what", what, "says", words)
}

// Joined lists words with the language's commas.
func (c *speaker) Joined(words []string) string { return strings.Join(words, c.t.say("list.comma")) }

// part is what a cloth's part is called.
func (c *speaker) part(name string) string { return c.Called(compose.Key("part", name), name) }

// Parts are what parts of the garment are called, listed.
func (c *speaker) Parts(names []string) string {
	var out []string
	for _, n := range names {
		out = append(out, c.part(n))
	}
	return c.list(out)
}

// notion is what a notion is called.
func (c *speaker) notion(name string) string { return c.t.sayOr(compose.Key("notion", name), name) }

// upper begins a text with a capital.
func upper(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// title begins a sheet with the garment's name and what the sheet is.
func (c *composer) title(about string) {
	c.Add(document.Heading{Level: 1, Words: c.called(), Aside: about})
}

// heading begins a part of a sheet.
func (c *writer) heading(word string) {
	c.Add(document.Heading{Level: 2, Words: c.t.say(word)})
}

// aside says something in small letters.
func (c *writer) aside(words string) { c.Say(document.As(document.Small, words)) }

// fact is a term, with a capital, and what is said of it.
func (c *writer) fact(term string, says ...document.Inline) document.Fact {
	return document.Fact{Term: upper(term), Says: []document.Phrase{c.Phrase(says...)}}
}

// caution warns: all in one frame, since many are heeded less.
func (c *writer) caution(texts ...string) {
	var all document.Cautions
	for i, text := range texts {
		one := document.Caution{Words: text}
		if i == 0 {
			one.Head = c.t.say("caution.head")
		}
		all.Items = append(all.Items, one)
	}
	c.Add(all)
}

// despite prints the maker's reasons for what would else have been refused.
func (c *composer) despite(about ...string) {
	for _, a := range about {
		if r := c.reason(a); r.Given() && c.needsReason(a) {
			c.Add(document.Text{As: document.Note, Phrase: c.Phrase(document.As(document.Strong, c.t.say("despite.title")),
				document.Say(" "+c.t.say("despite."+a, "reason", stopped(c.ownAlone(r)))))})
		}
	}
}
