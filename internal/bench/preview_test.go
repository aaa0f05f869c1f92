package bench

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"go.uber.org/goleak"

	"hembook/internal/fault"
)

// A stage is a preview in a test: a press that copies one record's words onto
// a page, and refuses words that begin with "wrong".
type stage struct {
	t       *testing.T
	room    string
	base    string
	client  *http.Client
	pressed chan Pressed
	resting atomic.Int32 // now
	rested  atomic.Int32
	end     func()
}

const page = `<!DOCTYPE html><html><head><meta http-equiv="Content-Security-Policy" content="default-src 'none'"></head><body>%s</body></html>`

func newStage(t *testing.T) *stage {
	t.Helper()
	s := &stage{t: t, room: t.TempDir(), pressed: make(chan Pressed, 1000), client: &http.Client{Transport: &http.Transport{}}}
	put(t, s.record(), "one")
	to := filepath.Join(t.TempDir(), "pressed")
	listeners, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	s.base = fmt.Sprintf("http://127.0.0.1:%d", PortOf(listeners[0]))
	p := &Preview{
		Room: s.room, Watched: []string{"content", "themes"}, Pressed: to, Gather: 5 * time.Millisecond,
		Press: func(context.Context) Pressed { return s.press(to) },
		Told:  func(p Pressed) { s.pressed <- p },
		Rest:  func(ctx context.Context) { s.rest(ctx) },
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- p.Serve(ctx, listeners...) }()
	s.end = func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
		s.client.CloseIdleConnections()
		s.end = func() {}
	}
	t.Cleanup(func() { s.end() })
	s.await() // the first press
	return s
}

func (s *stage) record() string { return filepath.Join(s.room, "content/builds/coat/build.yaml") }

// rest goes on until it is woken.
func (s *stage) rest(ctx context.Context) {
	s.resting.Add(1)
	<-ctx.Done()
	s.rested.Add(1)
	s.resting.Add(-1)
}

func (s *stage) press(to string) Pressed {
	if s.resting.Load() > 0 {
		s.t.Error("it is pressed while what waits until nobody waits is still done")
	}
	text, err := os.ReadFile(s.record())
	if err != nil {
		return Pressed{Err: errors.New("there is no record")}
	}
	if strings.HasPrefix(string(text), "wrong") {
		at := fault.Pos{Source: &fault.Source{Path: "content/builds/coat/build.yaml"}, Line: 3, Column: 1}
		return Pressed{Faults: []fault.Fault{
			{At: at, Severity: fault.Error, Message: `unknown word "<img src=x>"`, Hint: `did you mean "do"?`},
			{At: at, Severity: fault.Warning, Message: "only a warning"},
		}}
	}
	fresh := fmt.Sprintf(page, text)
	file := filepath.Join(to, "index.html")
	old, _ := os.ReadFile(file)
	for name, data := range map[string]string{file: fresh, filepath.Join(to, "builds/index.html"): fresh, filepath.Join(to, "look/a.css"): "p{}", filepath.Join(to, ".hembook-pressed"): "x", filepath.Join(to, "pictures/a.jpg"): "x", filepath.Join(to, "odd.bin"): "x"} {
		if lies, err := os.ReadFile(name); err != nil || string(lies) != data { // a page may be reading what lies there
			put(s.t, name, data)
		}
	}
	return Pressed{Changed: string(old) != fresh}
}

// await is the next press.
func (s *stage) await() Pressed {
	s.t.Helper()
	select {
	case p := <-s.pressed:
		return p
	case <-time.After(3 * time.Minute):
		s.t.Fatal("nothing was pressed")
		return Pressed{}
	}
}

// get asks for an address and returns the answer with its body.
func (s *stage) get(path string) (*http.Response, string) {
	s.t.Helper()
	return s.do(http.MethodGet, path, "")
}

func (s *stage) do(method, path, host string) (*http.Response, string) {
	s.t.Helper()
	r, err := http.NewRequest(method, s.base, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	r.URL.Opaque = path // as it is, dots and all
	r.Host = host
	res, err := s.client.Transport.RoundTrip(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer res.Body.Close()
	body, err := io.ReadAll(res.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return res, string(body)
}

// A stream is an open page's connection.
type stream struct {
	t     *testing.T
	body  io.ReadCloser
	lines *bufio.Scanner
}

func (s *stage) listen() *stream {
	s.t.Helper()
	res, err := s.client.Get(s.base + eventsPath)
	if err != nil {
		s.t.Fatal(err)
	}
	if got := res.Header.Get("Content-Type"); got != "text/event-stream" {
		s.t.Errorf("the stream is %s", got)
	}
	return &stream{s.t, res.Body, bufio.NewScanner(res.Body)}
}

// next is the next state the page is told.
func (s *stream) next() (st struct {
	Version, Heading, More string
	Faults                 []struct {
		File, Message, Hint string
		Line                int
	}
}) {
	s.t.Helper()
	for s.lines.Scan() {
		if data, ok := strings.CutPrefix(s.lines.Text(), "data: "); ok {
			if err := json.Unmarshal([]byte(data), &st); err != nil {
				s.t.Fatal(err)
			}
			return st
		}
	}
	s.t.Fatalf("the stream ended: %v", s.lines.Err())
	return st
}

func TestPreview(t *testing.T) {
	defer goleak.VerifyNone(t)
	s := newStage(t)
	res, body := s.get("/")
	events := s.listen()
	defer events.body.Close()
	first := events.next()
	if res.StatusCode != 200 || !strings.Contains(body, "<body>one</body>") || !strings.Contains(body, `data-version="`+first.Version+`"`) {
		t.Errorf("%s\n%s", res.Status, body)
	}
	for name, want := range map[string]string{
		"Content-Type": "text/html; charset=utf-8", "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff",
		"Content-Security-Policy": "default-src 'none'; script-src 'self'; connect-src 'self'; frame-ancestors 'none'",
	} {
		if got := res.Header.Get(name); got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
	}

	// a save: another version
	put(t, s.record(), "two")
	second := events.next()
	if second.Version == first.Version || second.Heading != "" {
		t.Errorf("after a save: %+v", second)
	}
	if _, body := s.get("/index.html"); !strings.Contains(body, "two") {
		t.Errorf("the page is still %s", body)
	}

	// a save by rename, of a fault: the same version, and what is wrong
	fresh := filepath.Join(filepath.Dir(s.record()), ".build.yaml.writing-1")
	put(t, fresh, "wrong")
	if err := os.Rename(fresh, s.record()); err != nil {
		t.Fatal(err)
	}
	wrong := events.next()
	if wrong.Version != second.Version || wrong.Heading != "1 thing wrong in the records; this page is as it was before" || len(wrong.Faults) != 1 {
		t.Fatalf("after a fault: %+v", wrong)
	}
	if f := wrong.Faults[0]; f.File != "content/builds/coat/build.yaml" || f.Line != 3 || f.Message != `unknown word "<img src=x>"` || f.Hint != `did you mean "do"?` {
		t.Errorf("the fault is told as %+v", f)
	}
	if _, body := s.get("/"); !strings.Contains(body, "two") {
		t.Errorf("the last good page is %s", body)
	}
	if late := s.listen(); true { // a page that is opened now is told too
		if st := late.next(); len(st.Faults) != 1 {
			t.Errorf("who comes late is told %+v", st)
		}
		late.body.Close()
	}

	// mended, to what it was: nothing is wrong, and nothing is reloaded
	put(t, s.record(), "two")
	for {
		st := events.next()
		if st.Version != second.Version {
			t.Fatalf("mended: %+v", st)
		}
		if st.Heading == "" {
			break
		}
	}
	s.end()
}

// A folder that is made after the start is watched, and folders in it.
func TestPreviewNewFolders(t *testing.T) {
	defer goleak.VerifyNone(t)
	s := newStage(t)
	deep := filepath.Join(s.room, "themes/plainweave/look/1.css")
	put(t, deep, "a")
	s.await()
	for len(s.pressed) > 0 {
		<-s.pressed
	}
	put(t, deep, "b")
	s.await()
	if err := os.RemoveAll(filepath.Join(s.room, "themes")); err != nil {
		t.Fatal(err)
	}
	s.await()
	s.end()
}

func TestPreviewRefuses(t *testing.T) {
	defer goleak.VerifyNone(t)
	s := newStage(t)
	put(t, filepath.Join(s.room, "content/secret.txt"), "secret")
	port := s.base[strings.LastIndexByte(s.base, ':'):]
	for _, c := range []struct {
		method, path, host string
		status             int
		kind               string
	}{
		{"GET", "/", "localhost" + port, 200, "text/html; charset=utf-8"},
		{"GET", "/", "LOCALHOST" + port, 200, "text/html; charset=utf-8"},
		{"GET", "/", "[::1]" + port, 200, "text/html; charset=utf-8"},
		{"HEAD", "/", "", 200, "text/html; charset=utf-8"},
		{"GET", "/builds/", "", 200, "text/html; charset=utf-8"},
		{"GET", "/builds", "", 302, "text/html; charset=utf-8"},
		{"GET", "/look/a.css", "", 200, "text/css; charset=utf-8"},
		{"GET", "/pictures/a.jpg", "", 200, "image/jpeg"},
		{"GET", "/odd.bin", "", 200, "application/octet-stream"},
		{"GET", scriptPath, "", 200, "text/javascript; charset=utf-8"},
		{"GET", "/", "evil.example", 403, ""},
		{"GET", "/", "evil.example" + port, 403, ""},
		{"GET", "/", "localhost", 403, ""},
		{"GET", "/", "localhost:1", 403, ""},
		{"GET", "/", "127.0.0.1.evil.example" + port, 403, ""},
		{"GET", eventsPath, "evil.example" + port, 403, ""},
		{"POST", "/", "", 405, ""},
		{"PUT", "/index.html", "", 405, ""},
		{"GET", "/pictures/", "", 404, ""}, // no listing
		{"GET", "/nothing.html", "", 404, ""},
		{"GET", "/.hembook-pressed", "", 404, ""},
		{"GET", "/.preview/", "", 404, ""},
		{"GET", "/../content/secret.txt", "", 404, ""},
		{"GET", "/%2e%2e/content/secret.txt", "", 404, ""},
		{"GET", "/builds/../../content/secret.txt", "", 404, ""},
		{"GET", "/..%5ccontent%5csecret.txt", "", 404, ""},
		{"GET", "/builds/%00", "", 404, ""},
		{"GET", "//evil.example/builds", "", 403, ""}, // sent as another host's address
		{"GET", "/builds//index.html", "", 404, ""},
	} {
		res, body := s.do(c.method, c.path, c.host)
		if res.StatusCode != c.status || c.kind != "" && res.Header.Get("Content-Type") != c.kind {
			t.Errorf("%s %s for %q: %s, %s", c.method, c.path, c.host, res.Status, res.Header.Get("Content-Type"))
		}
		if strings.Contains(body, "secret") {
			t.Errorf("%s %s: the secret was told", c.method, c.path)
		}
		if where := res.Header.Get("Location"); c.status == 302 && where != "/builds/" {
			t.Errorf("%s leads to %s", c.path, where)
		}
	}
	s.end()
}

// Nothing grows over many presses while a page is open.
func TestPreviewManyPresses(t *testing.T) {
	defer goleak.VerifyNone(t)
	s := newStage(t)
	events := s.listen()
	defer events.body.Close()
	events.next()
	var routines, bytes [2]uint64
	for i := range 200 {
		put(t, s.record(), fmt.Sprint("word ", i))
		s.await()
		if i == 49 || i == 199 {
			runtime.GC()
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			routines[i/100], bytes[i/100] = uint64(runtime.NumGoroutine()), m.HeapAlloc
		}
	}
	if routines[1] > routines[0]+2 {
		t.Errorf("goroutines: %d after 50 presses, %d after 200", routines[0], routines[1])
	}
	if bytes[1] > bytes[0]+1<<20 {
		t.Errorf("memory: %d bytes after 50 presses, %d after 200", bytes[0], bytes[1])
	}
	s.end()
}

// Before anything could be pressed a page says so, and what is wrong.
func TestPreviewBeforeTheFirstPages(t *testing.T) {
	b := newBoard()
	b.post(Pressed{Err: errors.New("the theme's frame.html: it does not end")})
	state, _ := b.read()
	if got := string(state); !strings.Contains(got, `"heading":"the notebook could not be made"`) || !strings.Contains(got, "it does not end") {
		t.Errorf("got %s", got)
	}
	before := b.version()
	b.post(Pressed{})
	if b.version() == before {
		t.Error("the first pages have the version of none")
	}
	many := make([]fault.Fault, 100)
	for i := range many {
		many[i] = fault.Fault{Severity: fault.Error, Message: "wrong"}
	}
	b.post(Pressed{Faults: many})
	state, _ = b.read()
	if got := string(state); !strings.Contains(got, `"more":"and 60 more, in the terminal"`) || strings.Count(got, `"wrong"`) != mostShown {
		t.Errorf("got %s", got)
	}
}

func TestListen(t *testing.T) {
	list, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range list {
		defer l.Close()
		if ip := l.Addr().(*net.TCPAddr).IP; !ip.IsLoopback() {
			t.Errorf("it listens at %s", ip)
		}
		if PortOf(l) != PortOf(list[0]) {
			t.Errorf("ports %d and %d", PortOf(l), PortOf(list[0]))
		}
	}
	if again, err := Listen(PortOf(list[0])); !errors.Is(err, ErrTaken) {
		t.Errorf("the same port again: %v, %v", again, err)
	}
}

func TestFileOf(t *testing.T) {
	for address, want := range map[string]string{
		"/": ".", "/index.html": "index.html", "/builds/": "builds", "/builds/coat.html": "builds/coat.html",
		"//evil.example/builds": "", "/../x": "", "/builds/../x": "", "/.hidden": "", "/a/.b": "", "/a//b": "", "/a\\b": "", "/c:x": "", "/a\x00": "",
	} {
		if got, ok := fileOf(address); ok != (want != "") || ok && got != want {
			t.Errorf("%q: got %q, %v", address, got, ok)
		}
	}
}

// TestRest: what can wait begins after each press, is ended by the next save before that
// is pressed, and by the end of the preview.
func TestRest(t *testing.T) {
	s := newStage(t)
	rests := func() {
		t.Helper()
		for until := time.Now().Add(10 * time.Second); s.resting.Load() != 1; time.Sleep(time.Millisecond) {
			if time.Now().After(until) {
				t.Fatalf("%d rests are under way, not one", s.resting.Load())
			}
		}
	}
	rests()
	const saves = 3
	for i := range saves {
		put(t, s.record(), fmt.Sprint("number ", i))
		s.await()
		rests()
	}
	s.end()
	if s.resting.Load() != 0 || s.rested.Load() < saves+1 {
		t.Errorf("%d rests came to an end and %d did not; there were %d saves and the first press", s.rested.Load(), s.resting.Load(), saves)
	}
}
