package schedule

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestFaultsOfANetwork(t *testing.T) {
	h := time.Hour
	for _, test := range []struct {
		name string
		list []Activity
		kind FaultKind
		want string
	}{
		{
			"cycle",
			[]Activity{step("cut", h, 0, "press"), step("sew", h, 0, "cut"), step("press", h, 0, "sew"), step("hem", h, 0, "press")},
			Cycle,
			"these steps wait for each other: cut → sew → press → cut; one of them must come first",
		},
		{"itself", []Activity{step("hem", h, 0, "hem")}, Cycle, `"hem" comes after itself; take that out of after:`},
		{
			"two knots",
			[]Activity{step("a", h, 0, "b"), step("b", h, 0, "a", "d"), step("c", h, 0, "d"), step("d", h, 0, "c")},
			Cycle,
			"these steps wait for each other: a → b → a; one of them must come first\nthese steps wait for each other: c → d → c; one of them must come first",
		},
		{
			"the shortest way round",
			[]Activity{step("a", h, 0, "b", "c"), step("b", h, 0, "c"), step("c", h, 0, "a")},
			Cycle,
			"these steps wait for each other: a → c → a; one of them must come first",
		},
		{
			"unknown",
			[]Activity{step("cut skirt", h, 0), step("join skirt", h, 0, "cut skrit")},
			UnknownNeed,
			`"join skirt" comes after "cut skrit", and no step has that name; did you mean "cut skirt"?`,
		},
		{
			"unknown and like nothing",
			[]Activity{step("cut", h, 0), step("join", h, 0, "launch")},
			UnknownNeed,
			`"join" comes after "launch", and no step has that name`,
		},
		{"unknown and like itself only", []Activity{step("hems", h, 0, "hem")}, UnknownNeed, `"hems" comes after "hem", and no step has that name`},
		{"twice", []Activity{step("hem", h, 0), step("hem", h, 0)}, Duplicate, `two steps are named "hem"; give each step a name of its own`},
		{"no name", []Activity{step("", h, 0)}, NoName, "step 1 has no name; give it a name"},
		{"less than nothing", []Activity{step("hem", -h, 0), step("cut", 0, -1)}, BadTime, "the labour of \"hem\" is less than nothing\nthe wait of \"cut\" is less than nothing"},
		{"too long", []Activity{step("hem", 1<<62, 0)}, BadTime, `the labour of "hem" is more than 20 years; is the unit right?`},
		{"too long together", []Activity{step("a", longest, 0), step("b", 0, 1)}, BadTime, "the steps and their waits add up to more than 20 years; are the units right?"},
	} {
		t.Run(test.name, func(t *testing.T) {
			n, faults := Plan(test.list)
			if faults.Error() != test.want || n != nil {
				t.Errorf("got %q, want %q", faults.Error(), test.want)
			}
			if slices.ContainsFunc(faults, func(f Fault) bool { return f.Kind != test.kind }) {
				t.Errorf("kinds of %v", faults)
			}
		})
	}
}

func TestNothingToPlan(t *testing.T) {
	n := plan(t)
	paths, more := n.CriticalPaths(3)
	if n.Total != 0 || paths != nil || more {
		t.Errorf("total %v, paths %v", n.Total, paths)
	}
	o := order(t, n, nil, Standing{Now: at("2026-08-03 09:00"), Due: at("2026-08-03")})
	if !o.Shortest || !o.Holds || !o.Finish.Equal(o.Begin) {
		t.Errorf("%+v", o)
	}
}

// A wait uses time and no labour: 2 h cutting, 24 h hanging, 1 h levelling is
// 27 h long and 3 h of work. A need written twice is one.
func TestWaitIsElapsedTime(t *testing.T) {
	n := plan(t, step("cut", 2*time.Hour, 24*time.Hour), step("bodice", 8*time.Hour, 0), step("level", time.Hour, 0, "cut", "bodice", "cut"))
	if n.Total != 27*time.Hour || n.Labour != 11*time.Hour || n.Nodes[1].TotalSlack != 18*time.Hour {
		t.Errorf("total %v, labour %v, slack of the bodice %v", n.Total, n.Labour, n.Nodes[1].TotalSlack)
	}
	wantPaths(t, n, []string{"cut level"})
}

// Dummies of zero length at both ends and between join paths and add nothing.
func TestZeroLength(t *testing.T) {
	n := plan(t, step("end", 0, 0, "b", "c"), step("start", 0, 0), step("a", 1, 0, "start"), step("tie", 0, 0, "a"), step("b", 1, 0, "tie"), step("c", 2, 0, "start"))
	if n.Total != 2 {
		t.Errorf("total %v", n.Total)
	}
	wantPaths(t, n, []string{"start a tie b end", "start c end"})
}

// Forty rungs of two equal steps each have 2⁴⁰ critical paths: asking for
// three must give three.
func TestManyCriticalPaths(t *testing.T) {
	list := []Activity{step("0", 0, 0)}
	for i := range 40 {
		from, to := fmt.Sprint(i), fmt.Sprint(i+1)
		list = append(list, step("l"+to, 1, 0, from), step("r"+to, 1, 0, from), step(to, 0, 0, "l"+to, "r"+to))
	}
	paths, more := plan(t, list...).CriticalPaths(3)
	if len(paths) != 3 || !more || len(paths[0]) != 81 {
		t.Errorf("%d paths, more: %v", len(paths), more)
	}
	if paths, more := plan(t, list...).CriticalPaths(-1); paths != nil || !more {
		t.Errorf("asked for none: %v, more: %v", paths, more)
	}
}

// Depth must not matter: a chain and a cycle of 20 000 steps.
func TestLongChain(t *testing.T) {
	list := make([]Activity, 20000)
	for i := range list {
		list[i] = step(fmt.Sprint(i), time.Minute, 0)
		if i > 0 {
			list[i].After = []string{fmt.Sprint(i - 1)}
		}
	}
	n := plan(t, list...)
	if paths, _ := n.CriticalPaths(2); len(paths) != 1 || len(paths[0]) != len(list) {
		t.Errorf("%d critical paths", len(paths))
	}
	list[0].After = []string{"19999"}
	_, faults := Plan(list)
	if len(faults) != 1 || len(faults[0].Names) != len(list) || !strings.HasSuffix(faults[0].Message, "→ 19999 → 0") {
		t.Errorf("%d faults", len(faults))
	}
}
