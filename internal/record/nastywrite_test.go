package record

import (
	"fmt"
	"strings"
)

// key is a key in one of its styles.
func (g *nasty) key(key string, flow bool) string {
	if key == "<<" {
		return key
	}
	switch g.r.IntN(24) {
	case 0, 1:
		return `"` + key + `"`
	case 2, 3:
		return "'" + key + "'"
	case 4, 5:
		if flow {
			return "? " + key + " "
		}
	case 6:
		i := g.r.IntN(len(key))
		return fmt.Sprintf(`"%s\%s%s"`, key[:i], g.pick(fmt.Sprintf("x%02x", key[i]), fmt.Sprintf("u%04x", key[i])), key[i+1:])
	case 7:
		return "!!str " + key
	case 8, 9, 10:
		if name := g.keys[key]; name != "" {
			return "*" + name + " "
		}
		g.n++
		g.keys[key] = fmt.Sprintf("k%d", g.n)
		return "&" + g.keys[key] + " " + key
	}
	return key
}

// remark is what may stand at a line's end. close says that it may stand right
// behind what is there.
func (g *nasty) remark(private, close bool) string {
	if !g.one(3) {
		return g.pick("", "", " ", "\t")
	}
	marks := g.pick(" #", "\t#", "  \t#")
	if close && g.one(4) {
		marks = "#"
	}
	return g.remarkAfter(marks, private)
}

// remarkAfter is a remark with the marks it begins with. Some go on behind one
// of the rarer line ends, and some are very long.
func (g *nasty) remarkAfter(marks string, private bool) string {
	word := "FREE"
	if private {
		g.n++
		word = fmt.Sprintf("SECRET%d: it's \"so\" [", g.n)
	}
	out := marks + " " + word
	if g.one(8) {
		out += g.pick(nel, ls, ps) + g.pick("", "  ") + "# " + word
	}
	if g.one(200) {
		out += strings.Repeat(" "+word, 500)
	}
	return out
}

// above writes remarks and empty lines before an entry.
func (g *nasty) above(indent int, private bool) {
	for range g.r.IntN(3) {
		if g.one(3) {
			g.b.WriteString(g.pick("", "  ") + g.nl)
			continue
		}
		g.b.WriteString(strings.Repeat(" ", g.r.IntN(indent+1)) + g.remarkAfter("#", private || g.private) + g.nl)
	}
}

// entry writes a key and its value as a block.
func (g *nasty) entry(indent int, e nastyEntry) {
	g.above(indent, e.private)
	g.b.WriteString(strings.Repeat(" ", indent))
	g.pair(indent, e)
}

func (g *nasty) pair(indent int, e nastyEntry) {
	in := strings.Repeat(" ", indent)
	switch {
	case g.one(16) && e.key != "<<":
		g.b.WriteString("? " + e.key + g.remark(e.private, false) + g.nl + in)
		g.noTab = true
	case g.one(24) && e.key != "<<":
		g.b.WriteString("?" + strings.ReplaceAll(g.remark(e.private, false), "\t", " ") + g.nl + in + " " + e.key + g.remark(e.private, false) + g.nl + in)
		g.noTab = true
	default:
		g.b.WriteString(g.key(e.key, false))
	}
	g.b.WriteString(":")
	g.value(indent, e.value, e.private)
}

// value writes a value behind its colon or dash, to the line's end.
func (g *nasty) value(indent int, v nastyValue, private bool) {
	deeper := indent + 1 + g.r.IntN(3)
	noTab := g.noTab
	g.noTab = false
	tabs := func(s string) string {
		if noTab {
			return strings.ReplaceAll(s, "\t", " ")
		}
		return s
	}
	if v.single() {
		gap := tabs(g.pick(" ", " ", " ", "\t", "  "))
		if g.one(10) { // on a line of its own
			gap = tabs(g.remark(private, false)) + g.nl + strings.Repeat(" ", deeper)
		}
		g.b.WriteString(gap + g.text(indent, v) + g.nl)
		g.private = private
		return
	}
	if g.one(3) || v.many && len(v.list) == 0 {
		shut := v.holdsPrivate()
		g.b.WriteString(g.pick(" ", " ", g.nl+strings.Repeat(" ", indent+1)) + v.flow(g) + g.remark(shut, true) + g.nl)
		g.private = shut
		return
	}
	if v.anchor != "" {
		g.b.WriteString(" &" + v.anchor)
	}
	g.b.WriteString(g.pick("", "", " !!"+map[bool]string{true: "seq", false: "map"}[v.many]))
	g.b.WriteString(tabs(g.remark(private, false)) + g.nl)
	g.private = private
	if v.many && g.one(2) {
		deeper = indent
	}
	for _, e := range v.group {
		e.private = e.private || private
		g.entry(deeper, e)
	}
	for _, each := range v.list {
		g.item(deeper, each, private)
	}
}

// item writes an entry of a list.
func (g *nasty) item(indent int, v nastyValue, private bool) {
	g.above(indent, private || v.group == nil && v.private)
	g.b.WriteString(strings.Repeat(" ", indent) + "-")
	if v.group == nil || v.private || v.anchor != "" || g.one(2) {
		g.noTab = true
		g.value(indent, v, private)
		return
	}
	g.b.WriteString(" ") // the first pair beside the dash
	for i, e := range v.group {
		if i > 0 {
			g.entry(indent+2, e)
			continue
		}
		g.pair(indent+2, e)
	}
}

// text writes a single value in one of its styles, with what follows on its line.
func (g *nasty) text(indent int, v nastyValue) string {
	if v.alias != "" {
		return "*" + v.alias + g.remark(false, false)
	}
	if v.figure {
		return v.text + g.remark(v.private, false)
	}
	mark, alias := g.mark(v)
	if alias {
		return mark + " " + g.remark(v.private, false)
	}
	switch g.r.IntN(6) {
	case 0:
		return mark + "'" + g.over(indent, v, strings.ReplaceAll(v.text, "'", "''")) + "'" + g.remark(v.private, true)
	case 1, 2:
		return mark + `"` + g.over(indent, v, g.escaped(v)) + `"` + g.remark(v.private, true)
	case 3:
		if v.text != nastyMoney {
			return mark + g.block(indent, v)
		}
	}
	if strings.ContainsAny(v.text, ":#\\'\"[]{},|-") {
		return mark + "'" + strings.ReplaceAll(v.text, "'", "''") + "'" + g.remark(v.private, true)
	}
	if v.text == nastyMoney {
		return mark + v.text + g.remark(true, false)
	}
	return mark + g.over(indent, v, v.text) + g.remark(v.private, false)
}

// mark is the anchor and the tag of a text, or the alias that stands for it.
func (g *nasty) mark(v nastyValue) (mark string, alias bool) {
	list := &g.marked
	if v.private {
		list = &g.own
	}
	tag := ""
	if g.one(8) {
		tag = "!!str "
		if v.private && v.text != nastyMoney && g.one(2) {
			tag = "!SECRETtag "
		}
	}
	switch {
	case v.text == nastyMoney:
	case g.one(8):
		g.n++
		name := fmt.Sprintf("a%d", g.n)
		if v.private {
			name = "SECRET" + name
		}
		*list = append(*list, name)
		if g.one(2) {
			return tag + "&" + name + " ", false
		}
		return "&" + name + " " + tag, false
	case g.one(8) && len(*list) > 0:
		return "*" + (*list)[g.r.IntN(len(*list))], true
	case g.one(8) && v.private && len(g.marked) > 0:
		return "*" + g.marked[g.r.IntN(len(g.marked))], true
	}
	return tag, false
}

// escaped is a text as it may stand within double quotes.
func (g *nasty) escaped(v nastyValue) string {
	s := strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(v.text)
	switch {
	case v.free && g.one(4):
		return strings.ReplaceAll(s, " ", g.pick(`\N`, `\L`, `\P`, `\_`))
	case g.one(4):
		return strings.ReplaceAll(s, " ", g.pick(`\x20`, `\u0020`, `\t`, " \\"+g.fold+"    "))
	}
	return s
}

// over may write a text over several lines: every blank alike.
func (g *nasty) over(indent int, v nastyValue, s string) string {
	if g.one(2) {
		return s
	}
	return strings.ReplaceAll(s, " ", g.pick(" ", g.lines(v, strings.Repeat(" ", indent+1+g.r.IntN(3)))))
}

// lines is what may stand between two words of a text over several lines.
func (g *nasty) lines(v nastyValue, in string) string {
	if v.free && g.one(3) {
		return g.pick(nel, ls, ps) + in
	}
	return g.pick(g.fold+in, g.fold+g.fold+in)
}

// block writes a text as a block, some with the number of its indent.
func (g *nasty) block(indent int, v nastyValue) string {
	by := 1 + g.r.IntN(3)
	in := strings.Repeat(" ", indent+by)
	keep, lead := g.pick("", "-", "+"), ""
	if g.one(3) {
		keep = g.pick(fmt.Sprint(by)+keep, keep+fmt.Sprint(by))
		lead = g.pick("", "  ", g.fold)
		if lead == g.fold {
			lead += in
		}
	}
	remark := g.remark(v.private, false)
	if i := strings.IndexAny(remark, nel+ls+ps); i >= 0 {
		remark = remark[:i] // the text begins on the next line
	}
	lines := strings.ReplaceAll(v.text, " ", g.pick(" ", g.lines(v, in)))
	return g.pick("|", ">") + keep + remark + g.nl + in + lead + lines + g.pick("", g.fold, g.fold+g.fold)
}

// flow writes a value within brackets.
func (v nastyValue) flow(g *nasty) string {
	gap := func() string {
		switch {
		case !g.one(5):
			return g.pick("", " ")
		case v.holdsPrivate():
			return g.remarkAfter(" #", true) + " ]}\"" + g.nl + "    "
		}
		return g.nl + "    "
	}
	anchor := ""
	if v.anchor != "" {
		anchor = "&" + v.anchor + " "
	}
	switch {
	case v.alias != "":
		return "*" + v.alias + " "
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
		return anchor + "{" + strings.Join(parts, ",") + gap() + "}"
	case v.figure || v.text == nastyMoney && g.one(2):
		return v.text
	case g.one(2):
		return g.pick("", "!!str ") + "'" + strings.ReplaceAll(v.text, "'", "''") + "'"
	}
	s := g.escaped(v)
	if g.one(3) {
		s = strings.ReplaceAll(s, " ", g.lines(v, "     "))
	}
	return `"` + s + `"`
}
