package paper

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	devpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
	"hembook/internal/document"
)

// TestMain ends the browser that the tests shared.
func TestMain(m *testing.M) { chromium.Main(m) }

// TestChromiumPrintsTheSame: printed by Chromium, the HTML is tagged, says
// its language, numbers its pages and has the same words as the PDF.
func TestChromiumPrintsTheSame(t *testing.T) {
	ctx := chromium.LongTab(t)
	d := everyBlock(document.A4)
	for _, b := range d.Blocks {
		if l, ok := b.(document.List); ok { // letters in small drawings are read in another place
			for k := range l.Items {
				l.Items[k].Draw = nil
			}
		}
	}
	data, err := document.OneFile(document.Alone(d))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "every.html")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	var printed []byte
	err = chromedp.Do(ctx, chromedp.Navigate("file://"+file), chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		out, err := cdp.Call(ctx, tab, devpage.PrintToPDF, devpage.PrintToPDFParams{PreferCSSPageSize: new(true), GenerateTaggedPDF: new(true)})
		printed = out.Data
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	look(t, "chromium.pdf", printed)
	info := run(t, printed, "pdfinfo")
	for _, want := range []string{"Tagged:          yes", "Title:           Orchard coat: care & fit", "(A4)"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	ours, err := PDF(document.Alone(d), Options{})
	if err != nil {
		t.Fatal(err)
	}
	text := run(t, printed, "pdftotext", "-raw")
	if !strings.Contains(text, "page 1 of ") {
		t.Errorf("no page says its number:\n%s", text)
	}
	want := wordCount(pdfWords(t, ours, d))
	text = squeeze(text) // a point's number may stand close to its first word
	for w, n := range want {
		if got := strings.Count(text, w); got < n && strings.Trim(w, "–—-") != "" {
			t.Errorf("%q stands %d times on paper and %d times when Chromium prints it", w, n, got)
		}
	}
	if len(want) < 100 {
		t.Errorf("only %d words were compared", len(want))
	}
}

func wordCount(text string) map[string]int {
	out := map[string]int{}
	for _, w := range strings.Fields(text) {
		out[w]++
	}
	return out
}

// TestNobodyIsLeftOut: axe-core finds nothing wrong in any kind of block, in
// light and in dark, on a telephone and on a desk.
func TestNobodyIsLeftOut(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("HEMBOOK_AXE"))
	if err != nil {
		t.Skip("HEMBOOK_AXE names no axe.min.js")
	}
	ctx := chromium.LongTab(t)
	second := everyBlock(document.A4)
	second.Title = "Orchard coat: for another maker"
	data, err := document.OneFile(document.Book{Title: "packet", Language: "en", Documents: []document.Document{everyBlock(document.A4), second}})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "every.html")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, scheme := range []string{"light", "dark"} {
		for _, width := range []int64{340, 1280} {
			set := chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
				_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
					Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
				return err
			})
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), set, chromedp.Navigate("file://"+file)); err != nil {
				t.Fatal(err)
			}
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(async () => {`+string(axe)+`; const r = await axe.run(document, {resultTypes: ["violations"]}); return r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | "));})()`, chromedp.EvalAwaitPromise))
			if err != nil || len(found) > 0 {
				t.Errorf("%s at %d px: axe-core finds %q (%v)", scheme, width, found, err)
			}
			wide, err := chromedp.Run(ctx, chromedp.Evaluate[int](`document.documentElement.scrollWidth - document.documentElement.clientWidth`))
			if err != nil || wide > 0 {
				t.Errorf("%s at %d px: the page is %d px too wide (%v)", scheme, width, wide, err)
			}
		}
	}
}
