package main

import (
	"context"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// TestForcedColours: where colours are the reader's own, the page one is on is still marked
// in both rows of ways, and drawings keep a ground that their lines are seen on.
func TestForcedColours(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	forced := chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}}})
		return err
	})
	if err := chromedp.Do(ctx, forced, chromedp.Navigate("file://"+s.dir+"/builds/boatyard-trousers/seams.html")); err != nil {
		t.Fatal(err)
	}
	found := evaluate[struct {
		Forced        bool
		Here, Under   string
		Ground, Lines string
	}](t, ctx, `(() => {
		const style = (of) => getComputedStyle(document.querySelector(of));
		return {forced: matchMedia("(forced-colors: active)").matches, here: style(".leaves [aria-current]").textDecorationLine,
			under: style(".head .under").textDecorationLine, ground: style("main svg").backgroundColor, lines: style("main svg .edge").stroke};
	})()`)
	if !found.Forced {
		t.Skip("this Chromium forces no colours")
	}
	if found.Here != "underline" || found.Under != "underline" || found.Ground == "rgba(0, 0, 0, 0)" || found.Ground == found.Lines {
		t.Errorf("%+v", found)
	}
}
