package main

import (
	"path/filepath"
	"slices"
	"testing"

	"hembook/internal/chromium"
)

const (
	shownCards  = `[...document.querySelectorAll('.deck > li')].filter(e => e.checkVisibility()).map(e => e.querySelector('a').textContent)`
	shownGroups = `[...document.querySelectorAll('.decks h2')].filter(e => e.checkVisibility()).map(e => e.textContent)`
	ticks       = `(name => { [...document.querySelectorAll('.choose label')].find(e => e.firstChild.nextSibling.textContent.trim() === name).click(); return true })`
)

// TestGarmentsAreChosen: the list of garments shows those of a kind, a cloth or a
// technique, no script needed, and all of them again.
func TestGarmentsAreChosen(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	s.open(t, ctx, filepath.Join(s.dir, "builds", "index.html"), "light", 1280)
	all := evaluate[[]string](t, ctx, shownCards)
	if len(all) != 15 {
		t.Fatalf("at first %q are shown", all)
	}
	choose := func(name string) { evaluate[bool](t, ctx, ticks+`("`+name+`")`) }
	shows := func(what string, groups []string, want ...string) {
		t.Helper()
		if got := evaluate[[]string](t, ctx, shownCards); !slices.Equal(got, want) {
			t.Errorf("%s: %q, not %q", what, got, want)
		}
		if got := evaluate[[]string](t, ctx, shownGroups); !slices.Equal(got, groups) {
			t.Errorf("%s: the groups are %q, not %q", what, got, groups)
		}
	}
	choose("finished")
	shows("finished", []string{"Finished"}, "Jersey top for a boy", "Frock from a shirt", "Harvest supper dress", "Rower's jersey", "Waxed tool roll", "Pageant stays",
		"Tollkeeper's waistcoat", "Lock-keeper's shirt", "Six choir aprons", "Relined greatcoat")
	choose("dress")
	shows("a finished dress", []string{"Finished"}, "Harvest supper dress")
	choose("all")
	choose("any")
	shows("all again", []string{"On the table", "Finished"}, all...)
	choose("Rust linen twill")
	shows("of rust linen", []string{"On the table", "Finished"}, "Quayside pinafore", "Harvest supper dress")
}
