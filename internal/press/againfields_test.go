package press

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/record"
)

// shelfKinds are the files that many pages rest on, each with every word that its kind
// knows: what a press must notice that keeps all pages but those the file is told on.
var shelfKinds = map[string]string{
	"workroom":  "content/workroom.yaml",
	"cloth":     "content/cloth/rust-linen.yaml",
	"wearer":    "content/wearers/ada.yaml",
	"technique": "content/techniques/plain-way.md",
	"page":      "content/pages/about.md",
}

// constructed is a build that is made in every way of construction that the others have
// nothing of; constructionWords are those it is to have.
const constructed = "content/builds/blouse/build.yaml"

var constructionWords = []string{"band", "lap", "block", "behind", "allowance", "into", "runs", "every", "slash", "spread", "angle", "at", "type", "width",
	"topstitch", "towards", "edge-stitch", "turn-of-cloth", "over", "across", "more", "like", "change", "lines", "slit", "rectangle",
	"noun", "called", "measured", "later", "because", "packet", "card", "store", "spares", "net"}

func everyWord() files {
	f := several()
	f["content/workroom.yaml"] = `name: Test room
summary: A room for tests.
maker: {name: Somebody, contact: mail@room.example, address: 2 Hill Road, country: Ireland}
language: en
units: mm
show: mm and in
currency: EUR
paper: A4
font: mincho.ttf
rules: EU
site: https://room.example/
theme: plainweave
hours: {mon: "09:00-12:30, 13:30-17:00", tue: 09:00-17:00, wed: 09:00-17:00, thu: 09:00-17:00, fri: 09:00-17:00}
days-off: [2026-03-09]
usual:
  allowance: 15
  least-margin: 6
  tolerance: 3
  measured-within: 10
  straightening: 25
  shop-step: 100
  thread-waste: 15
  reel: 200 m
  least-ease: {waist: 10}
  truing: {angle: 5, step: 2, notches: 2, legs: 2, grain: 2, dart: 30, head-least: 20, head-most: 60, lining: 10}
labour: 20 EUR
seam-types: []
terms:
  drop: {meaning: How far a hem has dropped., also: [hang]}
private: {note: a secret}
`
	f["content/cloth/rust-linen.yaml"] = `name: Rust linen
summary: It creases.
about: Cut it [one way](technique:plain-way).
colour: rust
swatch: "#a4512f"
picture: {file: linen.jpg, alt: rust}
fibres: {linen: 60, cotton: 40}
dry-mass: {shares: true, form: {cotton: mercerised}, lost: {cotton: 4}}
weave: plain
structure: woven
surface: plain
sheer: false
weight: 200 g/m2
weighed: washed
thick: 0.4
width: 140 cm
selvedge: 10
on-hand: {length: 3 m, day: 2026-07-30}
came: {2026-07-20: {length: 4 m, lot: A, note: by post}}
cut: {apron shell: {length: 90 cm, day: 2026-08-14, note: both pieces}}
shop-step: 10 cm
price: 12 EUR
from: A shop
shrink: {along: 3, across: 1}
stretch: {across: 12, along: 5}
recovery: 90
one-way: true
faces: one
repeat: {along: 40, across: 60, line: 12}
uneven: true
care: {wash: 40, bleach: none, dry: line, iron: "200", professional: P}
remnants:
  corner: {outline: [[0, 0], [400, 0], [0, 300]], holes: [{outline: [[60, 40], [90, 40], [60, 80]], note: a burn}], from: apron, used: apron, note: from the apron}
flaws:
  - {outline: [[0, 0], [30, 0], [30, 20]], note: a slub}
`
	f["content/cloth/linen.jpg"] = photograph(3)
	f["content/wearers/ada.yaml"] = `name: Ada
for: {who: woman, age: 40, height: 1700}
language: de
units: cm
address: 3 Hill Road
country: Germany
contact: ada@room.example
note: no wool
taken: 2026-01-05
by: Somebody
body: {waist girth: 70, hip girth: 95}
earlier:
  - {day: 2025-01-05, by: Somebody, body: {waist girth: 71}}
`
	f["content/techniques/plain-way.md"] = `---
name: Plain way
also: [simple way]
summary: Sewn once.
when: for most seams
seam: [plain]
stage: sewing
skill: first week
cautions: [blades]
see: [other-way]
picture: {file: plain.jpg, alt: a way, note: at noon}
with: {allowance: 12}
---
See [](cloth:rust-linen), [](build:apron) and [hang](term:hang).
`
	f["content/techniques/plain.jpg"] = photograph(4)
	f[constructed] = `name: Blouse
garment: blouse
noun: {de: Bluse f, fr: chemisier m}
for: woman
state: planned
begun: 2026-08-01
units: mm
cloth: {shell: rust-linen, fusing: {use: rust-linen, allowance: 2}}
pieces:
  front:
    called: {de: Vorderteil}
    cut: 1
    outline: {hem: [600, 0], right: [560, 500], waist: [40, 500], left: [0, 0]}
    levels: {hip: 300}
    pleats: {waist: {count: 3, drawn: true, into: {waist: 400, hip: 470}}}
    lines: {mark: {from: [250, 100], to: [250, 180]}}
  back:
    cut: 1
    rectangle: [8 repeats, 500]
    pleats: {top: {count: 2, every: 1 repeat, depth: 10, runs: 120, drawn: true}}
  sleeve:
    cut: 2
    rectangle: [260, 400]
    lines: {slit: {from: bottom at 60 from left, length: 90, slit: true}}
  cuff: {of: [shell, fusing, shell], cut: 2, band: {width: 50, lap: 15}, turn-of-cloth: {angle: 180, more: 3}}
  collar: {cut: 1, outline: {outer: [300, 0], end: [300, 60], neck: [0, 60], start: [0, 0]}, turn-of-cloth: {angle: 180, over: under collar, across: neck at middle to outer at middle}}
  under collar: {like: collar, change: {outer: -1}}
  pocket: {rectangle: [100, 120]}
  stay: {of: fusing, block: {behind: front.mark, beyond: 12}}
seams:
  sides: {join: [front.right, back.left], type: plain-to-one-side, topstitch: {at: [2, 8], towards: front, stitch-length: 3.5 mm}, tolerance: 20}
  cuffs: {join: [cuff.bottom, sleeve.bottom]}
  collar: {join: [collar.outer, under collar.outer], type: enclosed, edge-stitch: 2}
  pocket: {join: [pocket, front], at: [120, 300], angle: 5}
finishes:
  plackets: {of: sleeve.slit, type: tower-placket, width: 25}
  hem: {of: [front.hem, back.bottom], type: double-turned-hem, depth: 20, edge-stitch: {at: 3, stitch: "301"}}
  pocket top: {of: pocket.top, type: turned-edge}
fittings:
  - day: 2026-08-03
    from: in person
    posted: 2026-08-01
    back: 2026-08-05
    saw: Tight at the hem.
    change: {sleeve: {slash: bottom at middle to top at middle, spread: [15, 0]}, pocket: {angle: 7}}
measured: {hip: 1040}
later: [{day: 2027-03-01, because: taken in at the sides, measured: {hip: 1030}}]
packet:
  card: [For the harbour.]
  store: [Keep the collar rolled.]
  spares: photo.jpg
  net: 210 g
`
	f["content/builds/blouse/photo.jpg"] = photograph(5)
	f["content/pages/about.md"] = "---\ntitle: About\nsummary: What this is.\norder: 2\nmenu: true\nmanual: true\n---\nHello.\n"
	for _, n := range []string{"0", "2", "3", "4"} {
		delete(f, "content/builds/skirt-"+n+"/build.yaml")
		delete(f, "content/builds/skirt-"+n+"/notes.md")
	}
	return f
}

// A touch is a file with one word of it changed or left out.
type touch struct{ what, text string }

// touches are all of a file: every value another, every word gone. Nothing else moves to
// another line, so that only what was touched is read as another.
func touches(t *testing.T, file string, enums map[string][]string) []touch {
	text, above := file, ""
	if rest, ok := strings.CutPrefix(file, "---\n"); ok {
		text, _, _ = strings.Cut(rest, "---\n")
		above = "---\n"
	}
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(text, "\n")
	at := func(n *yaml.Node) int { // where it begins in the text
		return len(strings.Join(lines[:n.Line-1], "")) + n.Column - 1
	}
	var out []touch
	cut := func(what string, from, to int, now string) {
		out = append(out, touch{what, above + text[:from] + now + strings.TrimPrefix(file, above)[to:]})
	}
	gone := func(what string, first *yaml.Node) {
		from := at(first)
		if strings.TrimLeft(lines[first.Line-1][:first.Column-1], " -") == "" { // it has lines to itself
			last := first.Line
			for last < len(lines) && deeper(lines[last], lines[first.Line-1]) {
				last++
			}
			from = len(strings.Join(lines[:first.Line-1], ""))
			cut(what, from, from+len(strings.Join(lines[first.Line-1:last], "")), strings.Repeat("\n", last-first.Line+1))
			return
		}
		to := from + inFlow(text[from:])
		if strings.HasPrefix(text[to:], ", ") {
			to += 2
		} else {
			from = len(strings.TrimSuffix(text[:from], ", "))
		}
		cut(what, from, to, "")
	}
	var look func(n *yaml.Node, path string)
	look = func(n *yaml.Node, path string) {
		if n.Kind == yaml.ScalarNode {
			now, from := another(n.Value, enums[filepath.Base(path)]), at(n)
			if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
				from++
			}
			if strings.HasPrefix(text[from:], n.Value) {
				cut(path+" is "+now, from, from+len(n.Value), now)
			}
			return
		}
		step := 1
		if n.Kind == yaml.MappingNode {
			step = 2
		}
		for i := 0; i < len(n.Content); i += step {
			inner := path + "/" + strconv.Itoa(i)
			if step == 2 {
				inner = path + "/" + n.Content[i].Value
			}
			if n.Kind != yaml.DocumentNode {
				gone(inner+" is gone", n.Content[i])
			}
			look(n.Content[i+step-1], inner)
		}
	}
	look(&doc, "")
	return out
}

// deeper reports whether a line belongs to what begins on another.
func deeper(line, begins string) bool {
	indent := func(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }
	return strings.TrimSpace(line) != "" && indent(line) > indent(begins)
}

// inFlow is how far a value goes that stands between brackets.
func inFlow(text string) int {
	depth, quoted := 0, false
	for i, r := range text {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case r == '[' || r == '{':
			depth++
		case (r == ']' || r == '}' || r == ',') && depth == 0:
			return i
		case r == ']' || r == '}':
			depth--
		}
	}
	return len(text)
}

// another is a value that may stand in the place of one: the next of those that are
// listed, a number one larger, words with one more.
func another(was string, listed []string) string {
	if i := slices.Index(listed, was); i >= 0 {
		return listed[(i+1)%len(listed)]
	}
	if was == "true" || was == "false" {
		return strconv.FormatBool(was != "true")
	}
	if i := strings.IndexAny(was, "0123456789"); i >= 0 {
		end := i
		for end < len(was) && was[end] >= '0' && was[end] <= '9' {
			end++
		}
		n, _ := strconv.Atoi(was[i:end])
		return fmt.Sprintf("%s%0*d%s", was[:i], end-i, n+1, was[end:])
	}
	return was + " too"
}

// recordWords are the words that a kind of file knows, with what is listed for each.
func recordWords(t *testing.T, kind string) map[string][]string {
	text, err := record.Schema(kind)
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(text, &schema); err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	var look func(v any)
	look = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			if list, ok := v["properties"].(map[string]any); ok {
				for word, of := range list {
					if word == "seam-types" {
						continue // a language of its own; what the room has of it is tried all the same
					}
					listed, _ := of.(map[string]any)["enum"].([]any)
					out[word] = append(out[word], nil...)
					for _, one := range listed {
						out[word] = append(out[word], fmt.Sprint(one))
					}
				}
			}
			for word, inner := range v {
				if word != "seam-types" {
					look(inner)
				}
			}
		case []any:
			for _, inner := range v {
				look(inner)
			}
		}
	}
	look(schema)
	return out
}

// TestAgainAfterEveryWord: whatever word of a file that many pages rest on is changed or
// left out, and then put back, the notebook pressed again is that of a press from
// nothing. It finds what a page rests on and does not say in its imprint.
//
// Every eighth change is tried; all of them, and those of two builds, with HEMBOOK_EDITS.
func TestAgainAfterEveryWord(t *testing.T) {
	if testing.Short() {
		t.Skip("presses again and again, as TestAgainIsLikeAfresh does")
	}
	stride := 8
	if os.Getenv("HEMBOOK_EDITS") != "" {
		stride = 1
	}
	f := everyWord()
	p := newPreview(t, f)
	if _, faults, err := p.press(); err != nil {
		t.Fatal(err, told(faults))
	}
	base := tree(t, p.to)
	type change struct {
		file string
		touch
	}
	var all []change
	for _, kind := range slices.Sorted(maps.Keys(shelfKinds)) {
		file := shelfKinds[kind]
		enums := recordWords(t, kind)
		list := touches(t, f[file], enums)
		for word := range enums {
			if !slices.ContainsFunc(list, func(c touch) bool { return strings.Contains(c.what, "/"+word) }) {
				t.Errorf("%s does not have the word %q: give it one, so that it is tried", file, word)
			}
		}
		for _, c := range list {
			all = append(all, change{file, c})
		}
	}
	built := touches(t, f[constructed], recordWords(t, "build"))
	for _, word := range constructionWords {
		if !slices.ContainsFunc(built, func(c touch) bool { return strings.HasSuffix(strings.TrimSuffix(c.what, " is gone"), "/"+word) }) {
			t.Errorf("%s does not have the word %q: give it one, so that it is tried", constructed, word)
		}
	}
	for _, c := range built {
		all = append(all, change{constructed, c})
	}
	if stride == 1 {
		for _, file := range []string{"content/builds/apron/build.yaml", "content/builds/skirt-1/build.yaml"} {
			for _, c := range touches(t, f[file], recordWords(t, "build")) {
				all = append(all, change{file, c})
			}
		}
	}
	tried, refused, changed := 0, 0, 0
	for i := 0; i < len(all) && !t.Failed(); i += stride {
		c := all[i]
		what := c.file + ": " + c.what
		p.save(c.file, c.text, true)
		_, faults, err := p.press()
		to, want, wantErr := p.afresh()
		if (err == nil) != (wantErr == nil) || err != nil && !errors.Is(err, ErrRecords) {
			t.Fatalf("%s: %v; afresh %v", what, err, wantErr)
		}
		if a, b := told(faults), told(want); !slices.Equal(a, b) {
			t.Errorf("%s: faults\n%v\nafresh\n%v", what, a, b)
		}
		switch tried++; {
		case err != nil:
			refused++
		default:
			now := tree(t, to)
			alike(t, what, tree(t, p.to), now)
			same := maps.Equal(now, base)
			if !same {
				changed++
			} else if c.file == constructed {
				t.Errorf("%s: no page is another, and the record is shown", what)
			}
		}
		os.RemoveAll(to)
		p.save(c.file, f[c.file], true)
		if _, faults, err := p.press(); err != nil {
			t.Fatal(err, told(faults))
		}
		alike(t, what+", and put back", tree(t, p.to), base)
	}
	t.Logf("%d of %d changes tried: %d were refused, %d of the others changed a page", tried, len(all), refused, changed)
	if changed*3 < tried {
		t.Errorf("only %d of %d changes changed a page: the test tries too little", changed, tried)
	}
}
