//go:build linux && !amd64

package main

// halve is not known how here: writes are stopped before and after alone.
func halve(int) bool { return false }
