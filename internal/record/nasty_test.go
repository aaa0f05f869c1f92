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
	private bool     // the entry written last was private
	marked  []string // anchors of public texts
	own     []string // anchors of private texts
}

// nastyRecord is the record of a seed.
func nastyRecord(seed uint64) string {
	g := &nasty{r: rand.New(rand.NewPCG(seed, 7)), nl: "\n"}
	if g.one(6) {
		g.nl = "\r\n"
	}
	if g.one(8) {
		g.b.WriteString("\ufeff")
	}
	if g.one(8) {
		g.b.WriteString("%YAML 1.1 # FREE" + g.nl + "---" + g.nl)
	} else if g.one(6) {
		g.b.WriteString("---" + g.pick("", " # FREE") + g.nl)
	}
	entries := g.entries()
	if g.one(10) {
		g.b.WriteString("{")
		for i, e := range entries {
			if i > 0 {
				g.b.WriteString("," + g.pick(" ", g.nl+"  "))
			}
			g.b.WriteString(g.key(e.key, true) + ":" + g.pick(" ", g.nl+"   ") + e.value.flow(g))
		}
		g.b.WriteString("}" + g.pick("", " # SECRET") + g.nl)
	} else {
		for _, e := range entries {
			g.entry(0, e)
		}
	}
	text := g.b.String()
	switch {
	case g.one(8):
		text += "..." + g.nl
	case g.one(8):
		text = strings.TrimRight(text, "\r\n")
	case g.one(8):
		text += g.nl + g.nl
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

// A nastyValue is a text, or a list or group of values.
type nastyValue struct {
	text    string
	list    []nastyValue
	group   []nastyEntry
	many    bool // a list
	figure  bool // it must stay on one line
	private bool
}

func (v nastyValue) single() bool { return !v.many && v.group == nil }

func (g *nasty) words(private bool) nastyValue {
	g.n++
	mark := "KEPT"
	if private {
		mark = "SECRET"
	}
	text := fmt.Sprintf("%s%d", mark, g.n)
	for range g.r.IntN(4) {
		text += " " + g.pick("by her husband", "paid: in cash", "a # b", "it's", `the "best"`, "größer 山", "[x]", "{y}", "- z", "a,b", "ende:", "| pipe", "back\\slash", "'q'") + " " + fmt.Sprintf("%s%d", mark, g.n)
	}
	return nastyValue{text: text, private: private}
}

func (g *nasty) money() nastyValue {
	return nastyValue{text: "98.76 EUR", private: true}
}

// free is anything, for private:.
func (g *nasty) free(depth int) nastyValue {
	switch k := g.r.IntN(8); {
	case k < 3 || depth > 2:
		return g.words(true)
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

func (g *nasty) entries() []nastyEntry {
	figure := func(s string) nastyValue { return nastyValue{text: s, figure: true} }
	priced := func(what string) nastyValue {
		group := []nastyEntry{{"what", figure(what), false}, {"note", g.words(false), false}, {"price", g.money(), true}}
		g.r.Shuffle(3, func(i, j int) { group[i], group[j] = group[j], group[i] })
		return nastyValue{group: group}
	}
	costs := nastyValue{private: true, group: []nastyEntry{{"post", g.money(), true}, {"other", nastyValue{private: true, group: []nastyEntry{{"SECRETthing", g.money(), true}}}, true}}}
	all := []nastyEntry{
		{"name", g.words(false), false}, {"garment", figure("skirt"), false}, {"state", figure("planned"), false},
		{"story", g.words(false), false},
	}
	for _, e := range []nastyEntry{
		{"wearer", g.words(true), true}, {"costs", costs, true}, {"private", g.free(0), true}, {"summary", g.words(false), false},
		{"notions", nastyValue{many: true, list: []nastyValue{priced("zip"), priced("hook")}}, false},
		{"thread", nastyValue{group: []nastyEntry{{"main", nastyValue{group: []nastyEntry{{"colour", g.words(false), false}, {"price", g.money(), true}}}, false}}}, false},
		{"packet", nastyValue{group: []nastyEntry{{"customs", nastyValue{group: []nastyEntry{{"value", g.money(), true}}}, false}, {"note", g.words(false), false}}}, false},
		{"measured", nastyValue{group: []nastyEntry{{"waist", figure("700"), false}}}, false},
	} {
		if !g.one(3) {
			all = append(all, e)
		}
	}
	g.r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

func (g *nasty) key(key string, flow bool) string {
	switch g.r.IntN(10) {
	case 0:
		return `"` + key + `"`
	case 1:
		return "'" + key + "'"
	case 2:
		if flow {
			return "? " + key + " "
		}
	}
	return key
}

// remark is what may stand at a line's end.
func (g *nasty) remark(private bool) string {
	if !g.one(3) {
		return g.pick("", "", " ", "\t")
	}
	g.n++
	if private {
		return g.pick(" ", "\t", "  \t") + fmt.Sprintf("# SECRET%d: it's \"so\" [", g.n)
	}
	return g.pick(" ", "\t") + "# FREE"
}

// above writes remarks and empty lines before an entry.
func (g *nasty) above(indent int, private bool) {
	for range g.r.IntN(3) {
		if g.one(3) {
			g.b.WriteString(g.pick("", "  ") + g.nl)
			continue
		}
		mark := "# FREE"
		if private || g.private {
			g.n++
			mark = fmt.Sprintf("# SECRET%d {", g.n)
		}
		g.b.WriteString(strings.Repeat(" ", g.r.IntN(indent+1)) + mark + g.nl)
	}
}

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

// entry writes a key and its value as a block.
func (g *nasty) entry(indent int, e nastyEntry) {
	g.above(indent, e.private)
	g.b.WriteString(strings.Repeat(" ", indent))
	g.pair(indent, e)
}

func (g *nasty) pair(indent int, e nastyEntry) {
	if g.one(12) {
		g.b.WriteString("? " + e.key + g.remark(e.private) + g.nl + strings.Repeat(" ", indent))
	} else {
		g.b.WriteString(g.key(e.key, false))
	}
	g.b.WriteString(":")
	g.value(indent, e.value, e.private)
}

// value writes a value behind its colon or dash, to the line's end.
func (g *nasty) value(indent int, v nastyValue, private bool) {
	if v.single() {
		g.b.WriteString(" " + g.text(indent, v) + g.nl)
		g.private = private
		return
	}
	if g.one(3) || v.many && len(v.list) == 0 {
		shut := v.holdsPrivate()
		g.b.WriteString(g.pick(" ", " ", g.nl+strings.Repeat(" ", indent+1)) + v.flow(g) + g.remark(shut) + g.nl)
		g.private = shut
		return
	}
	g.b.WriteString(g.pick("", "", " !!"+map[bool]string{true: "seq", false: "map"}[v.many]))
	g.b.WriteString(g.remark(private) + g.nl)
	g.private = private
	deeper := indent + 1 + g.r.IntN(3)
	if v.many && g.one(2) && indent > 0 || v.many && indent == 0 && g.one(2) {
		deeper = indent
	}
	for _, e := range v.group {
		e.private = e.private || private
		g.entry(deeper, e)
	}
	for _, each := range v.list {
		g.above(deeper, private || each.group == nil && each.private)
		g.b.WriteString(strings.Repeat(" ", deeper) + "-")
		if each.group != nil && !each.private && g.one(2) { // the first pair beside the dash
			g.b.WriteString(" ")
			for i, e := range each.group {
				if i > 0 {
					g.entry(deeper+2, e)
					continue
				}
				g.pair(deeper+2, e)
			}
			continue
		}
		g.value(deeper, each, private)
	}
}

// text writes a single value in one of its styles, with what follows on its line.
func (g *nasty) text(indent int, v nastyValue) string {
	in := strings.Repeat(" ", indent+1+g.r.IntN(3))
	end := g.remark(v.private)
	if v.figure {
		return v.text + end
	}
	anchor := ""
	switch list := map[bool]*[]string{false: &g.marked, true: &g.own}[v.private]; {
	case v.text == "98.76 EUR":
	case g.one(8):
		g.n++
		anchor = fmt.Sprintf("a%d", g.n)
		*list = append(*list, anchor)
		anchor = "&" + anchor + " "
	case g.one(8) && len(*list) > 0:
		return "*" + (*list)[g.r.IntN(len(*list))] + " " + end
	case g.one(8) && v.private && len(g.marked) > 0:
		return "*" + g.marked[g.r.IntN(len(g.marked))] + " " + end
	}
	over := func(s string) string { // over several lines
		if !g.one(2) {
			return s
		}
		return strings.ReplaceAll(s, " ", g.pick(" ", g.nl+in, g.nl+g.nl+in)) // every blank alike
	}
	switch g.r.IntN(6) {
	case 0:
		return anchor + "'" + over(strings.ReplaceAll(v.text, "'", "''")) + "'" + end
	case 1, 2:
		s := strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(v.text)
		return anchor + `"` + over(s) + `"` + end
	case 3:
		if v.text != "98.76 EUR" {
			lines := strings.ReplaceAll(v.text, " ", g.pick(" ", g.nl+in, g.nl+g.nl+in))
			return anchor + g.pick("|", ">") + g.pick("", "-", "+") + end + g.nl + in + lines + g.pick("", g.nl, g.nl+g.nl)
		}
	}
	if plain := "98.76 EUR"; v.text == plain {
		return plain + end
	}
	if strings.ContainsAny(v.text, ":#\\'\"[]{},|-") {
		return anchor + "'" + strings.ReplaceAll(v.text, "'", "''") + "'" + end
	}
	return anchor + over(v.text) + end
}

// flow writes a value within brackets.
func (v nastyValue) flow(g *nasty) string {
	gap := func() string {
		switch {
		case !g.one(5):
			return g.pick("", " ")
		case v.holdsPrivate():
			g.n++
			return fmt.Sprintf(" # SECRET%d ]}\"%s    ", g.n, g.nl)
		}
		return g.nl + "    "
	}
	switch {
	case v.many:
		var parts []string
		for _, each := range v.list {
			parts = append(parts, gap()+each.flow(g)+gap())
		}
		return "[" + strings.Join(parts, ",") + gap() + "]"
	case v.group != nil:
		var parts []string
		for _, e := range v.group {
			parts = append(parts, gap()+g.key(e.key, true)+": "+gap()+e.value.flow(g)+gap())
		}
		return "{" + strings.Join(parts, ",") + gap() + "}"
	case v.figure || v.text == "98.76 EUR" && g.one(2):
		return v.text
	case g.one(2):
		return "'" + strings.ReplaceAll(v.text, "'", "''") + "'"
	}
	s := strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(v.text)
	if g.one(3) {
		s = strings.ReplaceAll(s, " ", g.nl+"     ")
	}
	return `"` + s + `"`
}
