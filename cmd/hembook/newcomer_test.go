package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

const newcomerDir = "../../testdata/newcomer"

// A newSlip is one slip of somebody new to the record: what was written in place of
// what, and what check answers.
type newSlip struct{ title, file, old, now, answer string }

// parseSlips reads the slips of a file; what stands before the first is kept as it is.
func parseSlips(t *testing.T, text string) (head string, slips []newSlip) {
	t.Helper()
	parts := strings.Split("\n"+text, "\n=== ")
	for _, part := range parts[1:] {
		title, rest, _ := strings.Cut(part, "\n")
		file, rest, _ := strings.Cut(rest, "\n")
		old, rest, ok := strings.Cut(rest, "\n=>\n")
		now, answer, also := strings.Cut("\n"+rest, "\n---")
		if !ok || !also {
			t.Fatalf("slip %q is not written as file, what stood there, =>, what was written, ---, answer", title)
		}
		slips = append(slips, newSlip{title, file, old, strings.TrimPrefix(now, "\n"), strings.Trim(answer, "\n")})
	}
	return strings.TrimPrefix(parts[0], "\n"), slips
}

func formatSlips(head string, slips []newSlip) string {
	var out strings.Builder
	out.WriteString(strings.TrimRight(head, "\n") + "\n")
	for _, s := range slips {
		fmt.Fprintf(&out, "\n=== %s\n%s\n%s\n=>\n%s\n---\n%s\n", s.title, s.file, s.old, s.now, s.answer)
	}
	return out.String()
}

// in makes the slip in a copy of a workroom.
func (s newSlip) in(t *testing.T, base *txtar.Archive) *txtar.Archive {
	t.Helper()
	out := &txtar.Archive{Files: slices.Clone(base.Files)}
	i := fileNamed(out, s.file)
	if i < 0 || !bytes.Contains(out.Files[i].Data, []byte(s.old)) {
		t.Fatalf("%q is not in %s", s.old, s.file)
	}
	out.Files[i].Data = bytes.Replace(out.Files[i].Data, []byte(s.old), []byte(s.now), 1)
	return out
}

// roomIn is a workroom that stands in one file, or in a folder: of a folder of one build
// alone, its record with its pattern file, and its cloths.
func roomIn(t *testing.T, path string) *txtar.Archive {
	t.Helper()
	if strings.HasSuffix(path, ".txtar") {
		return readArchive(t, path)
	}
	out := &txtar.Archive{}
	if _, err := os.Stat(filepath.Join(path, "build.yaml")); err == nil {
		out.Files = append(out.Files, txtar.File{Name: "content/workroom.yaml", Data: []byte("name: Quarry room\nmaker: A maker\n")})
	}
	err := fs.WalkDir(os.DirFS(path), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(filepath.Join(path, filepath.FromSlash(name)))
		switch {
		case strings.Contains(name, "/"):
		case name == "build.yaml":
			name = "content/builds/skirt/build.yaml"
		case strings.HasSuffix(name, ".svg"):
			name = "content/builds/skirt/pattern/" + name
		default:
			name = "content/cloth/" + name
		}
		out.Files = append(out.Files, txtar.File{Name: name, Data: text})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestNewcomer makes slips as somebody new to the record makes them, over eleven
// garments, and compares what check answers, word for word. No slip goes unanswered, and
// what an answer proposes puts it right.
func TestNewcomer(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	for file, room := range map[string]string{
		"first-record.txt":      "../broken/base.txtar",
		"new-forms.txt":         "three-garments.txtar",
		"ruined-cloth.txt":      "three-more.txtar",
		"left-and-bare.txt":     "three-more.txtar",
		"knit-top.txt":          "knit-top.txtar",
		"as-the-trade-says.txt": "three-more.txtar",
		"shirt.txt":             "../../internal/pattern/testdata/shirt",
		"box-pleats.txt":        "../../internal/derive/testdata/quarry-skirt",
		"more-of-a-top.txt":     "knit-top.txtar",
	} {
		base := roomIn(t, filepath.Join(newcomerDir, filepath.FromSlash(room)))
		path := filepath.Join(newcomerDir, file)
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		head, slips := parseSlips(t, string(text))
		for i := range slips {
			t.Run(strings.TrimSuffix(file, ".txt")+"/"+slips[i].title, func(t *testing.T) {
				room := slips[i].in(t, base)
				found := checkedIn(t, room)
				var printed bytes.Buffer
				printFound(&printed, found)
				got := strings.TrimRight(printed.String(), "\n")
				if *update {
					slips[i].answer = got
					return
				}
				if got == "" {
					t.Fatal("the slip was not noticed")
				}
				if diff := cmp.Diff(slips[i].answer, got); diff != "" {
					t.Errorf("want - got +\n%s", diff)
				}
				for _, f := range found.faults {
					if len(f.Correct) > 0 {
						holdProposal(t, room, found.faults, f)
					}
				}
				holdTogether(t, room, found.faults)
			})
		}
		if *update {
			if err := os.WriteFile(path, []byte(formatSlips(head, slips)), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}
