package paper

import (
	"slices"
	"strings"

	"hembook/internal/drawing"
)

// textStep is by how much text is made smaller at a time, in points.
const textStep = 0.25

// Pages is how many pages a document takes.
func Pages(d Document, opt Options) (int, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return 0, err
	}
	if err := d.Check(); err != nil {
		return 0, err
	}
	pages, err := layout(d, fs)
	return len(pages), err
}

// Fit makes a document's text smaller, a quarter of a point at a time, until
// it takes at most that many pages; it stops at SmallestText. It returns the
// document with the size it came to, and whether it fits.
func Fit(d Document, most int, opt Options) (Document, bool, error) {
	if d.TextSize == 0 {
		d.TextSize = DefaultText
	}
	for {
		n, err := Pages(d, opt)
		if err != nil || n <= most {
			return d, err == nil, err
		}
		if d.TextSize <= SmallestText {
			return d, false, nil
		}
		d.TextSize = max(d.TextSize-textStep, SmallestText)
	}
}

// Unset are the letters of a document that no face has and that a PDF shows
// as □, in the order of their numbers. HTML shows them where the reader's
// machine has a font for them.
func Unset(d Document, opt Options) ([]rune, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return nil, err
	}
	seen := map[rune]bool{}
	for _, text := range append(texts(d.Blocks), d.Title, d.Words.PageOf, d.Words.Continued, d.Words.Signed, d.Words.Date, strings.Join(d.Footer, " ")) {
		for _, r := range clean(text) {
			if r == '\n' || r == missingLetter {
				continue
			}
			if _, set := fs.pick(serif(), r); set == missingLetter {
				seen[r] = true
			}
		}
	}
	var out []rune
	for r := range seen {
		out = append(out, r)
	}
	slices.Sort(out)
	return out, nil
}

// texts are all words of blocks, in the order they are read.
func texts(list []Block) []string {
	var out []string
	say := func(s ...string) { out = append(out, s...) }
	phrase := func(p Phrase) {
		var b strings.Builder
		for _, r := range p {
			b.WriteString(r.Text)
		}
		say(b.String())
	}
	for _, b := range list {
		switch b := b.(type) {
		case Heading:
			say(b.Text, b.About)
		case Text:
			phrase(b.Phrase)
		case List:
			for _, p := range b.Items {
				phrase(p)
			}
		case Table:
			say(b.Caption)
			for _, c := range b.Columns {
				say(c.Head)
			}
			for _, row := range b.Rows {
				for _, p := range row {
					phrase(p)
				}
			}
		case Ticks:
			for _, t := range b.Items {
				phrase(t.Phrase)
				say(t.Note)
			}
			if b.SignBy != nil {
				say(b.SignBy.About, b.SignBy.Name, b.SignBy.Date)
			}
		case Symbols:
			for _, i := range b.Items {
				say(labels(i.Drawing)...)
				say(i.Words, i.About)
			}
			say(b.Note)
		case Facts:
			for _, f := range b.Items {
				say(f.Term)
				phrase(f.Value)
			}
		case Note:
			say(b.Head)
			phrase(b.Phrase)
		case Caution:
			say(b.Head)
			phrase(b.Phrase)
		case Columns:
			for _, column := range b.Blocks {
				say(texts(column)...)
			}
		case Picture:
			say(b.Caption)
		case QR:
			say(b.Words, b.Address)
		case Sketch:
			say(labels(b.Drawing)...)
			say(b.Caption)
		case PageBreak:
		}
	}
	return out
}

func labels(d *drawing.Drawing) []string {
	var out []string
	for _, m := range d.Marks {
		if m.Label != nil {
			out = append(out, m.Label.Words)
		}
	}
	return out
}
