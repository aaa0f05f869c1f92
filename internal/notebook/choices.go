package notebook

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/say"
)

// mostValues is how many values a choice offers; the theme's style sheet of the list
// of garments has a rule for each of them.
const mostValues = 10

// A Choice is one way to look for garments on their list, as by cloth. A page without
// scripts can follow it: each card has the keys of its values as classes, and the theme
// hides those without the key that is ticked.
type Choice struct {
	Key    string // one letter
	Name   string
	Any    string // the words for no choice
	Values []ChoiceValue
}

// A ChoiceValue is a value that some garments of the page have and others do not.
type ChoiceValue struct {
	Key   string // the letter of its choice and a number from 1
	Name  string
	Count int // garments that have it
}

// A Card is a garment on their list.
type Card struct {
	Build *BuildLine
	Keys  string // of the values it has, between spaces
	Hours string // clocked, as "7 h 17 min so far"; empty where nothing was
	Sewn  string // length of all rows; empty where it is not known
	Cloth string // the one it is chiefly cut from; empty where it has no page
}

// A CardGroup is the cards of garments that are equally far on.
type CardGroup struct {
	Name  string
	Cards []*Card
}

// groupNames are how far on garments are, in the order of their list.
var groupNames = []string{say.Of("notebook.on-the-table"), say.Of("notebook.finished"), say.Of("notebook.set-aside")}

// group is the place of a garment among groupNames.
func (s *BuildLine) group() int {
	switch s.State {
	case "packed", "sent":
		return 1
	case "set aside":
		return 2
	}
	return 0
}

// grouped sorts garments by how far on they are, each group as it was.
func grouped(builds []*BuildLine) []*BuildLine {
	out := slices.Clone(builds)
	slices.SortStableFunc(out, func(x, y *BuildLine) int { return cmp.Compare(x.group(), y.group()) })
	return out
}

// cards makes the cards of one page, in groups, and what can be chosen among them.
func (b *Book) cards(builds []*BuildLine) (groups []CardGroup, choices []Choice) {
	cards := make([]*Card, len(builds))
	for i, line := range builds {
		cards[i] = b.card(line)
		if name := groupNames[line.group()]; len(groups) == 0 || groups[len(groups)-1].Name != name {
			groups = append(groups, CardGroup{Name: name})
		}
		last := &groups[len(groups)-1]
		last.Cards = append(last.Cards, cards[i])
	}
	for _, way := range b.waysToChoose() {
		if c := way.among(cards); len(c.Values) > 0 {
			choices = append(choices, c)
		}
	}
	return groups, choices
}

func (b *Book) card(line *BuildLine) *Card {
	c, style := &Card{Build: line}, b.Style.One()
	if line.Spent.Number > 0 {
		c.Hours = style.Quantity(line.Spent)
		if line.group() != 1 {
			c.Hours += say.Of("notebook.so-far")
		}
	}
	if line.Sewn.Number > 0 {
		c.Sewn = style.Quantity(line.Sewn)
	}
	if names := b.clothNames(line); len(names) > 0 {
		c.Cloth = names[0]
	}
	return c
}

// clothNames are the names of a garment's cloths that have a page, the chief one first.
func (b *Book) clothNames(line *BuildLine) (names []string) {
	for _, c := range line.Cloths {
		if link, ok := b.Cloth(c.Slug); ok && !slices.Contains(names, link.Name) {
			names = append(names, link.Name)
		}
	}
	return names
}

// A wayToChoose is a choice before its garments are looked at.
type wayToChoose struct {
	Choice
	of     func(*BuildLine) []string // the values of a garment
	latest bool                      // sorted from the largest down, as years are
}

func (b *Book) waysToChoose() []wayToChoose {
	return []wayToChoose{
		{Choice{Key: "s", Name: say.Of("notebook.how-far-it-is"), Any: "all"}, func(l *BuildLine) []string { return []string{strings.ToLower(groupNames[l.group()])} }, false},
		{Choice{Key: "g", Name: say.Of("notebook.garment"), Any: "any"}, func(l *BuildLine) []string { return []string{l.Garment} }, false},
		{Choice{Key: "y", Name: say.Of("notebook.begun"), Any: say.Of("notebook.any-year")}, yearOf, true},
		{Choice{Key: "c", Name: say.Of("notebook.cloth"), Any: "any"}, b.clothNames, false},
		{Choice{Key: "t", Name: say.Of("notebook.technique"), Any: "any"}, b.techniqueNames, false},
	}
}

func yearOf(l *BuildLine) []string {
	if l.Year() == 0 {
		return nil
	}
	return []string{strconv.Itoa(l.Year())}
}

func (b *Book) techniqueNames(l *BuildLine) (names []string) {
	for _, t := range l.Techniques {
		if link, ok := b.Technique(t.Slug); ok {
			names = append(names, link.Name)
		}
	}
	return names
}

// among counts the values of some cards, keeps those that most have, and gives each
// card their keys. A value that all have is no choice.
func (w wayToChoose) among(cards []*Card) Choice {
	count := map[string]int{}
	for _, c := range cards {
		for _, v := range w.of(c.Build) {
			count[v]++
		}
	}
	c := w.Choice
	for name, n := range count {
		if name != "" && n < len(cards) {
			c.Values = append(c.Values, ChoiceValue{Name: name, Count: n})
		}
	}
	slices.SortFunc(c.Values, func(x, y ChoiceValue) int {
		if w.latest {
			return cmp.Compare(y.Name, x.Name)
		}
		return cmp.Or(cmp.Compare(y.Count, x.Count), cmp.Compare(x.Name, y.Name))
	})
	c.Values = c.Values[:min(mostValues, len(c.Values))]
	for i := range c.Values {
		c.Values[i].Key = c.Key + strconv.Itoa(i+1)
	}
	for _, one := range cards {
		for _, v := range w.of(one.Build) {
			if i := slices.IndexFunc(c.Values, func(have ChoiceValue) bool { return have.Name == v }); i >= 0 {
				one.Keys = strings.TrimSpace(one.Keys + " " + c.Values[i].Key)
			}
		}
	}
	return c
}
