package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"slices"
	"sync"
	"time"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
)

// openRoom finds and opens the workroom a command works in.
func (o *options) openRoom() (*record.Room, []fault.Fault, error) { return o.openRoomFor("") }

// openRoomFor does the same for what needs one build alone, where the word is the name
// of its folder; else all are known.
func (o *options) openRoomFor(word string) (*record.Room, []fault.Fault, error) {
	dir, err := o.findRoom()
	if err != nil {
		return nil, nil, err
	}
	return record.OpenFor(dir, word)
}

// findRoom finds the folder of the workroom, and clears away what was left half done in it.
func (o *options) findRoom() (string, error) {
	dir := o.room
	if dir == "" {
		here, err := os.Getwd()
		if err != nil {
			return "", err
		}
		found, ok := record.Find(here)
		if !ok {
			return "", misused(say.Of("hembook.this-folder-is-not-a-workroom-go"))
		}
		dir = found
	} else if _, err := os.Stat(dir); err != nil {
		return "", misused(say.Of("hembook.there-is-no-folder", dir))
	}
	cleanUp(dir, o.errs)
	return dir, nil
}

// collectSeldom has memory collected less often, until what it gives is called. Whoever
// goes through all builds makes many short-lived bytes, of which collecting takes a
// third of the time. The limit keeps a large archive small; it goes up with what is in
// use, which collecting cannot free however often it is done.
func collectSeldom() (asBefore func()) {
	percent, limit := debug.SetGCPercent(800), debug.SetMemoryLimit(leastLimit)
	ended := make(chan struct{})
	var wait sync.WaitGroup
	wait.Go(func() { followUse(ended) })
	return func() {
		close(ended)
		wait.Wait()
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}

// Limits of memory, bytes.
const (
	leastLimit = 400 << 20
	besideUse  = 300 << 20 // above what was in use when memory was collected last
)

// followUse keeps the limit of memory above what is in use, until it is ended.
func followUse(ended <-chan struct{}) {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	tick := time.NewTicker(100 * time.Millisecond)
	defer tick.Stop()
	for {
		select {
		case <-ended:
			return
		case <-tick.C:
		}
		metrics.Read(live)
		if limit := limitFor(live[0].Value.Uint64()); limit != debug.SetMemoryLimit(-1) {
			debug.SetMemoryLimit(limit)
		}
	}
}

// limitFor is the limit of memory where so many bytes are in use.
func limitFor(live uint64) int64 { return max(leastLimit, int64(live)+besideUse) }

// survey reads and derives every build on all cores and calls each with its
// garment and faults, in the order of the builds.
func survey(room *record.Room, tailor *derive.Tailor, each func(record.BuildFile, *derive.Garment, []fault.Fault)) {
	type result struct {
		g      *derive.Garment
		faults []fault.Fault
	}
	workers := runtime.GOMAXPROCS(0)
	slots := make([]chan result, workers*4)
	for i := range slots {
		slots[i] = make(chan result, 1)
	}
	var wg sync.WaitGroup
	next := make(chan int)
	for range workers {
		wg.Go(func() {
			for i := range next {
				b, faults := room.ReadBuild(room.Builds[i])
				g := tailor.Derive(b)
				slots[i%len(slots)] <- result{g, withFigures(faults, g.Faults)}
			}
		})
	}
	go func() {
		for i := range room.Builds {
			next <- i
		}
		close(next)
	}()
	for i, bf := range room.Builds {
		r := <-slots[i%len(slots)]
		each(bf, r.g, r.faults)
	}
	wg.Wait()
}

// withFigures adds what the figures found wrong. Warnings about figures that
// rest on errors would only mislead.
func withFigures(read, figured []fault.Fault) []fault.Fault {
	wrong := fault.HasErrors(read)
	for _, f := range figured {
		if f.Severity == fault.Error || !wrong {
			read = append(read, f)
		}
	}
	return read
}

// findBuild finds a build by its folder's name, its own name, or any part of
// either that only one build has.
func findBuild(room *record.Room, word string) (record.BuildFile, error) {
	if bf, ok := room.BuildNamed(word); ok {
		return bf, nil
	}
	var parts []record.BuildFile
	guess := meant.For(word)
	for _, bf := range room.Builds {
		if bf.Name == word {
			return bf, nil
		}
		if containsFold(bf.Slug, word) || containsFold(bf.Name, word) {
			parts = append(parts, bf)
		}
		guess.Try(bf.Slug)
		guess.TryAs(bf.Name, bf.Slug)
	}
	switch {
	case len(parts) == 1:
		return parts[0], nil
	case len(parts) > 1:
		return record.BuildFile{}, misused(say.Of("hembook.which", word, slugList(parts)))
	case guess.Best() != "":
		return record.BuildFile{}, misused(say.Of("hembook.there-is-no-garment", say.Quoted(word), guess.Hint()))
	case len(room.Builds) == 0:
		return record.BuildFile{}, misused(say.Of("hembook.there-is-no-garment-the-workroom-has", say.Quoted(word)))
	}
	return record.BuildFile{}, misused(say.Of("hembook.there-is-no-garment-there-are", say.Quoted(word), slugList(room.Builds)))
}

func slugList(list []record.BuildFile) string {
	const most = 12
	names := make([]string, 0, most+1)
	for i, bf := range list {
		if i == most {
			names = append(names, say.Of("hembook.and-more", len(list)-most))
			break
		}
		names = append(names, bf.Slug)
	}
	slices.Sort(names)
	return joinWords(names)
}
