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
		{Address: "builds/supper.html", Kind: "build", Title: "Supper dress", Text: "A dress in rust linen with French seams. The hem was levelled on 5 May.",
			Facets: []Facet{{"cloth", []string{"rust linen"}}, {"year", []string{"2026"}}, {"garment", []string{"dress"}}}},
		{Address: "builds/coat.html", Kind: "build", Title: "Winter coat", Text: "A coat in grey wool, bagged out; the hem by hand.",
			Facets: []Facet{{"cloth", []string{"grey wool"}}, {"year", []string{"2025"}}, {"garment", []string{"coat"}}}},
		{Address: "techniques/french-seam.html", Kind: "technique", Title: "French seam", Names: []string{"double seam"}, Text: "Two passes enclose the raw edges. For sheer cloth.",
			Facets: []Facet{{"technique", []string{"french-seam"}}}},
		{Address: "techniques/evil.html", Kind: "technique", Title: `<img src=x onerror="window.stitched=1"> & </script>`,
			Text: `Evil <b onmouseover=window.stitched=1>text</b> about "javascript:" seams \u003c \ ` + "\u2028 and | bars ^ 日本 🧵."},
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

// shelfOfParts are documents with parts: a build with a seam, a step and a day, a
// technique, and a page of the manual.
func shelfOfParts() []Document {
	part := func(address, kind, title, text string, answers ...Answer) Document {
		return Document{Address: "builds/supper/" + address, Kind: kind, Title: title, Text: text, Page: "builds/supper.html", Under: "Supper dress", Answers: answers}
	}
	return []Document{
		{Address: "builds/supper.html", Kind: "build", Title: "Supper dress", Text: "A dress in linen.", More: "hem face the hem velvet",
			Answers: []Answer{{"time", "40 h, planned 38 h"}, {"care", "wash at 30 °C"}}},
		part("seams.html#finish-hem", "edge finish", "hem", "Bias-faced hem, 4.18 m.", Answer{"length", "4.18 m"}, Answer{"time", "3 h 55 min, planned 3 h 30 min"}),
		part("work.html#step-face", "step", "face the hem", "3 h 55 min.", Answer{"time", "3 h 55 min"}),
		part("journal.html#day-1", "journal", "3 September 2026", "The bones gained 176 g; hemmed by hand."),
		part("journal.html#day-2", "journal", "4 September 2026", "The hem again, and the hip."),
		{Address: "builds/coat.html", Kind: "build", Title: "Winter coat", Text: "A coat whose zip is long, and its tip too."},
		{Address: "techniques/hem.html", Kind: "technique", Title: "Levelling a hem", Text: "Let it hang, then mark it."},
		{Address: "pages/guide.html", Kind: "page", Title: "The hem of a record", Text: "hem hem hem", Last: true},
	}
}

func TestPartsArePutUnderTheirPages(t *testing.T) {
	ctx := chromium.LongTab(t)
	w := open(t, ctx, publish(t, build(t, shelfOfParts(), fewOptions), themeScripts(t)))
	for _, c := range []struct{ query, want string }{
		{"hem", "builds/supper.html builds/supper/seams.html#finish-hem builds/supper/work.html#step-face builds/supper/journal.html#day-2 techniques/hem.html pages/guide.html"},
		{"how was the hem faced", "builds/supper.html builds/supper/work.html#step-face builds/supper/seams.html#finish-hem"},
		{"face the hem", "builds/supper.html builds/supper/work.html#step-face builds/supper/seams.html#finish-hem"},
		{"velvet", "builds/supper.html"},
		{"bones 176", "builds/supper.html builds/supper/journal.html#day-1"},
		{"level the hem", "techniques/hem.html"},
		{"hip", "builds/supper.html builds/supper/journal.html#day-2"},
		{"tip", "builds/coat.html"},
	} {
		typed(w, c.query)
		got := eval[[]string](w, `[...document.querySelectorAll("#search ol a")].map(a => a.getAttribute("href").replace("./", ""))`)
		if strings.Join(got, " ") != c.want {
			t.Errorf("%q: %q, want %q", c.query, strings.Join(got, " "), c.want)
		}
	}
	for _, c := range []struct{ query, figure, of string }{
		{"how long did the hem take", "3 h 55 min, planned 3 h 30 min", "hem"},
		{"how long is the hem", "4.18 m", "hem"},
		{"how long did the supper dress take", "40 h, planned 38 h", "Supper dress"},
		{"can the supper dress be washed", "wash at 30 °C", "Supper dress"},
		{"how much cloth for the coat", "", ""},
		{"hem", "", ""},
	} {
		typed(w, c.query)
		got := eval[[]string](w, `[(document.querySelector(".answer:not([hidden]) strong") || {textContent: ""}).textContent, (document.querySelector(".answer:not([hidden]) a") || {textContent: ""}).textContent]`)
		if got[0] != c.figure || got[1] != c.of {
			t.Errorf("%q is answered %q, want %q of %q", c.query, got, c.figure, c.of)
		}
	}
}

func TestAnswersToNoQuestion(t *testing.T) {
	_, err := Build([]Document{{Address: "a.html", Title: "A", Answers: []Answer{{"whim", "1"}}}}, Options{})
	if err == nil || !strings.Contains(err.Error(), "whim") {
		t.Errorf("an answer to no question: %v", err)
	}
}

// TestQuestionsAgree: the script takes queries for the same questions as the slow search.
func TestQuestionsAgree(t *testing.T) {
	ctx := chromium.LongTab(t)
	docs := shelfOfParts()
	w := open(t, ctx, publish(t, build(t, docs, fewOptions), themeScripts(t)))
	f := newReference(docs, fewOptions.Synonyms)
	var queries []string
	for _, what := range []string{"hem", "dress", "the hem of the supper dress", "coat", "bones ", "hemming", "shoulder"} {
		for _, ask := range []string{"%s", "how long did %s take", "how long is %s", "how many hours for %s", "how wide is %s", "can %s be washed",
			"how much cloth did %s need", "the %s", "how %s", "wie lange dauerte %s", "what does %s weigh", "ease of %s", "how much room has %s"} {
			queries = append(queries, fmt.Sprintf(ask, what))
		}
	}
	agree(t, w, f, append(queries, "how", "the", "how long", "how long did it take", "face the hem", "iron-on"))
}
