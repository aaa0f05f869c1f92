package paper

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// Of a form that is measured into, in millimetres.
const (
	askBoxWide = 18.0
	askBoxHigh = 8.8
	askApart   = 2.6
	askRing    = 2.7 // radius of the number before an item
	askName    = 33.0
	askLine    = 8.0 // between lines to write on
	longLines  = 3   // for a long answer
	moreLines  = 5   // at most beside those, where the page has room
)

// asks sets a form: what is measured, how, and two boxes to write it in; below them a
// line for each answer in words.
func (s *setter) asks(b document.Asks, wide float64) []slab {
	if len(b.Items) == 0 {
		return s.questions(b.Free, wide)
	}
	boxes := wide - 2*askBoxWide - askApart
	row := s.row(s.size * tableText)
	head := slab{high: s.row(s.size * smallText), keep: true}
	for _, c := range []struct {
		word string
		x    float64
	}{{b.Words.What, 0}, {b.Words.How, askName}, {b.Words.First + " (" + b.Unit + ")", boxes}, {b.Words.Again, boxes + askBoxWide + askApart}} {
		for _, l := range fill(s.aside(c.word), askBoxWide*3) {
			head.putLine(l, c.x, 0, head.high)
			break
		}
	}
	out := []slab{head}
	for i := range b.Items {
		out = append(out, s.ask(&b.Items[i], i+1, boxes, wide, row))
	}
	var free document.FillIn
	for _, f := range b.Free {
		field := document.Field{Name: f.Title, Share: 40}
		if f.Long {
			field.Share = 100
		}
		free.Fields = append(free.Fields, field)
	}
	if len(free.Fields) > 0 {
		out = append(out, s.form(free, wide))
		out[len(out)-1].gap = s.unit(gapText)
	}
	return out
}

// questions sets what is answered in words, each with lines to write on, or with boxes
// to tick.
func (s *setter) questions(list []document.FreeAsk, wide float64) []slab {
	var out []slab
	row := s.row(s.size)
	for _, q := range list {
		one := slab{gap: s.unit(gapText)}
		for _, l := range fill(s.label(q.Title, serifBold(), s.size, drawing.NoInk), wide) {
			one.putLine(l, 0, one.high, row)
			one.high += row
		}
		x := 0.0
		for _, o := range q.Options {
			one.put(0, 0, box(x, one.high+1.4, s.unit(boxSide), s.unit(boxSide)))
			for _, l := range fill(s.say(o.Title), wide) {
				one.putLine(l, x+s.unit(boxSide)+2, one.high+1, row)
				x += s.unit(boxSide) + l.wide + 12
				break
			}
		}
		lines := 1
		switch {
		case len(q.Options) > 0:
			lines = 0
			one.high += row + 1.5
		case q.Long:
			lines = longLines + s.lines
		}
		for range lines {
			one.high += askLine
			one.put(0, 0, stroke(0, one.high, wide, one.high, drawing.Pen{Weight: hairline, Ink: drawing.Dark, Butt: true}))
		}
		out = append(out, one)
	}
	return out
}

// box is what is ticked, or written into.
func box(x, y, wide, high float64) item {
	var p drawing.Path
	return pathItem{scale: 1, path: *p.Rect(x, y, x+wide, y+high), pen: drawing.Pen{Weight: rule, Ink: drawing.Dark}}
}

func (s *setter) ask(a *document.Ask, n int, boxes, wide, row float64) slab {
	var one slab
	one.put(0, 0, stroke(0, 0, wide, 0, drawing.Pen{Weight: hairline, Ink: drawing.Chalk, Butt: true}))
	name := fill(s.label(a.Title, sansBold(), s.size*figureText, drawing.NoInk), askName-2*askRing-4)
	how := fill(s.atoms(document.Phrase{document.Say(a.How)}, s.size*tableText, false), boxes-askName-4)
	one.high = max(askBoxHigh+2, row*float64(max(len(how), len(name)))+2)
	middle := one.high / 2
	var ring drawing.Path
	one.put(0, 0, pathItem{scale: 1, path: *ring.Disc(askRing, middle, askRing), pen: drawing.Pen{Weight: rule, Ink: drawing.Red}})
	number := strconv.Itoa(n)
	size := s.size * figureText
	w := sansBold().wide(number, size)
	one.putLine(textLine{pieces: []fragment{{setting: setting{face: sansBold(), size: size}, text: number, wide: w}}}, askRing-w/2, middle-row/2, row)
	for i, l := range name {
		one.putLine(l, 2*askRing+2.4, middle+row*(float64(i)-float64(len(name))/2), row)
	}
	for i, l := range how {
		one.putLine(l, askName, middle+row*(float64(i)-float64(len(how))/2), row)
	}
	for k := range 2 {
		one.put(0, 0, box(boxes+float64(k)*(askBoxWide+askApart), middle-askBoxHigh/2, askBoxWide, askBoxHigh))
	}
	return one
}
