package press

import (
	"bytes"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/notebook"
	"hembook/internal/prose"
)

const narrow = 40_000

// TestNoMarkFromTheRecord: a text that holds the byte of a mark neither stops the
// press nor is taken for one.
func TestNoMarkFromTheRecord(t *testing.T) {
	f := many(1)
	f["content/builds/build-00000/notes.md"] = "A \x01r999\x01 and `\x01s0\x01` and \x01.\n"
	for name, text := range pressed(t, room(t, f), t.TempDir()+"/x") {
		if strings.HasSuffix(name, ".html") && strings.Contains(text, "\x01") {
			t.Errorf("%s holds a mark", name)
		}
		if name == "builds/build-00000/journal.html" && !strings.Contains(text, "A r999 and <code>s0</code> and .") {
			t.Errorf("%s: the text is not whole", name)
		}
	}
}

func TestHeavyLeafIsContinued(t *testing.T) {
	p := &printer{pressing: &pressing{book: &notebook.Book{}}, stands: map[string]notebook.Address{}}
	part := &compose.Part{ID: "pieces", Name: "Pieces"}
	h := document.HTML{Rules: &p.rules}
	var all []chunk
	for i := range 9 {
		list := document.List{Items: []document.Item{{Phrase: document.Phrase{
			{Words: "x", Anchor: "p" + strconv.Itoa(8-i)}, document.Say(strings.Repeat("x", 15_000))}}}}
		for _, s := range h.Write([]document.Block{document.Section{ID: "p" + strconv.Itoa(i), Blocks: []document.Block{list}}}) {
			all = append(all, chunk{part, s, i == 0})
		}
	}
	sum := len(h.Out)
	build := &notebook.BuildPage{Head: notebook.Head{Address: "builds/a.html", Heading: "A"}}
	var pages []leafPage
	for i, parts := range spread(all, &p.rules, narrow) {
		pages = append(pages, leafPage{build.Leaf("pieces", i+1), parts})
		p.note(parts, pages[i].leaf.Address)
	}
	if len(pages) != 5 || pages[4].leaf.Address != "builds/a/pieces-5.html" {
		t.Fatalf("%d pages, the last at %s", len(pages), pages[len(pages)-1].leaf.Address)
	}
	text := make([]string, len(pages))
	for i, page := range pages {
		n := 0
		for _, had := range page.parts {
			for _, s := range had.text {
				n += len(s.HTML)
			}
		}
		if sum -= n; n > narrow || len(page.parts) != 1 || page.parts[0].part != part {
			t.Errorf("%s: %d bytes in %d parts", page.leaf.Address, n, len(page.parts))
		}
		p.at = page.leaf.Address
		parts, _, _ := p.fill(page.parts)
		text[i] = string(parts[0].HTML)
	}
	if sum != 0 {
		t.Errorf("%d bytes were lost", sum)
	}
	if !strings.Contains(text[0], `href="pieces-5.html#p8"`) {
		t.Errorf("a link within the leaf does not lead to its other page: %.80s", text[0])
	}
	if !strings.Contains(text[2], `href="#p4"`) {
		t.Errorf("a link within one page leads elsewhere: %.80s", text[2])
	}
}

// TestAddressesStay: what stands on the pages of a garment stands at the same address when
// much more is written down.
func TestAddressesStay(t *testing.T) {
	f := many(1)
	const record = "content/builds/build-00000/build.yaml"
	ids := regexp.MustCompile(` id="([^"]+)"`)
	before := pressed(t, room(t, f), t.TempDir()+"/x")
	var more strings.Builder
	for i := range 90 {
		more.WriteString("  - {at: 2026-01-" + strconv.Itoa(10+i%19) + ", note: \"" + strings.Repeat("a long day ", 40) + "\"}\n")
	}
	was := f[record]
	if f[record] = strings.Replace(was, "\njournal:\n", "\njournal:\n"+more.String(), 1); f[record] == was {
		f[record] = was + "\njournal:\n" + more.String()
	}
	after := pressed(t, room(t, f), t.TempDir()+"/x")
	led := 0
	for name, text := range before {
		if !strings.HasPrefix(name, "builds/build-00000") || !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, m := range ids.FindAllStringSubmatch(text, -1) {
			if led++; !strings.Contains(after[name], m[0]) {
				t.Errorf("%s#%s leads nowhere any more", name, m[1])
			}
		}
	}
	if led < 20 {
		t.Errorf("%d addresses were looked at", led)
	}
	if _, parted := after["builds/build-00000/journal-2.html"]; parted {
		t.Error("the journal is parted by its weight")
	}
}

func TestRecordPages(t *testing.T) {
	text := prose.YAML(nil, []byte(strings.Repeat("pieces:\n  x: {to: [1, 2]}\n  y: {}\n", 1500)))
	pages := recordPages(text, narrow)
	if !bytes.Equal(bytes.Join(pages, nil), text) {
		t.Error("the pages together are not the record")
	}
	for i, p := range pages {
		if len(p) > narrow || i < len(pages)-1 && p[len(p)-1] != '\n' || !bytes.HasPrefix(p, []byte(`<span class="nt">pieces`)) {
			t.Errorf("page %d has %d bytes and begins %.40q", i, len(p), p)
		}
	}
	if one := recordPages(nil, narrow); len(one) != 1 {
		t.Errorf("an empty record has %d pages", len(one))
	}
	if one := recordPages(bytes.Repeat([]byte("x"), 2*narrow), narrow); len(one) != 1 {
		t.Errorf("a record of one line has %d pages", len(one))
	}
}

// TestEveryWorkingIsReached: whatever leaf a figure stands on, its working
// stands there too, and each rule it names is on the same page.
func TestEveryWorkingIsReached(t *testing.T) {
	// the paragraph of a working says something; where its figure first stands on a page it has the figure's address
	working := regexp.MustCompile(`</summary><p(?: id="[^"]+")?>\s*(?:[^<\s]|<[^/])`)
	told := 0
	for name, text := range pressed(t, room(t, many(1)), t.TempDir()+"/x") {
		if !strings.HasPrefix(name, "builds/") {
			continue
		}
		if n := len(working.FindAllString(text, -1)); n != strings.Count(text, "<summary>") {
			t.Errorf("%s: %d figures, of them %d with a working", name, strings.Count(text, "<summary>"), n)
		} else {
			told += n
		}
		for _, link := range regexp.MustCompile(` href="#([^"]*)"`).FindAllStringSubmatch(text, -1) {
			if !strings.Contains(text, ` id="`+link[1]+`"`) {
				t.Errorf("%s: #%s is not on the page", name, link[1])
			}
		}
	}
	if told < 20 {
		t.Errorf("only %d workings stand on the pages", told)
	}
}

// TestFiguresLeadToTheLeafThatTellsThem: a figure in prose leads to the leaf of
// seams or fit, though what the garment can give stands before them and quotes it.
func TestFiguresLeadToTheLeafThatTellsThem(t *testing.T) {
	f := small()
	f["content/builds/apron/notes.md"] = "# Later\n\nIt came out [](figure:level.waist.finished) wide.\n"
	pages := pressed(t, room(t, f), filepath.Join(t.TempDir(), "a"))
	for page, want := range map[string]string{"alter.html": `id="level.waist.finished"`, "fit.html": `id="level.waist.finished"`, "journal.html": `href="fit.html#level.waist.finished"`} {
		if !strings.Contains(pages["builds/apron/"+page], want) {
			t.Errorf("%s does not hold %s", page, want)
		}
	}
}
