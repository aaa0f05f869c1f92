package schedule

import (
	"slices"
	"time"
)

// An instant is a moment on the wall clock, in nanoseconds since the beginning
// of 1970 on that clock.
type instant int64

const dayLength = int64(24 * time.Hour)

// Bounds of what is computed. Between them lie about 200 years of working
// time at most, so that with Longest and mostDaysOff added no sum overflows.
var (
	longAgo   = midnight(-120 * 365)
	farFuture = midnight(180 * 365)
)

func inRange(t time.Time) bool { return t.Year() >= firstYear && t.Year() < lastYear }

// instantOf reads a moment by its wall clock; beyond the range it gives the
// nearest within.
func instantOf(t time.Time) instant {
	y, m, d := t.Date()
	if y < firstYear {
		y, m, d, t = firstYear, time.January, 1, time.Time{}
	}
	if y >= lastYear {
		y, m, d, t = lastYear, time.January, 1, time.Time{}
	}
	return instant(time.Date(y, m, d, t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC).UnixNano())
}

func (t instant) time() time.Time { return time.Unix(0, int64(t)).UTC() }

// day gives the number of days since 1 January 1970.
func (t instant) day() int64 { return floorDiv(int64(t), dayLength) }

func midnight(day int64) instant { return instant(day * dayLength) }

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// sunday is a day number whose weekday is Sunday; 1 January 1970 was a Thursday.
const sunday = -4

// weekday gives the whole weeks since sunday, and the weekday.
func weekday(day int64) (week int64, d int) {
	week = floorDiv(day-sunday, 7)
	return week, int(day - sunday - 7*week)
}

// hoursOf gives a day's work by its weekday alone.
func (c *Calendar) hoursOf(day int64) int64 {
	_, d := weekday(day)
	return c.before[d+1] - c.before[d]
}

// spansOf gives the working hours of a day.
func (c *Calendar) spansOf(day int64) []workSpan {
	_, spans := c.lookUp(day)
	return spans
}

// lookUp gives the working time from sunday to the beginning of a day, by a
// formula: whole weeks, the days of the last, less the days off; and the
// day's hours.
func (c *Calendar) lookUp(day int64) (before int64, spans []workSpan) {
	week, d := weekday(day)
	i, off := slices.BinarySearch(c.off, day)
	before = week*c.before[7] + c.before[d] - c.lost[i]
	if off {
		return before, nil
	}
	return before, c.hours[d]
}

// worked gives the working time from sunday to a moment.
func (c *Calendar) worked(t instant) int64 {
	day := t.day()
	w, spans := c.lookUp(day)
	in := int64(t - midnight(day))
	for _, s := range spans {
		if in <= s.from {
			break
		}
		w += min(in, s.to) - s.from
	}
	return w
}

// setBounds computes what momentOf looks up.
func (c *Calendar) setBounds() {
	c.offAt = make([]int64, len(c.off))
	for i, day := range c.off {
		c.offAt[i], _ = c.lookUp(day)
	}
	c.least, c.most = c.worked(longAgo), c.worked(farFuture)
}

// starts gives the moment at which labour begins that follows so much work:
// the last moment before which exactly that much has been worked.
func (c *Calendar) starts(work int64) instant { return c.momentOf(work, 0) }

// ends gives the moment at which so much has been worked: the first such.
func (c *Calendar) ends(work int64) instant { return c.momentOf(work, 1) }

// momentOf finds a moment by the working time before it. Where work stops for
// the night, early 1 asks for the evening and early 0 for the next morning.
func (c *Calendar) momentOf(work, early int64) instant {
	key := work - early // an evening's last nanosecond belongs to that day
	switch {
	case key >= c.most:
		return farFuture
	case key < c.least:
		return longAgo
	}
	// The days off with no more work before them than that are past, and no
	// others are; as if they had been worked too, the week and weekday follow.
	past, _ := slices.BinarySearch(c.offAt, key+1)
	whole := key + c.lost[past]
	week := floorDiv(whole, c.before[7])
	rest := whole - week*c.before[7]
	d := 0
	for c.before[d+1] <= rest {
		d++
	}
	rest += early - c.before[d]
	for _, s := range c.hours[d] {
		if rest-early < s.to-s.from {
			return midnight(sunday+7*week+int64(d)) + instant(s.from+rest)
		}
		rest -= s.to - s.from
	}
	return farFuture // not reached: the weekday was chosen so that the work is in it
}
