package trade

import "testing"

func TestEverySeamTypeReads(t *testing.T) {
	for _, s := range SeamTypes() {
		if s.Source.Sure() == Unsaid {
			t.Errorf("%s has no source", s.Name)
		}
		if _, err := s.Section(nil); err != nil {
			t.Error(err)
		}
	}
}
