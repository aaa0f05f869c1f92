package schedule

// A branching goes through all sequences that may be over by a target, depth
// first, leaving out those that cannot be.
type branching struct {
	*job
	windows  []window // for the target, with any number of hands
	byDue    []int32  // steps with labour, by the work they must be over by
	rank     []int64
	sequence []int32
	at       []placed
	isPlaced []bool
	open     []int32 // needs not yet placed
	left     int     // tries
	result   []int32
}

// overBy looks for a sequence that is over by target. It gives nil where there
// is none, and sure is false where its tries ran out before that was settled.
// The search is worth its while for tens of steps, not for hundreds.
func (j *job) overBy(target instant, tries int) (sequence []int32, used int, sure bool) {
	n := len(j.places)
	b := branching{job: j, windows: make([]window, n), at: make([]placed, n), isPlaced: make([]bool, n), open: make([]int32, n), left: tries}
	j.forwardAlone(b.windows)
	j.backwardAlone(target, b.windows)
	b.rank = j.byLatest(b.windows)
	for i := range int32(n) {
		b.open[i] = int32(len(j.needs.of(i)))
		if j.labour[i] > 0 {
			b.byDue = append(b.byDue, i)
		}
	}
	sortBy(b.byDue, func(i int32) int64 { return b.windows[i].due })
	b.descend(j.cal.worked(j.now))
	return b.result, tries - b.left, b.left >= 0
}

// descend places every step that may come next, one after the other, and goes
// on from each. It is true when it need go no further.
func (b *branching) descend(hands int64) bool {
	if b.left -= len(b.places); b.left < 0 {
		return true
	}
	if len(b.sequence) == len(b.places) {
		b.result = b.sequence
		return true
	}
	if b.hopeless(hands) {
		return false
	}
	for _, i := range b.candidates(hands) {
		b.begin(i, hands) // anew: deeper down it was tried elsewhere
		if b.at[i].over > b.overAtMost(i) {
			continue
		}
		b.set(i, true)
		next := hands
		if b.labour[i] > 0 {
			next = b.at[i].to
		}
		if b.descend(next) {
			return true
		}
		b.set(i, false)
	}
	return false
}

// overAtMost is when a step's wait must be over for its window's sake.
func (b *branching) overAtMost(i int32) instant {
	if b.labour[i] > 0 {
		return b.cal.ends(b.windows[i].due) + instant(b.wait[i])
	}
	return b.windows[i].closes + instant(b.wait[i])
}

// set places a step next, or takes it away again.
func (b *branching) set(i int32, in bool) {
	change := int32(1)
	if b.isPlaced[i] = in; in {
		change = -1
		b.sequence = append(b.sequence, i)
	} else {
		b.sequence = b.sequence[:len(b.sequence)-1]
	}
	for _, s := range b.needed.of(i) {
		b.open[s] += change
	}
}

// hopeless reports that what is left cannot keep its windows, even if all of
// it could begin now.
func (b *branching) hopeless(hands int64) bool {
	for _, i := range b.byDue {
		if b.isPlaced[i] {
			continue
		}
		if max(hands, b.windows[i].release)+b.labour[i] > b.windows[i].due {
			return true
		}
	}
	clock := hands
	for _, i := range b.byDue {
		if b.isPlaced[i] {
			continue
		}
		if clock += b.labour[i]; clock > b.windows[i].due {
			return true
		}
	}
	return false
}

// candidates lists the steps that may come next, the most pressing first: what
// is in hand; else one without labour, as it stands in nobody's way; else each
// that could begin before another could already be done.
func (b *branching) candidates(hands int64) []int32 {
	var able []int32
	soonest := int64(-1) // the least work at which a candidate could be done
	for i := range int32(len(b.places)) {
		if b.isPlaced[i] || b.open[i] > 0 {
			continue
		}
		b.begin(i, hands)
		if int(i) < b.inHand || b.labour[i] == 0 {
			return []int32{i}
		}
		able = append(able, i)
		if soonest < 0 || b.at[i].to < soonest {
			soonest = b.at[i].to
		}
	}
	next := able[:0]
	for _, i := range able {
		if b.at[i].from < soonest {
			next = append(next, i)
		}
	}
	sortBy(next, func(i int32) int64 { return b.rank[i] })
	return next
}

// begin works out when a step would be done if it came next.
func (b *branching) begin(i int32, hands int64) {
	free := b.free[i]
	for _, p := range b.needs.of(i) {
		free = max(free, b.at[p].over)
	}
	s := &b.at[i]
	s.from = b.cal.worked(free)
	s.to, s.ends = s.from, free
	if b.labour[i] > 0 {
		s.from = max(s.from, hands)
		s.to = s.from + b.labour[i]
		s.ends = b.cal.ends(s.to)
	}
	s.over = s.ends + instant(b.wait[i])
}
