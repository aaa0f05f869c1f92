package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"hembook/internal/answer"
	"hembook/internal/bench"
	"hembook/internal/record/amend"
	"hembook/internal/say"
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
func takeWords(opt *options, m *answer.Answer, photos []string, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	return on.take(m, photos, out, func(text []byte) ([]byte, error) { return text, nil })
}

// take keeps an answer's words, and the photographs that came with it, with the garment's
// private words, and writes what else follows from it. Where it cannot be written, none of
// the photographs stays.
func (on *buildAtHand) take(m *answer.Answer, photos []string, out io.Writer, also func(text []byte) ([]byte, error)) error {
	kept, err := on.keepPhotos(m, photos)
	if err != nil {
		return err
	}
	var names []string
	for _, k := range kept {
		defer k.Settled()
		names = append(names, k.Name)
	}
	says := saidWords(m)
	if len(names) > 0 {
		says += say.Of("hembook.photographs", strings.Join(names, ", "))
	}
	if err := on.change(func(text []byte) ([]byte, error) {
		text, err := also(text)
		if err != nil {
			return nil, err
		}
		return keepWords(text, m, says)
	}); err != nil {
		return errors.Join(err, on.unkeep(kept))
	}
	fmt.Fprintln(out, say.Of("hembook.written-under-private-of-as", says, on.build.Name.V, say.Quoted(takenName(m))))
	if len(names) > 0 {
		fmt.Fprintln(out, say.Of("hembook.place-and-camera-are-taken-out-of"))
	}
	return nil
}

// keepPhotos keeps the photographs that came in an answer and with it beside the record.
func (on *buildAtHand) keepPhotos(m *answer.Answer, files []string) (kept []*bench.KeptPhoto, err error) {
	keep := func(name string, photo bench.Photo, err error) error {
		if err == nil {
			var one *bench.KeptPhoto
			if one, err = photo.Keep(on.room.Dir, path.Dir(on.file.Path), m.Day.String(), takenNames[m.Kind]); err == nil {
				kept = append(kept, one)
				return nil
			}
		}
		return errors.Join(misused(say.Of("hembook.cannot-be-taken", name, plainError(err))), on.unkeep(kept))
	}
	for i, data := range m.Photos {
		photo, err := bench.ReadPhoto(bytes.NewReader(data))
		if err := keep(say.Of("hembook.photograph-of-the-answer", i+1), photo, err); err != nil {
			return nil, err
		}
	}
	for _, file := range files {
		photo, err := readPhoto(file)
		if err := keep(file, photo, err); err != nil {
			return nil, err
		}
	}
	return kept, nil
}

// unkeep takes photographs away that no record names.
func (on *buildAtHand) unkeep(kept []*bench.KeptPhoto) (err error) {
	for _, k := range kept {
		err = errors.Join(err, bench.RemovePhoto(on.room.Dir, path.Dir(on.file.Path), k.Name))
		k.Settled()
	}
	return err
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
func keepWords(text []byte, m *answer.Answer, says string) ([]byte, error) {
	at := amend.At("private", takenName(m))
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

// takeMockUp begins a round of fitting with what came back. What was said of a body stays
// private: the rounds are published.
func takeMockUp(opt *options, m *answer.Answer, photos []string, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	round := len(on.build.Fittings) + 1
	for i := range on.build.Fittings {
		if f := &on.build.Fittings[i]; f.On.V == m.Day && f.From.V == "a mock-up by post" {
			return misused(say.Of("hembook.the-mock-up-of-is-a-fitting", m.Day, on.build.Name.V))
		}
	}
	begun := amend.Group(amend.Field{Name: "day", Value: amend.Figure(m.Day.String())}, amend.Field{Name: "from", Value: amend.Words("a mock-up by post")},
		amend.Field{Name: "saw", Value: amend.Words("Tried on in calico by its wearer; the answers came back.")})
	if err := on.take(m, photos, out, func(text []byte) ([]byte, error) { return amend.Append(text, amend.At("fittings"), begun) }); err != nil {
		return err
	}
	fmt.Fprintln(out, say.Of("hembook.the-is-started-under-fittings-write-what", words.Fitting(round)))
	return nil
}

// takeProposal writes into a round of fitting who agreed to it, and tells what was not
// agreed to: that stays the maker's to change.
func takeProposal(opt *options, m *answer.Answer, photos []string, out io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	if m.Round > len(on.build.Fittings) {
		return misused(say.Of("hembook.has-no-was-the-answer-meant-for", on.build.Name.V, words.Fitting(m.Round)))
	}
	f := &on.build.Fittings[m.Round-1]
	if len(m.Said) > len(f.Change) {
		return misused(say.Of("hembook.the-of-has-the-answer-is-about", words.Fitting(m.Round), on.build.Name.V, words.Count(len(f.Change), "change"), len(m.Said)))
	}
	var not []string
	for _, s := range m.Said {
		if i := int(s.Name[0] - 'a'); s.Words != "yes" && i < len(f.Change) {
			not = append(not, strings.ToUpper(s.Name)+", "+f.Change[i].Edge.V)
		}
	}
	all := len(not) == 0 && len(m.Said) == len(f.Change)
	if err := on.take(m, photos, out, func(text []byte) ([]byte, error) {
		if !all {
			return text, nil
		}
		return amend.Set(text, amend.At("fittings").Item(m.Round-1).Key("agreed"), amend.Words("both"))
	}); err != nil {
		return err
	}
	switch {
	case all:
		fmt.Fprintln(out, say.Of("hembook.the-is-agreed-by-both", words.Fitting(m.Round)))
	case len(not) > 0:
		fmt.Fprintln(out, say.Of("hembook.not-agreed-to-take-it-out-of", strings.Join(not, "; "), words.Fitting(m.Round)))
	default:
		fmt.Fprintln(out, say.Of("hembook.of-answered-ask-for-the-rest-no", len(m.Said), words.Count(len(f.Change), "change")))
	}
	return nil
}
