package label

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A Verdict says what became of one thing on a child's garment.
type Verdict uint8

// Verdicts, the mildest first.
const (
	Noted   Verdict = iota // within what is published; a caution goes with it
	Unruled                // nothing published is known of it here
	Refused                // beyond what is published
	Asked                  // the record does not say enough: nothing outweighs that
)

// A ChildMatter is one thing on a child's garment that was looked at.
type ChildMatter struct {
	Verdict Verdict
	What    string // "ribbon at the neck"
	Says    string // what is wrong, or what is published
	Hint    string // what to write or do
	kind    string // the word of kind: to write in place of the one there; may be empty
	At      fault.Pos
	Source  trade.Source
	Caution string  // of the trade's table; empty where none goes with it
	Notion  string  // the notion that it is about; empty where it is none
	Free    float64 // how long its free end is, mm; 0 where that is not written
	Most    float64 // the longest that is published for it, mm; 0 where none is, or none may be there
	Ruled   bool    // something is published of it
}

// String is what is told of it.
func (m ChildMatter) String() string { return m.What + ": " + m.Says }

// children looks at everything that children's clothes may not have, or only
// so long. What is not classed is asked about.
func (w *reading) children() {
	child, who, ok := w.whoseChild()
	if !ok {
		return
	}
	w.child = witness{who.what, who.at}
	for i := range w.b.Notions {
		w.childNotion(&w.b.Notions[i], child)
	}
	w.childStrips(child)
	if trade.Children().Is(child) {
		w.childPieces()
		w.childNightwear()
	}
	for i := range w.out.Children {
		if m := &w.out.Children[i]; m.Verdict != Noted {
			w.faults.LookAgain(m.At, m.Hint, m.String()).InsteadAt(m.At, "", m.kind)
		}
	}
}

// whoseChild reads what child it is for; ok is false for grown wearers.
// Whoever is not known but looks like a child is taken for a young one.
func (w *reading) whoseChild() (child trade.YoungWearer, who witness, ok bool) {
	f := w.b.For
	child = trade.YoungWearer{Age: -1, Tall: f.Height.V.MM(), Girl: f.Who.V == "girl"}
	switch {
	case f.Age.Given():
		child.Age = f.Age.V
		return child, witness{w.Join("for a child of ", words.Number(f.Age.V)), f.Age.At}, f.Age.V < growing
	case trade.WhoIs(f.Who.V) == trade.Child && f.Height.Given():
		return child, witness{w.Join("for a child ", w.tape().Exact(child.Tall), " tall"), f.Height.At}, true
	case trade.WhoIs(f.Who.V) == trade.Child:
		return child, witness{w.Join("for a ", f.Who.V, " whose age is not written, so taken to be young"), f.Who.At}, true
	case trade.WhoIs(f.Who.V) != trade.Anyone:
		return child, who, false
	}
	if w.looksChild() {
		return trade.YoungWearer{Age: -1}, witness{say.Of("label.it-looks-like-a-childs-and-the"), w.b.At}, true
	}
	w.privateChild()
	return child, who, false
}

// growing is the age from which nothing here asks whether a wearer is a child:
// the practice of the United States goes to size 16.
const growing = 17

var writeFor = say.Of("label.as-for-or-for-woman")

// looksChild reports whether the record's own words or measurements say child
// where for: does not, and asks for it.
func (w *reading) looksChild() bool {
	t := trade.Children()
	ask := func(at fault.Pos, says string) {
		w.out.Children = append(w.out.Children, ChildMatter{Verdict: Asked, What: say.Of("label.who-it-is-for"), Says: says, Hint: writeFor, At: at})
	}
	for _, words := range []record.Text{w.b.Garment, w.b.Name.Text, w.b.Summary.Text} {
		if t.SaysChild(words.V) {
			ask(words.At, say.Of("label.not-written-and-its-words-speak-of"))
			return true
		}
	}
	if h := w.b.For.Height; h.Given() && h.V.MM() < t.SmallBody.Height {
		ask(h.At, say.Of("label.not-written-and-the-height-is-a"))
		return true
	}
	small := map[string]float64{"chest": t.SmallBody.Chest, "bust": t.SmallBody.Chest, "height": t.SmallBody.Height, "body height": t.SmallBody.Height}
	for i := range w.b.DraftedFor {
		d := &w.b.DraftedFor[i]
		if most := small[w.t.tailor.BodyOf(d.Name.V)]; d.V.Given() && d.V.V.MM() < most {
			ask(d.V.At, say.Of("label.not-written-and-it-is-drafted-for"))
			return true
		}
	}
	return false
}

// privateChild asks who a garment is for where only the wearer's private file
// says that it is a child. Nothing of the file is told, and no page changes.
func (w *reading) privateChild() {
	name := w.b.Wearer.Open(record.ToCheck)
	if !name.Given() {
		return
	}
	kept, ok := w.t.room.Wearers[name.V]
	if !ok {
		return
	}
	wearer := kept.Open(record.ToCheck)
	age := wearer.For.Age
	child := trade.WhoIs(wearer.For.Who.V) == trade.Child || age.Given() && age.V < growing
	if grown := wearer.For.Given() && !child; !grown && !child {
		t := trade.Children()
		child = w.smaller(wearer, "chest", t.SmallBody.Chest) || w.smaller(wearer, "bust", t.SmallBody.Chest) || w.smaller(wearer, "height", t.SmallBody.Height)
	}
	if child {
		says := say.Of("label.not-written-so-that-what-hangs-on")
		w.out.Children = append(w.out.Children, ChildMatter{Verdict: Asked, What: say.Of("label.who-it-is-for"), Says: says, Hint: writeFor, At: name.At})
		w.faults.LookAgain(name.At, writeFor, say.Of("label.who-it-is-for-2", says))
	}
}

func (w *reading) smaller(wearer *record.Wearer, name string, than float64) bool {
	l, ok := w.t.tailor.BodyLength(wearer.Body, name)
	return ok && l.V.MM() < than
}

// childNotion judges one notion.
func (w *reading) childNotion(n *record.Notion, child trade.YoungWearer) {
	t := trade.Children()
	name, open, clash := t.Classify(n.InFull(), n.Kind.V)
	place := t.BodyPlace(n.InFull(), n.Where.V)
	m := ChildMatter{What: n.Name.V, At: n.At}
	if place != "" && place != "other" {
		m.What = say.Of("label.at-the", n.Name.V, place)
	}
	kind, _ := t.KindNamed(name)
	switch {
	case !t.Is(child) && !(kind.Free || name == ""): // too old for all but the sizes of the United States
		return
	case clash != "" && name != "": // its words say what it is
		m.Verdict, m.Says, m.Hint = Asked, say.Of("label.kind-does-not-fit-for-this-is", n.Kind.V, clash), say.Of("label.write-kind", clash)
		m.At, m.kind = n.Kind.At, clash
	case name == "" && t.Is(child):
		m.Verdict, m.Says = Asked, say.Of("label.on-a-childs-garment-say-what-it")
		m.Hint = say.Of("label.add-kind-and-one-of-or", strings.Join(open[:len(open)-1], ", "), open[len(open)-1])
	case kind.Free && (place == "" || place == "other") && t.Is(child):
		m.Verdict, m.Says, m.Hint = Asked, say.Of("label.on-a-childs-garment-say-where-it"), say.Of("label.add-where-neck-hood-waist-back-or")
	default:
		w.childLimits(m, n, kind, place, child)
		return
	}
	m.Caution = cautionAt(t, place, child)
	w.out.Children = append(w.out.Children, m)
}

// childStrips looks at the cords that seams and finishes take of themselves, as a casing
// its drawstring, as at notions that hang free.
func (w *reading) childStrips(child trade.YoungWearer) {
	for _, f := range w.g.Finishes {
		for i := range f.Strips {
			s := &f.Strips[i]
			if s.As != trade.Cord || !strings.Contains(s.What, "drawstring") {
				continue
			}
			at := f.Record.At
			n := record.Notion{At: at, Name: record.Text{V: s.What, At: at}, Where: record.Text{V: w.placeOf(f), At: at}}
			w.childNotion(&n, child)
		}
	}
}

// placeOf is where on the body a finish lies, by its name or those of its edges; "" where
// neither tells.
func (w *reading) placeOf(f *garment.Finish) string {
	t := trade.Children()
	names := []string{f.Name}
	for _, u := range f.Edges {
		names = append(names, u.Edge.Level, u.Edge.Name, u.Piece.Name)
	}
	for _, name := range names {
		if place := t.BodyPlace(name, ""); place != "" && place != "other" {
			return place
		}
		for _, place := range wherePlaces {
			if words.AnyOf(name, []string{place}) {
				return place
			}
		}
	}
	return ""
}

// wherePlaces are places that a notion's where: may name and that edges are called after.
var wherePlaces = []string{"waist", "hem", "sleeve", "ankle", "chest", "shoulder"}

// cautionAt is the caution on cords that goes with a place.
func cautionAt(t *trade.ChildTable, place string, child trade.YoungWearer) string {
	switch {
	case !slices.Contains([]string{"neck", "hood", "head", "", "other"}, place):
		return "cords-child-elsewhere"
	case t.Young(child):
		return "cords-young-child"
	}
	return "cords-older-child"
}

// childLimits sets a notion beside what is published of its kind.
func (w *reading) childLimits(m ChildMatter, n *record.Notion, kind trade.ChildKind, place string, child trade.YoungWearer) {
	t := trade.Children()
	l, ok := t.LimitFor(kind.Name, place, child)
	switch {
	case ok:
		w.childLimit(m, n, kind, l)
	case kind.Free && t.Is(child):
		m.Verdict, m.Caution = Unruled, cautionAt(t, place, child)
		m.Says = say.Of("label.no-published-length-for-a-there-is", kind.Name)
		m.Hint = say.Of("label.leave-it-off-or-sew-it-flat")
		w.out.Children = append(w.out.Children, m)
	case kind.Name == "small part" && mouthing(child):
		m.Verdict, m.Caution, m.Source = Noted, "small-parts", "common practice, no source"
		m.Says = say.Of("label.it-goes-into-the-mouth-when-it")
		w.out.Children = append(w.out.Children, m)
	}
	if worn, told := w.wornInStates(); worn {
		if l, ok := t.LimitInStates(kind.Name, place, w.b.Garment.V, child); ok {
			if !told {
				l.Caution = ""
			}
			w.childLimit(m, n, kind, l)
		}
	}
}

// wornInStates reports whether a garment is made for the United States: by the
// workroom's rules, or by where its wearer lives, which may not be told.
func (w *reading) wornInStates() (worn, told bool) {
	if w.t.room.Workroom.Rules.V == "US" {
		return true, true
	}
	kept, ok := w.t.room.Wearers[w.b.Wearer.Open(record.ToCheck).V]
	if !ok {
		return false, false
	}
	country, ok := trade.CountryNamed(kept.Open(record.ToCheck).Country.V)
	return ok && country.Code == "US", false
}

// mouthing reports whether a child may still put everything into its mouth:
// under 3 years, or up to 1000 mm tall (common practice, no source).
func mouthing(c trade.YoungWearer) bool { return c.Age < 3 && (c.Age >= 0 || c.Tall <= 1000) }

func (w *reading) childLimit(m ChildMatter, n *record.Notion, kind trade.ChildKind, l trade.ChildLimit) {
	m.Says, m.Source, m.Caution = l.Says, l.Source, l.Caution
	free := n.Free
	if !free.Given() && kind.Whole {
		free = n.Length
	}
	m.Notion, m.Most, m.Free, m.Ruled = n.Name.V, l.Most, free.V.MM(), true
	switch {
	case l.Most == 0:
		m.Verdict, m.Hint = Refused, say.Of("label.take-it-off-or-use-elastic-or")
	case !free.Given() && !kind.Free:
		return // a pull of no written length is one as it comes on a zip
	case !free.Given():
		m.Verdict, m.Says = Asked, say.Of("label.on-a-childs-garment-say-how-long", l.Says)
		m.Hint = say.Of("label.measure-it-with-the-garment-open-to")
	case free.V.MM() > l.Most:
		m.Verdict = Refused
		m.Says = w.Join(w.tape().Exact(free.V.MM()), " is too long: ", l.Says)
		m.Hint = say.Of("label.make-it-or-shorter", w.tape().Exact(l.Most))
	case !kind.Free:
		return
	default:
		m.Verdict = Noted
	}
	w.out.Children = append(w.out.Children, m)
}

// childPieces asks about pieces whose name says that they hang, and of which
// no notion tells how.
func (w *reading) childPieces() {
	t := trade.Children()
	for _, p := range w.g.Pieces {
		if !t.MayHang(p.Name) || w.notionNames(p.Name) {
			continue
		}
		w.out.Children = append(w.out.Children, ChildMatter{
			Verdict: Asked, What: say.Of("label.piece", p.Name), Says: say.Of("label.on-a-childs-garment-say-what-it-2"),
			Hint: say.Of("label.write-it-under-notions-as", p.Name), At: p.Record.At, Caution: "cords-child-elsewhere",
		})
	}
}

// notionNames reports whether a notion is called as a piece is.
func (w *reading) notionNames(piece string) bool {
	for i := range w.b.Notions {
		what := words.Stem(strings.ToLower(w.b.Notions[i].Name.V))
		if name := words.Stem(strings.ToLower(piece)); strings.Contains(name, what) || strings.Contains(what, name) {
			return true
		}
	}
	return false
}

// childNightwear asks how the maker knows that a child may sleep in it.
func (w *reading) childNightwear() {
	t := trade.Children()
	for _, words := range []record.Text{w.b.Garment, w.b.Name.Text} {
		night, perhaps := t.IsNightwear(words.V)
		if !night && !perhaps {
			continue
		}
		m := ChildMatter{
			Verdict: Asked, What: words.V, At: words.At, Caution: "child-nightwear",
			Says:   say.Of("label.childrens-nightwear-has-rules-on-how-it"),
			Hint:   say.Of("label.say-under-packet-nightwear-how-it-was"),
			Source: "EN 14878:2007 (iTeh summary of SIST EN 14878:2008); 16 CFR 1615 and 1616",
		}
		if perhaps && !night {
			m.Says = say.Of("label.may-be-slept-in-and", m.Says)
		}
		if answer := w.b.Packet.Nightwear; strings.TrimSpace(answer.V) != "" {
			m.Verdict, m.Says, m.Hint = Noted, say.Of("label.the-record-says", m.Says, answer.V), ""
		}
		w.out.Children = append(w.out.Children, m)
		if _, told := w.wornInStates(); told {
			m.Verdict, m.Caution = Noted, "child-nightwear-us"
			w.out.Children = append(w.out.Children, m)
		}
		return
	}
}
