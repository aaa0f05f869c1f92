package amend

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
)

// entry is a usual line of a journal.
func entry() Value {
	return Group(Field{"at", Figure("2026-08-05 14:10")}, Field{"did", Words("cut-skirt")}, Field{"for", Figure("48 min")})
}

const flowEntry = "{at: 2026-08-05 14:10, did: cut-skirt, for: 48 min}"

func TestAppendKeepsTheHandOfTheList(t *testing.T) {
	for _, row := range []struct{ name, before, after string }{
		{"braces, dashes deeper", "journal:\n  - {at: a}\nz: 1\n", "journal:\n  - {at: a}\n  - " + flowEntry + "\nz: 1\n"},
		{"dashes at the name", "journal:\n- {at: a}\nz: 1\n", "journal:\n- {at: a}\n- " + flowEntry + "\nz: 1\n"},
		{"wide dashes", "journal:\n    -   {at: a}\n", "journal:\n    -   {at: a}\n    -   " + flowEntry + "\n"},
		{"names below each other", "journal:\n  - at: a\n    did: b\n", "journal:\n  - at: a\n    did: b\n  - at: 2026-08-05 14:10\n    did: cut-skirt\n    for: 48 min\n"},
		{"no last line end", "journal:\n  - {at: a}", "journal:\n  - {at: a}\n  - " + flowEntry},
		{"line ends of two characters", "journal:\r\n  - {at: a}\r\n", "journal:\r\n  - {at: a}\r\n  - " + flowEntry + "\r\n"},
		{"line ends of one other character", "journal:\r  - {at: a}\r", "journal:\r  - {at: a}\r  - " + flowEntry + "\r"},
		{"byte order mark", "\ufeffjournal:\n  - {at: a}\n", "\ufeffjournal:\n  - {at: a}\n  - " + flowEntry + "\n"},
		{"before what follows apart", "journal:\n  - {at: a}\n\n# next\nz: 1\n", "journal:\n  - {at: a}\n  - " + flowEntry + "\n\n# next\nz: 1\n"},
		{"below its own comment", "journal:\n  - {at: a}  # one\n  # two\nz: 1\n", "journal:\n  - {at: a}  # one\n  # two\n  - " + flowEntry + "\nz: 1\n"},
		{"entries apart", "journal:\n  - {at: a}\n\n  - {at: b}\nz: 1\n", "journal:\n  - {at: a}\n\n  - {at: b}\n\n  - " + flowEntry + "\nz: 1\n"},
		{"after text that keeps its empty lines", "journal:\n  - note: |+\n      x\n\n\nz: 1\n", "journal:\n  - note: |+\n      x\n\n\n  - at: 2026-08-05 14:10\n    did: cut-skirt\n    for: 48 min\nz: 1\n"},
		{"after text that does not", "journal:\n  - note: |\n      x\n\nz: 1\n", "journal:\n  - note: |\n      x\n  - at: 2026-08-05 14:10\n    did: cut-skirt\n    for: 48 min\n\nz: 1\n"},
		{"after text without a last line end", "journal:\n  - note: >\n      x", "journal:\n  - note: >\n      x\n  - at: 2026-08-05 14:10\n    did: cut-skirt\n    for: 48 min"},
		{"after an empty entry", "journal:\n  -\nz: 1\n", "journal:\n  -\n  - " + flowEntry + "\nz: 1\n"},
		{"after a name without a value", "journal:\n  - at:\nz: 1\n", "journal:\n  - at:\n  - at: 2026-08-05 14:10\n    did: cut-skirt\n    for: 48 min\nz: 1\n"},
		{"after quotes over lines", "journal:\n  - 'it''s\n\n    # no comment'\nz: 1\n", "journal:\n  - 'it''s\n\n    # no comment'\n  - " + flowEntry + "\nz: 1\n"},
		{"marked entry", "journal:\n  - &j {at: a}\nsame: *j\n", "journal:\n  - &j {at: a}\n  - " + flowEntry + "\nsame: *j\n"},
		{"in brackets", "journal: [{at: a}]  # c\n", "journal: [{at: a}, " + flowEntry + "]  # c\n"},
		{"in brackets, comma last", "journal: [{at: a},]\n", "journal: [{at: a}, " + flowEntry + ",]\n"},
		{"brackets over lines", "journal: [\n  {at: \"]\"}, # 1\n  {at: it's} # 2\n]\n", "journal: [\n  {at: \"]\"}, # 1\n  {at: it's}, # 2\n  " + flowEntry + "\n]\n"},
		{"brackets over lines, comma last", "journal: [\n    {at: a}, # 1\n  ]\n", "journal: [\n    {at: a}, # 1\n    " + flowEntry + ",\n  ]\n"},
		{"everything in braces", "{name: a, journal: []}\n", "{name: a, journal: [" + flowEntry + "]}\n"},
		{"empty brackets", "journal: []  # c\nz: 1\n", "journal:  # c\n  - " + flowEntry + "\nz: 1\n"},
		{"empty brackets with a comment", "journal: [ # c\n  ]\n", "journal: [ # c\n  " + flowEntry + "]\n"},
		{"no value", "journal:   # c\n  # own\nz: 1\n", "journal:   # c\n  # own\n  - " + flowEntry + "\nz: 1\n"},
		{"no value, no last line end", "name: a\njournal:", "name: a\njournal:\n  - " + flowEntry},
		{"tilde", "journal: ~\nz: 1\n", "journal:\n  - " + flowEntry + "\nz: 1\n"},
		{"missing", "name: a\n", "name: a\njournal:\n  - " + flowEntry + "\n"},
		{"missing, parts apart", "name: a\n\nwork:\n- b\n# end\n", "name: a\n\nwork:\n- b\n# end\n\njournal:\n- " + flowEntry + "\n"},
		{"missing, document ended", "---\nname: a\n... # end\n", "---\nname: a\njournal:\n  - " + flowEntry + "\n... # end\n"},
		{"unknown words elsewhere", "nmae: a\nstate: !!x [\njournal, -]\n", "nmae: a\nstate: !!x [\njournal, -]\njournal:\n  - " + flowEntry + "\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			before := strings.Clone(row.before)
			got, err := Append([]byte(row.before), At("journal"), entry())
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != row.after {
				t.Errorf("got\n%s\nwant\n%s", got, row.after)
			}
			if before != row.before {
				t.Error("the text given was altered")
			}
		})
	}
}

func TestAppendBeginsTheGroupsOnTheWay(t *testing.T) {
	for _, row := range []struct{ before, after string }{
		{"name: a\n", "name: a\npacket:\n  box:\n    - dress\n"},
		{"packet: # c\nz: 1\n", "packet: # c\n  box:\n    - dress\nz: 1\n"},
		{"packet: {}\n", "packet: {box: [dress]}\n"},
		{"packet: {wear: [a]}\n", "packet: {wear: [a], box: [dress]}\n"},
		{"packet:\n    wear:\n    - a\nz: 1\n", "packet:\n    wear:\n    - a\n    box:\n    - dress\nz: 1\n"},
	} {
		got, err := Append([]byte(row.before), At("packet", "box"), Words("dress"))
		if err != nil || string(got) != row.after {
			t.Errorf("%q: %v\n%s", row.before, err, got)
		}
	}
}

func TestSetChangesOneValue(t *testing.T) {
	for _, row := range []struct {
		name, before string
		at           Path
		value        Value
		after        string
	}{
		{"a word", "state: sewing  # now\nz: 1\n", At("state"), Words("packed"), "state: packed  # now\nz: 1\n"},
		{"its quotes", "state: 'sewing'\n", At("state"), Words("it's"), "state: 'it''s'\n"},
		{"its other quotes", "\"state\":   \"sewing\"\n", At("state"), Words("packed"), "\"state\":   \"packed\"\n"},
		{"in braces", "measured: {waist: 712, hem: 4180}\n", At("measured", "waist"), Figure("715"), "measured: {waist: 715, hem: 4180}\n"},
		{"new in braces", "measured: {waist: 712}\n", At("measured", "hem"), Figure("418 cm"), "measured: {waist: 712, hem: 418 cm}\n"},
		{"new in padded braces", "measured: { waist: 712 }\n", At("measured", "hem"), Figure("4180"), "measured: { waist: 712, hem: 4180 }\n"},
		{"new below", "measured:\n    waist: 712\n    # done\n\nz: 1\n", At("measured", "hem"), Figure("4180"), "measured:\n    waist: 712\n    # done\n    hem: 4180\n\nz: 1\n"},
		{"new group", "name: a\n", At("measured", "hem"), Figure("4180"), "name: a\nmeasured:\n  hem: 4180\n"},
		{"new group, no last line end", "name: a", At("measured", "hem"), Figure("4180"), "name: a\nmeasured:\n  hem: 4180"},
		{"behind a name without a value", "measured: {waist: }\n", At("measured", "hem"), Figure("4180"), "measured: {waist: , hem: 4180 }\n"},
		{"empty group", "measured:\nz: 1\n", At("measured", "hem"), Figure("4180"), "measured:\n  hem: 4180\nz: 1\n"},
		{"empty braces", "measured: { }\n", At("measured", "hem"), Figure("4180"), "measured: { hem: 4180 }\n"},
		{"name alone in braces", "measured: {hem, waist: 1}\n", At("measured", "hem"), Figure("4180"), "measured: {hem: 4180, waist: 1}\n"},
		{"no value", "state: # soon\n", At("state"), Words("packed"), "state: packed # soon\n"},
		{"text over lines to one line", "story: |  # s\n  a\n  b\n\nz: 1\n", At("story"), Words("c"), "story: c  # s\n\nz: 1\n"},
		{"one line to text over lines", "story: a # s\nz: 1\n", At("story"), Words("b\n\nc\n"), "story: | # s\n  b\n\n  c\nz: 1\n"},
		{"plain text over lines", "story: a\n  b\n  c # s\nz: 1\n", At("story"), Words("d"), "story: d # s\nz: 1\n"},
		{"an entry of the journal", "journal:\n  - {at: a}\n  - {at: b, for: 1 min}\n", At("journal").Item(1).Key("for"), Figure("48 min"), "journal:\n  - {at: a}\n  - {at: b, for: 48 min}\n"},
		{"new in the last entry", "journal:\n  - at: a\n    did: b # c\nz: 1\n", At("journal").Item(-1).Key("for"), Figure("48 min"), "journal:\n  - at: a\n    did: b # c\n    for: 48 min\nz: 1\n"},
		{"a whole entry", "box: [dress, hooks]\n", At("box").Item(0), Words("coat"), "box: [coat, hooks]\n"},
		{"tagged", "state: !!str 12 # c\n", At("state"), Words("packed"), "state: packed # c\n"},
		{"marked", "state: &s sewing\n", At("state"), Words("packed"), "state: &s packed\n"},
		{"an alias", "a: &s sewing\nstate: *s\n", At("state"), Words("packed"), "a: &s sewing\nstate: packed\n"},
		{"already so", "state:   \"packed\"\n", At("state"), Words("packed"), "state:   \"packed\"\n"},
		{"after wide characters", "measured: {größe: \"ä\tü🧵\", waist: 712}\n", At("measured", "waist"), Figure("7"), "measured: {größe: \"ä\tü🧵\", waist: 7}\n"},
		{"after line ends only YAML 1.1 has", "a: \"x\u2028y\" # \u0085\nstate: b\n", At("state"), Words("c"), "a: \"x\u2028y\" # \u0085\nstate: c\n"},
		{"beside a merged group", "b: &b {x: 1}\nm:\n  <<: *b\n", At("m", "x"), Figure("2"), "b: &b {x: 1}\nm:\n  <<: *b\n  x: 2\n"},
		{"asked for outright", "? state\n: sewing\n", At("state"), Words("packed"), "? state\n: packed\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := Set([]byte(row.before), row.at, row.value)
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != row.after {
				t.Errorf("got\n%s\nwant\n%s", got, row.after)
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	journal := func(text string) error { _, err := Append([]byte(text), At("journal"), entry()); return err }
	set := func(text string, v Value, at ...string) error { _, err := Set([]byte(text), At(at...), v); return err }
	for _, row := range []struct {
		name string
		err  error
		line int
		want string
	}{
		{"not YAML", journal("name: a\njournal: [\n"), 2, "not YAML"},
		{"not YAML in its first line", journal("name: a: b\n"), 1, "not YAML"},
		{"not text", journal("name: a\nb: \xff\n"), 2, "0xff is not text"},
		{"empty, as an editor leaves it before it writes", journal(""), 0, "empty"},
		{"comments alone", journal("# a\n"), 0, "empty"},
		{"two records", journal("a: b\n---\nc: d\n"), 2, "second record"},
		{"a list", journal("- a\n"), 1, "this record is a list"},
		{"not a list", journal("name: a\njournal: b\n"), 2, "journal is a single value, not a list"},
		{"written elsewhere", journal("a: &a [b]\njournal: *a\n"), 2, "*a, not a list"},
		{"used elsewhere", journal("journal: &a [b]\nc: *a\n"), 1, "used elsewhere"},
		{"merged", journal("a: &a {journal: [b]}\n<<: *a\n"), 1, "merged"},
		{"twice", journal("journal: [a]\nb: c\njournal: [d]\n"), 3, "written twice"},
		{"a group is not replaced", set("m: {a: 1}\n", Figure("1"), "m"), 1, "words with values"},
		{"a list is not replaced", set("m: [1]\n", Figure("1"), "m"), 1, "a list"},
		{"through a single value", set("m: 1\n", Figure("1"), "m", "a"), 1, "single value"},
		{"through an alias", set("a: &a {b: 1}\nm: *a\n", Figure("1"), "m", "b"), 2, "used elsewhere|written elsewhere"},
		{"control character", set("m: 1\n", Words("bell\a"), "m"), 0, "U+0007"},
		{"not text, given", set("m: 1\n", Words("\xff"), "m"), 0, "not text"},
		{"a name over lines", set("m: 1\n", Words("a"), "b\nc"), 0, "cannot be the name"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r, refused := errors.AsType[fault.List](row.err)
			if !refused {
				t.Fatalf("not refused: %v", row.err)
			}
			ok := false
			for want := range strings.SplitSeq(row.want, "|") {
				ok = ok || strings.Contains(r[0].Message, want)
			}
			if !ok || int(r[0].At.Line) != row.line {
				t.Errorf("refused with %q, want line %d and %q", r, row.line, row.want)
			}
		})
	}
	text := []byte("journal:\n  - {at: a}\n")
	if _, err := Set(text, At("journal").Item(1).Key("for"), Words("b")); err == nil || !strings.Contains(err.Error(), "journal has 1 entries, there is no entry 2") {
		t.Errorf("an entry that is not there: %v", err)
	}
}

func TestRead(t *testing.T) {
	text := []byte("base: &b {did: cut}\njournal:\n  - {<<: *b, at: 2026-08-05, for: 48 min}\n  - {at: 1}\nopen:\n")
	v, ok, err := Read(text, At("journal"))
	if err != nil || !ok || len(v.Items()) != 2 {
		t.Fatal(v, ok, err)
	}
	if f, _ := v.Items()[0].Get("for"); f.Text() != "48 min" {
		t.Errorf("for is %q", f.Text())
	}
	if v, ok, _ := Read(text, At("journal").Item(0).Key("did")); !ok || v.Text() != "cut" {
		t.Errorf("through a merged group: %q, %t", v.Text(), ok)
	}
	if v, ok, _ := Read(text, At("open")); !ok || v.Text() != "" {
		t.Errorf("a name without a value: %q, %t", v.Text(), ok)
	}
	if _, ok, _ := Read(text, At("journal").Item(2)); ok {
		t.Error("an entry that is not there was read")
	}
	bomb := "n0: &n0 [x, x]\n"
	for i := range 40 {
		bomb += fmt.Sprintf("n%d: &n%d [*n%d, *n%d]\n", i+1, i+1, i, i)
	}
	if _, _, err := Read([]byte(bomb), At("n40")); err == nil {
		t.Error("a record that unfolds without end was read")
	}
	for _, circle := range []string{"a: &x [*x]\n", "a: &x {b: *x}\n"} {
		if _, _, err := Read([]byte(circle), At("a")); err == nil {
			t.Errorf("%q was read", circle)
		}
	}
	if _, ok, err := Read([]byte("a: &x {<<: *x}\n"), At("a", "b")); ok || err != nil {
		t.Errorf("a group merged into itself: %t, %v", ok, err)
	}
}

// TestQuoting: whatever words are written, they read back as those words, both
// in a line and within braces; words that may stand plain do.
func TestQuoting(t *testing.T) {
	for _, row := range []struct {
		words string
		plain bool // in a line of its own
	}{
		{"cut the skirt", true},
		{"48 min", true},
		{"5/8 in", true},
		{"-6 mm", true},
		{"1 on fold", true},
		{"2026-08-05", true},
		{"2026-08-05 14:10", true},
		{"2026-08-05T14:10", true},
		{"Größe & Maß", true},
		{"🧵 thread 👩🏽‍🦱", true},
		{"a, b", true},
		{"it's", true},
		{"what? yes!", true},
		{"https://example.org/a#b", true},
		{"front.side", true},
		// YAML 1.1 reads these otherwise: yaml.org/type/bool, null, int, float, merge, value.
		{"yes", false},
		{"No", false},
		{"on", false},
		{"OFF", false},
		{"y", false},
		{"true", false},
		{"null", false},
		{"~", false},
		{"1:20", false},
		{"190:20:30.15", false},
		{"712", false},
		{"0o14", false},
		{"014", false},
		{"0x1F", false},
		{"1_000", false},
		{"1e3", false},
		{".5", false},
		{"-.inf", false},
		{".NaN", false},
		{"<<", false},
		{"=", false},
		{"2026-8-5", false},
		{"2026-99-99", false},
		// Indicators: YAML 1.2.2, section 5.3.
		{"*note", false},
		{"&note", false},
		{"#note", false},
		{"!note", false},
		{"|", false},
		{"> a", false},
		{"%a", false},
		{"@a", false},
		{"`a`", false},
		{"'a'", false},
		{"\"a\"", false},
		{"- a", false},
		{"-", false},
		{"---", false},
		{"? a", false},
		{": a", false},
		{"{a", false},
		{"[a", false},
		{", a", false},
		{"a: b", false},
		{"a:", false},
		{"a #b", false},
		{"", false},
		{" a", false},
		{"a ", false},
		{"a\u00a0", false},
		{"a\tb", false},
		{"a\nb", false},
		{"a\n b\n", false},
		{"\n", false},
		{"a\n\n", false},
		{"a\\nb", true},
		{" \n ", false},
		{"\ta\nb", false},
		{"a \nb", false},
	} {
		for _, text := range []string{"name: x\nm:\n  a: 1\n", "m: {a: 1}\n", "m:\n  - a\n", "m: [a]\n"} {
			var got []byte
			var err error
			if strings.ContainsAny(text, "-[") {
				got, err = Append([]byte(text), At("m"), Words(row.words))
			} else {
				got, err = Set([]byte(text), At("m", "b"), Words(row.words))
			}
			if err != nil {
				t.Errorf("%q into %q: %v", row.words, text, err)
				continue
			}
			v := lastScalar(t, got)
			if v.Value != row.words || v.ShortTag() != "!!str" && v.Tag != "!!timestamp" {
				t.Errorf("%q was written so that it reads as %s %q:\n%s", row.words, v.Tag, v.Value, got)
			}
			if strings.HasPrefix(text, "name") && (v.Style == 0) != row.plain {
				t.Errorf("%q stands plain: %t\n%s", row.words, v.Style == 0, got)
			}
		}
	}
	for _, number := range []string{"712", "-3", "0.5", "1.50"} {
		got, err := Set([]byte("m: {a: 1}\n"), At("m", "b"), Figure(number))
		if err != nil || string(got) != "m: {a: 1, b: "+number+"}\n" {
			t.Errorf("%s: %s %v", number, got, err)
		}
	}
	for _, entered := range []string{"071", "1e3", "0x10", "+5", "1,5", "1:20"} {
		if got, err := Set([]byte("a: 1\n"), At("b"), Figure(entered)); err != nil || lastScalar(t, got).ShortTag() != "!!str" {
			t.Errorf("%s: %s %v", entered, got, err)
		}
	}
}

// lastScalar is the last value of the text, as the library alone reads it.
func lastScalar(t *testing.T, text []byte) *yaml.Node {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal(text, &n); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	last := &n
	for len(last.Content) > 0 {
		last = last.Content[len(last.Content)-1]
	}
	return last
}

// TestDemoRecords appends to every build of the demo workroom: each grows by
// just the new lines.
func TestDemoRecords(t *testing.T) {
	files, err := filepath.Glob("../../../content/builds/*/build.yaml")
	if err != nil || len(files) == 0 {
		t.Skip("the demo workroom is not there")
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Append(text, At("journal"), entry())
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		i := 0
		for i < len(text) && text[i] == got[i] {
			i++
		}
		grown := len(got) - len(text)
		if string(got[i+grown:]) != string(text[i:]) || strings.Count(string(got), "cut-skirt") != strings.Count(string(text), "cut-skirt")+1 {
			t.Errorf("%s: more than an entry was added", file)
		}
	}
}

// record3KB is a record of the usual size.
func record3KB() []byte {
	var b strings.Builder
	b.WriteString("name: Harbour coat\ngarment: coat\nstate: sewing\nmeasured: {waist: 712, hem: 4180}\n\npieces:\n")
	for range 12 {
		b.WriteString("  - name: front            # cut in each\n    of: [shell, fusing]\n    outline:\n      from: [0, 0]\n      edges:\n        - {name: waist, to: [172, 0], level: waist}\n")
	}
	b.WriteString("\njournal:\n")
	for b.Len() < 3000 {
		b.WriteString("  - {at: 2026-08-05 15:00, note: \"pressed, then measured\", photo: photos/cut.jpg}\n")
	}
	return []byte(b.String())
}

func BenchmarkAppend3KB(b *testing.B) {
	text := record3KB()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Append(text, At("journal"), entry()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSet3KB(b *testing.B) {
	text := record3KB()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Set(text, At("measured", "waist"), Figure("715")); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkChange3KB includes lock, disk and renaming; the record keeps its size.
func BenchmarkChange3KB(b *testing.B) {
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "build.yaml"), record3KB(), 0o644); err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		i++
		err := File{Folder: dir, Path: "build.yaml"}.Change(func(text []byte) ([]byte, error) {
			return Set(text, At("measured", "waist"), Figure([]string{"712", "715"}[i%2]))
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}
