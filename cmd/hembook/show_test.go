package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"go.uber.org/goleak"

	"hembook/internal/chromium"
)

// A shownRoom is a running preview of a workroom.
type shownRoom struct {
	t    testing.TB
	dir  string
	base string
	errs *lockedBuffer
	end  func()
}

// A lockedBuffer may be written and read at once.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// showRoom runs the show command on a workroom until the test ends.
func showRoom(t testing.TB, dir string) *shownRoom {
	t.Helper()
	s := &shownRoom{t: t, dir: dir, errs: &lockedBuffer{}}
	ctx, stop := context.WithCancel(context.Background())
	read, out := io.Pipe()
	done := make(chan error, 1)
	go func() {
		err := (&showing{opt: &options{room: dir}, out: out, errs: s.errs}).run(ctx)
		out.Close()
		done <- err
	}()
	lines := bufio.NewReader(read)
	first, err := lines.ReadString('\n')
	if err != nil {
		t.Fatal(err, <-done)
	}
	s.base = regexp.MustCompile(`http://localhost:\d+/`).FindString(first)
	drained := make(chan struct{})
	go func() { io.Copy(io.Discard, lines); close(drained) }()
	s.end = func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
		<-drained
		s.end = func() {}
	}
	t.Cleanup(func() { s.end() })
	return s
}

// A told state is what an open page is told.
type toldState struct {
	Version, Heading string
	Faults           []struct {
		File, Message, Hint string
		Line                int
	}
}

// listen opens a page's stream; next is what it is told next.
func (s *shownRoom) listen() (next func() toldState, end func()) {
	s.t.Helper()
	client := &http.Client{Transport: &http.Transport{}}
	if _, test := s.t.(*testing.T); test {
		client.Timeout = 3 * time.Minute // else what is never told would hold up all tests
	}
	res, err := client.Get(s.base + ".preview/events")
	if err != nil {
		s.t.Fatal(err)
	}
	lines := bufio.NewScanner(res.Body)
	lines.Buffer(nil, 1<<20)
	next = func() (st toldState) {
		for lines.Scan() {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				if err := json.Unmarshal([]byte(data), &st); err != nil {
					s.t.Fatal(err)
				}
				return st
			}
		}
		s.t.Fatalf("the stream ended: %v", lines.Err())
		return st
	}
	return next, func() { res.Body.Close(); client.CloseIdleConnections() }
}

// endsByItself is the clock by which the highlighter's expressions are given up; it stops
// some seconds after the last of them.
var endsByItself = goleak.IgnoreAnyFunction("github.com/dlclark/regexp2/v2.runClock")

// begunRoom is the workroom that begin makes.
func begunRoom(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := beginRoom(t.Context(), dir, "", io.Discard); err != nil {
		t.Fatal(err)
	}
	begun := contents(t, filepath.Join(dir, practice))
	replace(t, dir, practice, strings.Replace(begun, "name: Practice skirt\n", "name: Practice skirt\nsummary: Two panels gathered into a band.\n", 1))
	return dir
}

// TestShow presses a real workroom, saves, makes a slip and mends it.
func TestShow(t *testing.T) {
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent(), endsByItself)
	dir := begunRoom(t)
	path := "content/builds/practice-skirt/build.yaml"
	good := contents(t, filepath.Join(dir, path))
	s := showRoom(t, dir)
	next, end := s.listen()
	defer end()
	first := next()
	for strings.HasSuffix(first.Version, "-0") { // the first press is under way
		first = next()
	}
	if first.Heading != "" {
		t.Fatalf("a workroom without faults: %+v", first)
	}
	replace(t, dir, path, strings.Replace(good, "Two panels gathered", "Two panels pleated", 1))
	saved := next()
	if saved.Version == first.Version || saved.Heading != "" {
		t.Errorf("after a save: %+v", saved)
	}
	replace(t, dir, path, strings.Replace(good, "state: planned", "stat: planned", 1))
	wrong := next()
	if wrong.Version != saved.Version || len(wrong.Faults) == 0 {
		t.Fatalf("after a slip: %+v", wrong)
	}
	said := false
	for _, f := range wrong.Faults {
		said = said || f.File == path && f.Line == 6 && f.Message == `unknown word "stat"` && f.Hint == `did you mean "state"?`
	}
	if !said || !strings.Contains(wrong.Heading, "this page is as it was before") {
		t.Errorf("after a slip: %+v", wrong)
	}
	for wrong.Heading != "" {
		replace(t, dir, path, good)
		wrong = next()
	}
	s.end()
	if printed := s.errs.String(); strings.Count(printed, `unknown word "stat"`) != 1 || !strings.Contains(printed, "that is right now") {
		t.Errorf("printed\n%s", printed)
	}
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !slices.Contains([]string{"content", "guide", ".schema", ".vscode", ".hembook"}, e.Name()) {
			t.Errorf("%s lies in the workroom", e)
		}
	}
}

// TestShowPatternFile: saving a pattern file presses again, as saving a record
// does, and a file that cannot be read is told of.
func TestShowPatternFile(t *testing.T) {
	nothingBeside(t)
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent(), endsByItself)
	dir := begunRoom(t)
	const panel = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="400mm" viewBox="0 0 300 400"><g id="panel"><path id="panel-hem" d="M0,400H300"/><path id="panel-right" d="M300,400V0"/><path id="panel-waist" d="M300,0H0"/><path id="panel-left" d="M0,0V400"/></g></svg>`
	drawn, folder := "content/builds/drawn/pattern/panel.svg", filepath.Join(dir, "content/builds/drawn/pattern")
	if err := os.MkdirAll(folder, 0o777); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		drawn:                             panel,
		"content/builds/drawn/build.yaml": "name: Drawn\ngarment: skirt\nfor: woman\nstate: planned\ncloth: {shell: practice-cotton}\npieces: {panel: {outline: pattern/panel.svg#panel}}\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	s := showRoom(t, dir)
	next, end := s.listen()
	defer end()
	first := next()
	for strings.HasSuffix(first.Version, "-0") {
		first = next()
	}
	if first.Heading != "" {
		t.Fatalf("a workroom without faults: %+v", first)
	}
	replace(t, dir, drawn, strings.NewReplacer("M300,400V0", "M300,400L280,0", "M300,0H0", "M280,0H0").Replace(panel))
	saved := next()
	if saved.Version == first.Version || saved.Heading != "" {
		t.Errorf("after a save: %+v", saved)
	}
	replace(t, dir, drawn, "no drawing")
	wrong := next()
	for wrong.Heading == "" {
		wrong = next()
	}
	if len(wrong.Faults) == 0 || !strings.Contains(wrong.Faults[0].Message, "panel.svg") {
		t.Errorf("after a slip: %+v", wrong)
	}
	s.end()
}

// TestShowInABrowser: the page reloads by itself, shows what is wrong as text,
// keeps what was open, and breaks no policy.
func TestShowInABrowser(t *testing.T) {
	nothingBeside(t)
	ctx := chromium.Tab(t)
	dir := begunRoom(t)
	path := "content/builds/practice-skirt/build.yaml"
	good := contents(t, filepath.Join(dir, path))
	s := showRoom(t, dir)
	await := func(script string) {
		t.Helper()
		ctx, stop := context.WithTimeout(ctx, 5*time.Minute)
		defer stop()
		ask := "new Promise(answer => setTimeout(() => answer(Boolean(" + script + ")), 50))"
		for {
			yes, err := chromedp.Run(ctx, chromedp.Evaluate[bool](ask, chromedp.EvalAwaitPromise))
			if yes {
				return
			}
			if ctx.Err() != nil { // other errors are those of a page that is being reloaded
				t.Fatalf("%s: %v\n%s", script, err, s.errs)
			}
		}
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(s.base+"builds/practice-skirt.html")); err != nil {
		t.Fatal(err)
	}
	await(`document.body.textContent.includes("Two panels gathered")`)
	await(`(() => { const d = document.querySelector("details"); if (d) d.open = true; return !!d; })()`)
	replace(t, dir, path, strings.Replace(good, "Two panels gathered", "Two panels pleated", 1))
	await(`document.body.textContent.includes("Two panels pleated") && document.querySelector("details").open`)
	replace(t, dir, path, strings.Replace(good, "garment: skirt", "<img src=x>: skirt", 1))
	await(`(() => {
		const p = document.getElementById("hembook-faults");
		return !!p && p.shadowRoot.textContent.includes('unknown word "<img src=x>"') && !p.shadowRoot.querySelector("img") &&
			getComputedStyle(p).position === "fixed" && document.body.textContent.includes("Two panels pleated");
	})()`)
	replace(t, dir, path, good)
	await(`!document.getElementById("hembook-faults") && document.body.textContent.includes("Two panels gathered")`)
}
