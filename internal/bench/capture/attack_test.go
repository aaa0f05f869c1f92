package capture

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"hash/crc32"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"
)

var methods = []string{"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND", "COPY"}

// addresses are all that the bench answers, and much that it does not.
func addresses() []string {
	all := slices.Sorted(maps.Keys(shell))
	all = append(all, slices.Sorted(maps.Keys(routes))...)
	return append(all, "/door.html", "/page.html", "/favicon.ico", "/content/workroom.yaml", "/../content/workroom.yaml",
		"/%2e%2e/content/workroom.yaml", "/..%2fcontent%2fworkroom.yaml", "/..\\content\\workroom.yaml", "//content/workroom.yaml", "/page/../../../go.mod",
		"/.hembook/bench/certificate.pem", "/state/../slips", "/state?build=coat", "/state?build=../../wearers/pip", "/%00", "/slips/", "/STATE", "*")
}

// secrets are words of the workroom that only a session may see, or nobody.
var secrets = []string{"Landing coat", "Plum slip", "Ferry House", "let it hang a day", "skirt.hem", "702", "Pip", "31.00"}

// TestEveryRequestWithoutASessionIsRefused walks every address by every method
// in several dresses.
func TestEveryRequestWithoutASessionIsRefused(t *testing.T) {
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent())
	dir := newRoom(t)
	h := openHallBy(t, dir, "127.0.0.1:0", ticking())
	defer h.stop()
	g := newGuest(t, h)
	defer g.client.CloseIdleConnections()
	before := folderSum(t, dir)
	note := phoneSlip{ID: numbered(1), Kind: "note", Build: "coat", Note: "from outside", At: time.Now().UnixMilli()}
	dresses := map[string][]change{
		"plain": nil, "no origin": {with("Origin", "")}, "a made-up cookie": {with("Cookie", cookieName+"="+strings.Repeat("A", 43))},
		"an empty cookie": {with("Cookie", cookieName+"=")}, "a slip": {g.form(note, nil)}, "a photograph": {g.form(note, picture(t, 8, 8))},
		"another method named": {with("X-HTTP-Method-Override", "GET"), with("X-Forwarded-For", "127.0.0.1")},
	}
	asked, refused := 0, 0
	for _, name := range slices.Sorted(maps.Keys(dresses)) {
		for _, address := range addresses() {
			for _, method := range methods {
				res, body := g.ask(method, address, dresses[name]...)
				asked++
				if res.StatusCode >= 400 || res.StatusCode == 0 {
					refused++
				} else {
					t.Errorf("%s %s, %s: answered with %d", method, address, name, res.StatusCode)
				}
				for _, s := range secrets {
					if strings.Contains(body, s) {
						t.Errorf("%s %s, %s: says %q", method, address, name, s)
					}
				}
				if len(res.Cookies()) > 0 {
					t.Errorf("%s %s, %s: gives a cookie", method, address, name)
				}
			}
		}
	}
	if folderSum(t, dir) != before {
		t.Error("something was written")
	}
	t.Logf("%d of %d requests without a session refused", refused, asked)
}

// TestHostileRequestsOfAGuest: someone who has a session, or sits in a browser
// that has one. Each is refused and logged, and nothing is written.
func TestHostileRequestsOfAGuest(t *testing.T) {
	dir := newRoom(t)
	h := openHallBy(t, dir, "127.0.0.1:0", ticking())
	g := newGuest(t, h).comeIn()
	slip := phoneSlip{ID: numbered(1), Kind: "note", Build: "coat", Note: "x", Photo: true, At: time.Now().UnixMilli()}
	bare := slip
	bare.Photo = false
	of := func(f func(*phoneSlip)) change { s := bare; f(&s); return g.form(s, nil) }
	good := picture(t, 8, 8)
	first := bare
	first.ID, first.Note = numbered(9), "the ledger is there now"
	if res, body := g.ask("POST", "/slips", g.form(first, nil)); res.StatusCode != http.StatusOK {
		t.Fatal(body)
	}
	port := h.base[strings.LastIndex(h.base, ":"):]
	for _, c := range []struct {
		name    string
		method  string
		address string
		changes []change
	}{
		{"another site's form", "POST", "/slips", []change{g.form(bare, nil), with("Origin", "https://evil.example")}},
		{"a form of no site", "POST", "/slips", []change{g.form(bare, nil), with("Origin", "null")}},
		{"a form that hides its site", "POST", "/slips", []change{g.form(bare, nil), with("Origin", "")}},
		{"another port's form", "POST", "/slips", []change{g.form(bare, nil), with("Origin", "http://127.0.0.1:1")}},
		{"another scheme's form", "POST", "/slips", []change{g.form(bare, nil), with("Origin", "https://127.0.0.1"+port)}},
		{"a form the browser calls foreign", "POST", "/slips", []change{g.form(bare, nil), with("Sec-Fetch-Site", "cross-site")}},
		{"a form of a neighbouring port", "POST", "/slips", []change{g.form(bare, nil), with("Sec-Fetch-Site", "same-site")}},
		{"a plain form", "POST", "/slips", []change{g.json(`slip=x`), with("Content-Type", "application/x-www-form-urlencoded")}},
		{"a text form", "POST", "/slips", []change{g.json(`{"slip":1}`), with("Content-Type", "text/plain")}},
		{"leaving on another's word", "POST", "/leave", []change{with("Origin", "https://evil.example")}},
		{"asking from another's page", "GET", "/state", []change{with("Sec-Fetch-Site", "cross-site")}},
		{"asking with another's origin", "GET", "/state", []change{with("Origin", "https://evil.example")}},
		{"a name led here", "GET", "/state", []change{with("Host", "evil.example"+port)}},
		{"a name led here, origin and all", "POST", "/slips", []change{g.form(bare, nil), with("Host", "evil.example"+port), with("Origin", "http://evil.example"+port)}},
		{"this machine by another port", "GET", "/state", []change{with("Host", "127.0.0.1:1")}},
		{"this machine by no port", "GET", "/state", []change{with("Host", "127.0.0.1")}},
		{"this machine by another name", "GET", "/state", []change{with("Host", "localhost.evil.example")}},
		{"an address by dots", "GET", "/../content/workroom.yaml", nil},
		{"an address by dots in code", "GET", "/%2e%2e/%2e%2e/content/workroom.yaml", nil},
		{"an address by strokes", "GET", "/..\\content\\workroom.yaml", nil},
		{"the workroom's key", "GET", "/.hembook/bench/certificate.pem", nil},
		{"a record", "GET", "/content/builds/coat/build.yaml", nil},
		{"a question of a page", "GET", "/bench.js?x=/../content", nil},
		{"two sessions", "GET", "/state", []change{with("Cookie", cookieName+"="+g.cookie+"; "+cookieName+"="+strings.Repeat("A", 43))}},
		{"no slip", "POST", "/slips", []change{g.parts(part{"now", []byte("1")})}},
		{"no clock", "POST", "/slips", []change{g.parts(part{"now", []byte("noon")}, part{"slip", []byte("{}")})}},
		{"the wrong order", "POST", "/slips", []change{g.parts(part{"slip", []byte("{}")}, part{"now", []byte("1")})}},
		{"no form at all", "POST", "/slips", []change{g.json(""), with("Content-Type", "multipart/form-data")}},
		{"half a slip", "POST", "/slips", []change{g.parts(part{"now", []byte("1")}, part{"slip", []byte(`{"id": "`)})}},
		{"a word too many", "POST", "/slips", []change{g.parts(part{"now", []byte("1")}, part{"slip", []byte(`{"id":"` + numbered(1) + `","kind":"note","build":"coat","at":1,"note":"x","path":"/etc/passwd"}`)})}},
		{"brackets without end", "POST", "/slips", []change{g.parts(part{"now", []byte("1")}, part{"slip", bytes.Repeat([]byte("["), mostSlip)})}},
		{"an endless slip", "POST", "/slips", []change{g.parts(part{"now", []byte("1")}, part{"slip", bytes.Repeat([]byte(" "), mostSlip+1)})}},
		{"an endless note", "POST", "/slips", []change{of(func(s *phoneSlip) { s.Note = strings.Repeat("x", mostNote+1) })}},
		{"a photograph not announced", "POST", "/slips", []change{g.form(bare, good)}},
		{"a slip and more", "POST", "/slips", []change{g.parts(part{"now", []byte("1")}, part{"slip", []byte(`{"id":"` + numbered(1) + `","kind":"note","build":"coat","at":1,"note":"x"}`)}, part{"slip", []byte("{}")})}},
		{"an id that is a path", "POST", "/slips", []change{of(func(s *phoneSlip) { s.ID = "../../content/workroom" })}},
		{"a build that is a path", "POST", "/slips", []change{of(func(s *phoneSlip) { s.Build = "../../wearers/pip" })}},
		{"a build that is a record", "POST", "/slips", []change{of(func(s *phoneSlip) { s.Build = "coat/build.yaml" })}},
		{"a kind there is not", "POST", "/slips", []change{of(func(s *phoneSlip) { s.Kind = "erase" })}},
		{"signs that cannot be seen", "POST", "/slips", []change{of(func(s *phoneSlip) { s.Note = "a\x1b[2Jb" })}},
		{"a compressed form", "POST", "/slips", []change{g.form(bare, nil), with("Content-Encoding", "gzip")}},
		{"a photograph of 33 MB", "POST", "/slips", []change{g.form(slip, make([]byte, 33<<20))}},
		{"a PNG that says 60000 by 60000", "POST", "/slips", []change{g.form(slip, pngSaying(60000, 60000, 8))}},
		{"a PNG of 16 bits that says 6000 by 6000", "POST", "/slips", []change{g.form(slip, pngSaying(6000, 6000, 16))}},
		{"a JPEG that says 60000 by 60000", "POST", "/slips", []change{g.form(slip, jpegSaying(t, 60000, 60000))}},
		{"a GIF that says 60000 by 60000", "POST", "/slips", []change{g.form(slip, []byte("GIF89a\x60\xea\x60\xea\x80\x00\x00\x00\x00\x00\xff\xff\xff"))}},
		{"a gzip bomb for a photograph", "POST", "/slips", []change{g.form(slip, zipped(t, 20<<20))}},
		{"a PNG that unfolds without end", "POST", "/slips", []change{g.form(slip, append(pngSaying(4000, 4000, 8), zipped(t, 1<<20)...))}},
		{"half a photograph", "POST", "/slips", []change{g.form(slip, good[:len(good)/2])}},
		{"a script for a photograph", "POST", "/slips", []change{g.form(slip, []byte("<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>"))}},
		{"HEIC", "POST", "/slips", []change{g.form(slip, []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"))}},
		{"an empty photograph", "POST", "/slips", []change{g.form(slip, []byte{})}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, logged := folderSum(t, dir), h.logged()
			res, body := g.ask(c.method, c.address, c.changes...)
			if res.StatusCode < 400 && res.StatusCode != 0 {
				t.Errorf("answered with %d: %s", res.StatusCode, body)
			}
			if folderSum(t, dir) != before {
				t.Error("something was written")
			}
			if h.logged() == logged {
				t.Error("nothing was logged")
			}
			for _, s := range secrets {
				if strings.Contains(body, s) {
					t.Errorf("says %q: %s", s, body)
				}
			}
		})
	}
	if res, _ := g.ask("GET", "/state"); res.StatusCode != http.StatusOK {
		t.Error("the session was lost over it")
	}
	if res, body := g.ask("POST", "/slips", g.form(bare, nil)); res.StatusCode != http.StatusOK || times(coat(t, dir), "note: x") != 1 {
		t.Errorf("an honest slip is not taken: %d %s", res.StatusCode, body)
	}
}

// pngSaying is the beginning of a PNG of that size (PNG, third edition, 11.2.1).
func pngSaying(wide, high uint32, bits byte) []byte {
	head := []byte("IHDR")
	head = binary.BigEndian.AppendUint32(head, wide)
	head = binary.BigEndian.AppendUint32(head, high)
	head = append(head, bits, 6, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	out = append(out, head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// jpegSaying is a JPEG whose frame says that size (ITU-T T.81, B.2.2).
func jpegSaying(t *testing.T, wide, high uint16) []byte {
	data := picture(t, 8, 8)
	at := bytes.Index(data, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(data[at+5:], high)
	binary.BigEndian.PutUint16(data[at+7:], wide)
	return data
}

func zipped(t *testing.T, n int) []byte {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	w.Write(make([]byte, n))
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A guest is shown names, states and what was measured, and no more.
func TestWhatAGuestIsShown(t *testing.T) {
	dir := newRoom(t)
	g := newGuest(t, openHall(t, dir, "127.0.0.1:0")).comeIn()
	_, body := g.ask("GET", "/state?build=coat")
	for _, want := range []string{`"Landing coat"`, `"let it hang a day"`, `{"name":"waist","was":"702"}`, `[["skirt.hem"]]`, `"state":"done"`, `"unit":"mm"`} {
		if !strings.Contains(body, want) {
			t.Errorf("does not say %s: %s", want, body)
		}
	}
	for _, secret := range []string{"Pip", "31.00", "flannel", "EUR", dir, "build.yaml", "before the stay"} {
		if strings.Contains(body, secret) {
			t.Errorf("says %q: %s", secret, body)
		}
	}
	for _, odd := range []string{"../../wearers/pip", "%2e%2e", "coat%00", "coat/..", ""} {
		if _, body := g.ask("GET", "/state?build="+odd); strings.Contains(body, `"steps"`) {
			t.Errorf("a build by the name %q: %s", odd, body)
		}
	}
}

// What a photograph holds beside its picture does not reach the workroom.
func TestPhotographIsDevelopedAnew(t *testing.T) {
	dir := newRoom(t)
	g := newGuest(t, openHall(t, dir, "127.0.0.1:0")).comeIn()
	data := picture(t, 64, 48)
	secret := []byte("taken at 52.52 north by Pip")
	segment := append([]byte{0xff, 0xfe, 0, byte(len(secret) + 2)}, secret...) // a comment: ITU-T T.81, B.2.4.5
	data = append(append(append([]byte{}, data[:2]...), segment...), data[2:]...)
	s := phoneSlip{ID: numbered(7), Kind: "note", Build: "coat", Step: "sides", Note: "the fell", Alt: "two rows", Photo: true, At: time.Now().UnixMilli()}
	if res, body := g.ask("POST", "/slips", g.form(s, data)); res.StatusCode != http.StatusOK {
		t.Fatal(body)
	}
	kept, _ := filepath.Glob(filepath.Join(dir, "content/builds/coat/photos/*.jpg"))
	if len(kept) != 1 {
		t.Fatalf("kept %v", kept)
	}
	text, err := os.ReadFile(kept[0])
	if err != nil || bytes.Contains(text, secret) || !bytes.Contains(data, secret) {
		t.Errorf("the comment is there still, or never was: %v", err)
	}
	if got := coat(t, dir); times(got, "alt: two rows") != 1 || times(got, filepath.Base(kept[0])) != 1 {
		t.Errorf("not in the journal:\n%s", got)
	}
	if fault := openRecord(t, dir); fault != "" {
		t.Error(fault)
	}
}

// Everything that is sent says that it must be neither kept nor guessed at.
func TestHeadersOfEveryAnswer(t *testing.T) {
	g := newGuest(t, openHallBy(t, newRoom(t), "127.0.0.1:0", ticking()))
	look := func(who string) {
		for _, address := range addresses() {
			res, _ := g.ask("GET", address)
			if res.StatusCode == 0 || res.StatusCode == http.StatusBadRequest && res.Header.Get("Cache-Control") == "" {
				continue // refused by the HTTP library before the bench heard of it
			}
			for name, want := range map[string]string{"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "X-Frame-Options": "DENY", "Cross-Origin-Resource-Policy": "same-origin"} {
				if got := res.Header.Get(name); got != want {
					t.Errorf("%s, %s: %s is %q", who, address, name, got)
				}
			}
			policy := res.Header.Get("Content-Security-Policy")
			if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") || !strings.Contains(policy, "frame-ancestors 'none'") {
				t.Errorf("%s, %s: policy %q", who, address, policy)
			}
		}
	}
	look("a stranger")
	g.comeIn()
	look("a guest")
}
