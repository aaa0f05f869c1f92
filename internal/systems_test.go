package internal

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A listed package is what the go command tells of one.
type listed struct {
	ImportPath, Dir string
	GoFiles         []string
	ImportMap       map[string]string
	Standard        bool
	Incomplete      bool
	DepsErrors      []struct{ Err string }
}

// TestOtherSystems checks the types of the whole program as it is built for other systems
// without cgo, where some rooms have lines of their own. Nothing is compiled for them,
// which with what they rest on would take a minute of processor a system; of what others
// wrote only what can be called is looked at.
func TestOtherSystems(t *testing.T) {
	for _, system := range []string{"windows", "darwin"} {
		t.Run(system, func(t *testing.T) {
			own := checkedFor(t, system)
			for _, room := range []string{"hembook/cmd/hembook", "hembook/internal/disk", "hembook/internal/bench"} {
				if !slices.Contains(own, room) {
					t.Errorf("%s was not looked at", room)
				}
			}
		})
	}
}

// checkedFor checks the program for a system, and names the rooms that were looked at.
func checkedFor(t *testing.T, system string) (own []string) {
	t.Helper()
	list := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,GoFiles,ImportMap,Standard,Incomplete,DepsErrors", "../cmd/...")
	list.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]*types.Package{"unsafe": types.Unsafe}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if p.Incomplete {
			t.Fatalf("%s: %v", p.ImportPath, p.DepsErrors)
		}
		if p.ImportPath == "unsafe" {
			continue
		}
		ours := strings.HasPrefix(p.ImportPath, "hembook/")
		pkg, faults := checkTypes(t, p, known, ours)
		known[p.ImportPath] = pkg
		if ours {
			own = append(own, p.ImportPath)
			for _, fault := range faults {
				t.Error(fault)
			}
		}
	}
	return own
}

// checkTypes checks a package whose imports are known: all of it, or what can be called.
func checkTypes(t *testing.T, p listed, known map[string]*types.Package, all bool) (*types.Package, []error) {
	t.Helper()
	files := token.NewFileSet()
	var parsed []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
	}
	var faults []error
	how := types.Config{
		IgnoreFuncBodies: !all,
		FakeImportC:      true,
		Sizes:            types.SizesFor("gc", "amd64"),
		Error:            func(err error) { faults = append(faults, err) },
		Importer: importing(func(name string) (*types.Package, error) {
			if to, renamed := p.ImportMap[name]; renamed {
				name = to
			}
			if pkg := known[name]; pkg != nil {
				return pkg, nil
			}
			return nil, errors.New(name + " is not known before it is asked for")
		}),
	}
	pkg, _ := how.Check(p.ImportPath, files, parsed, nil) // every fault is told to Error
	return pkg, faults
}

type importing func(name string) (*types.Package, error)

func (f importing) Import(name string) (*types.Package, error) { return f(name) }

// TestOtherSystemsFindsFaults breaks a line that only Windows has.
func TestOtherSystemsFindsFaults(t *testing.T) {
	dir := t.TempDir()
	text := "package bad\n\nfunc f() int { return \"no number\" }\n"
	if err := os.WriteFile(filepath.Join(dir, "bad_windows.go"), []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	_, faults := checkTypes(t, listed{ImportPath: "bad", Dir: dir, GoFiles: []string{"bad_windows.go"}}, nil, true)
	if len(faults) != 1 || !strings.Contains(faults[0].Error(), "no number") {
		t.Errorf("%v", faults)
	}
}
