package bench

import (
	"testing"
	"time"

	"hembook/internal/record"
)

// workroomOf has hours from Monday to Friday, 9 to 12:30 and 13:30 to 17.
func workroomOf() *record.Workroom {
	w := &record.Workroom{}
	for _, day := range []string{"mon", "tue", "wed", "thu", "fri"} {
		w.Hours = append(w.Hours, record.Named[record.Hours]{
			Name: record.Text{V: day}, V: record.Hours{Spans: [][2]int{{540, 750}, {810, 1020}}},
		})
	}
	w.DaysOff = record.List[record.Date]{{V: record.Day{Year: 2026, Month: 8, Day: 7}}}
	return w
}

func TestForgotten(t *testing.T) {
	for _, c := range []struct {
		name, from, to string // 2026-08-05 is a Wednesday, the 7th a day off
		why, closed    string
	}{
		{"within the morning", "05 09:10", "05 12:20", "", ""},
		{"a little past closing", "05 11:00", "05 12:50", "", "05 12:30"},
		{"into the break", "05 11:00", "05 13:29", "", "05 12:30"},
		{"across the break", "05 11:00", "05 13:40", "it ran while the workroom was closed, 12:30 to 13:30", "05 12:30"},
		{"begun in the break", "05 12:40", "05 14:00", "", ""},
		{"an evening", "05 19:00", "05 22:00", "", ""},
		{"past midnight", "05 23:30", "06 00:20", "it ran overnight", ""},
		{"overnight", "05 16:00", "06 09:30", "it ran overnight", "05 17:00"},
		{"a long day off", "07 08:00", "07 16:30", "it ran for more than 8 hours", ""},
		{"eight hours of a day off", "07 08:00", "07 16:00", "", ""},
		{"days", "05 16:00", "20 09:30", "it ran overnight", "05 17:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			at := func(s string) time.Time {
				if s == "" {
					return time.Time{}
				}
				m, err := time.Parse(minuteLayout, "2026-08-"+s)
				if err != nil {
					t.Fatal(err)
				}
				return m
			}
			d, doubt := Forgotten(at(c.from), at(c.to), workroomOf())
			if d.Why != c.why || doubt != (c.why != "") || !d.Closed.Equal(at(c.closed)) {
				t.Errorf("got %q, closed %v, %v", d.Why, d.Closed, doubt)
			}
		})
	}
}

// Without hours a workroom is never closed.
func TestForgottenWithoutHours(t *testing.T) {
	if d, doubt := Forgotten(noon, noon.Add(3*time.Hour), &record.Workroom{}); doubt {
		t.Error(d.Why)
	}
}
