package trade

import "testing"

func TestNotionKind(t *testing.T) {
	for _, c := range []struct{ name, kind string }{
		{"button", "button"},
		{"collar buttons", "button"},
		{"button loops", "button loop"},            // the last word tells
		{"Hooks and eyes", "hook and eye"},         // words that belong together
		{"brass zipper", "zipper"},                 // American words as British ones
		{"press studs for the cuff", "press stud"}, // and not where it goes
		{"zip left", "zip"},                        // left is none
		{"waist stay", "stay"},
		{"D-rings", "d-ring"},
		{"gizmo", ""},
		{"", ""},
	} {
		if kind, ok := NotionKind(c.name); kind != c.kind || ok != (c.kind != "") {
			t.Errorf("%q is %q, %v; want %q", c.name, kind, ok, c.kind)
		}
	}
}
