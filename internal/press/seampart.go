package press

import (
	"math"
	"strconv"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

func (p *printer) seams(w *paper, b *notebook.BuildPage) {
	if len(b.Seams) > 0 {
		t := w.table("Edges joined", words("seam"), words("joins"), words("as"), fig("length"),
			fig("in all"), fig("sides differ by"), fig("fullness"), fig("gives up"), fig("finished width")).long()
		for _, s := range b.Seams {
			t.row(s.Name).words(joins(s)).words(s.Type.Title).fig(&s.Length)
			t.times(s.Times, &s.Total)
			t.html(func(w *paper) {
				w.figure(&s.Differ)
				if s.Differ.ID != "" && s.Differ.Value.Known() {
					w.raw(verdict(s.Meets, "meets", "does not meet"))
				}
			})
			t.full(&s.Full).gives(&s.Gives).fig(&s.Width)
		}
		t.end()
	}
	if len(b.Finishes) > 0 {
		t := w.table("Edges made neat", words("finish"), words("of"), words("as"),
			fig("length"), fig("takes"), fig("finished width"))
		for _, f := range b.Finishes {
			t.row(f.Name).words(edgeWords(f.Edges)).words(f.Type.Title).fig(&f.Total).fig(&f.Takes).fig(&f.Width)
		}
		t.end()
	}
	for i := range b.Sections {
		w.mayTurn()
		p.section(w, &b.Sections[i], 3)
	}
}

// verdict is a word with its own mark, so that it does not hang on colour.
func verdict(good bool, yes, no string) string {
	if good {
		return ` <b class="good">` + yes + "</b>"
	}
	return ` <b class="bad">` + no + "</b>"
}

// times adds what a seam sewn more than once comes to; sewn once, its length
// says it.
func (t *table) times(n int, total *figure.Figure) *table {
	if n == 1 {
		return t.words("")
	}
	return t.fig(total)
}

// full adds the fullness, where there is any.
func (t *table) full(f *figure.Figure) *table {
	if f.Value.Known() && math.Abs(f.Value.Number-1) < 0.005 {
		return t.words("")
	}
	return t.fig(f)
}

// gives adds what both sides give up, once where it is the same.
func (t *table) gives(both *[2]figure.Figure) *table {
	return t.html(func(w *paper) {
		w.figure(&both[0])
		if both[0].Value != both[1].Value {
			w.figure(&both[1])
		}
	})
}

func joins(s *garment.Seam) string {
	return edgeWords(s.Sides[0].Edges) + " to " + edgeWords(s.Sides[1].Edges)
}

func edgeWords(list []garment.EdgeUse) string {
	var out []byte
	for i, e := range list {
		if e.Piece == nil || e.Edge == nil {
			continue
		}
		if i > 0 {
			out = append(out, ", "...)
		}
		out = append(append(append(out, e.Piece.Name...), ' '), e.Edge.Name...)
	}
	return string(out)
}

// section draws a seam type once, with its passes, under a heading of that
// level; under none where it is 0.
func (p *printer) section(w *paper, s *notebook.Section, level int) {
	drawn, ok := p.sectionHTML(s)
	if !ok {
		return // what is wrong with the measures is a fault of the record
	}
	w.raw(`<article class="way">`)
	if level > 0 {
		h := strconv.Itoa(level)
		w.raw("<h" + h + ">").say(s.Type.Title).raw("</h" + h + ">")
	}
	if len(s.UsedBy) > 0 {
		w.raw(`<p class="cut">`)
		for i, n := range s.UsedBy {
			if i > 0 {
				w.raw(", ")
			}
			w.say(n)
		}
		w.raw("</p>")
	}
	w.raw(drawn).raw("</article>\n")
}

// mostSections bounds how many drawn cross-sections a worker keeps.
const mostSections = 400

// sectionHTML is the drawing of a seam type with its passes. Most builds sew
// the same few seams, so what was drawn is kept.
func (p *printer) sectionHTML(s *notebook.Section) (string, bool) {
	key := sectionKey(s)
	if html, ok := p.sections[key]; ok {
		return html, html != ""
	}
	if p.sections == nil || len(p.sections) > mostSections {
		p.sections = map[string]string{}
	}
	w := paper{style: p.style}
	if drawn, err := s.Type.Section(s.Params); err == nil {
		w.raw(`<div class="beside"><div class="tissue" tabindex="0">`)
		w.drawn(draw.Section(drawn, draw.SectionWords{Title: "Cross-section: " + s.Type.Title, Desc: s.Type.Summary, Measure: p.style}))
		w.raw("</div>\n<div><ol>")
		for _, pass := range notebook.Passes(s.Type, s.Params, p.style) {
			w.raw("<li>").say(pass).raw("</li>")
		}
		w.raw("</ol></div></div>")
	}
	p.sections[key] = string(w.b)
	return p.sections[key], len(w.b) > 0
}

// sectionKey tells cross-sections apart. A workroom's own seam type may have a
// built-in one's name, but then it stands for it everywhere.
func sectionKey(s *notebook.Section) string {
	key := append([]byte(s.Type.Name), ' ')
	for _, par := range s.Type.Parameters {
		key = append(strconv.AppendFloat(key, s.Params[par.Name], 'g', -1, 64), ' ')
	}
	return string(key)
}
