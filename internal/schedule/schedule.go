// Package schedule says in which order one pair of hands can do the steps of
// a job, when it is done, and what that rests on.
//
// A step has labour, which needs the hands and runs only in working hours,
// and a wait after it, which needs nobody and runs on the clock, nights and
// days off included. The package promises: a plan with earliest and latest
// times, slack and critical paths for any network of steps; an order for one
// worker on a working calendar that respects every need, with a finish that
// no order can beat where it says so; estimates from observed rates that are
// "not known yet" until enough has been observed. The same input gives the
// same answer on any machine, effort is a count and never a clock, and what is
// wrong with the input comes back as data.
//
// It knows nothing of records, garments or pages. It leaves out several
// workers, steps that may be interrupted by others, and summer time: a moment
// is what the clock on the wall shows, and 24 hours after ten o'clock it is
// ten o'clock. Times are taken by their wall clock whatever their zone, and
// given back in UTC.
package schedule

import "time"

// longest is the most that all labour and waits of a plan may add up to.
const longest = 20 * 365 * 24 * time.Hour

// An Activity is one step of a job. Labour and Wait may be zero: a step of
// neither only ties others together.
type Activity struct {
	Name   string        // unique in its plan
	Labour time.Duration // hands at work
	Wait   time.Duration // passes after the labour, without labour, before what needs the step can begin
	After  []string      // names of the steps that must be over, waits included
}

// A Network is a set of activities whose needs have been found sound, with
// their times as Plan computed them. It does not change.
type Network struct {
	// Nodes are the activities' times, in the order they were given.
	Nodes []Node
	// Total is the length of the critical path: the least time from beginning
	// to end with any number of hands and no nights.
	Total time.Duration
	// Labour is the sum of all labour: the least time one pair of hands needs.
	Labour time.Duration

	activities []Activity
	place      map[string]int32
	needs      links // of each activity, what it needs
	needed     links // of each activity, what needs it
	topo       []int32
}

// A Node holds when an activity can and must happen, counted from the
// beginning of the work, with any number of hands and around the clock. A
// finish is when the wait is over.
type Node struct {
	Name           string
	EarliestStart  time.Duration
	EarliestFinish time.Duration
	LatestStart    time.Duration
	LatestFinish   time.Duration
	TotalSlack     time.Duration // how far it can move before the whole ends later
	FreeSlack      time.Duration // how far it can move before any other activity must
}

// Critical reports whether any delay of the activity delays the whole.
func (n Node) Critical() bool { return n.TotalSlack == 0 }

// Plan reads a network of activities and works out their times. Where there
// are faults the network is nil.
func Plan(activities []Activity) (*Network, Faults) {
	n, faults := newNetwork(activities)
	if len(faults) > 0 {
		return nil, faults
	}
	n.forward()
	n.backward()
	return n, nil
}

// forward fills in the earliest times and the total.
func (n *Network) forward() {
	for _, i := range n.topo {
		node, a := &n.Nodes[i], &n.activities[i]
		for _, p := range n.needs.of(i) {
			node.EarliestStart = max(node.EarliestStart, n.Nodes[p].EarliestFinish)
		}
		node.EarliestFinish = node.EarliestStart + a.Labour + a.Wait
		n.Total = max(n.Total, node.EarliestFinish)
	}
}

// backward fills in the latest times and the slack.
func (n *Network) backward() {
	for at := len(n.topo) - 1; at >= 0; at-- {
		i := n.topo[at]
		node := &n.Nodes[i]
		node.LatestFinish = n.Total
		next := n.Total
		for _, s := range n.needed.of(i) {
			node.LatestFinish = min(node.LatestFinish, n.Nodes[s].LatestStart)
			next = min(next, n.Nodes[s].EarliestStart)
		}
		node.LatestStart = node.LatestFinish - (node.EarliestFinish - node.EarliestStart)
		node.TotalSlack = node.LatestStart - node.EarliestStart
		node.FreeSlack = next - node.EarliestFinish
	}
}
