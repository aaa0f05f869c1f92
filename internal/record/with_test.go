package record

import (
	"os"
	"path/filepath"
	"testing"
)

// TestReread: a workroom is read with another text in one of its files, and the file
// itself stays as it is.
func TestReread(t *testing.T) {
	dir := t.TempDir()
	at := filepath.Join(dir, "content", "workroom.yaml")
	if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
		t.Fatal(err)
	}
	const was = "name: A room\nusual: {allowance: 15}\n"
	if err := os.WriteFile(at, []byte(was), 0o644); err != nil {
		t.Fatal(err)
	}
	r, faults, err := Open(dir)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	defer r.Close()
	then, err := r.Reread("content/workroom.yaml", []byte("name: A room\nusual: {allowance: 12}\n"))
	if err != nil {
		t.Fatal(err)
	}
	defer then.Close()
	if now, later := r.Workroom.Usual.Allowance.V.MM(), then.Workroom.Usual.Allowance.V.MM(); now != 15 || later != 12 {
		t.Errorf("an allowance of %g, and %g with the other text; want 15 and 12", now, later)
	}
	if text, err := os.ReadFile(at); err != nil || string(text) != was {
		t.Errorf("the file says %q, %v", text, err)
	}
}
