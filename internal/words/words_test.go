package words

import "testing"

// A name holds a word of a list as it is, cut to its stem, or as all of the name.
func TestAnyOf(t *testing.T) {
	list := []string{"zip", "canvas", "press stud", "bias"}
	for name, want := range map[string]bool{
		"Zips": true, "invisible zip": true, "hair canvas": true, "bias": true, "Press stud": true,
		"press": false, "long press studio": false, "zipper": false, "": false,
	} {
		if got := AnyOf(name, list); got != want {
			t.Errorf("%q: %v, want %v", name, got, want)
		}
	}
}
