package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/tabletop"
)

// tracedRoom is a workroom with one garment, and a photograph of a paper bodice beside it.
func tracedRoom(t *testing.T) (dir, photo string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range map[string]string{
		"content/workroom.yaml":          "name: A room\n",
		"content/builds/top/build.yaml":  "name: Top # a remark\ngarment: blouse\nstate: planned\n\npieces:\n  cuff:\n    rectangle: [200, 60]\n",
		"content/builds/none/build.yaml": "name: None\ngarment: blouse\nstate: planned\n",
	} {
		file := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	photo = filepath.Join(dir, "bodice.jpg")
	if err := os.WriteFile(photo, bodice().Photograph(), 0o666); err != nil {
		t.Fatal(err)
	}
	return dir, photo
}

// bodice is a paper bodice on a dark table, eight cards round it, seen nearly from above.
func bodice() *tabletop.Scene {
	s := &tabletop.Scene{Piece: tabletop.Ring(tabletop.Bodice()), Paper: tabletop.Colour{0.7, 0.7, 0.66}, Table: tabletop.Colour{0.1, 0.07, 0.05},
		Wide: 1600, High: 1600, Tilt: 0.15, From: 1, F: 0.9, Blur: 0.6, Noise: 1.5, Quality: 92, Seed: 3}
	for i, at := range [][2]float64{{-80, -60}, {130, -70}, {330, -50}, {350, 230}, {330, 500}, {120, 520}, {-80, 500}, {-90, 220}} {
		s.Cards = append(s.Cards, tabletop.Placed{Number: i + 1, X: at[0], Y: at[1], Turn: float64(i)})
	}
	return s
}

// TestTrace: a photograph becomes a pattern file and a piece of the record, whose edges
// are as long as those of the paper; nothing else of the record changes, and nothing is
// written over.
func TestTrace(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	dir, photo := tracedRoom(t)
	read := func(name string) string {
		text, err := os.ReadFile(filepath.Join(dir, "content/builds/top", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	before := read("build.yaml")
	seen := filepath.Join(dir, "seen.png")
	code, out, errs := hembook(dir, "trace", photo, "--into", "top#front", "--edges", "waist, side, armhole, shoulder, neck, centre: fold", "--picture", seen)
	if code != exitFine {
		t.Fatalf("exit status %d: %s%s", code, out, errs)
	}
	after := read("build.yaml")
	if want := before + "  front:\n    outline: pattern/front.svg#front\n"; after != want {
		t.Errorf("the record is\n%s\nnot\n%s", after, want)
	}
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	file, _ := room.BuildNamed("top")
	b, faults := room.ReadBuild(file)
	if fault.HasErrors(faults) {
		t.Fatalf("the record is wrong: %v", faults)
	}
	truth := tabletop.Bodice()
	for _, p := range tailor.Derive(b).Pieces {
		if p.Name != "front" {
			continue
		}
		for _, s := range truth.Sides() {
			got, ok := p.Outline.LengthOf(s.Name)
			if !ok || math.Abs(got-s.Length) > max(0.3, 0.0015*s.Length) {
				t.Errorf("%s is %.2f mm long, not %.2f", s.Name, got, s.Length)
			}
		}
		if e, ok := p.Outline.Side("centre"); !ok || !e.Fold {
			t.Error("the centre is not on the fold")
		}
	}
	if data, err := os.ReadFile(seen); err != nil || !strings.HasPrefix(string(data), "\x89PNG") {
		t.Errorf("no picture of what was seen: %v", err)
	}
	drawn := read("pattern/front.svg")
	code, out, errs = hembook(dir, "trace", "--into", "top#front", "--move", "3: 1 right, 0.5 up")
	if code != exitFine || strings.Count(out, "→") != 2 || !strings.Contains(out, "armhole  ") || !strings.Contains(out, "side  ") || read("pattern/front.svg") == drawn {
		t.Errorf("a corner is moved: exit status %d: %s%s", code, out, errs)
	}
	if code, out, errs = hembook(dir, "trace", "--into", "top#front", "--move", "3: 1 left, 0.5 down"); code != exitFine || read("pattern/front.svg") != drawn {
		t.Errorf("and back: exit status %d: %s%s", code, out, errs)
	}
	for _, wrong := range [][]string{{"--move", "9: 1 up"}, {"--move", "3: up"}, {"--move", "3: 31 up"}, {photo, "--move", "3: 1 up"}} {
		if code, out, errs := hembook(dir, append([]string{"trace", "--into", "top#front"}, wrong...)...); code == exitFine || out != "" || strings.Count(errs, "\n") < 1 || read("pattern/front.svg") != drawn {
			t.Errorf("%v: exit status %d: %s%s", wrong, code, out, errs)
		}
	}
	for _, again := range [][]string{{"--into", "top#front"}, {"--into", "top#cuff"}, {"--into", "top#back", "--edges", "one, two"}, {"--into", "top#back", "--far", "1 to 5: 300 mm"}, {"--into", "top#back", "--far", "1 to 9: 700 mm"}, {"--into", "top"}} {
		code, out, errs := hembook(dir, append([]string{"trace", photo}, again...)...)
		if code == exitFine || out != "" || strings.Count(errs, "\n") < 1 {
			t.Errorf("%v: exit status %d: %s%s", again, code, out, errs)
		}
		t.Logf("%v: %s", again, errs)
	}
	if read("build.yaml") != after {
		t.Error("what was refused changed the record")
	}
	if _, err := os.Stat(filepath.Join(dir, "content/builds/top/pattern/back.svg")); err == nil {
		t.Error("what was refused left a file")
	}
}

// TestTraceAltered: the side of the paper let out by 8 mm at the armhole, photographed
// again, becomes a round of fitting in which the piece is as the paper is now; a second time
// nothing is written.
func TestTraceAltered(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	dir, photo := tracedRoom(t)
	rec := filepath.Join(dir, "content/builds/top/build.yaml")
	if code, _, errs := hembook(dir, "trace", photo, "--into", "top#front", "--edges", "waist, side, armhole, shoulder, neck, centre: fold"); code != exitFine {
		t.Fatal(errs)
	}
	before, err := os.ReadFile(rec)
	if err != nil {
		t.Fatal(err)
	}
	let, err := tabletop.Bodice().EndsMoved(1, 1, 0, 8)
	if err != nil {
		t.Fatal(err)
	}
	s := bodice()
	s.Piece, s.Seed = tabletop.Ring(let), 5
	again := filepath.Join(dir, "again.jpg")
	if err := os.WriteFile(again, s.Photograph(), 0o666); err != nil {
		t.Fatal(err)
	}
	code, out, errs := hembook(dir, "trace", again, "--altered", "top#front", "--saw", "tight under the arm")
	if code != exitFine || !strings.Contains(out, "side: moved by up to") {
		t.Fatalf("exit status %d: %s%s", code, out, errs)
	}
	after, err := os.ReadFile(rec)
	if err != nil {
		t.Fatal(err)
	}
	round := strings.TrimPrefix(string(after), string(before))
	if len(round) == len(after) || !strings.Contains(round, "saw: tight under the arm") || !strings.Contains(round, "front.side: {end: 8}") {
		t.Errorf("the round is written as %s", round)
	}
	t.Log(out, round)
	if code, out, _ := hembook(dir, "trace", again, "--altered", "top#front"); code == exitFine {
		t.Errorf("the same paper again: %s", out)
	}
	for _, wrong := range [][]string{{"--altered", "top#cuff"}, {"--altered", "top#sleeve"}, {"--altered", "top#front", "--into", "top#front"}, {"--altered", "top#front", "--edges", "hem"}} {
		if code, _, errs := hembook(dir, append([]string{"trace", again}, wrong...)...); code == exitFine || strings.Count(errs, "\n") < 1 {
			t.Errorf("%v: exit status %d: %s", wrong, code, errs)
		}
	}
	if now, _ := os.ReadFile(rec); string(now) != string(after) {
		t.Error("what was refused changed the record")
	}
}

// TestTraceWithoutARecordToWrite: where the record cannot be written, the pattern file is
// taken away again.
func TestTraceWithoutARecordToWrite(t *testing.T) {
	dir := t.TempDir()
	home := paperpiece.Home{File: record.BuildFile{Path: "content/builds/top/build.yaml"}, Piece: "front"}
	folder := filepath.Join(dir, "content/builds/top/pattern")
	if err := os.MkdirAll(folder, 0o777); err != nil {
		t.Fatal(err)
	}
	rec := filepath.Join(dir, home.File.Path)
	for text, stays := range map[string]bool{"name: Top\n": false, "pieces: {front: {outline: pattern/front.svg#front}}\n": true} {
		for _, file := range []struct{ name, text string }{{rec, text}, {filepath.Join(folder, "front.svg"), "<svg/>"}} {
			if err := os.WriteFile(file.name, []byte(file.text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		if !endErrand(dir, "outline content/builds/top/pattern/front.svg\t"+home.File.Path, os.Stderr) {
			t.Error("the errand does not end")
		}
		if _, err := os.Stat(filepath.Join(folder, "front.svg")); (err == nil) != stays {
			t.Errorf("record %q: the pattern file is there: %v", text, err == nil)
		}
	}
}
