package notebook

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/prose"
	"hembook/internal/record"
)

// Drawings are the names of the drawings that a text may show, as ![words](drawing:tape).
var Drawings = []string{"piece", "paper-piece", "curves", "corners", "practice-skirt", "tape", "tape-skirt"}

// CheckLinks faults the links of a text that lead nowhere, and those to
// addresses that are refused. at is where the text stands in its file; folder
// is where its pictures lie, from the workroom's folder.
func (b *Book) CheckLinks(t *prose.Text, at fault.Pos, folder string, faults *fault.Faults) {
	for _, l := range t.Links() {
		b.checkLink(l, placeOf(l, at), folder, faults)
	}
}

// placeOf is where a link stands in its file.
func placeOf(l prose.Link, at fault.Pos) fault.Pos {
	if l.Line == 1 {
		at.Column += int32(l.Column) - 1
		return at
	}
	at.Line += int32(l.Line) - 1
	at.Column = int32(l.Column)
	return at
}

func (b *Book) checkLink(l prose.Link, at fault.Pos, folder string, faults *fault.Faults) {
	switch {
	case l.Kind == prose.Refused && strings.HasPrefix(l.Name, string(prose.ToDrawing)+":"):
		faults.Errorf(at, "an empty line above and below it", "the drawing %q has no paragraph of its own", short(l.Name))
	case l.Kind == prose.ToDrawing:
		checkDrawing(l, at, faults)
	case l.Kind == prose.Markup:
		faults.Warnf(at, "write it in Markdown; a picture is ![words](photos/name.jpg)", "%q is left out: HTML is not carried into pages", short(l.Name))
	case l.Kind == prose.Refused:
		faults.Errorf(at, "link by name, as technique:french-seam, or write a whole http, https or mailto address",
			"the link to %q is not allowed here", short(l.Name))
	case l.Kind == prose.ToPicture:
		if PicturePath(folder, l.Name) == "" {
			faults.Errorf(at, "pictures lie in the folder of the file that shows them", "the picture %q leads out of the folder", short(l.Name))
		} else if !b.exists(PicturePath(folder, l.Name)) {
			faults.Errorf(at, "is the name spelt the same, capitals too?", "there is no picture %q", short(l.Name))
		}
	case l.Kind.ByName():
		if _, ok := b.link(l.Kind, l.Name); !ok {
			hint, near := b.meant(l.Kind, l.Name)
			f := faults.Errorf(at, hint, "there is no %s %q to link to", called(l.Kind), short(l.Name))
			f.Instead(string(l.Kind)+":"+l.Name, near)
		}
	}
}

// checkDrawing faults a drawing that there is none of.
func checkDrawing(l prose.Link, at fault.Pos, faults *fault.Faults) {
	if slices.Contains(Drawings, l.Name) {
		return
	}
	f := faults.Errorf(at, meant.Among(l.Name, Drawings, "there are: "), "there is no drawing %q", short(l.Name))
	if near := meant.Nearest(l.Name, Drawings); near != "" {
		f.Instead("drawing:"+l.Name, "drawing:"+near)
	}
}

// called is what a kind of page is called in a sentence.
func called(kind prose.Kind) string {
	if kind == prose.ToBuild {
		return "garment"
	}
	return string(kind)
}

func (b *Book) exists(path string) bool {
	f, err := b.room.FS.Open(path)
	if err != nil {
		return false
	}
	f.Close()
	return true
}

// PicturePath is where a picture named beside a text lies, from the workroom's
// folder; "" where it would lie outside the text's folder.
func PicturePath(folder, file string) string {
	return record.PhotoPath(folder, record.Photo{File: record.Text{V: file}})
}

// meant is a hint at the name that was probably meant, and how that is written.
func (b *Book) meant(kind prose.Kind, name string) (hint, near string) {
	guess := meant.For(name)
	names := b.byKind[kind].names
	if kind == prose.ToBuild {
		names = b.room.BuildSlugs()
	}
	for _, n := range names {
		guess.TryAs(n, string(kind)+":"+n)
	}
	if near = guess.Best(); near != "" {
		return meant.Ask(near), near
	}
	if len(names) == 0 {
		return "there is none yet", ""
	}
	return meant.Among(name, names, "there are: "), ""
}

func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}
