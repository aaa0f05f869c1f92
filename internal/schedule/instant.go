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
	if _, off := slices.BinarySearch(c.off, day); off {
		return nil
	}
	_, d := weekday(day)
	return c.hours[d]
}

// workedBefore gives the working time from sunday to the beginning of a day,
// by a formula: whole weeks, the days of the last, less the days off.
func (c *Calendar) workedBefore(day int64) int64 {
	week, d := weekday(day)
	w := week*c.before[7] + c.before[d]
	if len(c.off) > 0 {
		i, _ := slices.BinarySearch(c.off, day)
		w -= c.lost[i]
	}
	return w
}

// worked gives the working time from sunday to a moment.
func (c *Calendar) worked(t instant) int64 {
	day := t.day()
	w := c.workedBefore(day)
	in := int64(t - midnight(day))
	for _, s := range c.spansOf(day) {
		if in <= s.from {
			break
		}
		w += min(in, s.to) - s.from
	}
	return w
}

// starts gives the moment at which labour begins that follows so much work:
// the last moment before which exactly that much has been worked.
func (c *Calendar) starts(work int64) instant {
	return c.momentOf(work, 0)
}

// ends gives the moment at which so much has been worked: the first such.
func (c *Calendar) ends(work int64) instant {
	return c.momentOf(work, 1)
}

// momentOf finds a moment by the working time before it. Where work stops for
// the night, early 1 asks for the evening and early 0 for the next morning.
func (c *Calendar) momentOf(work, early int64) instant {
	week := c.before[7]
	if week == 0 {
		return farFuture
	}
	key := work - early // an evening's last nanosecond belongs to that day
	if key >= c.worked(farFuture) {
		return farFuture
	}
	if key < c.worked(longAgo) {
		return longAgo
	}
	// Without days off the day would be in this week; with all of them, in that.
	low := sunday + 7*floorDiv(key, week)
	high := sunday + 7*(floorDiv(key+c.lost[len(c.off)], week)+1)
	if len(c.off) > 0 {
		i, _ := slices.BinarySearch(c.off, low)
		low = sunday + 7*floorDiv(key+c.lost[i], week)
	}
	for high-low > 1 { // worked before low ≤ key < worked before high
		if mid := low + (high-low)/2; c.workedBefore(mid) <= key {
			low = mid
		} else {
			high = mid
		}
	}
	rest := work - c.workedBefore(low)
	for _, s := range c.spansOf(low) {
		if rest-early < s.to-s.from {
			return midnight(low) + instant(s.from+rest)
		}
		rest -= s.to - s.from
	}
	return farFuture // not reached: the day was chosen so that the work is in it
}
