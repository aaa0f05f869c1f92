package amend

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestAnExchangeCutOff: the next writer ends what one that was killed began.
func TestAnExchangeCutOff(t *testing.T) {
	const old, next, theirs = "name: old\njournal: []\n", "name: old\njournal: [x]\n", "name: saved by an editor\njournal: []\n"
	swap := ".build.yaml.swap-" + brief([]byte(old)) + "-" + brief([]byte(next))
	for name, row := range map[string]struct {
		record, aside string
		want, kept    string // without the entry that is written then
	}{
		"before it":                              {old, next, old, ""},
		"after it":                               {next, old, next, ""},
		"after it, another save came out":        {next, theirs, theirs, ""},
		"the same, and the record saved again":   {"name: again\njournal: []\n", theirs, "name: again\njournal: []\n", theirs},
		"put back":                               {theirs, next, theirs, ""},
		"before it, and the record was replaced": {theirs, next, theirs, ""},
	} {
		f, file := roomWith(t, row.record)
		writeText(t, filepath.Join(filepath.Dir(file), swap), row.aside)
		if err := f.Change(func(text []byte) ([]byte, error) { return append(text, "# entry\n"...), nil }); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := readText(t, file); got != row.want+"# entry\n" {
			t.Errorf("%s: the record is\n%s", name, got)
		}
		beside := others(t, file)
		switch {
		case row.kept == "" && beside != nil:
			t.Errorf("%s: left behind: %v", name, beside)
		case row.kept != "" && (len(beside) != 1 || !strings.HasPrefix(beside[0], "build.yaml.theirs-") || readText(t, filepath.Join(filepath.Dir(file), beside[0])) != row.kept):
			t.Errorf("%s: kept %v", name, beside)
		}
	}
}
