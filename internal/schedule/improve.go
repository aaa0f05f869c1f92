package schedule

// improve looks for a sequence that is over earlier, among those that differ
// in one move. Only the chain of steps that makes the finish what it is
// matters: wherever the hands hold up a step of it, either that step goes
// before one of the steps that hold it up, or one of these goes after it. It
// gives the first better one, nil where there is none within the tries, and
// how many steps it placed.
func (j *job) improve(best found, tries int) (*found, int) {
	used := 0
	position := make([]int, len(best.sequence))
	for p, i := range best.sequence {
		position[i] = p
	}
	trial := make([]int32, len(best.sequence))
	at := make([]placed, len(best.sequence))
	for _, b := range j.heldUp(best, position) {
		for p := b.last - 1; p >= b.first; p-- {
			for _, move := range [2][2]int{{b.last, p}, {p, b.last}} {
				if used+len(trial) > tries {
					return nil, used
				}
				if !j.moveInto(trial, best.sequence, position, move[0], move[1]) {
					continue
				}
				used += len(trial)
				if finish := j.run(trial, at); finish < best.finish {
					return &found{sequence: trial, at: at, finish: finish}, used
				}
			}
		}
	}
	return nil, used
}

// A busy block is a run of steps, by their positions in a sequence, between
// which the hands do not rest, and whose last is on the chain that makes the
// finish what it is.
type block struct{ first, last int }

// heldUp lists the busy blocks of the chain, from the finish back.
func (j *job) heldUp(best found, position []int) []block {
	var blocks []block
	i := int32(-1)
	for k := range best.at {
		if best.at[k].over == best.finish {
			i = int32(k)
			break
		}
	}
	for i >= 0 {
		last := position[i]
		first := last
		for p := last; best.at[best.sequence[p]].byHands && p > j.inHand; {
			for p--; j.labour[best.sequence[p]] == 0; p-- {
			}
			if p < j.inHand {
				break
			}
			first = p
		}
		if first < last {
			blocks = append(blocks, block{first, last})
		}
		i = j.holder(best, best.sequence[first])
	}
	return blocks
}

// holder gives the need that makes a step begin when it does, -1 where none does.
func (j *job) holder(best found, i int32) int32 {
	for _, p := range j.needs.of(i) {
		if best.at[p].over > j.now && j.cal.worked(best.at[p].over) >= best.at[i].ready {
			return p
		}
	}
	return -1
}

// moveInto writes sequence to trial with the step at one position moved to
// another, and what must go with it: moved forward it takes along what it
// needs, moved back what needs it. It is false where that changes nothing of
// what was meant.
func (j *job) moveInto(trial, sequence []int32, position []int, from, to int) bool {
	low, high := min(from, to), max(from, to)
	along := make([]bool, high-low+1)
	along[from-low] = true
	ties, step := j.needs, -1
	if from < to {
		ties, step = j.needed, 1
	}
	for p := from; p >= low && p <= high; p += step {
		if !along[p-low] {
			continue
		}
		for _, tied := range ties.of(sequence[p]) {
			if q := position[tied]; q >= low && q <= high {
				along[q-low] = true
			}
		}
	}
	if along[to-low] {
		return false // the one it should pass is tied to it
	}
	copy(trial, sequence)
	next := low
	for _, first := range []bool{from > to, from < to} {
		for p := low; p <= high; p++ {
			if along[p-low] == first {
				trial[next] = sequence[p]
				next++
			}
		}
	}
	return true
}
