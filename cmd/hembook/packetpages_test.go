package main

import (
	"fmt"
	"html"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// lookAtPacket looks at the pages of a packet in its bundles.
func lookAtPacket(t *testing.T, folder, said, build, size, code string) {
	t.Helper()
	if strings.Contains(said, "look again: pages") || strings.Contains(said, "[en]") {
		t.Errorf("%s on %s in %s: %s", build, size, code, said)
	}
	if code != "ja" && strings.Contains(said, "no PDF") { // a machine may have no font for Japanese
		t.Errorf("%s on %s in %s: %s", build, size, code, said)
	}
	if strings.Contains(said, "no PDF") {
		return
	}
	bundles := []struct {
		file   string
		sheets []string
	}{{"wearer.pdf", []string{"card", "care-and-fit", "box"}}, {"makers.pdf", []string{"repairs", "remake"}}}
	if build == abroad {
		bundles = append(bundles, struct {
			file   string
			sheets []string
		}{"customs.pdf", []string{"customs"}})
	}
	for _, b := range bundles {
		path := filepath.Join(folder, b.file)
		fontsAreEmbedded(t, path)
		pages := filledPages(t, path)
		for n, p := range pages {
			if p.letters < 60 {
				t.Errorf("%s: page %d is as good as blank", path, n+1)
			}
		}
		for _, one := range b.sheets {
			own := filepath.Join(folder, one+".pdf")
			n := pageCount(t, own)
			if n > len(pages) {
				t.Fatalf("%s has %d pages, and %d are left of %s", own, n, len(pages), path)
			}
			if code == "en" && !slices.Equal(filledPages(t, own), pages[:n]) {
				t.Errorf("the pages of %s are others in %s", own, path)
			}
			lookAtSheet(t, pages[:n], one, fmt.Sprintf("%s of %s on %s in %s", one, build, size, code))
			pages = pages[n:]
		}
		if len(pages) > 0 {
			t.Errorf("%s has %d pages that are no sheet's", path, len(pages))
		}
	}
}

// lookAtSheet looks at the pages of one sheet.
func lookAtSheet(t *testing.T, pages []filledPage, one, name string) {
	t.Helper()
	if n := len(pages); n > 1 && (one == "care-and-fit" || one == "box" || one == "card" && n != 2) {
		t.Errorf("%s takes %d pages", name, n)
	} else if n > 1 && pages[n-1].share < 0.25 && one != "card" {
		t.Errorf("%s: page %d of %[2]d is filled by %.0f %%", name, n, pages[n-1].share*100)
	}
}

// pageCount is how many pages a PDF says it has.
func pageCount(t *testing.T, path string) int {
	t.Helper()
	m := regexp.MustCompile(`/Type /Pages\s[^>]*/Count (\d+)`).FindStringSubmatch(contents(t, path))
	if m == nil {
		t.Fatalf("%s does not say how many pages it has", path)
	}
	n, err := strconv.Atoi(m[1])
	if err != nil || n == 0 {
		t.Fatal(path, n, err)
	}
	return n
}

// A filledPage is a page as pdftotext finds it: how far down words stand, against the
// height between its margins, and how many letters they have.
type filledPage struct {
	share   float64
	letters int
}

var (
	pageBox = regexp.MustCompile(`<page width="[\d.]+" height="([\d.]+)">`)
	wordBox = regexp.MustCompile(`yMax="([\d.]+)">([^<]*)`)
)

// filledPages looks at each page of a file; its foot does not fill it.
func filledPages(t *testing.T, path string) []filledPage {
	t.Helper()
	const top, foot = 15 / 25.4 * 72, 21 / 25.4 * 72 // margins as internal/paper sets them
	var out []filledPage
	for _, page := range strings.Split(tool(t, "pdftotext", "-bbox", path, "-"), "</page>") {
		m := pageBox.FindStringSubmatch(page)
		if m == nil {
			continue
		}
		high, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		low, letters := 0.0, 0
		for _, w := range wordBox.FindAllStringSubmatch(page, -1) {
			letters += len(html.UnescapeString(w[2]))
			y, err := strconv.ParseFloat(w[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			if y <= high-foot {
				low = max(low, y)
			}
		}
		out = append(out, filledPage{(low - top) / (high - top - foot), letters})
	}
	if len(out) == 0 {
		t.Fatalf("%s has no pages", path)
	}
	return out
}

// fontsAreEmbedded looks for fonts that are not in the file.
func fontsAreEmbedded(t *testing.T, path string) {
	t.Helper()
	for i, line := range strings.Split(strings.TrimSpace(tool(t, "pdffonts", path)), "\n") {
		if i < 2 {
			continue
		}
		if f := strings.Fields(line); len(f) < 8 || f[len(f)-5] != "yes" {
			t.Errorf("%s: a font is not embedded: %s", path, line)
		}
	}
}
