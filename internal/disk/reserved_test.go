package disk

import "testing"

// Microsoft, "Naming Files, Paths, and Namespaces", lists the names.
func TestReserved(t *testing.T) {
	for name, want := range map[string]bool{
		"con": true, "CON": true, "Aux.yaml": true, "nul": true, "prn .txt": true, "com1": true, "COM9.x.y": true, "lpt0": true, "com¹": true,
		"con-2": false, "coat": false, "com": false, "com10": false, "console": false, "": false, "a.con": false, "lpt": false, "comx": false,
	} {
		if got := Reserved(name); got != want {
			t.Errorf("%q: %v", name, got)
		}
	}
}
