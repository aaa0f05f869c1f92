package notebook

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/prose"
	"hembook/internal/record"
	"hembook/themes"
)

func open(t *testing.T, files map[string]string) *record.Room {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	room, faults, err := record.Open(dir)
	if err != nil || fault.HasErrors(faults) {
		t.Fatal(err, faults)
	}
	t.Cleanup(func() { room.Close() })
	return room
}

func workroom() map[string]string {
	return map[string]string{
		"content/workroom.yaml":         "name: Room\nmaker: M\nterms:\n  Ease: {meaning: Our own ease., also: [looseness]}\n",
		"content/cloth/linen.yaml":      "name: Linen\nfibres: {linen: 70, cotton: 30}\nwidth: 140 cm\ncare: {wash: 40 very mild, iron: '110 no steam'}\n",
		"content/techniques/plain.md":   "---\nname: Plain\nsummary: s\nseam: plain\nwith: {allowance: 10}\n---\nx\n",
		"content/techniques/other.md":   "---\nname: Other\nsummary: s\n---\nx\n",
		"content/pages/about.md":        "---\ntitle: About us\n---\nx\n",
		"content/builds/one/build.yaml": buildText("One", 2025, 12),
		"content/builds/two/build.yaml": buildText("Two", 2026, 18),
	}
}

// buildText is two squares of 100 mm joined on one side, clocked.
func buildText(name string, year, minutes int) string {
	return strings.NewReplacer("NAME", name, "YEAR", strconv.Itoa(year), "MINUTES", strconv.Itoa(minutes)).Replace(`name: NAME
garment: bag
state: sent
begun: YEAR-01-02
cloth: {shell: linen}
pieces:
  a: {rectangle: [100, 100]}
  b: {rectangle: [100, 100]}
seams:
  side: {join: [a.right, b.left], type: plain, technique: plain}
work:
  sew: {sews: [side], technique: plain}
journal:
  - {at: YEAR-01-02 10:00, did: sew, for: MINUTES min}
`)
}

func gather(t *testing.T, room *record.Room) (*Book, *Gathered) {
	t.Helper()
	b := New(room)
	tailor, faults := derive.NewTailor(room)
	if fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	var all []*BuildLine
	for i, f := range room.Builds {
		r, faults := room.ReadBuild(f)
		if fault.HasErrors(faults) {
			t.Fatal(faults)
		}
		all = append(all, b.BuildLine(i, tailor.Derive(r)))
	}
	return b, b.Gather(all)
}

// TestTechniqueGathers: 100 mm sewn in 12 and in 18 minutes is 0.2 m in 30
// minutes, at 120 and 180 minutes per metre.
func TestTechniqueGathers(t *testing.T) {
	_, shelf := gather(t, open(t, workroom()))
	for _, p := range shelf.Techniques() {
		if p.Heading != "Plain" {
			if len(p.Builds) != 0 || p.Metres.Value.Known() {
				t.Errorf("%s gathers %v", p.Heading, p.Builds)
			}
			continue
		}
		if len(p.Builds) != 2 || p.Builds[0].Name != "Two" {
			t.Errorf("builds %v: want Two before One, the latest first", p.Builds)
		}
		if got := p.Metres.Value.Number; got < 0.199999 || got > 0.200001 {
			t.Errorf("%v m sewn", got)
		}
		if got := p.Spent.Value.Number; got != 30 {
			t.Errorf("%v min clocked", got)
		}
		if len(p.Rates) != 1 || p.Rates[0].Count != 2 || p.Rates[0].Known || p.Rates[0].Least != 120 || p.Rates[0].Most != 180 {
			t.Errorf("rates %+v", p.Rates)
		}
		if len(p.Cloths) != 1 || p.Cloths[0].Name != "Linen" {
			t.Errorf("cloths %v", p.Cloths)
		}
		if p.Section == nil || p.Section.Measures["allowance"] != 10 {
			t.Errorf("section %+v", p.Section)
		}
	}
}

// TestClothGathers: two squares of 100 mm with allowances of 15 mm all round
// are 2 × 130 × 130 mm = 0.0338 m² in each of two builds.
func TestClothGathers(t *testing.T) {
	_, shelf := gather(t, open(t, workroom()))
	p := shelf.Cloths()[0]
	if p.Fibres != "70 % linen, 30 % cotton" || len(p.Builds) != 2 || len(p.Technique) != 1 {
		t.Errorf("%+v", p)
	}
	if got := p.Cut.Value.Number; got < 0.067599 || got > 0.067601 || p.Cut.Value.Unit != measure.UnitM2 {
		t.Errorf("%v cut", p.Cut.Value)
	}
	if p.Care[0].Value != "at most 40 °C, very mild" || p.Care[1].Value != "at most 110 °C, no steam" {
		t.Errorf("care %v", p.Care)
	}
}

func TestListsTurnOver(t *testing.T) {
	b, _ := gather(t, open(t, workroom()))
	var all []*BuildLine
	for i := range 250 {
		s := &BuildLine{Link: Link{Address: "builds/x.html", Name: "x"}}
		s.Begun = record.Day{Year: 2000 + i/100, Month: 1, Day: 1}
		all = append(all, s)
	}
	lists := b.Gather(all).BuildLists()
	if len(lists) != 5 || lists[0].Address != BuildsAddress || lists[4].Address != "builds/all/5.html" {
		t.Fatalf("%d pages", len(lists))
	}
	seen := 0
	for i, l := range lists {
		if (l.Before.Address == "") != (i == 0) || (l.After.Address == "") != (i == 4) {
			t.Errorf("page %d: before %v, after %v", i, l.Before, l.After)
		}
		for _, g := range l.Groups {
			seen += len(g.Cards)
		}
	}
	if seen != 250 || lists[0].Groups[0].Cards[0].Build.Year() != 2002 {
		t.Errorf("%d builds listed, first year %d", seen, lists[0].Groups[0].Cards[0].Build.Year())
	}
}

// TestWhatIsBeingMadeIsListedFirst: each group latest first, whatever the days of the others.
func TestWhatIsBeingMadeIsListedFirst(t *testing.T) {
	b, _ := gather(t, open(t, workroom()))
	line := func(name, state string, year int) *BuildLine {
		return &BuildLine{Link: Link{Address: Address("builds/" + name + ".html"), Name: name}, State: state, Garment: "coat", Begun: record.Day{Year: year, Month: 1, Day: 1}}
	}
	list := b.Gather([]*BuildLine{line("a", "sent", 2026), line("b", "set aside", 2026), line("c", "sewing", 2020), line("d", "cutting", 2021), line("e", "packed", 2019)}).BuildLists()[0]
	var got []string
	for _, g := range list.Groups {
		got = append(got, g.Name+":")
		for _, c := range g.Cards {
			got = append(got, c.Build.Name)
		}
	}
	if want := "On the table: d c Finished: a e Set aside: b"; strings.Join(got, " ") != want {
		t.Errorf("listed as %v, want %s", got, want)
	}
	var said []string
	for _, c := range list.Choices {
		for _, v := range c.Values {
			said = append(said, fmt.Sprint(v.Key, " ", v.Name, " ", v.Count))
		}
	}
	// all are coats: there is nothing to choose by that
	if want := "s1 finished 2, s2 on the table 2, s3 set aside 1, y1 2026 2, y2 2021 1, y3 2020 1, y4 2019 1"; strings.Join(said, ", ") != want {
		t.Errorf("to choose: %v", said)
	}
	if keys := list.Groups[1].Cards[1].Keys; keys != "s1 y4" {
		t.Errorf("the packed one of 2019 has the keys %q", keys)
	}
}

// TestThemeHasARuleForEachValue: a value without one would hide nothing.
func TestThemeHasARuleForEachValue(t *testing.T) {
	look, err := fs.ReadFile(themes.Plainweave(), "look/builds.css")
	if err != nil {
		t.Fatal(err)
	}
	for _, way := range new(Book).waysToChoose() {
		most := mostValues
		if way.Key == "s" {
			most = len(groupNames)
		}
		for i := range most {
			key := fmt.Sprint(way.Key, i+1)
			if !strings.Contains(string(look), ":has(#"+key+":checked) .decks :is(.deck > :not(."+key+"), section:not(:has(."+key+")))") {
				t.Errorf("no rule for %s", key)
			}
		}
	}
}

func TestFind(t *testing.T) {
	b := New(open(t, workroom()))
	find := b.Find("builds/one.html")
	for _, c := range []struct {
		kind             prose.Kind
		name, want, word string
	}{
		{prose.ToTechnique, "plain", "../techniques/plain.html", "Plain"},
		{prose.ToBuild, "two", "two.html", "Two"},
		{prose.ToTerm, "ease", "../glossary.html#term-ease", "Ease"},
		{prose.ToTerm, "Looseness", "../glossary.html#term-ease", "looseness"},
		{prose.ToPage, "about", "../pages/about.html", "About us"},
	} {
		got, ok := find(prose.Link{Kind: c.kind, Name: c.name})
		if !ok || got.Address != c.want || got.Name != c.word {
			t.Errorf("%s:%s: got %+v", c.kind, c.name, got)
		}
	}
	if _, ok := find(prose.Link{Kind: prose.ToCloth, Name: "silk"}); ok {
		t.Error("found a cloth that is not there")
	}
}

func TestCheckLinks(t *testing.T) {
	b := New(open(t, workroom()))
	text := prose.Read([]byte("one [a](technique:plian)\ntwo [b](file:///x) ![c](../../x.jpg) ![d](no.jpg) [e](build:one)"), "")
	var faults fault.Faults
	b.CheckLinks(text, fault.Pos{Source: &fault.Source{Path: "f.md"}, Line: 10, Column: 3}, "content/builds/one", nil, &faults)
	want := []string{
		`f.md:10:7: error: there is no technique "plian" to link to` + "\n" + `    did you mean "technique:plain"?`,
		`f.md:11:5: error: the link to "file:///x" is not allowed here`,
		`f.md:11:20: error: the picture "../../x.jpg" leads out of the folder`,
		`f.md:11:38: error: there is no picture "no.jpg"`,
	}
	got := faults.Sorted()
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i, f := range got {
		if !strings.HasPrefix(f.String(), want[i]) {
			t.Errorf("got  %s\nwant %s", f, want[i])
		}
	}
}

// TestCheckFigures: a text names figures of its own garment, and no other has any.
func TestCheckFigures(t *testing.T) {
	b := New(open(t, workroom()))
	text := prose.Read([]byte("a [](figure:level.waist.finished)\nb [](figure:level.waist.finishd)"), "")
	at := fault.Pos{Source: &fault.Source{Path: "f.md"}, Line: 10, Column: 1}
	for _, c := range []struct {
		figures func() []*figure.Figure
		want    string
	}{
		{func() []*figure.Figure { return []*figure.Figure{{ID: "level.waist.finished"}, {ID: "level.hip.off"}} },
			`f.md:11:3: error: this garment has no figure "level.waist.finishd"` + "\n" + `    did you mean "figure:level.waist.finished"?`},
		{nil, `f.md:10:3: error: the figure "level.waist.finished" stands in a text of no garment`},
	} {
		var faults fault.Faults
		b.CheckLinks(text, at, "content/builds/one", c.figures, &faults)
		if got := faults.Sorted(); len(got) == 0 || !strings.HasPrefix(got[0].String(), c.want) {
			t.Errorf("got  %v\nwant %s", got, c.want)
		}
	}
}

func TestOwnTermStands(t *testing.T) {
	b := New(open(t, workroom()))
	n := 0
	for _, l := range b.Glossary().Letters {
		for _, term := range l.Terms {
			if strings.EqualFold(term.Term, "ease") {
				n++
				if !term.Own || term.Meaning != "Our own ease." {
					t.Errorf("%+v", term)
				}
			}
		}
	}
	if n != 1 {
		t.Errorf("%d terms called ease", n)
	}
}

func TestEntries(t *testing.T) {
	_, shelf := gather(t, open(t, workroom()))
	all := shelf.Entries(shelf.Techniques(), shelf.Cloths())
	kinds := map[string]int{}
	seen := map[Address]bool{}
	for _, e := range all {
		kinds[e.Kind]++
		if seen[e.Address] || e.Title == "" {
			t.Errorf("%+v", e)
		}
		seen[e.Address] = true
	}
	if kinds["garment"] != 2 || kinds["technique"] != 2 || kinds["cloth"] != 1 || kinds["page"] != 1 || kinds["term"] < 50 {
		t.Errorf("kinds %v", kinds)
	}
	first := all[0]
	if first.Title != "Two" || first.Year != 2026 || first.Garment != "bag" || len(first.Cloths) != 1 || len(first.Techniques) != 1 || first.Techniques[0] != "Plain" {
		t.Errorf("%+v", first)
	}
}
