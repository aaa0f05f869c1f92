package cutting

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"hembook/internal/derive"
	"hembook/internal/lay"
	"hembook/internal/lay/verify"
	"hembook/internal/record"
)

// openDemo opens the demo workroom with its plans in a folder of the test.
func openDemo(t testing.TB) (*record.Room, *derive.Tailor) {
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
	tailor, _ := derive.NewTailor(room)
	return room, tailor
}

// TestDemoBuildsAreLaid: every cloth of every demo build is laid, and the
// independent checker finds nothing wrong. Run with -v for the numbers.
func TestDemoBuildsAreLaid(t *testing.T) {
	room, tailor := openDemo(t)
	work := 60_000 // places to try; enough for a sound plan, not for a good one
	if testing.Verbose() && os.Getenv("HEMBOOK_LAY_WORK") == "usual" {
		work = lay.DefaultTries
	}
	laid := 0
	for _, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		c := NewCutter(context.Background(), room, tailor, Options{Tries: work})
		c.store = newStore(t.TempDir())
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
				bf.Slug, l.Part, l.Problem.copies(), FoldWords(l.Plan.Folding), l.Plan.Length, l.Plan.Bound.Length, l.Used.Value.Number,
				l.Needed.Value.Number, l.OnHand.Title, l.OnHand.Value.Number, len(l.Left), time.Since(begun).Round(time.Millisecond))
			begun = time.Now()
		}
	}
	if laid < 6 {
		t.Errorf("only %d lays", laid)
	}
}

// TestDemoLaysNearALongSearch: twenty times the work shortens no lay of the
// demo by more than 1 %. It takes minutes, so it runs when HEMBOOK_LAY_WORK
// is "usual".
func TestDemoLaysNearALongSearch(t *testing.T) {
	if os.Getenv("HEMBOOK_LAY_WORK") != "usual" {
		t.Skip("set HEMBOOK_LAY_WORK=usual to search for minutes")
	}
	room, tailor := openDemo(t)
	lays := func(bf record.BuildFile, work int) []*Lay {
		b, _ := room.ReadBuild(bf)
		c := NewCutter(context.Background(), room, tailor, Options{Tries: work})
		c.store = newStore(t.TempDir())
		return c.Cut(b).Lays
	}
	for _, bf := range room.Builds {
		usual, long := lays(bf, lay.DefaultTries), lays(bf, 20*lay.DefaultTries)
		for i, l := range usual {
			if l.Plan == nil || long[i].Plan == nil {
				t.Errorf("%s %s: %s", bf.Slug, l.Part, l.Why)
				continue
			}
			more := 100 * (l.Plan.Length/long[i].Plan.Length - 1)
			t.Logf("%-22s %-8s %8.1f mm, %8.1f after a long search: %.2f %% more", bf.Slug, l.Part, l.Plan.Length, long[i].Plan.Length, more)
			if more > 1 {
				t.Errorf("%s %s: %.2f %% longer than after a long search", bf.Slug, l.Part, more)
			}
		}
	}
}
