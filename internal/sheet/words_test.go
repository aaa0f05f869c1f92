package sheet

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"gopkg.in/yaml.v3"

	"hembook/internal/compose"
	"hembook/internal/fault"
	"hembook/internal/label"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// visibleFallbacks are the words that other languages need not have: they are
// in English by their nature, on a form or in a law's own words.
var visibleFallbacks = []string{"customs.", "sheet.customs", "despite.customs", "us."}

func mayFallBack(key string) bool {
	return slices.ContainsFunc(visibleFallbacks, func(p string) bool { return strings.HasPrefix(key, p) })
}

// TestEveryLanguageHasEveryWord: no word is lacking but those that may fall
// back, none is there that English does not have, and the names in braces are
// the same.
func TestEveryLanguageHasEveryWord(t *testing.T) {
	d, err := readWords()
	if err != nil {
		t.Fatal(err)
	}
	english := d.lists["en"].words
	if len(english) < 250 {
		t.Fatalf("only %d words", len(english))
	}
	for _, code := range Languages {
		for _, key := range slices.Sorted(maps.Keys(english)) {
			w, ok := d.lists[code].words[key]
			if !ok {
				if !mayFallBack(key) {
					t.Errorf("%s lacks %s", code, key)
				}
				continue
			}
			if (w.forms == nil) != (english[key].forms == nil) {
				t.Errorf("%s: %s has plural forms in one language and not in the other", code, key)
			}
			want := slices.Sorted(slices.Values(d.order[key]))
			for _, text := range w.texts() {
				if strings.TrimSpace(text) == "" {
					t.Errorf("%s: %s is empty", code, key)
				}
				if got := slices.Sorted(slices.Values(braces(text))); !slices.Equal(got, want) {
					t.Errorf("%s: %s names %v, English %v", code, key, got, want)
				}
			}
			if code != "en" && w.reviewed {
				t.Logf("%s: %s is reviewed", code, key)
			}
		}
	}
}

// categories are the plural forms whole numbers take in a language, as CLDR
// has them (by way of golang.org/x/text/feature/plural).
func categories(code string) []string {
	names := map[plural.Form]string{plural.Zero: "zero", plural.One: "one", plural.Two: "two", plural.Few: "few", plural.Many: "many", plural.Other: "other"}
	seen := map[string]bool{}
	for n := range 1000 {
		seen[names[plural.Cardinal.MatchPlural(language.MustParse(code), n, 0, 0, 0, 0)]] = true
	}
	return slices.Sorted(maps.Keys(seen))
}

func TestPluralFormsCoverTheLanguage(t *testing.T) {
	d := words()
	any := 0
	for _, code := range Languages {
		for key, w := range d.lists[code].words {
			if w.forms == nil {
				continue
			}
			any++
			if got, want := slices.Sorted(maps.Keys(w.forms)), categories(code); !slices.Equal(got, want) {
				t.Errorf("%s: %s has forms %v, CLDR %v", code, key, got, want)
			}
		}
	}
	if any < 3*len(Languages) {
		t.Errorf("%d entries with plural forms", any)
	}
	for _, c := range []struct {
		code string
		n    int
		want string
	}{{"en", 1, "1 dart"}, {"en", 2, "2 darts"}, {"de", 1, "1 Abnäher"}, {"fr", 0, "0 pince"}, {"fr", 2, "2 pinces"}, {"it", 3, "3 riprese"}, {"ja", 1, "ダーツ 1"}} {
		if got := newTongue(c.code).say("remake.darts", "n", c.n); got != c.want {
			t.Errorf("%s, %d: %q, want %q", c.code, c.n, got, c.want)
		}
	}
}

// TestWordsFollowTheTables: what the trade's tables can ask for has words.
func TestWordsFollowTheTables(t *testing.T) {
	en := newTongue("en")
	var care struct{ Options []struct{ Name string } }
	tradeTable(t, "care", &care)
	for _, o := range care.Options {
		if !en.has("care." + o.Name) {
			t.Errorf("there are no words for the care option %s", o.Name)
		}
	}
	for _, s := range trade.SeamTypes() {
		if !en.has("seam." + s.Name) {
			t.Errorf("there are no words for the seam type %s: write seam.%s in each file of internal/sheet/words", s.Name, s.Name)
		}
	}
	for key := range words().lists["en"].words {
		id, ok := strings.CutPrefix(key, "caution.")
		if !ok || slices.Contains([]string{"head", "untested", "law"}, id) {
			continue
		}
		if !slices.ContainsFunc(trade.Cautions(), func(c trade.Caution) bool { return c.ID == id }) {
			t.Errorf("no caution of the table is called %s", id)
		}
	}
	var fibres []trade.Fibre
	tradeTable(t, "fibres", &fibres)
	for _, f := range fibres {
		for _, code := range Languages[1:] {
			if f.Annex < "49" && f.Words[code] == "" && f.Name != "polyacrylate" && !strings.Contains(f.Name, "bicomponent") {
				t.Errorf("%s has no name in %s", f.Name, code)
			}
		}
	}
}

// tradeTable reads one of the trade's tables as it is written.
func tradeTable(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile("../trade/tables/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal(text, into); err != nil {
		t.Fatal(err)
	}
}

// TestAWordThatIsLackingShows: it comes in English, marked, and is remembered.
func TestAWordThatIsLackingShows(t *testing.T) {
	de := newTongue("de")
	if got := de.say("customs.net"); got != "[en] net weight" {
		t.Errorf("%q", got)
	}
	if got := de.missing(); !slices.Equal(got, []string{"customs.net"}) {
		t.Errorf("%v", got)
	}
	if newTongue("xx") != nil {
		t.Error("there is a list for xx")
	}
	if got := newTongue("de").say("despite.care", "reason", "100 % sicher {n} %d"); !strings.Contains(got, "100 % sicher {n} %d") {
		t.Errorf("%q", got)
	}
}

// TestEveryWordCanBeSaid says every word of every language: nothing is left
// unfilled, and nothing comes out as a printer's complaint.
func TestEveryWordCanBeSaid(t *testing.T) {
	d := words()
	for _, code := range Languages {
		tongue := newTongue(code)
		for _, key := range slices.Sorted(maps.Keys(d.order)) {
			var with []any
			for _, name := range d.order[key] {
				with = append(with, name, 7)
			}
			for _, gender := range d.lists[code].genders {
				tongue.noun = record.Noun{Word: "7", Gender: gender}
				got := strings.TrimPrefix(tongue.say(key, with...), foreign("en"))
				if strings.ContainsAny(got, "{}[]|") || strings.Contains(got, "%!") || len(with) > 0 && !strings.Contains(got, "7") {
					t.Errorf("%s, %s: %s comes out as %q", code, gender, key, got)
				}
			}
		}
	}
}

// TestWordsAgreeWithTheNoun: a garment is spoken of by its own noun, and sentences agree
// with its gender; where the record has none, with that of the word for any garment. The
// grammar is from memory.
func TestWordsAgreeWithTheNoun(t *testing.T) {
	for _, c := range []struct{ code, noun, key, want string }{
		{"en", "", "happens.torn", "It tears"},
		{"en", "trousers pl", "happens.torn", "They tear"},
		{"en", "trousers pl", "box.garment", "the trousers"},
		{"de", "", "mockup.on", "Ziehen Sie es an"},
		{"de", "", "box.garment", "das Kleidungsstück"},
		{"de", "Hose f", "mockup.on", "Ziehen Sie sie an"},
		{"de", "Hose f", "box.garment", "die Hose"},
		{"de", "Mantel m", "mockup.on", "Ziehen Sie ihn an"},
		{"de", "Mantel m", "happens.tight", "Er wird eng"},
		{"de", "Handschuhe pl", "happens.tight", "Sie werden eng"},
		{"fr", "", "contact.page", "Comment il a été fait"},
		{"fr", "robe f", "contact.page", "Comment elle a été faite"},
		{"fr", "gants m pl", "mockup.on", "Mettez-les"},
		{"es", "", "mockup.on", "Póngasela"},
		{"es", "pantalón m", "mockup.on", "Póngaselo"},
		{"it", "gonna f", "happens.tight", "Diventa stretta"},
		{"it", "pantaloni m pl", "box.garment", "i suoi pantaloni"},
		{"nl", "jas m", "mockup.on", "Trek hem aan"},
		{"nl", "jas m", "box.garment", "de jas"},
		{"nl", "", "mockup.on", "Trek het aan"},
	} {
		b := &record.Build{}
		if n, ok := record.NounOf(c.noun); ok {
			b.Noun = append(b.Noun, record.Named[record.Val[record.Noun]]{Name: record.Text{V: c.code}, V: record.Val[record.Noun]{V: n}})
		}
		tongue := newTongue(c.code)
		tongue.speakOf(b)
		if got := tongue.say(c.key); got != c.want {
			t.Errorf("%s, %q: %s is %q, want %q", c.code, c.noun, c.key, got, c.want)
		}
	}
}

// TestPiecesAreCalledByLanguage: a piece is called as the record says, else as the trade
// calls one of its name, else by its own name; behind it stands the name that joins and
// pattern files have.
func TestPiecesAreCalledByLanguage(t *testing.T) {
	b := &record.Build{Pieces: []record.Piece{{Name: record.Text{V: "front"}}, {Name: record.Text{V: "wing"}}, {Name: record.Text{V: "back"}}}}
	called := record.Text{V: "Rücken", At: fault.Pos{Source: &fault.Source{}, Line: 9, Column: 1}}
	b.Pieces[2].Called = record.Spoken{Text: called, Told: record.Dict[record.Text]{{Name: record.Text{V: "de"}, V: called}}}
	for _, c := range []struct{ code, name, want string }{
		{"en", "front", "front"}, {"de", "front", "Vorderteil (front)"}, {"fr", "front", "devant (front)"},
		{"de", "wing", "wing"}, {"de", "back", "Rücken (back)"}, {"fr", "back", "dos (back)"},
	} {
		on := &composer{facts: &facts{build: b}, writer: writer{speaker: speaker{t: newTongue(c.code)}}}
		if got := on.pieceAndName(c.name); got != c.want {
			t.Errorf("%s: %s is called %q, want %q", c.code, c.name, got, c.want)
		}
	}
}

// TestEdgesAndStepsAreCalledByLanguage: an edge, a seam, a hem and a step are called as the
// trade calls those of their name, one of a lining too; others keep their own. A change of a
// fitting says piece and edge in words.
func TestEdgesAndStepsAreCalledByLanguage(t *testing.T) {
	for _, c := range []struct{ code, name, want string }{
		{"de", "sides", "Seitennähte"}, {"fr", "sides", "coutures de côté"}, {"en", "sides", "sides"},
		{"de", "lining sides", "Seitennähte (Futter)"}, {"de", "wing tips", "wing tips"}, {"en", "lining sides", "lining sides"},
	} {
		on := &composer{facts: &facts{build: &record.Build{}}, writer: writer{speaker: speaker{t: newTongue(c.code)}}}
		if got := on.edge(c.name); got != c.want {
			t.Errorf("%s: %s is called %q, want %q", c.code, c.name, got, c.want)
		}
	}
	german := &composer{facts: &facts{build: &record.Build{Pieces: []record.Piece{{Name: record.Text{V: "front"}}}}}, writer: writer{speaker: speaker{t: newTongue("de")}}}
	if got, want := german.onPiece("front.side"), "Vorderteil, Seite"; got != want {
		t.Errorf("front.side is %q, want %q", got, want)
	}
	if got, want := german.Called(compose.Key("work", "hems"), "hems"), "säumen"; got != want {
		t.Errorf("the step is called %q, want %q", got, want)
	}
	if got, want := german.Called(compose.Key("opening", "armholes"), "armholes"), "Armlöcher"; got != want {
		t.Errorf("the opening is called %q, want %q", got, want)
	}
}

// TestOneNameOfAFibre: a fibre that its maker calls by any of its names stands on every sheet
// by the one that the rules of the sheet have, in English; linen is flax in the European Union
// (Regulation (EU) No 1007/2011, Annex I; Directive 2008/121/EC), elastane spandex and
// polyamide nylon in the United States (16 CFR 303.7).
func TestOneNameOfAFibre(t *testing.T) {
	named := func(market, own string) (menders, labelled string) {
		c := &composer{facts: &facts{build: &record.Build{}, content: &label.Content{Market: market}}, writer: writer{speaker: speaker{t: newTongue("en")}}}
		f, ok := trade.FibreNamed(own)
		if !ok {
			t.Fatalf("%s is no fibre", own)
		}
		return c.material(own), c.fibre(label.FibrePart{Fibre: f, Name: f.LabelName(market)})
	}
	for _, c := range []struct{ own, eu, us string }{
		{"linen", "flax", "linen"}, {"flax", "flax", "linen"}, {"spandex", "elastane", "spandex"}, {"elastane", "elastane", "spandex"},
		{"nylon", "polyamide", "nylon"}, {"viscose", "viscose", "rayon"}, {"cotton", "cotton", "cotton"},
	} {
		for market, want := range map[string]string{"eu": c.eu, "us": c.us} {
			if menders, labelled := named(market, c.own); menders != want || labelled != want {
				t.Errorf("%s by the rules of %s: %q for menders, %q on the label, want %q", c.own, market, menders, labelled, want)
			}
		}
	}
	var fibres []trade.Fibre
	tradeTable(t, "fibres", &fibres)
	for _, f := range fibres {
		for _, also := range f.Also {
			for _, market := range []string{"eu", "us"} {
				if menders, labelled := named(market, also.Term); menders != labelled {
					t.Errorf("%s by the rules of %s: %q for menders, %q on the label", also.Term, market, menders, labelled)
				}
			}
		}
	}
}

// TestJapaneseCareEndsAsLabelsDo: each line of care says that it can be done, is forbidden or
// is best, which are the three endings of JIS L 0001 (from memory).
func TestJapaneseCareEndsAsLabelsDo(t *testing.T) {
	var care struct{ Options []struct{ Name string } }
	tradeTable(t, "care", &care)
	ja := words().lists["ja"].words
	for _, o := range care.Options {
		says := ja["care."+o.Name].text
		says, _, _ = strings.Cut(says, "（") // the limit of a dryer stands behind
		if !slices.ContainsFunc([]string{"ができる", "禁止", "がよい"}, func(end string) bool { return strings.HasSuffix(says, end) }) {
			t.Errorf("care.%s: %q", o.Name, says)
		}
	}
}
