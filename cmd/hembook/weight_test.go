package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// mostWeight is what a first visit to a page may cost in bytes, uncompressed:
// the page, its style sheet, its scripts and its fonts. Photographs are aside.
const mostWeight = 60_000

// mostListed is what a page of the list of garments may weigh: sixty cards stand on it,
// among which one can choose without asking for another page.
const mostListed = 100_000

// mostSent is what a first visit to a page of a garment may cost as servers send it,
// compressed. What stands on one keeps its address, so no page is parted by its weight.
const mostSent = 100_000

var assetPattern = regexp.MustCompile(`<(?:link rel="stylesheet" href|script defer src)="([^"]+)"`)

// TestPagesAreLight weighs every page of the demo workroom, and of one with
// builds larger than anyone's.
func TestPagesAreLight(t *testing.T) {
	nothingBeside(t)
	big := t.TempDir()
	writeHeavy(t, big)
	for _, dir := range []string{pressedDemo(t), pressed(t, big)} {
		for _, p := range pages(t, dir) {
			name, _ := filepath.Rel(dir, p)
			most, weigh := mostWeight, func(data []byte) int { return len(data) }
			switch {
			case name == "builds/index.html" || strings.HasPrefix(name, "builds/all/"):
				most = mostListed
			case name == "glossary.html" || name == "pages/words.html":
				weigh = sent // lists to look words up in
			case strings.HasPrefix(name, "builds/"), strings.HasPrefix(name, "records/"):
				most, weigh = mostSent, sent
			}
			if weight := firstVisit(t, p, weigh); weight > most && name != "search.html" {
				t.Errorf("%s weighs %d bytes on a first visit, more than %d", name, weight, most)
			}
		}
	}
}

// sent is what data weighs as servers send it.
func sent(data []byte) int {
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	w.Write(data)
	w.Close()
	return out.Len()
}

// firstVisit is what a page and all it loads weigh, pictures aside.
func firstVisit(t *testing.T, file string, weigh func([]byte) int) int {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	sum, styles := weigh(text), 0
	for _, m := range assetPattern.FindAllStringSubmatch(string(text), -1) {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(file), filepath.FromSlash(m[1])))
		if err != nil {
			t.Fatal(err)
		}
		sum += weigh(data)
		if path.Ext(m[1]) == ".css" {
			styles++
			for _, f := range regexp.MustCompile(`url\(["']?(\.\./type/[^"')]+)`).FindAllStringSubmatch(string(data), -1) {
				font, err := os.ReadFile(filepath.Join(filepath.Dir(file), filepath.Dir(m[1]), f[1]))
				if err != nil {
					t.Fatal(err)
				}
				sum += weigh(font)
			}
		}
	}
	if styles != 1 {
		t.Errorf("%s has %d style sheets; its first paint must need one", file, styles)
	}
	return sum
}

// writeHeavy writes a workroom whose build has sixty pieces, a hundred seams,
// two hundred steps and three hundred lines of journal.
func writeHeavy(t *testing.T, dir string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("name: Heavy coat\nsummary: Larger than any.\ngarment: coat\nstate: sewing\nbegun: 2026-03-04\nthread: {black: black}\npieces:\n")
	for i := range 60 {
		b.WriteString(strings.ReplaceAll(`  panel N:
    outline:
      from: [0, 0]
      waist: {to: [236, 0], level: waist}
      side: [236, 208]
      armhole: {to: [198, 372], curve: [[196, 236], [190, 320]]}
      shoulder: [92, 408]
      neck: {to: [0, 390], curve: [[80, 370], [40, 380]]}
      centre: [0, 0]
`, "N", strconv.Itoa(i)))
	}
	b.WriteString("seams:\n")
	for i := 0; i < 60; i += 2 {
		for _, edge := range []string{"side", "shoulder", "armhole"} {
			b.WriteString(strings.NewReplacer("N", strconv.Itoa(i), "M", strconv.Itoa(i+1), "E", edge).Replace("  E N: {join: [panel N.E, panel M.E], type: plain}\n"))
		}
	}
	b.WriteString("work:\n")
	for i := range 200 {
		b.WriteString(strings.ReplaceAll("  a step of the work that is long to say N: {takes: 30 min, stage: sewing", "N", strconv.Itoa(i)))
		if i > 0 {
			b.WriteString(", after: [a step of the work that is long to say " + strconv.Itoa(i-1) + "]")
		}
		b.WriteString("}\n")
	}
	b.WriteString("journal:\n")
	for i := range 300 {
		b.WriteString("  - {at: 2026-0" + strconv.Itoa(1+i/60%6) + "-" + strconv.Itoa(10+i%18) + ", note: \"number " + strconv.Itoa(i) + ": the collar sits, and the sleeve was set in a second time, a little further back\"}\n")
	}
	write(t, dir, "content/workroom.yaml", "name: Heavy room\nmaker: {name: Somebody}\nshow: mm and in\n")
	write(t, dir, "content/builds/heavy-coat/build.yaml", b.String())
}
