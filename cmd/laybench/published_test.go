package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// Published instances (sources stand in each file) must be laid validly and,
// with little work, no worse than 85 % of the best published density
// (Gardeyn, Vanden Berghe, Wauters 2025, table 3).
func TestPublishedInstances(t *testing.T) {
	dir := "../../../shared/data/nesting"
	if _, err := os.Stat(dir); err != nil {
		t.Skip("the published instances are not at hand:", err)
	}
	for _, name := range []string{"albano", "dagli", "fu", "blaz", "shapes0", "shirts"} {
		t.Run(name, func(t *testing.T) {
			in, err := readInstance(filepath.Join(dir, name+".json"))
			if err != nil {
				t.Fatal(err)
			}
			p := in.problem()
			plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 1_000_000, Seed: 1})
			if err != nil {
				t.Fatal(err)
			}
			for _, fault := range verify.Check(&p, plan, 1e-8*in.Width) {
				t.Error(fault)
			}
			density := 100 * in.TotalArea / (in.Width * plan.Length)
			t.Logf("%.2f %% of %.2f %%", density, in.Best.Density)
			if density < 0.85*in.Best.Density || density > 1.02*in.Best.Density {
				t.Errorf("density %.2f %%, best published %.2f %%", density, in.Best.Density)
			}
		})
	}
}
