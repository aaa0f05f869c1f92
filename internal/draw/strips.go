package draw

import (
	"strings"

	"hembook/internal/drawing"
)

// A Strip is one value among others that are held side by side.
type Strip struct {
	Name, Value  string  // what it is of; the value in words
	Long         float64 // the value; all strips of a drawing are of one unit
	Lower, Upper float64 // the quartiles about it; equal where there are none
}

// Of strips held side by side. They are narrow enough for a phone.
const (
	stripWide = 72
	stripRow  = 9
	stripHigh = 2.2
	stripHead = 4.6 // from the top of a row to the strip
)

// Strips draws values as strips of paper, laid one below the other from one
// line, each with its name and its value above it. Where half of the
// observations lie is a line from quartile to quartile, and the median a tack.
// Its description says all of it in words. It is nil where no value is above
// nought.
func Strips(strips []Strip, title string) *drawing.Drawing {
	most := 0.0
	for _, s := range strips {
		most = max(most, s.Long, s.Upper)
	}
	if !(most > 0) {
		return nil
	}
	high := float64(len(strips)) * stripRow
	d := drawing.New("strips")
	d.Title, d.Desc = title, stripsWords(strips)
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: stripWide + margin, Bottom: high + margin}
	d.Draw(drawing.StripEdge).Move(0, stripHead-tick).Line(0, high)
	for i, s := range strips {
		s.draw(d, float64(i)*stripRow, stripWide/most)
	}
	return d
}

func (s Strip) draw(d *drawing.Drawing, top, k float64) {
	room := stripWide - (letters(s.Value)+2)*textWide
	say(d, drawing.Plain, drawing.Begin, 0, top+textHeight, clip(s.Name, int(room/textWide+1e-9)))
	say(d, drawing.Plain, drawing.End, stripWide, top+textHeight, s.Value)
	y := top + stripHead
	d.Draw(drawing.StripArea).Rect(0, y, s.Long*k, y+stripHigh)
	if !(s.Upper > s.Lower) {
		return
	}
	mid := y + stripHigh/2
	p := d.Draw(drawing.StripReach)
	for _, x := range []float64{s.Lower * k, s.Upper * k} {
		p.Move(x, mid-tick/2).Line(x, mid+tick/2)
	}
	p.Move(s.Lower*k, mid).Line(s.Upper*k, mid)
	tackAt(d, s.Long*k, mid, cross)
}

// clip shortens words to so many letters.
func clip(words string, most int) string {
	r := []rune(words)
	if len(r) <= most {
		return words
	}
	return strings.TrimRight(string(r[:max(most-1, 0)]), " ,") + "…"
}

func stripsWords(strips []Strip) string {
	var b strings.Builder
	for i, s := range strips {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(s.Name + " " + s.Value)
	}
	return b.String()
}
