package main

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// smallestOnLays is the height in pixels of the smallest letters on the drawings of lays
// that can be seen, as large as they are shown, and how many words there are.
const smallestOnLays = `(() => {
	const all = [...document.querySelectorAll('.laying svg text')].filter(e => e.checkVisibility());
	const high = all.map(e => parseFloat(getComputedStyle(e).fontSize) * Math.hypot(e.getScreenCTM().a, e.getScreenCTM().b));
	const least = Math.min(...high);
	return {Least: least, Words: all.length, Says: all[high.indexOf(least)]?.textContent ?? ''};
})()`

// papers are the two that a lay is printed on: how wide and how high the part is that
// the theme's margins leave, in pixels of 1/96 inch.
var papers = map[string]struct{ wide, high float64 }{
	"A4":     {(210 - 30) * 96 / 25.4, (297 - 34) * 96 / 25.4},
	"Letter": {(215.9 - 30) * 96 / 25.4, (279.4 - 34) * 96 / 25.4},
}

// TestLaysToCutFrom: letters on the drawing of a lay are eleven pixels high at least on
// screens and eight points on paper, and the sheet that one cuts from, with its
// figures, its plan and its tables, is one page of either paper.
func TestLaysToCutFrom(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	pages, err := filepath.Glob(filepath.Join(s.dir, "builds", "*", "lay*.html"))
	if err != nil || len(pages) < 6 {
		t.Fatalf("%d pages with lays: %v", len(pages), err)
	}
	for _, page := range pages {
		name := filepath.Base(filepath.Dir(page)) + "/" + filepath.Base(page)
		for i, width := range []int64{320, 390, 500, 1280} {
			if i == 0 {
				s.open(t, ctx, page, "light", width)
			} else if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800)); err != nil {
				t.Fatal(err)
			}
			lettersAtLeast(t, ctx, 11, name, width)
		}
		for paper, size := range papers {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(int64(size.wide), 800), media("print")); err != nil {
				t.Fatal(err)
			}
			lettersAtLeast(t, ctx, 8*96./72, name+" on "+paper, int64(size.wide))
			for k, high := range evaluate[[]float64](t, ctx, `[...document.querySelectorAll('.laying')].map((e, k) => e.getBoundingClientRect().bottom - (k > 0 ? e.previousElementSibling : document.body).getBoundingClientRect().top)`) {
				if high > size.high {
					t.Errorf("%s on %s: sheet %d is %.0f pixels high, and the paper has room for %.0f", name, paper, k+1, high, size.high)
				}
			}
		}
	}
}

func lettersAtLeast(t *testing.T, ctx context.Context, least float64, name string, width int64) {
	t.Helper()
	got := evaluate[struct {
		Least float64
		Words int
		Says  string
	}](t, ctx, smallestOnLays)
	if got.Words < 3 || got.Least < least-0.01 {
		t.Errorf("%s, %d pixels wide: of %d words the smallest, %q, is %.1f pixels high, and is to be %.1f at least", name, width, got.Words, got.Says, got.Least, least)
	}
}
