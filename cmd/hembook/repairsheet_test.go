package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestRoomToLetOutTellsBothWays: the table at the head of the sheet for repairs says what
// the map below it says: nothing at the trousers' hip as it is sewn, 3.6 cm as plain
// seams (36 mm, two sides of two copies at 9 each), and what holds the waist.
func TestRoomToLetOutTellsBothWays(t *testing.T) {
	nothingBeside(t)
	folder, _ := packDemo(t, "boatyard-trousers", "--for", "repairer")
	page, err := os.ReadFile(filepath.Join(folder, "repairs.html"))
	if err != nil {
		t.Fatal(err)
	}
	text := string(page)
	_, text, _ = strings.Cut(text, "Room to let out")
	text, _, _ = strings.Cut(text, "</table>")
	rows := map[string]string{}
	for _, row := range regexp.MustCompile(`(?s)<tr>.*?</tr>`).FindAllString(text, -1) {
		words := strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(row, " ")), " ")
		name, rest, _ := strings.Cut(words, " ")
		rows[name] = strings.ReplaceAll(rest, "\u00a0", " ")
	}
	if got := rows["Hip"]; !strings.Contains(got, " 0 cm") || !strings.Contains(got, "3.6 cm") {
		t.Errorf("hip: %q", got)
	}
	if got := rows["Waist"]; !strings.HasSuffix(got, "waistband") {
		t.Errorf("waist: %q", got)
	}
}
