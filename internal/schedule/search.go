package schedule

import (
	"cmp"
	"slices"
)

// found is the best sequence so far.
type found struct {
	sequence []int32
	at       []placed
	finish   instant
	proved   bool // no sequence is over earlier
}

// search looks for the sequence that is over earliest. It begins with two
// simple rules, then moves steps that hold up the finish, until none can be
// shown to be shorter or its tries are used up.
func (j *job) search(tries int) found {
	w := make([]window, len(j.places))
	alone := j.forwardAlone(w)
	j.backwardAlone(alone, w)
	best := j.carryOut(j.soonestFirst(j.byLatest(w)))
	prove := func() {
		best.proved = best.finish <= alone || j.cannotEndBy(best.finish-1, w)
	}
	if prove(); best.proved {
		return best
	}
	if other := j.carryOut(j.soonestFirst(j.byWaitsAhead())); other.finish < best.finish {
		best = other
		prove()
	}
	for left := tries; !best.proved && left > 0; {
		better, used, sure := j.shorter(best, left)
		left -= used
		if better == nil {
			best.proved = sure
			break
		}
		best = *better
		prove()
	}
	return best
}

// shorter looks for a sequence that is over earlier than best: by single moves,
// and where none helps, through all that may be. Where it finds none, sure
// tells that there is none.
func (j *job) shorter(best found, tries int) (better *found, used int, sure bool) {
	better, used = j.improve(best, tries)
	if better != nil {
		return better, used, false
	}
	sequence, more, sure := j.overBy(best.finish-1, tries-used)
	if sequence == nil {
		return nil, used + more, sure
	}
	f := j.carryOut(sequence)
	return &f, used + more, false
}

func (j *job) carryOut(sequence []int32) found {
	at := make([]placed, len(sequence))
	return found{sequence: sequence, at: at, finish: j.run(sequence, at)}
}

// byLatest ranks steps by the latest moment they may begin with any number of
// hands; of equal ones the longer wait goes first, so that what must hang
// hangs early, and else the one given first.
func (j *job) byLatest(w []window) []int64 {
	return j.ranked(func(a, b int32) int {
		return cmp.Or(cmp.Compare(w[a].closes, w[b].closes), cmp.Compare(j.wait[b], j.wait[a]), cmp.Compare(a, b))
	})
}

// byWaitsAhead ranks steps by the most waiting that follows from them along
// one path, their own included; of equal ones by the most labour.
func (j *job) byWaitsAhead() []int64 {
	waits, labour := make([]int64, len(j.places)), make([]int64, len(j.places))
	for at := len(j.topo) - 1; at >= 0; at-- {
		i := j.topo[at]
		for _, s := range j.needed.of(i) {
			waits[i] = max(waits[i], waits[s])
			labour[i] = max(labour[i], labour[s])
		}
		waits[i] += j.wait[i]
		labour[i] += j.labour[i]
	}
	return j.ranked(func(a, b int32) int {
		return cmp.Or(cmp.Compare(waits[b], waits[a]), cmp.Compare(labour[b], labour[a]), cmp.Compare(a, b))
	})
}

// ranked gives each step its place when all are sorted.
func (j *job) ranked(compare func(a, b int32) int) []int64 {
	sorted := make([]int32, len(j.places))
	for i := range sorted {
		sorted[i] = int32(i)
	}
	slices.SortFunc(sorted, compare)
	rank := make([]int64, len(sorted))
	for at, i := range sorted {
		rank[i] = int64(at)
	}
	return rank
}
