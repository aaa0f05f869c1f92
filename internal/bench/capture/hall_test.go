package capture

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"mime/multipart"
	"net"
	"net/http"
	"net/textproto"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// A hall is a bench that browsers and clients can reach.
type hall struct {
	dir  string
	base string
	code string
	stop func()

	mu  sync.Mutex
	log []string
}

// open serves a workroom at an address of its own; at is "127.0.0.1:0" or one
// that was served before.
func openHall(t testing.TB, dir, at string) *hall {
	t.Helper()
	return openHallBy(t, dir, at, nil)
}

// openHallBy is openHall by a clock of the test's own.
func openHallBy(t testing.TB, dir, at string, now func() time.Time) *hall {
	t.Helper()
	l, err := net.Listen("tcp", at)
	if err != nil {
		t.Fatal(err)
	}
	h := &hall{dir: dir, base: "http://" + l.Addr().String()}
	shown := make(chan struct{})
	first := sync.OnceFunc(func() { close(shown) })
	b := &Bench{Room: dir, Now: now, Origins: []string{h.base}, Code: func(c string) {
		h.mu.Lock()
		defer h.mu.Unlock()
		h.code = c
		first()
	},
		Log: slog.New(slog.NewTextHandler(h, nil))}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- b.Serve(ctx, l) }()
	h.stop = sync.OnceFunc(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	t.Cleanup(h.stop)
	<-shown
	return h
}

func (h *hall) Write(line []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.log = append(h.log, string(line))
	return len(line), nil
}

func (h *hall) logged() int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.log)
}

func (h *hall) goodCode() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.code
}

// A guest is a client of a hall, as it may be and as it should not.
type guest struct {
	t      testing.TB
	hall   *hall
	client *http.Client
	cookie string
}

func newGuest(t testing.TB, h *hall) *guest {
	g := &guest{t: t, hall: h, client: &http.Client{Transport: &http.Transport{}, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
	t.Cleanup(g.client.CloseIdleConnections)
	return g
}

// comeIn exchanges the good code for a session.
func (g *guest) comeIn() *guest {
	g.t.Helper()
	res, body := g.ask(http.MethodPost, "/pair", g.json(`{"code": "`+g.hall.goodCode()+`"}`))
	if res.StatusCode != http.StatusOK || len(res.Cookies()) != 1 {
		g.t.Fatalf("not let in: %d %s", res.StatusCode, body)
	}
	g.cookie = res.Cookies()[0].Value
	return g
}

// A change is what a test alters of a request.
type change func(r *http.Request)

func (g *guest) json(text string) change {
	return func(r *http.Request) {
		r.Header.Set("Content-Type", "application/json")
		r.Body, r.ContentLength = io.NopCloser(strings.NewReader(text)), int64(len(text))
	}
}

// form is a slip's form, as the page sends it.
func (g *guest) form(s phoneSlip, photo []byte) change {
	text, err := json.Marshal(s)
	if err != nil {
		g.t.Fatal(err)
	}
	return g.parts(part{"now", []byte(strconv.FormatInt(time.Now().UnixMilli(), 10))}, part{"slip", text}, part{"photo", photo})
}

type part struct {
	name string
	data []byte
}

func (g *guest) parts(all ...part) change {
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for _, p := range all {
		if p.data == nil {
			continue
		}
		h := textproto.MIMEHeader{"Content-Disposition": {`form-data; name="` + p.name + `"; filename="../../../content/workroom.yaml"`}}
		if p.name != "photo" {
			h.Set("Content-Disposition", `form-data; name="`+p.name+`"`)
		}
		out, err := w.CreatePart(h)
		if err != nil {
			g.t.Fatal(err)
		}
		out.Write(p.data)
	}
	w.Close()
	return func(r *http.Request) {
		r.Header.Set("Content-Type", w.FormDataContentType())
		r.Body, r.ContentLength = io.NopCloser(bytes.NewReader(b.Bytes())), int64(b.Len())
	}
}

// with sets a header, or takes it away where the value is empty.
func with(name, value string) change {
	return func(r *http.Request) {
		r.Header.Del(name)
		if name == "Host" {
			r.Host = value
		} else if value != "" {
			r.Header.Set(name, value)
		}
	}
}

// ask sends a request to the address as it is written, dots and all.
func (g *guest) ask(method, address string, changes ...change) (*http.Response, string) {
	g.t.Helper()
	r, err := http.NewRequest(method, g.hall.base, nil)
	if err != nil {
		g.t.Fatal(err)
	}
	path, query, _ := strings.Cut(address, "?")
	r.URL.Opaque, r.URL.RawQuery = path, query
	r.Header.Set("Origin", g.hall.base)
	if g.cookie != "" {
		r.Header.Set("Cookie", cookieName+"="+g.cookie)
	}
	for _, c := range changes {
		c(r)
	}
	res, err := g.client.Do(r)
	if err != nil {
		// a server that refuses may hang up before it has heard all
		return &http.Response{StatusCode: 0, Header: http.Header{}}, err.Error()
	}
	defer res.Body.Close()
	body, err := io.ReadAll(res.Body)
	if err != nil {
		g.t.Fatal(err)
	}
	return res, string(body)
}

// ticking is a clock that goes on by a second whenever it is looked at, so
// that no limit by time is in the way of a test.
func ticking() func() time.Time {
	var mu sync.Mutex
	now := time.Now()
	return func() time.Time {
		mu.Lock()
		defer mu.Unlock()
		now = now.Add(time.Second)
		return now
	}
}
