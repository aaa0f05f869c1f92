package schedule

import (
	"math"
	"strings"
	"testing"
	"time"
)

// at reads a moment; a date alone is its midnight.
func at(text string) time.Time {
	layout := "2006-01-02 15:04"
	if len(text) == len(time.DateOnly) {
		layout = time.DateOnly
	}
	t, err := time.Parse(layout, text)
	if err != nil {
		panic(err)
	}
	return t
}

func moment(t time.Time) string { return t.Format("Mon 2006-01-02 15:04") }

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// workWeek is Monday to Friday 9:00-12:30 and 13:30-17:00, seven hours a day,
// Wednesday the morning only.
func workWeek() Week {
	full := []Span{{9 * 60, 12*60 + 30}, {13*60 + 30, 17 * 60}}
	return Week{time.Monday: full, time.Tuesday: full, time.Wednesday: full[:1], time.Thursday: full, time.Friday: full}
}

func calendar(t testing.TB, w Week, off ...string) *Calendar {
	t.Helper()
	var days []time.Time
	for _, d := range off {
		days = append(days, at(d))
	}
	c, faults := NewCalendar(w, days)
	if faults != nil {
		t.Fatal(faults)
	}
	return c
}

func roundTheClock(t testing.TB) *Calendar { return calendar(t, roundTheClockWeek()) }

func plan(t testing.TB, list ...Activity) *Network {
	t.Helper()
	n, faults := Plan(list)
	if faults != nil {
		t.Fatal(faults)
	}
	return n
}

func step(name string, labour, wait time.Duration, after ...string) Activity {
	return Activity{Name: name, Labour: labour, Wait: wait, After: after}
}

func order(t testing.TB, n *Network, c *Calendar, s Standing) *Order {
	t.Helper()
	o, faults := n.Order(c, s)
	if faults != nil {
		t.Fatal(faults)
	}
	return o
}

// roundTheClockWeek is a week that never rests.
func roundTheClockWeek() Week {
	var w Week
	for d := range w {
		w[d] = []Span{{0, 24 * 60}}
	}
	return w
}

// hoursOn gives the working time of a day.
func (c *Calendar) hoursOn(day time.Time) time.Duration {
	sum := int64(0)
	for _, s := range c.spansOf(instantOf(day).day()) {
		sum += s.to - s.from
	}
	return time.Duration(sum)
}

// nextWork gives the first moment, not before t, at which labour can run. It is
// false where there is none.
func (c *Calendar) nextWork(t time.Time) (time.Time, bool) {
	at := c.starts(c.worked(instantOf(t)))
	return at.time(), at < farFuture
}

func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Brief()
	}
	return strings.Join(lines, "\n")
}
