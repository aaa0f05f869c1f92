package schedule

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// drawSteps draws activities without cycles, written in any order.
func drawSteps(t *rapid.T, most int) []Activity {
	n := rapid.IntRange(1, most).Draw(t, "steps")
	list := make([]Activity, n)
	for i := range list {
		list[i] = Activity{
			Name:   fmt.Sprint(i),
			Labour: time.Duration(rapid.IntRange(0, 600).Draw(t, "labour")) * time.Minute,
			Wait:   time.Duration(max(0, rapid.IntRange(-3000, 3000).Draw(t, "wait"))) * time.Minute,
		}
		if i > 0 {
			for _, p := range rapid.SliceOfN(rapid.IntRange(0, i-1), 0, 3).Draw(t, "after") {
				list[i].After = append(list[i].After, fmt.Sprint(p))
			}
		}
	}
	return rapid.Permutation(list).Draw(t, "written")
}

func drawStanding(t *rapid.T, list []Activity) Standing {
	s := Standing{Now: at("2026-08-03").Add(time.Duration(rapid.IntRange(0, 20*1440).Draw(t, "now")) * time.Minute)}
	for _, a := range list {
		p := Progress{Name: a.Name, State: State(max(0, rapid.IntRange(-9, int(Done)).Draw(t, "state")))}
		switch p.State {
		case ToDo:
			continue
		case Done:
			p.At = s.Now.Add(-time.Duration(rapid.IntRange(0, 4000).Draw(t, "ago")) * time.Minute)
		default:
			p.Spent = time.Duration(rapid.IntRange(0, 700).Draw(t, "spent")) * time.Minute
		}
		s.Progress = append(s.Progress, p)
	}
	return s
}

func mustPlan(t *rapid.T, list []Activity) *Network {
	n, faults := Plan(list)
	if faults != nil {
		t.Fatal(faults)
	}
	return n
}

func mustOrder(t *rapid.T, n *Network, c *Calendar, s Standing) *Order {
	o, faults := n.Order(c, s)
	if faults != nil {
		t.Fatal(faults)
	}
	return o
}

// Total slack ≥ free slack ≥ 0 everywhere, some path has none, and on every
// critical path each step begins when the one before is over.
func TestSlack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := drawSteps(t, 30)
		n := mustPlan(t, list)
		for _, node := range n.Nodes {
			if node.TotalSlack < node.FreeSlack || node.FreeSlack < 0 || node.EarliestFinish > node.LatestFinish || node.LatestFinish > n.Total {
				t.Fatalf("%+v of total %v", node, n.Total)
			}
		}
		paths, _ := n.CriticalPaths(50)
		if len(paths) == 0 {
			t.Fatal("no critical path")
		}
		for _, p := range paths {
			length := time.Duration(0)
			for k, name := range p {
				a := list[slices.IndexFunc(list, func(a Activity) bool { return a.Name == name })]
				length += a.Labour + a.Wait
				if k > 0 && !slices.Contains(a.After, p[k-1]) {
					t.Fatalf("%s does not come after %s", name, p[k-1])
				}
			}
			if length != n.Total {
				t.Fatalf("path %v is %v long, total %v", p, length, n.Total)
			}
		}
	})
}

// One more need never makes the total shorter; nor the finish of one pair of
// hands, where that is proved to be the earliest.
func TestOneMoreNeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := drawSteps(t, 9)
		c := drawCalendar(t)
		s := Standing{Now: at("2026-08-03 09:00")}
		n := mustPlan(t, list)
		i, p := rapid.IntRange(0, len(list)-1).Draw(t, "step"), rapid.IntRange(0, len(list)-1).Draw(t, "need")
		more := slices.Clone(list)
		more[i].After = append(slices.Clone(more[i].After), list[p].Name)
		tied, faults := Plan(more)
		if faults != nil {
			t.Skip("the need closes a cycle")
		}
		if tied.Total < n.Total {
			t.Fatalf("total %v, with a need more %v", n.Total, tied.Total)
		}
		o, with := mustOrder(t, n, c, s), mustOrder(t, tied, c, s)
		if o.Shortest && with.Finish.Before(o.Finish) {
			t.Fatalf("over %v, with a need more %v", o.Finish, with.Finish)
		}
	})
}

// An order is looked at from outside, with nothing of what made it.
func TestOrderIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := drawSteps(t, 16)
		c := drawCalendar(t)
		s := drawStanding(t, list)
		o := mustOrder(t, mustPlan(t, list), c, s)
		over := map[string]time.Time{}
		for _, p := range s.Progress {
			if p.State == Done {
				a := list[slices.IndexFunc(list, func(a Activity) bool { return a.Name == p.Name })]
				over[p.Name] = p.At.Add(a.Wait)
			}
		}
		if len(o.Slots)+len(over) != len(list) {
			t.Fatalf("%d slots and %d done of %d steps", len(o.Slots), len(over), len(list))
		}
		hands, finish := s.Now, s.Now
		for _, slot := range o.Slots {
			a := list[slot.Index]
			for _, need := range a.After {
				if end, placed := over[need]; slot.State != InHand && (!placed || slot.Start.Before(end)) {
					t.Fatalf("%s begins %v, %s it needs is over %v", slot.Name, slot.Start, need, end)
				}
			}
			checkLabour(t, c, slot, hands)
			if slot.Labour > 0 {
				hands = slot.End
			}
			if over[slot.Name] = slot.End.Add(a.Wait); !slot.Over.Equal(over[slot.Name]) {
				t.Fatalf("the wait of %s runs on the clock to %v, not %v", slot.Name, over[slot.Name], slot.Over)
			}
			if slot.Over.After(finish) {
				finish = slot.Over
			}
		}
		if !o.Finish.Equal(finish) || o.Least.After(o.Finish) {
			t.Fatalf("finish %v, least %v; the last is over %v", o.Finish, o.Least, finish)
		}
	})
}

// checkLabour looks at one slot: all its labour lies in working hours after
// the hands are free, and it begins and ends with work.
func checkLabour(t *rapid.T, c *Calendar, s Slot, hands time.Time) {
	if s.Labour == 0 {
		if !s.Start.Equal(s.End) {
			t.Fatalf("%s has no labour and takes from %v to %v", s.Name, s.Start, s.End)
		}
		return
	}
	if s.Start.Before(hands) {
		t.Fatalf("%s begins %v, the hands are free %v", s.Name, s.Start, hands)
	}
	worked := time.Duration(0)
	var first, last time.Time
	for stretch := range c.Spells(s.Start, s.End) {
		if first.IsZero() {
			first = stretch.From
		}
		last = stretch.To
		worked += stretch.To.Sub(stretch.From)
	}
	if worked != s.Labour || !first.Equal(s.Start) || !last.Equal(s.End) {
		t.Fatalf("%s works %v of %v, from %v to %v", s.Name, worked, s.Labour, s.Start, s.End)
	}
}

// elapsed ≥ max(critical path, sum of labour), on any calendar.
func TestElapsedTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := mustPlan(t, drawSteps(t, 20))
		o := mustOrder(t, n, drawCalendar(t), Standing{Now: at("2026-08-03 09:00")})
		if elapsed := o.Finish.Sub(o.Begin); elapsed < max(n.Total, n.Labour) {
			t.Fatalf("elapsed %v, critical path %v, labour %v", elapsed, n.Total, n.Labour)
		}
	})
}

// A day more until it is due is that day's hours more of slack, and the order
// stays as it was.
func TestDueADayLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, c := mustPlan(t, drawSteps(t, 12)), drawCalendar(t)
		s := Standing{Now: at("2026-08-03 09:00"), Due: at("2026-08-03").AddDate(0, 0, rapid.IntRange(-10, 60).Draw(t, "due"))}
		before := mustOrder(t, n, c, s)
		s.Due = s.Due.AddDate(0, 0, 1)
		after := mustOrder(t, n, c, s)
		if after.Slack-before.Slack != c.hoursOn(s.Due) {
			t.Fatalf("slack %v, a day of %v later %v", before.Slack, c.hoursOn(s.Due), after.Slack)
		}
		if before.Holds && !after.Holds || before.Holds != (before.Late == 0) || before.Slack < 0 && before.Holds {
			t.Fatalf("%v %v %v, later %v", before.Holds, before.Slack, before.Late, after.Holds)
		}
		if says(before) != says(after) {
			t.Fatal("the due date changed the order")
		}
	})
}

// The latest start of a step is just that: taking it up then still keeps the
// due date, and where it is critical a minute more does not keep the finish.
func TestLatestStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, c := mustPlan(t, drawSteps(t, 10)), drawCalendar(t)
		o := mustOrder(t, n, c, Standing{Now: at("2026-08-03 09:00")})
		k := rapid.IntRange(0, len(o.Slots)-1).Draw(t, "slot")
		later := func(by time.Duration) instant { // the sequence with the step held back
			j := *o.job
			j.free = slices.Clone(j.free)
			i := o.sequence[k]
			j.free[i] = max(j.free[i], instantOf(o.Slots[k].Latest)+instant(by))
			return j.run(o.sequence, make([]placed, len(o.sequence)))
		}
		if later(0).time().After(o.Finish) {
			t.Fatalf("%+v: begun at its latest, over %v, not %v", o.Slots[k], later(0).time(), o.Finish)
		}
		if !later(1).time().After(o.Finish) {
			t.Fatalf("%+v: begun after its latest, still over %v", o.Slots[k], o.Finish)
		}
		if o.Slots[k].Critical != !o.Slots[k].Latest.After(o.Slots[k].Start) || o.Slots[k].Slack < 0 {
			t.Fatalf("%+v", o.Slots[k])
		}
	})
}

// The same steps and calendar give the same order, and longer times in the
// same sequence never an earlier finish.
func TestSameOrderAndLongerTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list, c := drawSteps(t, 12), drawCalendar(t)
		s := drawStanding(t, list)
		a, b := mustOrder(t, mustPlan(t, list), c, s), mustOrder(t, mustPlan(t, list), c, s)
		if says(a) != says(b) {
			t.Fatalf("first\n%ssecond\n%s", says(a), says(b))
		}
		own, longer := make([]stepTimes, len(a.Slots)), make([]stepTimes, len(a.Slots))
		for k, slot := range a.Slots {
			own[k] = stepTimes{slot.Labour, slot.Over.Sub(slot.End)}
			longer[k] = stepTimes{own[k].Labour + time.Duration(rapid.IntRange(0, 300).Draw(t, "more"))*time.Minute, own[k].Wait}
		}
		if finish, ok := a.finishIf(own); !ok || !finish.Equal(a.Finish) {
			t.Fatalf("with its own times over %v, not %v", finish, a.Finish)
		}
		if finish, ok := a.finishIf(longer); !ok || finish.Before(a.Finish) {
			t.Fatalf("with longer times over %v, before %v", finish, a.Finish)
		}
	})
}
