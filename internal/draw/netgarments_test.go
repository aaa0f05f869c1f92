package draw

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"hembook/internal/derive"
	"hembook/internal/drawing"
	"hembook/internal/madeup"
	"hembook/internal/order"
	"hembook/internal/record"
)

// A netted is a garment whose nets are drawn.
type netted struct {
	name string
	*derive.Garment
	*order.Together
}

// nettedIn are the garments of a workroom.
func nettedIn(t testing.TB, name, dir string) []netted {
	t.Helper()
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	var out []netted
	for _, slug := range room.BuildSlugs() {
		bf, _ := room.BuildNamed(slug)
		b, _ := room.ReadBuild(bf)
		if b == nil {
			t.Fatalf("%s: %s cannot be read", name, bf.Slug)
		}
		g := tailor.Derive(b)
		if to := order.GoesTogether(g.Garment, g.Steps); to != nil {
			out = append(out, netted{name + "-" + bf.Slug, g, to})
		}
	}
	return out
}

// written is a folder with files in it.
func written(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	if err := madeup.Write(dir, files); err != nil {
		t.Fatal(err)
	}
	return dir
}

func archived(t testing.TB, file string) map[string]string {
	t.Helper()
	ar, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range ar.Files {
		out[f.Name] = string(f.Data)
	}
	return out
}

// nettedGarments are the garments whose nets are looked at: those of the demo, of other
// rooms' tests, and made-up ones.
func nettedGarments(t testing.TB, madeUp int) []netted {
	t.Helper()
	all := nettedIn(t, "demo", filepath.Join("..", ".."))
	all = append(all, nettedIn(t, "shirt", filepath.Join("..", "pattern", "testdata", "shirt"))...)
	archives, _ := filepath.Glob(filepath.Join("..", "..", "testdata", "newcomer", "*.txtar"))
	for _, file := range archives {
		all = append(all, nettedIn(t, strings.TrimSuffix(filepath.Base(file), ".txtar"), written(t, archived(t, file)))...)
	}
	const head = "name: Test\ngarment: dress\nstate: sewing\n"
	base := func() map[string]string {
		return map[string]string{
			"content/workroom.yaml":    "name: Test workroom\n",
			"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 1400\nselvedge: 10\n",
		}
	}
	quarry, files := filepath.Join("..", "derive", "testdata", "quarry-skirt"), base()
	for from, to := range map[string]string{"build.yaml": "builds/quarry/build.yaml", "skirt.svg": "builds/quarry/pattern/skirt.svg", "quarry-check.yaml": "cloth/quarry-check.yaml", "slate-lining.yaml": "cloth/slate-lining.yaml", "band-fusible.yaml": "cloth/band-fusible.yaml"} {
		text, err := os.ReadFile(filepath.Join(quarry, from))
		if err != nil {
			t.Fatal(err)
		}
		files["content/"+to] = string(text)
	}
	all = append(all, nettedIn(t, "skirt", written(t, files))...)
	all = append(all, nettedIn(t, "workings", filepath.Join("..", "workings", "testdata", "mm"))...)
	plates, _ := filepath.Glob(filepath.Join("..", "derive", "testdata", "plates", "*.txtar"))
	for _, file := range plates {
		files := base()
		for name, text := range archived(t, file) {
			if name == "build.yaml" {
				name, text = "builds/"+strings.TrimSuffix(filepath.Base(file), ".txtar")+"/build.yaml", head+text
			}
			files["content/"+name] = text
		}
		all = append(all, nettedIn(t, "plate", written(t, files))...)
	}
	for seed := range madeUp {
		w := madeup.Wish{Seed: uint64(seed), Size: 3 + seed%9}
		all = append(all, nettedIn(t, fmt.Sprint("made-up-", seed), written(t, w.Workroom()))...)
	}
	return all
}

// drawnNet is a net, a map or a step with what it is called.
type drawnNet struct {
	name string
	*drawing.Drawing
}

// drawnNets are all nets, maps and steps of a garment, as pages have them.
func (g *netted) drawnNets() []drawnNet {
	var out []drawnNet
	style := NetStyle{
		Wide: 168, High: 190, Seam: g.NumberOfSeam, Finish: g.NumberOfFinish, Left: "left", Right: "right",
		Behind: "these lie behind", Apart: "no seam joins these", ID: "net",
	}
	for _, layer := range g.Layers() {
		var levels []MapLevel
		for _, l := range g.Levels {
			if len(l.Girths) > 0 && l.Girths[0].Layer == layer {
				held := ""
				if l.Fast() && l.HeldBy != "" {
					held = "held by " + l.HeldBy
				}
				levels = append(levels, MapLevel{Words: l.Name + " + 20 mm", Held: l.Fast(), HeldBy: held, Girths: l.Girths})
			}
		}
		for i, n := range g.Nets(layer) {
			name := g.name + "-" + layer + "-" + fmt.Sprint(i)
			if d := Net(g.Together.Sewn, n, style); d != nil {
				out = append(out, drawnNet{name + "-net", d})
			}
			if d := NetMap(g.Together.Sewn, n, MapStyle{NetStyle: style, Spare: g.Spare, Levels: levels}); d != nil {
				out = append(out, drawnNet{name + "-map", d})
			}
			var numbers []int
			for _, k := range g.StepsThatSew() {
				numbers = append(numbers, k.Step)
			}
			small := style
			small.Wide, small.High = 74, 84
			for k, d := range NetSteps(g.Together.Sewn, n, numbers, StepsStyle{NetStyle: small, ID: "s", Words: func(step int) string { return fmt.Sprint("Step ", step) }, SeamStep: g.StepOfSeam, FinishStep: g.StepOfFinish}) {
				if d != nil {
					out = append(out, drawnNet{name + fmt.Sprintf("-step-%02d", numbers[k]), d})
				}
			}
		}
	}
	return out
}

// TestDrawNets writes the nets of all garments as SVG files into the folder that
// DRAW_NETS names, to be looked at; without it there is nothing to do.
func TestDrawNets(t *testing.T) {
	dir := os.Getenv("DRAW_NETS")
	if dir == "" {
		t.Skip("DRAW_NETS names no folder to draw into")
	}
	for _, g := range nettedGarments(t, 8) {
		for _, d := range g.drawnNets() {
			if err := os.WriteFile(filepath.Join(dir, d.name+".svg"), d.SVGFile(&drawing.Print), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
