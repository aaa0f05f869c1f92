package main

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

// TestLimitFollowsUse: the limit of memory goes up with what is in use, and is what it
// was before afterwards.
func TestLimitFollowsUse(t *testing.T) {
	nothingBeside(t)
	before := debug.SetMemoryLimit(-1)
	asBefore := collectSeldom()
	if limit := debug.SetMemoryLimit(-1); limit != leastLimit {
		t.Errorf("the limit is %d MB to begin with", limit>>20)
	}
	const used = 160 << 20
	held := make([]byte, used)
	runtime.GC()
	for until := time.Now().Add(20 * time.Second); debug.SetMemoryLimit(-1) < used+besideUse; time.Sleep(10 * time.Millisecond) {
		if time.Now().After(until) {
			t.Errorf("the limit is %d MB where %d MB are in use", debug.SetMemoryLimit(-1)>>20, used>>20)
			break
		}
	}
	runtime.KeepAlive(held)
	asBefore()
	if limit := debug.SetMemoryLimit(-1); limit != before {
		t.Errorf("the limit stays at %d MB; it was %d before", limit>>20, before>>20)
	}
}
