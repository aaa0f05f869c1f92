package draw

import "strings"

// A Strip is one value among others that are held side by side.
type Strip struct {
	Name, Value  string  // what it is of; the value in words
	Long         float64 // the value; all strips of a drawing are of one unit
	Lower, Upper float64 // the quartiles about it; equal where there are none
}

// Of strips held side by side, in units. They are narrow enough for a phone.
const (
	stripWide = 720
	stripRow  = 90
	stripHigh = 22
	stripHead = 46 // from the top of a row to the strip
)

// Strips adds values as strips of paper to dst, laid one below the other from
// one line, each with its name and its value above it. Where half of the
// observations lie is a line from quartile to quartile, and the median a tack.
// Its description says all of it in words. It adds nothing where no value is
// above nought.
func Strips(dst []byte, strips []Strip, title string) []byte {
	most := 0.0
	for _, s := range strips {
		most = max(most, s.Long, s.Upper)
	}
	if !(most > 0) {
		return dst
	}
	k := stripWide / most
	dst = open(dst, "strips", box{-margin, -margin, stripWide + margin, float64(len(strips))*stripRow + margin}, title, stripsWords(strips))
	p := pen{dst: append(dst, `<path class="grain" d="`...)}
	p.move(0, stripHead-tick)
	p.line(0, float64(len(strips))*stripRow)
	dst = append(p.dst, `"/>`...)
	for i, s := range strips {
		dst = s.draw(dst, float64(i)*stripRow, k)
	}
	return append(dst, "</svg>"...)
}

func (s Strip) draw(dst []byte, top, k float64) []byte {
	room := stripWide - (letters(s.Value)+2)*textWide
	dst = text(dst, "", 0, 0, top+textHeight, clip(s.Name, int(room/textWide)))
	dst = text(dst, "", 'e', stripWide, top+textHeight, s.Value)
	y := top + stripHead
	p := pen{dst: append(dst, `<path class="strip-of" d="`...)}
	p.move(0, y)
	p.line(s.Long*k, y)
	p.line(s.Long*k, y+stripHigh)
	p.line(0, y+stripHigh)
	p.close()
	dst = append(p.dst, `"/>`...)
	if !(s.Upper > s.Lower) {
		return dst
	}
	mid := y + stripHigh/2
	p = pen{dst: append(dst, `<path d="`...)}
	for _, x := range []float64{s.Lower * k, s.Upper * k} {
		p.move(x, mid-tick/2)
		p.line(x, mid+tick/2)
	}
	p.move(s.Lower*k, mid)
	p.line(s.Upper*k, mid)
	p = pen{dst: append(p.dst, `"/><path class="tack" d="`...)}
	p.move(s.Long*k-cross, mid-tick)
	p.line(s.Long*k+cross, mid+tick)
	p.move(s.Long*k+cross, mid-tick)
	p.line(s.Long*k-cross, mid+tick)
	return append(p.dst, `"/>`...)
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
