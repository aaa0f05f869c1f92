package search

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestSameBytesEachTime(t *testing.T) {
	a := synthetic(60, 4)
	first, second := build(t, a.docs, syntheticOptions), build(t, a.docs, syntheticOptions)
	if first.Stamp != second.Stamp || len(first.files) != len(second.files) {
		t.Fatalf("stamps %s and %s, %d and %d files", first.Stamp, second.Stamp, len(first.files), len(second.files))
	}
	for i, f := range first.files {
		if f.Name != second.files[i].Name || !bytes.Equal(f.Data, second.files[i].Data) {
			t.Errorf("%s differs", f.Name)
		}
	}
	a.docs[7].Text += " more"
	if third := build(t, a.docs, syntheticOptions); third.Stamp == first.Stamp {
		t.Error("the stamp stays when a text changes")
	}
}

func TestFilesAreScriptsOfOneCall(t *testing.T) {
	for _, f := range build(t, shelfOfFew(), fewOptions).Files() {
		s := string(f.Data)
		if !strings.HasPrefix(s, `hembook("`) || !strings.HasSuffix(s, ")\n") || strings.Count(s, "\n") != 1 || strings.ContainsAny(s, "\u2028\u2029") || !utf8.ValidString(s) {
			t.Errorf("%s: %.80q", f.Name, s)
		}
	}
}

func TestBuildRefuses(t *testing.T) {
	a, b := Document{Address: "a", Title: "A"}, Document{Address: "b", Title: "B"}
	before, err := Build([]Document{a, b}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, want string
		docs       []Document
		opt        Options
	}{
		{"no address", "no address", []Document{{Title: "A"}}, Options{}},
		{"another site", "leads out", []Document{{Address: "https://a.example/b", Title: "A"}}, Options{}},
		{"a script", "leads out", []Document{{Address: "javascript:alert(1)", Title: "A"}}, Options{}},
		{"the root", "leads out", []Document{{Address: "/etc", Title: "A"}}, Options{}},
		{"above", "leads out", []Document{{Address: "a/../../b", Title: "A"}}, Options{}},
		{"twice", "two pages", []Document{{Address: "a", Title: "A"}, {Address: "a", Title: "B"}}, Options{}},
		{"twice, where there were two before", "two pages", []Document{a, a}, Options{Before: before}},
		{"facet", "does not offer", []Document{{Address: "a", Facets: []Facet{{"colour", []string{"red"}}}}}, Options{}},
		{"kind", "by itself", nil, Options{Facets: []string{"kind"}}},
	} {
		if _, err := Build(c.docs, c.opt); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	if _, err := Build(nil, Options{}); err != nil {
		t.Errorf("no documents at all: %v", err)
	}
}

// bitReader is the slow reading of bitWriter's characters.
type bitReader struct{ bits []byte }

func readBits(s string) *bitReader {
	r := &bitReader{}
	for i := 0; i < len(s); i += 2 {
		v, n := strings.IndexByte(alphabet, s[i]), 6
		if i+1 < len(s) {
			v, n = v*91+strings.IndexByte(alphabet, s[i+1]), 13
		}
		for b := n - 1; b >= 0; b-- {
			r.bits = append(r.bits, byte(v>>b&1))
		}
	}
	return r
}

func (r *bitReader) read(n int) int {
	v := 0
	for ; n > 0; n-- {
		v = v<<1 | int(r.bits[0])
		r.bits = r.bits[1:]
	}
	return v
}

func (r *bitReader) gamma() int {
	n := 0
	for r.read(1) == 0 {
		n++
	}
	return 1<<n | r.read(n)
}

func TestAlphabet(t *testing.T) {
	if len(alphabet) != 91 || strings.ContainsAny(alphabet, "\"\\< ") {
		t.Errorf("%d characters: %s", len(alphabet), alphabet)
	}
	for i := 1; i < len(alphabet); i++ {
		if alphabet[i] <= alphabet[i-1] {
			t.Errorf("%q stands after %q", alphabet[i], alphabet[i-1])
		}
	}
}

func TestListsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5000).Draw(t, "documents")
		docs := rapid.SliceOfDistinct(rapid.IntRange(0, n-1), func(d int) int { return d }).Draw(t, "found")
		var list []posting
		for _, d := range docs {
			list = append(list, posting{uint32(d), uint8(rapid.IntRange(0, 15).Draw(t, "level"))})
		}
		byWorth(list)
		p := &packer{shelf: &fileSet{}, n: n, size: 1e9}
		p.put(nil)
		p.put(list)
		r := readBits(p.bits.take())
		if r.gamma() != 1 {
			t.Fatal("an empty list is not empty")
		}
		left := r.gamma() - 1
		if left != len(list) {
			t.Fatalf("%d postings, want %d", left, len(list))
		}
		if left == 0 {
			return
		}
		top := r.read(4)
		var back []posting
		for l := top; left > 0; l-- {
			count := left
			if l == top {
				count = r.gamma()
			} else if l > 0 {
				count = r.gamma() - 1
			}
			left -= count
			last := -1
			for k := riceBits(max(count, 1), n); count > 0; count-- {
				q := 0
				for r.read(1) == 1 {
					q++
				}
				last += q<<k + r.read(k) + 1
				back = append(back, posting{uint32(last), uint8(l)})
			}
		}
		if !slices.Equal(back, list) {
			t.Fatalf("%v became %v", list, back)
		}
	})
}

// decode reads what a coder wrote, bit by bit.
func decode(c *coder, s string, ends int) string {
	r := readBits(s)
	var b strings.Builder
	for n, v := 0, 0; ends > 0; {
		v, n = v<<1|r.read(1), n+1
		for i, code := range c.code {
			if c.length[i] != n || int(code) != v {
				continue
			}
			piece := c.pieces[i]
			if piece == "" {
				piece = string(rune(r.read(letterBits)))
			}
			b.WriteString(piece)
			ends -= strings.Count(piece, "\n")
			n, v = 0, 0
			break
		}
	}
	return b.String()
}

func TestTextsComeBack(t *testing.T) {
	a := synthetic(20, 2)
	c := newCoder(300, newLexicon())
	for i := range a.docs {
		c.count(c.segments.cut(a.docs[i].written()))
	}
	c.learn()
	for _, d := range append(slices.Clone(a.docs), shelfOfFew()...) {
		want := d.written()
		c.encode(c.segments.cut(want))
		if got := decode(c, c.bits.take(), linesOfText); got != want {
			t.Errorf("%q became %q", want, got)
		}
	}
}

// TestManyCharacters: texts come back where there are more different characters
// than pieces, as in scripts that have thousands.
func TestManyCharacters(t *testing.T) {
	c := newCoder(300, newLexicon())
	var b strings.Builder
	for i := range 4 * 900 {
		b.WriteRune(rune(0x4e00 + i%900))
		b.WriteString("\n")
	}
	text := b.String()
	c.count(c.segments.cut(text))
	c.learn()
	c.encode(c.segments.cut(text))
	if got := decode(c, c.bits.take(), strings.Count(text, "\n")); got != text {
		t.Errorf("%.60q… became %.60q…", text, got)
	}
}

// TestBefore: whatever came, went or changed since the index before, the files
// are those of an index made from nothing, and what is gone is not kept for ever.
func TestBefore(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	all := synthetic(60, 4).docs
	groups := [][]string{{"hem", "edge finish"}, {"dart", "pinch", all[0].Title}}
	opt := func(step int) Options {
		return Options{Facets: []string{"cloth", "technique", "garment", "year"}, Synonyms: groups[:1+step/10%2]}
	}
	docs := slices.Clone(all[:20])
	var before *Index
	steps, most := 30, 0
	if testing.Short() {
		steps = 4
	}
	for step := range steps {
		o := opt(step)
		fresh, err := Build(docs, o)
		if err != nil {
			t.Fatal(err)
		}
		o.Before = before
		again, err := Build(slices.Clone(docs), o)
		if err != nil {
			t.Fatal(err)
		}
		if again.Stamp != fresh.Stamp || !reflect.DeepEqual(again.Files(), fresh.Files()) {
			t.Fatalf("step %d: %s, from nothing %s", step, again.Stamp, fresh.Stamp)
		}
		before = again
		most = max(most, len(again.words.texts)-2*len(fresh.words.texts))
		i := r.IntN(len(docs))
		switch r.IntN(8) {
		case 0:
			docs = slices.Delete(docs, i, i+1)
		case 1:
			if d := all[r.IntN(len(all))]; !slices.ContainsFunc(docs, func(e Document) bool { return e.Address == d.Address }) {
				docs = slices.Insert(docs, i, d)
			}
		case 2:
			docs[i].Title += " anew"
		case 3:
			docs[i].Names = append(slices.Clone(docs[i].Names), "Edge finish")
		case 4:
			docs[i].Kind = "page"
		default:
			var b strings.Builder
			for k := range 1200 { // words of its own
				fmt.Fprintf(&b, "w%dx%d ", step, k)
			}
			docs[i].Text = b.String()
		}
	}
	if most > 6000 {
		t.Errorf("%d more words are kept than twice those in use", most)
	}
}

// TestAWordLeavesOthers: where the words of a text change their places with others
// that the archive has, most files stay; all are those of an index made from nothing.
func TestAWordLeavesOthers(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	docs := synthetic(800, 5).docs
	opt := Options{Facets: []string{"cloth", "technique", "garment", "year"}}
	before := build(t, docs, opt)
	steps := 12
	if testing.Short() {
		steps = 2
	}
	var parts []float64
	for step := range steps {
		docs = slices.Clone(docs)
		for range 1 + r.IntN(3) {
			d, e := &docs[r.IntN(len(docs))], &docs[r.IntN(len(docs))]
			words, others := strings.Fields(d.Text), strings.Fields(e.Text)
			words[r.IntN(len(words))] = others[r.IntN(len(others))]
			d.Text = strings.Join(words, " ")
		}
		fresh := build(t, docs, opt)
		opt.Before = before
		again := build(t, docs, opt)
		opt.Before = nil
		if again.Stamp != fresh.Stamp || !reflect.DeepEqual(again.Files(), fresh.Files()) || !reflect.DeepEqual(terms(again), terms(fresh)) {
			t.Fatalf("step %d: not as from nothing", step)
		}
		had := map[string][]byte{}
		for _, f := range before.Files() {
			had[f.Name] = f.Data
		}
		other := 0
		for _, f := range again.Files() {
			if !bytes.Equal(had[f.Name], f.Data) {
				other++
			}
		}
		parts = append(parts, float64(other)/float64(len(again.Files())))
		before = again
	}
	slices.Sort(parts)
	t.Logf("written anew, of all files: %.3f", parts)
	if middle := parts[len(parts)/2]; middle > 0.3 {
		t.Errorf("%.0f %% of the files are other", 100*middle)
	}
}

// terms are the terms of an index with their lists.
func terms(x *Index) (out []term) {
	for _, t := range x.terms {
		out = append(out, *t)
	}
	return out
}

func FuzzTexts(f *testing.F) {
	c := newCoder(300, newLexicon())
	for _, d := range synthetic(20, 2).docs {
		c.count(c.segments.cut(d.written()))
	}
	c.learn()
	for _, s := range tokenSamples {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := Document{Address: "a.html", Kind: "page", Title: text, Text: text}
		c.encode(c.segments.cut(d.written()))
		if got := decode(c, c.bits.take(), linesOfText); got != d.written() {
			t.Errorf("%q became %q", d.written(), got)
		}
	})
}

func TestCompareIsThatOfScripts(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"a", "b", -1}, {"a", "a", 0}, {"ab", "a", 1}, {"\U0001d538", "\uff5e", -1}, {"é", "z", 1}, {"\U0001d538", "\U0001d539", -1}} {
		got := compare(c.a, c.b)
		if got < 0 && c.want >= 0 || got > 0 && c.want <= 0 || got == 0 && c.want != 0 {
			t.Errorf("%q and %q: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// TestTitlesComeBeforeTexts: whatever the text, a word of the title is worth
// more than any number of times in the text alone.
func TestTitlesComeBeforeTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.IntRange(1, 100_000).Draw(t, "words")
		average := rapid.IntRange(1, 2000).Draw(t, "average")
		inText := level(rapid.IntRange(1, 65_535).Draw(t, "times"), length, average, 0)
		inTitle := level(0, length, average, int(titleBonus(rapid.IntRange(1, 60).Draw(t, "title"))))
		inName := level(0, length, average, int(nameBonus(rapid.IntRange(1, 60).Draw(t, "name"))))
		if inText >= inTitle || inText >= inName {
			t.Errorf("text %d, title %d, name %d", inText, inTitle, inName)
		}
	})
}

func TestWeights(t *testing.T) {
	// 8 × ln(1 + (10 − 1 + ½) ÷ 1½) = 8 × ln 7⅓ = 15.9; 8 × ln(1 + ½ ÷ 10½) = 0.4, but the least is 1
	for _, c := range [][3]int{{1, 10, 15}, {10, 10, 1}, {1, 700_000, 90}} {
		if got := weight(c[0], c[1]); got != c[2] {
			t.Errorf("%d of %d: %d, want %d", c[0], c[1], got, c[2])
		}
	}
}

// TestLittleWordsAreCut: with many documents, a word that is nearly everywhere
// keeps its best postings and no more.
func TestLittleWordsAreCut(t *testing.T) {
	docs := make([]Document, 2100)
	r := rand.New(rand.NewPCG(1, 1))
	for i := range docs {
		docs[i] = Document{Address: string(rune('a'+i%26)) + strings.Repeat("x", i/26), Title: "Leaf", Text: "the " + strings.Repeat("seam ", r.IntN(9))}
	}
	for _, e := range build(t, docs, Options{}).terms {
		if e.text == "the" && (len(e.found) != headLength || !e.cut) {
			t.Errorf("the: %d postings, cut %t", len(e.found), e.cut)
		}
	}
}
