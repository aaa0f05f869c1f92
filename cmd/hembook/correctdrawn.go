package main

import (
	"fmt"
	"io"
	"io/fs"
	"reflect"
	"slices"
	"strings"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// mostProposed is how many proposals one page shows.
const mostProposed = 60

// drawProposals writes a page of what check proposes: each with its lines, and the
// pieces that it changes, as they are and as they would be. It says how many there are.
func drawProposals(opt *options, found checked, file string) (int, error) {
	room, _, err := opt.openRoom()
	if err != nil {
		return 0, err
	}
	defer room.Close()
	p := proposer{room: room, style: room.Workroom.Style(), was: map[string][]*garment.Piece{}}
	d := &document.Draft{}
	shown := 0
	for _, f := range found.faults {
		if len(f.Correct) == 0 || shown == mostProposed {
			continue
		}
		if p.show(d, f) {
			shown++
		}
	}
	if shown == 0 {
		d.Say(document.Say(say.Of("hembook.nothing-is-proposed")))
	}
	title := say.Of("hembook.what-check-proposes")
	blocks := append([]document.Block{document.Heading{Level: 1, Words: title}}, d.Blocks...)
	html, err := document.OneFile(document.Alone(document.Document{Title: title, Language: "en", Blocks: blocks}))
	if err != nil {
		return 0, err
	}
	return shown, writeWhole(file, html)
}

// A proposer draws what proposals change in a workroom.
type proposer struct {
	room  *record.Room
	style measure.Style
	was   map[string][]*garment.Piece // pieces as they are, by record
}

// show adds one proposal; false where it cannot be written.
func (p *proposer) show(d *document.Draft, f fault.Fault) bool {
	file := f.Correct[0].At.File()
	text, err := fs.ReadFile(p.room.FS, file)
	if err != nil {
		return false
	}
	_, body := cutMark(text)
	now, err := amend.Correct(body, f.Correct)
	if err != nil {
		return false
	}
	d.Add(document.Heading{Level: 2, Words: f.Message, Aside: say.Of("hembook.line", file, f.At.Line)})
	if f.Hint != "" {
		d.Say(document.Say(f.Hint))
	}
	stands, then := differing(body, now)
	d.Add(document.Facts{Items: []document.Fact{{Term: say.Of("hembook.it-says"), Says: phrases(stands)}, {Term: say.Of("hembook.it-would-say"), Says: phrases(then)}}})
	if slices.ContainsFunc(p.room.Builds, func(b record.BuildFile) bool { return b.Path == file }) {
		if p.pieces(d, p.before(file), piecesOf(p.room.With(file, now), file)) == 0 {
			d.Note(say.Of("hembook.every-piece-is-drawn-as-before"))
		}
		return true
	}
	p.everywhere(d, file, now)
	return true
}

// before are the pieces of a garment as they are.
func (p *proposer) before(build string) []*garment.Piece {
	if _, known := p.was[build]; !known {
		p.was[build] = piecesOf(p.room, build)
	}
	return p.was[build]
}

// mostLooked is how many garments are looked at for what another file changes in them.
const mostLooked = 40

// everywhere adds what another text of a file that is no garment's record changes in the
// garments: a cloth, a body or the workroom's usual ways can.
func (p *proposer) everywhere(d *document.Draft, file string, now []byte) {
	then, err := p.room.Reread(file, now)
	if err != nil {
		d.Say(document.Say(say.Of("hembook.it-cannot-be-told-what-this-changes")))
		return
	}
	defer then.Close()
	looked := p.room.Builds[:min(len(p.room.Builds), mostLooked)]
	changed := 0
	for _, b := range looked {
		of := &document.Draft{}
		if p.pieces(of, p.before(b.Path), piecesOf(then, b.Path)) > 0 {
			d.Say(document.Say(b.Name + ":"))
			d.Add(of.Blocks...)
			changed++
		}
	}
	switch {
	case len(looked) < len(p.room.Builds):
		d.Note(say.Of("hembook.the-first-garments-were-looked-at", len(looked)))
	case changed == 0:
		d.Note(say.Of("hembook.every-piece-of-every-garment-is-drawn"))
	}
}

// piecesOf are the pieces of a garment that can be drawn.
func piecesOf(room *record.Room, file string) []*garment.Piece {
	k := slices.IndexFunc(room.Builds, func(b record.BuildFile) bool { return b.Path == file })
	if k < 0 {
		return nil
	}
	tailor, _ := derive.NewTailor(room)
	b, _ := room.ReadBuild(room.Builds[k])
	return slices.DeleteFunc(tailor.Derive(b).Pieces, func(p *garment.Piece) bool { return !p.Drawn() })
}

// How large a piece may be drawn, beside another, mm on paper.
const (
	proposedWide = 78
	proposedHigh = 110
)

// pieces adds the pieces that differ, before and after, side by side and to one scale,
// and tells how many those are.
func (p *proposer) pieces(d *document.Draft, before, after []*garment.Piece) (differ int) {
	for _, now := range after {
		k := slices.IndexFunc(before, func(o *garment.Piece) bool { return o.Name == now.Name })
		both := []*garment.Piece{now}
		if k >= 0 {
			both = []*garment.Piece{before[k], now}
		}
		if list := p.sideBySide(both); list != nil {
			d.Add(document.Heading{Level: 3, Words: now.Name}, document.Sketches{Of: list})
			differ++
		}
	}
	for _, old := range before {
		if !slices.ContainsFunc(after, func(o *garment.Piece) bool { return o.Name == old.Name }) {
			d.Say(document.Say(say.Of("hembook.can-then-no-longer-be-drawn", old.Name)))
			differ++
		}
	}
	return differ
}

// sideBySide draws a piece as it is and as it would be; nil where both are alike.
func (p *proposer) sideBySide(list []*garment.Piece) (out []document.Sketch) {
	wide, high := 0.0, 0.0
	for _, each := range list {
		least, most := each.Bounds()
		wide, high = max(wide, most.X-least.X), max(high, most.Y-least.Y)
	}
	style := draw.PieceStyle{Scale: draw.ScaleFor(wide, high, proposedWide, proposedHigh), Parts: draw.OnPage | draw.Notches, Measure: p.style}
	heads := []string{say.Of("hembook.as-it-is"), say.Of("hembook.as-it-would-be")}[2-len(list):]
	var drawn []*drawing.Drawing
	for i, each := range list {
		one := draw.Piece(each, style)
		drawn = append(drawn, one)
		out = append(out, document.Sketch{Draw: func() *drawing.Drawing { return one }, Caption: heads[i] + ": " + each.CutWords()})
	}
	if len(list) == 2 && reflect.DeepEqual(drawn[0], drawn[1]) && list[0].CutWords() == list[1].CutWords() {
		return nil
	}
	return out
}

// differing are the lines of two texts that differ.
func differing(before, after []byte) (old, now []string) {
	old, now = strings.Split(string(before), "\n"), strings.Split(string(after), "\n")
	for len(old) > 0 && len(now) > 0 && old[0] == now[0] {
		old, now = old[1:], now[1:]
	}
	for len(old) > 0 && len(now) > 0 && old[len(old)-1] == now[len(now)-1] {
		old, now = old[:len(old)-1], now[:len(now)-1]
	}
	return old, now
}

func phrases(lines []string) []document.Phrase {
	out := []document.Phrase{}
	for _, l := range lines {
		out = append(out, document.Phrase{document.Say(strings.TrimSpace(l))})
	}
	if len(out) == 0 {
		out = append(out, document.Phrase{document.As(document.Small, "nothing")})
	}
	return out
}

// drawnBeside draws what is proposed on a page: first of all and, where the maker is
// asked, anew after each record that was written while something is left. She is told once.
func drawnBeside(opt *options, file string, asks bool, errs io.Writer) func(checked) error {
	told := false
	return func(found checked) error {
		if told && !asks || told && !slices.ContainsFunc(found.faults, func(f fault.Fault) bool { return len(f.Correct) > 0 }) {
			return nil // the last page shows what was written
		}
		shown, err := drawProposals(opt, found, file)
		if err == nil && !told {
			fmt.Fprintln(errs, say.Of("hembook.drawn-before-and-after-open-beside", verb(shown, "correction", "corrections"), file))
			told = true
		}
		return err
	}
}
