package bench

import (
	"testing"
	"time"
)

// An entry goes into the journal in its turn, below what happened before it, and every
// other byte stays as it was; where nothing is later, and in brackets, at the end.
func TestEntriesInTurn(t *testing.T) {
	moment := func(s string) time.Time {
		at, err := time.Parse(minuteLayout, s)
		if err != nil {
			t.Fatal(err)
		}
		return at
	}
	const head = "name: X\njournal:\n"
	const one, two, three = "  - {at: 2026-03-02 09:00, note: one}\n", "  # the second\n  - {at: 2026-03-04, note: two}\n", "  - {at: 2026-03-04 16:00, note: three}\n"
	const tail = "# end\nhang: {}\n"
	for _, k := range []struct {
		name  string
		text  string
		entry Entry
		want  string
	}{
		{"last of all", head + one + two + three + tail, Entry{At: moment("2026-03-05 08:00"), Note: "new"},
			head + one + two + three + "  - {at: 2026-03-05 08:00, note: new}\n" + tail},
		{"between two days", head + one + two + three + tail, Entry{At: moment("2026-03-03 08:00"), Note: "new"},
			head + one + "  - {at: 2026-03-03 08:00, note: new}\n" + two + three + tail},
		{"on the day of one that knows the day alone", head + one + two + three + tail, Entry{At: moment("2026-03-04 08:00"), Note: "new"},
			head + one + two + "  - {at: 2026-03-04 08:00, note: new}\n" + three + tail},
		{"a day alone, after all of that day", head + one + two + three + tail, Entry{At: moment("2026-03-04 00:00"), Day: true, Note: "new"},
			head + one + two + three + "  - {at: 2026-03-04, note: new}\n" + tail},
		{"first of all", head + one + two + three + tail, Entry{At: moment("2025-03-04 08:00"), Note: "new"},
			head + "  - {at: 2025-03-04 08:00, note: new}\n" + one + two + three + tail},
		{"the same moment, after it", head + one + three + tail, Entry{At: moment("2026-03-02 09:00"), Note: "new"},
			head + one + "  - {at: 2026-03-02 09:00, note: new}\n" + three + tail},
		{"in brackets, at the end", "journal: [{at: 2026-03-02 09:00, note: one}]\n", Entry{At: moment("2025-03-02 09:00"), Note: "new"},
			"journal: [{at: 2026-03-02 09:00, note: one}, {at: 2025-03-02 09:00, note: new}]\n"},
		{"entries in block form", head + "  - at: 2026-03-02 09:00\n    note: one\n  - at: 2026-03-04\n    note: |\n      two\n      lines\n", Entry{At: moment("2026-03-03 09:00"), Note: "new"},
			head + "  - at: 2026-03-02 09:00\n    note: one\n  - at: 2026-03-03 09:00\n    note: new\n  - at: 2026-03-04\n    note: |\n      two\n      lines\n"},
		{"none yet", "name: X\n", Entry{At: moment("2026-03-03 09:00"), Note: "new"}, "name: X\njournal:\n  - {at: 2026-03-03 09:00, note: new}\n"},
	} {
		t.Run(k.name, func(t *testing.T) {
			got, err := k.entry.addTo([]byte(k.text))
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != k.want {
				t.Errorf("wrote\n%s\nwant\n%s", got, k.want)
			}
		})
	}
}
