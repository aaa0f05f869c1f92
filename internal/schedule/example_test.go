package schedule_test

import (
	"fmt"
	"time"

	"hembook/internal/schedule"
)

// A skirt hangs for a day before it is levelled. Written last, it is cut first.
func Example() {
	day := []schedule.Span{{From: 9 * 60, To: 12*60 + 30}, {From: 13*60 + 30, To: 17 * 60}}
	hours := schedule.Week{time.Monday: day, time.Tuesday: day, time.Wednesday: day[:1]}
	calendar, faults := schedule.NewCalendar(hours, nil)
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	network, faults := schedule.Plan([]schedule.Activity{
		{Name: "bodice", Labour: 6 * time.Hour},
		{Name: "level", Labour: 2 * time.Hour, After: []string{"bodice", "skirt"}},
		{Name: "skirt", Labour: 2 * time.Hour, Wait: 24 * time.Hour},
	})
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	order, faults := network.Order(calendar, schedule.Standing{
		Now: time.Date(2026, 8, 3, 8, 0, 0, 0, time.UTC),
		Due: time.Date(2026, 8, 5, 0, 0, 0, 0, time.UTC),
	})
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	for _, s := range order.Slots {
		fmt.Println(s.Name, s.Start.Format("Mon 15:04"), "to", s.End.Format("Mon 15:04"))
		for stretch := range calendar.Spells(s.Start, s.End) {
			fmt.Println("  at work", stretch.From.Format("Mon 15:04"), "to", stretch.To.Format("15:04"))
		}
	}
	fmt.Println("now:", order.Slots[0].Name)
	fmt.Println("holds:", order.Holds, "with", order.Slack, "to spare; no order is shorter:", order.Shortest)
	// Output:
	// skirt Mon 09:00 to Mon 11:00
	//   at work Mon 09:00 to 11:00
	// bodice Mon 11:00 to Tue 10:00
	//   at work Mon 11:00 to 12:30
	//   at work Mon 13:30 to 17:00
	//   at work Tue 09:00 to 10:00
	// level Tue 11:00 to Tue 14:00
	//   at work Tue 11:00 to 12:30
	//   at work Tue 13:30 to 14:00
	// now: skirt
	// holds: true with 6h30m0s to spare; no order is shorter: true
}

func ExampleRate_Estimate() {
	rate, _ := schedule.NewRate([]schedule.Observation{
		{Time: 24 * time.Minute, Amount: 2}, {Time: 30 * time.Minute, Amount: 2}, {Time: 12 * time.Minute, Amount: 1.5},
	})
	e := rate.Estimate(4)
	fmt.Println(rate.Median, "min/m;", e.Low, e.Middle, e.High)
	fmt.Println(schedule.Rate{N: 2}.Estimate(4).Why)
	// Output:
	// 12 min/m; 40m0s 48m0s 54m0s
	// not known yet: timed twice, and 3 are needed
}
