package document

import (
	"strconv"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/say"
)

// phrase adds inlines.
func (h *HTML) phrase(p Phrase) *HTML {
	below := false
	for i := range p {
		r := &p[i]
		switch {
		case r.Figure != nil:
			h.figure(r.Figure)
		case r.When != nil:
			h.when(r)
		case r.Behind != nil:
			h.opening(r)
		case r.Voice == Below:
			below = true
			h.Put(`<div class="below">`).Say(r.Words)
		default:
			h.run(r, i == 0)
		}
	}
	if below {
		h.Put("</div>")
	}
	return h
}

// voices are the elements of voices; those that come after other words stand
// apart from them.
var voices = [...]struct {
	name, open, shut string
	apart            bool
}{
	Strong: {"strong", "<b>", "</b>", false}, Small: {"small", "<small>", "</small>", true}, Cited: {"cited", "<cite>", "</cite>", true}, Measured: {name: "measured"},
	Good: {"good", `<b class="good">`, "</b>", true}, Bad: {"bad", `<b class="bad">`, "</b>", true}, Below: {name: "below"},
}

// Apart reports whether what is said in the voice stands apart from the words
// before it.
func (v Voice) Apart() bool { return voices[v].apart }

func (h *HTML) run(r *Inline, first bool) {
	v := &voices[r.Voice]
	if v.apart && !first {
		h.Put(" ")
	}
	placed := r.ID != "" && h.alone == nil
	leads := r.Anchor != "" && h.alone == nil || r.Page != "" && h.Href != nil && h.Href(r.Page) != ""
	switch {
	case placed && leads:
		h.Put("<span").anchor(r.ID).Put(">")
	case placed: // a tap gives its address
		h.Put(`<a class="here"`).anchor(r.ID).Put(` href="#`).Say(r.ID).Put(`">`)
	}
	h.Put(v.open)
	foreign := r.Language != ""
	if foreign {
		h.Put("<span").attribute("lang", PlainTag(r.Language)).Put(">")
	}
	if leads {
		h.Put(`<a href="`).way(r).Put(`">`)
	}
	h.drawn(r.Draw)
	if r.Voice == Measured {
		h.measured(r.Words, r.Other)
	} else {
		h.Say(r.Words)
	}
	if leads {
		h.Put("</a>")
	}
	if foreign {
		h.Put("</span>")
	}
	h.Put(v.shut)
	switch {
	case placed && leads:
		h.Put("</span>")
	case placed:
		h.Put("</a>")
	}
}

// way adds where an inline leads.
func (h *HTML) way(r *Inline) *HTML {
	switch {
	case r.Page != "":
		h.Say(h.Href(r.Page))
	case h.Rules != nil:
		h.leave(gap{kind: pageGap, anchor: r.Anchor})
	}
	if r.Anchor != "" {
		h.Put("#").Say(r.Anchor)
	}
	return h
}

func (h *HTML) when(r *Inline) {
	stamp, words := "2006-01-02", dayForm
	if r.When.Hour()+r.When.Minute() > 0 {
		stamp, words = "2006-01-02T15:04", momentForm
	}
	if r.Anchor != "" && h.alone == nil { // its own place
		h.Put(`<a class="here" href="#`).Say(r.Anchor).Put(`">`)
		defer h.Put("</a>")
	}
	h.Put(`<time datetime="`).Say(r.When.Format(stamp)).Put(`">`).Say(r.When.Format(words)).Put("</time>")
}

func (h *HTML) opening(r *Inline) {
	h.opens = true
	h.Put("<details><summary>").Say(r.Words).Put("</summary>")
	for _, k := range r.Behind.Workings {
		h.working(k)
	}
	for i, line := range r.Behind.Say {
		h.Put([...]string{"<p>", "<br>"}[min(i, 1)]).Say(line)
	}
	if c := r.Behind.Source; c != "" {
		h.Put("<br><cite>").Say(c).Put("</cite>")
	}
	if len(r.Behind.Say) > 0 {
		h.Put("</p>")
	}
	h.Put("</details>")
}

// figure adds a figure that opens its working where it stands.
func (h *HTML) figure(f *figure.Figure) *HTML {
	switch {
	case f.ID == "":
		return h
	case h.alone != nil: // who reads it was given what it may show
		return h.measured(h.Shown(f.Value))
	case restsOnPrivate(f):
		return h.Put("private")
	case f.AsWritten():
		return h.measured(h.Shown(f.Value))
	}
	h.opens = true
	h.Put("<details><summary>").measured(h.Shown(f.Value)).Put("</summary><p")
	if h.Rules != nil { // on the page of its garment it has an address
		h.leave(gap{kind: placeGap, anchor: f.ID})
		h.figures = append(h.figures, f.ID)
	}
	if !f.Value.Known() {
		return h.Put(">because ").Say(f.Value.Why).Put("</p></details>")
	}
	h.Put(">").reached(&f.Working)
	h.goesInto(f)
	return h.Put("</p></details>")
}

// FigureLed adds a figure within a sentence: its value, which leads to where the garment's
// pages open its working. Nothing stands for one that rests on what is private.
func (h *HTML) FigureLed(f *figure.Figure) {
	switch {
	case restsOnPrivate(f):
		h.Put("private")
		return
	case h.Rules == nil || f.AsWritten():
		h.measured(h.Shown(f.Value))
		return
	}
	h.leave(gap{kind: leadGap, anchor: f.ID})
	h.measured(h.Shown(f.Value))
	h.leave(gap{kind: endGap, anchor: f.ID})
}

// mostNamed is how many figures that rest on one are named with it.
const mostNamed = 3

// goesInto names the figures a figure goes into, those of the same thing by
// their titles alone. Where there are many the first are named, and the rest
// counted.
func (h *HTML) goesInto(f *figure.Figure) {
	if h.Lineage == nil {
		return
	}
	all := h.Lineage.Figures()
	said, more := 0, 0
	for _, at := range h.Lineage.Nearest(f.ID) {
		up := all[at]
		switch {
		case restsOnPrivate(up):
			continue
		case said == mostNamed:
			more++
			continue
		}
		h.Put([...]string{"<br>goes into ", ", "}[min(said, 1)])
		if up.Of != "" && up.Of != f.Of {
			h.Say(up.Of).Put(": ")
		}
		h.Say(up.Title)
		said++
	}
	if more > 0 {
		h.Put(say.Of("document.and")).Put(strconv.Itoa(more)).Put(say.Of("document.more"))
	}
}

// restsOnPrivate reports whether a figure holds money or names a wearer's file.
// Such figures are of a type of their own and never come here; this is the
// last door, should one slip through the others.
func restsOnPrivate(f *figure.Figure) bool {
	if f.Value.Money != nil {
		return true
	}
	return f.Working.AnyPlace(func(at fault.Pos) bool {
		return strings.HasPrefix(at.File(), "content/wearers/")
	})
}

// measured adds a value so that a line may end only between its two units; the
// second one is small print, which stands below the first in a table: "12 mm"
// above "(1/2 in)".
func (h *HTML) measured(words, other string) *HTML {
	h.unbroken(words)
	if other != "" {
		h.Put(" <small")
		if h.alone == nil { // readers of pages choose their units
			h.Put(` class="o"`)
		}
		h.Put(">(").unbroken(other).Put(")</small>")
	}
	return h
}

// unbroken adds words between which no line ends.
func (h *HTML) unbroken(words string) *HTML {
	if h.alone != nil {
		words = Clean(words)
	}
	for from := 0; ; {
		at := strings.IndexByte(words[from:], ' ')
		if at < 0 {
			h.Out = drawing.Escape(h.Out, words[from:])
			return h
		}
		h.Out = append(drawing.Escape(h.Out, words[from:from+at]), "\u00a0"...)
		from += at + 1
	}
}

// working adds the rule, the sum, what went in and the source. A page holds
// hundreds of workings, so each says nothing twice: a sum that only repeats
// the value is left out, what went in is named without its value where the sum
// shows it, neighbours from one line share its place, and plain arithmetic
// names no source.
func (h *HTML) working(k *figure.Working) *HTML { return h.Put("<p>").reached(k).Put("</p>") }

// reached says it in a paragraph that is open.
func (h *HTML) reached(k *figure.Working) *HTML {
	begun := false
	line := func() { // no line before the first
		if begun {
			h.Put("<br>")
		}
		begun = true
	}
	number := -1
	if k.Rule != "" {
		line()
		if h.Rules != nil {
			number = h.Rules.number(k)
			h.leave(gap{kind: ruleGap, rule: number})
		} else {
			h.Say(k.Rule)
		}
	}
	if k.Tells() {
		line()
		h.Put("= ").Say(k.Sum())
	}
	h.inputRoom = k.AppendInputs(h.inputRoom)
	h.inputs(h.inputRoom, line)
	if number >= 0 {
		h.leave(gap{kind: sourceGap, rule: number})
	} else if c := cited(k.Source); c != "" {
		line()
		h.Put("<cite>").Say(c).Put("</cite>")
	}
	return h
}

// mostInputs is how many inputs a working on a page names; of more than that
// the first are named and the rest counted. The terminal has them all.
const mostInputs = 5

// inputs adds what went in.
func (h *HTML) inputs(list []figure.Input, line func()) {
	open := fault.Pos{} // the place that the inputs just written share
	said, more := 0, 0
	for i := range list {
		in := &list[i]
		placed := in.At.Given() || in.Kind == figure.Default
		if in.InSum && !placed {
			continue
		}
		if said == mostInputs {
			more++
			continue
		}
		if said > 0 && in.At.Given() && in.At.Source == open.Source && in.At.Line == open.Line {
			h.Put(", ")
		} else {
			h.closePlace(open)
			line()
		}
		h.Say(in.Name)
		if !in.InSum {
			h.Put(" ").Say(in.Value)
		}
		if in.Kind == figure.Default {
			h.Put(" <i>default</i>")
		}
		open = in.At
		said++
	}
	h.closePlace(open)
	if more > 0 {
		line()
		h.Put(say.Of("document.and-2")).Put(strconv.Itoa(more)).Put(say.Of("document.more"))
	}
}

func (h *HTML) closePlace(at fault.Pos) {
	if at.Given() {
		h.Put(" <i>").Say(h.position(at)).Put("</i>")
	}
}

// position is a position in a file, short: "line 14" in the record of the page itself,
// which the page names once, else the file within the content and the line.
func (h *HTML) position(at fault.Pos) string {
	var room [64]byte
	file := at.File()
	if rest, ok := strings.CutPrefix(file, h.Folder+"/"); ok && h.Folder != "" {
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
