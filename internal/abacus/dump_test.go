package abacus_test

import (
	"flag"
	"testing"

	"hembook/internal/madeup"
)

var dump = flag.String("dump", "", "a folder into which the workroom of the first seed is written")

// TestDump writes a made-up workroom to look at.
func TestDump(t *testing.T) {
	if *dump == "" {
		t.Skip("no folder is named with -dump")
	}
	if err := madeup.Write(*dump, wish(*first).Workroom()); err != nil {
		t.Fatal(err)
	}
}
