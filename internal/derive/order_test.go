package derive

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"hembook/internal/figure"
	"hembook/internal/order"

	"pgregory.net/rapid"
)

// hours are six a day, Monday to Friday, so that days can be counted by hand.
const hours = "name: Test workroom\nhours: {mon: \"09:00-12:00, 13:00-16:00\", tue: \"09:00-12:00, 13:00-16:00\", wed: \"09:00-12:00, 13:00-16:00\", thu: \"09:00-12:00, 13:00-16:00\", fri: \"09:00-12:00, 13:00-16:00\"}\n"

// hung is a skirt that hangs for a day while its bodice is made. 3 August 2026
// is a Monday.
const hung = `begun: 2026-08-03
due: 2026-08-07
work:
  cut: {takes: 2 h, stage: cutting}
  bodice: {takes: 4 h, stage: sewing, after: cut}
  skirt: {takes: 1 h, wait: 24 h, stage: sewing, after: cut}
  level: {takes: 1 h, stage: finishing, after: [skirt, bodice]}
`

func roomWithHours(t testing.TB) *testRoom { return roomWith(t).file("content/workroom.yaml", hours) }

// timing derives a build and looks at its order of work.
func timing(t testing.TB, r *testRoom, build string, from order.Standing) *order.Timing {
	t.Helper()
	d := r.desk()
	g, faults := d.derive(t, head+build)
	out := d.tailor.Timing(g, from)
	for _, f := range slices.Concat(faults, g.Faults, out.Faults) {
		t.Errorf("fault: %s", f)
	}
	return out
}

func at(text string) time.Time {
	t, err := time.Parse(figure.MomentForm, text)
	if err != nil {
		panic(err)
	}
	return t
}

func ids(steps []*order.StepTime) string {
	var out []string
	for _, s := range steps {
		out = append(out, s.ID)
	}
	return strings.Join(out, " ")
}

// text is a value as a test compares it.
func text(v figure.Value) string {
	if !v.Known() {
		return "? " + v.Why
	}
	return v.Text()
}

func shows(t *testing.T, want map[string]string, got map[string]figure.Value) {
	t.Helper()
	for name, v := range got {
		if text(v) != want[name] {
			t.Errorf("%s: %q, want %q", name, text(v), want[name])
		}
	}
}

func TestOrderByHand(t *testing.T) {
	// Monday: cut 9 to 11, skirt 11 to 12, bodice 13 to 16 and Tuesday 9 to 10.
	// The skirt hangs until Tuesday noon; levelled 13 to 14, after the pause.
	// From there to Friday 16:00 it is 2 + 6 + 6 + 6 = 20 hours.
	got := timing(t, roomWithHours(t), hung, order.Standing{Now: at("2026-08-03 08:00")})
	shows(t, map[string]string{
		"planned": "480 min", "left": "480 min", "chain": "1680 min", "finish": "2026-08-04 14:00",
		"due": "2026-08-07 16:00", "slack": "1200 min", "plan": "2026-08-04 14:00", "bodice": "2026-08-03 13:00", "bodice over": "2026-08-04 10:00",
	}, map[string]figure.Value{
		"planned": got.Planned.Value, "left": got.Left.Value, "chain": got.ChainLong.Value, "finish": got.Finish.Value,
		"due": got.Due.Value, "slack": got.Slack.Value, "plan": got.PlanFinish.Value,
		"bodice": got.Steps[1].Start.Value, "bodice over": got.Steps[1].End.Value,
	})
	if ids(got.Order) != "cut skirt bodice level" || ids(got.Start) != "cut" || ids(got.Chain) != "cut skirt level" {
		t.Errorf("order %q, start %q, chain %q", ids(got.Order), ids(got.Start), ids(got.Chain))
	}
	if !got.Holds || !got.HighHolds || !got.Shortest || got.Over || got.Guesses != 4 || got.Steps[1].Critical {
		t.Errorf("holds %v, even at worst %v, shortest %v, over %v, guesses %d, bodice critical %v", got.Holds, got.HighHolds, got.Shortest, got.Over, got.Guesses, got.Steps[1].Critical)
	}
	if n := len(got.Steps[1].Ahead); n != 2 {
		t.Errorf("the bodice is sewn in %d stretches, want 2", n)
	}
	if s := got.Steps[2].Resting; s != (order.Spell{From: at("2026-08-03 12:00"), To: at("2026-08-04 12:00")}) {
		t.Errorf("the skirt hangs %v", s)
	}
}

func TestOrderFromTheJournal(t *testing.T) {
	// Cut in 100 of 120 minutes, which shows from the skirt being sewn after it;
	// the skirt in its hour, over at 11:50. Half of the bodice is left, and an
	// hour of levelling.
	journal := `journal:
  - {at: 2026-08-03 09:10, did: cut, for: 100 min}
  - {at: 2026-08-03 10:50, did: skirt, for: 60 min}
  - {at: 2026-08-03 13:00, did: bodice, for: 120 min}
`
	r := roomWithHours(t)
	d := r.desk()
	g, _ := d.derive(t, head+hung+journal)
	now, known := g.LastMoment()
	if !known || !now.Equal(at("2026-08-03 15:00")) {
		t.Fatalf("the last moment is %v", now)
	}
	got := d.tailor.Timing(g, order.Standing{Now: now})
	shows(t, map[string]string{
		"left": "180 min", "spent": "280 min", "finish": "2026-08-04 13:50", "chain": "1310 min", "cut": "0 min", "bodice": "120 min", "level": "2026-08-04 11:50",
		"sewing": "180 min",
	}, map[string]figure.Value{
		"left": got.Left.Value, "spent": got.Spent.Value, "finish": got.Finish.Value, "chain": got.ChainLong.Value,
		"cut": got.Steps[0].Left.Value, "bodice": got.Steps[1].Left.Value, "level": got.Steps[3].Start.Value,
		"sewing": g.Stages[1].Spent.Value,
	})
	var states []string
	for _, s := range got.Steps {
		states = append(states, s.State.String())
	}
	if s := strings.Join(states, ", "); s != "done, under way, done, to do" {
		t.Error(s)
	}
	if ids(got.Start) != "bodice" || ids(got.Chain) != "skirt level" {
		t.Errorf("start %q, chain %q", ids(got.Start), ids(got.Chain))
	}
	running := d.tailor.Timing(g, order.Standing{Now: now, Running: map[string]time.Duration{"bodice": time.Hour}})
	if running.Steps[1].State != order.InHand || text(running.Steps[1].Left.Value) != "60 min" {
		t.Errorf("with its clock running the bodice is %s, %s left", running.Steps[1].State, text(running.Steps[1].Left.Value))
	}
}

func TestStatesOfSteps(t *testing.T) {
	for _, c := range []struct{ name, more, want string }{
		{"nothing clocked", "", "to do"},
		{"a part", "journal: [{at: 2026-08-03 09:00, did: cut, for: 60 min}]\n", "under way"},
		{"all that was planned", "journal: [{at: 2026-08-03 09:00, did: cut, for: 60 min}, {at: 2026-08-04, did: cut, for: 60 min}]\n", "done"},
		{"said to be done", "journal: [{at: 2026-08-03 09:00, did: cut, for: 60 min, done: true}]\n", "done"},
		{"said without a time", "journal: [{at: 2026-08-03 09:00, did: cut, done: true}]\n", "done"},
		{"followed from afar", "journal: [{at: 2026-08-03 09:00, did: cut, for: 60 min}, {at: 2026-08-04 09:00, did: level, for: 10 min}]\n", "done"},
		{"followed, and worked on again", "journal: [{at: 2026-08-03 09:00, did: cut, for: 60 min}, {at: 2026-08-04 09:00, did: level, for: 10 min}, {at: 2026-08-05 09:00, did: cut, for: 10 min}]\n", "under way"},
		{"not clocked, but followed", "journal: [{at: 2026-08-04 09:00, did: level, for: 10 min}]\n", "to do"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := timing(t, roomWithHours(t), hung+c.more, order.Standing{Now: at("2026-08-05 12:00")})
			if s := got.Steps[0]; s.State.String() != c.want || s.Why == "" {
				t.Errorf("%s (%s), want %s", s.State, s.Why, c.want)
			}
			if c.name == "not clocked, but followed" && ids(got.Early) != "level" {
				t.Errorf("early: %q, want the step that was worked on too soon", ids(got.Early))
			}
		})
	}
}

func TestHangingNeedsNoHands(t *testing.T) {
	build := `begun: 2026-08-03
work: {band: 1 h, hang: {wait: 24 h, after: band}, hem: {takes: 1 h, after: hang}}
journal: [{at: 2026-08-03 09:00, did: band, for: 60 min}]
`
	got := timing(t, roomWithHours(t), build, order.Standing{Now: at("2026-08-03 10:00")})
	if got.Steps[1].State != order.Done || text(got.Steps[2].Start.Value) != "2026-08-04 10:00" || text(got.Finish.Value) != "2026-08-04 11:00" {
		t.Errorf("hang is %s, hem begins %s, over %s", got.Steps[1].State, text(got.Steps[2].Start.Value), text(got.Finish.Value))
	}
	if ids(got.Chain) != "hang hem" || text(got.ChainLong.Value) != "1500 min" {
		t.Errorf("chain %q of %s", ids(got.Chain), text(got.ChainLong.Value))
	}
}

func TestWhatCannotBeDated(t *testing.T) {
	t.Run("no hours", func(t *testing.T) {
		got := timing(t, roomWith(t), hung, order.Standing{Now: at("2026-08-03 08:00")})
		if got.HoursKnown || !strings.Contains(got.Finish.Value.Why, "hours:") || text(got.ChainLong.Value) != "1680 min" || text(got.Left.Value) != "480 min" {
			t.Errorf("finish %s, chain %s, left %s", text(got.Finish.Value), text(got.ChainLong.Value), text(got.Left.Value))
		}
	})
	t.Run("a step without a time", func(t *testing.T) {
		build := strings.Replace(hung, "level: {takes: 1 h, ", "level: {", 1)
		got := timing(t, roomWithHours(t), build, order.Standing{Now: at("2026-08-03 08:00")})
		if got.Finish.Value.Why != "no time yet for level: write takes: 1 h" || text(got.NotBefore.Value) != "2026-08-04 12:00" || got.Holds || got.Shortest {
			t.Errorf("finish %s, not before %s", text(got.Finish.Value), text(got.NotBefore.Value))
		}
		if v := got.Steps[3].Estimate.Figure.Value; v.Why != "no time for this step: write takes: 1 h" {
			t.Error(v.Why)
		}
	})
	t.Run("sent", func(t *testing.T) {
		d := roomWithHours(t).desk()
		g, _ := d.derive(t, strings.Replace(head, "sewing", "sent", 1)+hung+"journal: [{at: 2026-08-05 09:00, did: level, for: 60 min}]\n")
		got := d.tailor.Timing(g, order.Standing{Now: at("2026-09-01 09:00")})
		// Wednesday 10:00 to Friday 16:00: 5 + 6 + 6 hours.
		if !got.Over || !got.Holds || text(got.Finish.Value) != "2026-08-05 10:00" || text(got.Slack.Value) != "1020 min" || text(got.Left.Value) != "0 min" {
			t.Errorf("over %v, finish %s, slack %s", got.Over, text(got.Finish.Value), text(got.Slack.Value))
		}
	})
	t.Run("too long to be meant", func(t *testing.T) {
		d := roomWithHours(t).desk()
		g, _ := d.derive(t, head+"begun: 2026-08-03\nwork:\n  cut: 200000 h\n")
		got := d.tailor.Timing(g, order.Standing{Now: at("2026-09-01 09:00")})
		if len(got.Faults) == 0 || got.Faults[0].At.Line != 6 || got.Finish.Value.Known() {
			t.Errorf("faults %v, finish %s", got.Faults, text(got.Finish.Value))
		}
	})
}

func TestDueDateThatDoesNotHold(t *testing.T) {
	build := strings.Replace(hung, "due: 2026-08-07", "due: 2026-08-03", 1)
	got := timing(t, roomWithHours(t), build, order.Standing{Now: at("2026-08-03 08:00")})
	// Over on Tuesday at 14:00, four working hours after Monday 16:00.
	if got.Holds || text(got.Slack.Value) != "−240 min" {
		t.Errorf("holds %v, slack %s", got.Holds, text(got.Slack.Value))
	}
	// the cutting would have had to begin four working hours before Monday 9:00
	if cut := got.Steps[0]; text(cut.Slack.Value)[:len("−")] != "−" {
		t.Errorf("cut has %s slack", text(cut.Slack.Value))
	}
}

// TestTimingHoldsTogether: whatever the work, its times agree with each other.
func TestTimingHoldsTogether(t *testing.T) {
	d := roomWithHours(t).desk()
	rapid.Check(t, func(rt *rapid.T) {
		var b strings.Builder
		b.WriteString(head + "begun: 2026-08-03\ndue: 2026-08-14\nwork:\n")
		n := rapid.IntRange(1, 9).Draw(rt, "steps")
		for i := range n {
			b.WriteString("  s" + string(rune('a'+i)) + ": {stage: sewing")
			if m := rapid.IntRange(0, 300).Draw(rt, "takes"); m > 0 {
				b.WriteString(", takes: " + strconv.Itoa(m) + " min")
			}
			if m := rapid.IntRange(-20, 30).Draw(rt, "wait"); m > 0 {
				b.WriteString(", wait: " + strconv.Itoa(m) + " h")
			}
			if i > 0 && rapid.Bool().Draw(rt, "needs") {
				b.WriteString(", after: s" + string(rune('a'+rapid.IntRange(0, i-1).Draw(rt, "need"))))
			}
			b.WriteString("}\n")
		}
		b.WriteString("journal:\n  - {at: 2026-08-03 09:00, note: begun}\n")
		for range rapid.IntRange(0, 6).Draw(rt, "entries") {
			b.WriteString("  - {at: 2026-08-0" + strconv.Itoa(rapid.IntRange(3, 7).Draw(rt, "day")) + " 10:00, did: s" +
				string(rune('a'+rapid.IntRange(0, n-1).Draw(rt, "did"))) + ", for: " + strconv.Itoa(rapid.IntRange(1, 200).Draw(rt, "for")) + " min}\n")
		}
		g, faults := d.derive(t, b.String())
		if len(faults) > 0 {
			rt.Fatal(faults)
		}
		now, _ := g.LastMoment()
		got := d.tailor.Timing(g, order.Standing{Now: now})
		holdsTogether(rt, got)
	})
}

func holdsTogether(rt *rapid.T, got *order.Timing) {
	seen := map[string]bool{}
	for _, f := range got.Figures() {
		if seen[f.ID] || f.Value.Known() && f.Working.Sum() == "" {
			rt.Fatalf("%s comes twice or has no working", f.ID)
		}
		seen[f.ID] = true
	}
	left := 0
	for _, s := range got.Steps {
		if s.State == order.Done {
			if s.Turn != 0 || s.Start.ID != "" {
				rt.Fatalf("%s is done and has a turn", s.ID)
			}
			continue
		}
		left++
		if s.Start.Value.Moment.Before(got.Now) || s.Ready.Value.Moment.Before(*s.End.Value.Moment) {
			rt.Fatalf("%s begins in the past, or is over before it is done", s.ID)
		}
		for _, by := range s.NeededBy {
			if by.State == order.ToDo && by.Start.Value.Moment.Before(*s.Ready.Value.Moment) {
				rt.Fatalf("%s begins before %s, which it needs, is over", by.ID, s.ID)
			}
		}
	}
	if left != len(got.Order) || got.Over != (left == 0) {
		rt.Fatalf("%d steps are left, %d are ordered", left, len(got.Order))
	}
	if got.Holds && got.Finish.Value.Known() && got.Finish.Value.Moment.After(*got.Due.Value.Moment) {
		rt.Fatal("the due date holds, but the finish is after it")
	}
}

// TestFaultyWorkIsLookedAtAllTheSame: what the reader faults must not bring
// the order of work down, nor be told twice.
func TestFaultyWorkIsLookedAtAllTheSame(t *testing.T) {
	for _, c := range []struct{ name, work string }{
		{"a circle", "{a: {after: b, takes: 1 h}, b: {after: a, takes: 1 h}}"},
		{"waits in a circle", "{a: {after: b, wait: 1 h}, b: {after: a, wait: 1 h}}"},
		{"itself", "{a: {after: a, wait: 2 h}}"},
		{"twice the same", "{a:, a: {after: a}}"},
		{"a need that is not there", "{a: {after: z, takes: 1 h}}"},
		{"no words", "[{takes: 1 h}, {takes: 2 h}]"},
		{"nothing readable", "{a: {takes: soon, wait: [1], sews: {x: 1}}}"},
		{"none", "[]"},
	} {
		for _, state := range []string{"sewing", "sent"} {
			t.Run(c.name+", "+state, func(t *testing.T) {
				d := roomWithHours(t).desk()
				g, faults := d.derive(t, strings.Replace(head, "sewing", state, 1)+"begun: 2026-08-03\nwork: "+c.work+"\njournal: [{at: 2026-08-03 09:00, did: a, for: 10 min}]\n")
				got := d.tailor.Timing(g, order.Standing{Now: at("2026-08-05 12:00")})
				if len(got.Steps) != len(g.Steps) {
					t.Errorf("%d steps of %d", len(got.Steps), len(g.Steps))
				}
				if len(faults) > 0 && len(got.Faults) > 0 {
					t.Errorf("told twice: %v and %v", faults, got.Faults)
				}
				if len(faults) == 0 && c.name != "none" {
					t.Error("the reader found nothing wrong")
				}
			})
		}
	}
}
