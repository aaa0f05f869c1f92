package schedule

import (
	"fmt"
	"iter"
	"slices"
	"time"

	"hembook/internal/say"
)

// A Span is a stretch of a day, in minutes from midnight: 9:00 to 12:30 is
// {540, 750}. From is at least 0, To at most 1440 and later than From.
type Span struct{ From, To int }

// A Week holds the working hours of each weekday, in order, at the weekday's
// own number: week[time.Monday].
type Week [7][]Span

// firstYear and lastYear bound the dates that are understood; what lies beyond
// is most likely a slip. Sums of times inside them cannot overflow.
const firstYear, lastYear = 1900, 2100

// mostDaysOff keeps the sum of what days off take away within an int64.
const mostDaysOff = 20000

// A Calendar knows when labour can run. It does not change, and is safe to use
// from several goroutines.
type Calendar struct {
	hours  [7][]workSpan // by weekday
	before [8]int64      // nanoseconds of work in a week before the weekday; the last is the whole week's
	off    []int64       // days off that have hours, ascending, as days since 1 January 1970
	lost   []int64       // nanoseconds the days off before each of them, and before the end, take away
	offAt  []int64       // nanoseconds of work before each day off, as worked counts

	least, most int64 // nanoseconds of work before the bounds of what is computed
}

type workSpan struct{ from, to int64 } // nanoseconds from midnight

// NewCalendar makes a calendar of working hours by weekday and days without
// work, of which only the date counts. Where there are faults it is nil.
func NewCalendar(week Week, daysOff []time.Time) (*Calendar, Faults) {
	c := &Calendar{}
	var faults Faults
	for d := range week {
		c.readDay(time.Weekday(d), week[d], &faults)
	}
	c.readDaysOff(daysOff, &faults)
	c.setBounds()
	if len(faults) > 0 {
		return nil, faults
	}
	return c, nil
}

func (c *Calendar) readDay(d time.Weekday, spans []Span, faults *Faults) {
	last, sum := 0, int64(0)
	for _, s := range spans {
		switch {
		case s.From < 0 || s.To > 24*60 || s.From >= s.To:
			faults.add(BadHours, nil, say.Of("schedule.hours-go-from-earlier-to-later-within"), say.Of("schedule.on-are-no-hours", s, d))
			continue
		case s.From < last:
			faults.add(BadHours, nil, say.Of("schedule.write-them-in-order-each-after-the"), say.Of("schedule.the-hours-on-begin-before-the-last", s, d))
			continue
		}
		last = s.To
		if k := len(c.hours[d]); k > 0 && c.hours[d][k-1].to == int64(s.From)*int64(time.Minute) {
			c.hours[d][k-1].to = int64(s.To) * int64(time.Minute)
		} else {
			c.hours[d] = append(c.hours[d], workSpan{int64(s.From) * int64(time.Minute), int64(s.To) * int64(time.Minute)})
		}
		sum += int64(s.To-s.From) * int64(time.Minute)
	}
	c.before[d+1] = c.before[d] + sum
}

// String writes hours as "09:00-12:30".
func (s Span) String() string {
	return fmt.Sprintf("%02d:%02d-%02d:%02d", s.From/60, s.From%60, s.To/60, s.To%60)
}

func (c *Calendar) readDaysOff(daysOff []time.Time, faults *Faults) {
	c.lost = make([]int64, 1)
	if len(daysOff) > mostDaysOff {
		faults.add(BadHours, nil, "", say.Of("schedule.there-are-more-than-days-off", mostDaysOff))
		return
	}
	for _, t := range daysOff {
		if !inRange(t) {
			faults.add(BadTime, nil, say.Of("schedule.is-the-year-right"), say.Of("schedule.the-day-off-is-not-between-and", t.Format(time.DateOnly), firstYear, lastYear))
			continue
		}
		if day := instantOf(t).day(); c.hoursOf(day) > 0 {
			c.off = append(c.off, day)
		}
	}
	slices.Sort(c.off)
	c.off = slices.Compact(c.off)
	c.lost = make([]int64, len(c.off)+1)
	for i, day := range c.off {
		c.lost[i+1] = c.lost[i] + c.hoursOf(day)
	}
}

// Works reports whether the calendar has any working hours.
func (c *Calendar) Works() bool { return c.before[7] > 0 }

// Worked gives the working time between two moments, less than nothing where
// the second is the earlier. Moments beyond the years 1900 to 2100 count as
// the nearest within.
func (c *Calendar) Worked(from, to time.Time) time.Duration {
	return time.Duration(c.worked(instantOf(to)) - c.worked(instantOf(from)))
}

// Closes gives the end of the working hours of a day, and midnight at its end
// for a day without any, on which only waits can pass.
func (c *Calendar) Closes(day time.Time) time.Time { return c.closes(instantOf(day)).time() }

func (c *Calendar) closes(t instant) instant {
	day := t.day()
	spans := c.spansOf(day)
	if len(spans) == 0 {
		return midnight(day + 1)
	}
	return midnight(day) + instant(spans[len(spans)-1].to)
}

// A Spell is an uninterrupted time of labour.
type Spell struct{ From, To time.Time }

// Spells goes through the working hours between two moments, in order.
func (c *Calendar) Spells(from, to time.Time) iter.Seq[Spell] {
	a, b := instantOf(from), instantOf(to)
	return func(yield func(Spell) bool) {
		var open Spell // not yet given: the next day may continue it at midnight
		for day := a.day(); midnight(day) < b; day++ {
			for _, s := range c.spansOf(day) {
				next := Spell{max(a, midnight(day)+instant(s.from)).time(), min(b, midnight(day)+instant(s.to)).time()}
				switch {
				case !next.From.Before(next.To):
					continue
				case next.From.Equal(open.To):
					open.To = next.To
					continue
				case !open.From.IsZero() && !yield(open):
					return
				}
				open = next
			}
		}
		if !open.From.IsZero() {
			yield(open)
		}
	}
}
