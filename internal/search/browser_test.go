package search

import (
	"context"
	"encoding/json"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/js"

	"hembook/internal/chromium"
	"hembook/internal/say"
	"hembook/themes"
)

// TestMain ends the browser that the tests shared.
func TestMain(m *testing.M) { chromium.Main(m) }

// A searchPage is what the theme's pages/search.html is given.
type searchPage struct {
	Index, Root, Stamp string
	Facets             []searchFacet
}

type (
	searchFacet struct{ Name, Label, Any string }
	searchLink  struct{ Href, Name string }
)

// publish writes an index with the theme's own page into a folder, under a
// sub-path, and returns the page.
func publish(t *testing.T, x *Index, scripts []File) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "a notebook", "sub")
	put := func(name string, data []byte) {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range x.Files() {
		put("search/"+f.Name, f.Data)
	}
	var links template.HTML
	for _, f := range scripts {
		put(f.Name, f.Data)
		links += template.HTML(`<script defer src="` + f.Name + `"></script>`)
	}
	page := template.Must(template.New("frame").Option("missingkey=error").Funcs(template.FuncMap{"say": say.Of}).ParseFS(themes.Plainweave(), "frame.html", "pages/search.html"))
	out, err := os.Create(filepath.Join(dir, "search.html"))
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	view := map[string]any{
		"Heading": "Search", "Lead": "Find a page by its words.", "Workroom": "Notebook", "What": "search", "Description": "",
		"Canonical": "", "Card": "", "Feed": "", "Data": "", "LinksHTML": links, "BandHTML": "", "Maker": "", "Contact": "", "Front": "index.html", "Search": "", "FootHTML": "",
		"Holds": searchPage{"search/", "", x.Stamp, []searchFacet{
			{"kind", "Kind", "any"}, {"cloth", "Cloth", "any"}, {"technique", "Technique", "any"}, {"garment", "Garment", "any"}, {"year", "Year", "any"},
		}},
		"Lists": []searchLink{{"builds.html", "Builds"}},
	}
	if err := page.ExecuteTemplate(out, "frame.html", view); err != nil {
		t.Fatal(err)
	}
	return out.Name()
}

// themeScripts are the theme's scripts as pages load them: joined and made small.
func themeScripts(t *testing.T) []File {
	t.Helper()
	theme := themes.Plainweave()
	names, err := fs.Glob(theme, "script/search*.js")
	if err != nil || len(names) != 3 {
		t.Fatalf("the theme has the scripts %q: %v", names, err)
	}
	m := minify.New()
	m.AddFunc("text/javascript", js.Minify)
	var all []byte
	for _, name := range names {
		data, err := fs.ReadFile(theme, name)
		if err != nil {
			t.Fatal(err)
		}
		small, err := m.Bytes("text/javascript", data)
		if err != nil {
			t.Fatal(name, err)
		}
		all = append(append(all, small...), ";\n"...)
	}
	return []File{{"script/search.js", all}}
}

// A window is a search page open in the browser.
type window struct {
	t   *testing.T
	ctx context.Context
}

func open(t *testing.T, ctx context.Context, page string) *window {
	t.Helper()
	tab, stop := chromedp.NewContext(ctx)
	tab, late := context.WithTimeout(tab, 10*time.Minute)
	t.Cleanup(func() { late(); stop() })
	if err := chromedp.Do(tab, chromedp.Navigate("file://"+page)); err != nil {
		t.Fatal(err)
	}
	return &window{t, tab}
}

// eval evaluates an expression, waiting for its promise, into a value.
func eval[T any](w *window, js string, args ...any) T {
	w.t.Helper()
	for i, a := range args {
		b, err := json.Marshal(a)
		if err != nil {
			w.t.Fatal(err)
		}
		args[i] = string(b)
	}
	if len(args) > 0 {
		js = fmt.Sprintf(js, args...)
	}
	v, err := chromedp.Run(w.ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		w.t.Fatalf("%s: %v", js[:min(len(js), 300)], err)
	}
	return v
}
