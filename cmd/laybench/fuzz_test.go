package main

import (
	"os"
	"path/filepath"
	"testing"
)

// FuzzInstance: whatever lies in an instance's file, it is pieces or is refused.
func FuzzInstance(f *testing.F) {
	f.Add([]byte(`{"name":"a","strip_width":100,"items":[{"id":1,"quantity":2,"rotations":[0,180],"points":[[0,0],[10,0],[10,10]]}]}`))
	f.Add([]byte(`{"strip_width":1e308,"items":[{"id":null,"quantity":-1,"rotations":null,"points":[[1],[1,2,3]]}]}`))
	f.Add([]byte(`null`))
	file := filepath.Join(f.TempDir(), "instance.json")
	f.Fuzz(func(t *testing.T, text []byte) {
		if err := os.WriteFile(file, text, 0o666); err != nil {
			t.Fatal(err)
		}
		in, err := readInstance(file)
		if err != nil {
			return
		}
		p := in.problem()
		if len(p.Pieces) != len(in.Items) {
			t.Errorf("%d pieces of %d", len(p.Pieces), len(in.Items))
		}
	})
}
