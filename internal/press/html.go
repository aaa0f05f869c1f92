package press

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// A paper is HTML being written by hand: the parts of a page that hold many
// figures. Everything written through say is escaped.
type paper struct {
	b      []byte
	style  measure.Style
	folder string                      // of the record whose page it is, left out of places
	values map[measure.Quantity]string // values printed before
	tables table                       // the room of the last table, used again
	rules  *ruleBook                   // of the build that is written; nil elsewhere: rules are said in full
	turns  []int                       // where what is written may be continued on another page
}

// raw adds markup.
func (w *paper) raw(markup string) *paper { w.b = append(w.b, markup...); return w }

// say adds words.
func (w *paper) say(words string) *paper { w.b = drawing.Escape(w.b, words); return w }

// drawn adds a drawing, if there is one, and gives back its room.
func (w *paper) drawn(d *drawing.Drawing) *paper {
	if d != nil {
		w.b = d.SVG(w.b)
		d.Free()
	}
	return w
}

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
func (w *paper) figure(f *figure.Figure) *paper {
	if f.ID == "" {
		return w
	}
	if restsOnPrivate(f) {
		return w.raw("private")
	}
	if f.AsWritten() {
		return w.measured(w.value(f.Value))
	}
	w.raw("<details><summary>").measured(w.value(f.Value)).raw("</summary>")
	if !f.Value.Known() {
		return w.raw("<p>because ").say(f.Value.Why).raw("</p></details>")
	}
	w.working(&f.Working)
	return w.raw("</details>")
}

// restsOnPrivate reports whether a figure holds money or names a wearer's file.
// Such figures are of a type of their own and never come here; this is the
// last door, should one slip through the others.
func restsOnPrivate(f *figure.Figure) bool {
	if f.Value.Money != nil {
		return true
	}
	return slices.ContainsFunc(f.Working.Places(), func(at record.Pos) bool {
		return strings.HasPrefix(at.File(), "content/wearers/")
	})
}

// measured adds a value so that a line may end only between its two units; the
// second one is small print, which stands below the first in a table: "12 mm"
// above "(1/2 in)".
func (w *paper) measured(v string) *paper {
	end := ""
	for i := 0; i < len(v); i++ {
		switch {
		case v[i] == ' ' && i+1 < len(v) && v[i+1] == '(' && end == "":
			w.raw(" <small>")
			end = "</small>"
		case v[i] == ' ':
			w.raw("\u00a0")
		case v[i] == '<' || v[i] == '&':
			return w.say(v[i:]).raw(end)
		default:
			w.b = append(w.b, v[i])
		}
	}
	return w.raw(end)
}

// value prints what a figure says.
func (w *paper) value(v figure.Value) string {
	switch {
	case !v.Known():
		return "not known"
	case v.Moment != nil:
		return draw.MomentWords(*v.Moment)
	case v.Exact && v.Unit == measure.UnitMM && !tenths(v.Number):
		return w.style.PreciseQuantity(v.Quantity) // as it was written, to the last digit
	}
	if s, ok := w.values[v.Quantity]; ok {
		return s
	}
	s := w.style.Quantity(v.Quantity)
	if w.values != nil {
		if len(w.values) > 10_000 { // a worker meets no end of values
			clear(w.values)
		}
		w.values[v.Quantity] = s
	}
	return s
}

// tenths reports whether a number of millimetres is one of whole tenths, which
// a table shows in full.
func tenths(mm float64) bool { return math.Abs(mm*10-math.Round(mm*10)) < 1e-6 }

// working adds the rule, the sum, what went in and the source. A page holds
// hundreds of workings, so each says nothing twice: a sum that only repeats
// the value is left out, what went in is named without its value where the sum
// shows it, neighbours from one line share its place, and plain arithmetic
// names no source.
func (w *paper) working(k *figure.Working) {
	w.raw("<p>")
	begun := len(w.b)
	number := -1
	if w.rules != nil && k.Rule != "" {
		number = w.rules.number(k)
		w.b = appendMark(w.b, ruleMark, number)
	} else {
		w.say(k.Rule)
	}
	if k.Tells() {
		w.raw("<br>= ").say(k.Sum())
	}
	w.inputs(k.Inputs())
	if number >= 0 {
		w.b = appendMark(w.b, sourceMark, number)
	} else if c := (rule{source: k.Source}).cited(); c != "" {
		w.raw("<br><cite>").say(c).raw("</cite>")
	}
	if rest := w.b[begun:]; len(rest) > 4 && string(rest[:4]) == "<br>" {
		w.b = append(w.b[:begun], rest[4:]...)
	}
	w.raw("</p>")
}

// inputs adds what went in.
func (w *paper) inputs(list []figure.Input) {
	open := record.Pos{} // the place that the inputs just written share
	first := true
	for i := range list {
		in := &list[i]
		placed := in.At.Given() || in.Kind == figure.Default
		if in.InSum && !placed {
			continue
		}
		same := !first && in.At.Given() && in.At.Source == open.Source && in.At.Line == open.Line
		switch {
		case same:
			w.raw(", ")
		default:
			w.closePlace(open)
			w.raw("<br>")
		}
		w.say(in.Name)
		if !in.InSum {
			w.raw(" ").say(in.Value)
		}
		if in.Kind == figure.Default {
			w.raw(" <i>default</i>")
		}
		open, first = in.At, false
	}
	w.closePlace(open)
}

func (w *paper) closePlace(at record.Pos) {
	if at.Given() {
		w.raw(" <i>").say(w.pos(at)).raw("</i>")
	}
}

// pos is a place in a file, short: "line 14" in the record of the page itself,
// which the page names once, else the file within the content and the line.
func (w *paper) pos(at record.Pos) string {
	var room [64]byte
	file := at.File()
	if rest, ok := strings.CutPrefix(file, w.folder+"/"); ok && w.folder != "" {
		if rest == "build.yaml" {
			return string(strconv.AppendInt(append(room[:0], "line "...), int64(at.Line), 10))
		}
		file = rest
	} else {
		file = strings.TrimPrefix(file, "content/")
	}
	out := append(append(room[:0], file...), ':')
	return string(strconv.AppendInt(out, int64(at.Line), 10))
}
