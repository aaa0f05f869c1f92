// Package paperpiece takes what was traced from photographs of a paper piece into a
// record: as a new piece with a pattern file of its own, with names for its edges, or as
// a round of fitting where the piece is there already and its paper was altered.
//
// It promises that a record is changed byte by byte and whole or not at all, that no file
// is written over, and that a round it writes makes of the old outline the one that was
// photographed, within [mostAstray]; where it cannot, it says so and writes nothing.
//
// It looks at no photographs.
package paperpiece

import (
	"errors"
	"io/fs"
	"path"
	"strings"
	"unicode"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A Home is where a traced piece is written: a file beside the record, and a piece in it.
type Home struct {
	Room  *record.Room
	File  record.BuildFile
	Piece string
	Unit  measure.Unit // of bare lengths in the record
}

// CheckName refuses a name that cannot be that of a piece's file.
func CheckName(piece string) error {
	if !strings.ContainsFunc(piece, unicode.IsLetter) || strings.ContainsAny(piece, ".:#{}[]\",\n") {
		return fault.Refusing(say.Of("paperpiece.as-front"), say.Of("paperpiece.the-piece-needs-a-name-of-letters"))
	}
	return nil
}

// SVG is the piece's pattern file, from the record's folder.
func (h Home) SVG() string { return path.Join("pattern", words.Slug(h.Piece)+".svg") }

// FilePath is the same from the workroom's folder.
func (h Home) FilePath() string { return path.Join(path.Dir(h.File.Path), h.SVG()) }

// Free refuses to write over what is there.
func (h Home) Free(b *record.Build) error {
	for _, p := range b.Pieces {
		if p.Name.V == h.Piece && p.Formed() {
			return fault.Refusing(say.Of("paperpiece.take-its-form-out-of-the-record"), say.Of("paperpiece.has-the-piece-already", h.File.Path, h.Piece))
		}
	}
	root, err := disk.OpenRoot(h.Room.Dir)
	if err != nil {
		return err
	}
	defer root.Close()
	if _, err := root.Lstat(h.FilePath()); err == nil {
		return fault.Refusing(say.Of("paperpiece.delete-it-or-trace-into-another-piece"), say.Of("paperpiece.is-there-already", h.FilePath()))
	}
	return nil
}

// errand begins the line of an errand while a piece's file is written and not yet named
// in its record: the file, a tab, the record.
var errand = say.Of("paperpiece.outline")

// OfOutline reports whether a line of an errand is about a piece's file.
func OfOutline(line string) bool { return strings.HasPrefix(line, errand) }

// Write writes the file, then the record; where the record cannot be written the file is
// taken away again.
func (h Home) Write(svg []byte) error {
	root, err := disk.OpenRoot(h.Room.Dir)
	if err != nil {
		return err
	}
	defer root.Close()
	file := h.FilePath()
	if err := root.MkdirAll(path.Dir(file), 0o777); err != nil {
		return fault.Wrapping(err, say.Of("paperpiece.could-not-be-made", path.Dir(file), err))
	}
	line := errand + file + "\t" + h.File.Path
	defer disk.BeginErrand(h.Room.Dir, line).End()
	if err := root.Keep(file, svg, 0o666); err != nil {
		return fault.Wrapping(err, say.Of("paperpiece.could-not-be-written", file, err))
	}
	err = h.record().Change(func(text []byte) ([]byte, error) {
		return amend.Set(text, amend.At("pieces", h.Piece, "outline"), amend.Words(h.SVG()+"#"+h.Piece))
	})
	if err != nil {
		_, left := EndErrand(h.Room.Dir, line)
		return errors.Join(err, left)
	}
	return nil
}

// Began looks at a piece that may have been written before, by a program that was stopped
// meanwhile. done is true where its record names its file; a file that no record names is
// taken away.
func (h Home) Began(b *record.Build) (done bool, err error) {
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Name.V == h.Piece && p.Outline != nil && p.Outline.File.V == h.SVG()+"#"+h.Piece {
			return true, nil
		}
	}
	_, err = EndErrand(h.Room.Dir, errand+h.FilePath()+"\t"+h.File.Path)
	return false, err
}

func (h Home) record() amend.File { return amend.File{Folder: h.Room.Dir, Path: h.File.Path} }

// EndErrand removes the file of a piece that its record does not name. known is false for
// lines of other rooms.
func EndErrand(room, line string) (known bool, err error) {
	line, known = strings.CutPrefix(line, errand)
	if !known {
		return false, nil
	}
	file, rec, _ := strings.Cut(line, "\t")
	root, err := disk.OpenRoot(room)
	if err != nil {
		return true, err
	}
	defer root.Close()
	text, err := root.ReadFile(rec)
	if err != nil || strings.Contains(string(text), path.Join("pattern", path.Base(file))) {
		return true, err
	}
	if err := root.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return true, err
	}
	return true, nil
}
