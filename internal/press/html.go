package press

import (
	"strconv"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// A paper is HTML being written by hand: the parts of a page that hold many
// figures. Everything written through say is escaped.
type paper struct {
	b      []byte
	style  measure.Style
	folder string // of the record whose page it is, left out of places
}

// raw adds markup.
func (w *paper) raw(markup string) *paper { w.b = append(w.b, markup...); return w }

// say adds words.
func (w *paper) say(words string) *paper { w.b = draw.Escape(w.b, words); return w }

// int adds a whole number.
func (w *paper) int(n int) *paper { w.b = strconv.AppendInt(w.b, int64(n), 10); return w }

// link adds a link, or the words alone where there is no address.
func (w *paper) link(href, words string) *paper {
	if href == "" {
		return w.say(words)
	}
	return w.raw(`<a href="`).say(href).raw(`">`).say(words).raw("</a>")
}

// figure adds a figure that opens its working where it stands.
func (w *paper) figure(f *garment.Figure) *paper {
	if f.ID == "" {
		return w
	}
	w.raw("<details><summary>").say(w.value(f.Value)).raw("</summary>")
	if !f.Value.Known() {
		return w.raw("<p>because ").say(f.Value.Why).raw("</p></details>")
	}
	w.working(&f.Working)
	return w.raw("</details>")
}

// value prints what a figure says.
func (w *paper) value(v garment.Value) string {
	switch {
	case !v.Known():
		return "not known"
	case v.Money != nil:
		return "private" // money is never public; a figure that holds some is not shown
	case v.Exact && v.Unit != measure.UnitCount:
		return w.style.PreciseQuantity(v.Quantity)
	}
	return w.style.Quantity(v.Quantity)
}

// working adds the rule, the sum, what went in and the source.
func (w *paper) working(k *garment.Working) {
	w.raw("<p>")
	if k.Rule != "" {
		w.say(k.Rule)
	}
	if k.Sum != "" {
		if k.Rule != "" {
			w.raw("<br>")
		}
		w.raw("= ").say(k.Sum)
	}
	for i := range k.Inputs {
		in := &k.Inputs[i]
		w.raw("<br>").say(in.Name).raw(" ").say(in.Value)
		if at := w.place(in); at != "" {
			w.raw(" <i>").say(at).raw("</i>")
		}
	}
	if k.Source != "" {
		w.raw("<br><cite>").say(string(k.Source)).raw("</cite>")
	}
	w.raw("</p>")
}

// place says where an input was written.
func (w *paper) place(in *garment.Input) string {
	if !in.At.Given() {
		if in.From == "default" {
			return "default"
		}
		return ""
	}
	return w.pos(in.At)
}

// pos is a place in a file, short: files of the page's own folder without it.
func (w *paper) pos(at record.Pos) string {
	file := at.File()
	if rest, ok := strings.CutPrefix(file, w.folder+"/"); ok && w.folder != "" {
		file = rest
	} else {
		file = strings.TrimPrefix(file, "content/")
	}
	var room [64]byte
	out := append(append(room[:0], file...), ':')
	return string(strconv.AppendInt(out, int64(at.Line), 10))
}
