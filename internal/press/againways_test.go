package press

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestAgainWhatFollowsFromPages: which page makes a type, and how pages are called, is
// asked by records that name none. Where a page says otherwise, the notebook pressed
// again is that of a press from nothing.
func TestAgainWhatFollowsFromPages(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	p := newPreview(t, several())
	defer p.memory.Close()
	const other, plain = "content/techniques/other-way.md", "content/techniques/plain-way.md"
	leading := map[string]bool{}
	for i, c := range []struct{ file, old, now string }{
		{},
		{other, "seam: french", "seam: double-stitched"},
		{plain, "seam: plain", "seam: [plain, double-stitched]"}, // two make it now
		{other, "seam: double-stitched", "seam: french"},
		{plain, "also: [simple way]", "also: [simple way, sewing on]"},
		{plain, "also: [simple way, sewing on]", "also: [simple way]"},
	} {
		if c.file != "" {
			p.save(c.file, strings.Replace(p.text(c.file), c.old, c.now, 1), true)
		}
		if _, faults, err := p.press(); err != nil {
			t.Fatal(err, faults)
		}
		to, _, err := p.afresh()
		if err != nil {
			t.Fatal(err)
		}
		ours := tree(t, p.to)
		alike(t, fmt.Sprintf("step %d: %s in %s", i, c.now, c.file), ours, tree(t, to))
		os.RemoveAll(to)
		leading[ways(ours, "plain-way", "follows")+" "+ways(ours, "other-way", "follows")] = true
	}
	for _, want := range []string{"no no", "no yes", "yes no"} {
		if !leading[want] {
			t.Errorf("the pages of the plain and the other way never told of the build as %q: %v", want, leading)
		}
	}
}

// ways says whether the page of a technique leads to a build.
func ways(pages map[string]string, technique, build string) string {
	if strings.Contains(pages["techniques/"+technique+".html"], "builds/"+build+".html") {
		return "yes"
	}
	return "no"
}
