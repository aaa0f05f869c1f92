package amend_test

import (
	"fmt"
	"os"
	"path/filepath"

	"hembook/internal/record/amend"
)

// A step is begun with an entry that does not say how long it took, and ended
// by saying so. The entry is looked for in the text that edit is given, as the
// record may have been saved by someone else since.
func ExampleFile_Change() {
	dir, err := os.MkdirTemp("", "workroom")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "build.yaml")
	if err := os.WriteFile(name, []byte("name: Harbour coat   # autumn\nstate: sewing\n"), 0o644); err != nil {
		panic(err)
	}
	build := amend.File{Folder: dir, Path: "build.yaml"}
	journal := amend.At("journal")

	err = build.Change(func(text []byte) ([]byte, error) {
		return amend.Append(text, journal, amend.Group(
			amend.Field{Name: "at", Value: amend.Words("2026-08-05 14:10")},
			amend.Field{Name: "did", Value: amend.Words("sides")},
		))
	})
	fmt.Println("on:", err)

	err = build.Change(func(text []byte) ([]byte, error) {
		entries, _, err := amend.Read(text, journal)
		if err != nil {
			return nil, err
		}
		for i, e := range entries.Items() {
			did, _ := e.Get("did")
			if _, ended := e.Get("for"); did.Text() == "sides" && !ended {
				return amend.Set(text, journal.Item(i).Key("for"), amend.Figure("48 min"))
			}
		}
		return nil, fmt.Errorf("no clock is running for sides")
	})
	fmt.Println("off:", err)

	text, _ := os.ReadFile(name)
	fmt.Print(string(text))
	// Output:
	// on: <nil>
	// off: <nil>
	// name: Harbour coat   # autumn
	// state: sewing
	// journal:
	//   - {at: 2026-08-05 14:10, did: sides, for: 48 min}
}
