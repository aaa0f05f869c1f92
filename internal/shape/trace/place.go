package trace

import (
	"strings"

	"hembook/internal/say"
	"hembook/internal/shape"
)

// places reads where buttons and the like are put, and their buttonholes: a place and a
// buttonhole of one name and number belong together. A hole that has no place is put
// where its middle is.
func (w *assembly) places() {
	at := map[string]int{}
	for _, s := range w.by[PlaceMark] {
		if name := w.placeName(s); name != "" {
			at[s.Name] = len(w.piece.Places)
			w.piece.Places = append(w.piece.Places, Place{Name: name, At: round(middle(s))})
		}
	}
	for _, s := range w.by[HoleLine] {
		name := w.placeName(s)
		if name == "" {
			continue
		}
		if len(s.Parts) == 0 || apart(s.From, s.end()) < alike {
			w.fault(s.At, say.Of("trace.draw-it-as-one-line-from-end"), say.Of("trace.the-buttonhole-has-no-length"))
			continue
		}
		k, ok := at[s.Name]
		if !ok || w.piece.Places[k].Open {
			k = len(w.piece.Places)
			w.piece.Places = append(w.piece.Places, Place{Name: name, At: round(shape.Point{X: (s.From.X + s.end().X) / 2, Y: (s.From.Y + s.end().Y) / 2})})
		}
		w.piece.Places[k].Hole, w.piece.Places[k].Open = [2]shape.Point{round(s.From), round(s.end())}, true
	}
}

// placeName is what is put at a place: the name of its mark without the number.
func (w *assembly) placeName(s *Stroke) string {
	name := strings.TrimSpace(strings.TrimRight(s.Name, "0123456789 -_"))
	if name == "" {
		w.fault(s.At, say.Of("trace.name-it-after-what-is-put-there"), say.Of("trace.what-is-put-here-is-not-said"))
	}
	return name
}
