package record

import (
	"slices"
	"strings"

	"hembook/internal/say"
	"hembook/internal/words"
)

// A pairing makes two pieces of each pair of which a round, a seam or a finish names one
// alone, once the record is read and checked as it is written: of front a left front and a
// right front, its mirror image, with all that names them.
type pairing struct {
	b     *Build
	apart map[string]bool     // the pairs that are told apart
	seams map[string][]string // what became of a seam that is sewn once at either side
	along map[string][]string // what became of a notion that lies along either side
}

// partPairs tells the left and the right of a pair apart where the record does. What is
// kept in [Build.Whole] is the record as it is written, without its rounds: it tells how
// the garment goes together, and so which of two is the left one.
func (b *Build) partPairs() {
	w := pairing{b: b, apart: map[string]bool{}, seams: map[string][]string{}, along: map[string][]string{}}
	b.eachPieceNamed(w.named)
	if len(w.apart) == 0 {
		return
	}
	for n := -1; n < len(w.apart); {
		n = len(w.apart)
		w.follow()
	}
	b.Whole = w.whole()
	b.Seams = w.partSeams()
	for i := range b.Finishes {
		b.Finishes[i].Of = w.both(b.Finishes[i].Of)
	}
	for i := range b.Hang {
		b.Hang[i].Of = w.both(b.Hang[i].Of)
	}
	b.Lengths = w.partLengths()
	b.Notions = w.partNotions()
	b.Pieces = w.partPieces()
	w.partRest()
	for i := range b.Fittings {
		b.Fittings[i].Change = w.partChanges(b.Fittings[i].Change)
	}
}

// eachPieceNamed calls see with every name of a piece that stands before an edge, and that
// of a piece that is slashed.
func (b *Build) eachPieceNamed(see func(name string)) {
	all := func(lists ...List[EdgeRef]) {
		for _, list := range lists {
			for _, e := range list {
				see(e.Piece)
			}
		}
	}
	for i := range b.Seams {
		if s := &b.Seams[i]; !s.Place.Given() {
			all(s.Join...)
		}
	}
	for i := range b.Finishes {
		all(b.Finishes[i].Of)
	}
	for i := range b.Lengths {
		all(b.Lengths[i].Along)
	}
	for i := range b.Hang {
		all(b.Hang[i].Of)
	}
	for i := range b.Notions {
		see(b.Notions[i].Along.V.Piece)
		see(b.Notions[i].HolesOn.V.Piece)
	}
	for i := range b.Fittings {
		for k := range b.Fittings[i].Change {
			if ref, ok := b.Fittings[i].Change[k].Part(); ok {
				see(ref.Piece)
			}
		}
	}
}

// named notes a pair of which a name means one.
func (w *pairing) named(name string) {
	_, piece, ok := Handed(name)
	if !ok || w.b.pieceCalled(name) != nil {
		return
	}
	if p := w.b.pieceCalled(piece); p != nil && w.b.cutOf(p).pair() {
		w.apart[piece] = true
	}
}

// follow tells those apart that follow a pair which is: what is like it, a band that is as
// long as its edge, and what is set on it.
func (w *pairing) follow() {
	for i := range w.b.Pieces {
		p := &w.b.Pieces[i]
		if w.apart[p.Name.V] || !w.b.cutOf(p).pair() {
			continue
		}
		along := p.Band != nil && slices.ContainsFunc(w.b.BandAlong(p), func(e EdgeRef) bool { return w.apart[e.Piece] })
		if along || w.apart[p.Like.V] || w.setOn(p) {
			w.apart[p.Name.V] = true
		}
	}
}

func (w *pairing) setOn(p *Piece) bool {
	return slices.ContainsFunc(w.b.Seams, func(s Seam) bool {
		return s.Place.Given() && len(s.Join) == 2 && len(s.Join[0]) == 1 && len(s.Join[1]) == 1 && s.Join[0][0].Piece == p.Name.V && w.apart[s.Join[1][0].Piece]
	})
}

// whole is the record without its rounds, in which no pair is told apart.
func (w *pairing) whole() *Build {
	out := *w.b
	out.Fittings = nil
	out.Seams = nil
	for _, s := range w.b.Seams {
		s.Join = slices.Clone(s.Join)
		for k := range s.Join {
			s.Join[k] = slices.Clone(s.Join[k])
			for n := range s.Join[k] {
				if _, piece, ok := w.hand(s.Join[k][n]); ok {
					s.Join[k][n].Piece = piece
				}
			}
		}
		if !slices.ContainsFunc(out.Seams, func(o Seam) bool { return sameJoin(o.Join, s.Join) }) {
			out.Seams = append(out.Seams, s)
		}
	}
	return &out
}

// sameJoin reports whether two seams join the same edges, as a left one and a right one do.
func sameJoin(a, b []List[EdgeRef]) bool {
	return len(a) > 0 && slices.EqualFunc(a, b, func(x, y List[EdgeRef]) bool {
		return slices.EqualFunc(x, y, func(e, o EdgeRef) bool { return e.Piece == o.Piece && e.Edge == o.Edge && e.Part == o.Part })
	})
}

// hand is the one of a pair told apart that an edge names.
func (w *pairing) hand(e EdgeRef) (Hand, string, bool) {
	hand, piece, ok := Handed(e.Piece)
	return hand, piece, ok && w.apart[piece]
}

// onSide is an edge on one side of the body.
func (w *pairing) onSide(e EdgeRef, hand Hand) EdgeRef {
	if w.apart[e.Piece] {
		e.Piece = hand.of(e.Piece)
	} else if _, _, ok := w.hand(e); !ok {
		e.Hand = hand
	}
	return e
}

// both are edges with the left and the right one in the place of a pair.
func (w *pairing) both(list List[EdgeRef]) List[EdgeRef] {
	var out List[EdgeRef]
	for _, e := range list {
		if !w.apart[e.Piece] {
			out = append(out, e)
			continue
		}
		for _, hand := range bothHands {
			out = append(out, w.onSide(e, hand))
		}
	}
	return out
}

// partPieces makes a left and a right piece of each pair. The right one is the mirror image
// of the left; what is like another, or as long as its edge, follows that of its own side.
func (w *pairing) partPieces() []Piece {
	var out []Piece
	for _, p := range w.b.Pieces {
		switch {
		case w.apart[p.Name.V]:
			for _, hand := range bothHands {
				out = append(out, w.one(p, hand))
			}
			continue
		case w.apart[p.Like.V]:
			p = w.likeOf(p, Left)
		}
		out = append(out, p)
	}
	return out
}

// one is a piece of a pair.
func (w *pairing) one(p Piece, hand Hand) Piece {
	cut := w.b.cutOf(&p)
	name := p.Name
	out := p
	switch {
	case w.apart[p.Like.V]:
		out = w.likeOf(p, hand)
	case hand == Right && p.Band == nil:
		out = Piece{At: p.At, Note: p.Note, Like: Text{Left.of(name.V), name.At}}
	}
	out.Pair, out.Hand, out.Name = name.V, hand, Text{hand.of(name.V), name.At}
	out.Cut = Val[Cut]{Cut{N: cut.N / 2, Alike: cut.N > 2}, p.Cut.At}
	if !out.Cut.Given() {
		out.Cut.At = p.At
	}
	return out
}

// likeOf is a piece that is like a pair, like one of it.
func (w *pairing) likeOf(p Piece, hand Hand) Piece {
	p.Like.V = hand.of(p.Like.V)
	if p.Border != nil {
		border := *p.Border
		border.Along = slices.Clone(border.Along)
		for i := range border.Along {
			border.Along[i] = w.onSide(border.Along[i], hand)
		}
		p.Border = &border
	}
	return p
}

// partLengths measures at either side what is measured along a pair.
func (w *pairing) partLengths() []LengthLine {
	var out []LengthLine
	for _, l := range w.b.Lengths {
		if !slices.ContainsFunc(l.Along, func(e EdgeRef) bool { return w.apart[e.Piece] }) {
			out = append(out, l)
			continue
		}
		for _, hand := range bothHands {
			one := l
			one.Name.V, one.Along = hand.of(l.Name.V), slices.Clone(l.Along)
			for i, e := range one.Along {
				if w.apart[e.Piece] {
					one.Along[i] = w.onSide(e, hand)
				}
			}
			out = append(out, one)
			if m, ok := w.b.Measured.Get(l.Name.V); ok {
				w.b.Measured = append(slices.Clip(w.b.Measured), Named[Length]{Text{one.Name.V, l.Name.At}, m})
			}
		}
		w.b.Measured = slices.DeleteFunc(slices.Clone(w.b.Measured), func(m Named[Length]) bool { return m.Name.V == l.Name.V })
	}
	return out
}

// partRest names the pieces and seams anew in the order of work, in what must match, and in
// the order of cutting.
func (w *pairing) partRest() {
	for i := range w.b.Work {
		w.b.Work[i].Sews = anew(w.b.Work[i].Sews, w.seams)
	}
	pieces := map[string][]string{}
	for name := range w.apart {
		pieces[name] = []string{Left.of(name), Right.of(name)}
	}
	for i := range w.b.CutOrder {
		groups := slices.Clone(w.b.CutOrder[i].V)
		for k := range groups {
			groups[k] = anew(groups[k], pieces)
		}
		w.b.CutOrder[i].V = groups
	}
	var match []Matching
	for _, m := range w.b.Match {
		of, names := m.Of, w.seams[m.Of]
		if m.Piece != "" {
			of, names = m.Piece, pieces[m.Piece]
		}
		if len(names) == 0 {
			names = []string{of}
		}
		for _, name := range names {
			if m.Piece != "" {
				m.Piece = name
			} else {
				m.Of = name
			}
			match = append(match, m)
		}
	}
	w.b.Match = match
}

// anew are names with what became of each in its place.
func anew(list List[Text], became map[string][]string) List[Text] {
	var out List[Text]
	for _, t := range list {
		now := became[t.V]
		if len(now) == 0 {
			now = []string{t.V}
		}
		for _, name := range now {
			out = append(out, Text{name, t.At})
		}
	}
	return out
}

// partChanges makes a change of each of a pair of one that is of both.
func (w *pairing) partChanges(list []Change) []Change {
	var out []Change
	for i := range list {
		c := &list[i]
		switch names := w.became(c); {
		case len(names) == 0:
			out = append(out, *c)
		default:
			for _, name := range names {
				one := *c
				for _, t := range []*Text{&one.Edge, &one.Dart, &one.Pleat, &one.Gather, &one.Line, &one.Whole, &one.Notion, &one.SetOn} {
					if t.Given() {
						t.V = name
					}
				}
				out = append(out, one)
			}
		}
	}
	return out
}

// became are the names of what a change of a pair, or of what goes with it, is of now; none
// where it is of nothing that was parted.
func (w *pairing) became(c *Change) []string {
	switch {
	case c.Notion.Given():
		return w.along[c.Notion.V]
	case c.SetOn.Given():
		return w.seams[c.SetOn.V]
	}
	ref, ok := c.Part()
	if !ok || !w.apart[ref.Piece] {
		return nil
	}
	rest := ""
	if ref.Edge != "" {
		rest = "." + ref.Edge
	}
	return []string{Left.of(ref.Piece) + rest, Right.of(ref.Piece) + rest}
}

// eitherName names what is there at one side: of sides the left side.
func eitherName(hand Hand, name string, taken func(string) bool) string {
	at := strings.LastIndex(name, " ") + 1
	one := hand.of(name)
	if last := words.Stem(name[at:]); strings.HasPrefix(name[at:], last) {
		one = hand.of(name[:at] + last)
	}
	for taken(one) {
		one += say.Of("record.of-the-pair")
	}
	return one
}
