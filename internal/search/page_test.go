package search

import (
	"fmt"
	"hembook/internal/chromium"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// shelfOfFew are documents for what happens in the page.
func shelfOfFew() []Document {
	return []Document{
		{"builds/supper.html", "build", "Supper dress", nil, "A dress in rust linen with French seams. The hem was levelled on 5 May.",
			[]Facet{{"cloth", []string{"rust linen"}}, {"year", []string{"2026"}}, {"garment", []string{"dress"}}}},
		{"builds/coat.html", "build", "Winter coat", nil, "A coat in grey wool, bagged out; the hem by hand.",
			[]Facet{{"cloth", []string{"grey wool"}}, {"year", []string{"2025"}}, {"garment", []string{"coat"}}}},
		{"techniques/french-seam.html", "technique", "French seam", []string{"double seam"}, "Two passes enclose the raw edges. For sheer cloth.",
			[]Facet{{"technique", []string{"french-seam"}}}},
		{"techniques/evil.html", "technique", `<img src=x onerror="window.stitched=1"> & </script>`, nil,
			`Evil <b onmouseover=window.stitched=1>text</b> about "javascript:" seams \u003c \ ` + "\u2028 and | bars ^ 日本 🧵.", nil},
	}
}

var fewOptions = Options{Facets: []string{"cloth", "technique", "garment", "year"}, Synonyms: [][]string{{"hem", "edge finish"}}}

// typed types a query and returns the titles that are shown then.
func typed(w *window, query string) []string {
	w.t.Helper()
	return eval[[]string](w, `(async () => {
		const page = document.getElementById("search"), input = page.querySelector("input");
		const done = new Promise(d => page.addEventListener("found", d, {once: true}));
		input.value = %s;
		input.dispatchEvent(new Event("input", {bubbles: true}));
		await done;
		return [...page.querySelectorAll("ol a")].map(a => a.textContent);
	})()`, query)
}

// addressKept waits until the page's address holds the query.
const addressKept = `new Promise(d => {
	const look = () => location.hash === %s ? d(true) : requestAnimationFrame(look);
	look();
})`

func fewPage(t *testing.T) *window {
	t.Helper()
	ctx := chromium.LongTab(t)
	return open(t, ctx, publish(t, build(t, shelfOfFew(), fewOptions), themeScripts(t)))
}

func TestPageShowsResults(t *testing.T) {
	w := fewPage(t)
	if got := typed(w, "french seam"); len(got) < 2 || got[0] != "French seam" || got[1] != "Supper dress" {
		t.Errorf("found %q", got)
	}
	eval[bool](w, addressKept, "#q=french+seam")
	got := eval[[]string](w, `[document.querySelector("#search ol a").getAttribute("href"), document.querySelector("#search ol li:nth-child(2) p").innerHTML,
		document.querySelector("[role=status]").textContent, location.hash, document.querySelector("main > ul a").textContent, String(document.querySelector(".without-search").hidden)]`)
	want := []string{"./techniques/french-seam.html", "A dress in rust linen with <mark>French</mark> <mark>seams</mark>. The hem was levelled on 5 May.",
		"", "#q=french+seam", "Builds", "true"}
	want[2] = got[2]
	if !slices.Equal(got, want) || !strings.Contains(got[2], "found") {
		t.Errorf("page %q, want %q", got, want)
	}
	if got := typed(w, "double seam"); len(got) == 0 || got[0] != "French seam" {
		t.Errorf("by its other name: %q", got)
	}
	if got := typed(w, "qqqq zzzz"); len(got) != 0 {
		t.Errorf("nonsense finds %q", got)
	}
	if s := eval[string](w, `document.querySelector("[role=status]").textContent`); !strings.HasPrefix(s, "Nothing found") {
		t.Errorf("nonsense is answered %q", s)
	}
	if got := typed(w, ""); len(got) != 0 {
		t.Errorf("nothing typed finds %q", got)
	}
}

func TestMarkupInTitlesIsText(t *testing.T) {
	w := fewPage(t)
	got := typed(w, "evil")
	if len(got) != 1 || got[0] != shelfOfFew()[3].Title {
		t.Fatalf("found %q", got)
	}
	facts := eval[[]string](w, `[String(window.stitched), String(document.querySelectorAll("#search ol :is(img, script, b)").length), document.querySelector("#search ol p").textContent]`)
	text := strings.Join(strings.Fields(shelfOfFew()[3].Text), " ")
	if facts[0] != "undefined" || facts[1] != "0" || facts[2] != text {
		t.Errorf("the page has %q, want the words alone: %q", facts, text)
	}
}

func TestFilters(t *testing.T) {
	w := fewPage(t)
	eval[bool](w, `(async () => {
		const s = document.querySelector("select[name=kind]");
		s.dispatchEvent(new Event("focus"));
		while (s.options.length < 3) await new Promise(d => requestAnimationFrame(d));
		return true;
	})()`)
	choose := func(facet, value string) {
		t.Helper()
		eval[bool](w, `(async () => {
			const s = document.querySelector("select[name=" + %s + "]"), page = document.getElementById("search");
			const o = [...s.options].find(o => (o.dataset.value || "") === %s);
			const done = new Promise(d => page.addEventListener("found", d, {once: true}));
			s.value = o.value;
			s.dispatchEvent(new Event("change", {bubbles: true}));
			await done;
			return true;
		})()`, facet, value)
	}
	choose("kind", "build")
	for _, c := range []struct{ facet, value, query, want string }{
		{"kind", "build", "seam", "Supper dress"},
		{"kind", "build", "hem", "Winter coat|Supper dress"},
		{"kind", "build", "", "Supper dress|Winter coat"},
		{"year", "2025", "hem", "Winter coat"},
		{"year", "", "dress", "Supper dress"},
		{"cloth", "grey wool", "dress", ""},
		{"cloth", "rust linen", "hem", "Supper dress"},
	} {
		typed(w, c.query)
		choose(c.facet, c.value)
		got := eval[[]string](w, `[...document.querySelectorAll("#search ol a")].map(a => a.textContent)`)
		want := strings.Split(c.want, "|")
		slices.Sort(got)
		slices.Sort(want)
		if strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%s %q with %q: found %q, want %q", c.facet, c.value, c.query, got, want)
		}
	}
	eval[bool](w, addressKept, "#q=hem&kind=build&cloth=rust+linen")
	eval[bool](w, `(document.querySelectorAll("select").forEach(s => { s.selectedIndex = 0; }), true)`)
	eval[bool](w, `new Promise(d => {
		document.getElementById("search").addEventListener("found", () => d(true), {once: true});
		location.hash = "#q=coat&kind=build";
	})`)
	if got := eval[[]string](w, `[...document.querySelectorAll("#search ol a")].map(a => a.textContent)`); !slices.Equal(got, []string{"Winter coat"}) {
		t.Errorf("from the address %q: found %q", "#q=coat&kind=build", got)
	}
}

func TestKeys(t *testing.T) {
	w := fewPage(t)
	typed(w, "seam")
	press := func(key, on string) string {
		return eval[string](w, `(document.activeElement.dispatchEvent(new KeyboardEvent("keydown", {key: %s, bubbles: true, cancelable: true})),
			document.activeElement.tagName + " " + document.activeElement.textContent.trim())`, key)
	}
	eval[bool](w, `(document.querySelector("#query").focus(), true)`)
	for i, c := range []struct{ key, want string }{
		{"ArrowUp", "INPUT "}, {"ArrowDown", "A French seam"}, {"ArrowDown", "A "}, {"ArrowUp", "A French seam"}, {"ArrowUp", "INPUT "},
		{"ArrowDown", "A French seam"}, {"Escape", "INPUT "},
	} {
		if got := press(c.key, ""); !strings.HasPrefix(got, c.want) {
			t.Errorf("step %d, %s: at %q, want %q", i, c.key, got, c.want)
		}
	}
	press("Escape", "")
	if v := eval[string](w, `document.querySelector("#query").value`); v != "" {
		t.Errorf("after Escape the field holds %q", v)
	}
}

// TestMoreThanTen steps through the pages found ten at a time, in one order.
func TestMoreThanTen(t *testing.T) {
	ctx := chromium.LongTab(t)
	var docs []Document
	for i := range 25 {
		docs = append(docs, Document{Address: fmt.Sprintf("%d.html", i), Kind: "page", Title: fmt.Sprintf("Leaf %d", i), Text: "gusset " + strings.Repeat("filler ", i)})
	}
	w := open(t, ctx, publish(t, build(t, docs, Options{}), themeScripts(t)))
	if got := typed(w, "gusset"); len(got) != 10 {
		t.Fatalf("shows %d", len(got))
	}
	for want := 20; want <= 30; want += 10 {
		n := eval[int](w, `new Promise(d => {
			document.getElementById("search").addEventListener("found", () => d(document.querySelectorAll("#search ol li").length), {once: true});
			document.querySelector("button.more").click();
		})`)
		if n != min(want, 25) {
			t.Errorf("shows %d, want %d", n, min(want, 25))
		}
	}
	if hidden := eval[bool](w, `document.querySelector("button.more").hidden`); !hidden {
		t.Error("offers more than there is")
	}
	if got := asking(w, []string{"gusset"}, 25)[0]; !slices.Equal(got, newReference(docs, nil).answer("gusset", 25, nil)) {
		t.Errorf("in another order: %v", got)
	}
}

// TestServedUnderASubPath asks a server in place of a folder.
func TestServedUnderASubPath(t *testing.T) {
	ctx := chromium.LongTab(t)
	page := publish(t, build(t, shelfOfFew(), fewOptions), themeScripts(t))
	s := httptest.NewServer(http.StripPrefix("/deep/down/", http.FileServer(http.Dir(filepath.Dir(page)))))
	defer s.Close()
	w := open(t, ctx, page)
	if err := chromedp.Do(w.ctx, chromedp.Navigate(s.URL+"/deep/down/search.html")); err != nil {
		t.Fatal(err)
	}
	if got := typed(w, "frnch seam"); len(got) == 0 || got[0] != "French seam" {
		t.Errorf("found %q", got)
	}
}

func TestMissingIndexIsSaid(t *testing.T) {
	ctx := chromium.LongTab(t)
	x := build(t, shelfOfFew(), fewOptions)
	x.files = slices.DeleteFunc(x.Files(), func(f File) bool { return strings.HasPrefix(f.Name, "d/") })
	w := open(t, ctx, publish(t, x, themeScripts(t)))
	s := eval[string](w, `new Promise(d => {
		const page = document.getElementById("search"), input = page.querySelector("input");
		page.addEventListener("failed", () => d(document.querySelector("[role=status]").textContent), {once: true});
		input.value = "seam";
		input.dispatchEvent(new Event("input", {bubbles: true}));
	})`)
	if !strings.Contains(s, "Search is not working here") {
		t.Errorf("without its index the search says %q", s)
	}
}
