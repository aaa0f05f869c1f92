package derive

import (
	"fmt"
	"strings"
	"testing"

	"hembook/internal/garment"
)

// What a seam says of the machine holds before what its step says, and that before
// what its thread says, word by word; a step that sews nothing by its name has its own.
func TestMachineIsSetWordByWord(t *testing.T) {
	for _, c := range []struct{ thread, sides, hem, step, want string }{
		{"", "", "", "", ""},
		{", needle: 80, stitch-length: 2.5", "", "", "", "white: sides, hem, waist edge, darts, pleats = 80 2.5"},
		{", needle: 80, stitch-length: 2.5", ", foot: walking foot", "", "",
			"white: sides = 80 2.5 walking foot; white: hem, waist edge, darts, pleats = 80 2.5"},
		{", needle: 80, stitch-length: 2.5", ", needle: 70", ", needle: 70", ", stitch-length: 3",
			"white: sides = 70 2.5; white: hem = 70 3; white: waist edge = 80 3; white: darts, pleats = 80 2.5"},
		{"", "", ", tension: 4", "", "white: hem = 4"},
		{"", "", "", ", foot: roller", "white: hem, waist edge = roller"},
	} {
		text := strings.NewReplacer(
			", needle: 90, stitch-length: 2.5", c.thread,
			"trim: 3}", "trim: 3"+c.sides+"}",
			"hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 10", "hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 10"+c.hem,
			"sews: [hem, waist edge]", "sews: [hem, waist edge]"+c.step,
		).Replace(stitchedBodice)
		room := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nthick: 0.5\n").
			file("content/cloth/web.yaml", "name: Web\nfibres: {polyamide: 100}\nwidth: 900\nthick: 0.2\n")
		if got := machineWords(deriveClean(t, room, text).Machine); got != c.want {
			t.Errorf("thread %q, sides %q, hem %q, step %q:\n got %s\nwant %s", c.thread, c.sides, c.hem, c.step, got, c.want)
		}
	}
}

func machineWords(sets []garment.MachineSet) string {
	var out []string
	for _, m := range sets {
		said := []string{m.Needle}
		if m.StitchLength != 0 {
			said = append(said, fmt.Sprint(m.StitchLength.MM()))
		}
		said = append(said, m.Tension, m.Foot)
		out = append(out, m.Thread+": "+setFor(&m)+" = "+strings.Join(strings.Fields(strings.Join(said, " ")), " "))
	}
	return strings.Join(out, "; ")
}

// setFor are the names of what a machine is set for, rows beside a seam with what they are.
func setFor(m *garment.MachineSet) string {
	var out []string
	for _, of := range m.For {
		out = append(out, strings.TrimSpace(of.Name+" "+of.Beside))
	}
	return strings.Join(out, ", ")
}
