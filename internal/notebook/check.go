package notebook

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/prose"
	"hembook/internal/record"
	"hembook/internal/say"
)

// Drawings are the names of the drawings that a text may show, as ![words](drawing:tape).
var Drawings = []string{"piece", "paper-piece", "curves", "corners", "practice-skirt", "tape", "tape-skirt"}

// CheckLinks faults the links of a text that lead nowhere, and those to
// addresses that are refused. at is where the text stands in its file; folder
// is where its pictures lie, from the workroom's folder.
//
// figures are those of the garment that the text is of, asked for where the text names one;
// nil where it is of none.
func (b *Book) CheckLinks(t *prose.Text, at fault.Pos, folder string, figures func() []*figure.Figure, faults *fault.Faults) {
	for _, l := range t.Links() {
		if l.Kind == prose.ToFigure {
			checkFigure(l.Name, placeOf(l, at), figures, faults)
			continue
		}
		b.checkLink(l, placeOf(l, at), folder, faults)
	}
}

// checkFigure faults a figure that a garment has not.
func checkFigure(name string, at fault.Pos, figures func() []*figure.Figure, faults *fault.Faults) {
	if figures == nil {
		faults.Wrong(at, say.Of("notebook.write-it-in-the-story-the-notes"), say.Of("notebook.the-figure-stands-in-a-text-of", say.Quoted(short(name))))
		return
	}
	guess := meant.For(name)
	for _, f := range figures() {
		if f.ID == name {
			return
		}
		guess.TryAs(f.ID, "figure:"+f.ID)
	}
	near := guess.Best()
	hint := say.Of("notebook.its-name-stands-behind-the-where")
	if near != "" {
		hint = meant.Ask(near)
	}
	f := faults.Wrong(at, hint, say.Of("notebook.this-garment-has-no-figure", say.Quoted(short(name))))
	f.Instead("figure:"+name, near)
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
		faults.Wrong(at, say.Of("notebook.an-empty-line-above-and-below-it"), say.Of("notebook.the-drawing-has-no-paragraph-of-its", say.Quoted(short(l.Name))))
	case l.Kind == prose.ToDrawing:
		checkDrawing(l, at, faults)
	case l.Kind == prose.Markup:
		faults.LookAgain(at, say.Of("notebook.write-it-in-markdown-a-picture-is"), say.Of("notebook.is-left-out-html-is-not-carried", say.Quoted(short(l.Name))))
	case l.Kind == prose.Refused:
		faults.Wrong(at, say.Of("notebook.link-by-name-as-technique-french-seam"),
			say.Of("notebook.the-link-to-is-not-allowed-here", say.Quoted(short(l.Name))))
	case l.Kind == prose.ToPicture:
		if PicturePath(folder, l.Name) == "" {
			faults.Wrong(at, say.Of("notebook.pictures-lie-in-the-folder-of-the"), say.Of("notebook.the-picture-leads-out-of-the-folder", say.Quoted(short(l.Name))))
		} else if !b.exists(PicturePath(folder, l.Name)) {
			faults.Wrong(at, say.Of("notebook.is-the-name-spelt-the-same-capitals"), say.Of("notebook.there-is-no-picture", say.Quoted(short(l.Name))))
		}
	case l.Kind.ByName():
		if _, ok := b.link(l.Kind, l.Name); !ok {
			hint, near := b.meant(l.Kind, l.Name)
			f := faults.Wrong(at, hint, say.Of("notebook.there-is-no-to-link-to", called(l.Kind), say.Quoted(short(l.Name))))
			f.Instead(string(l.Kind)+":"+l.Name, near)
		}
	}
}

// checkDrawing faults a drawing that there is none of.
func checkDrawing(l prose.Link, at fault.Pos, faults *fault.Faults) {
	if slices.Contains(Drawings, l.Name) {
		return
	}
	f := faults.Wrong(at, meant.Among(l.Name, Drawings, say.Of("notebook.there-are")), say.Of("notebook.there-is-no-drawing", say.Quoted(short(l.Name))))
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
		return say.Of("notebook.there-is-none-yet"), ""
	}
	return meant.Among(name, names, say.Of("notebook.there-are")), ""
}

func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}
