package press

import (
	"html/template"
	"strconv"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/trade"
)

// A page of figures is reached by few rules. Said in full at every figure they
// would be most of the page, so a rule that a page needs often is written out
// once at its foot, and a figure's working names it and leads there.

// A rule is how figures are worked out, and who says so.
type rule struct {
	words  string
	source trade.Source
}

// A ruleBook numbers the rules of a build. While its pages are written a rule
// is a mark that holds its number; fill puts words in their places.
type ruleBook struct {
	numbers map[rule]int
	rules   []rule
}

// Marks stand where a rule and its source will. Nothing that is written has
// these bytes: Escape leaves them out.
const (
	ruleMark   = 0x01
	sourceMark = 0x02
)

// number is the rule's number.
func (r *ruleBook) number(k *garment.Working) int {
	key := rule{k.Rule, k.Source}
	n, ok := r.numbers[key]
	if !ok {
		if r.numbers == nil {
			r.numbers = map[rule]int{}
		}
		n = len(r.rules)
		r.numbers[key] = n
		r.rules = append(r.rules, key)
	}
	return n
}

func appendMark(dst []byte, mark byte, n int) []byte {
	return append(strconv.AppendInt(append(dst, mark), int64(n), 10), mark)
}

// short is what a working says of a rule that is written out elsewhere: its
// words up to the first stop.
func (r rule) short() string {
	if i := strings.IndexAny(r.words, ":;,("); i > 3 {
		return strings.TrimSpace(r.words[:i])
	}
	return r.words
}

// cited is the source as a working shows it; empty where there is none to name.
func (r rule) cited() string {
	if r.source == "" || r.source == "derived" || r.source == "the record itself" {
		return ""
	}
	return string(r.source)
}

// A ruleUse is how often a rule stands on a page, and its number there, from 1,
// where it is written out once.
type ruleUse struct{ count, listed int }

// linkCost is about what naming a rule costs beside its short words, in bytes.
const linkCost = 24

// pays reports whether writing the rule out once makes the page lighter.
func (r rule) pays(count int) bool {
	cite := 0
	if c := r.cited(); c != "" {
		cite = len(c) + len("<br><cite></cite>")
	}
	saved := len(r.words) + cite - len(r.short()) - linkCost
	return count > 2 && saved*count > len(r.words)+cite+2*linkCost
}

// fill writes the rules of one page into its parts and returns the list of
// those that are written out once; empty where there is none.
func (r *ruleBook) fill(parts []Part) template.HTML {
	uses := make([]ruleUse, len(r.rules))
	for i := range parts {
		eachMark(string(parts[i].HTML), func(mark byte, n int) {
			if mark == ruleMark {
				uses[n].count++
			}
		})
	}
	var list []int
	for i := range parts {
		parts[i].HTML = template.HTML(r.put(string(parts[i].HTML), uses, &list))
	}
	if len(list) == 0 {
		return ""
	}
	w := paper{}
	w.raw(`<ol class="rules">`)
	for i, n := range list {
		w.raw(`<li id="rule-`).int(i + 1).raw(`">`).say(r.rules[n].words)
		if c := r.rules[n].cited(); c != "" {
			w.raw(" <cite>").say(c).raw("</cite>")
		}
		w.raw("</li>\n")
	}
	return w.raw("</ol>\n").done()
}

// put replaces the marks of a text; rules that are written out once join the
// list where they are first met.
func (r *ruleBook) put(text string, uses []ruleUse, list *[]int) string {
	w := paper{b: make([]byte, 0, len(text)+len(text)/4)}
	from := 0
	eachMarkAt(text, func(at, end int, mark byte, n int) {
		w.b = append(w.b, text[from:at]...)
		from = end
		use, rule := &uses[n], r.rules[n]
		listed := rule.pays(use.count)
		switch {
		case mark == sourceMark && !listed:
			if c := rule.cited(); c != "" {
				w.raw("<br><cite>").say(c).raw("</cite>")
			}
		case mark == ruleMark && !listed:
			w.say(rule.words)
		case mark == ruleMark:
			if use.listed == 0 {
				*list = append(*list, n)
				use.listed = len(*list)
			}
			w.raw(`<a href="#rule-`).int(use.listed).raw(`">`).say(rule.short()).raw("</a>")
		}
	})
	return string(append(w.b, text[from:]...))
}

func eachMark(text string, do func(mark byte, n int)) {
	eachMarkAt(text, func(_, _ int, mark byte, n int) { do(mark, n) })
}

// eachMarkAt calls do for every mark of a text with where it begins and ends.
func eachMarkAt(text string, do func(at, end int, mark byte, n int)) {
	for at := 0; at < len(text); {
		c := text[at]
		if c != ruleMark && c != sourceMark {
			at++
			continue
		}
		long := strings.IndexByte(text[at+1:], c)
		n, _ := strconv.Atoi(text[at+1 : at+1+long])
		end := at + long + 2
		do(at, end, c, n)
		at = end
	}
}

// A load is what a page would weigh with its marks filled, in bytes.
type load struct {
	book   *ruleBook
	counts map[int]int // how often each rule stands on the page
	plain  int         // everything but the rules
}

// with is the load with more on it.
func (l load) with(html []byte) load {
	out := load{l.book, map[int]int{}, l.plain + len(html)}
	for n, count := range l.counts {
		out.counts[n] = count
	}
	eachMarkAt(string(html), func(at, end int, mark byte, n int) {
		out.plain -= end - at
		if mark == ruleMark {
			out.counts[n]++
		}
	})
	return out
}

func (l load) bytes() int {
	sum := l.plain
	for n, count := range l.counts {
		r := l.book.rules[n]
		full := len(r.words) + len(r.cited()) + len("<br><cite></cite>")
		if r.pays(count) {
			sum += full + 2*linkCost + count*(len(r.short())+linkCost)
		} else {
			sum += count * full
		}
	}
	return sum
}
