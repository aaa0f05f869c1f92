package main

import (
	"context"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	devpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// TestGarmentsAreOneSheet prints the page of every garment of the demo: picture, figures,
// how it was made and goes together, story and what would be changed are one A4.
func TestGarmentsAreOneSheet(t *testing.T) {
	dir := pressedDemo(t)
	list, err := filepath.Glob(filepath.Join(dir, "builds", "*.html"))
	if err != nil || len(list) < 6 {
		t.Fatal(list, err)
	}
	t.Parallel()
	ctx := chromium.Tab(t)
	for _, file := range list {
		if filepath.Base(file) == "index.html" {
			continue
		}
		if n := sheets(t, ctx, file); n != 1 {
			t.Errorf("%s takes %d sheets", filepath.Base(file), n)
		}
	}
}

// TestLaysAreOneSheetEach prints the lays of every garment: a plan and its chalk table
// are one A4.
func TestLaysAreOneSheetEach(t *testing.T) {
	dir := pressedDemo(t)
	list, err := filepath.Glob(filepath.Join(dir, "builds", "*", "lay.html"))
	if err != nil || len(list) < 6 {
		t.Fatal(list, err)
	}
	t.Parallel()
	ctx := chromium.Tab(t)
	for _, file := range list {
		lays := len(regexp.MustCompile(`<div class="laying"`).FindAllString(contents(t, file), -1))
		if n := sheets(t, ctx, file); lays == 0 || n > lays {
			t.Errorf("%s: %d lays on %d sheets", filepath.Base(filepath.Dir(file)), lays, n)
		}
	}
}

// sheets is how many sheets a page is printed on, of A4 or of letter paper, whichever
// takes more.
func sheets(t *testing.T, ctx context.Context, file string) (most int) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	for _, paper := range [][2]float64{{8.27, 11.69}, {8.5, 11}} { // inches: ISO 216 A4, ANSI/ASME Y14.1 A
		err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
			out, err := cdp.Call(ctx, tab, devpage.PrintToPDF, devpage.PrintToPDFParams{
				PaperWidth: paper[0], PaperHeight: paper[1], PreferCSSPageSize: new(true), PrintBackground: new(true)})
			most = max(most, len(pdfPage.FindAll(out.Data, -1)))
			return err
		}))
		if err != nil {
			t.Fatal(err)
		}
	}
	return most
}

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)
