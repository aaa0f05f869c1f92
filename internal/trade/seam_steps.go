package trade

// A Step is a pass with its words filled in and its distance worked out.
type Step struct {
	Pass      int    // counts from 1
	Do        string // what is stitched
	Then      string // what is trimmed, turned and pressed afterwards; may be empty
	At        Worked // distance of the row, mm; zero Worked when none is given
	From      string // edge or fold the distance is measured from
	Together  Together
	Stitch    string
	Rows      int
	Temporary bool
}

// millimetres writes a length the way workings do: 15.875 mm.
func millimetres(mm float64) string { return number(mm) + " mm" }

// steps are the passes in order with their lengths written by length, which
// may show inches or both; nil stands for Millimetres.
func (t SeamType) steps(given Params, length func(mm float64) string) ([]Step, error) {
	p, err := t.Values(given)
	if err != nil {
		return nil, err
	}
	if length == nil {
		length = millimetres
	}
	var out []Step
	for i, pass := range t.Passes {
		s := Step{Pass: i + 1, From: pass.From, Together: pass.Together, Stitch: pass.Stitch, Rows: pass.Rows, Temporary: pass.Temporary}
		if s.Do, err = fillIn(pass.Do, p, length); err != nil {
			return nil, err
		}
		if s.Then, err = fillIn(pass.Then, p, length); err != nil {
			return nil, err
		}
		if pass.At.Given() {
			if s.At, err = pass.At.Eval(p); err != nil {
				return nil, err
			}
		}
		out = append(out, s)
	}
	return out, nil
}

// Words is what is stitched in a pass with these measures, its lengths written by
// length; nil stands for millimetres.
func (p *Pass) Words(params Params, length func(mm float64) string) string {
	if length == nil {
		length = millimetres
	}
	words, err := fillIn(p.Do, params, length)
	if err != nil { // a measure that comes to nothing, which is told at the type
		return p.Do
	}
	return words
}
