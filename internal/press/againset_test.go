package press

import (
	"strings"
	"testing"
)

// TestAgainHowTheMachineWasSet: the pages of a technique and of a cloth tell how the
// machine was set for it in every build; where a seam or a thread says otherwise, it
// follows, and so does it where a cloth is called otherwise.
func TestAgainHowTheMachineWasSet(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	p := newPreview(t, several())
	defer p.memory.Close()
	const build, cloth, page = "content/builds/skirt-1/build.yaml", "content/cloth/grey-wool.yaml", "techniques/other-way.html"
	for _, c := range []struct {
		file, old, now string
		want, not      string // of the technique's page
	}{
		{build, "technique: other-way}\nwork", "technique: other-way, needle: 90 sharp, stitch-length: 3}\nwork", ">90 sharp</td>", ""},
		{build, "needle: 90 sharp", "needle: 100 sharp", ">100 sharp</td>", "90 sharp"},
		{build, "{rust: rust}", "{rust: {colour: rust, foot: walking foot}}", ">walking foot</td>", ""},
		{build, "stitch-length: 3}", "stitch-length: 3, foot: roller foot}", ">roller foot</td>", "walking foot"},
		{cloth, "name: Grey wool", "name: Slate wool", ">Slate wool</a>", "Grey wool"},
	} {
		before := p.text(c.file)
		p.save(c.file, strings.Replace(before, c.old, c.now, 1), true)
		if p.text(c.file) == before {
			t.Fatalf("%s has no %q", c.file, c.old)
		}
		if _, faults, err := p.press(); err != nil {
			t.Fatal(err, faults)
		}
		pages := tree(t, p.to)
		for _, of := range []string{page, "cloth/grey-wool.html"} {
			_, settings, _ := strings.Cut(pages[of], `<section id="settings">`)
			settings, _, _ = strings.Cut(settings, "</section>")
			if of != page && c.file == cloth {
				continue // its own name stands in its head
			}
			if !strings.Contains(settings, c.want) || c.not != "" && strings.Contains(settings, c.not) && of == page || !strings.Contains(settings, "builds/skirt-1.html") {
				t.Errorf("with %s %s tells\n%s", c.now, of, settings)
			}
		}
	}
}
