package pattern

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/document"
)

// TestCardsOnOnePage: ten cards, numbered, on one page of either paper.
func TestCardsOnOnePage(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		pdf, err := Cards(size, "a workroom")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := exec.LookPath("pdftotext"); err != nil {
			t.Skip("pdftotext is not installed")
		}
		file := filepath.Join(t.TempDir(), "cards.pdf")
		if err := os.WriteFile(file, pdf, 0o600); err != nil {
			t.Fatal(err)
		}
		text, err := exec.Command("pdftotext", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(text), "50 mm"); n != 10 {
			t.Errorf("%d lines of 50 mm on paper %v", n, size)
		}
		if pages := strings.Count(string(text), "\f"); pages != 1 {
			t.Errorf("%d pages on paper %v", pages, size)
		}
	}
}
