package record

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf16"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

const head = "name: A\ngarment: skirt\nstate: planned\n"

// wide writes text in UTF-16, the lower byte first.
func wide(text string) string {
	var b strings.Builder
	for _, u := range utf16.Encode([]rune(text)) {
		b.Write([]byte{byte(u), byte(u >> 8)})
	}
	return b.String()
}

// TestFilesThatAreNoRecords: the place and the first words of the answer to
// each. Those too large are refused before a tree is made of them.
func TestFilesThatAreNoRecords(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	for name, c := range map[string][2]string{
		"UTF-16":                  {wide("\ufeff" + head), "1:1 this file is saved as UTF-16"},
		"UTF-16 without its mark": {wide(head), "1:2 this file is saved as UTF-16"},
		"an older letter":         {head + "story: N\xe4hte\n", `4:9 a letter here is not saved as UTF-8, perhaps "ä"`},
		"a stray byte":            {head + "story: a\x81\n", "4:9 the byte 0x81 is not text"},
		"a byte of nothing":       {head + "story: a\x00b\n", "4:9 this file is damaged here"},
		"a picture":               {"\xff\xd8\xff\xe0\x00\x10JFIF", "1:1 this file is a picture, a document or an archive"},
		"a large file":            {head + "story: " + strings.Repeat("a", mostRecord), "1:1 this file is 4 MB; at most 4 MB is read"},
		"a list of a million":     {head + "story: [" + strings.Repeat("1,", 1_000_000) + "]\n", "4:1 this record holds more than 100000 values"},
		"a million lines":         {head + "story:\n" + strings.Repeat("- 1\n", 1_000_000), "100001:1 this record holds more than 100000 values"},
		"brackets in brackets":    {head + "story: " + strings.Repeat("[", 20_000), "4:1 too many brackets within brackets"},
		"a group of thousands":    {head + "measured:\n" + lines("  k%d: 1\n", 2001), "5:3 this group has 2001 words, and at most 2000 are read"},
		"a bomb of aliases":       {head + bomb(), ""},
	} {
		room := baseRoom(t, map[string]string{"content/builds/a/build.yaml": c[0]})
		bf, _ := room.BuildNamed("a")
		_, faults := room.ReadBuild(bf)
		if c[1] == "" {
			if !strings.Contains(fmt.Sprint(faults), "unfolds into more than 200000 values") {
				t.Errorf("%s: %v", name, faults)
			}
			continue
		}
		if len(faults) == 0 || !strings.HasPrefix(fmt.Sprintf("%d:%d %s", faults[0].At.Line, faults[0].At.Column, faults[0].Message), c[1]) {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func lines(form string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String()
}

// bomb is a short text whose groups merge into each other 9⁶ times.
func bomb() string {
	all := "pieces:\n  a: &a {cut: 1}\n"
	for c := 'a'; c < 'g'; c++ {
		all += fmt.Sprintf("  %c: &%c {<<: [%s]}\n", c+1, c+1, strings.Repeat(fmt.Sprintf("*%c,", c), 9))
	}
	return all
}

// fuzzFile reads any text as a file of one kind, checks it, and asks of every
// fault that it has a place and words.
func fuzzFile(f *testing.F, header bool, read func(*Room, *decoder, *yaml.Node, *fault.Faults)) {
	base := baseRoom(f, nil)
	for _, name := range []string{"content/workroom.yaml", "content/cloth/rust-linen.yaml", "content/wearers/contralto.yaml", "content/techniques/plain-seam.md", "content/builds/skirt/build.yaml"} {
		file, err := base.FS.Open(name)
		if err != nil {
			f.Fatal(err)
		}
		text, err := io.ReadAll(file)
		file.Close()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("name: &x {y: *x}\nfibres: {<<: *x}\n")
	f.Add("body: {bust: .nan, waist: 1e308, hip: -0}\n")
	f.Fuzz(func(t *testing.T, text string) {
		var faults fault.Faults
		src := &fault.Source{Path: "content/x"}
		clean, ok := checkText(src, []byte(text), &faults)
		var shift int32
		if ok && header {
			clean, _, _, ok = splitHeader(src, clean, &faults)
			shift = 1
		}
		if ok {
			if node, ok := parseYAML(src, clean, shift, &faults); ok {
				d := newDecoder(src, measure.UnitMM, &faults)
				d.shift = shift
				r := &Room{Workroom: &Workroom{}, cloths: map[string]*Cloth{}, techniques: map[string]*Technique{}, FS: emptyFS{}}
				read(r, d, node, &faults)
				redact(clean, node, d.hides)
			}
		}
		most := int32(bytes.Count([]byte(text), []byte("\n"))) + 2
		for _, one := range faults.Sorted() {
			if !one.At.Given() || one.Message == "" || one.At.Line > most {
				t.Errorf("a fault without a place or words: %v", one)
			}
		}
	})
}

func FuzzCloth(f *testing.F) {
	fuzzFile(f, false, func(r *Room, d *decoder, n *yaml.Node, faults *fault.Faults) {
		c := &Cloth{At: fault.Pos{Source: d.src, Line: 1, Column: 1}}
		d.into(n, c)
		r.checkCloth(c, faults)
	})
}

func FuzzWearer(f *testing.F) {
	fuzzFile(f, false, func(_ *Room, d *decoder, n *yaml.Node, _ *fault.Faults) { d.into(n, &Wearer{}) })
}

func FuzzWorkroom(f *testing.F) {
	fuzzFile(f, false, func(r *Room, d *decoder, n *yaml.Node, faults *fault.Faults) {
		d.into(n, r.Workroom)
		r.check(faults)
	})
}

func FuzzTechnique(f *testing.F) {
	fuzzFile(f, true, func(r *Room, d *decoder, n *yaml.Node, faults *fault.Faults) {
		one := &Technique{At: fault.Pos{Source: d.src, Line: 1, Column: 1}, Slug: "x"}
		d.into(n, one)
		r.Techniques = append(r.Techniques, one)
		r.check(faults)
	})
}

func FuzzPage(f *testing.F) {
	fuzzFile(f, true, func(r *Room, d *decoder, n *yaml.Node, faults *fault.Faults) {
		one := &Page{At: fault.Pos{Source: d.src, Line: 1, Column: 1}, Slug: "x"}
		d.into(n, one)
		r.Pages = append(r.Pages, one)
		r.check(faults)
	})
}

// FuzzReadName: a name that is seen in a record is the name that the record has
// when it is read.
func FuzzReadName(f *testing.F) {
	for _, text := range []string{"name: A\n", "name: 'A b' # c\n", "name:\n  A\n", "name: >\n  A\n", "#\nname: [A]\n", "name: &a A\nx: *a\n", "a: |\nname: B\n", "name: A\nname: B\n", "name: 12\n", "name: ~\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		room := &Room{FS: fstest.MapFS{"build.yaml": {Data: []byte(text)}}}
		seen, found := room.readName("build.yaml")
		var whole struct {
			Name string `yaml:"name"`
		}
		if !found {
			t.Fatal("it is there")
		}
		var faults fault.Faults
		node, ok := parseYAML(&fault.Source{Path: "build.yaml"}, []byte(text), 0, &faults)
		if ok && seen != "" && len(text) < 2000 && node.Decode(&whole) == nil && strings.TrimSpace(whole.Name) != seen {
			t.Errorf("%q: seen %q, read %q", text, seen, whole.Name)
		}
	})
}
