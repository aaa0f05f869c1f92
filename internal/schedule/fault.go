package schedule

import (
	"hembook/internal/fault"
	"hembook/internal/meant"
)

// A FaultKind says what sort of thing is wrong.
type FaultKind int

// The kinds of fault.
const (
	NoName      FaultKind = iota + 1 // an activity without a name
	Duplicate                        // two activities, or two reports on one, of the same name
	UnknownNeed                      // a need that no activity has the name of
	Cycle                            // activities that need each other
	BadTime                          // a labour, wait, moment or date out of range
	BadHours                         // working hours that cannot be
	NoHours                          // labour to do and no hours to do it in
	UnknownStep                      // a report on an activity that is not there
	NotKnown                         // an activity whose time nobody knows
)

// A Fault is one thing wrong with what was asked, and whom it is about.
type Fault struct {
	fault.Fault
	Kind  FaultKind
	Names []string // the activities it is about; for a cycle all of them, each needed by the next and the last by the first
}

// Faults are all the things wrong with what was asked, in the order of the
// activities. It is empty where nothing is.
type Faults []Fault

func (fs *Faults) add(kind FaultKind, names []string, hint, message string) {
	*fs = append(*fs, Fault{fault.Wrong(fault.Pos{}, hint, message), kind, names})
}

// A guesser finds which known name was probably meant. It gives up after some
// words: when everything is unknown, hints help nobody.
type guesser struct {
	known []Activity
	left  int
}

func (g *guesser) hint(word, but string) string {
	if g.left <= 0 {
		return ""
	}
	g.left--
	guess := meant.For(word)
	for _, a := range g.known {
		if a.Name != but {
			guess.Try(a.Name)
		}
	}
	return guess.Hint()
}
