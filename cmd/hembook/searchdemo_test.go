package main

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// A question is what somebody types, and what should be among the first that is found.
type question struct {
	typed string
	leads []string // addresses, or beginnings of addresses; any will do
}

// questionsOf reads a table: what is typed, a tab, where it should lead, bars between.
func questionsOf(t *testing.T, file string) (out []question) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "search", file))
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if typed, leads, ok := strings.Cut(line, "\t"); ok && !strings.HasPrefix(line, "#") {
			out = append(out, question{typed, strings.Split(leads, " | ")})
		}
	}
	return out
}

// askThere types a question into the search page and answers the addresses it leads to,
// as they stand on the page, and the figure that is answered.
const askThere = `(async (q) => {
	const page = document.getElementById("search"), input = page.querySelector("input");
	const done = new Promise(d => page.addEventListener("found", d, {once: true}));
	input.value = q;
	input.dispatchEvent(new Event("input", {bubbles: true}));
	await done;
	const to = a => a.getAttribute("href").replace("./", "");
	return {
		groups: [...page.querySelectorAll("ol > li")].map(li => [...li.querySelectorAll("a")].map(to)),
		answer: (page.querySelector(".answer:not([hidden]) strong") || {}).textContent || "",
		of: [...page.querySelectorAll(".answer:not([hidden]) a")].map(to),
		says: page.querySelector("[role=status]").textContent,
	};
})`

type found struct {
	Groups [][]string
	Answer string
	Of     []string
	Says   string
}

func ask(t *testing.T, ctx context.Context, typed string) found {
	t.Helper()
	return evaluate[found](t, ctx, askThere+"("+quoted(typed)+")")
}

func quoted(s string) string { return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"` }

// onOnePage is a place as it would be called if its page were not parted in several.
func onOnePage(place string) string { return partedPage.ReplaceAllString(place, ".html") }

var partedPage = regexp.MustCompile(`-[0-9]+\.html`)

// TestSearchFindsInThree: what colleagues, wearers and the maker would type leads to where
// it is told within the first three pages.
func TestSearchFindsInThree(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	s.open(t, ctx, filepath.Join(s.dir, "search.html"), "light", 1280)
	all, right := questionsOf(t, "questions.tsv"), 0
	for _, q := range all {
		f := ask(t, ctx, q.typed)
		hit := false
		for _, g := range f.Groups[:min(3, len(f.Groups))] {
			for _, to := range g {
				for _, want := range q.leads {
					hit = hit || strings.HasPrefix(onOnePage(to), want)
				}
			}
		}
		if hit {
			right++
		} else {
			t.Errorf("%q leads to %q, and not to %q", q.typed, f.Groups[:min(3, len(f.Groups))], q.leads)
		}
		t.Logf("%q: %s %q %s", q.typed, f.Answer, f.Groups[:min(3, len(f.Groups))], f.Says)
	}
	t.Logf("%d of %d questions lead there", right, len(all))
}

// TestSearchIsAskedFromEveryPage: the line at the head of a page leads to what is found,
// from a folder and from a host.
func TestSearchIsAskedFromEveryPage(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for _, at := range []string{"file://" + filepath.Join(s.dir, "builds", "boatyard-trousers", "work.html"), s.base + "/builds/boatyard-trousers/work.html"} {
		if err := chromedp.Do(ctx, chromedp.Navigate(at)); err != nil {
			t.Fatal(err)
		}
		evaluate[bool](t, ctx, `(() => { document.querySelector("#find").value = "face the hem"; document.querySelector(".find").requestSubmit(); return true })()`)
		if err := chromedp.Do(ctx, chromedp.WaitVisible(".found li a")); err != nil {
			t.Fatal(err)
		}
		got := evaluate[[]string](t, ctx, `[document.querySelector(".found .places a").getAttribute("href"), document.querySelector("#query").value, String(document.querySelectorAll(".find").length)]`)
		want := []string{"./builds/harvest-supper-dress/work.html#step-face-the-hem", "face the hem", "0"}
		if !slices.Equal(got, want) {
			t.Errorf("from %s: %q, want %q", at, got, want)
		}
	}
}
