package workings

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var lower = flag.Bool("lower", false, "write smaller numbers of finds into testdata/known.tsv")

// TestWorkings judges every working of every room. What it finds is compared
// with what is known: neither more nor less may be found.
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
	found := j.counts()
	compare(t, found, j.example, func(room string) bool { return !strings.HasSuffix(room, terminal) })
}

// example is the first find of a kind.
func (j *judge) example(key string) string {
	room, kind, _ := strings.Cut(key, "\t")
	for _, f := range j.finds {
		if f.room == room && f.kind == kind {
			return fmt.Sprintf("%s %s: %s", f.build, f.id, f.say)
		}
	}
	return ""
}

var knownFile = filepath.Join("testdata", "known.tsv")

// counts is how many finds there are of each kind in each room.
func (j *judge) counts() map[string]int {
	out := map[string]int{}
	for _, f := range j.finds {
		out[f.room+"\t"+f.kind]++
	}
	return out
}

// compare holds what is found against the table of what is known of the rooms
// that a test looks at.
func compare(t *testing.T, found map[string]int, example func(key string) string, looked func(room string) bool) {
	t.Helper()
	known := readKnown(t)
	changed := false
	for _, key := range slices.Sorted(maps.Keys(merged(found, known))) {
		if room, _, _ := strings.Cut(key, "\t"); !looked(room) {
			continue
		}
		switch n := found[key]; {
		case n > known[key]:
			t.Errorf("%s: %d finds, and %d are known; the first: %s", strings.ReplaceAll(key, "\t", ", "), n, known[key], example(key))
		case n < known[key] && *lower:
			known[key] = n
			changed = true
		case n < known[key]:
			t.Errorf("%s: %d finds, and %d are known: lower the table (go test ./internal/workings -lower)", strings.ReplaceAll(key, "\t", ", "), n, known[key])
		}
	}
	if changed {
		writeKnown(t, known)
	}
}

func merged(a, b map[string]int) map[string]int {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}

func readKnown(t *testing.T) map[string]int {
	t.Helper()
	text, err := os.ReadFile(knownFile)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]int{}
	for line := range strings.Lines(string(text)) {
		f := strings.Split(strings.TrimSpace(line), "\t")
		n, err := strconv.Atoi(f[len(f)-1])
		if len(f) != 3 || err != nil {
			t.Fatalf("%s: %q is not room, kind, number", knownFile, line)
		}
		out[f[0]+"\t"+f[1]] = n
	}
	return out
}

func writeKnown(t *testing.T, known map[string]int) {
	t.Helper()
	var b strings.Builder
	for _, key := range slices.Sorted(maps.Keys(known)) {
		if known[key] > 0 {
			fmt.Fprintf(&b, "%s\t%d\n", key, known[key])
		}
	}
	if err := os.WriteFile(knownFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
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
