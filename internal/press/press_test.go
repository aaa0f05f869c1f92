package press

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/themes"
)

func TestSameBytesEveryRun(t *testing.T) {
	f := small()
	for name, text := range many(7) {
		if _, ok := f[name]; !ok {
			f[name] = text
		}
	}
	dir := room(t, f)
	one, two := pressed(t, dir, filepath.Join(t.TempDir(), "a")), pressed(t, dir, filepath.Join(t.TempDir(), "b"))
	if len(one) != len(two) {
		t.Fatalf("%d files, then %d", len(one), len(two))
	}
	for name, text := range one {
		if two[name] != text {
			t.Errorf("%s differs between two runs", name)
		}
	}
}

func TestFilesThatDidNotChangeKeepTheirTime(t *testing.T) {
	f := small()
	dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
	pressed(t, dir, to)
	old := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	for name := range tree(t, to) {
		if err := os.Chtimes(filepath.Join(to, name), old, old); err != nil {
			t.Fatal(err)
		}
	}
	write(t, dir, "content/pages/about.md", "---\ntitle: About\n---\nHello again.\n")
	if err := os.WriteFile(filepath.Join(to, "stray.txt"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	r, faults, err := press(t, dir, to)
	if err != nil {
		t.Fatal(err, faults)
	}
	if r.Removed != 0 || r.Carried != 1 || r.Kept != r.Files-r.Written {
		t.Errorf("report %+v: want 1 file carried over", r)
	}
	for name := range tree(t, to) {
		if strings.HasPrefix(name, "search") {
			continue // the index holds the words of every page
		}
		if name == markerName || name == "stray.txt" {
			continue // the one holds the sum of every page, the other is hers
		}
		info, err := os.Stat(filepath.Join(to, name))
		if err != nil {
			t.Fatal(err)
		}
		if changed := name == "pages/about.html"; info.ModTime().Equal(old) == changed {
			t.Errorf("%s: time %v, changed %v", name, info.ModTime(), changed)
		}
	}
}

func write(t testing.TB, dir, name, text string) {
	t.Helper()
	path := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestNothingIsWrittenWhereRecordsHaveErrors: the earlier notebook stays as it
// was, to the byte and the time stamp, and nothing lies beside it.
func TestNothingIsWrittenWhereRecordsHaveErrors(t *testing.T) {
	for name, edit := range map[string][2]string{
		"a record":          {"type: plain", "type: plane"},
		"a link in a story": {"cloth:rust-linen", "cloth:rust-linnen"},
		"a refused address": {"[](cloth:rust-linen)", "[x](javascript:alert%281%29)"},
		"a picture":         {"state: sewing\n", "state: sewing\npicture: photos/none.jpg\n"},
	} {
		t.Run(name, func(t *testing.T) {
			dir, out := room(t, small()), t.TempDir()
			to := filepath.Join(out, "pressed")
			before := pressed(t, dir, to)
			const file = "content/builds/apron/build.yaml"
			text := small()[file]
			if !strings.Contains(text, edit[0]) {
				t.Fatal("nothing to edit")
			}
			write(t, dir, file, strings.Replace(text, edit[0], edit[1], 1))
			_, faults, err := press(t, dir, to)
			if !errors.Is(err, ErrRecords) || !fault.HasErrors(faults) {
				t.Fatalf("error %v, faults %v", err, faults)
			}
			same(t, before, tree(t, to))
			onlyOne(t, out)
		})
	}
}

func same(t *testing.T, before, after map[string]string) {
	t.Helper()
	if len(before) != len(after) {
		t.Errorf("%d files, then %d", len(before), len(after))
	}
	for name, text := range before {
		if after[name] != text {
			t.Errorf("%s changed", name)
		}
	}
}

func onlyOne(t *testing.T, out string) {
	t.Helper()
	left, err := os.ReadDir(out)
	if err != nil || len(left) > 1 {
		t.Errorf("left beside the notebook: %v %v", left, err)
	}
}

func TestBrokenLinkIsPlaced(t *testing.T) {
	f := small()
	f["content/techniques/plain-way.md"] = strings.Replace(f["content/techniques/plain-way.md"], "term:hang", "term:hnag", 1)
	_, faults, err := press(t, room(t, f), filepath.Join(t.TempDir(), "x"))
	faults = slices.DeleteFunc(faults, func(f fault.Fault) bool { return f.Severity != fault.Error }) // the apron is warned of loose edges
	if !errors.Is(err, ErrRecords) || len(faults) != 1 {
		t.Fatal(err, faults)
	}
	got := faults[0]
	if got.At.File() != "content/techniques/plain-way.md" || got.At.Line != 8 || got.At.Column != 47 || !strings.Contains(got.Hint, "term:hang") {
		t.Errorf("got %v", got)
	}
}

// TestWriteErrorLeavesTheOld makes writing fail half way through.
func TestWriteErrorLeavesTheOld(t *testing.T) {
	dir, out := room(t, small()), t.TempDir()
	to := filepath.Join(out, "pressed")
	before := pressed(t, dir, to)
	theme := themes.Plainweave()
	broken, err := LoadTheme(theme, fstest.MapFS{"pages/rates.html": {Data: []byte(`{{define "inside"}}{{.Nothing}}{{end}}`)}})
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	plain, _ := derive.NewTailor(r)
	tailor := cutting.NewCutter(t.Context(), r, plain, cutting.Options{Mode: cutting.None})
	if _, _, err := Press(context.Background(), r, tailor, broken, Options{To: to}); err == nil || !strings.Contains(err.Error(), "rates") {
		t.Fatalf("error %v", err)
	}
	same(t, before, tree(t, to))
	onlyOne(t, out)
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	good, _ := LoadTheme(theme, nil)
	if _, _, err := Press(stopped, r, tailor, good, Options{To: to}); !errors.Is(err, context.Canceled) {
		t.Fatalf("error %v", err)
	}
	same(t, before, tree(t, to))
	onlyOne(t, out)
}

func TestTargetsThatAreRefused(t *testing.T) {
	dir := room(t, small())
	full := t.TempDir()
	write(t, full, "diary.txt", "mine")
	file := filepath.Join(t.TempDir(), "file")
	write(t, filepath.Dir(file), "file", "x")
	for name, to := range map[string]string{
		"no name": "", "a folder of files": full, "a file": file, "the workroom": dir, "above the workroom": filepath.Dir(dir),
		"among the records": filepath.Join(dir, "content", "pressed"), "in what is kept": filepath.Join(dir, ".hembook"),
	} {
		if _, _, err := press(t, dir, to); err == nil {
			t.Errorf("%s: pressed to %q", name, to)
		}
	}
	if text, _ := os.ReadFile(filepath.Join(full, "diary.txt")); string(text) != "mine" {
		t.Error("a file of someone else's changed")
	}
	for name, to := range map[string]string{"an empty folder": t.TempDir(), "in the workroom": filepath.Join(dir, "pressed"), "deep down": filepath.Join(t.TempDir(), "a", "b")} {
		if _, _, err := press(t, dir, to); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestLinkedTarget(t *testing.T) {
	dir, out := room(t, small()), t.TempDir()
	real := filepath.Join(out, "real")
	pressed(t, dir, real)
	link := filepath.Join(out, "link")
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here: ", err)
	}
	if _, _, err := press(t, dir, link); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link itself was replaced")
	}
}

func TestThemeOverride(t *testing.T) {
	dir := room(t, small())
	r, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	theme, err := LoadTheme(themes.Plainweave(), fstest.MapFS{
		"pages/text.html":   {Data: []byte(`{{define "inside"}}<h1>Mine: {{.Heading}}</h1>{{.Body}}{{end}}`)},
		"look/8-mine.css":   {Data: []byte(`@font-face{font-family:M;src:url(../type/m.woff2)}h1{font-family:M}`)},
		"type/m.woff2":      {Data: []byte("font")},
		"script/own.js":     {Data: []byte("1")},
		"script/second.txt": {Data: []byte("not carried")},
	})
	if err != nil {
		t.Fatal(err)
	}
	plain, _ := derive.NewTailor(r)
	tailor := cutting.NewCutter(t.Context(), r, plain, cutting.Options{Mode: cutting.None})
	to := filepath.Join(t.TempDir(), "x")
	if _, faults, err := Press(context.Background(), r, tailor, theme, Options{To: to}); err != nil {
		t.Fatal(err, faults)
	}
	all := tree(t, to)
	if !strings.Contains(all["pages/about.html"], "Mine: About") || !strings.Contains(all["pages/about.html"], `<script defer src="../script/own.`) {
		t.Error("the workroom's own template or script is not used")
	}
	font := "type/m." + hashOf([]byte("font")) + ".woff2"
	if all[font] != "font" {
		t.Error("the font is not carried along")
	}
	found := false
	for name, text := range all {
		if strings.HasPrefix(name, "look/") {
			found = found || strings.Contains(text, "../"+font)
		}
	}
	if !found {
		t.Error("the style sheet does not name the font's file")
	}
}

func TestThemeFaultsAreNamed(t *testing.T) {
	if _, err := LoadTheme(themes.Plainweave(), fstest.MapFS{"pages/build.html": {Data: []byte("{{define")}}); err == nil || !strings.Contains(err.Error(), "pages/build.html") {
		t.Errorf("error %v", err)
	}
	if _, err := LoadTheme(fstest.MapFS{}, nil); err == nil || !strings.Contains(err.Error(), "frame.html") {
		t.Errorf("error %v", err)
	}
}

// TestBareWorkroom presses a workroom that has nothing in it yet.
func TestBareWorkroom(t *testing.T) {
	all := pressed(t, room(t, files{"content/workroom.yaml": "name: Bare\nmaker: M\n"}), filepath.Join(t.TempDir(), "x"))
	for name, text := range all {
		if strings.HasSuffix(name, ".html") {
			checkPage(t, name, text, all)
		}
	}
	for _, page := range []string{"index.html", "builds/index.html", "techniques/index.html", "cloth/index.html", "rates.html", "glossary.html", "404.html"} {
		if all[page] == "" {
			t.Errorf("%s is missing", page)
		}
	}
}

// TestWorkersDoNotShow presses with one worker and with eight.
func TestWorkersDoNotShow(t *testing.T) {
	dir := room(t, many(12))
	r, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	plain, _ := derive.NewTailor(r)
	tailor := cutting.NewCutter(t.Context(), r, plain, cutting.Options{Mode: cutting.None})
	theme, err := LoadTheme(themes.Plainweave(), nil)
	if err != nil {
		t.Fatal(err)
	}
	var all []map[string]string
	for _, n := range []int{1, 8} {
		to := filepath.Join(t.TempDir(), "x")
		if _, faults, err := Press(context.Background(), r, tailor, theme, Options{To: to, Workers: n}); err != nil {
			t.Fatal(err, faults)
		}
		all = append(all, tree(t, to))
	}
	same(t, all[0], all[1])
}

// TestStraySweep: what a press that was stopped left behind is swept away; what
// is not ours, or is at work yet, stays.
func TestStraySweep(t *testing.T) {
	dir, out := room(t, small()), t.TempDir()
	to := filepath.Join(out, "pressed")
	atWork, err := stageBeside(to)
	if err != nil {
		t.Fatal(err)
	}
	defer atWork.Remove()
	for name, text := range map[string]string{
		"pressed.new-dead/" + markerName: unfinished, "pressed.new-dead/index.html": "half", ".pressed.new-dead.lock": "",
		"pressed.new-torn/" + markerName + ".new": "This folder", ".pressed.new-torn.lock": "",
		".pressed.new-gone.lock":      "",
		"pressed.new-theirs/notes.md": "x",
		"pressed.new-copy/index.html": "x", "pressed.new-copy/" + markerName: markerText,
	} {
		write(t, out, name, text)
	}
	if _, faults, err := press(t, dir, to); err != nil {
		t.Fatal(err, faults)
	}
	var left []string
	entries, _ := os.ReadDir(out)
	for _, e := range entries {
		left = append(left, e.Name())
	}
	base := filepath.Base(atWork.Dir)
	want := []string{"." + base + ".lock", "pressed", "pressed.new-copy", "pressed.new-theirs", base}
	slices.Sort(want)
	if strings.Join(left, " ") != strings.Join(want, " ") {
		t.Errorf("left: %v, want %v", left, want)
	}
}
