package schedule

import (
	"encoding/binary"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// bytesReader deals out a fuzzer's bytes; when they are used up it deals zeros.
type bytesReader []byte

func (b *bytesReader) next() int {
	if len(*b) == 0 {
		return 0
	}
	v := (*b)[0]
	*b = (*b)[1:]
	return int(v)
}

// long deals a time: short ones, and now and then any number at all.
func (b *bytesReader) long() time.Duration {
	switch k := b.next(); {
	case k < 200:
		return time.Duration(k) * time.Hour / 4
	case k < 230:
		return time.Duration(b.next()) * 30 * day
	default:
		var raw [8]byte
		for i := range raw {
			raw[i] = byte(b.next())
		}
		return time.Duration(binary.LittleEndian.Uint64(raw[:]))
	}
}

func (b *bytesReader) moment() time.Time { return time.Unix(0, 0).UTC().Add(b.long()) }

// FuzzOrder gives steps, hours and reports of any kind: nothing may panic, run
// away, or come back both sound and faulty.
func FuzzOrder(f *testing.F) {
	f.Add([]byte{3, 4, 8, 0, 8, 0, 0, 9, 255, 17, 100, 60, 1})
	f.Add([]byte{8, 1, 0, 1, 2, 0, 1, 250, 255, 255, 255, 255, 255, 255, 255, 127})
	f.Add([]byte("names and needs and reports"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b := bytesReader(data)
		name := func() string { return string(rune('a' - 1 + b.next()%12)) }
		var list []Activity
		for range b.next() % 24 {
			a := Activity{Name: name(), Labour: b.long(), Wait: b.long()}
			for range b.next() % 3 {
				a.After = append(a.After, name())
			}
			list = append(list, a)
		}
		var week Week
		var off []time.Time
		for range b.next() % 12 {
			d := b.next() % 7
			week[d] = append(week[d], Span{b.next()*8 - 8, b.next() * 8})
			off = append(off, b.moment())
		}
		s := Standing{Now: b.moment(), Due: b.moment(), Tries: b.next()*100 - 100}
		for range b.next() % 6 {
			s.Progress = append(s.Progress, Progress{name(), State(b.next() - 1), b.moment(), b.long(), b.long()})
		}
		n, faults := Plan(list)
		if (n == nil) == (len(faults) == 0) {
			t.Fatalf("%v and %v", n, faults)
		}
		c, hours := NewCalendar(week, off)
		if (c == nil) == (len(hours) == 0) {
			t.Fatalf("%v and %v", c, hours)
		}
		if n == nil {
			return
		}
		n.CriticalPaths(5)
		o, faults := n.Order(c, s)
		if (o == nil) == (len(faults) == 0) {
			t.Fatalf("%v and %v", o, faults)
		}
		if o != nil && (o.Finish.Sub(o.Begin) < o.Labour || o.Least.After(o.Finish)) {
			t.Fatalf("labour %v from %v to %v, least %v", o.Labour, o.Begin, o.Finish, o.Least)
		}
		estimates := make([]Estimate, len(list))
		for i := range estimates {
			estimates[i] = Estimate{Basis: Basis(b.next() % 4), Low: b.long(), Middle: b.long(), High: b.long()}
		}
		NewOutlook(list, estimates, c, s)
	})
}

// FuzzCalendar lets the fuzzer choose hours, days off and times.
func FuzzCalendar(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		c := drawCalendar(t)
		when := instantOf(at("2026-08-03")) + instant(rapid.Int64Range(-int64(4000*day), int64(4000*day)).Draw(t, "when"))
		more := rapid.Int64Range(0, int64(1000*day)).Draw(t, "more")
		end := c.ends(c.worked(when) + more)
		if end < farFuture && c.worked(end)-c.worked(when) != more {
			t.Fatalf("%v of work after %v end at %v", time.Duration(more), when.time(), end.time())
		}
	}))
}
