package bench

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"hembook/internal/record"
	"hembook/internal/record/amend"
)

// FuzzAddress: whatever is asked for, no file outside of the pressed folder and
// nothing hidden in it is sent, and no answer leads to another site.
func FuzzAddress(f *testing.F) {
	dir := f.TempDir()
	pressed := filepath.Join(dir, "pressed")
	for name, text := range map[string]string{
		"secret.html": "SECRET", "pressed/index.html": "<head></head>front", "pressed/a/index.html": "below", "pressed/a/b.css": "x{}",
		"pressed/.hidden.html": "SECRET", "pressed/.git/config.html": "SECRET",
	} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			f.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			f.Fatal(err)
		}
	}
	if err := os.Symlink(filepath.Join(dir, "secret.html"), filepath.Join(pressed, "out.html")); err != nil {
		f.Skip("no symbolic links here")
	}
	for _, address := range []string{"/", "/a", "/a/", "/a/b.css", "/../secret.html", "/a/../../secret.html", "/out.html", "/.hidden.html", "//a", "/\\a",
		"/a/./b.css", "/a//b.css", "/%2e%2e/secret.html", "/.git/config.html", "/.preview/script.js", "/a\x00", "/a/index.html/", "a", ""} {
		f.Add(http.MethodGet, address, "localhost:1")
	}
	f.Add("HEAD", "/a", "LOCALHOST:1")
	f.Add("GET", "/", "elsewhere.example")
	f.Add("POST", "/", "[::1]:1")
	s := &server{preview: &Preview{Pressed: pressed}, board: newBoard(), hosts: map[string]bool{"localhost:1": true}}
	s.board.post(Pressed{Changed: true})
	f.Fuzz(func(t *testing.T, method, address, host string) {
		if address == eventsPath {
			t.Skip("it goes on until the page is closed")
		}
		r := &http.Request{Method: method, URL: &url.URL{Path: address}, Host: host, Header: http.Header{}}
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if strings.Contains(w.Body.String(), "SECRET") {
			t.Errorf("%q sends what is not of the notebook", address)
		}
		if !strings.EqualFold(host, "localhost:1") && w.Code != http.StatusForbidden {
			t.Errorf("asked for as %q: %d", host, w.Code)
		}
		if to := w.Header().Get("Location"); to != "" {
			if u, err := url.Parse(to); err != nil || u.Host != "" || u.Scheme != "" || strings.HasPrefix(to, "//") || strings.HasPrefix(to, "/\\") {
				t.Errorf("%q leads to %q", address, to)
			}
		}
		if !slices.Contains([]int{200, 302, 403, 404, 405}, w.Code) {
			t.Errorf("%q is answered with %d", address, w.Code)
		}
	})
}

// FuzzPhotoName: whatever a photograph is called by, its name can be stored on
// any system and lies in its folder.
func FuzzPhotoName(f *testing.F) {
	for _, words := range []string{"the fell from inside", "../../x", "con", "", "Ärmel & Saum", "日本語の名前", ".hidden", "a/b\\c:d", strings.Repeat("long ", 40), "\x00", "nul.txt", "- x"} {
		f.Add("2026-08-05", words)
	}
	f.Fuzz(func(t *testing.T, day, words string) {
		day = time.Date(2026, 1, 1+len(day)%400, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
		name := photoStem(day, words) + ".jpg"
		if !filepath.IsLocal(name) || path.Base(name) != name || !strings.HasPrefix(name, day) || len(name) > 80 {
			t.Errorf("%q of %q", name, words)
		}
		for _, r := range name {
			if !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '_' || r == '.') {
				t.Errorf("%q holds %q", name, r)
			}
		}
	})
}

// FuzzSpent: whatever is said to be how long it took, it is a time of at most a
// day or is refused in words.
func FuzzSpent(f *testing.F) {
	for _, text := range []string{"45m", "1h20m", "1 h 20 min", "1:20", "-5m", "1e9h", "9999h", "0", "", "NaN", "0.0001 h", "24 h"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := Spent(text)
		if err != nil && err.Error() == "" || err == nil && (d <= 0 || d > 24*time.Hour) {
			t.Errorf("%q: %v, %v", text, d, err)
		}
	})
}

// FuzzPick: whatever word is said, it names one thing or is answered with words.
func FuzzPick(f *testing.F) {
	for _, word := range []string{"hem", "HEM ", "side seams", "", "-", "ß", "sidse", "e", "\xff"} {
		f.Add(word, "hem", "side-seams")
	}
	f.Fuzz(func(t *testing.T, word, one, two string) {
		all := []Named{{one, "turn up the " + two}, {two, ""}, {"side-seams", "sew the side seams"}}
		i, err := Pick("step", word, all)
		if err == nil && all[i].Fit(word) == 0 || err != nil && err.Error() == "" {
			t.Errorf("%q: %d, %v", word, i, err)
		}
	})
}

// FuzzNote: a note that is written into a record is the same note when the
// record is read.
func FuzzNote(f *testing.F) {
	for _, note := range []string{"- pressed, then measured", "- one\n- two", "-x", "# no", "a: b", "'", "\"", "yes", "1e3", "~", "[", "{a", "> x", "| y", "? z", "*a", "&b", "!c", "%d", "@e", "`f",
		"a\n\n\nb", "  indented\nthen not", "tab\there", "trailing  \nspaces ", "---", "...", "a #b", "ends: ", "\\n", "é", "🧵", "- "} {
		f.Add(note)
	}
	dir := f.TempDir()
	for name, text := range map[string]string{"content/workroom.yaml": "name: Ferry House\n", "content/builds/coat/build.yaml": ""} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			f.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			f.Fatal(err)
		}
	}
	rec := amend.File{Folder: dir, Path: "content/builds/coat/build.yaml"}
	f.Fuzz(func(t *testing.T, note string) {
		head := "name: Coat\ngarment: coat\nstate: planned\nwork:\n  sew:\n"
		if len(note)%2 == 1 {
			head += "journal:\n  - {at: 2026-08-05 14:00, note: before}\n"
		}
		file := filepath.Join(dir, filepath.FromSlash(rec.Path))
		if err := os.WriteFile(file, []byte(head), 0o666); err != nil {
			t.Fatal(err)
		}
		e := Entry{At: time.Date(2026, 8, 5, 14, 10, 0, 0, time.UTC), Note: note}
		if e.Write(rec) != nil || strings.TrimSpace(note) == "" {
			return // not text, or nothing to note
		}
		room, _, err := record.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		defer room.Close()
		b, faults := room.ReadBuild(room.Builds[0])
		want := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(note)
		if len(b.Journal) == 0 || strings.TrimSpace(b.Journal[len(b.Journal)-1].Note.V) != strings.TrimSpace(want) {
			text, _ := os.ReadFile(file)
			t.Errorf("%q became\n%s\n%v", note, text, faults)
		}
	})
}
