package press

import (
	"maps"
	"os"
	"path"
	"path/filepath"
	"testing"
	"testing/fstest"

	"hembook/themes"
)

// FuzzMarker: whatever stands in the marker of a notebook, it is a list of
// files below the folder, which reads the same when it is written again, or
// none at all.
func FuzzMarker(f *testing.F) {
	for _, names := range [][]string{{"index.html"}, {"a/b.html", "c"}, {"../x"}, {"."}, {"a/../b"}, {"/etc/passwd"}, {"a//b"}, {"con"}, {}} {
		body := markerText + listText
		for _, n := range names {
			body += "0000002a 7 " + n + "\n"
		}
		f.Add([]byte(body + listEnd))
		f.Add([]byte(body))
	}
	f.Add([]byte(markerText + listText + "zz -7 a\n" + listEnd))
	f.Add([]byte(markerText + listText + "00000000 -7 a\n" + listEnd))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, text []byte) {
		if err := os.WriteFile(filepath.Join(dir, markerName), text, 0o644); err != nil {
			t.Fatal(err)
		}
		l, listed := readList(dir)
		if !listed {
			if l != nil {
				t.Errorf("no list, and %d files", len(l))
			}
			return
		}
		for name, m := range l {
			if n := string(name); n == "." || path.Clean(n) != n || !filepath.IsLocal(filepath.FromSlash(n)) || m.size < 0 {
				t.Errorf("it lists %q of %d bytes", name, m.size)
			}
		}
		if err := os.WriteFile(filepath.Join(dir, markerName), markerWith(l, l.names()), 0o644); err != nil {
			t.Fatal(err)
		}
		if again, listed := readList(dir); !listed || !maps.Equal(again, l) {
			t.Errorf("%v, then %v", l, again)
		}
	})
}

// FuzzTheme: whatever a workroom lays over the files of a theme, it is loaded
// or refused in words.
func FuzzTheme(f *testing.F) {
	own := themes.Plainweave()
	f.Add("frame.html", []byte(`{{define "page"}}{{end}}{{template "nothing"}}`))
	f.Add("pages/build.html", []byte(`{{range`))
	f.Add("look/own.css", []byte(`a{b:c}/*`))
	f.Add("script/own.js", []byte("let a = `${"))
	f.Add("script/search-9.js", []byte("/[/"))
	f.Add("type/own.woff2", []byte{0})
	f.Add("look/icon.svg", []byte("<svg"))
	f.Fuzz(func(t *testing.T, name string, text []byte) {
		if name == "" || !filepath.IsLocal(name) || len(text) > 1<<16 {
			t.Skip("no name of a file, or slow")
		}
		theme, err := LoadTheme(own, fstest.MapFS{name: {Data: text}})
		if err != nil && err.Error() == "" || err == nil && theme == nil {
			t.Errorf("%q: %v, %v", name, theme, err)
		}
	})
}
