package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestCardIsFolded: the card of a garment is two sides of one sheet lying on its side;
// outside stand the address to the right and whom to write to on the left, inside the
// maker's words and the care. No measure of the wearer stands on it.
func TestCardIsFolded(t *testing.T) {
	nothingBeside(t)
	needTools(t, "pdfinfo", "pdftotext")
	folder := packedDemo(t, "boatyard-trousers")
	card := filepath.Join(folder, "card.pdf")
	info, err := exec.Command("pdfinfo", card).Output()
	if err != nil || !bytes.Contains(info, []byte("841.89 x 595.28 pts")) {
		t.Fatalf("not A4 on its side: %v\n%s", err, info)
	}
	if n := len(filledPages(t, card)); n != 2 {
		t.Fatalf("%d sides", n)
	}
	half := func(page, left string) string {
		said, err := exec.Command("pdftotext", "-f", page, "-l", page, "-x", left, "-y", "0", "-W", "420", "-H", "596", "-r", "72", "-layout", card, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(string(said)), " ")
	}
	for _, c := range []struct{ page, left, says, not string }{
		{"1", "421", "Boatyard trousers for Leonie Askerwold", "Maud"},
		{"1", "0", "hand@ferry-house.example", "Leonie"},
		{"2", "0", "You mend boats six days of the week", "Wash at"},
		{"2", "421", "Wash at 40 °C at most", "You mend"},
	} {
		if said := half(c.page, c.left); !strings.Contains(said, c.says) || strings.Contains(said, c.not) {
			t.Errorf("side %s at %s says %q", c.page, c.left, said)
		}
	}
	html, err := os.ReadFile(filepath.Join(folder, "card.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, private := range []string{"75.5", "79.3", "420.00"} { // her waist, the garment's, the price
		if bytes.Contains(html, []byte(private)) {
			t.Errorf("the card shows %s", private)
		}
	}
}

// TestCardOfTooManyWords: what does not fit on the card is told, and nothing is written.
func TestCardOfTooManyWords(t *testing.T) {
	dir := sow(t)
	file := filepath.Join(dir, "content", "builds", "skirt", "build.yaml")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("I sewed it and sewed it and sewed it. ", 300)
	text = bytes.Replace(text, []byte("\npacket:\n"), []byte("\npacket:\n  card:\n    - "+long+"\n"), 1)
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none"}, &out, &errs)
	if code == exitFine || !strings.Contains(errs.String(), "shorten what the card says") {
		t.Errorf("exit status %d: %s", code, errs.String())
	}
	if _, err := os.Stat(filepath.Join(dir, "packed")); err == nil {
		t.Error("a packet was written")
	}
}
