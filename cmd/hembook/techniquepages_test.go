package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// What a page of a technique must have, beside its drawing and when it is wanted, as
// patterns of its Markdown and how often each is found at least: steps to follow, numbers with
// units, what goes wrong and why, and where it is from.
var onTechniquePages = []struct {
	what   string
	least  int
	within string // the heading it stands below; "" where anywhere
	found  *regexp.Regexp
}{
	{"steps", 3, "", regexp.MustCompile(`(?m)^\d+\. `)},
	{"numbers with units", 2, "", regexp.MustCompile(`\d ?(?:mm|cm|m|in|%|°|g|h|hours|minutes)(?:\W|$)`)},
	{"things that go wrong", 3, "What goes wrong", regexp.MustCompile(`(?m)^(?:- |: |\| )`)},
	{"source", 1, "", regexp.MustCompile(`(?i)common practice|from memory|is geometry|are arithmetic|\bISO \d|CFR \d|IEC \d|quoted in|published`)},
}

// TestTechniquePagesHaveTheirParts: each page has its drawing, says when it is wanted, how it
// is done, with numbers, what goes wrong, and where that is from.
func TestTechniquePagesHaveTheirParts(t *testing.T) {
	pages, err := filepath.Glob("../../content/techniques/*.md")
	if err != nil || len(pages) < 20 {
		t.Fatal(len(pages), err)
	}
	for _, name := range pages {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, lack := range lacking(t, string(data)) {
			t.Errorf("%s: no %s", filepath.Base(name), lack)
		}
	}
	const bare = "---\nwhen: \"\"\n---\n1. Sew at 15 mm.\n\n## What goes wrong\n\n- It slips.\n\n## Why\n\n- It is so.\n"
	if got := strings.Join(lacking(t, bare), ", "); got != "drawing, when, steps, numbers with units, things that go wrong, source" {
		t.Errorf("a page with next to nothing lacks %s", got)
	}
}

// lacking names what a technique's page has not.
func lacking(t *testing.T, page string) (out []string) {
	t.Helper()
	parts := strings.SplitN(page, "---\n", 3)
	if len(parts) != 3 {
		t.Fatalf("no head: %.40q", page)
	}
	var head struct {
		When    string
		Picture struct{ File, Alt string }
	}
	if err := yaml.Unmarshal([]byte(parts[1]), &head); err != nil {
		t.Fatal(err)
	}
	body := parts[2]
	if (head.Picture.File == "" || head.Picture.Alt == "") && !strings.Contains(body, "](drawing:") {
		out = append(out, "drawing")
	}
	if head.When == "" {
		out = append(out, "when")
	}
	for _, p := range onTechniquePages {
		text := body
		if p.within != "" {
			_, text, _ = strings.Cut(body, "## "+p.within+"\n")
			text, _, _ = strings.Cut(text, "\n## ")
		}
		if len(p.found.FindAllString(text, -1)) < p.least {
			out = append(out, p.what)
		}
	}
	return out
}
