package main

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"
)

// TestJSONReports: all that tally and pack give to other programs has one shape: blocks,
// each figure once, and no name of a figure that is not there. What says which is there
// says something: the least of names that each must have was counted.
func TestJSONReports(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	const build = "quayside-pinafore"
	for _, c := range []struct {
		args  string
		names int      // of figures, beside the blocks
		own   []string // what stands beside the blocks
	}{
		{"tally " + build, 40, []string{"compared", "openings", "content", "care", "lay", "rows", "sewing"}},
		{"tally " + build + " waist", 0, nil},
		{"tally " + build + " --part work", 0, nil},
		{"tally " + build + " --time --from 2026-11-24", 48, []string{"now", "order", "start", "decides", "early", "steps", "overall"}},
		{"tally " + build + " --rows", 34, []string{"rows"}},
		{"tally " + build + " piece.tie.area --upward", 3, []string{"of", "changes"}},
		{"tally --rates", 30, []string{"rates"}},
		{"tally --cloth rust-linen", 0, nil},
		{"pack " + build + " --missing --lays none", 4, []string{"refused", "findings", "content", "care"}},
	} {
		report := reportOn(t, strings.Fields(c.args))
		for _, word := range append(c.own, "blocks", "figures") {
			if _, there := report[word]; !there {
				t.Errorf("%s: there is no %s", c.args, word)
			}
		}
		var figures []string
		for _, f := range report["figures"].([]any) {
			id := f.(map[string]any)["id"].(string)
			if slices.Contains(figures, id) {
				t.Errorf("%s: %s stands twice among the figures", c.args, id)
			}
			figures = append(figures, id)
		}
		delete(report, "figures")
		inBlocks := named(report["blocks"], "")
		delete(report, "blocks")
		beside := named(report, "")
		for _, id := range append(inBlocks, beside...) {
			if !slices.Contains(figures, id) {
				t.Errorf("%s: %s is named, and not among the figures", c.args, id)
			}
		}
		if len(inBlocks)+len(beside) == 0 || len(beside) < c.names {
			t.Errorf("%s: %d figures are named in the blocks and %d beside them, want at least %d there", c.args, len(inBlocks), len(beside), c.names)
		}
	}
}

// reportOn is what a command gives for other programs.
func reportOn(t *testing.T, args []string) map[string]any {
	t.Helper()
	root := newRoot()
	var out, errs bytes.Buffer
	root.SetOut(&out)
	root.SetErr(&errs)
	root.SetArgs(append(args, "--json", "--room", "../.."))
	if err := root.Execute(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, errs.String())
	}
	var report map[string]any
	if err := json.Unmarshal(out.Bytes(), &report); err != nil {
		t.Fatalf("%v: %v", args, err)
	}
	return report
}

// named lists the IDs of figures that a report names.
func named(v any, under string) (ids []string) {
	switch v := v.(type) {
	case map[string]any:
		for word, held := range v {
			ids = append(ids, named(held, word)...)
		}
	case []any:
		for _, held := range v {
			ids = append(ids, named(held, under)...)
		}
	case string:
		if v != "" && slices.Contains([]string{"figure", "figures", "overall", "length", "plies", "thickness", "mass", "share"}, under) {
			ids = append(ids, v)
		}
	}
	return ids
}
