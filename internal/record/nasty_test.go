package record

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// A nasty writes records in every way that YAML lets one write them. Every
// private value, and every remark that touches one, holds the word SECRET or
// the number 98.76; every public value holds KEPT.
type nasty struct {
	r       *rand.Rand
	b       strings.Builder
	nl      string
	n       int
	fold    string            // where a value goes on over lines
	private bool              // the entry written last was private
	noTab   bool              // no tab may stand before the next value
	marked  []string          // anchors of public texts
	own     []string          // anchors of private texts
	keys    map[string]string // anchors of keys, by the key
}

// YAML 1.1 counts these as ends of lines too.
const nel, ls, ps = "\u0085", "\u2028", "\u2029"

// nastyRecord is the record of a seed.
func nastyRecord(seed uint64) string {
	g := &nasty{r: rand.New(rand.NewPCG(seed, 7)), nl: "\n", keys: map[string]string{}}
	switch {
	case g.one(6):
		g.nl = "\r\n"
	case g.one(20):
		g.nl = g.pick("\r", nel, ls, ps)
	}
	if g.fold = g.nl; strings.Contains(nel+ls+ps, g.nl) {
		g.fold = "\n" // the others would stay in the value, where they are refused
	}
	if g.one(8) {
		g.b.WriteString("\ufeff")
	}
	switch {
	case g.one(8):
		g.b.WriteString(g.pick("%YAML 1.1 # FREE", "%TAG !e! tag:e.example,2000:") + g.nl + "---" + g.nl)
	case g.one(6):
		g.b.WriteString("---" + g.pick("", " # FREE") + g.nl)
	}
	entries := g.entries()
	if g.one(10) {
		g.b.WriteString("{")
		for i, e := range entries {
			g.private = g.private || e.private || e.value.holdsPrivate()
			if i > 0 {
				g.b.WriteString("," + g.pick(" ", g.nl+"  "))
			}
			g.b.WriteString(g.key(e.key, true) + ":" + g.pick(" ", g.nl+"   ") + e.value.flow(g))
		}
		g.b.WriteString("}" + g.pick("", g.remarkAfter(" #", g.private), g.remarkAfter("#", g.private)) + g.nl)
	} else {
		for _, e := range entries {
			g.entry(0, e)
		}
	}
	return g.ended(g.b.String())
}

// ended is the text with what stands behind its last line.
func (g *nasty) ended(text string) string {
	switch {
	case g.one(8):
		out := "..." + g.pick("", g.remarkAfter(" #", g.private)) + g.nl
		if g.one(3) {
			out += g.remarkAfter("#", g.private) + g.nl
		}
		return text + out
	case g.one(8):
		return strings.TrimRight(text, "\r\n")
	case g.one(8):
		return text + g.nl + g.nl
	}
	return text
}

func (g *nasty) one(in int) bool            { return g.r.IntN(in) == 0 }
func (g *nasty) pick(from ...string) string { return from[g.r.IntN(len(from))] }

// A nastyEntry is a key with its value.
type nastyEntry struct {
	key     string
	value   nastyValue
	private bool
}

// A nastyValue is a text, or a list or group of values, or stands for one.
type nastyValue struct {
	text    string
	list    []nastyValue
	group   []nastyEntry
	many    bool   // a list
	figure  bool   // it must stay on one line
	anchor  string // of a group
	alias   string // the group it stands for
	free    bool   // it may hold the rarer line ends
	private bool
}

const nastyMoney = "98.76 EUR"

func (v nastyValue) single() bool { return !v.many && v.group == nil }

// holdsPrivate reports whether something private is in a value.
func (v nastyValue) holdsPrivate() bool {
	for _, e := range v.group {
		if e.private || e.value.holdsPrivate() {
			return true
		}
	}
	for _, each := range v.list {
		if each.holdsPrivate() {
			return true
		}
	}
	return v.private
}

func (g *nasty) words(private bool) nastyValue {
	g.n++
	mark := fmt.Sprintf("KEPT%d", g.n)
	if private {
		mark = fmt.Sprintf("SECRET%d", g.n)
	}
	text := mark
	for range g.r.IntN(4) {
		between := g.pick("by her husband", "paid: in cash", "a # b", "it's", `the "best"`, "größer 山", "[x]", "{y}", "- z", "a,b", "ende:", "| pipe", "back\\slash", "'q'")
		if g.one(60) {
			between = strings.Repeat("a line without end ", 300)
		}
		text += " " + between + " " + mark
	}
	return nastyValue{text: strings.Join(strings.Fields(text), " "), private: private}
}

func (g *nasty) money() nastyValue { return nastyValue{text: nastyMoney, private: true} }

// free is anything, for private:.
func (g *nasty) free(depth int) nastyValue {
	switch k := g.r.IntN(8); {
	case k < 3 || depth > 2:
		v := g.words(true)
		v.free = true
		return v
	case k < 5:
		v := nastyValue{many: true, private: true}
		for range g.r.IntN(4) {
			v.list = append(v.list, g.free(depth+1))
		}
		return v
	default:
		v := nastyValue{group: []nastyEntry{}, private: true}
		for i := range 1 + g.r.IntN(3) {
			v.group = append(v.group, nastyEntry{fmt.Sprintf("SECRETkey%d", i), g.free(depth + 1), true})
		}
		return v
	}
}

func nastyFigure(s string) nastyValue { return nastyValue{text: s, figure: true} }

func (g *nasty) priced(key, what string) nastyValue {
	group := []nastyEntry{{key, nastyFigure(what), false}, {"note", g.words(false), false}, {"price", g.money(), true}}
	if key == "colour" {
		group[1].key = "fibre"
	}
	g.r.Shuffle(3, func(i, j int) { group[i], group[j] = group[j], group[i] })
	return nastyValue{group: group}
}

// again are priced things, some of which stand for the first or hold what it
// holds.
func (g *nasty) again(list []nastyValue) []nastyValue {
	if !g.one(3) {
		return list
	}
	g.n++
	name := fmt.Sprintf("g%d", g.n)
	list[0].anchor = name
	same := nastyValue{alias: name}
	for i := range list[1:] {
		one := &list[i+1]
		switch g.r.IntN(4) {
		case 0:
			*one = same
		case 1:
			one.group = append([]nastyEntry{{"<<", same, false}}, one.group[1:]...)
		case 2:
			one.group = append(one.group[1:], nastyEntry{"<<", nastyValue{many: true, list: []nastyValue{same, same}}, false})
		}
	}
	return list
}

func (g *nasty) entries() []nastyEntry {
	costs := nastyValue{private: true, group: []nastyEntry{{"post", g.money(), true}, {"other", nastyValue{private: true, group: []nastyEntry{{"SECRETthing", g.money(), true}}}, true}}}
	var notions []nastyEntry
	for i, one := range g.again([]nastyValue{g.priced("material", "steel"), g.priced("material", "brass"), g.priced("material", "horn")}[:1+g.r.IntN(3)]) {
		notions = append(notions, nastyEntry{[]string{"zip", "hook", "button"}[i], one, false})
	}
	threads := g.again([]nastyValue{g.priced("colour", "red"), g.priced("colour", "blue")})
	all := []nastyEntry{
		{"name", g.words(false), false}, {"garment", nastyFigure("skirt"), false}, {"state", nastyFigure("planned"), false},
		{"story", g.words(false), false},
	}
	for _, e := range []nastyEntry{
		{"wearer", g.words(true), true}, {"costs", costs, true}, {"private", g.free(0), true}, {"summary", g.words(false), false},
		{"notions", nastyValue{group: notions}, false},
		{"thread", nastyValue{group: []nastyEntry{{"main", threads[0], false}, {"other", threads[1], false}}}, false},
		{"packet", nastyValue{group: []nastyEntry{{"customs", nastyValue{group: []nastyEntry{{"value", g.money(), true}}}, false}, {"note", g.words(false), false}}}, false},
		{"measured", nastyValue{group: []nastyEntry{{"waist", nastyFigure("700"), false}}}, false},
	} {
		if !g.one(3) {
			all = append(all, e)
		}
	}
	g.r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}
