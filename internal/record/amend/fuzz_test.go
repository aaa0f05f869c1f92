package amend

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"testing"

	"gopkg.in/yaml.v3"
)

// FuzzAppend: any text is either refused or gains just the entry: no byte of
// it is lost but those of an empty value, and its data stay.
func FuzzAppend(f *testing.F) {
	seedFuzz(f)
	f.Fuzz(func(t *testing.T, text []byte, note string) {
		before := bytes.Clone(text)
		v := Group(Field{"at", Figure("2026-08-05 14:10")}, Field{"note", Words(note)})
		got, err := Append(text, At("journal"), v)
		if !bytes.Equal(before, text) {
			t.Fatal("the text given was altered")
		}
		if err != nil {
			return
		}
		judgeFuzz(t, text, got, func(data map[string]any) {
			had, _ := data["journal"].([]any)
			data["journal"] = append(had, map[string]any{"at": "2026-08-05 14:10", "note": Words(note).text})
		})
		if had, ok, err := Read(text, At("journal")); err == nil && ok && len(had.Items()) > 0 && !isWithin(string(text), string(got)) {
			t.Fatalf("bytes were lost\n%q\n%q", text, got)
		}
	})
}

// FuzzSet: any text is either refused or differs in just the value.
func FuzzSet(f *testing.F) {
	seedFuzz(f)
	f.Fuzz(func(t *testing.T, text []byte, words string) {
		got, err := Set(text, At("measured", "waist"), Words(words))
		if err != nil {
			return
		}
		judgeFuzz(t, text, got, func(data map[string]any) {
			m, ok := data["measured"].(map[string]any)
			if !ok {
				m = map[string]any{}
				data["measured"] = m
			}
			m["waist"] = Words(words).text
		})
		if _, ok, err := Read(text, At("measured", "waist")); err == nil && !ok && !isWithin(string(text), string(got)) {
			if had, ok, _ := Read(text, At("measured")); !ok || had.Text() == "" && had.kind != silent {
				t.Fatalf("bytes were lost\n%q\n%q", text, got)
			}
		}
	})
}

func seedFuzz(f *testing.F) {
	for seed := range uint64(40) {
		f.Add([]byte(write(rand.New(rand.NewPCG(seed, 1))).text), manyWords[seed%uint64(len(manyWords))])
	}
	for _, text := range []string{"", "journal:", "journal: []", "journal: [a,", "{journal: [a]}", "- a", "a: &a\n  b: *a\n", "journal: [? a : b, c: ]", "journal: [a #b\n ]", "\xef\xbb\xbfjournal:\n- a\n", "journal:\n- |2\n   a", "%YAML 1.1\n---\njournal: !!seq [a]\n...\n", "? journal\n: - a\n", "measured: {waist: &a !!str x, ? hem : }"} {
		f.Add([]byte(text), "note: *x")
	}
}

// judgeFuzz compares the data, as the library alone reads them. Data that it
// will not read as plain values, such as a group as a name, are not compared.
func judgeFuzz(t *testing.T, text, got []byte, apply func(map[string]any)) {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal(got, &doc); err != nil {
		t.Fatalf("%v\n%q\n%q", err, text, got)
	}
	var after map[string]any
	errAfter := yaml.Unmarshal(got, &after)
	same, readable := false, false
	for _, old := range [][]byte{text, append(bytes.Clone(text), '\n')} {
		var data map[string]any
		if yaml.Unmarshal(old, &data) != nil || data == nil {
			continue
		}
		readable = true
		daysAsText(data)
		apply(data)
		daysAsText(after)
		same = same || reflect.DeepEqual(data, after)
	}
	if readable && (errAfter != nil || !same) {
		t.Fatalf("the data are not as wanted: %v\n%q\n%q", errAfter, text, got)
	}
}
