package main

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
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
			p := packerOf(t, build)
			for l, code := range sheet.Languages {
				size := []string{"a4", "letter"}[(b+l)%2]
				to, _, told := p.pack(t, size, code, nil)
				lookAtPacket(t, to, told, build, size, code)
			}
		})
	}
}

// A packer packs a build of the demo, which is read and cut once, on several papers and in
// several languages.
type packer struct {
	on       *buildAtHand
	cut      *cutting.Cutting
	pictures *sheet.Pictures
	last     *packProof
}

func packerOf(t *testing.T, build string) *packer {
	t.Helper()
	on, err := (&options{room: "../.."}).openBuild(build)
	if err != nil || fault.HasErrors(on.faults) {
		t.Fatal(err, on.faults)
	}
	t.Cleanup(func() { on.room.Close() })
	inEveryLanguage(&on.build.Packet)
	cut := cutting.NewCutter(t.Context(), on.room, on.tailor, cutting.Options{Mode: cutting.None}).Cut(on.build)
	return &packer{on, cut, new(sheet.Pictures), newPackProof(on.room, on.build, cut.Garment.Figures())}
}

// pack writes a packet into a folder of its own, with the sheets for these readers, the
// usual ones where none is named; told is what it says while it does.
func (p *packer) pack(t *testing.T, size, code string, readers []string) (to string, packet *sheet.Packet, told string) {
	t.Helper()
	pack := packOptions{paper: size, language: code, to: filepath.Join(t.TempDir(), p.on.file.Name)}
	how, err := pack.options(p.on.room, p.on.file)
	if err != nil {
		t.Fatal(err)
	}
	if how.Pictures = p.pictures; readers != nil {
		how.For = readers
	}
	if packet, err = sheet.Make(p.on.room, p.on.tailor, p.cut, p.cut.Garment.Faults, how); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if err := pack.write(p.on.room, p.on.file, packet, p.last, nil, &out, &errs); err != nil {
		t.Fatalf("%s on %s in %s: %v\n%s", p.on.file.Name, size, code, err, &errs)
	}
	return pack.to, packet, errs.String()
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
