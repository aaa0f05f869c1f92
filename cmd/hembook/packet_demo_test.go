package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// packDemo packs a build of the demo workroom without laying it.
func packDemo(t *testing.T, build string, more ...string) (folder, said string) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), build)
	var out, errs bytes.Buffer
	args := append([]string{"pack", build, "--room", "../..", "--to", folder, "--lays", "none"}, more...)
	if code := run(args, &out, &errs); code != exitFine {
		t.Fatalf("%v: exit status %d\n%s", args, code, &errs)
	}
	return folder, errs.String()
}

func demoBuilds(t *testing.T) []string {
	t.Helper()
	entries, err := os.ReadDir("../../content/builds")
	if err != nil || len(entries) < 6 {
		t.Fatal(len(entries), err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

var pagesLine = regexp.MustCompile(`(?m)^Pages:\s+(\d+)$`)

// TestDemoPackets: every build of the demo workroom packs on both papers; the
// care-and-fit sheet takes one page, every font is in the file, no page is
// blank.
func TestDemoPackets(t *testing.T) {
	needTools(t, "pdfinfo", "pdffonts", "pdftotext")
	for _, build := range demoBuilds(t) {
		for _, size := range []string{"a4", "letter"} {
			for _, code := range []string{"en", "de", "fr"} {
				folder, said := packDemo(t, build, "--paper", size, "--language", code)
				if strings.Contains(said, "doubtful: pages") || strings.Contains(said, "no letters for") || strings.Contains(said, "[en]") {
					t.Errorf("%s on %s in %s: %s", build, size, code, said)
				}
				for _, one := range []string{"care-and-fit", "box"} {
					info := tool(t, "pdfinfo", filepath.Join(folder, one+".pdf"))
					if m := pagesLine.FindStringSubmatch(info); m == nil || m[1] != "1" {
						t.Errorf("%s of %s on %s in %s takes more than one page:\n%s", one, build, size, code, info)
					}
				}
				lookAtPDF(t, filepath.Join(folder, "packet.pdf"))
			}
		}
	}
}

// lookAtPDF looks for fonts that are not in the file and pages without words.
func lookAtPDF(t *testing.T, path string) {
	t.Helper()
	for i, line := range strings.Split(strings.TrimSpace(tool(t, "pdffonts", path)), "\n") {
		if i < 2 {
			continue
		}
		if f := strings.Fields(line); len(f) < 8 || f[len(f)-5] != "yes" {
			t.Errorf("%s: a font is not embedded: %s", path, line)
		}
	}
	for n, page := range strings.Split(strings.TrimSuffix(tool(t, "pdftotext", path, "-"), "\f"), "\f") {
		if len(strings.TrimSpace(page)) < 60 {
			t.Errorf("%s: page %d is as good as blank: %q", path, n+1, page)
		}
	}
}

func needTools(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := exec.LookPath(name); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatal(err)
			}
			t.Skip(name + " is not installed")
		}
	}
}

func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return string(out)
}

// TestPacketSameBytes: packing twice gives the same files.
func TestPacketSameBytes(t *testing.T) {
	for _, build := range demoBuilds(t)[:3] {
		a, _ := packDemo(t, build)
		b, _ := packDemo(t, build)
		entries, err := os.ReadDir(a)
		if err != nil || len(entries) < 9 {
			t.Fatal(len(entries), err)
		}
		for _, e := range entries {
			x, err := os.ReadFile(filepath.Join(a, e.Name()))
			if err != nil {
				t.Fatal(err)
			}
			y, err := os.ReadFile(filepath.Join(b, e.Name()))
			if err != nil || !bytes.Equal(x, y) {
				t.Errorf("%s of %s differs between two runs (%v)", e.Name(), build, err)
			}
		}
	}
}

// TestPacketOpensAlone opens packet.html of every demo build, moved to a
// folder of its own, without a network: it asks for nothing, and nothing of it
// is missing.
func TestPacketOpensAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("opens a browser")
	}
	ctx := browser(t)
	axe, axeErr := os.ReadFile(os.Getenv("HEMBOOK_AXE"))
	if axeErr != nil {
		t.Log("HEMBOOK_AXE names no axe.min.js: accessibility is not looked at")
	}
	for _, build := range demoBuilds(t) {
		folder, _ := packDemo(t, build)
		alone := filepath.Join(t.TempDir(), "alone.html")
		if err := os.Rename(filepath.Join(folder, "packet.html"), alone); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(alone)
		if err != nil {
			t.Fatal(err)
		}
		if found := reaches.Find(text); found != nil {
			t.Errorf("%s would reach out of itself: %s", build, found)
		}
		one, stop := context.WithTimeout(ctx, 30*time.Second)
		for _, width := range []int64{360, 1280} {
			if err := chromedp.Do(one, chromedp.EmulateViewport(width, 800), chromedp.Navigate("file://"+alone)); err != nil {
				t.Fatal(err)
			}
			got, err := chromedp.Run(one, chromedp.Evaluate[packetFacts](`({
				wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
				sheets: document.querySelectorAll('article').length,
				broken: [...document.images].filter(i => !i.complete || i.naturalWidth === 0).length,
				noAlt: [...document.images].filter(i => !i.hasAttribute('alt')).length,
				asked: performance.getEntriesByType('resource').filter(e => !e.name.startsWith('data:')).length,
				scripts: document.scripts.length,
				symbols: document.querySelectorAll('.symbols svg').length,
			})`))
			if err != nil {
				t.Fatal(err)
			}
			if got.Wide > 0 || got.Sheets != 4 || got.Broken > 0 || got.NoAlt > 0 || got.Asked > 0 || got.Scripts > 0 || got.Symbols < 5 {
				t.Errorf("%s at %d px: %+v", build, width, got)
			}
			if axeErr != nil {
				continue
			}
			found, err := chromedp.Run(one, chromedp.Evaluate[[]string](`(async () => {`+string(axe)+`; const r = await axe.run(document, {resultTypes: ["violations"]}); return r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | "));})()`, chromedp.EvalAwaitPromise))
			if err != nil || len(found) > 0 {
				t.Errorf("%s at %d px: axe-core finds %q (%v)", build, width, found, err)
			}
		}
		stop()
	}
}

// reaches finds what a browser would fetch from elsewhere.
var reaches = regexp.MustCompile(`(?i)(\ssrc="[^d#]|<link\b|@import|url\((?:"|')?[^d"'#)]|<script|<iframe|<object)`)

type packetFacts struct {
	Wide, Sheets, Broken, NoAlt, Asked, Scripts, Symbols int
}
