package capture

import (
	"bytes"
	"errors"
	"fmt"
	"mime/multipart"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hembook/internal/disk"
)

// formOf is a form's body of those parts, with its kind.
func formOf(f testing.TB, parts ...string) (kind string, body []byte) {
	f.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		if err := w.WriteField(parts[i], parts[i+1]); err != nil {
			f.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		f.Fatal(err)
	}
	return w.FormDataContentType(), b.Bytes()
}

// FuzzBody: whatever body comes, it is a slip within its bounds with its
// photograph, or is refused in words.
func FuzzBody(f *testing.F) {
	note := `{"id":"` + numbered(1) + `","kind":"note","build":"coat","at":1,"note":"x"}`
	shot := `{"id":"` + numbered(2) + `","kind":"note","build":"coat","at":1,"photo":true}`
	for _, parts := range [][]string{
		{"now", "5", "slip", note}, {"now", "5", "slip", shot, "photo", string(picture(f, 8, 8))}, {"now", "5", "slip", shot, "photo", "GIF89a"},
		{"now", "5", "slip", note, "more", "x"}, {"slip", note, "now", "5"}, {"now", "-1", "slip", note}, {"now", "99999999999999999999", "slip", note}, {},
	} {
		kind, body := formOf(f, parts...)
		f.Add(kind, body)
	}
	f.Add("multipart/form-data", []byte("--\r\n"))
	f.Add("multipart/form-data; boundary=", []byte("--\r\n"))
	f.Add("multipart/form-data; boundary=a", []byte("--a\r\nContent-Disposition: form-data; name*=utf-8''now\r\nContent-Transfer-Encoding: quoted-printable\r\n\r\n=\r\n--a--"))
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		r := httptest.NewRequest(http.MethodPost, "/slips", bytes.NewReader(body))
		r.Header.Set("Content-Type", kind)
		slip, phone, photo, err := (&server{}).readSlip(httptest.NewRecorder(), r)
		var bad *badBody
		switch {
		case err != nil && (err.Error() == "" || errors.As(err, &bad) && (bad.status < 400 || bad.status > 499)):
			t.Errorf("refused with %v", err)
		case err != nil:
		case slip.check() != nil || phone < 0 || slip.Photo != (photo != nil):
			t.Errorf("%+v, %d, photograph %v: %v", slip, phone, photo != nil, slip.check())
		}
	})
}

// FuzzReceipt: whatever lies where a receipt should, it is one, which is kept
// as it is, or is named.
func FuzzReceipt(f *testing.F) {
	f.Add([]byte(`{"sum":"a","kept":true,"said":"x","at":"2026-08-05T14:10:00Z"}`))
	f.Add([]byte(`{"sum":"a","begun":true,"found":true,"had":2,"was":"7","entry":{"At":"2026-08-05T14:10:00Z","For":-1},"photo":"../x"}`))
	f.Add([]byte(`{"at":"9999-12-31T23:59:59-23:59"}`))
	f.Add([]byte("null"))
	dir := f.TempDir()
	root, err := disk.OpenRoot(dir)
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { root.Close() })
	f.Fuzz(func(t *testing.T, text []byte) {
		l, id := &receipts{root: root}, numbered(1)
		if err := root.WriteFile(id+".json", text, 0o600); err != nil {
			t.Fatal(err)
		}
		r, err := l.read(id)
		if err != nil {
			if now, _ := root.ReadFile(id + ".json"); !strings.Contains(err.Error(), id) || !bytes.Equal(now, text) {
				t.Errorf("%v; the file is %q", err, now)
			}
			return
		}
		if err := l.mark(id, &r); err != nil {
			t.Fatalf("%+v is read and cannot be kept: %v", r, err)
		}
		again, err := l.read(id)
		if err != nil || fmt.Sprint(again.Sum, again.Kept, again.Said, again.At.UTC(), again.Had, again.Was, again.Photo) !=
			fmt.Sprint(r.Sum, r.Kept, r.Said, r.At.UTC(), r.Had, r.Was, r.Photo) {
			t.Errorf("%+v, then %+v, %v", r, again, err)
		}
	})
}

// FuzzCertificate: whatever lies where the certificate should, the bench has one
// that is good for the address.
func FuzzCertificate(f *testing.F) {
	here, now := []net.IP{net.IPv4(127, 0, 0, 1)}, time.Date(2026, 8, 5, 14, 10, 0, 0, time.UTC)
	good, err := newCertificate(here, now)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add(good[:len(good)/2])
	f.Add([]byte("-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n"))
	dir := f.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, benchFolder), 0o700); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if err := os.WriteFile(filepath.Join(dir, certificateFile), text, 0o600); err != nil {
			t.Fatal(err)
		}
		cert, print, err := Certificate(dir, here, now)
		if err != nil || print == "" || !serves(cert, here, now) {
			t.Errorf("%v, %q", err, print)
		}
	})
}

// FuzzPair: nothing but the code lets a phone in, and nothing at all has the
// bench answer other than in words.
func FuzzPair(f *testing.F) {
	f.Add("application/json", []byte(`{"code":"AAAA"}`))
	f.Add("application/json; charset=utf-8", []byte(`{"code":null}`))
	f.Add("text/plain", []byte(`{"code":["ABCD"]}`))
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		b := &Bench{Room: "/nowhere", Origins: []string{"http://127.0.0.1:1"}, Code: func(string) {}}
		s := b.handler()
		r := httptest.NewRequest(http.MethodPost, "/pair", bytes.NewReader(body))
		r.Header.Set("Content-Type", kind)
		w := httptest.NewRecorder()
		s.pair(w, r)
		if w.Code < 400 || w.Code > 499 || len(w.Header()["Set-Cookie"]) > 0 || !strings.Contains(w.Body.String(), "said") {
			t.Errorf("%d %s %v", w.Code, w.Body, w.Header())
		}
	})
}
