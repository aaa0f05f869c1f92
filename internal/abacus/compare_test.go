package abacus_test

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"hembook/internal/abacus"
	"hembook/internal/fault"
	"hembook/internal/madeup"
)

var (
	garments = flag.Int("garments", 100, "how many made-up garments are worked out a second time")
	first    = flag.Uint64("first", 1, "the seed of the first")
	curves   = flag.Bool("curves", false, "let alterations move curves too, which the program draws anew and not exactly")
	size     = flag.Int("size", 0, "how large they are; from 1 to 6 in turn unless said")
)

const tableDir = "../trade/tables"

func tables(t testing.TB) *abacus.Tables {
	t.Helper()
	list, err := abacus.ReadTables(tableDir)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestMadeUpGarments works random garments out twice. What differs is named
// with its seed; `go test ./internal/abacus -first SEED -garments 1 -keep
// testdata/cases` does it again alone and keeps it as a case. `-garments 10000
// -v` is the great round, and says how many figures were compared.
func TestMadeUpGarments(t *testing.T) {
	list := tables(t)
	count := counts{}
	for i := range *garments {
		seed := *first + uint64(i)
		diffs := compare(t, list, wish(seed).Workroom(), madeup.Build, -1, count)
		if len(diffs) > 0 {
			keepCase(t, wish(seed), diffs)
		}
		for j, d := range diffs {
			if j == 6 {
				t.Errorf("seed %d: and %d more", seed, len(diffs)-j)
				break
			}
			t.Errorf("seed %d: %s", seed, d)
		}
	}
	count.report(t)
}

// TestWidthsThroughDarts: where a level runs through a dart, the program gives
// the width of the piece with the dart folded shut.
func TestWidthsThroughDarts(t *testing.T) {
	list := tables(t)
	count := counts{}
	for seed := range uint64(60) {
		w := madeup.Wish{Seed: seed, Size: 3, LevelDarts: true}
		for _, d := range compare(t, list, w.Workroom(), madeup.Build, -1, count) {
			t.Errorf("seed %d: %s", seed, d)
		}
	}
	if one := count.of("piece.*.level.*"); one.n < 30 || one.withheld > one.n/4 {
		t.Errorf("%d widths were compared and %d withheld", one.n, one.withheld)
	}
}

// wish is the garment of a seed: larger and smaller ones in turn, unless -size
// says one.
func wish(seed uint64) madeup.Wish {
	w := madeup.Wish{Seed: seed, Size: *size, MovesCurves: *curves}
	if w.Size == 0 {
		w.Size = 1 + int(seed%6)
	}
	return w
}

// counts is how many figures of a kind were compared, and the largest
// difference as a share of what is allowed.
type counts map[string]*tried

type tried struct {
	n, withheld int
	worst       float64
}

func (c counts) of(kind string) *tried {
	if c[kind] == nil {
		c[kind] = &tried{}
	}
	return c[kind]
}

func (c counts) report(t *testing.T) {
	sum := 0
	for _, kind := range slices.Sorted(maps.Keys(c)) {
		one := c[kind]
		sum += one.n
		t.Logf("%-32s %8d compared, %6d withheld by both or by the program, worst %5.1f %% of the tolerance", kind, one.n, one.withheld, 100*one.worst)
	}
	t.Logf("%d figures in all", sum)
}

// A difference is one figure in which the two calculators differ.
type difference struct{ id, words string }

func (d difference) String() string { return d.id + ": " + d.words }

// compare works a build out both ways and lists what differs.
func compare(t testing.TB, list *abacus.Tables, files map[string]string, build string, round int, count counts) []difference {
	t.Helper()
	theirs, faults := program(t, files, build, round)
	for _, f := range faults {
		if fault.HasErrors([]fault.Fault{f}) {
			return []difference{{"record", "the record cannot be read: " + fmt.Sprint(f)}}
		}
	}
	ours, err := abacus.Reckon(files, list, build, round)
	if err != nil {
		return []difference{{"abacus", err.Error()}}
	}
	var out []difference
	differ := func(id, format string, args ...any) {
		out = append(out, difference{id, fmt.Sprintf(format, args...)})
	}
	for _, id := range slices.Sorted(maps.Keys(ours)) {
		mine := ours[id]
		kind := kindOf(id)
		their, there := theirs[id]
		one := count.of(kind)
		switch {
		case !there && strings.HasPrefix(id, "content."):
			one.withheld++ // small fibres are "other fibres"
		case !there && (mine.Why != "" || restsOnWithheld(id, mine, theirs)):
			one.withheld++
		case !there:
			differ(id, "%s, and the program has no such figure", show(mine))
		case their.why != "" && (mine.Why != "" || mayWithhold(kind)):
			one.withheld++
		case their.why != "":
			differ(id, "%s, but the program does not know it, because %s", show(mine), their.why)
		case mine.Why != "":
			differ(id, "it cannot be known, because %s, but the program says %v %s", mine.Why, their.value, their.unit)
		case mine.Money != nil:
			one.n++
			if their.money == nil || !sameMoney(kind, mine.Money, their.money) {
				differ(id, "%s, but the program says %v", show(mine), their.money)
			}
		case mine.Words != "":
			one.n++
			if mine.Words != their.words {
				differ(id, "%s, but the program says %s", mine.Words, their.words)
			}
		default:
			one.n++
			off := math.Abs(mine.Value-their.value) / allowed(kind, mine)
			one.worst = max(one.worst, off)
			if !(off <= 1) || mine.Unit != their.unit {
				differ(id, "%s, but the program says %.6g %s", show(mine), their.value, their.unit)
			}
		}
	}
	for _, id := range slices.Sorted(maps.Keys(theirs)) {
		_, known := ours[id]
		if !known && theirs[id].why == "" && worked(kindOf(id)) {
			differ(id, "the program says %.6g %s, and this calculator has no such figure", theirs[id].value, theirs[id].unit)
		}
	}
	slices.SortStableFunc(out, func(a, b difference) int { return rank(a.id) - rank(b.id) })
	return out
}

// restsOnWithheld reports whether a figure is left out for good reason: how far a level
// is stretched when worn follows from its finished width, which may be withheld, and is
// told only where the body is wider than that, which two sums at the edge of a hundredth
// of a millimetre cannot agree on.
func restsOnWithheld(id string, mine abacus.Figure, theirs map[string]printed) bool {
	level, worn := strings.CutSuffix(id, ".worn")
	if !worn {
		if level, worn = strings.CutSuffix(id, ".stays"); !worn {
			return false
		}
	}
	return theirs[level+".finished"].why != "" || math.Abs(mine.Value) <= allowed(kindOf(id), mine)
}

// rank puts what other figures rest on first.
func rank(id string) int {
	for i, start := range []string{"record", "abacus", "piece.*.edge.*.length", "piece.*.edge.", "piece.", "seam.", "finish.", "level.", "cloth.", "bias.", "thread.", "notion.", "step."} {
		if strings.HasPrefix(kindOf(id), start) {
			return i
		}
	}
	return 99
}

func show(f abacus.Figure) string {
	switch {
	case f.Why != "":
		return "not known, because " + f.Why
	case f.Money != nil:
		return f.Money.FloatString(4) + " " + f.Unit
	case f.Words != "":
		return f.Words
	}
	return fmt.Sprintf("%.6g %s", f.Value, f.Unit)
}

// sameMoney: the program's amount is the exact one rounded to the cent. Where
// areas differ by a breath, an amount at half a cent may be rounded the other
// way, and a sum of such amounts be a cent more or less.
func sameMoney(kind string, exact, theirs *big.Rat) bool {
	off, _ := new(big.Rat).Sub(exact, theirs).Float64()
	size, _ := exact.Float64()
	allowed := 0.0051 + 2e-5*math.Abs(size)
	if kind == "cost.total" || kind == "cost.left" {
		allowed = 0.0201 // two of its amounts
	}
	return math.Abs(off) <= allowed
}

// kindOf is an ID with the names of its own garment left out:
// "piece.front.edge.side.length" is of the kind "piece.*.edge.*.length".
func kindOf(id string) string {
	parts := strings.Split(id, ".")
	switch parts[0] {
	case "total", "order":
		return id
	case "cost":
		if len(parts) > 2 {
			return parts[0] + "." + parts[1] + ".*"
		}
		return id
	case "content":
		return "content.*"
	}
	for i := 1; i < len(parts)-1; i++ {
		switch parts[i] {
		case "edge", "level":
			if i > 1 {
				continue
			}
		}
		parts[i] = "*"
		if strings.HasPrefix(strings.Split(id, ".")[i], "strip-") && i > 1 {
			parts[i] = "strip"
		}
		if strings.HasPrefix(strings.Split(id, ".")[i], "dart-") && i > 1 {
			parts[i] = "dart"
		}
	}
	if parts[0] == "piece" && len(parts) == 4 && parts[2] == "level" {
		parts[3] = "*"
	}
	return strings.Join(parts, ".")
}
