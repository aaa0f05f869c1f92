package workings

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/order"
	"hembook/internal/record"
)

// TestChanges changes numbers of records, one at a time, and works all figures
// out again: each that came out otherwise must be among those that are said to
// rest on what stands there. Every twelfth number of the demo is changed; with
// HEMBOOK_CHANGES=all each.
func TestChanges(t *testing.T) {
	if testing.Short() {
		t.Skip("works the demo out again for every number it changes")
	}
	step := 12
	if os.Getenv("HEMBOOK_CHANGES") == "all" {
		step = 1
	}
	r := copies(t, t.TempDir)[0]
	opened, _, err := record.Open(r.dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { opened.Close() })
	tailor, _ := derive.NewTailor(opened)
	tried, changed := 0, 0
	for _, bf := range opened.Builds {
		b := &changing{t: t, opened: opened, tailor: tailor, file: bf, path: "content/builds/" + bf.Slug + "/build.yaml"}
		b.on = filepath.Join(r.dir, filepath.FromSlash(b.path))
		more, figures := b.try(step)
		tried, changed = tried+more, changed+figures
	}
	t.Logf("%d numbers changed, and with them %d figures", tried, changed)
	if tried < 400/step || changed < 4000/step {
		t.Error("too few for a proof")
	}
}

// A changing is a build whose record is changed.
type changing struct {
	t        *testing.T
	opened   *record.Room
	tailor   *derive.Tailor
	file     record.BuildFile
	path, on string // of its record, in the room and on the disk
}

// lineage works out every figure of the build; nil where its record is at fault.
func (c *changing) lineage() *figure.Lineage {
	b, faults := c.opened.ReadBuild(c.file)
	if fault.HasErrors(faults) {
		return nil
	}
	g := c.tailor.Derive(b)
	if fault.HasErrors(g.Faults) {
		return nil
	}
	late, own := c.tailor.LateFigures(g, order.Standing{Now: asked})
	var private []figure.Figure
	for _, p := range append(g.PrivateFigures(), own...) {
		private = append(private, p.Open(record.ToTheMaker))
	}
	return figure.NewLineage(g.Figures(), late, private)
}

// saidOf is what a figure says, for comparing.
func saidOf(f *figure.Figure) string {
	v := f.Value
	if v.Money != nil {
		return v.Money.String()
	}
	return fmt.Sprint(v.Number, v.Moment, v.Known())
}

// try changes every so many numbers and reports how many were, and how many
// figures changed with them.
func (c *changing) try(step int) (tried, changed int) {
	text, err := os.ReadFile(c.on)
	if err != nil {
		c.t.Fatal(err)
	}
	before := c.lineage()
	if before == nil {
		c.t.Fatalf("%s: its record is at fault", c.path)
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		c.t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	for i, n := range figuresOf(&doc) {
		if i%step != 0 {
			continue
		}
		line := lines[n.Line-1]
		next, ok := another(line, n)
		if !ok {
			continue
		}
		lines[n.Line-1] = next
		c.write(strings.Join(lines, "\n"))
		lines[n.Line-1] = line
		after := c.lineage()
		if after == nil {
			continue
		}
		tried++
		changed += c.compare(before, after, &doc, n, next)
	}
	c.write(string(text))
	return tried, changed
}

func (c *changing) write(text string) {
	if err := os.WriteFile(c.on, []byte(text), 0o644); err != nil {
		c.t.Fatal(err)
	}
}

// compare looks for figures that changed and are not said to.
func (c *changing) compare(before, after *figure.Lineage, doc, n *yaml.Node, line string) (changed int) {
	above := map[string]bool{}
	for _, d := range before.OfPlaces(func(at fault.Pos, whole bool) bool {
		return at.File() == c.path && (int(at.Line) == n.Line || whole && int(at.Line) < n.Line && n.Line <= endOf(doc, int(at.Line)))
	}) {
		above[d.Figure.ID] = true
	}
	var missed []string
	for _, f := range before.Figures() {
		now := after.Figure(f.ID)
		if now == nil || saidOf(now) == saidOf(f) {
			continue
		}
		changed++
		if !above[f.ID] {
			missed = append(missed, f.ID)
		}
	}
	var first []string // those that rest on no other that was missed
	for _, id := range missed {
		if !slices.ContainsFunc(before.Figure(id).Working.Inputs(), func(in figure.Input) bool { return slices.Contains(missed, in.From) }) {
			first = append(first, id)
		}
	}
	if len(missed) > 0 {
		c.t.Errorf("%s:%d: with %q %d figures change that do not say so: %v", c.path, n.Line, strings.TrimSpace(line), len(missed), first)
	}
	return changed
}

// figuresOf lists the scalars that begin with a digit.
func figuresOf(n *yaml.Node) []*yaml.Node {
	if n.Kind == yaml.ScalarNode {
		if n.Value != "" && strings.ContainsAny(strings.TrimPrefix(n.Value, "-")[:1], "0123456789") {
			return []*yaml.Node{n}
		}
		return nil
	}
	var out []*yaml.Node
	for _, k := range n.Content {
		out = append(out, figuresOf(k)...)
	}
	return out
}

// another is a line with another number in the place of a scalar's first.
func another(line string, n *yaml.Node) (string, bool) {
	at := len(string([]rune(line)[:min(n.Column-1, len([]rune(line)))]))
	end := at
	for end < len(line) && strings.IndexByte("-0123456789", line[end]) >= 0 {
		end++
	}
	v, err := strconv.Atoi(line[at:end])
	if err != nil {
		return "", false
	}
	return line[:at] + strconv.Itoa(v+max(1, v/50)) + line[end:], true
}

// endOf is the last line of the outermost group that begins on a line, or whose
// name stands there.
func endOf(n *yaml.Node, line int) int {
	if n.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(n.Content); i += 2 {
			if v := n.Content[i+1]; n.Content[i].Line == line && v.Kind == yaml.MappingNode {
				return lastOf(v)
			}
		}
		if n.Line == line {
			return lastOf(n)
		}
	}
	for _, k := range n.Content {
		if last := endOf(k, line); last > 0 {
			return last
		}
	}
	return 0
}

func lastOf(n *yaml.Node) int {
	last := n.Line
	for _, k := range n.Content {
		last = max(last, lastOf(k))
	}
	return last
}
