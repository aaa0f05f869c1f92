package main

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hembook/internal/chromium"
)

// byLinks are questions of a colleague, a wearer and the maker two years later, with what
// somebody types who searches, the place that
// answers each, words of the answer, and from the front page the most links to be followed.
var byLinks = []struct {
	question, typed, place, answer string
	clicks                         int
}{
	// a colleague
	{"How was the hem of the dress done, and how long did it take?", "how was the hem of the dress done", "builds/harvest-supper-dress.html#made", "took 3&nbsp;h&nbsp;55&nbsp;min", 1},
	{"How was the hem of the trousers done?", "trousers hem", "builds/boatyard-trousers.html#made", "Double-turned hem", 1},
	{"How is a flat-felled seam sewn?", "flat-felled seam", "techniques/flat-felled-seam.html", "Right sides together, stitch", 2},
	{"How many minutes does a metre of it take?", "flat-felled seam minutes per metre", "techniques/flat-felled-seam.html#rates", "min/m", 2},
	{"In which step was the fly set, and how long did it take?", "how long did the fly take", "builds/boatyard-trousers.html#made", "#step-set-the-fly", 1},
	// a wearer
	{"How do I wash it?", "can the trousers be washed", "builds/boatyard-trousers.html", "wash at most 40", 1},
	{"How much room is there at the hip?", "trousers ease", "builds/boatyard-trousers.html", "ease 66", 1},
	{"What is it made of?", "trousers cloth", "builds/boatyard-trousers.html#cloths", "Moss cotton drill", 1},
	{"What did the first fitting change?", "first fitting of the dress", "builds/harvest-supper-dress/fit.html", "First fitting", 2},
	// the maker
	{"How long did the outside legs take?", "how long did the outside legs take", "builds/boatyard-trousers.html#made", "2&nbsp;h&nbsp;35&nbsp;min", 1},
	{"What would I do otherwise?", "trousers what I would change", "builds/boatyard-trousers.html#change", "Measure before the band goes on", 1},
	{"What is left of the moss drill?", "moss drill", "cloth/moss-drill.html", "On the shelf", 2},
	{"Where can the waist be let out, and what do I open first?", "trousers let out waist", "builds/boatyard-trousers/alter.html", "let out", 2},
}

var hrefs = regexp.MustCompile(`<a [^>]*href="([^"]+)"`)

// TestAskedByLinks follows links from the front page as somebody does who does not search,
// and counts them.
func TestAskedByLinks(t *testing.T) {
	nothingBeside(t)
	dir := pressedDemo(t)
	clicks := clicksFrom(t, dir, "index.html")
	for _, q := range byLinks {
		page, anchor, _ := strings.Cut(q.place, "#")
		n, reached := clicks[page]
		if !reached {
			t.Errorf("%s: no links lead from the front page to %s", q.question, page)
			continue
		}
		html, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(page)))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(html), "\u00a0", "&nbsp;")
		if !strings.Contains(text, q.answer) {
			t.Errorf("%s: %s does not say %q", q.question, page, q.answer)
		}
		if anchor != "" && !strings.Contains(text, `id="`+anchor+`"`) {
			t.Errorf("%s: there is no %s", q.question, q.place)
		}
		if n > q.clicks {
			t.Errorf("%s: %d links from the front page, want at most %d", q.question, n, q.clicks)
		}
		t.Logf("%d: %s", n, q.question)
	}
}

// TestAskedBySearch types what somebody would who searches, and counts among which of the
// first three the garment or page is that answers.
func TestAskedBySearch(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	s.open(t, ctx, filepath.Join(s.dir, "search.html"), "light", 1280)
	for _, q := range byLinks {
		page, _, _ := strings.Cut(q.place, "#")
		of := strings.TrimSuffix(page, ".html")
		if build := strings.Split(of, "/"); build[0] == "builds" {
			of = "builds/" + build[1]
		}
		f, at := ask(t, ctx, q.typed), 0
		for i, g := range f.Groups[:min(3, len(f.Groups))] {
			if at == 0 && slices.ContainsFunc(g, func(to string) bool { return strings.HasPrefix(to, of) }) {
				at = i + 1
			}
		}
		if at == 0 {
			t.Errorf("%q (%s) leads to %q, and not to %s", q.typed, q.question, f.Groups[:min(3, len(f.Groups))], of)
		}
		t.Logf("%d: %q %s", at, q.typed, f.Answer)
	}
}

// clicksFrom is how many links are followed at least from a page to every other.
func clicksFrom(t *testing.T, dir, from string) map[string]int {
	t.Helper()
	out, queue := map[string]int{from: 0}, []string{from}
	for len(queue) > 0 {
		page := queue[0]
		queue = queue[1:]
		html, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(page)))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range hrefs.FindAllSubmatch(html, -1) {
			to, _, _ := strings.Cut(string(m[1]), "#")
			if to == "" || strings.Contains(to, ":") || !strings.HasSuffix(to, ".html") {
				continue
			}
			to = path.Join(path.Dir(page), to)
			if _, known := out[to]; !known {
				out[to] = out[page] + 1
				queue = append(queue, to)
			}
		}
	}
	return out
}
