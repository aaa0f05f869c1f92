package draw

import (
	"math"
	"time"

	"hembook/internal/drawing"
)

// Of a tape of time.
const (
	tapeWide = 30  // the longest of a table
	tapeHigh = 2.4 // of what was planned
	tapeTick = 1.2 // every half hour
	tapeHang = 4   // how far down the thread of what was clocked lies
	tapeHour = 8   // the most that an hour is long
)

// Tape draws how long something was planned to take, as a tape with a tick every half
// hour, and under it as a thread how long it took; longest is the longest of all that
// stand below each other. It is nil where nothing was planned and nothing clocked.
func Tape(planned, clocked, longest time.Duration) *drawing.Drawing {
	if planned <= 0 && clocked <= 0 || longest <= 0 {
		return nil
	}
	k := min(tapeWide/longest.Hours(), tapeHour)
	long := func(t time.Duration) float64 { return math.Max(t.Hours()*k, 0.6) }
	d := drawing.New("tape")
	d.Box = drawing.Box{Right: math.Max(long(planned), long(clocked)), Bottom: tapeHang + 0.6}
	if planned > 0 {
		p := d.Draw(drawing.PlannedBar)
		p.Move(0, 0).Line(long(planned), 0).Line(long(planned), tapeHigh).Line(0, tapeHigh).Close()
		ticks := d.Draw(drawing.DateLine)
		for half := 0.5; half < planned.Hours() && half*k < tapeWide; half += 0.5 {
			ticks.Move(half*k, tapeHigh-tapeTick).Line(half*k, tapeHigh)
		}
	}
	if clocked > 0 {
		d.Thick(drawing.ClockedBar, 0.7).Move(0, tapeHang).Line(long(clocked), tapeHang)
	}
	return d
}
