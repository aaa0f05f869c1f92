package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// packedSkirt packs the skirt of an archive and reads its sheets by their names.
func packedSkirt(t *testing.T, a *txtar.Archive) (read func(sheet string) string) {
	t.Helper()
	dir := writtenOut(t, a)
	var out, errs bytes.Buffer
	if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none", "--to", filepath.Join(dir, "out")}, &out, &errs); code != exitFine {
		t.Fatal(code, errs.String())
	}
	return func(sheet string) string {
		t.Helper()
		return contents(t, filepath.Join(dir, "out", sheet+".html"))
	}
}

// swapped is an archive with one text of one of its files in place of another.
func swapped(t *testing.T, a *txtar.Archive, file, was, now string) {
	t.Helper()
	for i := range a.Files {
		if f := &a.Files[i]; f.Name == file {
			if !bytes.Contains(f.Data, []byte(was)) {
				t.Fatalf("%s has no %q", file, was)
			}
			f.Data = bytes.Replace(f.Data, []byte(was), []byte(now), 1)
			return
		}
	}
	t.Fatalf("there is no %s", file)
}

// TestRulesFollowTheWearer: the fibres are stated by the rules of the country where the
// garment is worn, and by the workroom's too where those are others; whoever mends it
// does not learn where it went. A label in the United States names the maker and where it
// was made (15 U.S.C. 70b(b)(3) to (5)).
func TestRulesFollowTheWearer(t *testing.T) {
	t.Parallel()
	const (
		union = "By the rules of the European Union: "
	)
	for _, c := range []struct {
		rules, country string
		want, not      []string
	}{
		{"EU", "Norway", []string{"100% cotton", "Regulation (EU) No 1007/2011"}, []string{"By the rules", "70b"}},
		{"EU", "United States", []string{"By the rules of the United States: Outer fabric: 100% cotton. Ada Quill. Made in Ireland.", "By the rules of the European Union: Outer fabric: 100% cotton.", "Machine wash warm", "15 U.S.C. 70b"}, nil},
		{"", "United States", []string{"By the rules of the United States: Outer fabric: 100% cotton. Ada Quill. Made in Ireland."}, []string{union}},
		{"US", "Germany", []string{"By the rules of the United States: Outer fabric: 100% cotton. Ada Quill. Made in Ireland.", "Regulation (EU) No 1007/2011"}, []string{union}},
		{"US", "United States", []string{"Made in Ireland."}, []string{union}},
	} {
		a := readArchive(t, filepath.Join(packetDir, "base.txtar"))
		rules := ""
		if c.rules != "" {
			rules = "rules: " + c.rules + "\n"
		}
		swapped(t, a, "content/workroom.yaml", "rules: EU\n", rules)
		swapped(t, a, "content/wearers/robin.yaml", "country: Norway", "country: "+c.country)
		read := packedSkirt(t, a)
		page := read("care-and-fit")
		for _, w := range c.want {
			if !strings.Contains(page, w) {
				t.Errorf("%s rules, worn in %s: no %q", c.rules, c.country, w)
			}
		}
		for _, w := range c.not {
			if strings.Contains(page, w) {
				t.Errorf("%s rules, worn in %s: there is %q", c.rules, c.country, w)
			}
		}
		for _, name := range []string{"repairs", "remake"} {
			if text := read(name); strings.Contains(text, c.country) || c.rules == "EU" && strings.Contains(text, "spandex") {
				t.Errorf("%s says where it went", name)
			}
		}
	}
}
