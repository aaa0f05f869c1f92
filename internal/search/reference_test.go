package search

import (
	"slices"
	"sort"
	"strings"
	"unicode/utf8"
)

// The slow, obvious search: it looks at every document for every query and
// knows nothing of files. The script must agree with it to the last place.
type reference struct {
	docs     []Document
	found    map[string][]posting // the documents of each term
	weights  map[string]int
	cut      map[string]bool
	synonyms [][]string
	titles   []map[string]bool
}

func newReference(docs []Document, synonyms [][]string) *reference {
	f := &reference{docs: docs, weights: map[string]int{}, cut: map[string]bool{}, synonyms: foldGroups(synonyms)}
	counts := make([]map[string]*count, len(docs))
	lengths, total := make([]int, len(docs)), 0
	for i, d := range docs {
		counts[i] = map[string]*count{}
		titles := map[string]bool{}
		of := func(t string) *count {
			if counts[i][t] == nil {
				counts[i][t] = &count{}
			}
			return counts[i][t]
		}
		for _, text := range []string{d.Text, d.More} {
			for _, t := range f.termsOf(text) {
				of(t).times++
			}
			words, _ := newReader().read(text)
			lengths[i] += len(words)
		}
		total += lengths[i]
		for _, a := range d.Answers {
			for _, t := range f.termsOf(a.Says) {
				of(t).times++
			}
			for _, t := range f.termsOf(a.To) {
				of(t).bonus = max(of(t).bonus, 300)
			}
			of("?" + a.To).times = 1
		}
		for _, t := range f.termsOf(d.Under) {
			of(t).bonus = max(of(t).bonus, 300)
		}
		for k, name := range append([]string{d.Title}, d.Names...) {
			words, _ := newReader().read(name)
			for _, t := range f.termsOf(name) {
				bonus := titleBonus(len(words))
				switch {
				case k > 0 && d.Under != "":
					bonus = partNameBonus(len(words))
				case k > 0:
					bonus = nameBonus(len(words))
				case d.Under != "":
					bonus = partTitleBonus(len(words))
				}
				of(t).bonus = max(of(t).bonus, bonus)
			}
			if k == 0 || d.Under == "" {
				titles[strings.Join(plain(content(words)), " ")] = true
			}
		}
		f.titles = append(f.titles, titles)
	}
	found := map[string][]posting{}
	for i := range docs {
		for t, c := range counts[i] {
			l := level(int(c.times), lengths[i], total/len(docs), int(c.bonus))
			if docs[i].Last {
				l /= 4
			}
			found[t] = append(found[t], posting{uint32(i), uint8(l)})
		}
	}
	for t, list := range found {
		f.weights[t] = weight(len(list), len(docs))
		if len(list) > len(docs)/2 && len(list) > headLength { // little words keep only their best
			f.cut[t] = true
			sort.Slice(list, func(a, b int) bool {
				return list[a].level > list[b].level || list[a].level == list[b].level && list[a].doc < list[b].doc
			})
			found[t] = list[:headLength]
		}
	}
	f.found = found
	return f
}

// ofIndex is the slow search over the postings of an index, for archives too
// large to be counted again.
func ofIndex(x *Index) *reference {
	f := &reference{docs: x.docs, weights: map[string]int{}, cut: map[string]bool{}, synonyms: x.synonyms, found: map[string][]posting{}}
	for _, t := range x.terms {
		if !t.beginning() {
			f.found[t.text], f.weights[t.text], f.cut[t.text] = t.found, t.weight, t.cut
		}
	}
	for _, d := range x.docs {
		titles := map[string]bool{}
		for _, name := range append([]string{d.Title}, d.Names...) {
			words, _ := newReader().read(name)
			titles[strings.Join(plain(content(words)), " ")] = true
		}
		f.titles = append(f.titles, titles)
	}
	return f
}

func plain(words []word) []string {
	var out []string
	for _, w := range words {
		out = append(out, w.term)
	}
	return out
}

// termsOf are the terms of a text: words, joined words, phrases with synonyms.
func (f *reference) termsOf(text string) []string {
	words, joins := newReader().read(text)
	terms := plain(words)
	out := slices.Clone(terms)
	for _, j := range joins {
		out = append(out, j.term)
	}
	seen := map[string]bool{}
	spaced := " " + strings.Join(terms, " ") + " "
	for _, g := range f.synonyms {
		for _, m := range g {
			if seen[m] || !strings.Contains(m, " ") || !strings.Contains(spaced, " "+m+" ") {
				continue
			}
			seen[m] = true
			n := strings.Count(m, " ") + 1
			for i := range words {
				if i+n <= len(words) && strings.Join(terms[i:i+n], " ") == m {
					for range countOf(f.synonyms, m) { // a phrase of two groups is met twice
						out = append(out, m)
					}
				}
			}
		}
	}
	return out
}

func countOf(groups [][]string, m string) int {
	n := 0
	for _, g := range groups {
		if slices.Contains(g, m) {
			n++
		}
	}
	return n
}

// An asked word with the terms that stand for it and what they are worth.
type askedWord struct {
	raw, term string
	open      bool
	sources   map[string]int
	weight    int
	exact     bool
}

func (f *reference) known(t string) bool { _, ok := f.weights[t]; return ok }

func (f *reference) ask(query string, loose bool) []askedWord {
	typed, joins := newReader().read(query)
	typed = slices.Clone(typed[:min(len(typed), 12)])
	last, _ := utf8.DecodeLastRuneInString(query)
	at, _ := lookedFor(typed)
	every := make([]askedWord, len(typed))
	for i, w := range typed {
		a := askedWord{raw: w.raw, term: w.term, sources: map[string]int{}}
		a.open = i == len(typed)-1 && inRun(last) && !joiner(last)
		every[i] = a
	}
	f.addSynonyms(every)
	var all []askedWord
	for _, i := range at {
		a := every[i]
		for _, j := range joins {
			if j.first <= i && i <= j.last {
				a.add(f, j.term, 130)
			}
		}
		a.exact = f.known(a.term)
		a.add(f, a.term, 100)
		if a.open && (len([]rune(a.raw)) > 1 || len(at) == 1) {
			for t := range f.weights {
				if !strings.Contains(t, " ") && beginsWith(t, a.raw) {
					a.add(f, t, 80)
				}
			}
		}
		all = append(all, a)
	}
	var out []askedWord
	for i, a := range all {
		again := slices.IndexFunc(all, func(b askedWord) bool { return a.raw == b.raw && a.term == b.term }) != i
		if again && !a.open {
			continue
		}
		f.addSlips(&a, loose)
		out = append(out, a)
	}
	if n := len(out); n > 1 && out[n-1].open && len([]rune(out[n-1].raw)) == 1 && !out[n-1].exact {
		out = out[:n-1]
	}
	return out
}

func (a *askedWord) add(f *reference, t string, worth int) {
	if f.known(t) {
		a.sources[t] = max(a.sources[t], worth)
	}
}

// beginsWith reports whether a term or its plural begins with what was typed.
func beginsWith(t, typed string) bool {
	return strings.HasPrefix(t, typed) || slices.ContainsFunc(forms(t), func(p string) bool {
		return strings.HasPrefix(p, typed) && p != typed && !strings.HasSuffix(typed, "s") && typed != p
	})
}

func (f *reference) addSynonyms(all []askedWord) {
	for i := range all {
		for j := i + 1; j <= len(all); j++ {
			var terms []string
			for _, a := range all[i:j] {
				terms = append(terms, a.term)
			}
			name := strings.Join(terms, " ")
			for _, g := range f.synonyms {
				if !slices.Contains(g, name) {
					continue
				}
				for k := i; k < j; k++ {
					for _, m := range g {
						if m != name {
							all[k].add(f, m, 95)
						} else if j-i > 1 {
							all[k].add(f, m, 120)
						}
					}
				}
			}
		}
	}
}

func (f *reference) addSlips(a *askedWord, loose bool) {
	for _, k := range kinOf(a.term, a.exact) {
		a.add(f, k, 70)
	}
	short := a.exact && utf8.RuneCountInString(a.raw) <= 4
	if !short && slips(a.raw) && slips(a.term) && (loose || len(a.sources) == 0) {
		half := string([]rune(a.term)[:len([]rune(a.term))/2])
		for t := range f.weights {
			if !slips(t) {
				continue
			}
			plural := strings.HasPrefix(t, half) && slices.ContainsFunc(forms(t), func(p string) bool {
				return strings.HasPrefix(p, half) && oneSlip(p, a.raw)
			})
			if plural || oneSlip(t, a.term) {
				a.add(f, t, 60)
			}
		}
	}
	if len(a.sources) == 0 && a.open && slips(a.raw) && len([]rune(a.raw)) >= 4 {
		r := []rune(a.raw)
		for t := range f.weights {
			if strings.Contains(t, " ") || !strings.HasPrefix(t, string(r[:len(r)/2])) {
				continue
			}
			for k := len(r) - 1; k <= len(r)+1; k++ {
				if b := []rune(t); oneSlip(string(b[:min(k, len(b))]), a.raw) {
					a.add(f, t, 40)
				}
			}
		}
	}
}

// oneSlip reports whether two words are one slip apart. Where one has two letters
// more, two at least were dropped, and the table need not be filled.
func oneSlip(x, y string) bool {
	more := utf8.RuneCountInString(x) - utf8.RuneCountInString(y)
	return -1 <= more && more <= 1 && distance(x, y) == 1
}

// distance counts letters dropped, added, replaced and neighbours swapped
// (optimal string alignment), by the table.
func distance(x, y string) int {
	a, b := []rune(x), []rune(y)
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range b {
		d[0][j+1] = j + 1
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

// rank orders the documents that have every word, or with some, any word.
func (f *reference) rank(words []askedWord, query string, allowed func(int) bool, some bool) []int {
	name, asks := titleAndQuestion(query)
	needed := make([]bool, len(words))
	for i := range words {
		w := &words[i]
		w.weight = 90
		for t := range w.sources {
			w.weight = min(w.weight, f.weights[t])
		}
		if w.exact {
			w.weight = f.weights[w.term]
		}
		needed[i] = !some && !(w.exact && f.cut[w.term])
	}
	strict := slices.Contains(needed, true)
	best := make([]map[int]int, len(words))
	for i, w := range words {
		best[i] = map[int]int{}
		for t, worth := range w.sources {
			for _, p := range f.found[t] {
				best[i][int(p.doc)] = max(best[i][int(p.doc)], worth*levelValue(int(p.level)))
			}
		}
	}
	scores := map[int]int{}
	var out []int
	for d := range f.docs {
		score, all, any := 0, true, len(words) == 0
		for i, w := range words {
			score += w.weight * best[i][d]
			any = any || best[i][d] > 0
			all = all && (best[i][d] > 0 || !needed[i])
		}
		if f.titles[d][name] && name != "" {
			score += 1e12
		}
		if asks != "" && slices.ContainsFunc(f.found["?"+asks], func(p posting) bool { return int(p.doc) == d }) {
			score += 2e12
		}
		if any && (all || !strict) && (allowed == nil || allowed(d)) {
			scores[d] = score
			out = append(out, d)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return scores[out[i]] > scores[out[j]] })
	return out
}

// answer is what the script's answer shows first.
func (f *reference) answer(query string, need int, allowed func(int) bool) []int {
	words := f.ask(query, false)
	if len(words) == 0 && allowed == nil {
		return nil
	}
	unknown := func(w askedWord) bool { return len(w.sources) == 0 }
	var out []int
	if !slices.ContainsFunc(words, unknown) {
		out = f.rank(words, query, allowed, false)
	}
	name, _ := titleAndQuestion(query)
	asTitled := len(out) > 0 && name != "" && f.titles[out[0]][name]
	if len(words) > 0 && len(out) < min(need, 10) && !asTitled {
		words = f.ask(query, true)
		if !slices.ContainsFunc(words, unknown) {
			for _, d := range f.rank(words, query, allowed, false) {
				if !slices.Contains(out, d) {
					out = append(out, d)
				}
			}
		}
		if len(out) == 0 {
			words = slices.DeleteFunc(words, unknown)
			if len(words) > 0 {
				out = f.rank(words, query, allowed, true)
			}
		}
	}
	return out[:min(len(out), need)]
}

// forms are the ways in which a term may be written that singular takes back
// to it, the term itself apart.
func forms(term string) []string {
	var out []string
	try := func(f string) {
		if singular(f) == term {
			out = append(out, f)
		}
	}
	try(term + "s")
	try(term + "es")
	if stem, ok := strings.CutSuffix(term, "y"); ok {
		try(stem + "ies")
		try(stem + "ie")
	}
	return out
}

// lookedFor are the places of the words of a query that are looked for, and what
// figure it asks for, if any.
func lookedFor(typed []word) (at []int, asks string) {
	if to, rest := questionOf(typed); to != "" {
		return rest, to
	}
	for i, w := range typed {
		if !slices.Contains(little, w.term) {
			at = append(at, i)
		}
	}
	if at == nil {
		for i := range typed {
			at = append(at, i)
		}
	}
	return at, ""
}

// titleAndQuestion is what a query would be a title by, and what it asks for.
func titleAndQuestion(query string) (name, asks string) {
	typed, _ := newReader().read(query)
	at, asks := lookedFor(typed)
	var terms []string
	for _, k := range at {
		terms = append(terms, typed[k].term)
	}
	return strings.Join(terms, " "), asks
}

// What asks for what, written out as whole questions: the words that must stand one
// after the other, whatever is between them.
var askingFor = [][]string{
	{"time", "how", "long", "take|took|taken"}, {"time", "how", "many|much", "hour|minute|time"}, {"time", "wie", "lange"},
	{"length", "how", "long"}, {"size", "how", "wide|big|large"}, {"size", "what|which", "size"},
	{"cloth", "how", "much|many", "cloth|fabric|material|metre|meter|yard|yardage"}, {"cloth", "wie", "viel", "stoff"},
	{"weight", "how", "heavy"}, {"weight", "how|what", "much", "weigh|weight"}, {"cost", "how|what", "much", "cost"},
	{"needle", "what|which", "needle"}, {"stitch", "stitch", "length"},
	{"ease", "how", "much", "room"}, {"ease", "ease"},
	{"care", "can|how|may", "be|to", "washed|wash|ironed|iron|bleached|cleaned|laundered"},
}

func questionOf(typed []word) (to string, rest []int) {
	for _, q := range askingFor {
		used, next := map[int]bool{}, 1
		for i, w := range typed {
			if next == len(q) {
				break
			}
			one := strings.Split(q[next], "|")
			if !slices.Contains(one, w.raw) && !slices.Contains(one, w.term) {
				continue
			}
			next++
			used[i] = !slices.Contains(strings.Split("needle stitch ease washed wash ironed iron bleached cleaned laundered", " "), w.raw)
		}
		if next < len(q) {
			continue
		}
		rest = nil
		for i, w := range typed {
			if !used[i] && !slices.Contains(little, w.term) {
				rest = append(rest, i)
			}
		}
		if len(rest) > 0 {
			return q[0], rest
		}
	}
	return "", nil
}

// kinOf are the other words of a word's stem, by trying all that end so.
func kinOf(term string, known bool) []string {
	for _, c := range term {
		if c < 'a' || c > 'z' {
			return nil
		}
	}
	if len(term) < 3 {
		return nil
	}
	stems := []string{term}
	for _, end := range []string{"ing", "ed", "er"} {
		stem, ok := strings.CutSuffix(term, end)
		if !ok || len(stem) < 3 || known && end == "er" {
			continue
		}
		stems = append(stems, stem, stem+"e")
		if n := len(stem); stem[n-1] == stem[n-2] && !strings.ContainsRune("aeiou", rune(stem[n-1])) {
			stems = append(stems, stem[:n-1])
		}
	}
	var out []string
	for _, s := range stems {
		out = append(out, s)
		for _, end := range []string{"ing", "ed", "er"} {
			if short, ok := strings.CutSuffix(s, "e"); ok {
				out = append(out, short+end)
			} else {
				out = append(out, s+end, s+s[len(s)-1:]+end)
			}
		}
	}
	return slices.DeleteFunc(out, func(w string) bool { return w == term || slices.Contains(little, w) })
}
