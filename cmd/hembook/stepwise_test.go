package main

import (
	"context"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"hembook/internal/chromium"
)

// shownSteps are the titles of the pictures of steps that can be seen.
const shownSteps = `[...document.querySelectorAll('.stages svg')].filter(e => e.checkVisibility({visibilityProperty: true})).map(e => e.querySelector('title').textContent)`

// TestStepByStep: the pictures of the steps are chosen between by keys, by touch
// and by a control that says which it is; all of them stand on paper and where no
// script runs, and choosing moves nothing.
func TestStepByStep(t *testing.T) {
	s := served(t)
	t.Parallel()
	page := filepath.Join(s.dir, "builds", "boatyard-trousers", "together.html")
	for _, width := range []int64{320, 1280} {
		ctx := chromium.Tab(t)
		s.open(t, ctx, page, "light", width)
		all := evaluate[[]string](t, ctx, `[...document.querySelectorAll('.stages title')].map(e => e.textContent)`)
		if want := []string{"Step 7: darts and rule pocket", "Step 8: set the fly", "Step 9: fell the back rise"}; len(all) != 7 || !slices.Equal(all[:3], want) {
			t.Fatalf("the steps are %q, not seven that begin with %q", all, want)
		}
		shows := func(what string, want ...string) {
			t.Helper()
			if got := evaluate[[]string](t, ctx, shownSteps); !slices.Equal(got, want) {
				t.Errorf("%d pixels wide, %s: %q is shown, not %q", width, what, got, want)
			}
		}
		shows("at first", all[0])
		high := evaluate[float64](t, ctx, `document.body.scrollHeight`)
		evaluate[bool](t, ctx, `document.querySelector('.stages input').focus(), true`)
		if err := chromedp.Do(ctx, chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowDown)); err != nil {
			t.Fatal(err)
		}
		shows("two keys on", all[2])
		if got, want := evaluate[string](t, ctx, `(() => { const e = document.activeElement; return e.type + ' ' + e.checked + ' ' + e.labels[0].textContent; })()`), "radio true 9 fell the back rise"; got != want {
			t.Errorf("the control says %q, not %q", got, want)
		}
		if now := evaluate[float64](t, ctx, `document.body.scrollHeight`); now != high {
			t.Errorf("%d pixels wide: the page is %v high, and was %v before another step was chosen", width, now, high)
		}
		small := evaluate[float64](t, ctx, `Math.min(...[...document.querySelectorAll('.stages svg text')].map(e => parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a))`)
		if small < 9 {
			t.Errorf("%d pixels wide: a number is %.1f pixels high", width, small)
		}
		if err := chromedp.Do(ctx, media("print")); err != nil {
			t.Fatal(err)
		}
		shows("on paper", all...)
		if err := chromedp.Do(ctx, media("screen"), chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
			return err
		})); err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.Reload()); err != nil {
			t.Fatal(err)
		}
		shows("without scripts", all...)
	}
}

// media shows pages as on a screen or on paper.
func media(kind string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: kind})
		return err
	})
}

// TestNetsOnPhones: where a net has no room its parts stand for it, with numbers and
// words of nine pixels at least on the narrowest, of eleven on others, and where it has room no two of its words touch.
func TestNetsOnPhones(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for _, name := range []string{"boatyard-trousers/together", "boatyard-trousers/alter", "winter-ferry-coat/together", "winter-ferry-coat/alter", "harvest-supper-dress/together"} {
		page := filepath.Join(s.dir, "builds", filepath.FromSlash(name)+".html")
		for width, least := range map[int64]float64{320: 9, 390: 11, 500: 11} {
			s.open(t, ctx, page, "light", width)
			got := evaluate[struct {
				Whole, Windows int
				Least          float64
				Says           string
			}](t, ctx, `(() => {
				const seen = e => e.checkVisibility(), parts = [...document.querySelectorAll('svg.window')].filter(seen);
				return {
					Whole: [...document.querySelectorAll('.whole')].filter(seen).length, Windows: parts.length,
					Least: Math.min(...parts.map(e => 33 * e.getBoundingClientRect().width / e.viewBox.baseVal.width)),
					Says: document.querySelector('span.window').textContent,
				};
			})()`)
			if got.Whole != 0 || got.Windows == 0 || got.Least < least || got.Says != "The left half. The right mirrors it." {
				t.Errorf("%s, %d pixels wide: %+v", name, width, got)
			}
		}
		s.open(t, ctx, page, "light", 1280)
		if touch := evaluate[[]string](t, ctx, `(() => {
			const out = [];
			for (const s of document.querySelectorAll('.whole > svg')) {
				const all = [...s.querySelectorAll('text')].map(e => ({words: e.textContent, box: e.getBoundingClientRect()}));
				for (const [i, {words, box: a}] of all.entries())
					for (const {words: others, box: b} of all.slice(i + 1)) // letters take three fifths of their line
						if (a.left < b.right - 1 && b.left < a.right - 1 && a.top + a.height / 5 < b.bottom - b.height / 5 && b.top + b.height / 5 < a.bottom - a.height / 5) out.push(words + ' and ' + others);
			}
			return out;
		})()`); len(touch) > 0 {
			t.Errorf("%s: these touch: %q", name, touch)
		}
		if n := evaluate[int](t, ctx, `[...document.querySelectorAll('.window')].filter(e => e.checkVisibility()).length`); n > 0 {
			t.Errorf("%s: %d parts stand beside the whole", name, n)
		}
	}
}
