package main

import (
	"encoding/json"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// engines are the browsers that pages are opened in beside Chromium, as far as they are
// installed.
var engines = map[string]func(t *testing.T) engine{"Firefox": startFirefox, "WebKit": startWebKit}

// engineFacts are what an engine makes of a page.
type engineFacts struct {
	Shut, Open int    // how much wider than its window, with workings shut and open
	Figure     bool   // it has a figure with a working
	Line       string // how that is underlined
	Opened     bool   // its working is seen once it is clicked
	Styled     bool   // the style sheet was read
	Lost       string // what did not load
	Wide       string // what reaches beyond the window
}

const engineLook = `
const done = arguments[arguments.length - 1];
(async () => {
	// a busy machine lays the page out for its new width a while after the window has it
	for (let i = 0; i < 40 && document.documentElement.getBoundingClientRect().width > innerWidth; i++) await new Promise(r => setTimeout(r, 50));
	const over = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;
	const all = [...document.querySelectorAll("details")], s = document.querySelector("td summary, dd summary");
	const f = {shut: over(), figure: !!s, line: "", opened: false, styled: getComputedStyle(document.body).marginTop === "0px", lost: ""};
	if (s) {
		f.line = getComputedStyle(s, "::first-line").textDecorationStyle + " " + getComputedStyle(s, "::first-line").textDecorationLine;
		s.click();
		await new Promise(r => setTimeout(r, 50));
		f.opened = s.parentNode.open && s.nextElementSibling.getBoundingClientRect().height > 5;
	}
	for (const d of all) d.open = true;
	f.open = over();
	f.lost = [...document.images].filter(i => i.complete && !i.naturalWidth).map(i => i.src).join(" ");
	const scrolls = (e) => e && e !== document.body && (getComputedStyle(e).overflowX !== "visible" || scrolls(e.parentElement));
	if (f.open > 0) f.wide = [...document.querySelectorAll("main *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !scrolls(e.parentElement))
		.slice(0, 3).map(e => e.outerHTML.slice(0, 200)).join(" … ");
	done(JSON.stringify(f));
})();`

// engineAsk types a question into the search page, and answers what is found.
const engineAsk = `
const done = arguments[arguments.length - 1];
(async (arguments_) => {
	const page = document.getElementById("search"), q = page.querySelector("input");
	const found = new Promise(d => page.addEventListener("found", d, {once: true}));
	q.value = arguments_[0];
	q.dispatchEvent(new Event("input", {bubbles: true}));
	await found;
	done(page.textContent);
})(arguments);`

// TestPagesInOtherEngines opens every kind of page from its folder, as a double-click
// does, at the width of a phone and of a desk, opens a figure, and asks the search.
func TestPagesInOtherEngines(t *testing.T) {
	s := served(t)
	for _, name := range slices.Sorted(maps.Keys(engines)) {
		t.Run(name, func(t *testing.T) {
			e := engines[name](t)
			command(t, e, "patience", map[string]any{"script": 60_000, "pageLoad": 60_000})
			for _, wide := range []int{500, 1280} {
				command(t, e, "size", map[string]any{"width": wide, "height": 900})
				for _, kind := range slices.Sorted(maps.Keys(s.kinds)) {
					lookIn(t, e, kind, wide, s.kinds[kind])
				}
			}
			command(t, e, "navigate", map[string]any{"url": "file://" + filepath.Join(s.dir, "search.html")})
			for _, row := range [][2]string{{"french seam", "French seam"}, {"harvst supper", "Harvest supper dress"}, {"how long did the hem take", "3 h 55 min"}} {
				found := command(t, e, "run", map[string]any{"script": engineAsk, "args": []any{row[0]}})
				if !strings.Contains(strings.ReplaceAll(found, "\u00a0", " "), row[1]) {
					t.Errorf("%q finds %.300q, want %q in it", row[0], found, row[1])
				}
			}
		})
	}
}

// lookIn opens one page in a window so wide.
func lookIn(t *testing.T, e engine, kind string, wide int, file string) {
	t.Helper()
	var f engineFacts
	if err := json.Unmarshal([]byte(opened(t, e, file, engineLook)), &f); err != nil {
		t.Fatal(err)
	}
	if kind == "missing" {
		return // its style sheet is found on a host only
	}
	switch {
	case f.Shut > 0 || f.Open > 0:
		t.Errorf("%s at %d px is %d px wider than its window, %d with its workings open: %s", kind, wide, f.Shut, f.Open, f.Wide)
	case !f.Styled:
		t.Errorf("%s at %d px has no style sheet", kind, wide)
	case f.Figure && !f.Opened:
		t.Errorf("%s at %d px: a figure that is clicked shows no working", kind, wide)
	case f.Figure && f.Line != "dotted underline":
		t.Errorf("%s at %d px: nothing shows that figures open: %q", kind, wide, f.Line)
	case f.Lost != "":
		t.Errorf("%s at %d px: pictures did not load: %s", kind, wide, f.Lost)
	}
}

// opened opens a page and runs a script in it. On a busy machine the driver of WebKit
// may say that it has gone to a page while it still leaves the one before, which takes
// the script along: then the page is opened anew.
func opened(t *testing.T, e engine, file, script string, args ...any) string {
	t.Helper()
	for try := 1; ; try++ {
		command(t, e, "navigate", map[string]any{"url": "file://" + file})
		value, err := e.ask("run", map[string]any{"script": script, "args": append([]any{}, args...)})
		switch {
		case err == nil:
			var words string
			json.Unmarshal(value, &words)
			return words
		case try == 3 || !strings.Contains(err.Error(), "before the unload event"):
			t.Fatal(err)
		}
	}
}

// command sends a command, and answers the words that are answered.
func command(t *testing.T, e engine, name string, with any) string {
	t.Helper()
	value, err := e.ask(name, with)
	if err != nil {
		t.Fatal(err)
	}
	var words string
	json.Unmarshal(value, &words)
	return words
}
