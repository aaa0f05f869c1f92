package derive

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/garment"
)

// TestPlates holds whole garments against what was worked out by hand. A plate is an
// archive: what it shows stands on top, then the record, files of the workroom where it
// needs more than linen, and in "by hand" lines of
//
//	FIGURE = VALUE   the sum
//	plies of SEAM = N N …   what each row of it passes
//	openings = WORDS
//	loose = WORDS
//	told = WORDS   each fault, in its order
//
// A figure is as near as its value is written: half of the last digit.
func TestPlates(t *testing.T) {
	files, err := filepath.Glob("testdata/plates/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("there are no plates: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			ar, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			room := roomWith(t)
			var build, byHand string
			for _, f := range ar.Files {
				switch f.Name {
				case "build.yaml":
					build = string(f.Data)
				case "by hand":
					byHand = string(f.Data)
				default:
					room.file("content/"+f.Name, string(f.Data))
				}
			}
			d := room.desk()
			g, faults := d.derive(t, head+build)
			told := []string{}
			for _, f := range append(faults, g.Faults...) {
				told = append(told, f.Message)
			}
			wanted := []string{}
			for line := range strings.Lines(byHand) {
				what, want, ok := strings.Cut(strings.TrimSpace(line), " = ")
				if !ok {
					continue
				}
				if what == "told" {
					wanted = append(wanted, want)
					continue
				}
				d.judge(t, g, what, want)
			}
			if !slices.Equal(told, wanted) {
				t.Errorf("told %q, not %q", told, wanted)
			}
		})
	}
}

// judge compares one line of what was worked by hand.
func (d *desk) judge(t *testing.T, g *Garment, what, want string) {
	t.Helper()
	if of, ok := strings.CutPrefix(what, "plies of "); ok {
		if got := d.pliesOf(g, of); !strings.HasPrefix(want+"   ", got+"   ") {
			t.Errorf("%s: %s, not %s", what, got, want)
		}
		return
	}
	switch what {
	case "openings":
		if got := g.OpeningWords(); got != want {
			t.Errorf("openings: %q, not %q", got, want)
		}
		return
	case "loose":
		if got := g.LooseWords(); got != want {
			t.Errorf("loose: %q, not %q", got, want)
		}
		return
	}
	number, _, _ := strings.Cut(want, " ")
	value, err := strconv.ParseFloat(number, 64)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	_, decimals, _ := strings.Cut(number, ".")
	g.is(t, 0.5000001*math.Pow10(-len(decimals)), map[string]float64{what: value})
}

// pliesOf lists what each row of a seam passes.
func (d *desk) pliesOf(g *Garment, of string) string {
	var out []string
	for _, r := range d.tailor.Through(g.Garment) {
		if r.Row.Of == of && (r.Row.Kind == garment.SeamRow || r.Row.Kind == garment.FinishRow) {
			out = append(out, fmt.Sprint(r.Plies.Value.Number))
		}
	}
	return strings.Join(out, " ")
}
