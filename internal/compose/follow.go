package compose

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// oneByOne heads the seams and hems of which each is followed by itself.
const oneByOne = "one-by-one"

// followAll tells of each seam and hem, in the order of work, all that belongs to it in
// one place: its edges, how it was sewn, by which step, how long that took, on which
// days, what was seen and changed, and what it can give.
func followAll(d *Draft, b *notebook.BuildPage, list []madeThing) {
	if len(list) == 0 {
		return
	}
	d.Add(document.Turn{}, document.Heading{Level: 3, ID: oneByOne, Words: say.Of("compose.one-by-one-as-they-were-sewn")})
	f := following{Draft: d, page: b, steps: toStep(b)}
	for i := range list {
		f.follow(&list[i])
		d.Add(document.Turn{})
	}
}

// followed are the places of what is told of one by one.
func followed(list []madeThing) map[string]bool {
	out := map[string]bool{}
	for i := range list {
		out[list[i].anchor] = true
	}
	return out
}

// A following tells of one seam or hem after the other.
type following struct {
	*Draft
	page  *notebook.BuildPage
	steps func(string) document.Inline
	facts document.Facts
}

// say adds a fact of phrases, where there are any.
func (d *following) say(term string, says ...document.Phrase) {
	fact := document.Fact{Term: term}
	for _, p := range says {
		if len(p) > 0 {
			fact.Says = append(fact.Says, p)
		}
	}
	if len(fact.Says) > 0 {
		d.facts.Items = append(d.facts.Items, fact)
	}
}

func (d *following) follow(m *madeThing) {
	d.facts = document.Facts{}
	sides, differ := d.sides(m)
	for i, side := range sides {
		d.say([...]string{"edges", say.Of("compose.sewn-to"), "with"}[min(i, 2)], d.edgesOf(side))
	}
	length := []document.Inline{document.Of(m.length)}
	if differ != nil && differ.Differ.Value.Known() && !differ.Meets {
		length = append(length, document.Verdict(false, "", doesNotMeet))
	}
	d.say("length", d.Phrase(length...))
	d.say("sewn", d.Phrase(append([]document.Inline{document.Lead(string(m.way.Address), m.kind.Title),
		document.As(document.Small, d.sewnWords(m))}, d.stepOf(m)...)...))
	d.say("time", d.timeOf(m))
	d.say("days", d.daysOf(m)...)
	d.say("changed", d.changesOf(sides)...)
	d.say(say.Of("compose.can-give"), d.givesOf(sides)...)
	if m.note != "" {
		d.say("note", d.Phrase(document.Say(m.note)))
	}
	one := document.Section{As: "follow", ID: m.anchor, Level: 4, Head: strconv.Itoa(m.Number) + ". " + m.Name}
	one.Blocks = d.Within(func() {
		if way := WaySmall(&garment.Way{Type: m.kind, Measures: m.measures}); way != nil {
			d.Add(document.Sketch{Draw: func() *drawing.Drawing { return way }})
		}
		d.Add(d.facts)
		d.picturesOf(m)
	})
	d.Add(one)
}

// sides are the edges that a seam joins, side by side; of a hem its edges. The seam is
// nil where it is none.
func (d *following) sides(m *madeThing) (sides [][]garment.EdgeUse, seam *garment.Seam) {
	if m.Finish {
		for _, f := range d.page.Finishes {
			if f.Name == m.Name {
				return [][]garment.EdgeUse{f.Edges}, nil
			}
		}
		return nil, nil
	}
	for _, s := range d.page.Seams {
		if s.Name != m.Name {
			continue
		}
		sides = append(sides, s.Sides[0].Edges, s.Sides[1].Edges)
		for i := range s.Plies {
			sides = append(sides, s.Plies[i].Edges)
		}
		return sides, s
	}
	return nil, nil
}

// edgesOf names edges, each leading to its piece.
func (d *following) edgesOf(list []garment.EdgeUse) document.Phrase {
	var out []document.Inline
	for _, e := range list {
		if e.Piece == nil || e.Edge == nil {
			continue
		}
		if len(out) > 0 {
			out = append(out, document.Say(", "))
		}
		to := edgeAnchor(e.Edge)
		if e.Edge.Index < 0 { // a line on the piece, which has no row among its edges
			to = e.Piece.Anchor
		}
		out = append(out, document.Inline{Words: e.Piece.Name + " " + e.Edge.Name, Anchor: to})
	}
	return d.Phrase(out...)
}

// edgeAnchor is where an edge of a piece is led to: "piece.front.edge.side". It is what
// the names of its figures begin with.
func edgeAnchor(e *garment.PieceEdge) string { return strings.TrimSuffix(e.Length.ID, ".length") }

// sewnWords say whether a seam is sewn flat or in the round, and what it closes.
func (d *following) sewnWords(m *madeThing) string {
	how, closes := "", ""
	if m.Finish {
		if by, round := d.page.Together.FinishingOf(m.Name); by != nil {
			how = wayOfSewing(OnPage, round)
		}
	} else {
		how, closes = HowSewn(d.page.Together, OnPage, m.Name)
	}
	return joined(how, closes)
}

// stepOf leads to the step that sews it, and says what that step is.
func (d *following) stepOf(m *madeThing) []document.Inline {
	to := d.steps(m.StepID)
	if to.Words == "" {
		return nil
	}
	return []document.Inline{document.As(document.Below, "in "), to, document.Say(": " + PlainWords(d.page.Steps[m.step].Record.Do.V))}
}

// timeOf says how long its step took, of how long it was planned to take.
func (d *following) timeOf(m *madeThing) document.Phrase {
	if m.step < 0 {
		return nil
	}
	s := &d.page.Steps[m.step]
	out := []document.Inline{}
	var clocked, planned time.Duration
	if s.Spent.Value.Known() {
		out = append(out, document.Of(&s.Spent))
		clocked = time.Duration(s.Spent.Value.Number * float64(time.Minute))
	} else {
		out = append(out, document.As(document.Measured, say.Of("compose.not-yet")))
	}
	if d.page.Timing != nil {
		if f := &d.page.Timing.Steps[m.step].Estimate.Figure; f.ID != "" && f.Value.Known() && f.Value.Number > 0 {
			words, _ := d.Two(f.Value)
			planned = time.Duration(f.Value.Number * float64(time.Minute))
			out = append(out, document.Say(say.Of("compose.of-planned", words)))
		}
	}
	if longest := max(planned, clocked); longest > 0 {
		out = append(out, document.Say(" "), document.Inline{Words: " ", Draw: func() *drawing.Drawing { return draw.Tape(planned, clocked, longest) }})
	}
	if s.Rate.ID != "" && s.Rate.Value.Known() {
		out = append(out, document.As(document.Below, ""), document.Of(&s.Rate))
	}
	if len(m.beside) > 0 {
		out = append(out, document.As(document.Below, say.Of("compose.sewn-in-one-go-with", strings.Join(m.beside, ", "))))
	}
	return d.Phrase(out...)
}

// mostTold is how many letters of a day's note are told with a seam; the journal has it whole.
const mostTold = 220

// daysOf are the days on which its step was worked on, with what was noted.
func (d *following) daysOf(m *madeThing) (says []document.Phrase) {
	if m.StepID == "" {
		return nil
	}
	form := dayForm(d.page)
	for i := range d.page.Journal {
		e := &d.page.Journal[i]
		if e.Step != m.StepID {
			continue
		}
		words := ""
		if e.For > 0 {
			words = ", " + unbroken(d.Style.Duration(e.For))
		}
		if note := shortened(e.Note.Plain(), mostTold); note != "" {
			words += ": " + note
		}
		says = append(says, d.Phrase(document.Inline{Words: e.When.Format(form), Anchor: e.Anchor}, document.Say(words)))
	}
	return says
}

// shortened is a text up to the end of a sentence or a word, if it is longer than so many bytes.
func shortened(text string, most int) string {
	text = strings.Join(strings.Fields(text), " ")
	if len(text) <= most {
		return text
	}
	for most > 0 && !utf8.RuneStart(text[most]) {
		most--
	}
	head := text[:most]
	if end := strings.LastIndexAny(head, ".!?"); end > most/2 {
		return head[:end+1]
	}
	if end := strings.LastIndexByte(head, ' '); end > 0 {
		head = head[:end]
	}
	return strings.TrimRight(head, ",;: ") + " …"
}

// changesOf are the changes of fittings to its edges.
func (d *following) changesOf(sides [][]garment.EdgeUse) (says []document.Phrase) {
	for i := range d.page.Fittings {
		f := &d.page.Fittings[i]
		for k := range f.Changes {
			c := &f.Changes[k]
			ref, ok := c.Part()
			if !ok || !usesEdge(sides, ref.Piece, ref.Edge) {
				continue
			}
			head, _, _ := strings.Cut(fittingHead(f), ",")
			says = append(says, d.Phrase(append([]document.Inline{{Words: head, Anchor: f.Anchor}, document.Say(": ")}, d.change(c)...)...))
		}
	}
	return says
}

func usesEdge(sides [][]garment.EdgeUse, piece, edge string) bool {
	for _, side := range sides {
		for _, e := range side {
			if e.Piece != nil && e.Edge != nil && e.Piece.Name == piece && e.Edge.Name == edge {
				return true
			}
		}
	}
	return false
}

// givesOf says what each of its edges can give.
func (d *following) givesOf(sides [][]garment.EdgeUse) (says []document.Phrase) {
	for _, side := range sides {
		for _, e := range side {
			if e.Piece == nil || e.Edge == nil || e.Edge.Spare.ID == "" || !gives(&e.Edge.Spare.Value.Quantity) && !gives(&e.Edge.SparePlain.Value.Quantity) {
				continue
			}
			out := []document.Inline{document.Say(e.Piece.Name + " " + e.Edge.Name + ": "), document.Of(&e.Edge.Spare)}
			if plain := &e.Edge.SparePlain; plain.ID != "" && gives(&plain.Value.Quantity) {
				out = append(out, document.Say(say.Of("compose.as-a-plain-seam-2")), document.Of(plain))
			}
			says = append(says, d.Phrase(out...))
		}
	}
	if len(says) > 0 {
		says = append(says, d.Phrase(document.Inline{Words: say.Of("compose.where-there-is-cloth-and-what-holds-2"), Anchor: "alter"}))
	}
	return says
}

// gives reports whether there is anything to let out.
func gives(q *measure.Quantity) bool { return q.Number > 0 }

// picturesOf shows the pictures of its days.
func (d *following) picturesOf(m *madeThing) {
	for i := range d.page.Journal {
		if e := &d.page.Journal[i]; e.Step == m.StepID && m.StepID != "" {
			d.photo(e.Picture, Beside)
		}
	}
}
