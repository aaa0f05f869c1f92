package bench

import (
	"strings"
	"testing"
	"time"
)

// noon is a Wednesday.
var noon = time.Date(2026, 8, 5, 12, 0, 0, 0, time.UTC)

func TestMoment(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"11:10", "2026-08-05 11:10"},
		{"9:05", "2026-08-05 09:05"},
		{"now", "2026-08-05 12:00"},
		{"yesterday 14:10", "2026-08-04 14:10"},
		{"2026-08-04 14:10", "2026-08-04 14:10"},
		{"2026-08-04T14:10", "2026-08-04 14:10"},
		{"2026-08-04", "2026-08-04"},
		{"14:10", `! was it yesterday? write the day too: "2026-08-04 14:10"`},
		{"2026-09-01 10:00", "! has not come yet"},
		{"2026-09-01", "! has not come yet"},
		{"25:00", "! is not a time of day or a date"},
		{"2026-02-30", "! is not a time of day or a date"},
		{"half past two", "! is not a time of day or a date"},
		{"", "! is not a time of day or a date"},
	} {
		at, day, err := Moment(c.text, noon)
		got := Entry{At: at, Day: day}.When()
		if want, wrong := strings.CutPrefix(c.want, "! "); wrong {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%q: got %s, %v; want an error with %q", c.text, got, err, want)
			}
		} else if err != nil || got != c.want {
			t.Errorf("%q: got %s, %v; want %s", c.text, got, err, c.want)
		}
	}
}

func TestSpent(t *testing.T) {
	for _, c := range []struct {
		text string
		want time.Duration // 0: refused
	}{
		{"45m", 45 * time.Minute}, {"1h20m", 80 * time.Minute}, {"2h", 2 * time.Hour},
		{"45 min", 45 * time.Minute}, {"1 h 20 min", 80 * time.Minute}, {"1:20", 80 * time.Minute},
		{"45", 0}, {"45 m", 0}, {"", 0}, {"-5m", 0}, {"0m", 0}, {"25 h", 0}, {"1h2", 0}, {"soon", 0}, {"9999h", 0},
	} {
		if got, err := Spent(c.text); got != c.want || (err == nil) != (c.want > 0) {
			t.Errorf("%q: got %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestMinutes(t *testing.T) {
	for d, want := range map[time.Duration]string{
		time.Second: "1 min", 29 * time.Second: "1 min", 89 * time.Second: "1 min", 90 * time.Second: "2 min",
		48*time.Minute + 29*time.Second: "48 min", 80 * time.Minute: "80 min",
	} {
		if got := (Entry{For: d}).Spent(); got != want {
			t.Errorf("%v: got %s, want %s", d, got, want)
		}
	}
}

func TestDurationWords(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "less than a minute", 48 * time.Minute: "48 min", time.Hour: "1 h", 80 * time.Minute: "1 h 20 min",
		19*time.Hour + 50*time.Minute: "19 h 50 min", 100 * time.Hour: "4 days",
	} {
		if got := DurationWords(d); got != want {
			t.Errorf("%v: got %s, want %s", d, got, want)
		}
	}
}

func FuzzMoment(f *testing.F) {
	for _, s := range []string{"14:10", "yesterday 9:05", "2026-08-05 14:10", "2026-08-05", "now", "2026-08-05T14:10"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		at, day, err := Moment(text, noon)
		if err == nil && at.After(noon) {
			t.Errorf("%q has not come yet: %v", text, at)
		}
		if err == nil && !day { // what is read is written so that it is read alike
			again, _, err := Moment(Entry{At: at}.When(), noon)
			if err != nil || !again.Equal(at.Truncate(time.Minute)) {
				t.Errorf("%q: %v, then %v, %v", text, at, again, err)
			}
		}
		if d, err := Spent(text); err == nil && (d <= 0 || d > mostAtOnce) {
			t.Errorf("%q: %v", text, d)
		}
	})
}
