package main

import (
	"bytes"
	"cmp"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/garment"
)

// A tableWord is a word of construction, with the record that says it and what has to
// know of it, as testdata/tablewords.yaml has it.
type tableWord struct {
	Row    string            `yaml:"row"`    // of the plan: what it belongs to
	Name   string            `yaml:"name"`   // as makers say it
	Key    string            `yaml:"key"`    // the word of the record, or of the trade's tables, that says it
	Kind   string            `yaml:"kind"`   // the kind of file whose schema holds it; else a build
	In     map[string]string `yaml:"in"`     // what is written where: see testdata/tablewords.txtar
	Base   map[string]string `yaml:"base"`   // what stands in the record without the word, for it to work on
	Guide  string            `yaml:"guide"`  // the page of the guide that tells of it
	Slips  []string          `yaml:"slips"`  // broken records: a file of testdata/broken, or FILE/TITLE of testdata/newcomer
	Hand   string            `yaml:"hand"`   // the test with numbers worked by hand, and its source: FOLDER TestName
	Back   string            `yaml:"back"`   // what a record that reads its pieces in a pattern file says of it
	Like   map[string]string `yaml:"like"`   // what is like that which it is on, and is called again
	Round  string            `yaml:"round"`  // what a fitting changes of it
	Silent map[place]string  `yaml:"silent"` // where it need not be seen, and why
}

func wordTable(t *testing.T) (out []tableWord) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "tablewords.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	d := yaml.NewDecoder(bytes.NewReader(text))
	d.KnownFields(true)
	if err := d.Decode(&out); err != nil {
		t.Fatal(err)
	}
	return out
}

// usually is what stands in the blouse where a word says nothing else.
var usually = map[string]string{
	"cuff": "rectangle: [300, 110]", "shoulders": "[front.shoulder, yoke.shoulder]", "side": "sides: [front.side, back.side]",
	"hem": "hem: {of: [front.hem, back.hem]}", "neck": "neck: {of: [front.neck, yoke.neck], type: raw}",
}

var slot = regexp.MustCompile(`(?m)^( *)(.*)%(\w+)%(.*)\n`)

// blouse is the blouse with something written in it.
func blouse(t *testing.T, words ...map[string]string) *txtar.Archive {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "tablewords.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	for name := range slicesOf(words) {
		if !bytes.Contains(text, []byte("%"+name+"%")) {
			t.Fatalf("nothing can be written at %s", name)
		}
	}
	out := slot.ReplaceAllStringFunc(string(text), func(line string) string {
		m := slot.FindStringSubmatch(line)
		said := usually[m[3]]
		for _, w := range words {
			if v, ok := w[m[3]]; ok {
				said = v
			}
		}
		if strings.TrimSpace(m[2]+said+m[4]) == "" {
			return ""
		}
		return m[1] + m[2] + strings.ReplaceAll(said, "\n", "\n"+m[1]) + m[4] + "\n"
	})
	return txtar.Parse([]byte(out))
}

func slicesOf(words []map[string]string) map[string]bool {
	out := map[string]bool{}
	for _, w := range words {
		for name := range w {
			out[name] = true
		}
	}
	return out
}

// TestEveryWordEverywhere holds each word of construction in every place it must be seen in:
// taken out of the record, the place changes. A place that need not know has its reason.
func TestEveryWordEverywhere(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	plain := map[string]*made{}
	seen, silent, owed := 0, 0, 0
	table := wordTable(t)
	for _, w := range table {
		base := string(txtar.Format(blouse(t, w.Base)))
		if plain[base] == nil {
			plain[base] = makeIn(t, blouse(t, w.Base))
		}
		t.Run(w.Name, func(t *testing.T) {
			with, without := makeIn(t, blouse(t, w.Base, w.In)), plain[base]
			if fault.HasErrors(with.faults) {
				t.Fatal(with.faults)
			}
			with.notions, without.notions = w.Back, w.Back
			must := func(p place, ok bool) {
				t.Helper()
				switch why := w.Silent[p]; {
				case ok && why != "":
					t.Errorf("%s knows of it, and need not, because %s", p, why)
				case ok:
					seen++
				case why == "":
					t.Errorf("%s does not know of it", p)
				case strings.HasPrefix(why, "owed: "):
					owed++
				default:
					silent++
				}
			}
			for p, show := range shows {
				must(p, show(with, t) != show(without, t))
			}
			must(readerPlace, w.misread(t))
			must(schemaPlace, schemaHas(t, cmp.Or(w.Kind, "build"), w.Key))
			must(guidePlace, w.guided(t))
			must(faultPlace, len(w.Slips) > 0 && !slices.ContainsFunc(w.Slips, func(s string) bool { return !answered(t, s, w.Key) }))
			must(likePlace, len(w.Like) > 0 && likened(t, w.Base, w.In, w.Like) != likened(t, w.Base, w.Like))
			must(roundPlace, w.Round != "" && w.changed(t))
			must(handPlace, w.worked(t))
		})
	}
	t.Logf("%d words: seen in %d places, %d need not know, %d are owed", len(table), seen, silent, owed)
}

// misread reports whether check notices that the word is mistyped: else it was not read.
func (w tableWord) misread(t *testing.T) bool {
	t.Helper()
	key := regexp.MustCompile(`(^|[{ \[])` + regexp.QuoteMeta(w.Key) + `([:,} \]\n]|$)`)
	typed := "q" + w.Key + "q"
	for name, said := range w.In {
		at := key.FindStringSubmatchIndex(said)
		if at == nil || name == "work" {
			continue
		}
		other := map[string]string{name: said[:at[3]] + typed + said[at[4]:]}
		for _, f := range makeIn(t, blouse(t, w.Base, w.In, other)).faults {
			if strings.Contains(f.Message, typed) {
				return true
			}
		}
	}
	return false
}

// guided reports whether a page of the guide says the word as it is written.
func (w tableWord) guided(t *testing.T) bool {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../content/pages", w.Guide+".md"))
	if err != nil {
		t.Fatal(err)
	}
	return regexp.MustCompile("`[^`\n]*\\b" + regexp.QuoteMeta(w.Key) + `\b[^` + "`\n]*`").Match(text)
}

// likened is what is called again: pieces, as they are printed, and rows.
func likened(t *testing.T, words ...map[string]string) string {
	t.Helper()
	all := map[string]string{}
	for _, w := range words {
		for k, v := range w {
			all[k] = strings.TrimLeft(all[k]+"\n"+v, "\n")
		}
	}
	m := makeIn(t, blouse(t, all))
	again := func(name string) bool { return strings.Contains(name, "again") }
	m.g.Pieces = slices.DeleteFunc(m.g.Pieces, func(p *garment.Piece) bool { return !again(p.Name) })
	m.g.Rows = slices.DeleteFunc(m.g.Rows, func(r garment.Row) bool { return !again(r.Of) })
	if len(m.g.Pieces) == 0 {
		return m.rows(t)
	}
	return m.print(t) + m.rows(t)
}

// changed reports whether a round changes what is drawn of the word, or how much there is.
func (w tableWord) changed(t *testing.T) bool {
	t.Helper()
	round := map[string]string{"fittings": "fittings:\n  - day: 2027-01-20\n    from: video\n    saw: It does not lie as it should.\n    agreed: maker\n    change: " + w.Round}
	before, after := makeIn(t, blouse(t, w.Base, w.In)), makeIn(t, blouse(t, w.Base, w.In, round))
	if fault.HasErrors(after.faults) {
		t.Error(after.faults)
	}
	return before.print(t) != after.print(t) || before.rows(t) != after.rows(t)
}

// worked reports whether the test with numbers worked by hand is there.
func (w tableWord) worked(t *testing.T) bool {
	t.Helper()
	folder, name, _ := strings.Cut(w.Hand, " ")
	files, err := filepath.Glob(filepath.Join("../..", folder, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(text, []byte("func "+name+"(t *testing.T)")) {
			return true
		}
	}
	return false
}
