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
	secrets, files, shown := 0, map[string]int{}, map[string]int{}
	for seed := from; seed < from+uint64(n); seed++ {
		other, _ := packSown(t, sown.Sowing{Room: seed, Salt: 1})
		packed, sownHere := packSown(t, sown.Sowing{Room: seed})
		secrets += len(sownHere)
		for _, code := range sown.Languages {
			files[code] += len(packed[code])
			for i, f := range packed[code] {
				name, _, _ := strings.Cut(f.name, ".")
				for _, s := range sown.Search(f.name, f.data, sownHere) {
					if slices.Contains(s.Sheets, name) {
						shown[code]++
						continue
					}
					t.Errorf("seed %d: %s in %s shows what was sown as %s: %v", seed, f.name, code, s.Place, s.Forms)
				}
				if !slices.Contains(open, name) && string(other[code][i].data) != string(f.data) {
					t.Errorf("seed %d: %s in %s is other where the secrets are", seed, f.name, code)
				}
			}
		}
		if (seed+1-from)%50 == 0 {
			t.Logf("%d workrooms so far", seed+1-from)
		}
	}
	for _, code := range sown.Languages {
		t.Logf("%s: %d workrooms, %d secrets, %d files, %d times shown where they may be", code, n, secrets, files[code], shown[code])
		if shown[code] < n*10 { // the sheets that may show them must have had them to show
			t.Errorf("secrets are shown only %d times in %s where they may be", shown[code], code)
		}
	}
}

// packSown packs a workroom in every language that its garment's words stand in.
func packSown(t *testing.T, s sown.Sowing) (map[string][]packFile, []sown.Secret) {
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
	out, again := map[string][]packFile{}, remakeFiles(room, tailor, cut, document.A4)
	for _, code := range sown.Languages {
		packet, err := sheet.Make(room, tailor, cut, cut.Garment.Faults, sheet.Options{For: readers, Language: code})
		if err != nil || packet.Refused() {
			t.Fatalf("seed %d: %v, %v", s.Room, err, packet.Findings)
		}
		files, err := packFiles(packet, paper.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if code == sown.Languages[0] {
			files = append(files, again...)
		}
		for _, f := range newPackProof(room, b, cut.Garment.Figures()).faults(packet, files) {
			t.Errorf("seed %d: the proof tells of %s", s.Room, f)
		}
		out[code] = files
	}
	return out, secrets
}
