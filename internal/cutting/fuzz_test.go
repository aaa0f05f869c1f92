package cutting

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// FuzzKept: whatever a file of the store holds, sealed rightly, reading it
// never panics and gives only plans that the checker passes.
func FuzzKept(f *testing.F) {
	p := problemOf(f)
	s := newStore(f.TempDir())
	if _, err := s.plan(f.Context(), p, lay.Options{Tries: 4000}); err != nil {
		f.Fatal(err)
	}
	file := s.file(p)
	text, err := os.ReadFile(file)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text[65:])
	f.Add([]byte(`{}`))
	f.Add([]byte(`{"Asked":4000,"Plan":{"Length":1,"Width":440,"Folded":true,"Placements":[{"Piece":-1}],"Other":{"Placements":[{"Copy":9}]}}}`))
	f.Add([]byte(`{"Asked":1000000,"Plan":{"Length":1e308,"Width":880,"Placements":[{"Piece":0,"X":1e308,"Turn":1e300}],"Remnants":[[{},{},{}],[]]}}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		sum := sha256.Sum256(body)
		if err := os.WriteFile(file, append([]byte(hex.EncodeToString(sum[:])+"\n"), body...), 0o666); err != nil {
			t.Fatal(err)
		}
		plan, ok := s.kept(p, 4000)
		if !ok {
			return
		}
		if faults := verify.Check(p, plan, tolerance); len(faults) > 0 {
			t.Error(faults[0])
		}
	})
}
