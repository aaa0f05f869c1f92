package press

import (
	"testing"

	"golang.org/x/sys/unix"
)

// cpuTime is the processor time this process has used, in milliseconds.
func cpuTime(b *testing.B) float64 {
	var u unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	ms := func(t unix.Timeval) float64 { return float64(t.Sec)*1e3 + float64(t.Usec)/1e3 }
	return ms(u.Utime) + ms(u.Stime)
}
