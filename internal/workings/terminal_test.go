package workings

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// terminal ends the names of the rooms as they are seen at the terminal.
const terminal = ", terminal"

const (
	afterLay    = "not planned, after lay" // a lay was planned and kept, and tally says that none was
	metricLine  = "a metric line"          // what an inch room prints is in millimetres, centimetres or metres
	terminalWhy = "not known, because the lay has not been planned"
)

// TestTerminal runs the program itself: what it keeps must be known to the next
// command, and an inch room must be told of inches, labels of a lay included.
func TestTerminal(t *testing.T) {
	program := filepath.Join(t.TempDir(), "hembook")
	if out, err := exec.Command("go", "build", "-o", program, "hembook/cmd/hembook").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	j := &judge{}
	run := func(r *room, args ...string) string {
		out, err := exec.Command(program, append([]string{"--room", r.dir}, args...)...).Output()
		if err != nil {
			t.Fatalf("%s: %v: %v", r.name, args, err)
		}
		return string(out)
	}
	for _, r := range copies(t, t.TempDir) {
		builds, err := filepath.Glob(filepath.Join(r.dir, "content", "builds", "*"))
		if err != nil || len(builds) == 0 {
			t.Fatal(r.name, err)
		}
		look := func(slug string, args ...string) {
			for line := range strings.Lines(run(r, args...)) {
				j.at = find{room: r.name + terminal, build: slug, id: args[0]}
				line = strings.TrimSpace(line)
				if r.inches && metricForm.MatchString(line) {
					j.add(metricLine, "%s", short(line))
				}
				if slug == laid[r.name] && strings.Contains(line, terminalWhy) {
					j.add(afterLay, "%s", short(line))
				}
			}
		}
		look(laid[r.name], "lay", laid[r.name])
		look(laid[r.name], "tally", laid[r.name], "--time", "--from", "2026-09-01 09:00")
		for _, dir := range builds {
			slug := filepath.Base(dir)
			if !r.inches && slug != laid[r.name] {
				continue
			}
			look(slug, "tally", slug)
		}
	}
	j.fail(t)
}

// laid are the builds whose cloths are laid: small ones.
var laid = map[string]string{
	"demo": "quayside-pinafore", "demo in inches": "quayside-pinafore", "made up, mm": "loft-tunic", "made up, inches": "tower-vest",
}
