package notebook

import "hembook/internal/fitting"

// A Round is what a round of fitting did.
type Round struct {
	Number  int
	Drawn   bool // the record's outlines have its changes in them already
	Changes []fitting.RoundChange
	Effects []fitting.Effect // of the whole round
}

// rounds takes over what may be shown of the rounds of fitting, and the states
// of the pieces they altered.
func (p *BuildPage) rounds(r *fitting.Rounds) {
	if r == nil {
		return
	}
	for _, one := range r.List {
		p.Rounds = append(p.Rounds, Round{one.Number, one.Drawn, one.Changes, one.Effects})
	}
	for _, piece := range p.Pieces {
		if states := r.Of(piece.Name); len(states) > 1 {
			p.States = append(p.States, states)
		}
	}
}
