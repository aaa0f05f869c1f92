package record

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// baseRoom opens the workroom without a slip, with files changed.
func baseRoom(t testing.TB, changed map[string]string) *Room {
	t.Helper()
	base, err := txtar.ParseFile("../../testdata/broken/base.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range changed {
		base.Files = append(base.Files, txtar.File{Name: name, Data: []byte(text)})
	}
	dir := t.TempDir()
	writeRoom(t, dir, base)
	room, _, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	return room
}

func TestValuesKeepTheirPlaces(t *testing.T) {
	room := baseRoom(t, nil)
	b, faults := room.ReadBuild(room.Builds[0])
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	front := b.Pieces[0]
	for _, row := range []struct {
		what string
		at   fault.Pos
		want string
	}{
		{"name", b.Name.At, "1:7"},
		{"second piece", b.Pieces[1].At, "24:3"},
		{"allowance", front.Allowance.At, "17:16"},
		{"a point", front.Outline.Edges[1].To.At, "21:13"},
		{"a cloth in its short form", b.Cloth[0].V.Use.At, "9:10"},
		{"a side of a seam", b.Seams[0].Join[0][0].At, "35:18"},
	} {
		if got := fmt.Sprintf("%d:%d", row.at.Line, row.at.Column); got != row.want {
			t.Errorf("%s: read at %s, want %s", row.what, got, row.want)
		}
	}
	if front.Allowance.V != 15*measure.Millimetre {
		t.Errorf("allowance %v", front.Allowance.V)
	}
	if c := front.Cut.V; c != (Cut{N: 1, OnFold: true}) {
		t.Errorf("cut %+v", c)
	}
	if got := b.Journal[0].For.V; got != 48*time.Minute {
		t.Errorf("48 min read as %v", got)
	}
	if e := b.Finishes[0].With; len(e) != 1 || e[0].Name.V != "depth" || e[0].V.V != 20*measure.Millimetre {
		t.Errorf("a finish's own parameter: %+v", e)
	}
}

func TestUnitsOfTheRecordHoldForEveryLength(t *testing.T) {
	room := baseRoom(t, map[string]string{"content/builds/inches/build.yaml": `name: Inches
pieces:
  a: {rectangle: [10, 1 1/2], allowance: 5/8}
  b: {rectangle: [10 cm, 20 mm]}
units: in
garment: skirt
state: planned
`})
	bf, _ := room.BuildNamed("inches")
	b, faults := room.ReadBuild(bf)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	// 10 in = 254 mm, 1 1/2 in = 38.1 mm, 5/8 in = 15.875 mm: 1 in = 25.4 mm exactly
	// (from memory: NIST SP 811 appendix B).
	a := b.Pieces[0]
	if a.Rectangle.Across.V.MM() != 254 || a.Rectangle.Along.V.MM() != 38.1 || a.Allowance.V.MM() != 15.875 {
		t.Errorf("read %v %v %v", a.Rectangle.Across.V, a.Rectangle.Along.V, a.Allowance.V)
	}
	if r := b.Pieces[1].Rectangle; r.Across.V.MM() != 100 || r.Along.V.MM() != 20 {
		t.Errorf("a length with its own unit read as %v, %v", r.Across.V, r.Along.V)
	}
}

func TestMergedAndAliasedValues(t *testing.T) {
	room := baseRoom(t, map[string]string{"content/builds/merged/build.yaml": `name: Merged
garment: skirt
state: planned
cloth: &c {shell: rust-linen}
pieces:
  a: &first {rectangle: [10, 20], allowance: 12}
  b:
    <<: *first
`})
	bf, _ := room.BuildNamed("merged")
	b, faults := room.ReadBuild(bf)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if p := b.Pieces[1]; p.Name.V != "b" || p.Allowance.V.MM() != 12 || p.Rectangle == nil {
		t.Errorf("merged piece %+v", p)
	}
}

func TestAllFaultsAtOnce(t *testing.T) {
	room := baseRoom(t, map[string]string{
		"content/builds/bad/build.yaml": "name: Bad\ngarment: skirt\nstate: sewn\nbegun: soon\npieces:\n  a: {rectangle: [1, x], cut: two}\n",
	})
	bf, _ := room.BuildNamed("bad")
	_, faults := room.ReadBuild(bf)
	var places []string
	for _, f := range faults {
		places = append(places, fmt.Sprintf("%d:%d", f.At.Line, f.At.Column))
	}
	if got, want := strings.Join(places, " "), "3:8 4:8 6:22 6:31"; got != want {
		t.Errorf("faults at %s, want %s\n%v", got, want, faults)
	}
}

func TestPrivateShowsNothing(t *testing.T) {
	const secret = "Contralto of Weir Lane"
	p := Keep(Text{V: secret})
	text, _ := json.Marshal(map[string]any{"p": p})
	yml, _ := yaml.Marshal(map[string]any{"p": p})
	printed := []string{fmt.Sprint(p), fmt.Sprintf("%v %+v %#v %s %q %x %d", p, p, p, p, p, p, p), string(text), string(yml), fmt.Sprintf("%v", &p), fmt.Sprintf("%+v", struct{ P Private[Text] }{p})}
	for _, s := range printed {
		if strings.Contains(s, "Contralto") || strings.Contains(s, fmt.Sprintf("%x", "Contralto")) {
			t.Errorf("a private value printed itself: %s", s)
		}
	}
	if got := p.Open(ToTheMaker).V; got != secret {
		t.Errorf("opened: %q", got)
	}
}

// TestRedactedRecord seeds secrets in every private part, written in every
// way YAML has, and looks for them in the text that a page shows.
func TestRedactedRecord(t *testing.T) {
	for name, text := range map[string]string{
		"block": `name: A
garment: skirt
state: planned
wearer: SECRET0 # SECRET1
# SECRET2 about costs
costs:
  # SECRET3
  post: 6 EUR # SECRET4
  other:
    gift: 12.34 EUR
story: kept
private:
  - SECRET5
  - {a: SECRET6}
notions:
  zip:
    price: 98.76 EUR # SECRET7
    count: 3
`,
		"flow": `{name: A, garment: skirt, state: planned, wearer: "SECRET0", story: kept, costs: {post: 6 EUR},
 notions: {zip: {price: '98.76 EUR', count: 3}, hook: {price: "98.76 EUR"}}} # SECRET1
`,
		"odd": `name: A
garment: skirt
state: planned
story: kept
wearer:
  SECRET0
private: |
  SECRET1
  SECRET2

  SECRET3
costs: {
  post: 98.76 EUR }
`,
		"flow over lines": `name: A
garment: skirt
state: planned
story: kept
private: {a: SECRET1,
SECRET2, c: [SECRET3
]}
measured: {waist: 700}
`,
		"sequence at the key's indent": `name: A
garment: skirt
state: planned
private:
- SECRET1
- SECRET2:
    a: SECRET3
story: kept
`,
	} {
		t.Run(name, func(t *testing.T) {
			room := baseRoom(t, map[string]string{"content/builds/a/build.yaml": text})
			bf, _ := room.BuildNamed("a")
			b, _ := room.ReadBuild(bf)
			shown := string(b.Text)
			for _, s := range []string{"SECRET", "98.76", "12.34"} {
				if strings.Contains(shown, s) {
					t.Errorf("%s is shown:\n%s", s, shown)
				}
			}
			if b.Text != nil && !strings.Contains(shown, "kept") {
				t.Errorf("what is public is gone:\n%s", shown)
			}
			if b.Text == nil && name != "flow" {
				t.Error("the record is not shown at all")
			}
		})
	}
}

// TestOneFaultAWord: what a broken record prints never speaks Go.
func TestFaultsSpeakToTheMaker(t *testing.T) {
	room := baseRoom(t, map[string]string{"content/builds/x/build.yaml": "name: [1]\ngarment: {a: b}\nstate: 4\npieces: {}\nseams: {1: 2, 3: [4]}\nwork: [[]]\njournal: 4\nmeasured: []\nfor: []\n"})
	bf, _ := room.BuildNamed("x")
	_, faults := room.ReadBuild(bf)
	if len(faults) < 8 {
		t.Fatalf("%d faults: %v", len(faults), faults)
	}
	for _, f := range faults {
		for _, word := range []string{"nil", "struct", "unmarshal", "interface", "%!", "reflect", "strconv", "map["} {
			if strings.Contains(f.Message+f.Hint, word) {
				t.Errorf("%v", f)
			}
		}
		if !f.At.Given() || f.At.File() == "" {
			t.Errorf("without a place: %v", f)
		}
	}
}

func FuzzReadBuild(f *testing.F) {
	base, err := txtar.ParseFile("../../testdata/broken/base.txtar")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range base.Files {
		f.Add(string(file.Data))
	}
	f.Add("a: &a [*a]\n")
	f.Add("<<: {a: 1}\nname: &x {y: *x}\n")
	f.Add("pieces: {a: {like: b}, b: {like: a}}")
	f.Fuzz(func(t *testing.T, text string) {
		var faults fault.Faults
		src := &fault.Source{Path: "content/builds/x/build.yaml"}
		clean, ok := checkText(src, []byte(text), &faults)
		if ok {
			if node, ok := parseYAML(src, clean, 0, &faults); ok {
				r := &Room{cloths: map[string]*Cloth{}, techniques: map[string]*Technique{}, FS: emptyFS{}}
				b := &Build{Folder: "content/builds/x"}
				d := newDecoder(src, measure.UnitMM, &faults)
				d.into(node, b)
				redact(clean, node, d.hides)
				r.checkBuild(b, &faults)
				var c Cloth
				newDecoder(src, measure.UnitIn, &faults).into(node, &c)
				r.checkCloth(&c, &faults)
				newDecoder(src, measure.UnitMM, &faults).into(node, &Workroom{})
				newDecoder(src, measure.UnitMM, &faults).into(node, &Wearer{})
			}
		}
		for _, one := range faults.Sorted() {
			if !one.At.Given() || one.Message == "" {
				t.Errorf("a fault without a place or words: %v", one)
			}
		}
	})
}

func FuzzHeader(f *testing.F) {
	f.Add("---\nname: a\n---\nbody")
	f.Add("---\n---")
	f.Add("---")
	f.Fuzz(func(t *testing.T, text string) {
		var faults fault.Faults
		header, body, line, ok := splitHeader(&fault.Source{Path: "x.md"}, []byte(text), &faults)
		if ok && (len(header)+len(body) > len(text) || line < 3) {
			t.Errorf("header %q, body %q from line %d", header, body, line)
		}
		if ok && strings.Count(text[:len(text)-len(body)], "\n") != int(line)-1 && len(body) > 0 {
			t.Errorf("the body of %q does not begin on line %d", text, line)
		}
	})
}

func BenchmarkReadBuild(b *testing.B) {
	room := baseRoom(b, nil)
	b.ReportAllocs()
	for b.Loop() {
		room.ReadBuild(room.Builds[0])
	}
}
