package main

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	guidepages "hembook/content/pages"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// inCode are the parts of a page that are set as code.
var inCode = regexp.MustCompile("(?s)~~~.*?\n~~~|`[^`\n]+`|(?m)^    .*$")

// TestGuideKnowsWhatTheReaderKnows: each word that a record may hold, each value a word is
// one of, each way to seam or finish with its measures, and each measurement of a body
// stands, set as code, on a page of the guide.
func TestGuideKnowsWhatTheReaderKnows(t *testing.T) {
	names, err := fs.Glob(guidepages.Files, "*.md")
	if err != nil {
		t.Fatal(err)
	}
	said, everything := map[string]bool{}, ""
	for _, name := range names {
		text, err := guidepages.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		everything += string(text)
		for _, code := range inCode.FindAllString(string(text), -1) {
			said[strings.Trim(code, "`")] = true
			for _, part := range regexp.MustCompile(`[\p{L}\p{N}][\p{L}\p{N}-]*(?: [\p{L}-]+)*`).FindAllString(code, -1) {
				said[part] = true
			}
		}
	}
	known := 0
	want := func(what, word string) {
		known++
		if !said[word] {
			t.Errorf("no page of the guide says the %s %s", what, word)
		}
	}
	for _, kind := range record.KindNames() {
		for _, w := range record.Words(kind) {
			want("word of a "+kind, w.Key)
			for _, value := range w.OneOf {
				if !said[value] && !strings.Contains(everything, value) {
					t.Errorf("no page of the guide says the value %s of %s", value, w.Key)
				}
			}
		}
	}
	for _, s := range trade.SeamTypes() {
		want("type", s.Name)
		for _, p := range s.Parameters {
			want("measure of "+s.Name, p.Name)
		}
	}
	for _, m := range trade.Measurements() {
		if m.Unit == "mm" {
			want("measurement", strings.ReplaceAll(m.Name, "-", " "))
		}
	}
	if known < 700 {
		t.Errorf("only %d words were looked for", known)
	}
	t.Logf("%d words", known)
}
