package trade

// millimetres writes a length the way workings do: 15.875 mm.
func millimetres(mm float64) string { return number(mm) + " mm" }

// Words is what is stitched in a pass with these measures, its lengths written by
// length; nil stands for millimetres.
func (p *Pass) Words(params Params, length func(mm float64) string) string {
	return filled(p.Do, params, length)
}

// Afterwards is what is trimmed, turned and pressed after a pass, written as by
// [Pass.Words]; it may be empty.
func (p *Pass) Afterwards(params Params, length func(mm float64) string) string {
	return filled(p.Then, params, length)
}

func filled(text string, params Params, length func(mm float64) string) string {
	if length == nil {
		length = millimetres
	}
	words, err := fillIn(text, params, length)
	if err != nil { // a measure that comes to nothing, which is told at the type
		return text
	}
	return words
}
