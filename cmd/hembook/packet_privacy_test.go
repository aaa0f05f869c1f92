package main

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The secrets sown in every private place, with the sheets that declare them.
var sownSecrets = []struct {
	text   string
	sheets []string // that may show it; a bundle may show what its sheets may
}{
	{"SECRETmakerstreet", []string{"customs"}},
	{"SECRETmakerland", []string{"customs"}},
	{"SECRETname", []string{"wearer", "card", "care-and-fit", "customs"}},
	{"SECRETstreet", []string{"customs"}},
	{"SECRETland", []string{"customs"}},
	{"7993.61", []string{"customs"}},             // the value
	{"71.3", []string{"wearer", "care-and-fit"}}, // the waist, a level of the garment
	{"7 January 2026", []string{"wearer", "care-and-fit"}},
	{"SECRETmail", []string{"customs"}},
	{"SECRETnote", nil},
	{"SECRETtaker", nil},
	{"SECRETearlier", nil},
	{"99.7", nil},    // a hip that no level goes round
	{"177.7", nil},   // a height
	{"70.9", nil},    // an older waist
	{"7919.31", nil}, // the worth of an hour
	{"7927.37", nil}, // the price of cloth
	{"7933.41", nil}, // of thread
	{"7937.43", nil}, // of a notion
	{"7951.53", nil}, // postage
	{"7963.59", nil}, // other costs
	{"7987.67", nil}, // the price asked, where a value is written
	{"SECRETshop", nil},
	{"SECRETthing", nil},
	{"SECRETprivate", nil},
	{"SECRETroom", nil},
	{"SECRETremark", nil},
	{"robin-secret", nil},
}

// sow writes the secrets into the packet's base workroom.
func sow(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
	for _, f := range base.Files {
		text, name := string(f.Data), f.Name
		switch name {
		case "content/workroom.yaml":
			text = strings.NewReplacer("Mill Yard 2", "SECRETmakerstreet", "Ireland", "SECRETmakerland").Replace(text)
			text += "labour: 7919.31 EUR # SECRETremark\nprivate: {note: SECRETroom}\n"
		case "content/wearers/robin.yaml":
			name = "content/wearers/robin-secret.yaml"
			text = "name: SECRETname\nfor: {who: woman, height: 1777}\nlanguage: en\nunits: cm\naddress: SECRETstreet 4\ncountry: SECRETland\ncontact: SECRETmail\nnote: SECRETnote\ntaken: 2026-01-07\nby: SECRETtaker\n" +
				"body: {waist: 71.3, hip: 99.7, height: 177.7}\nearlier: [{day: 2025-01-05, by: SECRETearlier, body: {waist: 70.9}}]\n"
		case "content/cloth/green.yaml":
			text += "price: 7927.37 EUR\nfrom: SECRETshop\n"
		case "content/builds/skirt/build.yaml":
			text = strings.NewReplacer("wearer: robin", "wearer: robin-secret", "thread: {green: green}", "thread: {green: {colour: green, price: 7933.41 EUR}}",
				"mass: 12 g}", "mass: 12 g, price: 7937.43 EUR}", "120.00 EUR", "7993.61 EUR").Replace(text)
			text += "costs:\n  post: 7951.53 EUR\n  other: {SECRETthing: 7963.59 EUR}\n  price: 7987.67 EUR\nprivate: {anything: SECRETprivate}\n"
		}
		if err := writeNew(filepath.Join(dir, filepath.FromSlash(name)), []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// TestSheetsShowOnlyWhatTheyDeclare searches the HTML, the text of the PDFs and
// what stands beside it in them for every secret.
func TestSheetsShowOnlyWhatTheyDeclare(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	for _, tool := range []string{"pdftotext", "pdfinfo"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatal(err)
			}
			t.Skip(tool + " is not installed")
		}
	}
	dir := sow(t)
	var out, errs bytes.Buffer
	if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none"}, &out, &errs); code != exitFine {
		t.Fatalf("exit status %d: %s", code, errs.String())
	}
	folder := filepath.Join(dir, "packed", "skirt")
	var files []string
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			files = append(files, path)
		}
		return err
	})
	if err != nil || len(files) != 20+3 { // the record, its cloth and the workroom beside the sheets and the pattern
		t.Fatalf("%d files, %v: %v", len(files), err, files)
	}
	for _, path := range files {
		name := filepath.Base(path)
		sheet, ext, _ := strings.Cut(name, ".")
		text := readable(t, path, ext)
		for _, s := range sownSecrets {
			may := slices.Contains(s.sheets, sheet)
			has := strings.Contains(text, s.text)
			if has && !may {
				t.Errorf("%s shows %q", name, s.text)
			}
			if !has && may {
				t.Errorf("%s does not show %q, though it declares it", name, s.text)
			}
		}
	}
	for _, s := range sownSecrets { // the terminal quotes nothing private either
		if strings.Contains(errs.String()+out.String(), s.text) {
			t.Errorf("the terminal shows %q", s.text)
		}
	}
}

// readable is all text of a file: of a PDF what pdftotext and pdfinfo find, and
// the bytes themselves.
func readable(t *testing.T, path, ext string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), "\u00a0", " ")
	if ext != "pdf" {
		return text
	}
	for _, cmd := range [][]string{{"pdftotext", "-layout", path, "-"}, {"pdfinfo", path}} {
		found, err := exec.Command(cmd[0], cmd[1:]...).Output()
		if err != nil {
			t.Fatalf("%v: %v", cmd, err)
		}
		text += strings.ReplaceAll(string(found), "\u00a0", " ")
	}
	return text
}
