package main

import (
	"bytes"
	"context"
	"fmt"
	"html"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
	"hembook/internal/cutting"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/sheet"
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

// abroad is the demo build whose wearer lives beyond a customs border.
const abroad = "tollkeepers-waistcoat"

// TestDemoPackets: every build of the demo workroom packs in every language, on
// the two papers in turns, so that each language meets both; the care-and-fit
// sheet and what is in the box take one page, every font is in the file, no page
// is blank, and no last page nearly so. Each build is read and cut once, as pack
// does, and its sheets made for each language.
func TestDemoPackets(t *testing.T) {
	needTools(t, "pdfinfo", "pdffonts", "pdftotext")
	if testing.Short() {
		t.Skip("packs the demo workroom in every language")
	}
	if len(sheet.Languages) != 7 {
		t.Fatalf("%d languages", len(sheet.Languages))
	}
	for b, build := range demoBuilds(t) {
		t.Run(build, func(t *testing.T) {
			t.Parallel()
			on, err := (&options{room: "../.."}).openBuild(build)
			if err != nil || fault.HasErrors(on.faults) {
				t.Fatal(err, on.faults)
			}
			defer on.room.Close()
			inEveryLanguage(&on.build.Packet)
			cut := cutting.NewCutter(t.Context(), on.room, on.tailor, cutting.Options{Mode: cutting.None}).Cut(on.build)
			pictures := new(sheet.Pictures)
			last := newPackProof(on.room, on.build, cut.Garment.Figures())
			for l, code := range sheet.Languages {
				size := []string{"a4", "letter"}[(b+l)%2]
				pack := packOptions{paper: size, language: code, to: filepath.Join(t.TempDir(), build)}
				how, err := pack.options(on.room, on.file)
				if err != nil {
					t.Fatal(err)
				}
				how.Pictures = pictures
				packet, err := sheet.Make(on.room, on.tailor, cut, cut.Garment.Faults, how)
				if err != nil {
					t.Fatal(err)
				}
				var out, errs bytes.Buffer
				if err := pack.write(on.room, on.file, packet, last, nil, &out, &errs); err != nil {
					t.Fatalf("%s on %s in %s: %v\n%s", build, size, code, err, &errs)
				}
				lookAtPacket(t, pack.to, errs.String(), build, size, code)
			}
		})
	}
}

// inEveryLanguage says what may be a warning in all languages: the demo's own are in
// English, and no sheet in another is made without them.
func inEveryLanguage(p *record.Packet) {
	d := &p.Despite
	for _, s := range []*record.Spoken{&p.Note, &p.Nightwear, &d.Care, &d.Content, &d.Flame, &d.Figures, &d.Check, &d.Child, &d.Customs} {
		for _, code := range record.Tongues {
			if s.Given() {
				s.Told = append(s.Told, record.Named[record.Text]{Name: record.Text{V: code}, V: s.Text})
			}
		}
	}
}

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

// TestPacketsAreValid has html-validate read every packet, and each sheet of
// one of them by itself.
func TestPacketsAreValid(t *testing.T) {
	nothingBeside(t)
	nodeFolder(t, "html-validate")
	t.Parallel()
	var files []string
	for _, build := range demoBuilds(t) {
		names := "wearer.html"
		if build == abroad {
			names = "*.html"
		}
		found, err := filepath.Glob(filepath.Join(packedDemo(t, build), names))
		if err != nil || len(found) == 0 {
			t.Fatal(found, err)
		}
		files = append(files, found...)
	}
	validate(t, demo.dir, files)
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

var packing sync.Mutex // held by whoever packs for all

// packedDemo packs a build of the demo workroom, once for all tests that only
// read its packet.
func packedDemo(t *testing.T, build string) (folder string) {
	t.Helper()
	pressedDemo(t) // its folder is cleared away at the end
	packing.Lock()
	defer packing.Unlock()
	folder = filepath.Join(demo.dir, "packed", build)
	if _, err := os.Stat(folder); err != nil {
		packDemo(t, build, "--to", folder)
	}
	return folder
}

// TestPacketSameBytes: packing twice gives the same files.
func TestPacketSameBytes(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	for _, build := range demoBuilds(t) {
		a := packedDemo(t, build)
		b, _ := packDemo(t, build)
		files := 0
		if err := fs.WalkDir(os.DirFS(a), ".", func(name string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			files++
			x, err := os.ReadFile(filepath.Join(a, name))
			if err != nil {
				return err
			}
			y, err := os.ReadFile(filepath.Join(b, name))
			if err != nil || !bytes.Equal(x, y) {
				t.Errorf("%s of %s differs between two runs (%v)", name, build, err)
			}
			return nil
		}); err != nil || files < 15 {
			t.Fatal(files, err)
		}
	}
}

// TestPacketOpensAlone opens the bundles of every demo build, each in a
// folder of its own, without a network: it asks for nothing, and nothing of it
// is missing.
func TestPacketOpensAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("opens a browser")
	}
	t.Parallel()
	ctx := chromium.Tab(t)
	var axe []byte
	if os.Getenv("HEMBOOK_NODE") == "" {
		t.Log("HEMBOOK_NODE names no folder with axe-core: accessibility is not looked at")
	} else {
		var err error
		if axe, err = os.ReadFile(filepath.Join(nodeFolder(t, "axe-core"), "axe.min.js")); err != nil {
			t.Fatal(err)
		}
	}
	for _, build := range demoBuilds(t) {
		folder := packedDemo(t, build)
		opensAlone(t, ctx, axe, filepath.Join(folder, "wearer.html"), aloneHolds{sheets: 3, symbols: 10})
		opensAlone(t, ctx, axe, filepath.Join(folder, "makers.html"), aloneHolds{sheets: 2, scripts: 1}) // a mender answers
		if build == abroad {
			opensAlone(t, ctx, axe, filepath.Join(folder, "customs.html"), aloneHolds{sheets: 1})
		}
	}
}

// aloneHolds is what stands in a file: so many sheets, care symbols at least, and scripts
// of its own, by which answers are made.
type aloneHolds struct{ sheets, symbols, scripts int }

// opensAlone opens one file in a folder of its own.
func opensAlone(t *testing.T, ctx context.Context, axe []byte, file string, holds aloneHolds) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	alone := filepath.Join(t.TempDir(), "alone.html")
	if err := os.WriteFile(alone, text, 0o666); err != nil {
		t.Fatal(err)
	}
	if found := reaches.Find(text); found != nil {
		t.Errorf("%s would reach out of itself: %s", file, found)
	}
	if n := bytes.Count(text, []byte("<script")); n != holds.scripts {
		t.Errorf("%s has %d scripts", file, n)
	}
	one, stop := context.WithTimeout(ctx, 5*time.Minute)
	defer stop()
	if err := chromedp.Do(one, chromedp.EmulateViewport(360, 800), chromedp.Navigate("file://"+alone)); err != nil {
		t.Fatal(err)
	}
	if axe != nil {
		evaluate[bool](t, one, string(axe)+";true")
	}
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(one, chromedp.EmulateViewport(width, 800)); err != nil {
			t.Fatal(err)
		}
		got := evaluate[packetFacts](t, one, `({
			wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
			sheets: document.querySelectorAll('main > article').length,
			broken: [...document.images].filter(i => !i.complete || i.naturalWidth === 0).length,
			noAlt: [...document.images].filter(i => !i.hasAttribute('alt')).length,
			asked: performance.getEntriesByType('resource').filter(e => !e.name.startsWith('data:')).length,
			scripts: document.scripts.length,
			symbols: document.querySelectorAll('.symbols svg').length,
		})`)
		if got.Wide > 0 || got.Sheets != holds.sheets || got.Broken > 0 || got.NoAlt > 0 || got.Asked > 0 || got.Scripts != holds.scripts || got.Symbols < holds.symbols {
			t.Errorf("%s at %d px: %+v", file, width, got)
		}
		if axe == nil {
			continue
		}
		found := evaluate[[]string](t, one, `axe.run(document, {resultTypes: ["violations"]}).then(r => r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | ")))`)
		if len(found) > 0 {
			t.Errorf("%s at %d px: axe-core finds %q", file, width, found)
		}
	}
}

// reaches finds what a browser would fetch from elsewhere.
var reaches = regexp.MustCompile(`(?i)(\ssrc="[^d#]|<link\b|@import|(?-i:url)\((?:"|')?[^d"'#)]|<iframe|<object)`)

type packetFacts struct {
	Wide, Sheets, Broken, NoAlt, Asked, Scripts, Symbols int
}
