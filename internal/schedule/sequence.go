package schedule

// A placed step of a sequence. Work is counted on the calendar, as worked does.
type placed struct {
	from, to int64   // work before its labour, and after; equal where it has none
	begins   instant // labour begins, or, where there is none, its wait
	ends     instant // labour ends
	over     instant // its wait is over
	ready    int64   // work before the moment what it needs is over
	byHands  bool    // it begins when it does because of the step before it in hand, not of what it needs
}

// run carries out a sequence with one pair of hands: each step begins as soon
// as the hands are free and what it needs is over. The sequence must respect
// needs. Into at, as long as the sequence, goes where each step came to be;
// the result is when all is over.
func (j *job) run(sequence []int32, at []placed) instant {
	finish := j.now
	hands := j.cal.worked(j.now)
	for _, i := range sequence {
		free := j.free[i]
		for _, p := range j.needs.of(i) {
			free = max(free, at[p].over)
		}
		s := placed{ready: j.cal.worked(free)}
		s.from = s.ready
		if j.labour[i] == 0 {
			s.to, s.begins, s.ends = s.from, free, free
		} else {
			if hands > s.from {
				s.from, s.byHands = hands, true
			}
			s.to = s.from + j.labour[i]
			s.begins, s.ends = j.cal.starts(s.from), j.cal.ends(s.to)
			hands = s.to
		}
		s.over = s.ends + instant(j.wait[i])
		at[i] = s
		finish = max(finish, s.over)
	}
	return finish
}

// A window is when a step's labour may run, in work on the calendar.
type window struct {
	release int64   // not before
	due     int64   // over by
	opens   instant // not before, on the clock
	closes  instant // begun by, on the clock
}

// forwardAlone fills in the earliest times with any number of hands, and gives
// the moment all would be over.
func (j *job) forwardAlone(w []window) instant {
	over := make([]instant, len(j.places))
	finish := j.now
	for _, i := range j.topo {
		free := j.free[i]
		for _, p := range j.needs.of(i) {
			free = max(free, over[p])
		}
		w[i].opens, w[i].release = free, j.cal.worked(free)
		if over[i] = free + instant(j.wait[i]); j.labour[i] > 0 {
			over[i] = j.cal.ends(w[i].release+j.labour[i]) + instant(j.wait[i])
		}
		finish = max(finish, over[i])
	}
	return finish
}

// backwardAlone fills in the latest times with any number of hands, such that
// all is over by finish.
func (j *job) backwardAlone(finish instant, w []window) {
	for at := len(j.topo) - 1; at >= 0; at-- {
		i := j.topo[at]
		j.mustBeOver(i, finish, w)
		if j.labour[i] > 0 {
			w[i].closes = j.cal.starts(w[i].due - j.labour[i])
		}
	}
}

// mustBeOver fills in the latest moment a step's labour may end, and the work
// before that, such that what needs it can begin in time.
func (j *job) mustBeOver(i int32, finish instant, w []window) {
	over := finish
	for _, s := range j.needed.of(i) {
		over = min(over, w[s].closes)
	}
	w[i].closes = over - instant(j.wait[i])
	w[i].due = j.cal.worked(w[i].closes)
}

// backwardInTurn gives the latest moment each step of a sequence may begin,
// and the work before it, such that all is over by finish, one pair of hands
// keeps to the sequence, and nothing else changes.
func (j *job) backwardInTurn(sequence []int32, finish instant) []window {
	w := make([]window, len(sequence))
	next := j.cal.worked(finish) // work before the step that takes the hands next
	for at := len(sequence) - 1; at >= 0; at-- {
		i := sequence[at]
		j.mustBeOver(i, finish, w)
		if j.labour[i] > 0 {
			w[i].due = min(w[i].due, next)
			next = w[i].due - j.labour[i]
			w[i].closes = j.cal.starts(next)
		}
	}
	return w
}

// cannotEndBy reports that no order of the steps is over by finish, not even
// one that may lay steps aside for others: some step cannot keep its window
// when the hands always do what must be done soonest. (That this rule keeps
// all windows if any can: J. R. Jackson 1955, and Horn 1974 with release
// times; from memory.) Where it is false, there may or may not be such an order.
func (j *job) cannotEndBy(finish instant, w []window) bool {
	j.backwardAlone(finish, w)
	byRelease := make([]int32, 0, len(j.places))
	for _, i := range j.topo {
		if w[i].closes < w[i].opens && j.labour[i] == 0 {
			return true
		}
		if j.labour[i] > 0 {
			byRelease = append(byRelease, i)
		}
	}
	sortBy(byRelease, func(i int32) int64 { return w[i].release })
	left := make([]int64, len(j.places))
	copy(left, j.labour)
	open := heap{key: make([]int64, len(j.places))}
	for i := range w {
		open.key[i] = w[i].due
	}
	clock := j.cal.worked(j.now)
	for next := 0; next < len(byRelease) || len(open.items) > 0; {
		if len(open.items) == 0 {
			clock = max(clock, w[byRelease[next]].release)
		}
		for next < len(byRelease) && w[byRelease[next]].release <= clock {
			open.push(byRelease[next])
			next++
		}
		i := open.items[0]
		span := left[i]
		if next < len(byRelease) {
			span = min(span, w[byRelease[next]].release-clock)
		}
		clock += span
		if left[i] -= span; left[i] == 0 {
			open.pop()
			if clock > w[i].due {
				return true
			}
		}
	}
	return false
}
