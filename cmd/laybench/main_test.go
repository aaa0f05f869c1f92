package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// four squares and a bar on a strip 20 wide: 400 + 100 of area, 25 long at best
const sample = `{"name": "sample", "strip_width": 20, "total_area": 500,
 "best_known": {"density_percent": 100},
 "items": [
  {"id": "s", "quantity": 4, "rotations": [0], "points": [[0,0],[10,0],[10,10],[0,10]]},
  {"id": 7, "quantity": 1, "rotations": [0, 90], "points": [[3,3],[23,3],[23,8],[3,8]]}]}`

func sampleFile(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "sample.json")
	if err := os.WriteFile(name, []byte(sample), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestLayFile(t *testing.T) {
	name := sampleFile(t)
	dir := filepath.Dir(name)
	f := &flags{json: filepath.Join(dir, "lay.out"), svg: filepath.Join(dir, "lay.svg")}
	f.opt.Tries, f.opt.Seed = 50_000, 1
	var out bytes.Buffer
	if err := run(f, []string{name}, &out); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Length, Density float64
		Placements      []struct {
			Item     any
			Rotation float64
			X, Y     float64
		}
	}
	data, err := os.ReadFile(f.json)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.Length-25) > 1e-6 || math.Abs(got.Density-100) > 1e-4 || len(got.Placements) != 5 {
		t.Errorf("length %g, density %g, %d pieces", got.Length, got.Density, len(got.Placements))
	}
	if got.Placements[0].Item != "s" || got.Placements[4].Item != 7.0 {
		t.Errorf("items %v and %v keep their ids", got.Placements[0].Item, got.Placements[4].Item)
	}
	if !strings.Contains(out.String(), "1.0000") {
		t.Errorf("the table lacks the ratio:\n%s", out.String())
	}
	svg, err := os.ReadFile(f.svg)
	if n := bytes.Count(svg, []byte("<path")); err != nil || n != 6 {
		t.Errorf("the drawing has %d outlines, want the cloth and 5 pieces; %v", n, err)
	}
}

func TestSameBytesTwice(t *testing.T) {
	name := sampleFile(t)
	var files [2][]byte
	for k := range files {
		f := &flags{svg: filepath.Join(filepath.Dir(name), "a.svg")}
		f.opt.Tries, f.opt.Seed, f.opt.Cores = 20_000, 5, k+1
		if err := run(f, []string{name}, &bytes.Buffer{}); err != nil {
			t.Fatal(err)
		}
		files[k], _ = os.ReadFile(f.svg)
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("two runs draw different lays")
	}
}

func TestWholeFolder(t *testing.T) {
	f := &flags{all: filepath.Dir(sampleFile(t))}
	f.opt.Tries = 5_000
	var out bytes.Buffer
	if err := run(f, nil, &out); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(out.String(), "\n"); n != 2 {
		t.Errorf("%d lines, want a heading and one instance", n)
	}
}

func TestUnreadable(t *testing.T) {
	name := filepath.Join(t.TempDir(), "x.json")
	os.WriteFile(name, []byte("{"), 0o644)
	for _, args := range [][]string{nil, {name}, {name + "no"}} {
		if err := run(&flags{}, args, &bytes.Buffer{}); err == nil {
			t.Errorf("no complaint about %v", args)
		}
	}
}

// TestCurved: a parabola that begins 3 before a square corner and ends 3 after it cuts off
// a sixth of 3 × 3. With arcs of many points a square of 10 is 100 − 4 × 1.5 large.
func TestCurved(t *testing.T) {
	name := sampleFile(t)
	dir := filepath.Dir(name)
	f := &flags{curved: 40, json: filepath.Join(dir, "lay.out"), laid: filepath.Join(dir, "laid.out")}
	f.opt.Tries = 20_000
	if err := run(f, []string{name}, &bytes.Buffer{}); err != nil {
		t.Fatal(err)
	}
	in, err := readInstance(f.laid)
	if err != nil {
		t.Fatal(err)
	}
	if got := areaOf(in.Items[0].Points); len(in.Items[0].Points) != 160 || math.Abs(got-94) > 0.01 {
		t.Errorf("a square of %d points and %g", len(in.Items[0].Points), got)
	}
	if want := 4*94 + 100 - 4*6.0*1.5/6; math.Abs(in.TotalArea-want) > 0.05 {
		t.Errorf("all of it is %g, want %g", in.TotalArea, want)
	}
	if f.curved = 1; run(f, []string{name}, &bytes.Buffer{}) == nil {
		t.Error("arcs of one point are drawn")
	}
}
