package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/say"
	"hembook/internal/shape/trace"
)

// laidHow is how each kind of what lies along a line is drawn, and read again.
var laidHow = map[string]struct {
	means drawing.Meaning
	role  trace.Role
}{
	"tape": {drawing.TapeLine, trace.TapeLine}, "boning": {drawing.BoneLine, trace.BoneLine}, "elastic": {drawing.ElasticLine, trace.DrawLine}, "cord": {drawing.CordLine, trace.CordLine},
}

// laidWordsAt is how far along its line the name of what lies there stands.
const laidWordsAt = 0.3

// laidIn draws where tapes, boning, elastic and cords lie, on pages each with its name along
// it.
func (d *pieceDrawing) laidIn() {
	named := map[string]int{}
	for i := range d.p.Laid {
		l := &d.p.Laid[i]
		how := laidHow[l.Kind]
		if d.has(Named) {
			name := l.Notion
			if named[name]++; named[name] > 1 {
				name = numbered(name, "", named[name]-1)
			}
			d.Named(how.means, trace.SpellLine(name, how.role)).Lines(d.f, l.Line)
			continue
		}
		d.Draw(how.means).Lines(d.f, l.Line)
		if d.has(InnerWords) && !d.has(Label) {
			d.wordsAlong(l.Line, l.Notion, laidWordsAt)
		}
	}
}

// laidNames says at full size, once all lines are there, what lies along each and how long it
// is cut.
func (d *pieceDrawing) laidNames() {
	for i := range d.p.Laid {
		l := &d.p.Laid[i]
		said := []string{l.Notion}
		if l.Cut != nil && l.Cut.Value.Known() {
			said = []string{say.Of("draw.cut-so-long", l.Notion, d.number(*l.Cut)), l.Notion}
		}
		if d.has(InnerWords) {
			d.nameAlong(l.Line, said)
		}
	}
}
