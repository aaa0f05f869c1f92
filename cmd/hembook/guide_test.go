package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestGuidesRecord: the record that the guide gives to begin from, copied as
// it stands, has nothing to mend.
func TestGuidesRecord(t *testing.T) {
	guide := contents(t, "../../content/pages/guide.md")
	_, section, _ := strings.Cut(guide, "\n## A whole small record\n")
	_, block, found := strings.Cut(section, "\n~~~yaml\n")
	text, _, closed := strings.Cut(block, "\n~~~\n")
	if !found || !closed || !strings.Contains(text, "name: First skirt") {
		t.Fatal("the guide has no whole record")
	}
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	write(t, dir, "content/builds/first-skirt/build.yaml", text+"\n")
	if code, out, errs := hembook(dir, "check"); code != 0 || strings.Contains(out+errs, "first-skirt") {
		t.Errorf("check exits %d:\n%s%s", code, out, errs)
	}
	if code, out, errs := hembook(dir, "tally", "first-skirt", "all"); code != 0 || !strings.Contains(out, "waistband") {
		t.Errorf("tally exits %d:\n%s%s", code, out, errs)
	}
}
