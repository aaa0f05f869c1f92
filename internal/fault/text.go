package fault

// InText is what is wrong with a text that does not know where it stands, behind so many
// of its characters. Its place is a column alone, counted in the text from 1. The hint
// may be empty.
func InText(offset int, message, hint string) *Fault {
	return &Fault{At: Pos{Column: int32(offset) + 1}, Severity: Error, Message: message, Hint: hint}
}

// Whole proposes another text in place of the whole of the one that was read; nothing
// where it is empty.
func (f *Fault) Whole(now string) *Fault {
	if now != "" {
		f.Correct = append(f.Correct, Correction{New: now})
	}
	return f
}

// Offset is how many characters of its text stand before what is wrong.
func (f *Fault) Offset() int { return max(0, int(f.At.Column)-1) }

// Meant is the whole text as it was probably meant, "" where nobody can tell.
func (f *Fault) Meant() string {
	for _, c := range f.Correct {
		if !c.At.Given() {
			return c.New
		}
	}
	return ""
}
