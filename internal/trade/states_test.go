package trade

// row is the plies that the drawn row with this number passes, from 0.
func (t Through) row(i int) []Role {
	switch {
	case len(t) == 0:
		return nil
	case i < len(t):
		return t[i]
	}
	return t[len(t)-1]
}

// A State is what has become of one side of a seam after a pass: everything is
// counted in millimetres from the finished line.
type State struct {
	Pass    int     // counts from 1; 0 is as cut
	Left    float64 // cloth beyond the finished line
	Trimmed bool    // less than there was before the pass
	Under   float64 // of it turned under
	Pressed Pressed
}

// states are the states of one side (0 or 1) through its passes, as cut first.
// cut is how wide its allowance was cut.
func (t SeamType) states(side int, given Params, cut float64) ([]State, error) {
	p, err := t.Values(given)
	if err != nil {
		return nil, err
	}
	p[CutName] = cut
	now := State{Left: cut}
	out := []State{now}
	for i := range t.Passes {
		pass := &t.Passes[i]
		now.Pass, now.Trimmed = i+1, false
		if e := pass.Leaves.Of(side); e.Given() {
			left, err := e.Value(p)
			if err != nil {
				return nil, err
			}
			now.Trimmed, now.Left = left < now.Left, left
		}
		if e := pass.Under.Of(side); e.Given() {
			if now.Under, err = e.Value(p); err != nil {
				return nil, err
			}
		}
		if pass.Pressed != pressedUntold {
			now.Pressed = pass.Pressed
		}
		out = append(out, now)
	}
	return out, nil
}
