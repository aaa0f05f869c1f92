package schedule

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// A published network as a table: a row is activity, predecessors, duration,
// and where the source gives them ES EF LS LF TF FF. Its unit of time is a day
// here. "1-2" as an activity's name is an arrow from event 1 to event 2.
type published struct {
	name   string
	source string // where it is published, and how sure that is
	arrows bool   // activities are arrows between events
	total  int
	paths  []string
	table  string
}

var networks = []published{
	{
		name:   "eight activities",
		source: `Heizer and Render, Operations Management, "Milwaukee Paper" case: from memory; times recomputed`,
		total:  15, paths: []string{"A C E G H"},
		table: `
			A -   2  0  2  0  2 0 0
			B -   3  0  3  1  4 1 0
			C A   2  2  4  2  4 0 0
			D A,B 4  3  7  4  8 1 1
			E C   4  4  8  4  8 0 0
			F C   3  4  7 10 13 6 6
			G D,E 5  8 13  8 13 0 0
			H F,G 2 13 15 13 15 0 0`,
	},
	{
		name:   "fourteen activities",
		source: `Hillier and Lieberman, Introduction to Operations Research, "Reliable Construction": from memory; total and path agree with the book, the rest recomputed`,
		total:  44, paths: []string{"A B C E F J L N"},
		table: `
			A -    2  0  2  0  2 0 0
			B A    4  2  6  2  6 0 0
			C B   10  6 16  6 16 0 0
			D C    6 16 22 20 26 4 0
			E C    4 16 20 16 20 0 0
			F E    5 20 25 20 25 0 0
			G D    7 22 29 26 33 4 0
			H E,G  9 29 38 33 42 4 0
			I C    7 16 23 18 25 2 2
			J F,I  8 25 33 25 33 0 0
			K J    4 33 37 34 38 1 1
			L J    5 33 38 33 38 0 0
			M H    2 38 40 42 44 4 4
			N K,L  6 38 44 38 44 0 0`,
	},
	{
		name:   "seven arrows",
		source: "Taylor, Introduction to Management Science, ch. 8 solutions, problem 5: read, values identical",
		arrows: true, total: 20, paths: []string{"1-3 3-4 4-5 5-6"},
		table: `
			1-2 -        7  0  7  2  9 2 0
			1-3 -       10  0 10  0 10 0 0
			2-4 1-2      6  7 13  9 15 2 2
			3-4 1-3      5 10 15 10 15 0 0
			3-5 1-3      4 10 14 14 18 4 4
			4-5 2-4,3-4  3 15 18 15 18 0 0
			5-6 3-5,4-5  2 18 20 18 20 0 0`,
	},
	{
		name:   "thirteen arrows and a dummy",
		source: "Taylor, Introduction to Management Science, ch. 8 solutions, problem 6: read, ES to TF identical; FF derived",
		arrows: true, total: 38, paths: []string{"1-3 3-5 5-7 7-8 8-9"},
		table: `
			1-2 -            8  0  8  1  9  1  0
			1-3 -           10  0 10  0 10  0  0
			1-4 -            9  0  9  6 15  6  0
			2-5 1-2          6  8 14  9 15  1  1
			2-6 1-2          4  8 12 16 20  8  0
			3-5 1-3          5 10 15 10 15  0  0
			4-5 1-4          0  9  9 15 15  6  6
			4-7 1-4          7  9 16 20 27 11 11
			5-7 2-5,3-5,4-5 12 15 27 15 27  0  0
			5-8 2-5,3-5,4-5 15 15 30 16 31  1  1
			6-9 2-6         18 12 30 20 38  8  8
			7-8 4-7,5-7      4 27 31 27 31  0  0
			8-9 5-8,7-8      7 31 38 31 38  0  0`,
	},
	{
		name:   "two paths nearly critical",
		source: "public lecture slides on the critical path (slideplayer 3283910): read and reproduced; what F comes after is inferred from the printed times",
		total:  22, paths: []string{"A C F G H"},
		table: `
			A -   4  0  4  0  4 0 0
			B A   3  4  7  7 10 3 2
			C A   5  4  9  4  9 0 0
			D A   2  4  6  7  9 3 3
			E B,C 5  9 14 10 15 1 1
			F C,D 6  9 15  9 15 0 0
			G E,F 4 15 19 15 19 0 0
			H G   3 19 22 19 22 0 0`,
	},
}

const day = 24 * time.Hour

// A row of a published table.
type row struct {
	Activity
	times []int // ES EF LS LF TF FF
}

func readTable(t testing.TB, table string) []row {
	t.Helper()
	var rows []row
	for line := range strings.Lines(strings.TrimSpace(table)) {
		words := strings.Fields(line)
		r := row{Activity: Activity{Name: words[0]}}
		if words[1] != "-" {
			r.After = strings.Split(words[1], ",")
		}
		for _, w := range words[2:] {
			n, err := strconv.Atoi(w)
			if err != nil {
				t.Fatal(err)
			}
			r.times = append(r.times, n)
		}
		r.Labour = time.Duration(r.times[0]) * day
		r.times = r.times[1:]
		rows = append(rows, r)
	}
	return rows
}

// fromArrows gives each arrow "1-2" the needs its events say: every arrow that
// ends where it begins.
func fromArrows(arrows []Activity) []Activity {
	out := slices.Clone(arrows)
	for i := range out {
		begins, _, _ := strings.Cut(out[i].Name, "-")
		out[i].After = nil
		for _, b := range arrows {
			if _, ends, _ := strings.Cut(b.Name, "-"); ends == begins {
				out[i].After = append(out[i].After, b.Name)
			}
		}
	}
	return out
}

func (p published) activities(t testing.TB) ([]Activity, []row) {
	rows := readTable(t, p.table)
	var list []Activity
	for _, r := range rows {
		list = append(list, r.Activity)
	}
	if !p.arrows {
		return list, rows
	}
	tied := fromArrows(list)
	for i := range tied {
		if !slices.Equal(tied[i].After, list[i].After) {
			t.Errorf("%s: %s comes after %v by its events, after %v by the table", p.name, list[i].Name, tied[i].After, list[i].After)
		}
	}
	return tied, rows
}

func TestPublishedNetworks(t *testing.T) {
	checks := 0
	for _, p := range networks {
		t.Run(p.name, func(t *testing.T) {
			list, rows := p.activities(t)
			n, faults := Plan(list)
			if faults != nil {
				t.Fatalf("%s: %v", p.source, faults)
			}
			if want := time.Duration(p.total) * day; n.Total != want {
				t.Errorf("total %v, want %v", n.Total, want)
			}
			checks++
			for i, node := range n.Nodes {
				got := []int{}
				for _, d := range []time.Duration{node.EarliestStart, node.EarliestFinish, node.LatestStart, node.LatestFinish, node.TotalSlack, node.FreeSlack} {
					got = append(got, int(d/day))
				}
				if !slices.Equal(got, rows[i].times) {
					t.Errorf("%s: ES EF LS LF TF FF %v, want %v", node.Name, got, rows[i].times)
				}
				checks += len(got)
			}
			wantPaths(t, n, p.paths)
			checks += len(p.paths)
		})
	}
	t.Logf("%d published values", checks)
}

func wantPaths(t *testing.T, n *Network, want []string) {
	t.Helper()
	paths, more := n.CriticalPaths(len(want))
	var got []string
	for _, p := range paths {
		got = append(got, strings.Join(p, " "))
	}
	if !slices.Equal(got, want) || more {
		t.Errorf("critical paths %q (more: %v), want %q", got, more, want)
	}
}

// Order on the published networks: one pair of hands needs the sum of all
// labour, since nothing in them is a wait.
func TestPublishedNetworksWithOnePairOfHands(t *testing.T) {
	for _, p := range networks {
		list, _ := p.activities(t)
		n, _ := Plan(list)
		o, faults := n.Order(roundTheClock(t), Standing{Now: at("2026-08-03 00:00")})
		if faults != nil {
			t.Fatal(faults)
		}
		if got := o.Finish.Sub(o.Begin); got != n.Labour || !o.Shortest {
			t.Errorf("%s: over after %v, shortest %v; want %v", p.name, got, o.Shortest, n.Labour)
		}
	}
}

// threePointNetwork is a published network with three times for each activity.
type threePointNetwork struct {
	name, source string
	table        string // activity, predecessors, a m b, mean
	total        float64
	path         string
	slack        map[string]float64
}

var threePointNetworks = []threePointNetwork{
	{
		name: "eight activities", source: "Heizer and Render, Milwaukee Paper: from memory",
		total: 15, path: "A C E G H",
		slack: map[string]float64{"B": 1, "D": 1, "F": 6},
		table: `
			A -   1 2 3  2
			B -   2 3 4  3
			C A   1 2 3  2
			D A,B 2 4 6  4
			E C   1 4 7  4
			F C   1 2 9  3
			G D,E 3 4 11 5
			H F,G 1 2 3  2`,
	},
	{
		name: "seven activities", source: "encyclopaedia article on PERT: from memory; it adds rounded means and prints 19.51",
		total: 19.5, path: "A C E G",
		slack: map[string]float64{"B": 3.83, "D": 4.67, "F": 4.67},
		table: `
			A -   2 4 6  4.00
			B -   3 5 9  5.33
			C A   4 5 7  5.17
			D A   4 6 10 6.33
			E B,C 4 5 7  5.17
			F D   3 4 8  4.50
			G E   3 5 8  5.17`,
	},
	{
		name: "fourteen activities", source: "public solved exercise: means and first rows read, the rest recomputed",
		total: 50.83, path: "A C E H I K M N",
		slack: map[string]float64{"B": 8, "D": 1.83, "F": 1.83, "G": 5, "J": 2.5, "L": 2.5},
		table: `
			A -   5 5 7   -
			B -   1 2 5   -
			C A   5 5 5   -
			D A   4 8 13  -
			E B,C 1 10 17 -
			F D   1 5 7   -
			G D   2 6 9   -
			H E,F 4 4 6   -
			I G,H 2 7 10  -
			J I   2 4 7   -
			K I   6 10 13 -
			L J   2 6 6   -
			M K   2 2 3   -
			N L,M 7 7 12  -`,
	},
}

func TestThreePointNetworks(t *testing.T) {
	for _, p := range threePointNetworks {
		t.Run(p.name, func(t *testing.T) {
			list, path := p.read(t)
			n, faults := Plan(list)
			if faults != nil {
				t.Fatalf("%s: %v", p.source, faults)
			}
			if got := n.Total.Hours(); fmt.Sprintf("%.2f", got) != fmt.Sprintf("%.2f", p.total) {
				t.Errorf("total %.4f, want %.2f", got, p.total)
			}
			wantPaths(t, n, []string{p.path})
			for _, node := range n.Nodes {
				if got, want := node.TotalSlack.Hours(), p.slack[node.Name]; fmt.Sprintf("%.2f", got) != fmt.Sprintf("%.2f", want) {
					t.Errorf("slack of %s %.4f, want %.2f", node.Name, got, want)
				}
			}
			sum := 0.0
			for _, mean := range path {
				sum += mean
			}
			if !near(sum, n.Total.Hours(), 1e-9) {
				t.Errorf("means along the path are %v, the total %v", sum, n.Total.Hours())
			}
		})
	}
}

// read gives the activities, each as long as its mean in hours, and the means
// of those on the critical path. The mean of what is expected at best, most
// likely and at worst is (best + 4 likely + worst) / 6, as the books have it.
func (p threePointNetwork) read(t *testing.T) (list []Activity, path []float64) {
	for line := range strings.Lines(strings.TrimSpace(p.table)) {
		var a Activity
		var best, likely, worst float64
		var after, mean string
		if _, err := fmt.Sscan(line, &a.Name, &after, &best, &likely, &worst, &mean); err != nil {
			t.Fatal(err)
		}
		if after != "-" {
			a.After = strings.Split(after, ",")
		}
		expected := (best + 4*likely + worst) / 6
		if want, err := strconv.ParseFloat(mean, 64); err == nil && !near(expected, want, 0.005001) {
			t.Errorf("mean of %s %v, want %v", a.Name, expected, want)
		}
		a.Labour = time.Duration(expected*6+0.5) * (time.Hour / 6) // a sixth of an hour is exact
		list = append(list, a)
		if slices.Contains(strings.Fields(p.path), a.Name) {
			path = append(path, expected)
		}
	}
	return list, path
}
