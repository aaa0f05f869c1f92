package bench

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"os"
	"path"
	"strconv"
	"strings"
	"time"

	"hembook/internal/disk"
	"hembook/internal/say"
)

//go:embed preview.js
var script []byte

const (
	scriptPath = "/.preview/script.js" // no pressed file begins with a dot
	eventsPath = "/.preview/events"
	mostPage   = 64 << 20
)

// A server answers browsers.
type server struct {
	preview *Preview
	board   *board
	hosts   map[string]bool
}

// hosts are the names under which this machine calls itself, with the ports.
// A page of another site that has its own name lead here is refused by them.
func hosts(listeners []net.Listener) map[string]bool {
	out := map[string]bool{}
	for _, l := range listeners {
		port := strconv.Itoa(PortOf(l))
		for _, name := range []string{"localhost", "127.0.0.1", "::1"} {
			out[net.JoinHostPort(name, port)] = true
		}
	}
	return out
}

// Guard says of an answer that no other page may show, keep or read it.
func Guard(h http.Header) {
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("X-Frame-Options", "DENY")
}

func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	Guard(h)
	host := strings.ToLower(r.Host)
	if !strings.Contains(strings.TrimPrefix(host, "[::1]"), ":") {
		host += ":80"
	}
	switch {
	case !s.hosts[host]:
		http.Error(w, say.Of("bench.this-address-is-not-where-the-notebook"), http.StatusForbidden)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, say.Of("bench.the-notebook-can-only-be-read"), http.StatusMethodNotAllowed)
	case r.URL.Path == scriptPath:
		h.Set("Content-Type", contentTypes[".js"])
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(script))
	case r.URL.Path == eventsPath:
		s.events(w, r)
	default:
		s.file(w, r)
	}
}

// contentTypes are those of all files that a notebook may hold. The machine's
// own table is not asked: it differs from one to the next.
var contentTypes = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".json": "application/json", ".webmanifest": "application/manifest+json", ".xml": "application/xml; charset=utf-8",
	".txt": "text/plain; charset=utf-8", ".svg": "image/svg+xml", ".jpg": "image/jpeg", ".jpeg": "image/jpeg",
	".png": "image/png", ".gif": "image/gif", ".webp": "image/webp", ".avif": "image/avif", ".ico": "image/vnd.microsoft.icon",
	".woff2": "font/woff2", ".woff": "font/woff", ".ttf": "font/ttf", ".otf": "font/otf", ".pdf": "application/pdf",
	".yaml": "text/plain; charset=utf-8", ".csv": "text/csv; charset=utf-8", ".zip": "application/zip",
}

// file answers with a pressed file.
func (s *server) file(w http.ResponseWriter, r *http.Request) {
	version := s.board.version() // before the file: one that is older only reloads once more
	name, ok := fileOf(r.URL.Path)
	if !ok {
		s.missing(w, version)
		return
	}
	f, info, err := s.open(r.Context(), name)
	if err == nil && info.IsDir() && name != "." && !strings.HasSuffix(r.URL.Path, "/") {
		to := url.URL{Path: "/" + name + "/"} // so that its links lead where they should
		http.Redirect(w, r, to.String(), http.StatusFound)
		return
	}
	if err == nil && info.IsDir() {
		name = path.Join(name, "index.html")
		f, _, err = s.open(r.Context(), name)
	}
	if err != nil || f == nil {
		s.missing(w, version)
		return
	}
	defer f.Close()
	s.send(w, r, name, f, version)
}

func (s *server) send(w http.ResponseWriter, r *http.Request, name string, f *os.File, version string) {
	kind, known := contentTypes[strings.ToLower(path.Ext(name))]
	if !known {
		kind = "application/octet-stream"
	}
	w.Header().Set("Content-Type", kind)
	if path.Ext(name) != ".html" {
		http.ServeContent(w, r, "", time.Time{}, f)
		return
	}
	page, err := io.ReadAll(io.LimitReader(f, mostPage))
	if err != nil {
		s.missing(w, version)
		return
	}
	page, policy := withScript(page, version)
	w.Header().Set("Content-Security-Policy", policy)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(page))
}

// fileOf is the pressed file that an address asks for; false where it leads
// elsewhere or to what is hidden.
func fileOf(address string) (string, bool) {
	name := strings.Trim(address, "/")
	if strings.HasPrefix(address, "//") || strings.ContainsAny(name, "\\\x00:") {
		return "", false
	}
	if name == "" {
		return ".", true
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") {
			return "", false
		}
	}
	return name, fs.ValidPath(name)
}

// open opens a pressed file within the folder that stands there now; what is
// no file is not opened. Where the folder is being exchanged in two steps, it
// is for a moment not there.
func (s *server) open(ctx context.Context, name string) (*os.File, fs.FileInfo, error) {
	const tries = 50
	root, err := os.OpenRoot(s.preview.Pressed)
	for i := 0; i < tries && errors.Is(err, fs.ErrNotExist) && s.board.version() != s.board.run+"-0"; i++ {
		select {
		case <-ctx.Done():
			return nil, nil, ctx.Err()
		case <-time.After(2 * time.Millisecond):
		}
		root, err = os.OpenRoot(s.preview.Pressed)
	}
	if err != nil {
		return nil, nil, err
	}
	defer root.Close()
	info, err := root.Stat(name)
	if err != nil || !info.Mode().IsRegular() {
		return nil, info, err
	}
	f, err := disk.OpenIn(root, name)
	return f, info, err
}

// missing answers where nothing lies, or nothing is pressed yet.
func (s *server) missing(w http.ResponseWriter, version string) {
	title, what, status := say.Of("bench.page-not-found"), say.Of("bench.the-page-you-asked-for-is-not"), http.StatusNotFound
	if strings.HasSuffix(version, "-0") {
		title, what, status = say.Of("bench.no-notebook-yet"), say.Of("bench.it-appears-here-as-soon-as-it"), http.StatusServiceUnavailable
	}
	page := fmt.Sprintf("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>%s</title>\n</head>\n<body>\n<h1>%s</h1>\n<p>%s</p>\n</body>\n</html>\n", title, title, what)
	out, policy := withScript([]byte(page), version)
	h := w.Header()
	h.Set("Content-Type", contentTypes[".html"])
	h.Set("Content-Security-Policy", policy)
	w.WriteHeader(status)
	w.Write(out)
}

// events tells an open page how each press went, as server-sent events (HTML
// Living Standard, section 9.2).
func (s *server) events(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	if r.Method == http.MethodHead {
		return
	}
	out := http.NewResponseController(w)
	alive := time.NewTicker(20 * time.Second)
	defer alive.Stop()
	send := func(format string, args ...any) bool {
		out.SetWriteDeadline(time.Now().Add(10 * time.Second)) // a page that is gone is let go
		_, err := fmt.Fprintf(w, format, args...)
		return err == nil && out.Flush() == nil
	}
	state, changed := s.board.read()
	ok := send("retry: 500\ndata: %s\n\n", state)
	for ok {
		select {
		case <-r.Context().Done():
			return
		case <-changed:
			state, changed = s.board.read()
			ok = send("data: %s\n\n", state)
		case <-alive.C:
			ok = send(": still here\n\n")
		}
	}
}
