package workings

import (
	"cmp"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

// TestWorkings judges every working of every room.
//
// With HEMBOOK_FINDS=FILE every find is written there.
func TestWorkings(t *testing.T) {
	j := &judge{}
	for _, r := range rooms(t) {
		before := j.figures
		j.look(r)
		if j.figures-before < 100 {
			t.Errorf("%s: only %d figures", r.name, j.figures-before)
		}
	}
	t.Logf("%d figures, %d sums read, of them %d with arithmetic, %d inputs, %d that are not known, %d finds", j.figures, j.sums, j.worked, j.inputs, j.whys, len(j.finds))
	if file := os.Getenv("HEMBOOK_FINDS"); file != "" {
		if err := os.WriteFile(file, []byte(j.report()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	j.fail(t)
}

// fail tells of what was found: how many finds there are of each kind in each
// room, and the first of them.
func (j *judge) fail(t *testing.T) {
	t.Helper()
	first, count := map[string]find{}, map[string]int{}
	for _, f := range j.finds {
		key := f.room + ", " + f.kind
		if count[key]++; count[key] == 1 {
			first[key] = f
		}
	}
	for _, key := range slices.Sorted(maps.Keys(first)) {
		f := first[key]
		t.Errorf("%s: %d finds; the first: %s %s: %s", key, count[key], f.build, f.id, f.say)
	}
}

// report lists every find: how many of each kind in each room and build, then
// one a line.
func (j *judge) report() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d figures, %d sums read to the end, of them %d with arithmetic, %d inputs, %d figures that are not known, %d finds\n", j.figures, j.sums, j.worked, j.inputs, j.whys, len(j.finds))
	list := slices.Clone(j.finds)
	slices.SortStableFunc(list, func(a, b find) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.room, b.room), cmp.Compare(a.build, b.build))
	})
	for _, f := range list {
		fmt.Fprintf(&b, "%s\t%s\t%s\t%s\t%s\n", f.kind, f.room, f.build, f.id, strings.ReplaceAll(f.say, "\n", " "))
	}
	return b.String()
}
