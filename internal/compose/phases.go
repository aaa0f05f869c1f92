package compose

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// mostSections bounds how many drawn cross-sections are kept.
const mostSections = 400

// sectionDrawn is how a seam type grows, phase by phase; nil where it cannot be drawn.
// Most builds sew the same few seams, so it is kept.
func (d *Draft) sectionDrawn(s *garment.Way) document.Block {
	key := sectionKey(s)
	if kept, ok := d.sections[key]; ok {
		return kept
	}
	if len(d.sections) > mostSections {
		clear(d.sections)
	}
	var made document.Block
	if phases, err := s.Type.Phases(s.Measures); err == nil {
		made = d.grown(s, phases)
	}
	d.sections[key] = made
	return made
}

// sectionKey tells cross-sections apart. A workroom's own seam type may have a
// built-in one's name, but then it stands for it everywhere.
func sectionKey(s *garment.Way) string {
	key := append([]byte(s.Type.Name), ' ')
	for _, side := range s.Sides {
		key = append(append(key, side...), ' ')
	}
	for _, par := range s.Type.Parameters {
		key = append(strconv.AppendFloat(key, s.Measures[par.Name], 'g', -1, 64), ' ')
	}
	if s.Type.IsTurned() {
		key = append(key, say.Of("compose.turned")...)
	}
	for _, r := range s.Type.Beside() {
		key = append(strconv.AppendFloat(append(append(key, r.Do...), ' '), r.At, 'g', -1, 64), ' ')
		for _, side := range r.On {
			key = strconv.AppendInt(key, int64(side), 10)
		}
	}
	return string(key)
}

// grown are the phases of a seam, each with what is done in it.
func (d *Draft) grown(s *garment.Way, phases []trade.Phase) document.Block {
	said := passSaid{passes: notebook.Passes(s.Type, s.Measures, d.Style, s.Sides)}
	list := document.List{As: "passes tissue", Row: true}
	for i := range phases {
		phases[i].Section = phases[i].Section.Called(s.Sides)
		list.Items = append(list.Items, document.Item{Phrase: said.upTo(&phases[i])})
	}
	drawn := draw.Phases(phases, func(i int) draw.SectionWords {
		return draw.SectionWords{Title: s.Type.Title + ", " + phaseTitle(&phases[i]), Measure: d.Style}
	})
	whole := draw.SectionWords{Title: say.Of("compose.cross-section", s.Type.Title), Desc: s.Type.Summary, Measure: d.Style}
	for i, picture := range append(drawn, draw.Section(phases[len(phases)-1].Section, whole)) {
		picture.Keep()
		list.Items[i].Draw = func() *drawing.Drawing { return picture }
	}
	return list
}

// phaseTitle says how far a seam has grown, for those who cannot see it.
func phaseTitle(s *trade.Phase) string {
	switch {
	case s.Pass == 0:
		return say.Of("compose.as-cut")
	case s.Then:
		return say.Of("compose.row-sewn-and-pressed", strconv.Itoa(s.Pass))
	}
	return say.Of("compose.row-sewn", strconv.Itoa(s.Pass))
}

// A passSaid tells what is done from phase to phase, and nothing twice.
type passSaid struct {
	passes   []notebook.PassWords
	do, then int // passes whose stitching is told, and what follows it
}

// upTo tells what is done from the phase before to this one.
func (p *passSaid) upTo(s *trade.Phase) (out document.Phrase) {
	if s.Pass == 0 && !s.Whole {
		return document.Phrase{document.Say(say.Of("compose.as-cut-the-fine-lines-are-the"))}
	}
	for i := min(p.do, p.then); i < min(s.Pass, len(p.passes)); i++ {
		if p.do <= i {
			out = append(out, document.As(document.Strong, strconv.Itoa(i+1)), document.Say(" "+sentence(p.passes[i].Do)+" "))
			p.do = i + 1
		}
		if p.then <= i && (s.Then || i+1 < s.Pass) {
			if p.passes[i].Then != "" {
				out = append(out, document.Say(sentence(p.passes[i].Then)+" "))
			}
			p.then = i + 1
		}
	}
	if n := len(out); n > 0 {
		out[n-1].Words = strings.TrimSuffix(out[n-1].Words, " ")
	}
	return out
}

// sentence is words with a capital and a full stop.
func sentence(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:] + "."
}

// FacesLegend says how the faces of the cloth are drawn; it stands once on a page.
func FacesLegend(d *Draft) {
	d.Note(say.Of("compose.heavy-line-the-right-side-of-the"))
}

// PiecesOf says in which garment the pieces of a drawing are called so.
func (d *Draft) PiecesOf(b notebook.Link) {
	if b.Address != "" {
		d.Add(document.Text{As: document.Note, Phrase: d.Phrase(document.Say(say.Of("compose.the-pieces-are-those-of")), document.Lead(string(b.Address), b.Name), document.Say("."))})
	}
}

// drawsFaces reports whether the sections of ways show faces.
func drawsFaces(ways []garment.Way) bool {
	return slices.ContainsFunc(ways, func(w garment.Way) bool { return len(w.Type.Drawing.Layers) > 0 })
}
