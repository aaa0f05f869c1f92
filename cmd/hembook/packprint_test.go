package main

import (
	"context"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	devpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
	"hembook/internal/sheet"
)

// printedCloser are the sheets that a browser may print on fewer pages than their PDF has: it
// makes drawings smaller to stand side by side that the PDF sets one below another.
var printedCloser = []string{"fit", "remake"}

// printedLonger is known to take a page more from a browser: it leaves a little more room
// between blocks. It fails here once it does not.
const printedLonger = "care-and-fit in de on letter"

// TestSheetsPrintAsTheirPDF: whoever prints a sheet from a browser gets as many pages as
// its PDF has, none of them a foot alone, of every sheet, in three languages, on A4 and on letter paper.
func TestSheetsPrintAsTheirPDF(t *testing.T) {
	t.Parallel()
	ctx := chromium.LongTab(t)
	p := packerOf(t, abroad)
	printed := 0
	for _, size := range []string{"a4", "letter"} {
		for _, code := range []string{"en", "de", "fr"} {
			to, packet, _ := p.pack(t, size, code, sheet.ReaderNames())
			for i := range packet.Sheets {
				name := packet.Sheets[i].Name
				got, want := printedPages(t, ctx, filepath.Join(to, name+".html")), pageCount(t, filepath.Join(to, name+".pdf"))
				printed++
				if what := name + " in " + code + " on " + size; what == printedLonger {
					if got != want+1 {
						t.Errorf("%s: a browser prints %d pages, the PDF has %d: take it out of printedLonger", what, got, want)
					}
					continue
				}
				if fewer := slices.Contains(printedCloser, name); got != want && !(fewer && got < want) {
					t.Errorf("%s in %s on %s: a browser prints %d pages, the PDF has %d", name, code, size, got, want)
				}
			}
		}
	}
	if printed < 6*11 {
		t.Errorf("%d sheets", printed)
	}
}

// printedPages is how many pages a browser prints of a file, on the paper that the file asks for.
func printedPages(t *testing.T, ctx context.Context, file string) (n int) {
	t.Helper()
	err := chromedp.Do(ctx, chromedp.Navigate("file://"+file), chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		out, err := cdp.Call(ctx, tab, devpage.PrintToPDF, devpage.PrintToPDFParams{PreferCSSPageSize: new(true), PrintBackground: new(true)})
		n = len(pdfPage.FindAll(out.Data, -1))
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	return n
}
