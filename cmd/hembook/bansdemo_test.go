package main

import (
	"encoding/xml"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// blocks are the elements whose words belong together.
var blocks = map[string]bool{"p": true, "li": true, "td": true, "th": true, "h1": true, "h2": true, "h3": true, "h4": true, "dt": true, "dd": true,
	"figcaption": true, "caption": true, "summary": true, "text": true, "title": true, "desc": true, "div": true, "section": true, "article": true,
	"label": true, "button": true, "option": true, "ul": true, "ol": true, "table": true, "tr": true, "details": true, "body": true, "head": true,
	"header": true, "footer": true, "main": true, "nav": true, "figure": true, "svg": true, "g": true, "br": true, "tspan": true, "blockquote": true, "form": true}

var (
	scripts   = regexp.MustCompile(`(?s)<(script|style)\b.*?</(script|style)>`)
	maybeSaid = []string{"alt", "aria-label", "title", "placeholder", "content"}
)

// shownOn gives what a page shows: a block's words, or an attribute that is read
// aloud. Workings, and records as they were written, are left out.
func shownOn(t *testing.T, page []byte, each func(line int, words string)) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(scripts.ReplaceAllStringFunc(string(page), func(s string) string { return strings.Repeat("\n", strings.Count(s, "\n")) })))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var in []string
	var words strings.Builder
	flush := func() {
		line, _ := d.InputPos()
		if text := strings.Join(strings.Fields(words.String()), " "); text != "" && !skipped(in) {
			each(line, text)
		}
		words.Reset()
	}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if blocks[token.Name.Local] {
				flush()
			}
			in = append(in, token.Name.Local)
			for _, a := range token.Attr {
				if slices.Contains(maybeSaid, a.Name.Local) && strings.Contains(a.Value, " ") && token.Name.Local != "meta" {
					line, _ := d.InputPos()
					each(line, a.Value)
				}
			}
		case xml.EndElement:
			if blocks[token.Name.Local] {
				flush()
			}
			in = in[:len(in)-1]
		case xml.CharData:
			if n := len(in); n > 0 && (in[n-1] == "code" || in[n-1] == "kbd") {
				words.WriteString(" … ")
			} else {
				words.Write(token)
			}
		}
	}
}

// skipped reports whether it is a working, or a record as it was written.
func skipped(in []string) bool {
	for i, name := range in {
		if name == "pre" || name == "p" && i > 0 && in[i-1] == "details" {
			return true
		}
	}
	return false
}

// A maker's own words, letters alone: she writes as she likes.
type ownWords string

// plainLetters is what is left of words if signs do not count.
func plainLetters(words string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, words)
}

// programPages are the pages of the demo workroom that tell of the program.
var programPages = []string{"guide", "on-a-piece", "knits-and-linings", "the-lay", "notions-and-work", "at-the-bench", "fittings", "packing", "pattern-files", "from-paper", "publishing", "commands", "words", "words-work", "words-beside", "ways-to-seam", "drafts", "first-garment", "waistcoat"}

func programPage(path string) bool {
	return slices.Contains(programPages, strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)))
}

var link = regexp.MustCompile(`\]\([^)]*\)`)

func makersWords(t *testing.T, root string) ownWords {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(filepath.Join(root, "content"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !slices.Contains([]string{".md", ".yaml"}, filepath.Ext(path)) {
			return err
		}
		if strings.Contains(filepath.ToSlash(path), "/pages/") && programPage(path) {
			return nil
		}
		text, err := os.ReadFile(path)
		all.WriteString(plainLetters(link.ReplaceAllString(string(text), "]")))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return ownWords(all.String())
}

func (o ownWords) has(words string) bool { return strings.Contains(string(o), plainLetters(words)) }

// demoSentences gathers all that the pressed demo's pages and the sheets of its
// garments, in English, say in the program's own words.
func demoSentences(t *testing.T) (out []sentence) {
	t.Helper()
	own := makersWords(t, "../..")
	read := func(root, path string, kind byte) {
		page, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		short, _ := filepath.Rel(root, path)
		shownOn(t, page, func(line int, words string) {
			if !own.has(words) {
				out = append(out, sentence{filepath.ToSlash(short), line, words, kind})
			}
		})
	}
	dir := pressedDemo(t)
	for _, page := range pages(t, dir) {
		if strings.HasPrefix(page, filepath.Join(dir, "records")) {
			continue // what the maker wrote, as it stands
		}
		if strings.HasPrefix(page, filepath.Join(dir, "pages")) && programPage(page) {
			continue // TestBannedWords reads it as it was written
		}
		read(dir, page, 'T')
	}
	for _, build := range demoBuilds(t) {
		folder, _ := packDemo(t, build, "--language", "en")
		for _, bundle := range []string{"wearer.html", "makers.html"} {
			read(filepath.Dir(folder), filepath.Join(folder, bundle), 'S')
		}
	}
	return out
}

// TestBannedWordsOfDemo: no page of the pressed demo and no sheet in English
// speaks as testdata/bans.tsv says none should. What the maker wrote is hers.
func TestBannedWordsOfDemo(t *testing.T) {
	if testing.Short() {
		t.Skip("presses and packs the demo workroom")
	}
	t.Parallel()
	through, _ := letThrough(t)
	all := demoSentences(t)
	found := finds(readBans(t), all, through)
	for _, f := range found {
		t.Error(f)
	}
	if len(all) < 5000 {
		t.Errorf("only %d sentences were read", len(all))
	}
	t.Logf("%d sentences, %d finds", len(all), len(found))
}
