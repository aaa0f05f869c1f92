package lay

// random is a small, fast, seeded generator (splitmix64, Steele, Lea and
// Flood 2014); its whole state is one word, so a search can be repeated.
type random uint64

func newRandom(seed uint64) random {
	r := random(seed*0x9e3779b97f4a7c15 + 0x1234567)
	r.next()
	return r
}

func (r *random) next() uint64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// float is uniform in [0, 1).
func (r *random) float() float64 { return float64(r.next()>>11) / (1 << 53) }

// within is uniform in [a, b).
func (r *random) within(a, b float64) float64 { return a + float64(r.float()*(b-a)) }

// below is uniform in 0 … n-1.
func (r *random) below(n int) int { return int((r.next() >> 32) * uint64(n) >> 32) }

// bell is roughly normal with mean 0 and deviation 1, without a logarithm.
func (r *random) bell() float64 {
	sum := -2.0
	for range 4 {
		sum += r.float()
	}
	return sum * 1.7320508
}

func (r *random) shuffle(v []int) {
	for i := len(v) - 1; i > 0; i-- {
		j := r.below(i + 1)
		v[i], v[j] = v[j], v[i]
	}
}
