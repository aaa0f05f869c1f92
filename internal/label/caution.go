package label

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A warner holds the trade's cautions ready to be asked of many garments: the
// words of their conditions cut to their stems once.
type warner struct {
	list  []trade.Caution
	words []map[fact][]string // by caution: the stems each of its lists asks for
	flags map[*record.Cloth]trade.Flag
}

// A fact is one kind of thing a caution asks about.
type fact uint8

const (
	aGarment fact = iota
	aNotion
	aMaterial
	aTool
	aMarket
	facts
)

func newWarner(room *record.Room) *warner {
	w := &warner{list: trade.Cautions(), flags: map[*record.Cloth]trade.Flag{}}
	for i := range w.list {
		c := &w.list[i].When
		asked := map[fact][]string{}
		for f, list := range [facts][]string{c.Garments, c.Notions, c.Materials, c.Tools, c.Markets} {
			for _, word := range list {
				asked[fact(f)] = append(asked[fact(f)], words.Stem(word))
			}
		}
		w.words = append(w.words, asked)
	}
	for _, c := range room.Cloths {
		w.flags[c] = trade.Flammability(c.Fibres.Names(), c.MassAsBought(), trade.Surface(c.Surface.Or("plain")))
	}
	return w
}

// A witness is what in a record answers to a caution's words.
type witness struct {
	what string
	at   fault.Pos
}

// witnesses are the facts of one garment, by the stems of their words.
type witnesses struct {
	by    [facts]map[string]witness
	sold  bool
	ships bool
}

func (f *witnesses) add(kind fact, word, what string, at fault.Pos) {
	if word == "" {
		return
	}
	if f.by[kind] == nil {
		f.by[kind] = make(map[string]witness, 16)
	}
	s := words.Stem(word)
	if _, ok := f.by[kind][s]; !ok {
		f.by[kind][s] = witness{what, at}
	}
}

// cautions evaluates the trade's table on the record.
func (w *reading) cautions() {
	f := w.witnesses()
	for i := range w.t.warner.list {
		c := &w.t.warner.list[i]
		if found, ok := w.holds(i, f); ok {
			w.out.Cautions = append(w.out.Cautions, w.caution(c, found))
		}
	}
	w.techniqueCautions()
}

func (w *reading) caution(c *trade.Caution, found []witness) Caution {
	out := Caution{ID: c.ID, Title: c.Title, Text: w.Join(c.Text, " ", c.Defer), Why: say.Of("label.every-garment"), At: w.b.At, Source: c.Source}
	if len(found) > 0 {
		out.At = found[0].at
		why := make([]string, len(found))
		for i, one := range found {
			why[i] = one.what
		}
		out.Why = strings.Join(why, "; ")
	}
	return out
}

// holds asks whether every part of a caution's condition holds, and collects
// what in the record answers to each.
func (w *reading) holds(i int, f *witnesses) (found []witness, ok bool) {
	c := &w.t.warner.list[i].When
	if c.Always {
		return nil, true
	}
	if c.Children {
		return w.childCalls(w.t.warner.list[i].ID)
	}
	if len(c.Flag) > 0 {
		cloth, ok := w.flagged(c)
		if !ok {
			return nil, false
		}
		found = append(found, cloth...)
	}
	for kind := range facts {
		asked := w.t.warner.words[i][kind]
		if len(asked) == 0 {
			continue
		}
		one, ok := f.any(kind, asked)
		if !ok {
			return nil, false
		}
		found = append(found, one)
	}
	if c.Sold && !f.sold || c.Ships && !f.ships {
		return nil, false
	}
	if c.Sold {
		found = append(found, witness{say.Of("label.it-is-made-for-someone"), w.b.At})
	}
	if c.Ships {
		found = append(found, witness{say.Of("label.it-is-sent"), w.b.At})
	}
	return found, len(found) > 0
}

func (f *witnesses) any(kind fact, asked []string) (witness, bool) {
	for _, word := range asked {
		if one, ok := f.by[kind][word]; ok {
			return one, true
		}
	}
	return witness{}, false
}

// childCalls collects what on a child's garment calls for a caution.
func (w *reading) childCalls(id string) (found []witness, ok bool) {
	for i := range w.out.Children {
		m := &w.out.Children[i]
		if m.Caution != id {
			continue
		}
		if found == nil {
			found = append(found, w.child)
		}
		found = append(found, witness{m.What, m.At})
	}
	return found, found != nil
}

// flagged finds the cloths whose flammability flag a caution asks for.
func (w *reading) flagged(c *trade.Condition) ([]witness, bool) {
	var out []witness
	for i := range w.b.Cloth {
		use := &w.b.Cloth[i]
		cloth, ok := w.t.room.Cloth(use.V.Use.V)
		if !ok {
			continue
		}
		flag := w.t.warner.flags[cloth]
		if !slices.Contains(c.Flag, string(flag.State)) || len(c.Surfaces) > 0 && !slices.Contains(c.Surfaces, cloth.Surface.Or("plain")) {
			continue
		}
		why := w.Join(use.Name.V, ", ", cloth.Name.Or(cloth.Slug), ": ", flag.Reason)
		if flag.Working != "" {
			why = w.Join(why, " (", flag.Working, ")")
		}
		out = append(out, witness{why, use.V.At})
	}
	return out, len(out) > 0
}

// witnesses gathers what cautions ask about.
func (w *reading) witnesses() *witnesses {
	f := &witnesses{}
	f.add(aGarment, w.b.Garment.V, w.b.Garment.V, w.b.Garment.At)
	f.add(aMarket, w.t.room.Workroom.Rules.V, say.Of("label.the-rules-the-workroom-follows"), w.t.room.Workroom.Rules.At)
	f.sold = w.b.Wearer.Open(record.ToCheck).Given()
	f.ships = w.b.Sent.Given() || w.b.State.V == "sent" || w.b.State.V == "packed" || len(w.b.Packet.Box) > 0
	for i := range w.b.Cloth {
		w.clothFacts(f, &w.b.Cloth[i])
	}
	for i := range w.b.Notions {
		w.notionFacts(f, &w.b.Notions[i])
	}
	for i := range w.b.Work {
		w.stepFacts(f, &w.b.Work[i])
	}
	for _, s := range w.g.Seams {
		for i := range s.Strips {
			f.add(aNotion, s.Strips[i].What, s.Strips[i].What, s.Record.At)
		}
	}
	for _, s := range w.g.Finishes {
		for i := range s.Strips {
			f.add(aNotion, s.Strips[i].What, s.Strips[i].What, s.Record.At)
		}
	}
	return f
}

func (w *reading) clothFacts(f *witnesses, use *record.Named[record.ClothUse]) {
	if use.Name.V == "fusing" {
		f.add(aTool, "fusing", say.Of("label.a-fusing"), use.V.At)
	}
	cloth, ok := w.t.room.Cloth(use.V.Use.V)
	if !ok {
		return
	}
	what := w.Join(use.Name.V, ", ", cloth.Name.Or(cloth.Slug))
	for i := range cloth.Fibres {
		f.add(aMaterial, cloth.Fibres[i].Name.V, what, use.V.At)
	}
	f.add(aMaterial, cloth.Weave.V, what, use.V.At)
	f.add(aMaterial, cloth.Structure.V, what, use.V.At)
}

func (w *reading) notionFacts(f *witnesses, n *record.Notion) {
	what, is := strings.ToLower(n.Name.V), n.Is()
	f.add(aNotion, what, n.Name.V, n.At)
	f.add(aNotion, is, n.Name.V, n.At)
	f.add(aMaterial, n.Material.V, n.Name.V, n.At)
	if metal(n.Material.V) {
		f.add(aNotion, w.Join("metal ", words.Stem(what)), w.Join(n.Name.V, " of ", n.Material.V), n.At)
		f.add(aNotion, w.Join("metal ", words.Stem(is)), w.Join(n.Name.V, " of ", n.Material.V), n.At)
	}
	for _, word := range strings.Fields(strings.ToLower(n.InFull())) {
		f.add(aNotion, word, n.Name.V, n.At)
	}
	for _, word := range strings.Fields(n.Material.V) {
		f.add(aMaterial, word, n.Name.V, n.At)
	}
}

func metal(material string) bool {
	for _, m := range [...]string{"metal", "steel", "brass", "nickel", "iron", "silver", "copper", "zinc", "bronze", "aluminium"} {
		if strings.Contains(material, m) {
			return true
		}
	}
	return false
}

// stepFacts reads tools and kinds of work from a step's stage, technique and
// words, singly and in pairs.
func (w *reading) stepFacts(f *witnesses, s *record.Step) {
	f.add(aTool, s.Stage.V, s.Do.V, s.At)
	f.add(aTool, s.Technique.V, s.Do.V, s.At)
	before := ""
	for word := range strings.FieldsSeq(s.Do.V) {
		word = strings.Trim(word, ",.;:()\"")
		f.add(aTool, word, s.Do.V, s.At)
		if before != "" {
			f.add(aTool, w.Join(before, " ", word), s.Do.V, s.At)
		}
		before = word
	}
}

// techniqueCautions adds the cautions that the pages of the build's techniques
// name, where they are not there yet.
func (w *reading) techniqueCautions() {
	for i := range w.b.Work {
		s := &w.b.Work[i]
		t, ok := w.t.room.Technique(s.Technique.V)
		if !ok {
			continue
		}
		for _, id := range t.Cautions {
			w.addCaution(id.V, witness{w.Join(s.Do.V, ": ", t.Name.Or(t.Slug)), s.Technique.At})
		}
	}
}

func (w *reading) addCaution(id string, why witness) {
	for i := range w.out.Cautions {
		if w.out.Cautions[i].ID == id {
			return
		}
	}
	for i := range w.t.warner.list {
		if c := &w.t.warner.list[i]; c.ID == id {
			made := w.caution(c, []witness{why})
			made.Making = true
			w.out.Cautions = append(w.out.Cautions, made)
		}
	}
}

// knows reports whether there is a caution of that ID.
func (w *warner) knows(id string) bool {
	for i := range w.list {
		if w.list[i].ID == id {
			return true
		}
	}
	return false
}

// hint offers the caution whose ID or title shares the most words with one
// that is not there, else all of them.
func (w *warner) hint(word string) string {
	best, most := "", 0
	ids := make([]string, len(w.list))
	for i := range w.list {
		c := &w.list[i]
		ids[i] = c.ID
		known := strings.Fields(words.Plain(c.ID + " " + c.Title))
		shared := 0
		for _, part := range strings.Fields(words.Plain(word)) {
			for _, k := range known {
				if words.Stem(k) == words.Stem(part) {
					shared++
					break
				}
			}
		}
		if shared > most {
			best, most = c.ID, shared
		}
	}
	if best != "" {
		return say.Of("label.did-you-mean", best)
	}
	return say.Of("label.there-are", strings.Join(ids, ", "))
}

// A Caution is a warning that the record calls for.
type Caution struct {
	ID     string // of the trade's table
	Title  string
	Text   string // what to be careful of, and that local law decides
	Why    string // what in the record called for it
	At     fault.Pos
	Source trade.Source
	Making bool // a technique's page calls for it: it concerns the making, not the wearing
}
