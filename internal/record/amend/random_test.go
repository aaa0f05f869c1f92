package amend

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"gopkg.in/yaml.v3"
)

var (
	full  = flag.Bool("full", false, "10 000 random edits, 1 000 kills, 30 s of eight writers")
	seed0 = flag.Uint64("seed", 1, "first seed of the random edits")
)

// A wanted change is an edit with what it does to the record as data.
type wanted struct {
	raw   string // what stands there before
	do    func(text []byte) ([]byte, error)
	apply func(data map[string]any)
}

var manyWords = []string{"packed", "pressed, then measured", "it's: \"odd\" #1", "*star", "two\nlines", "# a\n\n  b\n", "2026-08-06 09:00", "größe 🧵", "yes", "1:20", "48 min", "a\tb", "-", "{x", "[1]", "a]", "x: ", "C:\\dir", "", "null", "2026-08-07", "  deep", "trailing \nspace"}

// wantBefore is an entry put before one that a journal has; one in brackets gets it at
// its end, as Append has it.
func wantBefore(i int, rec *writtenRecord, v Value) wanted {
	e := Group(Field{"at", Words("2026-08-05 14:10")}, Field{"note", v})
	inTurn := false
	return wanted{
		rec.raw["journal"], func(text []byte) ([]byte, error) {
			now, err := Insert(text, At("journal"), i, e)
			atEnd, _ := Append(text, At("journal"), e)
			inTurn = !bytes.Equal(now, atEnd)
			return now, err
		},
		func(data map[string]any) {
			had, _ := data["journal"].([]any)
			if !inTurn {
				i = len(had)
			}
			data["journal"] = slices.Insert(slices.Clone(had), i, plainly(e))
		},
	}
}

// want is a random change for a record whose data are given.
func want(r *rand.Rand, rec *writtenRecord, data map[string]any) wanted {
	words := func() string { return manyWords[r.IntN(len(manyWords))] }
	v, as := Words(words()), any(nil)
	if r.IntN(3) == 0 {
		v = Figure("71" + fmt.Sprint(r.IntN(10)))
	}
	as = plainly(v)
	set := func(key string, at Path, apply func(map[string]any)) wanted {
		return wanted{rec.raw[key], func(text []byte) ([]byte, error) { return Set(text, at, v) }, apply}
	}
	journal, _ := data["journal"].([]any)
	switch k := r.IntN(9); {
	case k == 8 && len(journal) > 0:
		return wantBefore(r.IntN(len(journal)), rec, v)
	case k < 3:
		e := Group(Field{"at", Words("2026-08-05 14:10")}, Field{"note", v}, Field{"photo", Group(Field{"file", Words("a.jpg")}, Field{"alt", Words(words())})})
		if r.IntN(4) == 0 {
			e = v
		}
		return wanted{
			rec.raw["journal"], func(text []byte) ([]byte, error) { return Append(text, At("journal"), e) },
			func(data map[string]any) {
				had, _ := data["journal"].([]any)
				data["journal"] = append(had, plainly(e))
			},
		}
	case k == 3:
		return set("state", At("state"), func(data map[string]any) { data["state"] = as })
	case k == 4:
		return set("story", At("story"), func(data map[string]any) { data["story"] = as })
	case k == 5 && len(journal) > 0:
		i := r.IntN(len(journal))
		if _, ok := journal[i].(map[string]any); ok {
			return set(fmt.Sprintf("journal.%d.for", i), At("journal").Item(i-len(journal)).Key("for"), func(data map[string]any) {
				data["journal"].([]any)[i].(map[string]any)["for"] = as
			})
		}
	}
	part := []string{"measured", "packet", "new one"}[r.IntN(3)]
	name := []string{"waist", "hem", "größe", "nape to waist", "new: one"}[r.IntN(5)]
	key := part + "." + name
	if _, ok := data[part].(map[string]any); !ok || rec.raw[part] != "" {
		key = part
	}
	return set(key, At(part, name), func(data map[string]any) {
		if m, ok := data[part].(map[string]any); ok {
			m[name] = as
		} else {
			data[part] = map[string]any{name: as}
		}
	})
}

// plainly is what the library alone should read a value as.
func plainly(v Value) any {
	switch v.kind {
	case list:
		out := []any{}
		for _, item := range v.items {
			out = append(out, plainly(item))
		}
		return out
	case group:
		out := map[string]any{}
		for _, f := range v.fields {
			out[f.Name] = plainly(f.Value)
		}
		return out
	case bare:
		var n any
		if yaml.Unmarshal([]byte(v.text), &n) != nil {
			panic("no number: " + v.text)
		}
		return n
	}
	return v.text
}

// isWithin reports whether every byte of old stands in text, in order.
func isWithin(old, text string) bool {
	i := 0
	for j := 0; i < len(old) && j < len(text); j++ {
		if old[i] == text[j] {
			i++
		}
	}
	return i == len(old)
}

// keptBut reports whether all of old but one place where raw stands is in text.
func keptBut(old, raw, text string) bool {
	for i := 0; i+len(raw) <= len(old); i++ {
		if old[i:i+len(raw)] == raw && isWithin(old[:i]+old[i+len(raw):], text) {
			return true
		}
		if raw == "" {
			break
		}
	}
	return false
}

func decodeAny(t *testing.T, text string) map[string]any {
	t.Helper()
	var data map[string]any
	if err := yaml.Unmarshal([]byte(text), &data); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return daysAsText(data).(map[string]any)
}

// daysAsText makes a date the same with quotes and without, as it is to the
// reader of records.
func daysAsText(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case []any:
		for i := range v {
			v[i] = daysAsText(v[i])
		}
	case map[string]any:
		for k := range v {
			v[k] = daysAsText(v[k])
		}
	}
	return v
}

// TestRandomEdits makes random changes to random records. What is judged is
// judged without the package's own reading: the data by the library's plain
// decoding, the untouched bytes by what the generator wrote.
func TestRandomEdits(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	edits := 1500
	if *full {
		edits = 10_000
	}
	refused := 0
	for seed := *seed0; seed < *seed0+uint64(edits); seed++ {
		r := rand.New(rand.NewPCG(seed, 0))
		rec := write(r)
		w := want(r, rec, decodeAny(t, rec.text))
		got, err := w.do([]byte(rec.text))
		if err != nil {
			if !strings.Contains(err.Error(), "used elsewhere") && !strings.Contains(err.Error(), "and tagged") {
				t.Fatalf("seed %d: %v\n%s", seed, err, rec.text)
			}
			refused++
			continue
		}
		if why := judge(t, rec, w, string(got)); why != "" {
			t.Fatalf("seed %d: %s\n--- before\n%s\n--- after\n%s", seed, why, rec.text, got)
		}
	}
	if refused*20 > edits {
		t.Errorf("%d of %d changes were refused", refused, edits)
	}
	t.Logf("%d edits from seed %d, %d refused", edits, *seed0, refused)
}

// judge says what is wrong with a changed record; "" where nothing is.
func judge(t *testing.T, rec *writtenRecord, w wanted, got string) string {
	after := decodeAny(t, got)
	ok := false
	for _, old := range []string{rec.text, rec.text + "\n"} { // a last line without its end gets one when lines follow
		data := decodeAny(t, old)
		w.apply(data)
		ok = ok || reflect.DeepEqual(data, after)
	}
	if !ok {
		return "the data are not as wanted"
	}
	if !keptBut(rec.text, w.raw, got) {
		return fmt.Sprintf("bytes outside of %q were lost", w.raw)
	}
	for _, c := range rec.comments {
		if strings.Count(got, c+"\n")+strings.Count(got, c+"\r\n") != 1 && !strings.HasSuffix(got, c) {
			return "the comment " + c + " was lost"
		}
	}
	if strings.Contains(rec.text, "\r\n") && strings.Count(got, "\n") != strings.Count(got, "\r\n") {
		return "the line ends are mixed"
	}
	return ""
}
