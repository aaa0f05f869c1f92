package schedule

// CriticalPaths lists the chains of critical activities from the beginning to
// the end, at most so many of them; more reports that there are others. They
// come in the order their activities were given.
//
// Every critical activity is on such a chain: what makes it begin when it does
// is critical too and is over at that moment, and so is what it holds up.
func (n *Network) CriticalPaths(most int) (paths [][]string, more bool) {
	w := pathWalk{n: n, most: max(most, 0)}
	for i := range int32(len(n.Nodes)) {
		if n.Nodes[i].Critical() && !w.isHeldUp(i) {
			w.from(i)
		}
	}
	return w.paths, w.more
}

// holdsUp reports whether s, which needs i, is critical and begins the moment i is over.
func (n *Network) holdsUp(i, s int32) bool {
	return n.Nodes[i].Critical() && n.Nodes[s].Critical() && n.Nodes[s].EarliestStart == n.Nodes[i].EarliestFinish
}

// A pathWalk gathers critical paths, depth first and without recursion: a
// chain may be thousands of activities long.
type pathWalk struct {
	n     *Network
	most  int
	paths [][]string
	more  bool
}

func (w *pathWalk) isHeldUp(i int32) bool {
	for _, p := range w.n.needs.of(i) {
		if w.n.holdsUp(p, i) {
			return true
		}
	}
	return false
}

func (w *pathWalk) from(first int32) {
	type turn struct {
		at   int32
		next int // which of the activities that need it to try next
		ends bool
	}
	trail := []turn{{at: first, ends: true}}
	for len(trail) > 0 && !w.more {
		here := &trail[len(trail)-1]
		after := w.n.needed.of(here.at)
		for here.next < len(after) && !w.n.holdsUp(here.at, after[here.next]) {
			here.next++
		}
		if here.next < len(after) {
			here.ends = false
			here.next++
			trail = append(trail, turn{at: after[here.next-1], ends: true})
			continue
		}
		if here.ends && len(w.paths) == w.most {
			w.more = true
		} else if here.ends {
			names := make([]string, len(trail))
			for i, t := range trail {
				names[i] = w.n.activities[t.at].Name
			}
			w.paths = append(w.paths, names)
		}
		trail = trail[:len(trail)-1]
	}
}
