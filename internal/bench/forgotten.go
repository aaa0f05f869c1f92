package bench

import (
	"strings"
	"time"

	"hembook/internal/record"
	"hembook/internal/say"
)

// longestUnasked is how long a clock may run before it is asked about: a long
// working day. Our own choice, no source.
const longestUnasked = 8 * time.Hour

// A Doubt says why a clock was probably forgotten.
type Doubt struct {
	Why    string    // "it ran overnight"
	Closed time.Time // when the workroom closed first while it ran; zero where its hours do not say
}

// Forgotten looks whether a clock that ran without a pause was probably
// forgotten: for more than 8 hours, into another day, or across a whole break
// of the workroom's hours.
func Forgotten(from, to time.Time, room *record.Workroom) (Doubt, bool) {
	open := openSpans(from, to, room)
	var d Doubt
	for i, s := range open {
		if d.Closed.IsZero() && from.Before(s[1]) && !to.Before(s[1]) {
			d.Closed = s[1]
		}
		if i+1 < len(open) && d.Why == "" {
			if next := open[i+1]; from.Before(s[1]) && s[1].Before(next[0]) && to.After(next[0]) {
				d.Why = say.Of("bench.it-ran-while-the-workroom-was-closed", s[1].Format("15:04"), next[0].Format("15:04"))
			}
		}
	}
	switch {
	case from.Format(time.DateOnly) != to.Format(time.DateOnly):
		d.Why = say.Of("bench.it-ran-overnight")
	case to.Sub(from) > longestUnasked:
		d.Why = say.Of("bench.it-ran-for-more-than-8-hours")
	}
	return d, d.Why != ""
}

// openSpans are the workroom's hours of the days between two moments, in order;
// of a clock left for longer only the first days are looked at.
func openSpans(from, to time.Time, room *record.Workroom) [][2]time.Time {
	const mostDays = 15
	var out [][2]time.Time
	y, m, d := from.Date()
	for i := range mostDays {
		day := time.Date(y, m, d+i, 0, 0, 0, 0, from.Location())
		if day.After(to) {
			break
		}
		hours, _ := room.Hours.Get(strings.ToLower(day.Format("Mon")))
		if dayOff(day, room) {
			continue
		}
		for _, s := range hours.Spans {
			out = append(out, [2]time.Time{minute(day, s[0]), minute(day, s[1])})
		}
	}
	return out
}

// minute is a minute of a day by the clock on the wall, also on the days that
// have 23 or 25 hours.
func minute(day time.Time, n int) time.Time {
	y, m, d := day.Date()
	return time.Date(y, m, d, n/60, n%60, 0, 0, day.Location())
}

func dayOff(day time.Time, room *record.Workroom) bool {
	for _, off := range room.DaysOff {
		if off.V.String() == day.Format(time.DateOnly) {
			return true
		}
	}
	return false
}
