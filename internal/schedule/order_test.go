package schedule

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

// says prints an order as a maker would read it.
func says(o *Order) string {
	var b strings.Builder
	for _, s := range o.Slots {
		mark := ""
		if s.Critical {
			mark = " !"
		}
		fmt.Fprintf(&b, "%s: %s - %s", s.Name, s.Start.Format("Mon 15:04"), s.End.Format("Mon 15:04"))
		if !s.Over.Equal(s.End) {
			fmt.Fprintf(&b, ", over %s", s.Over.Format("Mon 15:04"))
		}
		b.WriteString(mark + "\n")
	}
	return b.String()
}

// skirt and bodice: the skirt must hang 24 h before it is levelled, so it is
// cut first though the bodice was written first.
func skirtAndBodice() []Activity {
	return []Activity{
		step("cut bodice", 2*time.Hour, 0),
		step("sew bodice", 4*time.Hour, 0, "cut bodice"),
		step("cut skirt", 2*time.Hour, 24*time.Hour),
		step("join", time.Hour, 0, "sew bodice", "cut skirt"),
		step("level", 2*time.Hour, 0, "join"),
	}
}

// By hand: Monday 9-11 cut the skirt; it hangs to Tuesday 11:00. Cut the
// bodice 11-14 (lunch between), sew it 14-17 and Tuesday 9-10. Then nothing
// can be done until 11:00: join 11-12, level 12-15 (lunch between).
func TestWhatHangsIsStartedFirst(t *testing.T) {
	o := order(t, plan(t, skirtAndBodice()...), calendar(t, workWeek()), Standing{Now: at("2026-08-03 08:00"), Due: at("2026-08-05")})
	want := `cut skirt: Mon 09:00 - Mon 11:00, over Tue 11:00 !
cut bodice: Mon 11:00 - Mon 14:00
sew bodice: Mon 14:00 - Tue 10:00
join: Tue 11:00 - Tue 12:00 !
level: Tue 12:00 - Tue 15:00 !
`
	if got := says(o); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	// Due Wednesday 12:30: two hours of Tuesday and three and a half of Wednesday.
	if !o.Holds || o.Slack != 5*time.Hour+30*time.Minute || moment(o.Due) != "Wed 2026-08-05 12:30" || o.Late != 0 {
		t.Errorf("holds %v, slack %v, due %s", o.Holds, o.Slack, moment(o.Due))
	}
	if !o.Shortest || !o.Least.Equal(o.Finish) || o.Labour != 11*time.Hour {
		t.Errorf("shortest %v, least %v, labour %v", o.Shortest, o.Least, o.Labour)
	}
	if want := []string{"cut skirt", "cut bodice"}; !slices.Equal(o.Now, want) {
		t.Errorf("now %q, want %q", o.Now, want)
	}
	// Sewing may begin an hour later for the finish, and later still for
	// the due date: level from Wed 10:30, join from 9:30; so sew half an hour of
	// Wednesday and Tuesday's afternoon. Monday 14:00 to Tuesday 13:30 are 3 + 3½ h.
	sew := o.Slots[2]
	if moment(sew.Latest) != "Tue 2026-08-04 13:30" || sew.Slack != 6*time.Hour+30*time.Minute {
		t.Errorf("sew bodice: latest %s, slack %v", moment(sew.Latest), sew.Slack)
	}
}

func TestDueDateThatDoesNotHold(t *testing.T) {
	n, c := plan(t, skirtAndBodice()...), calendar(t, workWeek())
	o := order(t, n, c, Standing{Now: at("2026-08-03 08:00"), Due: at("2026-08-03")})
	if o.Holds || o.Slack != -5*time.Hour || o.Late != 22*time.Hour { // Tuesday 9-12:30 and 13:30-15
		t.Errorf("holds %v, slack %v, late %v", o.Holds, o.Slack, o.Late)
	}
	if first := o.Slots[0]; first.Slack >= 0 || !first.Latest.Before(first.Start) {
		t.Errorf("%s: latest %v, slack %v", first.Name, first.Latest, first.Slack)
	}
}

// A wait that runs past the end of hours makes the day late with no working
// hour between; a wait on a day off is in time for that day.
func TestWaitAfterHours(t *testing.T) {
	c := calendar(t, workWeek())
	n := plan(t, step("block", time.Hour, 9*time.Hour))
	o := order(t, n, c, Standing{Now: at("2026-08-03 09:00"), Due: at("2026-08-03")})
	if o.Holds || o.Slack != 0 || o.Late != 2*time.Hour {
		t.Errorf("holds %v, slack %v, late %v", o.Holds, o.Slack, o.Late)
	}
	n = plan(t, step("hang", time.Hour, 24*time.Hour))
	o = order(t, n, c, Standing{Now: at("2026-08-07 16:00"), Due: at("2026-08-08")})
	if !o.Holds || o.Slack != 0 {
		t.Errorf("Saturday: holds %v, slack %v", o.Holds, o.Slack)
	}
}

// Hanging needs no hands: it begins when what it needs is over, at night too.
func TestStepWithoutLabour(t *testing.T) {
	n := plan(t, step("sew", 7*time.Hour, 5*time.Hour), step("hang", 0, 10*time.Hour, "sew"), step("other", time.Hour, 0), step("hem", time.Hour, 0, "hang"))
	o := order(t, n, calendar(t, workWeek()), Standing{Now: at("2026-08-03 09:00")})
	want := `sew: Mon 09:00 - Mon 17:00, over Mon 22:00 !
hang: Mon 22:00 - Mon 22:00, over Tue 08:00
other: Tue 09:00 - Tue 10:00 !
hem: Tue 10:00 - Tue 11:00 !
`
	if got := says(o); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestHowTheWorkStands(t *testing.T) {
	n, c := plan(t, skirtAndBodice()...), calendar(t, workWeek())
	s := Standing{Now: at("2026-08-03 14:00"), Progress: []Progress{
		{Name: "cut skirt", State: Done, At: at("2026-08-03 11:00")},
		{Name: "sew bodice", State: InHand, Spent: 90 * time.Minute},
	}}
	o := order(t, n, c, s)
	// Sewing goes on for 2½ h though the bodice is not said to be cut.
	want := `sew bodice: Mon 14:00 - Mon 16:30
cut bodice: Mon 16:30 - Tue 10:30
join: Tue 11:00 - Tue 12:00 !
level: Tue 12:00 - Tue 15:00 !
`
	if got := says(o); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if !slices.Equal(o.Early, []string{"sew bodice"}) || !slices.Equal(o.Now, []string{"sew bodice", "cut bodice"}) {
		t.Errorf("early %q, now %q", o.Early, o.Now)
	}
	if len(o.Waiting) != 1 || o.Waiting[0].Name != "cut skirt" || moment(o.Waiting[0].Over) != "Tue 2026-08-04 11:00" {
		t.Errorf("waiting %v", o.Waiting)
	}
	if o.Slots[0].State != InHand || o.Slots[0].Index != 1 || o.Slots[0].Labour != 150*time.Minute {
		t.Errorf("%+v", o.Slots[0])
	}
}

func TestProgressOfSteps(t *testing.T) {
	n, c := plan(t, skirtAndBodice()...), calendar(t, workWeek())
	now := at("2026-08-03 14:00")
	for _, test := range []struct {
		name   string
		list   []Progress
		labour time.Duration
		now    string
	}{
		{"nothing done", nil, 11 * time.Hour, "cut skirt, cut bodice"},
		{"done long ago", []Progress{{Name: "cut skirt", State: Done}, {Name: "cut bodice", State: Done}}, 7 * time.Hour, "sew bodice"},
		{"begun and laid aside", []Progress{{Name: "cut bodice", State: Begun, Spent: time.Hour}}, 10 * time.Hour, "cut skirt, cut bodice"},
		{"left said outright", []Progress{{Name: "cut bodice", State: Begun, Spent: time.Hour, Left: 5 * time.Hour}}, 14 * time.Hour, "cut skirt, cut bodice"},
		{"longer than planned", []Progress{{Name: "cut bodice", State: InHand, Spent: 9 * time.Hour}}, 9 * time.Hour, "cut bodice, cut skirt"},
		{"two in hand", []Progress{{Name: "cut skirt", State: InHand}, {Name: "cut bodice", State: InHand}}, 11 * time.Hour, "cut bodice, cut skirt"},
	} {
		o := order(t, n, c, Standing{Now: now, Progress: test.list})
		if got := strings.Join(o.Now, ", "); o.Labour != test.labour || got != test.now {
			t.Errorf("%s: labour %v, now %s; want %v, %s", test.name, o.Labour, got, test.labour, test.now)
		}
	}
}

func TestFaultsOfAStanding(t *testing.T) {
	n := plan(t, skirtAndBodice()...)
	now := at("2026-08-03 09:00")
	c := calendar(t, workWeek())
	for _, test := range []struct {
		name string
		cal  *Calendar
		s    Standing
		want string
	}{
		{"unknown step", c, Standing{Now: now, Progress: []Progress{{Name: "cut the skirt", State: Done}}}, `there is no step "cut the skirt"; did you mean "cut skirt"?`},
		{"twice", c, Standing{Now: now, Progress: []Progress{{Name: "join", State: Done}, {Name: "join", State: Begun}}}, `there are two reports on "join"`},
		{"less than nothing", c, Standing{Now: now, Progress: []Progress{{Name: "join", State: Begun, Spent: -1}}}, `the time of "join" is less than nothing`},
		{"much left", c, Standing{Now: now, Progress: []Progress{{Name: "join", State: Begun, Left: 1 << 62}}}, `the time to do for "join" makes the work longer than 20 years; is the unit right?`},
		{"no moment", c, Standing{}, "the work cannot begin on 0001-01-01; is the year right?"},
		{"due in the past century", c, Standing{Now: now, Due: at("1826-08-03")}, "the work cannot be due on 1826-08-03; is the year right?"},
		{"done in the year 26", c, Standing{Now: now, Progress: []Progress{{Name: "join", State: Done, At: at("0026-08-03")}}}, `"join" cannot have been done on 0026-08-03; is the year right?`},
		{"no calendar", nil, Standing{Now: now}, "there is work to do and no working hours to do it in; give the working hours of at least one weekday"},
		{"no hours", calendar(t, Week{}), Standing{Now: now}, "there is work to do and no working hours to do it in; give the working hours of at least one weekday"},
	} {
		o, faults := n.Order(test.cal, test.s)
		if faults.Error() != test.want || o != nil {
			t.Errorf("%s: got %q, want %q", test.name, faults.Error(), test.want)
		}
	}
	slow := plan(t, step("embroider", 19*365*24*time.Hour, 0))
	if _, faults := slow.Order(calendar(t, Week{time.Monday: {{0, 1}}}), Standing{Now: now}); len(faults) != 1 || faults[0].Kind != NoHours {
		t.Errorf("a minute a week: %v", faults)
	}
}

// Every order of few steps, tried one by one, agrees with the search.
func TestAgainstEveryOrder(t *testing.T) {
	c := calendar(t, workWeek(), "2026-08-06")
	rng := rand.New(rand.NewPCG(5, 6))
	proved := 0
	const runs = 200
	for range runs {
		n := plan(t, randomJob(rng, 7)...)
		s := Standing{Now: at("2026-08-03 10:00")}
		o := order(t, n, c, s)
		best := bestOfAll(o.job)
		if !o.Finish.Equal(best.time()) {
			t.Errorf("over %v, another order %v", o.Finish, best.time())
		}
		if o.Least.After(best.time()) {
			t.Errorf("the least is %v, and an order is over %v", o.Least, best.time())
		}
		if o.Shortest {
			proved++
		}
	}
	t.Logf("%d of %d proved", proved, runs)
	if proved < runs*9/10 {
		t.Errorf("only %d of %d proved", proved, runs)
	}
}

// bestOfAll tries every sequence that respects needs.
func bestOfAll(j *job) instant {
	best, at, used := farFuture, make([]placed, len(j.places)), make([]bool, len(j.places))
	var try func(sequence []int32)
	try = func(sequence []int32) {
		if len(sequence) == len(j.places) {
			best = min(best, j.run(sequence, at))
		}
		for i := range int32(len(j.places)) {
			if !used[i] && !slices.ContainsFunc(j.needs.of(i), func(p int32) bool { return !used[p] }) {
				used[i] = true
				try(append(sequence, i))
				used[i] = false
			}
		}
	}
	try(nil)
	return best
}

// randomJob makes steps of which some wait, some have no labour, and each may
// need some before it.
func randomJob(rng *rand.Rand, steps int) []Activity {
	var list []Activity
	for i := range steps {
		a := Activity{Name: fmt.Sprint(i), Labour: time.Duration(rng.IntN(24)) * 10 * time.Minute}
		if rng.IntN(3) == 0 {
			a.Wait = time.Duration(rng.IntN(60)) * time.Hour
		}
		for p := range i {
			if rng.IntN(steps) < 2 {
				a.After = append(a.After, fmt.Sprint(p))
			}
		}
		list = append(list, a)
	}
	return list
}

// More effort never makes the finish later, and the simple rules alone are
// worse somewhere: else the search would be for nothing.
func TestEffortHelps(t *testing.T) {
	c := calendar(t, workWeek())
	rng := rand.New(rand.NewPCG(7, 8))
	helped := 0
	for range 100 {
		n := plan(t, randomJob(rng, 12)...)
		lazy := order(t, n, c, Standing{Now: at("2026-08-03 10:00"), Tries: -1})
		keen := order(t, n, c, Standing{Now: at("2026-08-03 10:00")})
		if keen.Finish.After(lazy.Finish) || lazy.Shortest && !keen.Finish.Equal(lazy.Finish) {
			t.Fatalf("with effort over %v, without %v", keen.Finish, lazy.Finish)
		}
		if keen.Finish.Before(lazy.Finish) {
			helped++
		}
	}
	t.Logf("the search was over earlier than the rules in %d of 100", helped)
	if helped == 0 {
		t.Error("the search never helped")
	}
}

func TestFinishIfOfTimesThatCannotBe(t *testing.T) {
	o := order(t, plan(t, step("a", time.Hour, 0), step("b", time.Hour, 0)), calendar(t, workWeek()), Standing{Now: at("2026-08-03 09:00")})
	for _, times := range [][]stepTimes{nil, make([]stepTimes, 3), {{longest, 0}, {1, 0}}, {{1 << 62, 1 << 62}, {1 << 62, 1 << 62}}} {
		if finish, ok := o.finishIf(times); ok {
			t.Errorf("%v: over %v", times, finish)
		}
	}
	if finish, ok := o.finishIf([]stepTimes{{-time.Hour, -1}, {2 * time.Hour, 0}}); !ok || moment(finish) != "Mon 2026-08-03 11:00" {
		t.Errorf("over %v", finish)
	}
}

// A step the hands can begin now may be better let be: with half an hour to
// go until the skirt has hung, four hours of beading would hold up all.
func TestBetterToRest(t *testing.T) {
	n := plan(t, step("hang", time.Hour, 24*time.Hour), step("level", time.Hour, 20*time.Hour, "hang"), step("bead", 4*time.Hour, 0))
	o := order(t, n, calendar(t, workWeek()), Standing{
		Now:      at("2026-08-04 10:30"),
		Progress: []Progress{{Name: "hang", State: Done, At: at("2026-08-03 11:00")}},
	})
	// By hand: beading first is over at 15:30, levelling at 16:30, and the wait
	// on Wednesday at 12:30; this way all is over at 8:00.
	want := `level: Tue 11:00 - Tue 12:00, over Wed 08:00 !
bead: Tue 12:00 - Tue 17:00 !
`
	if !slices.Equal(o.Now, []string{"bead"}) {
		t.Errorf("now %q: levelling cannot be begun", o.Now)
	}
	if got := says(o); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// To the minute: a wait that is over now has passed, and work that ends with
// the hours of the day is in time.
func TestToTheMinute(t *testing.T) {
	n := plan(t, step("hang", time.Hour, 23*time.Hour), step("sew", 7*time.Hour, 0, "hang"))
	o := order(t, n, calendar(t, workWeek()), Standing{
		Now: at("2026-08-04 09:00"), Due: at("2026-08-04"),
		Progress: []Progress{{Name: "hang", State: Done, At: at("2026-08-03 10:00")}},
	})
	if len(o.Waiting) != 0 || !o.Holds || o.Slack != 0 || !slices.Equal(o.Now, []string{"sew"}) {
		t.Errorf("waiting %v, holds %v, slack %v, now %q", o.Waiting, o.Holds, o.Slack, o.Now)
	}
}

// What the rules do without a search.
func TestRulesAlone(t *testing.T) {
	c := roundTheClock(t)
	now := at("2026-08-03 09:00")
	// As much labour and wait, but one of them waits for nobody.
	o := order(t, plan(t, step("sew", 3*time.Hour, 0), step("hang", time.Hour, 2*time.Hour)), c, Standing{Now: now, Tries: -1})
	if o.Slots[0].Name != "hang" || moment(o.Finish) != "Mon 2026-08-03 13:00" {
		t.Errorf("got\n%s", says(o))
	}
	// Each rule by itself sees it.
	w := make([]window, 2)
	o.job.backwardAlone(o.job.forwardAlone(w), w)
	for _, rank := range [][]int64{o.job.byLatest(w), o.job.byWaitsAhead()} {
		if got := o.job.soonestFirst(rank); !slices.Equal(got, []int32{1, 0}) {
			t.Errorf("sequence %v by rank %v", got, rank)
		}
	}
	// The hands rest until 11:00. When they are free at 12:00 both others can be
	// done, and that with the longer wait goes first.
	before := []Activity{step("p", time.Hour, 2*time.Hour), step("q", time.Hour, 150*time.Minute), step("r", time.Hour, 165*time.Minute)}
	n := plan(t, append(before, step("x", time.Hour, 9*time.Hour, "p"), step("y", time.Hour, 0, "q"), step("z", time.Hour, 5*time.Hour, "r"))...)
	done := []Progress{{Name: "p", State: Done, At: now}, {Name: "q", State: Done, At: now}, {Name: "r", State: Done, At: now}}
	o = order(t, n, c, Standing{Now: now, Tries: -1, Progress: done})
	if got := o.Slots[0].Name + o.Slots[1].Name + o.Slots[2].Name; got != "xzy" {
		t.Errorf("got\n%s", says(o))
	}
}

// The two ways of looking for a shorter order keep needs, keep what is in hand
// first, and never say that what has been found cannot be.
func TestSearchKeepsItsWord(t *testing.T) {
	c := calendar(t, workWeek())
	rng := rand.New(rand.NewPCG(9, 10))
	moved := 0
	for range 150 {
		n := plan(t, randomJob(rng, 10)...)
		j, _, _, _ := n.newJob(c, Standing{Now: at("2026-08-03 10:00"), Progress: []Progress{{Name: "3", State: InHand}}})
		best := j.carryOut(slices.Clone(j.topo))
		for better, _ := j.improve(best, 1e6); better != nil; better, _ = j.improve(best, 1e6) {
			checkSequence(t, j, better.sequence)
			if at := make([]placed, 10); better.finish >= best.finish || better.finish != j.run(better.sequence, at) {
				t.Fatalf("over %v, before %v", better.finish.time(), best.finish.time())
			}
			best = *better
			moved++
		}
		if j.cannotEndBy(best.finish, make([]window, 10)) {
			t.Fatal("an order that was found is said to be impossible")
		}
		sequence, _, sure := j.overBy(best.finish, 1e6)
		if !sure || sequence == nil {
			t.Fatal("an order as good as one that was found is not found")
		}
		checkSequence(t, j, sequence)
		if finish := j.carryOut(sequence).finish; finish > best.finish {
			t.Fatalf("asked for %v, over %v", best.finish.time(), finish.time())
		}
	}
	t.Logf("%d moves", moved)
	if moved < 50 {
		t.Errorf("only %d moves helped", moved)
	}
}

func checkSequence(t *testing.T, j *job, sequence []int32) {
	t.Helper()
	placed := map[int32]bool{}
	for at, i := range sequence {
		if placed[i] || slices.ContainsFunc(j.needs.of(i), func(p int32) bool { return !placed[p] }) || (at < j.inHand) != (int(i) < j.inHand) {
			t.Fatalf("sequence %v is out of order at %d", sequence, at)
		}
		placed[i] = true
	}
	if len(placed) != len(j.places) {
		t.Fatalf("sequence %v leaves some out", sequence)
	}
}
