package main

import (
	"maps"
	"net/url"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

var (
	placed   = regexp.MustCompile(`\sid="([^"]+)"`)
	leadings = regexp.MustCompile(`<a (?:[^>]* )?href="([^"]+)"`)
)

// TestEveryPlaceIsThere: what a link of the demo leads to within a page is on that page,
// and no place is there twice.
func TestEveryPlaceIsThere(t *testing.T) {
	nothingBeside(t)
	dir, there, texts := pressedDemo(t), map[string]map[string]bool{}, map[string]string{}
	for _, p := range pages(t, dir) {
		rel, _ := filepath.Rel(dir, p)
		rel, texts[rel] = filepath.ToSlash(rel), contents(t, p)
		there[rel] = map[string]bool{}
		for _, m := range placed.FindAllStringSubmatch(texts[rel], -1) {
			if there[rel][m[1]] {
				t.Errorf("%s has %s twice", rel, m[1])
			}
			there[rel][m[1]] = true
		}
	}
	followed := 0
	for _, rel := range slices.Sorted(maps.Keys(texts)) {
		for _, m := range leadings.FindAllStringSubmatch(texts[rel], -1) {
			page, place, led := strings.Cut(m[1], "#")
			if !led || strings.Contains(page, ":") {
				continue
			}
			at := rel
			if page != "" {
				at = path.Join(path.Dir(rel), page)
			}
			if place, _ = url.PathUnescape(place); !there[at][place] {
				t.Errorf("%s leads to %s, which has no place %q", rel, at, place)
			}
			followed++
		}
	}
	if followed < 3000 {
		t.Errorf("only %d links lead to places", followed)
	}
}

// TestEverythingHasAnAddress: edges of pieces, seams and hems, steps, days, rounds and
// figures of a garment each have a place that can be led to; a seam is told of in one
// place, which leads on to all that belongs to it.
func TestEverythingHasAnAddress(t *testing.T) {
	nothingBeside(t)
	dir := pressedDemo(t)
	for _, c := range []struct {
		page   string
		places []string
	}{
		{"pieces", []string{"piece-skirt", "piece.skirt.edge.hem", "piece.front.edge.side", "piece.front.cut-area", "piece.skirt.edge.hem.length"}},
		{"seams", []string{"seam-sides", "finish-hem", "finish.hem.total", "way-bias-faced-hem"}},
		{"work", []string{"step-face-the-hem", "step.face-the-hem.spent"}},
		{"fit", []string{"fitting-2", "level.waist.finished"}},
		{"cloth", []string{"cloth.shell.needed"}},
	} {
		text := contents(t, filepath.Join(dir, "builds", "harvest-supper-dress", c.page+".html"))
		for _, want := range c.places {
			if n := strings.Count(text, ` id="`+want+`"`); n != 1 {
				t.Errorf("%s has %q %d times", c.page, want, n)
			}
		}
	}
	seams := contents(t, filepath.Join(dir, "builds", "harvest-supper-dress", "seams.html"))
	hem := regexp.MustCompile(`(?s)<article class="follow" id="finish-hem">.*?</article>`).FindString(seams)
	for _, want := range []string{
		`href="pieces.html#piece.skirt.edge.hem"`, `bias-faced-hem.html"`, `href="work.html#step-face-the-hem"`,
		`href="journal.html#day-2026-`, "3\u00a0h\u00a055\u00a0min", "of 3 h 30 min planned", "4.18\u00a0m",
	} {
		if !strings.Contains(hem, want) {
			t.Errorf("what is told of the hem does not have %q: %s", want, hem)
		}
	}
	if n := strings.Count(contents(t, filepath.Join(dir, "builds", "harvest-supper-dress", "journal.html")), `<li id="day-2026-`); n < 10 {
		t.Errorf("only %d days of the journal have a place", n)
	}
	sides := regexp.MustCompile(`(?s)<article class="follow" id="seam-sides">.*?</article>`).FindString(seams)
	if !strings.Contains(sides, `<a href="fit.html#fitting-1">First fitting</a>`) {
		t.Errorf("what is told of the sides does not lead to the fitting that moved them: %s", sides)
	}
}

// TestTapsGiveAddresses: an edge that is tapped in a drawing is led to; a figure that is
// opened and a name that is tapped stand in the line of addresses, with a mark to copy
// them; who comes by such an address finds the figure open.
func TestTapsGiveAddresses(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	page := filepath.Join(s.dir, "builds", "harvest-supper-dress", "pieces.html")
	s.open(t, ctx, page, "light", 1280)
	type facts struct{ Hash, Mark, Aimed string }
	after := func(js string) facts {
		return evaluate[facts](t, ctx, `(async () => { `+js+`; await new Promise(r => setTimeout(r, 80)); const m = document.querySelector(".address"), a = document.querySelector(":target");
			return {hash: location.hash, mark: m ? m.textContent + " of " + m.value : "", aimed: a ? a.id : ""}; })()`)
	}
	for _, c := range []struct{ what, js, at string }{
		{"a name", `document.querySelector('[id="piece.skirt.edge.hem"]').click()`, "piece.skirt.edge.hem"},
		{"a heading", `document.querySelector('#piece-front h3 a').click()`, "piece-front"},
		{"a figure", `document.querySelector('[id="piece.front.cut-area"]').closest("details").querySelector("summary").click()`, "piece.front.cut-area"},
	} {
		if got := after(c.js); got.Hash != "#"+c.at || got.Mark != "copy this link of "+c.at {
			t.Errorf("%s that is tapped: %+v, not %s", c.what, got, c.at)
		}
	}
	// the hem in the drawing of the skirt: a tap where its line runs
	edge := evaluate[[]float64](t, ctx, `(() => { document.querySelector("#piece-skirt svg").scrollIntoView({block: "center"});
		const p = document.querySelector('#piece-skirt svg a[href="#piece.skirt.edge.hem"] path'), q = p.getPointAtLength(p.getTotalLength() / 2).matrixTransform(p.getScreenCTM());
		return [q.x, q.y + 8]; })()`)
	if err := chromedp.Do(ctx, chromedp.MouseClickXY(edge[0], edge[1])); err != nil {
		t.Fatal(err)
	}
	if got := after(""); got.Aimed != "piece.skirt.edge.hem" {
		t.Errorf("a tap on the line of the hem leads to %+v", got)
	}
	for _, at := range []string{s.base + "/builds/harvest-supper-dress/pieces.html#piece.front.cut-area", "file://" + page + "#piece.front.cut-area"} {
		if err := chromedp.Do(ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(at)); err != nil {
			t.Fatal(err)
		}
		if !evaluate[bool](t, ctx, `(() => { const p = document.querySelector(":target"); return p.checkVisibility() && p.getBoundingClientRect().top < innerHeight && p.getBoundingClientRect().bottom > 0; })()`) {
			t.Errorf("%s does not show the figure", at)
		}
	}
}

// TestHemInOneScreen: how the hem was done and how long it took is read on the first
// screen of the garment's page, one link from the front page, and leads on to all that is
// told of it.
func TestHemInOneScreen(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	front := contents(t, filepath.Join(s.dir, "index.html"))
	if !strings.Contains(front, `href="builds/harvest-supper-dress.html"`) {
		t.Fatal("the front page does not lead to the dress")
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 800), chromedp.Navigate("file://"+filepath.Join(s.dir, "builds", "harvest-supper-dress.html"))); err != nil {
		t.Fatal(err)
	}
	got := evaluate[struct {
		Words, To string
		Foot      float64
	}](t, ctx, `(() => { const all = [...document.querySelectorAll(".glance > div")], e = all.find(d => d.querySelector("dt").textContent === "hem");
		return {words: e.textContent.replaceAll("\u00a0", " "), to: e.querySelector("a").getAttribute("href"), foot: e.getBoundingClientRect().bottom}; })()`)
	for _, want := range []string{"4.18 m", "bias-faced hem", "took 3 h 55 min"} {
		if !strings.Contains(got.Words, want) {
			t.Errorf("the hem says %q, without %q", got.Words, want)
		}
	}
	if got.Foot > 800 {
		t.Errorf("the hem ends %v pixels down, below the first screen", got.Foot)
	}
	if got.To != "harvest-supper-dress/seams.html#finish-hem" {
		t.Errorf("the hem leads to %s", got.To)
	}
}
