package bench

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
)

const minuteLayout = "2006-01-02 15:04"

// Moment reads when something was, by the clock on the wall: "now", "14:10",
// "yesterday 14:10", "2026-08-05 14:10", or a date alone, of which it says so.
// What has not come yet is refused.
func Moment(text string, now time.Time) (at time.Time, day bool, err error) {
	text = strings.TrimSpace(text)
	at, day, ok := readMoment(text, now)
	switch {
	case !ok:
		return at, false, errors.New(say.Of("bench.is-not-a-time-of-day-or", say.Quoted(text), now.Format(minuteLayout)))
	case !at.After(now):
		return at, day, nil
	case !strings.Contains(text, "-"):
		return at, false, errors.New(say.Of("bench.today-has-not-come-yet-was-it", text, at.AddDate(0, 0, -1).Format(minuteLayout)))
	}
	return at, false, errors.New(say.Of("bench.has-not-come-yet-it-is", text, now.Format(minuteLayout)))
}

func readMoment(text string, now time.Time) (at time.Time, day, ok bool) {
	if text == "now" {
		return now, false, true
	}
	today := now
	if clock, ok := strings.CutPrefix(text, "yesterday "); ok {
		text, today = strings.TrimSpace(clock), now.AddDate(0, 0, -1)
	}
	if t, err := time.Parse("15:04", text); err == nil {
		y, m, d := today.Date()
		return time.Date(y, m, d, t.Hour(), t.Minute(), 0, 0, now.Location()), false, true
	}
	for _, layout := range []string{minuteLayout, "2006-01-02T15:04", time.DateTime, time.DateOnly} {
		if t, err := time.ParseInLocation(layout, text, now.Location()); err == nil && t.Year() >= 1900 {
			return t, layout == time.DateOnly, true
		}
	}
	return now, false, false
}

// short are hours and minutes as people type them in haste; "45 m" with its
// space stays a length, and is refused as one.
var short = regexp.MustCompile(`^([0-9]{1,4}h)?([0-9]{1,4}m)?$`)

// Spent reads how long something took: "45 min", "1 h 20 min", "1:20", and in
// haste "45m" or "1h20m".
func Spent(text string) (time.Duration, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, errors.New(say.Of("bench.no-time-is-given-write-it-like"))
	}
	d, err := time.ParseDuration(text)
	if err != nil || !short.MatchString(text) {
		if d, err = measure.ParseDuration(text); err != nil {
			return 0, fault.Wrapping(err, say.Of("bench.is-not-how-long-it-took", say.Quoted(text), err))
		}
	}
	switch {
	case d <= 0:
		return 0, errors.New(say.Of("bench.is-no-time-at-all", say.Quoted(text)))
	case d > mostAtOnce:
		return 0, errors.New(say.Of("bench.is-more-than-a-day-note-each", say.Quoted(text)))
	}
	return d, nil
}

// mostAtOnce is the longest that one entry of the journal may be worked.
const mostAtOnce = 24 * time.Hour

// DurationWords prints a time for people: "48 min", "1 h 20 min", "3 days".
func DurationWords(d time.Duration) string {
	m := minutes(d)
	switch h := m / 60; {
	case d < 30*time.Second:
		return say.Of("bench.less-than-a-minute")
	case h >= 48:
		return say.Of("bench.days", h/24)
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return say.Of("bench.h-min", h, m%60)
	}
}

// MomentWords prints a moment for people: the time of day alone where it was today.
func MomentWords(t, now time.Time) string {
	switch t.Format(time.DateOnly) {
	case now.Format(time.DateOnly):
		return t.Format("15:04")
	case now.AddDate(0, 0, -1).Format(time.DateOnly):
		return say.Of("bench.yesterday", t.Format("15:04"))
	}
	return t.Format(minuteLayout)
}

// Words prints when an entry was, for people.
func (e Entry) Words(now time.Time) string {
	if e.Day {
		return e.When()
	}
	return MomentWords(e.At, now)
}
