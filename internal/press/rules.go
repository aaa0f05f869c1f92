package press

import (
	"bytes"
	"html/template"
	"strconv"
	"strings"

	"hembook/internal/figure"
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
	rules   []listedRule
	room    []byte // for the page that is filled
	counts  []ruleUse
}

// A listedRule is a rule with what is asked of it at every mark.
type listedRule struct {
	rule
	brief string // its words where it is written out elsewhere
	cite  string // its source as a working shows it; empty where there is none to name
}

// A mark stands where a rule or its source will: markByte, a letter for which of
// the two, the number of the rule, markByte. Nothing else that is written has
// this byte: Escape leaves it out.
const (
	markByte   = 0x01
	ruleMark   = 'r'
	sourceMark = 's'
)

// number is the rule's number.
func (r *ruleBook) number(k *figure.Working) int {
	key := rule{k.Rule, k.Source}
	n, ok := r.numbers[key]
	if !ok {
		if r.numbers == nil {
			r.numbers = map[rule]int{}
		}
		n = len(r.rules)
		r.numbers[key] = n
		r.rules = append(r.rules, listedRule{key, key.short(), key.cited()})
	}
	return n
}

func appendMark(dst []byte, kind byte, n int) []byte {
	return append(strconv.AppendInt(append(dst, markByte, kind), int64(n), 10), markByte)
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
func (r *listedRule) pays(count int) bool {
	cite := 0
	if r.cite != "" {
		cite = len(r.cite) + len("<br><cite></cite>")
	}
	saved := len(r.words) + cite - len(r.brief) - linkCost
	return count > 2 && saved*count > len(r.words)+cite+2*linkCost
}

// fill writes the parts of one page with its rules and returns them with the
// list of those rules that are written out once; empty where there is none.
func (r *ruleBook) fill(parts []leafPart) ([]Part, template.HTML) {
	r.count(parts)
	w := paper{b: r.room[:0]}
	ends := make([]int, len(parts))
	var list []int
	for i, part := range parts {
		for _, html := range part.html {
			list = r.put(&w, html, list)
		}
		ends[i] = len(w.b)
	}
	r.room = w.b
	text, from := string(w.b), 0
	out := make([]Part, len(parts))
	for i, part := range parts {
		out[i] = Part{ID: part.part.id, Name: part.part.name, HTML: template.HTML(text[from:ends[i]])}
		from = ends[i]
	}
	return out, r.foot(list)
}

// count looks how often each rule stands on the page.
func (r *ruleBook) count(parts []leafPart) {
	r.counts = append(r.counts[:0], make([]ruleUse, len(r.rules))...)
	for _, part := range parts {
		for _, html := range part.html {
			eachMark(html, func(_, _ int, kind byte, n int) {
				if kind == ruleMark {
					r.counts[n].count++
				}
			})
		}
	}
}

// foot writes out the rules of a list.
func (r *ruleBook) foot(list []int) template.HTML {
	if len(list) == 0 {
		return ""
	}
	w := paper{}
	w.raw(`<ol class="rules">`)
	for i, n := range list {
		w.raw(`<li id="rule-`).int(i + 1).raw(`">`).say(r.rules[n].words)
		if c := r.rules[n].cite; c != "" {
			w.raw(" <cite>").say(c).raw("</cite>")
		}
		w.raw("</li>\n")
	}
	return w.raw("</ol>\n").done()
}

// put writes HTML with words in the places of its marks; rules that are written
// out once join the list where they are first met.
func (r *ruleBook) put(w *paper, html []byte, list []int) []int {
	from := 0
	eachMark(html, func(at, end int, kind byte, n int) {
		w.b = append(w.b, html[from:at]...)
		from = end
		use, rule := &r.counts[n], &r.rules[n]
		listed := rule.pays(use.count)
		switch {
		case kind == sourceMark && !listed:
			if rule.cite != "" {
				w.raw("<br><cite>").say(rule.cite).raw("</cite>")
			}
		case kind == ruleMark && !listed:
			w.say(rule.words)
		case kind == ruleMark:
			if use.listed == 0 {
				list = append(list, n)
				use.listed = len(list)
			}
			w.raw(`<a href="#rule-`).int(use.listed).raw(`">`).say(rule.brief).raw("</a>")
		}
	})
	w.b = append(w.b, html[from:]...)
	return list
}

// eachMark calls do for every mark of some HTML with where it begins and ends.
func eachMark(html []byte, do func(at, end int, kind byte, n int)) {
	for at := 0; ; {
		i := bytes.IndexByte(html[at:], markByte)
		if i < 0 {
			return
		}
		at += i
		n, end := 0, at+2
		for ; end < len(html) && html[end] >= '0' && html[end] <= '9'; end++ {
			n = 10*n + int(html[end]-'0')
		}
		if end >= len(html) || html[end] != markByte { // no mark of ours
			at++
			continue
		}
		end++
		do(at, end, html[at+1], n)
		at = end
	}
}

// A load is what a page would weigh with its marks filled, in bytes.
type load struct {
	book   *ruleBook
	counts []int // how often each rule stands on the page
	plain  int   // everything but the rules
}

func (l *load) reset() { l.counts, l.plain = l.counts[:0], 0 }

// add adds HTML to the page.
func (l *load) add(html []byte) {
	l.plain += len(html)
	eachMark(html, func(at, end int, kind byte, n int) {
		l.plain -= end - at
		if kind == ruleMark {
			l.stand(n, 1)
		}
	})
}

func (l *load) stand(n, times int) {
	for n >= len(l.counts) {
		l.counts = append(l.counts, 0)
	}
	l.counts[n] += times
}

// plus adds what another load has.
func (l *load) plus(more *load) {
	l.plain += more.plain
	for n, count := range more.counts {
		l.stand(n, count)
	}
}

func (l *load) bytes() int {
	sum := l.plain
	for n, count := range l.counts {
		if count == 0 {
			continue
		}
		r := &l.book.rules[n]
		full := len(r.words) + len(r.cite) + len("<br><cite></cite>")
		if r.pays(count) {
			sum += full + 2*linkCost + count*(len(r.brief)+linkCost)
		} else {
			sum += count * full
		}
	}
	return sum
}
