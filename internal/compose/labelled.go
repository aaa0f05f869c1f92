package compose

import (
	"strings"

	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A LabelTeller has the words of a label in a document's language.
type LabelTeller interface {
	Parts(names []string) string          // what parts of the garment are called: shell and lining
	Share(f *label.FibrePart) string      // a fibre with its percentage
	Care(o *trade.CareOption) string      // what a care symbol means
	Joined(words []string) string         // listed with commas
	NotCounted(gap *label.CareGap) string // a layer of which nobody knows what it stands
}

// A LabelLine is a line of what a label says. Page, sheet and terminal each choose
// what else stands beside it.
type LabelLine struct {
	Term     string // the parts that are of these fibres, or the group of the symbols
	Words    string
	Unknown  string // why it is not known; the rest is then empty but for its term
	By       string // which layers set it, or why it is stated
	Signs    []trade.CareOption
	Workings []*figure.Working
}

// FibreLines state the fibres, one line for all parts that are of the same.
func FibreLines(tell LabelTeller, c *label.Content) []LabelLine {
	var out []LabelLine
	for i := range c.Components {
		k := &c.Components[i]
		line := LabelLine{Term: tell.Parts(k.Parts), Words: Fibres(tell, k.Fibres), By: k.Why}
		for n := range k.Fibres {
			line.Workings = append(line.Workings, &k.Fibres[n].Percent.Working)
		}
		out = append(out, line)
	}
	for i := range c.Unknown {
		out = append(out, LabelLine{Term: tell.Parts([]string{c.Unknown[i].Part}), Unknown: c.Unknown[i].Why})
	}
	return out
}

// Fibres states fibres as a label does: 60 % wool, 40 % silk.
func Fibres(tell LabelTeller, list []label.FibrePart) string {
	shares := make([]string, len(list))
	for i := range list {
		shares[i] = tell.Share(&list[i])
	}
	return tell.Joined(shares)
}

// CareLines say what the garment stands, line by line as on its label, and then the
// layers that are not counted. Of a garment with a cloth of which nobody knows what it
// stands they say which alone: what the rest stands would mislead.
func CareLines(tell LabelTeller, c *label.Care) []LabelLine {
	var out, gaps []LabelLine
	for i := range c.Unknown {
		if gap := &c.Unknown[i]; gap.Cloth == c.Hidden() {
			gaps = append(gaps, LabelLine{Term: tell.NotCounted(gap), Unknown: gap.Why})
		}
	}
	if c.Hidden() {
		return gaps
	}
	for i := range c.Axes {
		a := &c.Axes[i]
		words := make([]string, len(a.Options))
		for n := range a.Options {
			words[n] = tell.Care(&a.Options[n])
		}
		out = append(out, LabelLine{Term: a.Title, Words: tell.Joined(words), By: setBy(c, a), Signs: a.Options, Workings: []*figure.Working{&a.Working}})
	}
	return append(out, gaps...)
}

// setBy says which layers decide a group of the label.
func setBy(c *label.Care, a *label.CareAxis) string {
	switch {
	case a.Chosen:
		return say.Of("compose.chosen-by-the-maker", c.Because)
	case len(a.SetBy) == len(c.Layers):
		return say.Of("compose.all-layers")
	}
	return say.Of("compose.set-by", strings.Join(a.SetBy, ", "))
}

// A PlainLabel tells in the words of the notebook's pages, and of the terminal.
type PlainLabel struct{ measure.Style }

func (PlainLabel) Parts(names []string) string          { return strings.Join(names, ", ") }
func (PlainLabel) Care(o *trade.CareOption) string      { return o.Words }
func (PlainLabel) Joined(words []string) string         { return strings.Join(words, ", ") }
func (PlainLabel) NotCounted(gap *label.CareGap) string { return gap.Name }

// Share names a fibre on both sides of the ocean, where it has two names.
func (p PlainLabel) Share(f *label.FibrePart) string {
	words := p.Number(f.Label, 1) + "\u00a0% " + f.Name
	switch {
	case f.Other || f.Fibre.US == "" || f.Fibre.US == f.Fibre.Name:
		return words
	case f.Name == f.Fibre.Name:
		return words + " (" + f.Fibre.US + ")"
	}
	return words + " (" + f.Fibre.Name + ")"
}
