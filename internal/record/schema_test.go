package record

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
)

// kindOfPath tells which kind of file lies at a path of a workroom.
func kindOfPath(path string) string {
	switch {
	case path == "content/workroom.yaml":
		return "workroom"
	case strings.HasSuffix(path, "/build.yaml"):
		return "build"
	case strings.HasPrefix(path, "content/cloth/") && strings.HasSuffix(path, ".yaml"):
		return "cloth"
	case strings.HasPrefix(path, "content/wearers/") && strings.HasSuffix(path, ".yaml"):
		return "wearer"
	case strings.HasPrefix(path, "content/techniques/") && strings.HasSuffix(path, ".md"):
		return "technique"
	case strings.HasPrefix(path, "content/pages/") && strings.HasSuffix(path, ".md"):
		return "page"
	}
	return ""
}

func compileSchemas(t *testing.T) map[string]*jsonschema.Schema {
	t.Helper()
	out := map[string]*jsonschema.Schema{}
	for _, name := range KindNames() {
		text, err := Schema(name)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		c := jsonschema.NewCompiler()
		if err := c.AddResource(name+".json", doc); err != nil {
			t.Fatal(err)
		}
		if out[name], err = c.Compile(name + ".json"); err != nil {
			t.Fatalf("the schema of a %s: %v", name, err)
		}
	}
	return out
}

// asJSON turns a node into what an editor's YAML plug-in hands the schema:
// dates stay strings.
func asJSON(n *yaml.Node) any {
	switch n.Kind {
	case yaml.DocumentNode:
		return asJSON(n.Content[0])
	case yaml.AliasNode:
		return asJSON(n.Alias)
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = asJSON(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		list := make([]any, len(n.Content))
		for i, c := range n.Content {
			list[i] = asJSON(c)
		}
		return list
	}
	if n.Tag == "!!timestamp" {
		return n.Value
	}
	var v any
	if n.Decode(&v) != nil {
		return n.Value
	}
	if i, ok := v.(int); ok {
		return float64(i)
	}
	return v
}

func validate(schemas map[string]*jsonschema.Schema, kind string, text []byte) error {
	if kind == "technique" || kind == "page" {
		var f fault.Faults
		header, _, _, ok := splitHeader(&fault.Source{}, text, &f)
		if !ok {
			return os.ErrInvalid
		}
		text = header
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return err
	}
	if len(doc.Content) == 0 {
		return os.ErrInvalid
	}
	return schemas[kind].Validate(asJSON(&doc))
}

// TestSchemaAcceptsWhatIsInOrder holds every file of the workroom without a
// slip, and of the demo workroom, against its schema.
func TestSchemaAcceptsWhatIsInOrder(t *testing.T) {
	schemas := compileSchemas(t)
	base, err := txtar.ParseFile("../../testdata/broken/base.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range base.Files {
		if kind := kindOfPath(f.Name); kind != "" {
			if err := validate(schemas, kind, f.Data); err != nil {
				t.Errorf("%s: %v", f.Name, err)
			}
		}
	}
	root := "../.."
	filepath.WalkDir(filepath.Join(root, "content"), func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		if kind := kindOfPath(filepath.ToSlash(rel)); kind != "" {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := validate(schemas, kind, text); err != nil {
				t.Errorf("%s: %v", rel, err)
			}
		}
		return nil
	})
}

// TestSchemaIsNeverStricter makes every slip of the broken records and asks
// the reader alone: where the schema refuses a file, the reader must too. The
// reader knows more (references, geometry), so the other way is only counted.
func TestSchemaIsNeverStricter(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	schemas := compileSchemas(t)
	base, err := txtar.ParseFile("../../testdata/broken/base.txtar")
	if err != nil {
		t.Fatal(err)
	}
	cases, _ := filepath.Glob("../../testdata/broken/*.txtar")
	caught := 0
	for _, path := range cases {
		slip, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range slip.Files {
			verb, name, _ := strings.Cut(s.Name, " ")
			kind := kindOfPath(name)
			if kind == "" || verb != "edit" && verb != "write" {
				continue
			}
			text := s.Data
			if verb == "edit" {
				from, to, _ := bytes.Cut(s.Data, []byte("\n=>\n"))
				for _, f := range base.Files {
					if f.Name == name {
						text = bytes.Replace(f.Data, from, bytes.TrimSuffix(to, []byte("\n")), 1)
					}
				}
			}
			if validate(schemas, kind, text) == nil {
				continue
			}
			caught++
			if !readerRefuses(t, base, name, text) {
				t.Errorf("%s: the schema refuses %s, the reader does not", filepath.Base(path), name)
			}
		}
	}
	if caught < 20 {
		t.Errorf("the schemas caught only %d slips", caught)
	}
	t.Logf("of %d slips the schemas catch %d by themselves", len(cases)-1, caught)
}

// readerRefuses reads the workroom with one file replaced.
func readerRefuses(t *testing.T, base *txtar.Archive, name string, text []byte) bool {
	t.Helper()
	dir := t.TempDir()
	writeRoom(t, dir, base)
	if err := os.WriteFile(filepath.Join(dir, name), text, 0o666); err != nil {
		t.Fatal(err)
	}
	return fault.HasErrors(readAll(t, dir))
}

// writeRoom writes an archive of files below dir.
func writeRoom(t testing.TB, dir string, a *txtar.Archive) {
	t.Helper()
	for _, f := range a.Files {
		path := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, f.Data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// readAll returns the faults of every file.
func readAll(t testing.TB, dir string) []fault.Fault {
	t.Helper()
	room, faults, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	for _, bf := range room.Builds {
		_, more := room.ReadBuild(bf)
		faults = append(faults, more...)
	}
	return faults
}
