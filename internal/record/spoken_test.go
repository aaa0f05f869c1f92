package record

import (
	"strings"
	"testing"
)

const spokenHead = "name: Box\ngarment: dress\nstate: planned\npacket:\n"

// TestSpoken: words stand alone, by language, or as lists by language; the notebook
// shows its own language where that is there, else the first.
func TestSpoken(t *testing.T) {
	for text, want := range map[string][3]string{ // in the notebook, in German, in French
		"  note: Keep it dry.\n":                                      {"Keep it dry.", "Keep it dry. (en)", "Keep it dry. (en)"},
		"  note: {de: Trocken halten., en: Keep it dry.}\n":           {"Keep it dry.", "Trocken halten. (de)", "Keep it dry. (en)"},
		"  note: {de: Trocken halten.}\n":                             {"Trocken halten.", "Trocken halten. (de)", "Trocken halten. (de)"},
		"  wear:\n    - Over the head.\n":                             {"Over the head.", "Over the head. (en)", "Over the head. (en)"},
		"  wear: {en: [Over the head.], de: [Über den Kopf.]}\n":      {"Over the head.", "Über den Kopf. (de)", "Over the head. (en)"},
		"  wear:\n    de: |\n      Über den Kopf.\n      Zip zu.\n":   {"Über den Kopf.", "Über den Kopf. (de)", "Über den Kopf. (de)"},
		"  wear:\n    - {en: Over the head., de: Über den Kopf.}\n":   {"Over the head.", "Über den Kopf. (de)", "Over the head. (en)"},
		"  wear: {en: Over the head., de: Über den Kopf.}\n":          {"Over the head.", "Über den Kopf. (de)", "Over the head. (en)"},
		"  wear: {fr: [Par la tête.], de: [Über den Kopf., Zip zu.]}": {"Par la tête.", "Par la tête. (fr)", "Par la tête. (fr)"}, // with a fault
	} {
		room := baseRoom(t, map[string]string{"content/builds/box/build.yaml": spokenHead + text})
		b, faults := room.ReadBuild(BuildFile{Slug: "box", Path: "content/builds/box/build.yaml"})
		if b == nil {
			t.Fatalf("%s: %v", text, faults)
		}
		s := b.Packet.Note
		if len(b.Packet.Wear) > 0 {
			s = b.Packet.Wear[0]
		}
		said := func(code string) string {
			words, tongue := s.In(code)
			return words + " (" + tongue + ")"
		}
		if got := [3]string{s.V, said("de"), said("fr")}; got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestSpokenFaults: what is no language, no words, and a line left out are answered.
func TestSpokenFaults(t *testing.T) {
	for text, want := range map[string]string{
		"  note: {german: Trocken halten.}\n":                      `"german" is no language of the sheets`,
		"  note: {en: }\n":                                         "this must be text",
		"  checked: {by: {en: Ada, de: Ada}}\n":                    "this cannot stand in several languages",
		"  note: {}\n":                                             "there are no words here",
		"  note: {en: [Keep it dry.]}\n":                           "this must be text",
		"  wear: {en: [One., Two.], de: [Eins.]}\n":                "de has 1 line, en has 2",
		"  wear:\n    - {en: Over the head., xx: Ueber den Kopf.}": `"xx" is no language of the sheets`,
	} {
		room := baseRoom(t, map[string]string{"content/builds/box/build.yaml": spokenHead + text})
		_, faults := room.ReadBuild(BuildFile{Slug: "box", Path: "content/builds/box/build.yaml"})
		var all []string
		for _, f := range faults {
			all = append(all, f.String())
		}
		if got := strings.Join(all, "\n"); !strings.Contains(got, want) {
			t.Errorf("%s: %s\nwant %q", text, got, want)
		}
	}
}
