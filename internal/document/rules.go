package document

import (
	"html/template"
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

// Rules numbers the rules of a document. While it is written, which of them a
// page needs often is not known: where a rule will stand is left open as a gap,
// and Fill puts words there.
type Rules struct {
	numbers map[rule]int
	list    []listedRule
	placed  map[string]bool // figures that have their address on the page that is filled
	room    []byte          // for the page that is filled
	counts  []ruleUse
}

// Reset forgets the rules of the document before.
func (r *Rules) Reset() {
	clear(r.numbers)
	r.list = r.list[:0]
}

// A listedRule is a rule with what is asked of it at every gap.
type listedRule struct {
	rule
	brief string // its words where it is written out elsewhere
	cite  string // its source as a working shows it; empty where there is none to name
}

// number is the rule's number.
func (r *Rules) number(k *figure.Working) int {
	key := rule{k.Rule, k.Source}
	n, ok := r.numbers[key]
	if !ok {
		if r.numbers == nil {
			r.numbers = map[rule]int{}
		}
		n = len(r.list)
		r.numbers[key] = n
		r.list = append(r.list, listedRule{key, key.short(), cited(k.Source)})
	}
	return n
}

// short is what a working says of a rule that is written out elsewhere: its
// words up to the first stop.
func (r rule) short() string {
	if i := strings.IndexAny(r.words, ":;,("); i > 3 {
		return strings.TrimSpace(r.words[:i])
	}
	return r.words
}

// cited is a source as a working shows it; empty where there is none to name.
func cited(s trade.Source) string {
	if s == figure.Derived || s == figure.Recorded {
		return ""
	}
	return s.Shown()
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

// A gap is left open where a stretch was written before all was known of the
// page that it stands on: what a rule says, its source, or the page on which an
// anchor came to stand.
type gap struct {
	at     int // in the stretch
	kind   gapKind
	rule   int
	anchor string
}

type gapKind uint8

const (
	ruleGap gapKind = iota
	sourceGap
	pageGap
	placeGap // the address of a figure, which it has where it first stands on a page
	leadGap  // where a link to a figure's working begins, if one is opened anywhere
	endGap   // where that link ends
)

// Fill sets the parts of one page, each of some stretches, and returns them with
// the list of those rules that are written out once; empty where there is none.
// way leads from the page to the one on which an anchor stands; "" where that
// is the same, and false where it stands on none.
func (r *Rules) Fill(parts [][]Chunk, way func(anchor string) (page string, stands bool)) ([]template.HTML, template.HTML) {
	r.counts = append(r.counts[:0], make([]ruleUse, len(r.list))...)
	if r.placed == nil {
		r.placed = map[string]bool{}
	}
	clear(r.placed)
	for _, part := range parts {
		for i := range part {
			for _, g := range part[i].gaps {
				if g.kind == ruleGap {
					r.counts[g.rule].count++
				}
			}
		}
	}
	h := HTML{Out: r.room[:0]}
	ends := make([]int, len(parts))
	var list []int
	for i, part := range parts {
		for k := range part {
			list = r.fill(&h, &part[k], list, way)
		}
		ends[i] = len(h.Out)
	}
	r.room = h.Out
	text, from := string(h.Out), 0
	out := make([]template.HTML, len(parts))
	for i, end := range ends {
		out[i], from = template.HTML(text[from:end]), end
	}
	return out, r.foot(list)
}

// fill writes a stretch with words in its gaps; rules that are written out once
// join the list where they are first met.
func (r *Rules) fill(h *HTML, s *Chunk, list []int, way func(string) (string, bool)) []int {
	from := 0
	for _, g := range s.gaps {
		h.raw(s.HTML[from:g.at])
		from = g.at
		switch g.kind {
		case pageGap:
			page, _ := way(g.anchor)
			h.Say(page)
			continue
		case leadGap, endGap:
			if page, stands := way(g.anchor); stands && g.kind == leadGap {
				h.Put(`<a href="`).Say(page).Put("#").Say(g.anchor).Put(`">`)
			} else if stands {
				h.Put("</a>")
			}
			continue
		case placeGap:
			if !r.placed[g.anchor] {
				r.placed[g.anchor] = true
				h.attribute("id", g.anchor)
			}
			continue
		}
		use, rule := &r.counts[g.rule], &r.list[g.rule]
		listed := rule.pays(use.count)
		switch {
		case g.kind == sourceGap && !listed:
			if rule.cite != "" {
				h.Put("<br><cite>").Say(rule.cite).Put("</cite>")
			}
		case g.kind == ruleGap && !listed:
			h.Say(rule.words)
		case g.kind == ruleGap:
			if use.listed == 0 {
				list = append(list, g.rule)
				use.listed = len(list)
			}
			h.Put(`<a href="#rule-`).Int(use.listed).Put(`">`).Say(rule.brief).Put("</a>")
		}
	}
	h.raw(s.HTML[from:])
	return list
}

// foot writes out the rules of a list.
func (r *Rules) foot(list []int) template.HTML {
	if len(list) == 0 {
		return ""
	}
	h := HTML{}
	h.Put(`<ol class="rules">`)
	for i, n := range list {
		h.Put(`<li id="rule-`).Int(i + 1).Put(`">`).Say(r.list[n].words)
		if c := r.list[n].cite; c != "" {
			h.Put(" <cite>").Say(c).Put("</cite>")
		}
		h.Put("</li>\n")
	}
	return template.HTML(h.Put("</ol>\n").Out)
}

// A Load is what a page would weigh once it is filled.
type Load struct {
	Rules  *Rules
	counts []int // how often each rule stands on the page
	plain  int   // bytes of everything but the rules
}

// Reset empties the page.
func (l *Load) Reset() { l.counts, l.plain = l.counts[:0], 0 }

// Add adds a stretch to the page.
func (l *Load) Add(s *Chunk) {
	l.plain += len(s.HTML)
	for _, g := range s.gaps {
		if g.kind == ruleGap {
			l.stand(g.rule, 1)
		}
	}
}

func (l *Load) stand(n, times int) {
	for n >= len(l.counts) {
		l.counts = append(l.counts, 0)
	}
	l.counts[n] += times
}

// Plus adds what another load has.
func (l *Load) Plus(more *Load) {
	l.plain += more.plain
	for n, count := range more.counts {
		l.stand(n, count)
	}
}

// Bytes is what the page would weigh.
func (l *Load) Bytes() int {
	sum := l.plain
	for n, count := range l.counts {
		if count == 0 {
			continue
		}
		r := &l.Rules.list[n]
		full := len(r.words) + len(r.cite) + len("<br><cite></cite>")
		if r.pays(count) {
			sum += full + 2*linkCost + count*(len(r.brief)+linkCost)
		} else {
			sum += count * full
		}
	}
	return sum
}
