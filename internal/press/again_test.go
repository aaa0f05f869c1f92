package press

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/themes"
)

// A preview presses one workroom again and again into one folder.
type preview struct {
	t       testing.TB
	dir, to string
	room    *record.Room
	memory  Memory
	clock   time.Time // of the next save
}

func newPreview(t testing.TB, f files) *preview {
	p := &preview{t: t, dir: room(t, f), to: filepath.Join(t.TempDir(), "pressed"), clock: time.Now().Add(-24 * time.Hour)}
	for name := range f {
		p.settle(name)
	}
	t.Cleanup(p.memory.Close)
	return p
}

// settle gives a file a time of its own in the past: what was saved a moment
// ago is not relied on, and a test will not wait.
func (p *preview) settle(name string) {
	p.clock = p.clock.Add(time.Second)
	if err := os.Chtimes(p.path(name), p.clock, p.clock); err != nil {
		p.t.Fatal(err)
	}
}

func (p *preview) path(name string) string { return filepath.Join(p.dir, filepath.FromSlash(name)) }

// save saves a file in place, or by putting a new one in its place.
func (p *preview) save(name, text string, rename bool) {
	path := p.path(name)
	at := path
	if rename {
		at += ".new~"
	}
	os.MkdirAll(filepath.Dir(path), 0o755)
	if err := os.WriteFile(at, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
	if rename {
		if err := os.Rename(at, path); err != nil {
			p.t.Fatal(err)
		}
	}
	p.settle(name)
}

func (p *preview) text(name string) string {
	text, err := os.ReadFile(p.path(name))
	if err != nil {
		p.t.Fatal(err)
	}
	return string(text)
}

// press presses what changed.
func (p *preview) press() (Report, []fault.Fault, error) {
	r, faults, err := record.Open(p.dir)
	if p.room != nil {
		r, faults, err = p.room.Again()
	}
	if err != nil {
		p.t.Fatal(err)
	}
	defer r.Close()
	p.room = r
	return pressRoom(p.t, r, faults, Options{To: p.to, Memory: &p.memory})
}

// afresh presses everything into another folder.
func (p *preview) afresh() (string, []fault.Fault, error) {
	r, faults, err := record.Open(p.dir)
	if err != nil {
		p.t.Fatal(err)
	}
	defer r.Close()
	to := filepath.Join(p.t.TempDir(), "fresh")
	_, faults, err = pressRoom(p.t, r, faults, Options{To: to})
	return to, faults, err
}

func pressRoom(t testing.TB, r *record.Room, opened []fault.Fault, opts Options) (Report, []fault.Fault, error) {
	plain, more := derive.NewTailor(r)
	if all := append(opened, more...); fault.HasErrors(all) {
		return Report{}, all, ErrRecords
	}
	theme, err := plainTheme()
	if own := filepath.Join(r.Dir, "themes/plainweave"); isFolder(own) {
		theme, err = LoadTheme(themes.Plainweave(), os.DirFS(own))
	}
	if err != nil {
		t.Fatal(err)
	}
	return Press(t.Context(), r, cutting.NewCutter(t.Context(), r, plain, cutting.Options{Mode: cutting.KeptOnly}), theme, opts)
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// several is a workroom in which most things lead to others.
func several() files {
	f := small()
	f["content/cloth/grey-wool.yaml"] = "name: Grey wool\nsummary: It presses.\nfibres: {wool: 100}\nweight: 300 g/m2\nwidth: 150 cm\npicture: {file: wool.jpg, alt: grey}\n"
	f["content/cloth/wool.jpg"] = photograph(1)
	f["content/wearers/ada.yaml"] = "name: Ada\nfor: woman\nbody: {waist girth: 700}\n"
	f["content/techniques/other-way.md"] = "---\nname: Other way\nsummary: Sewn twice.\nseam: french\ncautions: [blades]\npicture: {file: way.jpg, alt: a way}\n---\nLike the [](technique:plain-way).\n\n![sewn](way.jpg)\n"
	f["content/techniques/way.jpg"] = photograph(2)
	f["content/builds/follows/build.yaml"] = following
	for i := range 5 {
		f[fmt.Sprintf("content/builds/skirt-%d/build.yaml", i)] = skirt(i)
		f[fmt.Sprintf("content/builds/skirt-%d/notes.md", i)] = fmt.Sprintf("Like [](build:apron) in [](cloth:grey-wool), number %d.\n", i)
	}
	return f
}

// skirt is a build. Some rest on the maker's rates; odd ones use other cloth
// and techniques than even ones.
func skirt(i int) string {
	cloth, way, takes := "rust-linen", "plain-way", ""
	if i%2 == 1 {
		cloth, way = "grey-wool", "other-way"
	}
	if i > 2 {
		takes = ", takes: 40 min"
	}
	return fmt.Sprintf(`name: Skirt %d
summary: A skirt.
garment: skirt
wearer: ada
state: sewing
begun: 2026-0%d-01
cloth: {shell: %s}
thread: {rust: rust}
pieces:
  front: {rectangle: [%d, 700]}
  back: {rectangle: [%d, 700]}
seams:
  side: {join: [front.right, back.left], type: plain, technique: %s}
work:
  sew: {sews: [side], technique: %s%s}
  again: {sews: [side], technique: %s, after: [sew]}
journal:
  - {at: 2026-03-05 10:00, did: sew, for: %d min, done: true}
`, i, i+1, cloth, 500+10*i, 500, way, way, takes, way, 20+i)
}

// following is a build that names no technique: they follow from its types and steps.
var following = strings.NewReplacer("Skirt 8", "Following skirt", "type: plain, technique: plain-way", "type: double-stitched",
	"  sew: {sews: [side], technique: plain-way", "  sew on: {sews: [side]", "technique: plain-way, after: [sew]", "after: [sew on]", "did: sew,", "did: sew on,").Replace(skirt(8))

func photograph(shade int) string {
	img := image.NewGray(image.Rect(0, 0, 600, 400))
	for i := range img.Pix {
		img.Pix[i] = uint8(i/997 + shade*31)
	}
	img.SetGray(0, 0, color.Gray{uint8(shade)})
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err)
	}
	return b.String()
}

// An edit is one thing a maker does to a workroom.
type edit struct {
	name string
	do   func(p *preview, r *rand.Rand) bool // false where there is nothing to do it to
}

// change is an edit that replaces words in a file.
func change(file, old string, news ...string) edit {
	return edit{file + ": " + old, func(p *preview, r *rand.Rand) bool {
		text, err := os.ReadFile(p.path(file))
		if err != nil {
			return false
		}
		all := append([]string{old}, news...)
		for i, k := range r.Perm(len(all)) {
			if was := all[k]; bytes.Contains(text, []byte(was)) {
				next := all[(k+1+i%(len(all)-1))%len(all)]
				p.save(file, strings.Replace(string(text), was, next, 1), r.IntN(2) == 0)
				return true
			}
		}
		return false
	}}
}

// appear is an edit that adds a file, or removes it where it is there.
func appear(file, text string) edit {
	return edit{file + " comes or goes", func(p *preview, r *rand.Rand) bool {
		if os.Remove(p.path(file)) == nil {
			os.Remove(filepath.Dir(p.path(file))) // where it is empty
			return true
		}
		p.save(file, text, r.IntN(2) == 0)
		return true
	}}
}

var edits = []edit{
	change("content/builds/skirt-0/build.yaml", "[500, 700]", "[520, 700]", "[480, 690]"),
	change("content/builds/skirt-1/build.yaml", "summary: A skirt.", "summary: Another skirt.", "summary: One more."),
	change("content/builds/skirt-1/build.yaml", "for: 21 min", "for: 31 min", "for: 11 min"),
	change("content/builds/skirt-2/build.yaml", "  side: {join", "  flank: {join"), // broken half the time: sews: [side]
	change("content/builds/skirt-2/build.yaml", "sews: [side]", "sews: [flank]"),
	change("content/builds/skirt-3/build.yaml", "name: Skirt 3", "name: Skirt three", "name: Third skirt"),
	change("content/builds/skirt-3/build.yaml", "shell: grey-wool", "shell: rust-linen"),
	change("content/builds/skirt-4/build.yaml", "state: sewing", "stat: sewing"), // broken and mended
	change("content/builds/skirt-4/build.yaml", "begun: 2026-05-01", "begun: 2025-05-01", "begun: 2026-07-02"),
	change("content/builds/skirt-0/notes.md", "in [](cloth:grey-wool)", "in [](cloth:grey-wol)", "in wool"),
	change("content/builds/apron/build.yaml", "name: Apron", "name: Best apron"),
	change("content/builds/apron/build.yaml", "saw: too long", "saw: too short"),
	change("content/cloth/rust-linen.yaml", "mass: 200", "mass: 210", "mass: 190"),
	change("content/cloth/rust-linen.yaml", "name: Rust linen", "name: Red linen"),
	change("content/cloth/grey-wool.yaml", "fibres: {wool: 100}", "fibres: {wool: 90}", "fibres: {wool: 80, silk: 20}"),
	change("content/cloth/grey-wool.yaml", "summary: It presses.", "summary: It felts."),
	change("content/workroom.yaml", "show: mm and in", "show: cm"),
	change("content/workroom.yaml", "Somebody", "Somebody else"),
	change("content/wearers/ada.yaml", "700", "720"),
	change("content/wearers/ada.yaml", "for: woman", "for: child"),
	change("content/techniques/plain-way.md", "1. Sew.", "1. Sew slowly.", "1. Sew [](technique:no-way)."),
	change("content/techniques/plain-way.md", "name: Plain way", "name: Usual way"),
	change("content/techniques/other-way.md", "cautions: [blades]", "cautions: []"),
	change("content/techniques/other-way.md", "seam: french", "seam: double-stitched", "seam: [french, double-stitched]"),
	change("content/techniques/plain-way.md", "also: [simple way]", "also: [simple way, sewing on]"),
	change("content/pages/about.md", "Hello.", "Hello to [](build:skirt-3)."),
	change("content/pages/about.md", "title: About", "title: About us"),
	appear("content/builds/new/build.yaml", strings.ReplaceAll(skirt(6), "Skirt 6", "New skirt")),
	appear("content/builds/again/build.yaml", strings.ReplaceAll(skirt(7), "Skirt 7", "Another new skirt")),
	appear("content/builds/follows/build.yaml", following),
	appear("content/builds/skirt-2/notes.md", "Other [notes](page:about).\n"),
	appear("content/pages/later.md", "---\ntitle: Later\norder: 1\n---\nSoon.\n"),
	appear("content/cloth/silk.yaml", "name: Silk\nfibres: {silk: 100}\nwidth: 90 cm\n"),
	appear("content/techniques/third-way.md", "---\nname: Third way\nsummary: Not sewn.\n---\nGlue.\n"),
	appear("themes/plainweave/look/99-own.css", "body { color: maroon }\n"),
	{"a photograph comes, changes or goes", func(p *preview, r *rand.Rand) bool {
		const file, photo, line = "content/builds/skirt-1/build.yaml", "content/builds/skirt-1/photos/a.jpg", "\npicture: {file: photos/a.jpg, alt: it hangs}\n"
		text := p.text(file)
		switch {
		case !strings.Contains(text, line):
			p.save(photo, photograph(r.IntN(4)), true)
			p.save(file, text+line, true)
		case r.IntN(2) == 0:
			p.save(photo, photograph(r.IntN(4)), r.IntN(2) == 0)
		default:
			p.save(file, strings.Replace(text, line, "", 1), true)
		}
		return true
	}},
	{"the picture of a technique changes", func(p *preview, r *rand.Rand) bool {
		p.save("content/techniques/way.jpg", photograph(r.IntN(4)), r.IntN(2) == 0)
		return true
	}},
	{"the picture of a cloth changes", func(p *preview, r *rand.Rand) bool {
		p.save("content/cloth/wool.jpg", photograph(r.IntN(4)), r.IntN(2) == 0)
		return true
	}},
	{"a folder is renamed", func(p *preview, r *rand.Rand) bool {
		return os.Rename(p.path("content/builds/skirt-0"), p.path("content/builds/skirt-nought")) == nil ||
			os.Rename(p.path("content/builds/skirt-nought"), p.path("content/builds/skirt-0")) == nil
	}},
	{"somebody removes a page", func(p *preview, r *rand.Rand) bool {
		return os.Remove(filepath.Join(p.to, "glossary.html")) == nil
	}},
	{"somebody adds a page", func(p *preview, r *rand.Rand) bool {
		return os.WriteFile(filepath.Join(p.to, "builds", "stray.html"), nil, 0o644) == nil
	}},
	{"somebody removes the notebook", func(p *preview, r *rand.Rand) bool { return r.IntN(4) == 0 && os.RemoveAll(p.to) == nil }},
}

// added lists the pages in the notebook that are not ours.
func (p *preview) added() []string {
	if _, err := os.Stat(filepath.Join(p.to, "builds", "stray.html")); err == nil {
		return []string{"builds/stray.html"}
	}
	return nil
}

// TestAgainIsLikeAfresh: whatever is edited in whatever order, the pages
// pressed again are those of a press from nothing, byte for byte, faults
// included; and where a record is broken the last good pages stay.
//
// HEMBOOK_EDITS=80 makes that many edits, in each of two workrooms.
func TestAgainIsLikeAfresh(t *testing.T) {
	seeds, steps := 2, edited(t, 20)
	if testing.Short() {
		seeds = 1
	}
	made, pages, broken := 0, 0, 0
	for seed := range seeds {
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		p := newPreview(t, several())
		var last, good map[string]string
		var done []string
		for range steps {
			if r.IntN(2) == 0 {
				p.memory.Look(t.Context())
			}
			added := p.added()
			rep, faults, err := p.press()
			if !slices.Equal(p.added(), added) {
				t.Fatalf("seed %d after %q: of the pages that somebody added, %v, these are left: %v", seed, done, added, p.added())
			}
			to, want, wantErr := p.afresh()
			if (err == nil) != (wantErr == nil) || err != nil && !errors.Is(err, ErrRecords) {
				t.Fatalf("seed %d after %q: %v; afresh %v", seed, done, err, wantErr)
			}
			if a, b := told(faults), told(want); !slices.Equal(a, b) {
				t.Fatalf("seed %d after %q: faults\n%v\nafresh\n%v", seed, done, a, b)
			}
			if err == nil {
				made, pages = made+rep.Made, pages+rep.Pages
				last = tree(t, to)
				ours := tree(t, p.to)
				for _, name := range added {
					delete(ours, name)
				}
				alike(t, fmt.Sprintf("seed %d after %q", seed, done), ours, last)
			} else if broken++; len(done) == 0 {
				t.Fatal("the room to begin with has faults:", told(faults))
			} else if !slices.ContainsFunc(done, func(s string) bool { return strings.HasPrefix(s, "somebody") }) {
				alike(t, fmt.Sprintf("seed %d, broken after %q", seed, done), tree(t, p.to), last)
			}
			if os.RemoveAll(to); t.Failed() {
				return
			}
			if err == nil {
				good = tree(t, p.dir)
			} else if r.IntN(2) == 0 {
				p.mend(good)
				done = append(done, "mended")
				continue
			}
			if e := edits[r.IntN(len(edits))]; e.do(p, r) {
				done = append(done, e.name)
			}
		}
		p.memory.Close()
		onlyOne(t, filepath.Dir(p.to))
	}
	if broken == 0 || made*4 > pages*3 {
		t.Errorf("%d of %d pages were made anew, %d presses were refused: the test tries too little", made, pages, broken)
	}
}

// edited is how many edits a test of many makes: more where HEMBOOK_EDITS says so.
func edited(t *testing.T, usual int) int {
	said := os.Getenv("HEMBOOK_EDITS")
	if said == "" {
		return usual
	}
	n, err := strconv.Atoi(said)
	if err != nil || n < usual {
		t.Fatalf("HEMBOOK_EDITS=%s is no number of at least %d", said, usual)
	}
	return n
}

// TestOnlyWhatChangedIsMadeAgain: a figure of one build changes its own pages
// and those that show what became of it; saving the same again changes nothing.
func TestOnlyWhatChangedIsMadeAgain(t *testing.T) {
	p := newPreview(t, several())
	first, faults, err := p.press()
	if err != nil || first.Made != first.Pages {
		t.Fatal(first, faults, err)
	}
	const file = "content/builds/skirt-3/build.yaml"
	text, own := p.text(file), 0 // pages of the build
	for name := range tree(t, p.to) {
		if strings.Contains(name, "skirt-3") {
			own++
		}
	}
	for _, c := range []struct {
		what, text string
		most       int // pages
	}{
		{"nothing", text, own}, // they are looked at
		{"a note in the record", text + "# a remark\n", own},
		{"a sentence", strings.Replace(text, "A skirt.", "A red skirt.", 1), own + 3}, // lists, front page, search
		{"a width", strings.Replace(text, "530", "535", 1), own + 6},                  // cloth too, and the page of rates
	} {
		p.save(file, c.text, true)
		rep, _, err := p.press()
		if err != nil || rep.Made == 0 || rep.Made > c.most {
			t.Errorf("%s: %d of %d pages were made again, at most %d should be (%v)", c.what, rep.Made, rep.Pages, c.most, err)
		}
		if rep, _, _ := p.press(); rep.Made != 0 || rep.Written != 0 {
			t.Errorf("%s, and then nothing: %+v", c.what, rep)
		}
	}
}

// TestLook: what somebody did to the notebook is noticed after a look as without one.
func TestLook(t *testing.T) {
	p := newPreview(t, several())
	p.memory.Look(t.Context()) // there is nothing yet
	for _, look := range []bool{false, true} {
		if _, faults, err := p.press(); err != nil {
			t.Fatal(faults, err)
		}
		page := filepath.Join(p.to, "glossary.html")
		good, err := os.ReadFile(page)
		if err != nil || os.WriteFile(page, []byte("scribbled"), 0o644) != nil {
			t.Fatal(err)
		}
		if look {
			p.memory.Look(t.Context())
		}
		rep, _, err := p.press()
		if now, _ := os.ReadFile(page); err != nil || !bytes.Equal(now, good) || rep.Made != rep.Pages {
			t.Errorf("look %v: %+v, %v: the page is %.20q", look, rep, err, now)
		}
	}
}

// TestLookedAt: once a notebook was looked at a press notices by its folders what came,
// went or was put in another's place; what was written into a page it notices after the
// next look. A look that was broken off says nothing.
func TestLookedAt(t *testing.T) {
	if !record.FoldersTell {
		t.Skip("the times of folders do not tell here what came and went")
	}
	p := newPreview(t, several())
	path := func(name string) string { return filepath.Join(p.to, name) }
	broken, end := context.WithCancel(t.Context())
	end()
	for _, c := range []struct {
		what   string
		do     func() error
		look   context.Context // then; nil for no look
		mended bool
	}{
		{"nothing", func() error { return nil }, nil, false},
		{"a page gone", func() error { return os.Remove(path("glossary.html")) }, nil, true},
		{"a page under another name", func() error { return os.Rename(path("glossary.html"), path("glossary2.html")) }, nil, true},
		{"a page in another's place", func() error {
			return errors.Join(os.WriteFile(path("glossary.html~"), []byte("hers"), 0o644), os.Rename(path("glossary.html~"), path("glossary.html")))
		}, nil, true},
		{"words in a page", func() error { return os.WriteFile(path("glossary.html"), []byte("hers"), 0o644) }, nil, false},
		{"words in a page, and a broken look", func() error { return os.WriteFile(path("glossary.html"), []byte("hers"), 0o644) }, broken, false},
		{"words in a page, and a look", func() error { return os.WriteFile(path("glossary.html"), []byte("hers"), 0o644) }, t.Context(), true},
	} {
		made := -1
		for range 4 { // until nothing is left of what was done before
			rep, faults, err := p.press()
			if err != nil {
				t.Fatal(c.what, rep, faults, err)
			}
			p.memory.Look(t.Context())
			made = rep.Made
		}
		if made != 0 {
			t.Fatalf("%s: %d pages are made again where nothing was done", c.what, made)
		}
		good, err := os.ReadFile(path("glossary.html"))
		if err = errors.Join(err, c.do()); err != nil {
			t.Fatal(c.what, err)
		}
		if c.look != nil {
			p.memory.Look(c.look)
		}
		rep, faults, err := p.press()
		if err != nil || (rep.Made == rep.Pages) != c.mended {
			t.Errorf("%s: %d of %d pages were made again: %v, %v", c.what, rep.Made, rep.Pages, faults, err)
		}
		if now, _ := os.ReadFile(path("glossary.html")); c.mended && !bytes.Equal(now, good) {
			t.Errorf("%s: the page is %.20q", c.what, now)
		}
	}
}

// mend saves every file as it was when all was well.
func (p *preview) mend(good map[string]string) {
	for name := range tree(p.t, p.dir) {
		if _, ok := good[name]; !ok {
			os.Remove(p.path(name))
			os.Remove(filepath.Dir(p.path(name)))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(good)) {
		if text, err := os.ReadFile(p.path(name)); err != nil || string(text) != good[name] {
			p.save(name, good[name], true)
		}
	}
}

func told(faults []fault.Fault) []string {
	var out []string
	for _, f := range faults {
		out = append(out, f.String())
	}
	slices.Sort(out)
	return out
}

func alike(t *testing.T, when string, got, want map[string]string) {
	t.Helper()
	for name, text := range want {
		if have, ok := got[name]; !ok {
			t.Errorf("%s: %s is missing", when, name)
		} else if have != text {
			t.Errorf("%s: %s differs", when, name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s: %s should not be there", when, name)
		}
	}
}

// BenchmarkAgain presses one edited build of many again and reports the time
// as a part of a press of everything, measured in the same run.
func BenchmarkAgain(b *testing.B) {
	const file = "content/builds/build-00007/build.yaml"
	for _, c := range []struct {
		what string
		text func(text string, i int) string
	}{
		{"figure", func(text string, i int) string {
			return strings.Replace(text, "[207, 300]", fmt.Sprintf("[207, %d]", 301+i%90), 1)
		}},
		{"words", func(text string, i int) string {
			return strings.Replace(text, "measuring by", fmt.Sprintf("measuring %d", i), 1)
		}},
		{"name", func(text string, i int) string {
			return strings.Replace(text, "Dress number 7", fmt.Sprintf("Dress nr %d", i), 1)
		}},
	} {
		for _, n := range []int{100, 1000} {
			b.Run(fmt.Sprintf("%s/builds=%d", c.what, n), func(b *testing.B) {
				f := many(n)
				f[file] = strings.Replace(f[file], "name: panel 8, rectangle: [208, 300]", "name: panel 8, rectangle: [207, 300]", 1)
				p := newPreview(b, f)
				begun := time.Now()
				if _, faults, err := p.press(); err != nil {
					b.Fatal(err, faults)
				}
				whole, i := time.Since(begun), 0
				p.press()
				for b.Loop() {
					b.StopTimer()
					i++
					p.save(file, c.text(f[file], i), true)
					b.StartTimer()
					if rep, _, err := p.press(); err != nil || rep.Written == 0 {
						b.Fatal(rep, err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(whole.Nanoseconds())*100, "%-of-a-whole-press")
			})
		}
	}
}
