package capture

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"

	"hembook/internal/say"
)

//go:embed page
var pageFiles embed.FS

// A shellFile is one of the files that the page is made of. They are the same
// for every workroom and hold nothing of any.
type shellFile struct {
	data []byte
	kind string
}

var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".svg": "image/svg+xml", ".png": "image/png", ".webmanifest": "application/manifest+json",
}

const (
	doorFile     = "door.html"
	pageFile     = "page.html"
	workerFile   = "worker.js"
	workerPolicy = "default-src 'none'; connect-src 'self'; frame-ancestors 'none'"
	pagePolicy   = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; " +
		"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)

// shell are the files by their address, door apart.
var shell, doorPage, doorPolicy = readShell()

func readShell() (files map[string]shellFile, door []byte, policy string) {
	files = map[string]shellFile{}
	entries, err := pageFiles.ReadDir("page")
	if err != nil {
		panic(err) // they are in the program
	}
	sum := sha256.New()
	var addresses []string
	for _, e := range entries {
		data, err := pageFiles.ReadFile(path.Join("page", e.Name()))
		if err != nil {
			panic(err)
		}
		sum.Write(data)
		address := "/" + e.Name()
		switch e.Name() {
		case doorFile:
			door = data
			continue
		case pageFile:
			address = "/"
		}
		files[address] = shellFile{data, kinds[path.Ext(e.Name())]}
		if e.Name() != workerFile {
			addresses = append(addresses, `"`+address+`"`)
		}
	}
	slices.Sort(addresses)
	worker := files["/"+workerFile]
	worker.data = bytes.Replace(worker.data, []byte(`"VERSION"`), []byte(`"`+hex.EncodeToString(sum.Sum(nil)[:6])+`"`), 1)
	worker.data = bytes.Replace(worker.data, []byte(`["SHELL"]`), []byte("["+strings.Join(addresses, ", ")+"]"), 1)
	files["/"+workerFile] = worker
	return files, door, policyOf(door)
}

// policyOf allows a page the one style and the one script that stand in it.
func policyOf(page []byte) string {
	return fmt.Sprintf("default-src 'none'; style-src '%s'; script-src '%s'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
		sumOf(page, "style"), sumOf(page, "script"))
}

// sumOf is the hash of what stands between an element's tags, as Content
// Security Policy Level 3 wants it, section 6.7.3.
func sumOf(page []byte, element string) string {
	_, rest, _ := bytes.Cut(page, []byte("<"+element+">"))
	inner, _, _ := bytes.Cut(rest, []byte("</"+element+">"))
	sum := sha256.Sum256(inner)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// page answers with a file of the page; to strangers with the door alone.
func (s *server) page(w http.ResponseWriter, r *http.Request, in bool) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		s.refuse(w, r, http.StatusMethodNotAllowed, say.Of("capture.not-asked-for-this-way"))
		return
	}
	file, ok := shell[r.URL.Path]
	h := w.Header()
	switch {
	case !in && r.URL.Path == "/":
		s.log.write(s.now(), r, http.StatusForbidden, say.Of("capture.no-session"))
		h.Set("Content-Type", kinds[".html"])
		h.Set("Content-Security-Policy", doorPolicy)
		w.WriteHeader(http.StatusForbidden)
		w.Write(doorPage)
	case !in:
		s.stranger(w, r)
	case !ok:
		s.refuse(w, r, http.StatusNotFound, say.Of("capture.page-not-found"))
	default:
		h.Set("Content-Type", file.kind)
		switch r.URL.Path {
		case "/":
			h.Set("Content-Security-Policy", pagePolicy)
		case "/" + workerFile: // it lives by the policy of its own file
			h.Set("Content-Security-Policy", workerPolicy)
		}
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(file.data))
	}
}
