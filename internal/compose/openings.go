package compose

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// A WayIn is an opening of the outer layer, those that are alike as one, or a slit
// that a zip or buttons close.
type WayIn struct {
	Name   string
	By     string // what closes it; "" where it stays open
	Times  int
	Length *figure.Figure // of each
}

// WaysIn are the openings of a garment from the top down, and then its slits.
func WaysIn(openings []garment.Opening, slits []garment.Slit) []WayIn {
	var out []WayIn
	add := func(name, by string, f *figure.Figure) {
		for i := range out {
			o := &out[i]
			if o.Name == name && o.By == by && o.Length.Value.Known() && f.Value.Known() && math.Abs(o.Length.Value.Number-f.Value.Number) < 0.5 {
				o.Times++
				return
			}
		}
		out = append(out, WayIn{name, by, 1, f})
	}
	for i := range openings {
		add(openings[i].Name, "", &openings[i].Length)
	}
	for i := range slits {
		add(slits[i].Name, slits[i].By, &slits[i].Length)
	}
	return out
}

// What is told of openings on pages and on sheets.
var (
	WayInName = ColumnOf[WayIn]{"opening", true, 5, func(t *document.TableDraft, tell Teller, o WayIn) {
		name := tell.Called(Key("opening", o.Name), o.Name)
		if o.Times > 1 {
			name = strconv.Itoa(o.Times) + "\u00a0× " + name
		}
		if o.By != "" {
			name += " (" + tell.Called(Key("notion", o.By), o.By) + ")"
		}
		t.Words(name)
	}}
	WayInLength = ColumnOf[WayIn]{"around", false, 3, func(t *document.TableDraft, tell Teller, o WayIn) { t.Cell(tell.Figure(o.Length)) }}
)

// openings says which openings the garment has, and how long each of them is.
func (d *Draft) openings(openings []garment.Opening, slits []garment.Slit) {
	list := WaysIn(openings, slits)
	if len(list) == 0 {
		return
	}
	d.Say(document.Say(openingWords(openings, slits)))
	Table(&d.Draft, OnPage, say.Of("compose.openings"), list, WayInName, WayInLength).End()
}

// openingWords says how many openings there are, and which: "Four openings: neck,
// two armholes, hem; one slit at centre back."
func openingWords(openings []garment.Opening, slits []garment.Slit) string {
	var names []string
	times := map[string]int{}
	for _, o := range openings {
		if times[o.Name]++; times[o.Name] == 1 {
			names = append(names, o.Name)
		}
	}
	for i, name := range names {
		if n := times[name]; n > 1 {
			names[i] = few(n) + " " + name + "s"
		}
	}
	var parts []string
	if n := len(openings); n > 0 {
		parts = append(parts, few(n)+" "+plural(n, "opening")+": "+strings.Join(names, ", "))
	}
	var at []string
	for _, s := range slits {
		at = append(at, s.Name)
	}
	if n := len(at); n > 0 {
		parts = append(parts, say.Of("compose.at-2", few(n), plural(n, "slit"), strings.Join(at, ", ")))
	}
	return upperFirst(strings.Join(parts, "; ")) + "."
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// few is a number in words, as far as one writes them out.
func few(n int) string {
	names := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(names) {
		return names[n]
	}
	return strconv.Itoa(n)
}
