package schedule

import (
	"slices"
	"strings"
	"time"

	"hembook/internal/say"
)

// links lists for each of n activities some others, in one flat slice.
type links struct {
	start []int32 // n+1 long
	to    []int32
}

func (l links) of(i int32) []int32 { return l.to[l.start[i]:l.start[i+1]] }

// turned lists for each activity those that list it, in ascending order.
func (l links) turned() links {
	n := len(l.start) - 1
	t := links{start: make([]int32, n+1), to: make([]int32, len(l.to))}
	for _, to := range l.to {
		t.start[to+1]++
	}
	for i := range n {
		t.start[i+1] += t.start[i]
	}
	fill := slices.Clone(t.start[:n])
	for i := range int32(n) {
		for _, to := range l.of(i) {
			t.to[fill[to]] = i
			fill[to]++
		}
	}
	return t
}

// newNetwork checks the activities and ties them together.
func newNetwork(activities []Activity) (*Network, Faults) {
	n := &Network{
		Nodes:      make([]Node, len(activities)),
		activities: slices.Clone(activities),
		place:      make(map[string]int32, len(activities)),
	}
	var faults Faults
	n.readNames(&faults)
	n.readTimes(&faults)
	n.readNeeds(&faults)
	n.needed = n.needs.turned()
	if n.topo = topological(n.needs, n.needed); len(n.topo) < len(activities) {
		n.nameCycles(&faults)
	}
	return n, faults
}

func (n *Network) readNames(faults *Faults) {
	for i, a := range n.activities {
		n.Nodes[i].Name = a.Name
		if a.Name == "" {
			faults.add(NoName, nil, say.Of("schedule.give-it-a-name"), say.Of("schedule.step-has-no-name", i+1))
			continue
		}
		if _, twice := n.place[a.Name]; twice {
			faults.add(Duplicate, []string{a.Name}, say.Of("schedule.give-each-step-a-name-of-its"), say.Of("schedule.two-steps-are-named", say.Quoted(a.Name)))
			continue
		}
		n.place[a.Name] = int32(i)
	}
}

func (n *Network) readTimes(faults *Faults) {
	sum := time.Duration(0)
	for _, a := range n.activities {
		for _, t := range []struct {
			what string
			time time.Duration
		}{{"labour", a.Labour}, {"wait", a.Wait}} {
			switch {
			case t.time < 0:
				faults.add(BadTime, []string{a.Name}, "", say.Of("schedule.the-of-is-less-than-nothing", t.what, say.Quoted(a.Name)))
			case t.time > longest:
				faults.add(BadTime, []string{a.Name}, say.Of("schedule.is-the-unit-right"), say.Of("schedule.the-of-is-more-than-20-years", t.what, say.Quoted(a.Name)))
			default:
				sum = min(sum+t.time, 2*longest)
			}
		}
		n.Labour += min(max(a.Labour, 0), longest-n.Labour)
	}
	if sum > longest {
		faults.add(BadTime, nil, say.Of("schedule.are-the-units-right"), say.Of("schedule.the-steps-and-their-waits-add-up"))
	}
}

func (n *Network) readNeeds(faults *Faults) {
	guess := guesser{known: n.activities, left: 20}
	n.needs.start = make([]int32, 1, len(n.activities)+1)
	seen := make([]int32, len(n.activities)) // the last activity, counted from 1, that named it as a need
	for i, a := range n.activities {
		for _, need := range a.After {
			p, known := n.place[need]
			switch {
			case !known:
				faults.add(UnknownNeed, []string{a.Name, need}, guess.hint(need, a.Name),
					say.Of("schedule.comes-after-and-no-step-has-that", say.Quoted(a.Name), say.Quoted(need)))
			case seen[p] != int32(i+1): // a need written twice is one need
				seen[p] = int32(i + 1)
				n.needs.to = append(n.needs.to, p)
			}
		}
		n.needs.start = append(n.needs.start, int32(len(n.needs.to)))
	}
}

// topological orders activities so that each comes after what it needs. Those
// in cycles, and what needs them, are left out.
func topological(needs, needed links) []int32 {
	n := int32(len(needs.start) - 1)
	open := make([]int32, n) // needs not yet placed
	order := make([]int32, 0, n)
	for i := range n {
		if open[i] = int32(len(needs.of(i))); open[i] == 0 {
			order = append(order, i)
		}
	}
	for at := 0; at < len(order); at++ {
		for _, s := range needed.of(order[at]) {
			if open[s]--; open[s] == 0 {
				order = append(order, s)
			}
		}
	}
	return order
}

// nameCycles adds one fault for each knot of activities that need each other:
// its shortest cycle through the first of them.
func (n *Network) nameCycles(faults *Faults) {
	knots := knotsOf(n.needed)
	named := map[int32]bool{}
	for i := range int32(len(n.activities)) {
		if named[knots[i]] {
			continue
		}
		ring := n.ringThrough(i, knots)
		if ring == nil {
			continue
		}
		named[knots[i]] = true
		names := make([]string, len(ring))
		for k, at := range ring {
			names[k] = n.activities[at].Name
		}
		if len(names) == 1 {
			faults.add(Cycle, names, say.Of("schedule.take-that-out-of-after"), say.Of("schedule.comes-after-itself", say.Quoted(names[0])))
			continue
		}
		faults.add(Cycle, names, say.Of("schedule.one-of-them-must-come-first"), say.Of("schedule.these-steps-wait-for-each-other", strings.Join(names, " → "), names[0]))
	}
}

// ringThrough finds the shortest cycle through an activity, within its knot;
// nil where there is none.
func (n *Network) ringThrough(first int32, knots []int32) []int32 {
	from := map[int32]int32{} // the activity each was reached from
	queue := []int32{first}
	for at := 0; at < len(queue); at++ {
		i := queue[at]
		for _, s := range n.needed.of(i) {
			if s == first {
				ring := []int32{}
				for ; i != first; i = from[i] {
					ring = append(ring, i)
				}
				ring = append(ring, first)
				slices.Reverse(ring)
				return ring
			}
			if _, reached := from[s]; !reached && knots[s] == knots[first] {
				from[s] = i
				queue = append(queue, s)
			}
		}
	}
	return nil
}

// knotsOf gives each activity the number of its strongly connected component
// (R. Tarjan, Depth-first search and linear graph algorithms, 1972; from
// memory), without recursion.
func knotsOf(after links) []int32 {
	n := int32(len(after.start) - 1)
	const unseen = -1
	knot, low, seen, next := make([]int32, n), make([]int32, n), make([]int32, n), make([]int32, n)
	for i := range n {
		knot[i], seen[i] = unseen, unseen
	}
	var stack, trail []int32
	count, knots := int32(0), int32(0)
	for root := range n {
		if seen[root] != unseen {
			continue
		}
		trail = append(trail, root)
		for len(trail) > 0 {
			i := trail[len(trail)-1]
			if seen[i] == unseen {
				seen[i], low[i] = count, count
				count++
				stack = append(stack, i)
			}
			if to := after.of(i); int(next[i]) < len(to) {
				s := to[next[i]]
				if seen[s] == unseen {
					trail = append(trail, s)
					continue // and look at s once more when it is done
				}
				if knot[s] == unseen {
					low[i] = min(low[i], low[s])
				}
				next[i]++
				continue
			}
			trail = trail[:len(trail)-1]
			if low[i] != seen[i] {
				continue
			}
			for last := unseen; last != int(i); {
				at := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				knot[at], last = knots, int(at)
			}
			knots++
		}
	}
	return knot
}
