package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// pressed presses a workroom into a new folder.
func pressed(t *testing.T, room string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "pressed")
	var out, errs bytes.Buffer
	if code := run([]string{"press", "--room", room, "--to", to}, &out, &errs); code != exitFine {
		t.Fatalf("press: exit status %d\n%s%s", code, &out, &errs)
	}
	return to
}

// demo is where the demo workroom was pressed, once for all tests that only read.
var demo struct {
	sync.Once
	dir string
}

// pressedDemo is the demo workroom's notebook, which no test may write into.
func pressedDemo(t *testing.T) string {
	t.Helper()
	demo.Do(func() {
		dir, err := os.MkdirTemp("", "hembook-demo-")
		if err != nil {
			t.Fatal(err)
		}
		demo.dir = dir
		var out, errs bytes.Buffer
		if code := run([]string{"press", "--room", "../..", "--to", filepath.Join(dir, "pressed")}, &out, &errs); code != exitFine {
			t.Fatalf("press: exit status %d\n%s%s", code, &out, &errs)
		}
	})
	to := filepath.Join(demo.dir, "pressed")
	if _, err := os.Stat(to); err != nil {
		t.Fatal("the demo workroom could not be pressed")
	}
	return to
}

// pages lists the HTML files of a pressed notebook.
func pages(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(p, ".html") {
			out = append(out, p)
		}
		return nil
	})
	return out
}

// TestPagesInChromium opens every page of the demo workroom from its folder,
// as a double-click does, at the width of a phone, of a tablet and of a desk: no
// page is wider than its window, with workings shut or open; what is wide
// scrolls within a box of its own. On a phone and on a desk no word in a drawing is
// lower than eleven pixels. The page for lost ways has its style sheet only where a host
// serves it, so it is looked at there too.
func TestPagesInChromium(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	list := pages(t, s.dir)
	if len(list) < 50 {
		t.Fatalf("only %d pages", len(list))
	}
	drawn := 0
	for _, p := range list {
		name, _ := filepath.Rel(s.dir, p)
		hasWords := strings.Contains(contents(t, p), "<text")
		if hasWords {
			drawn++
		}
		look(t, ctx, name, "file://"+p, hasWords, 360, 768, 1280)
	}
	if drawn < 40 {
		t.Errorf("only %d pages have drawings", drawn)
	}
	look(t, ctx, "404.html on its host", s.base+"/404.html", false, 360, 768, 1280)
	// the measures do find what is too wide, and a word that is too small
	text := contents(t, s.kinds["text"])
	s.also("/wide.html", strings.Replace(text, "</body>", `<svg width="900" height="9"><g transform="scale(0.25)"><text y="9">hem</text></g></svg></body>`, 1))
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 800), chromedp.Navigate(s.base+"/wide.html")); err != nil {
		t.Fatal(err)
	}
	if f := evaluate[pageFacts](t, ctx, fmt.Sprintf(lookAround, smallWords)); f.Shut <= 0 || f.Open <= 0 || len(f.Small) != 1 {
		t.Errorf("a page with a drawing 900 px wide and a word a quarter as high is not found to be wrong: %+v", f)
	}
}

// lookAround gathers pageFacts, with the words that an expression finds too small, before
// the page is laid out a second time.
const lookAround = `(() => {
	const over = () => document.documentElement.scrollWidth - Math.min(innerWidth, document.documentElement.clientWidth);
	const all = [...document.querySelectorAll('details')], were = all.map(d => d.open);
	const shut = over(), small = %s;
	all.forEach(d => d.open = true);
	const open = over();
	all.forEach((d, i) => d.open = were[i]);
	return {
		shut: shut, open: open, small: small,
		title: document.title,
		headings: document.querySelectorAll('h1').length,
		foreign: performance.getEntriesByType('resource').map(e => e.name).filter(n => new URL(n).origin !== location.origin && !n.startsWith('file:')),
		broken: [...document.images].filter(i => i.complete && i.naturalWidth === 0).map(i => i.src),
		ran: !!window.stitched,
		noAlt: [...document.images].filter(i => !i.hasAttribute('alt')).length,
		styled: document.styleSheets.length,
	};
})()`

// look opens one page, and checks at each width what holds for every page, and, where it
// is asked to, that on a phone and on a desk the words of its drawings can be read.
func look(t *testing.T, ctx context.Context, name, at string, drawn bool, widths ...int64) {
	t.Helper()
	one, stop := context.WithTimeout(ctx, 2*time.Minute)
	defer stop()
	for i, width := range widths {
		err := chromedp.Do(one, chromedp.EmulateViewport(width, 800))
		if i == 0 && err == nil {
			err = chromedp.Do(one, chromedp.Navigate(at))
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		words := "[]"
		if drawn && width != 768 {
			words = smallWords
		}
		got := evaluate[pageFacts](t, one, fmt.Sprintf(lookAround, words))
		if len(got.Small) > 0 {
			t.Errorf("%s at %d px: %d words are small: %q", name, width, len(got.Small), got.Small[:min(3, len(got.Small))])
		}
		if got.Shut > 0 || got.Open > 0 {
			t.Errorf("%s is %d px wider than a window of %d px, and %d with its workings open", name, got.Shut, width, got.Open)
		}
		if got.Title == "" || got.Headings != 1 || got.Styled == 0 {
			t.Errorf("%s: title %q, %d first headings, %d style sheets", name, got.Title, got.Headings, got.Styled)
		}
		if len(got.Foreign) > 0 || len(got.Broken) > 0 || got.NoAlt > 0 {
			t.Errorf("%s at %d px: asks elsewhere for %v, broken pictures %v, %d without words", name, width, got.Foreign, got.Broken, got.NoAlt)
		}
		if got.Ran {
			t.Errorf("%s: a script from a record ran", name)
		}
	}
}

type pageFacts struct {
	Shut     int      `json:"shut"` // px wider than the window, workings shut
	Open     int      `json:"open"`
	Title    string   `json:"title"`
	Headings int      `json:"headings"`
	Foreign  []string `json:"foreign"`
	Broken   []string `json:"broken"`
	Ran      bool     `json:"ran"`
	NoAlt    int      `json:"noAlt"`
	Styled   int      `json:"styled"`
	Small    []string `json:"small"` // words of drawings that are hard to read
}

// TestNoScriptOfARecordRuns names everything that can be named after a script.
func TestNoScriptOfARecordRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("opens a browser")
	}
	t.Parallel()
	ctx := chromium.Tab(t)
	dir := t.TempDir()
	const evil = `<script>window.stitched=1</script><img src=x onerror=window.stitched=1>\"'}}</title></style>`
	for _, f := range readArchive(t, filepath.Join(brokenDir, "base.txtar")).Files {
		text := string(f.Data)
		if f.Name == skirtRecord {
			text = strings.Replace(text, "name: Harvest skirt", "name: \""+evil+"\"\nsummary: \""+evil+"\"\nstory: \""+evil+"\"", 1)
			text = strings.ReplaceAll(text, "name: front\n", "name: \""+evil+"\"\n")
			text = strings.ReplaceAll(text, "front", "'"+strings.ReplaceAll(strings.ReplaceAll(evil, `\"`, `"`), "'", "''")+"'")
			text = strings.Replace(text, "saw: too long", "saw: \""+evil+"\"", 1)
			text = strings.Replace(text, "what: button", "note: \""+evil+"\", what: \""+evil+"\"", 1)
		}
		if strings.HasSuffix(f.Name, ".md") {
			text += "\n" + strings.ReplaceAll(evil, `\"`, `"`) + "\n\n[x](<https://x.example/\"onmouseover=window.stitched=1>)\n"
		}
		write(t, dir, f.Name, text)
	}
	mendEdges(t, dir)
	to := pressed(t, dir)
	for _, p := range pages(t, to) {
		name, _ := filepath.Rel(to, p)
		look(t, ctx, name, "file://"+p, false, 1280)
	}
}

// mendEdges writes references to edges of the oddly named piece as YAML can
// hold them: whole in quotes.
func mendEdges(t *testing.T, dir string) {
	t.Helper()
	path := filepath.Join(dir, skirtRecord)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := string(text)
	for _, edge := range []string{"side", "waist", "hem"} {
		s = strings.ReplaceAll(s, "'."+edge, "."+edge+"'")
	}
	replace(t, dir, skirtRecord, s)
}

// TestSearchFromAFolder asks the pressed notebook, opened as by a double-click.
func TestSearchFromAFolder(t *testing.T) {
	if testing.Short() {
		t.Skip("opens a browser")
	}
	t.Parallel()
	ctx := chromium.Tab(t)
	dir := pressedDemo(t)
	one, stop := context.WithTimeout(ctx, 5*time.Minute)
	defer stop()
	for _, row := range []struct{ ask, want string }{
		{"french seam", "French seam"},            // a title
		{"harvst supper", "Harvest supper dress"}, // a letter dropped
		{"muslin", "calico"},                      // American for calico: trade terms both ways
		{"lapp", "Lap"},                           // the beginning of a word
	} {
		if err := chromedp.Do(one, chromedp.Navigate("about:blank"), chromedp.Navigate("file://"+filepath.Join(dir, "search.html")), chromedp.WaitVisible("#query")); err != nil {
			t.Fatal(err)
		}
		got, err := chromedp.Run(one, chromedp.Evaluate[string](fmt.Sprintf(`(async () => {
			const q = document.getElementById('query');
			q.value = %q;
			q.dispatchEvent(new Event('input', {bubbles: true}));
			for (let i = 0; i < 4000; i++) {
				await new Promise(r => setTimeout(r, 25));
				if (document.querySelector('.found a')) break;
			}
			return document.querySelector('.found').textContent;
		})()`, row.ask), chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.ToLower(got), strings.ToLower(row.want)) {
			t.Errorf("%q finds %.300q, want %q in it", row.ask, got, row.want)
		}
	}
}
