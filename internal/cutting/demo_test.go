package cutting

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/lay/verify"
	"hembook/internal/record"
)

// openDemo opens the demo workroom with its plans in a folder of the test.
func openDemo(t testing.TB) (*record.Room, *garment.Tailor) {
	t.Helper()
	dir, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "content", "workroom.yaml")); err != nil {
		t.Skip("the demo workroom is not here")
	}
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := garment.NewTailor(room)
	return room, tailor
}

// TestDemoBuildsAreLaid: every cloth of every demo build is laid, and the
// independent checker finds nothing wrong. Run with -v for the numbers.
func TestDemoBuildsAreLaid(t *testing.T) {
	room, tailor := openDemo(t)
	work := 60_000 // places to try; enough for a sound plan, not for a good one
	if testing.Verbose() && os.Getenv("HEMBOOK_LAY_WORK") == "usual" {
		work = lay.DefaultWork
	}
	laid := 0
	for _, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		c := NewCutter(context.Background(), room, tailor, Options{Work: work})
		c.store = NewStore(t.TempDir())
		begun := time.Now()
		for _, l := range c.Cut(b).Lays {
			laid++
			if l.Plan == nil {
				t.Errorf("%s %s: %s", bf.Slug, l.Part, l.Why)
				continue
			}
			for _, fault := range verify.Check(&l.Problem.Lay, l.Plan, tolerance) {
				t.Errorf("%s %s: %s", bf.Slug, l.Part, fault)
			}
			t.Logf("%-22s %-8s %2d pieces %-6s %8.1f mm, bound %7.1f, used %4.1f %%, needed %.2f m, %s %.2f m, %d remnants, %v",
				bf.Slug, l.Part, l.Problem.copies(), wayOf(l.Plan), l.Plan.Length, l.Plan.Bound.Length, l.Used.Value.Number,
				l.Needed.Value.Number, l.OnHand.Title, l.OnHand.Value.Number, len(l.Left), time.Since(begun).Round(time.Millisecond))
			begun = time.Now()
		}
	}
	if laid < 6 {
		t.Errorf("only %d lays", laid)
	}
}
