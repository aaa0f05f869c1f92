package main

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/madeup"
	"hembook/internal/madeup/sown"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// TestNothingSownIsPacked packs workrooms with a secret in every private place,
// all sheets and all forms of them. What a sheet was not opened for may not
// stand on it, whatever the proof says; the proof, which is asked too, finds
// nothing. And the sheets that show nothing private are byte for byte the same
// where the secrets are others. HEMBOOK_SOWN says how many workrooms,
// HEMBOOK_SOWN_FIRST from which seed on.
func TestNothingSownIsPacked(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	n, from := 4, uint64(0)
	if seed, err := strconv.ParseUint(os.Getenv("HEMBOOK_SOWN_FIRST"), 10, 64); err == nil {
		from = seed
	}
	if many, err := strconv.Atoi(os.Getenv("HEMBOOK_SOWN")); err == nil {
		n = many
	}
	open := []string{"agree", "measure", "mock-up", "fit", "labels", "after", "wearer", "card", "care-and-fit", "customs"} // the sheets that show what is private
	files, secrets, shown := 0, 0, 0
	for seed := from; seed < from+uint64(n); seed++ {
		all, sownHere := packSown(t, sown.Sowing{Room: seed})
		other, _ := packSown(t, sown.Sowing{Room: seed, Salt: 1})
		files, secrets = files+len(all), secrets+len(sownHere)
		for i, f := range all {
			name, _, _ := strings.Cut(f.name, ".")
			for _, s := range sown.Search(f.name, f.data, sownHere) {
				if slices.Contains(s.Sheets, name) {
					shown++
					continue
				}
				t.Errorf("seed %d: %s shows what was sown as %s: %v", seed, f.name, s.Place, s.Forms)
			}
			if !slices.Contains(open, name) && string(other[i].data) != string(f.data) {
				t.Errorf("seed %d: %s is other where the secrets are", seed, f.name)
			}
		}
		if (seed+1-from)%50 == 0 {
			t.Logf("%d workrooms so far", seed+1-from)
		}
	}
	t.Logf("%d workrooms, %d secrets, %d files, %d times shown where they may be", n, secrets, files, shown)
	if shown < n*10 { // the sheets that may show them must have had them to show
		t.Errorf("secrets are shown only %d times where they may be", shown)
	}
}

func packSown(t *testing.T, s sown.Sowing) ([]packFile, []sown.Secret) {
	t.Helper()
	text, secrets := s.Workroom()
	dir := t.TempDir()
	if err := madeup.Write(dir, text); err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	b, _ := room.ReadBuild(room.Builds[0])
	tailor, _ := derive.NewTailor(room)
	cut := cutting.NewCutter(t.Context(), room, tailor, cutting.Options{Mode: cutting.None}).Cut(b)
	readers := sheet.ReaderNames()
	if cut.Rounds == nil { // nothing to agree to
		readers = slices.DeleteFunc(readers, func(name string) bool { return name == string(sheet.Asked) })
	}
	packet, err := sheet.Make(room, tailor, cut, cut.Garment.Faults, sheet.Options{For: readers})
	if err != nil || packet.Refused() {
		t.Fatalf("seed %d: %v, %v", s.Room, err, packet.Findings)
	}
	files, err := packFiles(packet, paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	files = append(files, remakeFiles(room, tailor, cut, document.A4)...)
	for _, f := range newPackProof(room, b, cut.Garment.Figures()).faults(packet, files) {
		t.Errorf("seed %d: the proof tells of %s", s.Room, f)
	}
	return files, secrets
}
