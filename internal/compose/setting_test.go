package compose

import (
	"testing"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// TestSettingsFound: what a search finds of machine settings says of each what was sewn,
// on which cloths and with which thread, once; and asked for a needle it tells all that
// were used, each with what for.
func TestSettingsFound(t *testing.T) {
	voile, wool := notebook.Link{Name: "Ochre voile"}, notebook.Link{Name: "Grey wool"}
	worked := func(needle, foot string, stitch float64, thread, of string, cloths ...notebook.Link) notebook.Worked {
		return notebook.Worked{Setting: garment.Setting{Needle: needle, Foot: foot, StitchLength: measure.MM(stitch)}, Thread: thread, For: notebook.Link{Name: of}, Cloths: cloths}
	}
	all := []notebook.Worked{
		worked("60", "edge", 1.8, "ochre, cotton", "French seam", voile),
		worked("60", "edge", 1.8, "ochre, cotton", "French seam", voile), // in another garment
		worked("90", "", 0, "", "topstitch", voile, wool),
		worked("", "", 3, "grey", "darts", voile),
	}
	f := SettingsFound("Ochre voile", all, TechniqueOf)
	want := "French seam needle 60, stitch length 1.8 mm, edge foot, ochre, cotton, Ochre voile. " +
		"Darts stitch length 3 mm, grey, Ochre voile. Topstitch needle 90, Ochre voile with Grey wool."
	if f.Text != want {
		t.Errorf("found\n%s\nwant\n%s", f.Text, want)
	}
	answers := map[string]string{}
	for _, a := range f.Answers {
		answers[a.To] = a.Says
	}
	if got, want := answers["needle"], "60 for French seam; 90 for topstitch"; got != want {
		t.Errorf("which needle: %q, want %q", got, want)
	}
	if got, want := answers["stitch"], "1.8 mm for French seam; 3 mm for darts"; got != want {
		t.Errorf("which stitch length: %q, want %q", got, want)
	}
	if f := SettingsFound("Ochre voile", all[:2], TechniqueOf); len(f.Answers) != 2 || f.Answers[0].Says != "60" {
		t.Errorf("where there is one, it is the answer: %v", f.Answers)
	}
}
