package schedule

// A dispatch is a sequence in the making, in which the hands never rest while
// a step can be done.
type dispatch struct {
	*job
	sequence []int32
	open     []int32 // how many needs are not yet placed
	at       []placed
	hands    int64   // work before the hands are free
	able     heap    // steps that can be done now, first by rank
	later    heap    // steps whose needs are placed and not yet over
	idle     []int32 // steps without labour to place
}

// soonestFirst makes a sequence: whenever the hands are free they take the
// first by rank of the steps that can be done.
func (j *job) soonestFirst(rank []int64) []int32 {
	n := len(j.places)
	d := dispatch{job: j, open: make([]int32, n), at: make([]placed, n), sequence: make([]int32, 0, n), hands: j.cal.worked(j.now)}
	d.able.key, d.later.key = rank, make([]int64, n)
	for i := range int32(n) {
		d.open[i] = int32(len(j.needs.of(i)))
	}
	for i := range int32(n) {
		switch {
		case int(i) < j.inHand:
			d.release(i)
			d.place(i)
		case len(j.needs.of(i)) == 0:
			d.take(i)
		}
	}
	for d.placeIdle(); len(d.able.items)+len(d.later.items) > 0; d.placeIdle() {
		if len(d.able.items) == 0 {
			d.hands = max(d.hands, d.later.key[d.later.items[0]])
		}
		for len(d.later.items) > 0 && d.later.key[d.later.items[0]] <= d.hands {
			d.able.push(d.later.pop())
		}
		d.place(d.able.pop())
	}
	return d.sequence
}

// release notes when what a step needs is over.
func (d *dispatch) release(i int32) {
	free := d.free[i]
	for _, p := range d.needs.of(i) {
		free = max(free, d.at[p].over)
	}
	d.at[i].begins, d.at[i].ready = free, d.cal.worked(free)
	d.later.key[i] = d.at[i].ready
}

// take lines up a step whose needs are all placed.
func (d *dispatch) take(i int32) {
	d.release(i)
	if d.labour[i] == 0 {
		d.idle = append(d.idle, i)
		return
	}
	d.later.push(i)
}

// placeIdle places the steps without labour, which need no hands.
func (d *dispatch) placeIdle() {
	for len(d.idle) > 0 {
		i := d.idle[0]
		d.idle = d.idle[1:]
		d.place(i)
	}
}

// place puts a step next in the sequence, and lines up those it made possible.
func (d *dispatch) place(i int32) {
	s := &d.at[i]
	s.ends = s.begins
	if d.labour[i] > 0 {
		d.hands += d.labour[i] // they are never free before the step is ready
		s.ends = d.cal.ends(d.hands)
	}
	s.over = s.ends + instant(d.wait[i])
	d.sequence = append(d.sequence, i)
	for _, n := range d.needed.of(i) {
		if d.open[n]--; d.open[n] == 0 {
			d.take(n)
		}
	}
}
