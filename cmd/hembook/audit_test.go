package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"hembook/internal/chromium"
)

// nodeFolder is a folder with the npm packages axe-core and html-validate under
// node_modules, named by HEMBOOK_NODE. Tests fetch nothing, so without it what
// needs them is skipped.
func nodeFolder(t *testing.T, module string) string {
	t.Helper()
	dir := os.Getenv("HEMBOOK_NODE")
	if dir == "" {
		t.Skip("HEMBOOK_NODE does not name a folder with " + module + " under node_modules: npm install --prefix FOLDER axe-core@4.14.1 html-validate@10.17.0")
	}
	path := filepath.Join(dir, "node_modules", module)
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("HEMBOOK_NODE names %s, which has no %s", dir, module)
	}
	return path
}

var kindPattern = regexp.MustCompile(`<body class="on-([a-z]+)">`)

// oneOfEach is the heaviest page of each kind, by kind.
func oneOfEach(t *testing.T, dir string) map[string]string {
	t.Helper()
	out, size := map[string]string{}, map[string]int{}
	for _, p := range pages(t, dir) {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		kind := string(kindPattern.FindSubmatch(text)[1])
		if kind == "leaf" { // each is made of its own parts
			kind += " " + strings.TrimRight(strings.TrimSuffix(filepath.Base(p), ".html"), "-0123456789")
		}
		if len(text) > size[kind] {
			out[kind], size[kind] = p, len(text)
		}
	}
	if len(out) < 18 {
		t.Fatalf("only %d kinds of page: %v", len(out), slices.Sorted(maps.Keys(out)))
	}
	return out
}

// scheme shows pages in their light or dark colours.
func scheme(name string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}},
		})
		return err
	})
}

// A site is a pressed notebook served at the root of a host of its own, where
// the page for lost ways finds its style sheet.
type site struct {
	dir, base string
	kinds     map[string]string // one page of each kind
	own       *http.ServeMux
}

func served(t *testing.T) site {
	t.Helper()
	if testing.Short() {
		t.Skip("opens a browser")
	}
	dir, own := pressedDemo(t), http.NewServeMux()
	own.Handle("/", http.FileServer(http.Dir(dir)))
	s := httptest.NewServer(own)
	t.Cleanup(s.Close)
	return site{dir, s.URL, oneOfEach(t, dir), own}
}

// also serves one page more, which is not in the notebook.
func (s site) also(path, text string) {
	s.own.HandleFunc(path, func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		io.WriteString(w, text)
	})
}

// open shows a page in the given colours, in a window so many pixels wide.
func (s site) open(t *testing.T, ctx context.Context, path, colours string, width int64) {
	t.Helper()
	rel, err := filepath.Rel(s.dir, path)
	if err != nil {
		t.Fatal(err)
	}
	at := s.base + "/" + filepath.ToSlash(rel)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800), scheme(colours), chromedp.Navigate(at)); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}

func evaluate[T any](t *testing.T, ctx context.Context, js string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestPagesAreAccessible has axe-core look at each kind of page, every working
// open, in both schemes of colours and at three widths.
func TestPagesAreAccessible(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join(nodeFolder(t, "axe-core"), "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for kind, p := range s.kinds {
		one, stop := context.WithTimeout(ctx, 5*time.Minute)
		s.open(t, one, p, "light", 360)
		evaluate[bool](t, one, string(axe)+";true")
		boxes := map[string]string{} // where everything stood in light colours
		for _, colours := range []string{"light", "dark"} {
			for _, width := range []int64{360, 768, 1280} {
				if err := chromedp.Do(one, chromedp.EmulateViewport(width, 800), scheme(colours)); err != nil {
					t.Fatal(err)
				}
				for _, opened := range []string{"false", "true"} {
					if opened == "true" && width == 768 {
						continue // between what the other two show
					}
					if colours == "dark" && opened == "false" {
						continue // each element seen then is among those seen with all open
					}
					ask := "all"
					switch {
					case colours == "dark":
						ask = "colours"
					case opened == "false" && width != 768:
						ask = "all but colours" // its texts are among those seen with all open
					}
					at := fmt.Sprintf("%s, %s, %d px, workings open %s", kind, colours, width, opened)
					found := evaluate[accessFacts](t, one, fmt.Sprintf(accessScript, opened, ask))
					for _, f := range found.Found {
						t.Errorf("%s: %s", at, f)
					}
					where := fmt.Sprint(width, opened)
					if colours == "light" {
						boxes[where] = found.Boxes
					} else if boxes[where] != found.Boxes {
						t.Errorf("%s: something stands elsewhere than in light colours", at)
					}
				}
			}
		}
		stop()
	}
}

// accessScript asks axe-core. In light colours all is asked, about contrast once for a
// text at each width; in dark ones what rests on colours, and whether each element has
// the box it had: no other rule could then answer otherwise.
const accessScript = `(async () => {
	const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
	document.querySelectorAll('details').forEach(d => d.open = %s);
	const colours = axe.getRules(tags).filter(r => r.tags.includes('cat.color')).map(r => r.ruleId);
	if (colours.length < 2) throw new Error('only ' + colours + ' rest on colours');
	const ask = {
		'all': {runOnly: tags},
		'colours': {runOnly: {type: 'rule', values: colours}},
		'all but colours': {runOnly: tags, rules: Object.fromEntries(colours.map(id => [id, {enabled: false}]))},
	}['%s'];
	const r = await axe.run(document, {...ask, resultTypes: ['violations']});
	return {
		Found: r.violations.map(v => v.id + ' (' + v.nodes.length + '): ' + v.help + ': ' + v.nodes.slice(0, 2).map(n => n.html.slice(0, 160) + ' ' + n.any.map(a => a.message).join(' ')).join(' | ')),
		Boxes: [...document.body.querySelectorAll('*')].reduce((sum, e) => {
			const b = e.getBoundingClientRect();
			return [b.x, b.y + scrollY, b.width, b.height].reduce((n, v) => (Math.imul(n, 31) + Math.round(v * 64)) | 0, sum);
		}, 7) + '',
	};
})()`

type accessFacts struct {
	Found []string
	Boxes string // a sum over every element's place and size
}

// validateConfig is what html-validate is asked to hold pages to: its
// recommended rules, and these changes.
const validateConfig = `{
	"root": true,
	"extends": ["html-validate:recommended"],
	"rules": {
		"valid-id": ["error", {"relaxed": true}],
		"long-title": "off",
		"no-inline-style": "error"
	}
}`

// TestPagesAreValid has html-validate read every page.
func TestPagesAreValid(t *testing.T) {
	nothingBeside(t)
	nodeFolder(t, "html-validate")
	t.Parallel()
	dir := pressedDemo(t)
	validate(t, dir, pages(t, dir))
}

// validate has html-validate read files of a folder.
func validate(t *testing.T, dir string, files []string) {
	t.Helper()
	tool := nodeFolder(t, "html-validate")
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("there is no node on this machine")
	}
	config := filepath.Join(t.TempDir(), "config.json")
	if err := os.WriteFile(config, []byte(validateConfig), 0o666); err != nil {
		t.Fatal(err)
	}
	args := append([]string{filepath.Join(tool, "bin", "html-validate.mjs"), "--config", config, "--formatter", "json"}, files...)
	out, err := exec.Command(node, args...).Output()
	var found []struct {
		FilePath string
		Messages []struct {
			RuleID, Message string
			Line, Column    int
		}
	}
	if jsonErr := json.Unmarshal(out, &found); jsonErr != nil {
		t.Fatalf("%v, %v: %.300s", err, jsonErr, out)
	}
	if len(found) == 0 && err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		name, _ := filepath.Rel(dir, f.FilePath)
		for _, m := range f.Messages {
			t.Errorf("%s:%d:%d: %s: %s", name, m.Line, m.Column, m.RuleID, m.Message)
		}
	}
}

// TestPagesByKeyboard goes over each kind of page with the tabulator key: what
// can be worked is reached in its order and can be seen to be reached; the first
// stop leads past the head; Enter opens a working.
func TestPagesByKeyboard(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for kind, p := range s.kinds {
		one, stop := context.WithTimeout(ctx, 2*time.Minute)
		s.open(t, one, p, "light", 1280)
		want := evaluate[int](t, one, `window.stops = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
			.filter(e => e.checkVisibility({visibilityProperty: true}) && !e.closest('details:not([open]) > :not(summary)'))
			.filter(e => e.type !== 'radio' || e.checked); stops.length`) // one stop for all that are chosen between
		for i := range want {
			if err := chromedp.Do(one, chromedp.KeyEvent(kb.Tab)); err != nil {
				t.Fatal(err)
			}
			at := evaluate[string](t, one, fmt.Sprintf(`(() => {
				const e = document.activeElement, s = getComputedStyle(e), r = e.getBoundingClientRect();
				if (e !== stops[%d]) return 'is ' + e.outerHTML.slice(0, 120) + ', not ' + stops[%[1]d].outerHTML.slice(0, 120);
				if (s.outlineStyle === 'none' || parseFloat(s.outlineWidth) < 2) return 'is not marked: ' + e.outerHTML.slice(0, 120);
				if (r.bottom <= 0 || r.top >= innerHeight) return 'is out of sight: ' + e.outerHTML.slice(0, 120);
				return '';
			})()`, i))
			if at != "" {
				t.Errorf("%s: stop %d %s", kind, i+1, at)
				break
			}
		}
		opens := evaluate[string](t, one, `(() => { const s = document.querySelector('summary'); if (!s) return ''; s.focus(); return s.parentElement.open ? 'open' : 'shut'; })()`)
		if opens != "" {
			if err := chromedp.Do(one, chromedp.KeyEvent(kb.Enter)); err != nil {
				t.Fatal(err)
			}
			if !evaluate[bool](t, one, `document.querySelector('details').open && document.querySelector('details p').checkVisibility()`) {
				t.Errorf("%s: Enter does not open a working", kind)
			}
		}
		if got := evaluate[string](t, one, `stops[0].getAttribute('href')`); got != "#main" {
			t.Errorf("%s: the first stop leads to %q, not past the head", kind, got)
		}
		stop()
	}
}

// drippingPages serves a folder as over a slow line: pages come in pieces, and
// the browser draws what it has in between.
func drippingPages(dir string) http.Handler {
	whole := http.FileServer(http.Dir(dir))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(r.URL.Path)))
		if path.Ext(r.URL.Path) != ".html" || err != nil {
			whole.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		for piece := range slices.Chunk(text, 5000) {
			w.Write(piece)
			w.(http.Flusher).Flush()
			time.Sleep(25 * time.Millisecond)
		}
	})
}

// TestPagesStandStill: nothing moves while a page loads over a slow line and is
// read to its end, and its first paint asked for one page and one style sheet.
func TestPagesStandStill(t *testing.T) {
	s := served(t)
	slow := httptest.NewServer(drippingPages(s.dir))
	t.Cleanup(slow.Close)
	s.base = slow.URL
	t.Parallel()
	ctx := chromium.Tab(t)
	for kind, p := range s.kinds {
		for _, width := range []int64{360, 1280} {
			one, stop := context.WithTimeout(ctx, 2*time.Minute)
			s.open(t, one, p, "light", width)
			got := evaluate[struct {
				Shift   float64
				Moved   []string
				Blocked []string
			}](t, one, `(async () => {
				let shift = 0, moved = [];
				new PerformanceObserver(l => l.getEntries().forEach(e => {
					shift += e.value;
					moved.push(...e.sources.map(s => s.node && (s.node.outerHTML || s.node.textContent).slice(0, 90)));
				})).observe({type: 'layout-shift', buffered: true});
				for (let y = 0; y < document.documentElement.scrollHeight; y += 600) {
					scrollTo(0, y);
					await new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)));
				}
				await Promise.all([...document.images].map(i => i.decode().catch(() => 0)));
				await new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)));
				return {Shift: shift, Moved: moved, Blocked: performance.getEntriesByType('resource').filter(e => e.renderBlockingStatus === 'blocking').map(e => e.name)};
			})()`)
			if got.Shift > 0 {
				t.Errorf("%s at %d px moves by %v while it loads: %q", kind, width, got.Shift, got.Moved)
			}
			if len(got.Blocked) != 1 || !strings.Contains(got.Blocked[0], "/look/") {
				t.Errorf("%s: the first paint waits for %v", kind, got.Blocked)
			}
			stop()
		}
	}
}

// TestPagesRunWithoutComplaint: no page asks for what its own security policy
// forbids; what it holds of structured data is not taken for a script.
func TestPagesRunWithoutComplaint(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	said := make(chan string, 1000)
	if err := chromedp.Listen(ctx, func(ev any) {
		if e, ok := ev.(*log.EventEntryAdded); ok && (e.Entry.Level == "error" || e.Entry.Level == "warning") {
			said <- e.Entry.Text
		}
	}); err != nil {
		t.Fatal(err)
	}
	for kind, p := range s.kinds {
		s.open(t, ctx, p, "light", 1280)
		if evaluate[int](t, ctx, `document.querySelectorAll('script[type="application/ld+json"]').length`) != 1 {
			t.Errorf("%s has no structured data", kind)
		}
		for len(said) > 0 {
			t.Errorf("%s: %s", kind, <-said)
		}
	}
	// the policy does forbid what it says: a script in the page is complained of
	text, err := os.ReadFile(s.kinds["text"])
	if err != nil {
		t.Fatal(err)
	}
	s.also("/bad.html", strings.Replace(string(text), "</body>", "<script>document.title = 'ran'</script></body>", 1))
	s.open(t, ctx, filepath.Join(s.dir, "bad.html"), "light", 1280)
	if title := evaluate[string](t, ctx, "document.title"); title == "ran" {
		t.Error("the policy lets a script in the page run")
	}
}

// linkPattern finds where links and forms lead.
var linkPattern = regexp.MustCompile(`<(?:a [^>]*href|form [^>]*action)="([^"#]*)`)

// TestEveryPageIsReachedWithoutScripts follows links from the front page as they
// stand in the files.
func TestEveryPageIsReachedWithoutScripts(t *testing.T) {
	if testing.Short() {
		t.Skip("presses the demo workroom")
	}
	t.Parallel()
	dir := pressedDemo(t)
	seen := map[string]bool{filepath.Join(dir, "index.html"): true}
	for next := []string{filepath.Join(dir, "index.html")}; len(next) > 0; next = next[1:] {
		text, err := os.ReadFile(next[0])
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range linkPattern.FindAllStringSubmatch(string(text), -1) {
			to := filepath.Join(filepath.Dir(next[0]), filepath.FromSlash(m[1]))
			if filepath.Ext(to) == ".html" && !strings.Contains(m[1], ":") && !seen[to] {
				seen[to] = true
				next = append(next, to)
			}
		}
	}
	for _, p := range pages(t, dir) {
		if !seen[p] && filepath.Base(p) != "404.html" {
			t.Errorf("no way leads to %s", p)
		}
	}
	ctx := chromium.Tab(t)
	off := chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	if err := chromedp.Do(ctx, off); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, "search.html"))); err != nil {
		t.Fatal(err)
	}
	if !evaluate[bool](t, ctx, `!document.querySelector('#query').checkVisibility() && document.querySelector('.without-search').checkVisibility() && document.querySelectorAll('main .plain a').length > 4 && document.querySelectorAll('main .plain a, footer a').length > 6`) {
		t.Error("without scripts the search page does not show its lists")
	}
}
