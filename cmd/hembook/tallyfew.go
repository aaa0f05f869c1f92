package main

import (
	"slices"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// mostLines is how many lines tell of a garment where nothing was asked for.
const mostLines = 15

// fewBlocks are the figures that matter, one line each: how large it is,
// whether it fits together, what to buy and to have ready, how long it takes
// and what it costs.
func fewBlocks(d *document.Draft, bf record.BuildFile, cut *cutting.Cutting) {
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	few := few{draft: d}
	few.sizes(cut)
	few.line(say.Of("hembook.sewn-together"), document.Say(garment.Outcome(cut.Garment.Compared())))
	if openings := cut.Garment.OpeningWords(); openings != "" {
		few.line("openings", document.Say(openings))
	}
	if loose := cut.Garment.LooseWords(); loose != "" {
		few.line(say.Of("hembook.not-joined"), document.Say(loose))
	}
	few.cloths(cut)
	few.rest(cut)
	few.facts.Items = few.facts.Items[:min(len(few.facts.Items), mostLines)]
	d.Add(few.facts)
	d.Say(document.Say(say.Of("hembook.more-hembook-tally-word-such-as-or", bf.Slug, strings.Join(groupsOf(shownFigures(cut.Garment)), ", "))))
}

// few gathers lines.
type few struct {
	draft *document.Draft
	facts document.Facts
}

// line adds a line; none where its first figure is not set.
func (f *few) line(term string, says ...document.Inline) {
	if r := &says[0]; r.Figure != nil && r.Figure.ID == "" {
		return
	}
	f.facts.Items = append(f.facts.Items, document.Fact{Term: term, Says: []document.Phrase{f.draft.Phrase(says...)}})
}

// sizes are what it measures, with the ease where that is known.
func (f *few) sizes(cut *cutting.Cutting) {
	const most = 4
	levels := cut.Garment.Fit.Levels
	for _, l := range levels[:min(len(levels), most)] {
		says := []document.Inline{document.Of(&l.Finished)}
		if l.Ease.ID != "" && l.Ease.Value.Known() {
			says = append(says, document.Say(say.Of("hembook.ease")), document.Of(&l.Ease))
		}
		f.line(strings.ToLower(l.Title), says...)
	}
	lengths := cut.Garment.Fit.Lengths
	for _, l := range lengths[:min(len(lengths), 2)] {
		f.line(l.Name, document.Of(&l.Finished))
	}
}

// cloths are what to buy of each, and whether the shelf has it.
func (f *few) cloths(cut *cutting.Cutting) {
	const most = 3
	n := 0
	for _, c := range cut.Garment.Cloths {
		if !c.IsCut() || n == most {
			continue
		}
		n++
		says := []document.Inline{document.Of(&c.Needed)}
		for _, l := range cut.Lays {
			if l.Part == c.Part && l.OnHand.ID != "" && l.OnHand.Value.Known() {
				word := " over)"
				if !l.Enough {
					word = " short)"
				}
				says = append(says, document.Say(say.Of("hembook.on-the-shelf-2")), document.Of(&l.OnHand), document.Say(word))
			}
		}
		f.line(say.Of("hembook.buy", c.Part), says...)
	}
}

// rest is thread, weight, time and money.
func (f *few) rest(cut *cutting.Cutting) {
	g := cut.Garment
	for i, t := range g.Threads {
		if i == 2 {
			break
		}
		term := "thread"
		if t.Name != term {
			term += " " + t.Name
		}
		f.line(term, document.Of(&t.Total), document.Say(say.Of("hembook.reels")), document.Of(&t.Reels))
	}
	weight, lack := g.Totals.WeightBeside()
	if lack != "" {
		lack = " " + lack
	}
	f.line("weight", document.Of(weight), document.Say(lack))
	if g.Hours.ID != "" { // nothing is noted yet
		f.line(say.Of("hembook.hours-planned"), document.Of(&g.Hours))
	} else {
		f.line("hours", document.Of(&g.Spent))
	}
	for _, p := range g.PrivateFigures() {
		money := p.Open(record.ToTheMaker)
		switch money.ID {
		case "cost.total", "cost.price", "cost.left":
			f.line(money.Title+" (private)", document.Of(&money))
		}
	}
}

// everything is the word that asks for all figures.
const everything = "all"

// wanted are the figures that words ask for, each by the name of a group, of
// what they are of, of the figure, or by its ID.
func wanted(list []shown, asked []string) ([]shown, error) {
	if slices.Contains(asked, everything) {
		return list, nil
	}
	var out []shown
	found := make([]bool, len(asked))
	for _, s := range list {
		keep := false
		for i, word := range asked {
			if answers(&s.Figure, word) {
				keep, found[i] = true, true
			}
		}
		if keep {
			out = append(out, s)
		}
	}
	for i, word := range asked {
		if !found[i] {
			return nil, misused(say.Of("hembook.no-figure-is-called", say.Quoted(word), nearGroup(list, word)))
		}
	}
	return out, nil
}

// answers reports whether a figure is one that a word asks for.
func answers(f *figure.Figure, word string) bool {
	if f.ID == word || strings.HasPrefix(f.ID, word+".") {
		return true
	}
	word = words.Stem(word)
	return words.Stem(groupOf(f.ID)) == word || hasWords(f.Of, word) || hasWords(f.Title, word)
}

// hasWords reports whether whole words of a name are those asked for.
func hasWords(name, word string) bool {
	plain := func(s string) string {
		parts := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" .,:-", r) })
		for i := range parts {
			parts[i] = words.Stem(parts[i])
		}
		return " " + strings.Join(parts, " ") + " "
	}
	return strings.Contains(plain(name), plain(word))
}

func groupOf(id string) string {
	name, _, _ := strings.Cut(id, ".")
	return name
}

// groupsOf names the groups of figures in their order.
func groupsOf(list []shown) []string {
	var out []string
	for _, s := range list {
		if name := groupOf(s.ID); !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func nearGroup(list []shown, word string) string {
	return meant.Among(word, groupsOf(list), say.Of("hembook.one-of"))
}
