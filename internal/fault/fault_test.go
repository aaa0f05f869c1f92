package fault

import "testing"

func TestHowAFaultReads(t *testing.T) {
	src := &Source{"content/builds/a/build.yaml"}
	for _, c := range []struct {
		fault               Fault
		told, placed, brief string
	}{
		{Errorf(Pos{src, 3, 7}, "did you mean \"hip\"?", "there is no level %q", "hap"),
			"content/builds/a/build.yaml:3:7: error: there is no level \"hap\"\n    did you mean \"hip\"?",
			"line 3, column 7: there is no level \"hap\"", "line 3, column 7: there is no level \"hap\"; did you mean \"hip\"?"},
		{Fault{At: Pos{Line: 12}, Of: "path side", Message: "the line is open"},
			":12:0: warning: the line is open", "path side on line 12: the line is open", "path side on line 12: the line is open"},
		{Fault{Of: "front", Message: "too wide", Hint: "turn it"}, ":0:0: warning: too wide\n    turn it", "front: too wide", "front: too wide; turn it"},
		{Fault{Message: "it is empty"}, ":0:0: warning: it is empty", "it is empty", "it is empty"},
	} {
		if got := c.fault.String(); got != c.told {
			t.Errorf("told %q, want %q", got, c.told)
		}
		if got := c.fault.Placed(); got != c.placed {
			t.Errorf("placed %q, want %q", got, c.placed)
		}
		if got := c.fault.Brief(); got != c.brief {
			t.Errorf("in brief %q, want %q", got, c.brief)
		}
	}
}

// Faults come out by place, each once, however often they were found; there is an
// end to how many are told.
func TestFaultsInOrder(t *testing.T) {
	src := &Source{"a.yaml"}
	var fs Faults
	fs.Warnf(Pos{src, 2, 1}, "", "odd")
	fs.Errorf(Pos{src, 1, 9}, "", "wrong")
	fs.Warnf(Pos{src, 2, 1}, "", "odd")
	fs.Errorf(Pos{src, 2, 1}, "", "wrong too")
	got := List(fs.Sorted()).Error()
	if want := "line 1, column 9: wrong\nline 2, column 1: wrong too\nline 2, column 1: odd"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if !fs.HasErrors() || HasErrors([]Fault{{Message: "odd"}}) {
		t.Error("an error is not told from a warning")
	}
	for range 3 * mostFaults {
		fs.Errorf(Pos{src, 3, 1}, "", "again")
	}
	if fs.Len() != mostFaults+1 {
		t.Errorf("%d faults are kept, want %d and one that says so", fs.Len(), mostFaults)
	}
}
