package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"hembook/internal/answer"
	"hembook/internal/record/amend"
	"hembook/internal/words"
)

// takenNames begin the names under private: of what was said in words.
var takenNames = map[answer.Kind]string{answer.Agreement: "agreed", answer.MockUp: "mock-up", answer.Proposal: "proposal", answer.Remarks: "after", answer.Repair: "repair"}

// saidWords are all words of an answer in one line.
func saidWords(m *answer.Answer) string {
	var says []string
	for _, s := range m.Said {
		says = append(says, s.Name+": "+s.Words)
	}
	if m.Note != "" {
		says = append(says, m.Note)
	}
	if m.By != "" {
		says = append(says, "("+m.By+")")
	}
	return strings.Join(says, "; ")
}

// takeWords keeps what was said in words with the garment's private words: what a wearer
// writes to the maker is nobody else's.
func takeWords(opt *options, m *answer.Answer, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	if err := on.change(func(text []byte) ([]byte, error) { return keepWords(text, m) }); err != nil {
		return err
	}
	on.tellKept(out, m)
	return nil
}

// change writes into the build's record.
func (on *buildAtHand) change(edit func(text []byte) ([]byte, error)) error {
	return amend.File{Folder: on.room.Dir, Path: on.file.Path}.Change(edit)
}

func takenName(m *answer.Answer) string { return takenNames[m.Kind] + " " + m.Day.String() }

// thenSaid stands between two answers of one day.
const thenSaid = "; then: "

// keepWords writes what was said under its day. A second answer of one day follows the
// first; the same words are written once.
func keepWords(text []byte, m *answer.Answer) ([]byte, error) {
	at, says := amend.At("private", takenName(m)), saidWords(m)
	if was, ok, err := amend.Read(text, at); err != nil {
		return nil, err
	} else if ok {
		if slices.Contains(strings.Split(was.Text(), thenSaid), says) {
			return text, nil
		}
		says = was.Text() + thenSaid + says
	}
	return amend.Set(text, at, amend.Words(says))
}

func (on *buildAtHand) tellKept(out io.Writer, m *answer.Answer) {
	fmt.Fprintf(out, "%s\nwritten under private: of %s, as %q\n", saidWords(m), on.build.Name.V, takenName(m))
}

// takeMockUp begins a round of fitting with what came back. What was said of a body stays
// private: the rounds are published.
func takeMockUp(opt *options, m *answer.Answer, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	round := len(on.build.Fittings) + 1
	for i := range on.build.Fittings {
		if f := &on.build.Fittings[i]; f.On.V == m.Day && f.From.V == "a mock-up by post" {
			return useErrorf("the mock-up of %s is a fitting of %s already", m.Day, on.build.Name.V)
		}
	}
	begun := amend.Group(amend.Field{Name: "day", Value: amend.Figure(m.Day.String())}, amend.Field{Name: "from", Value: amend.Words("a mock-up by post")},
		amend.Field{Name: "saw", Value: amend.Words("Tried on in calico by its wearer; the answers came back.")})
	if err := on.change(func(text []byte) ([]byte, error) {
		if text, err = amend.Append(text, amend.At("fittings"), begun); err != nil {
			return nil, err
		}
		return keepWords(text, m)
	}); err != nil {
		return err
	}
	on.tellKept(out, m)
	fmt.Fprintf(out, "the %s is started under fittings: write what you saw, and what you change\n", words.Fitting(round))
	return nil
}

// takeProposal writes into a round of fitting who agreed to it, and tells what was not
// agreed to: that stays the maker's to change.
func takeProposal(opt *options, m *answer.Answer, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	if m.Round > len(on.build.Fittings) {
		return useErrorf("%s has no %s: was the answer meant for another garment?", on.build.Name.V, words.Fitting(m.Round))
	}
	f := &on.build.Fittings[m.Round-1]
	if len(m.Said) > len(f.Change) {
		return useErrorf("the %s of %s has %s, the answer is about %d: did the record change since?", words.Fitting(m.Round), on.build.Name.V, words.Count(len(f.Change), "change"), len(m.Said))
	}
	var not []string
	for _, s := range m.Said {
		if i := int(s.Name[0] - 'a'); s.Words != "yes" && i < len(f.Change) {
			not = append(not, strings.ToUpper(s.Name)+", "+f.Change[i].Edge.V)
		}
	}
	all := len(not) == 0 && len(m.Said) == len(f.Change)
	if err := on.change(func(text []byte) ([]byte, error) {
		if all {
			if text, err = amend.Set(text, amend.At("fittings").Item(m.Round-1).Key("agreed"), amend.Words("both")); err != nil {
				return nil, err
			}
		}
		return keepWords(text, m)
	}); err != nil {
		return err
	}
	on.tellKept(out, m)
	switch {
	case all:
		fmt.Fprintf(out, "the %s is agreed by both\n", words.Fitting(m.Round))
	case len(not) > 0:
		fmt.Fprintf(out, "not agreed to: %s\n    take it out of the %s, or ask again\n", strings.Join(not, "; "), words.Fitting(m.Round))
	default:
		fmt.Fprintf(out, "%d of %s answered: ask for the rest; no answer is not a yes\n", len(m.Said), words.Count(len(f.Change), "change"))
	}
	return nil
}
