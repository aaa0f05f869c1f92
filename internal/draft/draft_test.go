package draft

import "testing"

func TestBuiltIn(t *testing.T) {
	for _, d := range BuiltIn() {
		t.Log(d.Slug)
	}
}
