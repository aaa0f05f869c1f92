//go:build race

package main

// racing says that the race detector watches, under which typesetting takes
// some ten times as long and shows nothing more at the seventh language than at
// the second.
const racing = true
