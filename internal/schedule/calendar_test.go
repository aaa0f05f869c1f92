package schedule

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// 3 August 2026 is a Monday (any calendar).
func TestCalendarByHand(t *testing.T) {
	c := calendar(t, workWeek(), "2026-08-07", "2026-08-09", "2026-08-07")
	t.Run("worked", func(t *testing.T) {
		for _, test := range []struct {
			from, to string
			want     time.Duration
		}{
			{"2026-08-03 09:00", "2026-08-03 12:30", 210 * time.Minute},
			{"2026-08-03 12:30", "2026-08-03 13:30", 0},
			{"2026-08-03 12:00", "2026-08-03 14:00", time.Hour},
			{"2026-08-03", "2026-08-04", 7 * time.Hour},
			{"2026-08-05", "2026-08-06", 210 * time.Minute},
			{"2026-08-03", "2026-08-10", 24*time.Hour + 30*time.Minute}, // 7 + 7 + 3½ + 7
			{"2026-08-07", "2026-08-10", 0},                             // a day off and the weekend
			{"2026-08-10", "2026-08-17", 31*time.Hour + 30*time.Minute},
			{"2026-08-04", "2026-08-03", -7 * time.Hour},
		} {
			if got := c.Worked(at(test.from), at(test.to)); got != test.want {
				t.Errorf("worked from %s to %s: %v, want %v", test.from, test.to, got, test.want)
			}
		}
	})
	t.Run("next", func(t *testing.T) {
		for from, want := range map[string]string{
			"2026-08-03 08:00": "Mon 2026-08-03 09:00",
			"2026-08-03 10:17": "Mon 2026-08-03 10:17",
			"2026-08-03 12:30": "Mon 2026-08-03 13:30",
			"2026-08-05 12:30": "Thu 2026-08-06 09:00",
			"2026-08-06 17:00": "Mon 2026-08-10 09:00",
		} {
			if got, ok := c.nextWork(at(from)); moment(got) != want || !ok {
				t.Errorf("next after %s is %s, want %s", from, moment(got), want)
			}
		}
	})
	t.Run("closes", func(t *testing.T) {
		for on, want := range map[string]string{
			"2026-08-03": "Mon 2026-08-03 17:00", "2026-08-05 20:00": "Wed 2026-08-05 12:30",
			"2026-08-07": "Sat 2026-08-08 00:00", "2026-08-09": "Mon 2026-08-10 00:00",
		} {
			if got := moment(c.Closes(at(on))); got != want {
				t.Errorf("%s closes %s, want %s", on, got, want)
			}
		}
	})
}

func TestStretches(t *testing.T) {
	c := calendar(t, workWeek())
	var got []string
	for s := range c.Spells(at("2026-08-04 16:00"), at("2026-08-06 09:30")) {
		got = append(got, moment(s.From)+" "+s.To.Format("15:04"))
	}
	want := []string{"Tue 2026-08-04 16:00 17:00", "Wed 2026-08-05 09:00 12:30", "Thu 2026-08-06 09:00 09:30"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	count := 0
	for s := range roundTheClock(t).Spells(at("2026-08-04 16:00"), at("2026-08-06 09:30")) {
		if count++; s.To.Sub(s.From) != 41*time.Hour+30*time.Minute {
			t.Errorf("%v", s)
		}
	}
	if count != 1 {
		t.Errorf("a week without rest is in %d stretches", count)
	}
	for range c.Spells(at("2026-08-06 09:30"), at("2026-08-04 16:00")) {
		t.Error("there is work between a moment and an earlier one")
	}
	for range c.Spells(at("2026-08-04 16:00"), at("2026-09-06 09:30")) {
		break // must be allowed to
	}
}

func TestNoHours(t *testing.T) {
	c := calendar(t, Week{}, "2026-08-03")
	if _, ok := c.nextWork(at("2026-08-03")); ok || c.Works() {
		t.Error("there is a next moment of work in a week without hours")
	}
	if got := c.Worked(at("2026-01-01"), at("2027-01-01")); got != 0 {
		t.Errorf("worked %v without hours", got)
	}
}

// slowCalendar is the obvious way: minute by minute.
type slowCalendar struct {
	week Week
	off  map[string]bool
}

func (c slowCalendar) works(t time.Time) bool {
	if c.off[t.Format(time.DateOnly)] {
		return false
	}
	m := t.Hour()*60 + t.Minute()
	return slices.ContainsFunc(c.week[t.Weekday()], func(s Span) bool { return s.From <= m && m < s.To })
}

// drawWeek draws a week's hours, some days without any.
func drawWeek(t *rapid.T) Week {
	var w Week
	for d := range w {
		cuts := rapid.SliceOfNDistinct(rapid.IntRange(0, 144), 0, 6, rapid.ID[int]).Draw(t, "cuts")
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			w[d] = append(w[d], Span{cuts[i] * 10, cuts[i+1] * 10})
		}
	}
	return w
}

func drawDaysOff(t *rapid.T) []time.Time {
	var off []time.Time
	for _, d := range rapid.SliceOfN(rapid.IntRange(-40, 60), 0, 30).Draw(t, "days off") {
		off = append(off, at("2026-08-03").AddDate(0, 0, d))
	}
	return off
}

// drawCalendar draws a calendar with some working hours.
func drawCalendar(t *rapid.T) *Calendar {
	w := drawWeek(t)
	w[time.Tuesday] = append([]Span(nil), Span{9 * 60, 17 * 60})
	c, faults := NewCalendar(w, drawDaysOff(t))
	if faults != nil {
		t.Fatal(faults)
	}
	return c
}

// The formulas agree with counting minutes.
func TestCalendarAgainstMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slow := slowCalendar{drawWeek(t), map[string]bool{}}
		off := drawDaysOff(t)
		for _, d := range off {
			slow.off[d.Format(time.DateOnly)] = true
		}
		c, faults := NewCalendar(slow.week, off)
		if faults != nil {
			t.Fatal(faults)
		}
		from := at("2026-08-03").Add(time.Duration(rapid.IntRange(-20*1440, 20*1440).Draw(t, "from")) * time.Minute)
		worked, first := time.Duration(0), time.Time{}
		to := from
		for range rapid.IntRange(0, 6*1440).Draw(t, "minutes") {
			if slow.works(to) {
				if worked += time.Minute; first.IsZero() {
					first = to
				}
			}
			to = to.Add(time.Minute)
		}
		if got := c.Worked(from, to); got != worked {
			t.Fatalf("worked %v from %v to %v, minute by minute %v", got, from, to, worked)
		}
		if got, _ := c.nextWork(from); worked > 0 && !got.Equal(first) {
			t.Fatalf("next after %v is %v, minute by minute %v", from, got, first)
		}
		stretched := time.Duration(0)
		for s := range c.Spells(from, to) {
			stretched += s.To.Sub(s.From)
		}
		if stretched != worked {
			t.Fatalf("stretches add up to %v, want %v", stretched, worked)
		}
	})
}

// Evening and morning are the first and last moments with the same work behind them.
func TestEveningAndMorning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCalendar(t)
		when := instantOf(at("2026-08-03")) + instant(rapid.Int64Range(-int64(400*day), int64(400*day)).Draw(t, "when"))
		work := c.worked(when)
		evening, morning := c.ends(work), c.starts(work)
		if evening > when || when > morning || c.worked(evening) != work || c.worked(morning) != work {
			t.Fatalf("at %v: evening %v, morning %v", when.time(), evening.time(), morning.time())
		}
		if c.worked(evening-1) == work || c.worked(morning+1) == work {
			t.Fatalf("at %v: evening %v or morning %v is not the outermost", when.time(), evening.time(), morning.time())
		}
	})
}

func TestHoursThatCannotBe(t *testing.T) {
	for _, test := range []struct {
		spans []Span
		want  string
	}{
		{[]Span{{600, 540}}, "10:00-09:00 on Monday are no working hours; hours go from earlier to later, within one day"},
		{[]Span{{600, 1500}}, "10:00-25:00 on Monday are no working hours; hours go from earlier to later, within one day"},
		{[]Span{{540, 720}, {700, 900}}, "the hours 11:40-15:00 on Monday begin before the last ones end; write them in order, each after the one before"},
	} {
		c, faults := NewCalendar(Week{time.Monday: test.spans}, nil)
		if len(faults) != 1 || faults.Error() != test.want || faults[0].Kind != BadHours || c != nil {
			t.Errorf("%v: %v", test.spans, faults)
		}
	}
	if _, faults := NewCalendar(workWeek(), []time.Time{at("0026-08-03")}); len(faults) != 1 || faults[0].Kind != BadTime {
		t.Errorf("a day off in the year 26: %v", faults)
	}
}

// Hours that touch are one stretch, and the calendar's bounds are its own.
func TestCalendarAtItsEdges(t *testing.T) {
	c := calendar(t, Week{time.Monday: {{540, 720}, {720, 1020}}})
	count := 0
	for range c.Spells(at("2026-08-03"), at("2026-08-04")) {
		count++
	}
	if count != 1 || c.hoursOn(at("2026-08-03")) != 8*time.Hour {
		t.Errorf("%d stretches, %v", count, c.hoursOn(at("2026-08-03")))
	}
	if got := c.Worked(at("2150-01-01"), at("9999-01-01")); got != 0 {
		t.Errorf("worked %v after the last year", got)
	}
	if got := c.Worked(time.Time{}, at("1900-01-01")); got != 0 {
		t.Errorf("worked %v before the first year", got)
	}
	if _, faults := NewCalendar(workWeek(), make([]time.Time, mostDaysOff+1)); len(faults) != 1 {
		t.Errorf("too many days off: %v", faults)
	}
	// Moments are read by the clock on the wall, whatever its zone.
	there := time.FixedZone("there", 9*3600)
	if got, _ := c.nextWork(time.Date(2026, 8, 3, 10, 0, 0, 0, there)); moment(got) != "Mon 2026-08-03 10:00" {
		t.Errorf("next is %s", moment(got))
	}
}
