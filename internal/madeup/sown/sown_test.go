package sown_test

import (
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/madeup"
	"hembook/internal/madeup/sown"
	"hembook/internal/record"
)

// fileTypes are the kinds of file that records are, by the words of
// record.FileKinds.
var fileTypes = map[string]reflect.Type{
	"workroom": reflect.TypeFor[record.Workroom](), "build": reflect.TypeFor[record.Build](), "cloth": reflect.TypeFor[record.Cloth](),
	"wearer": reflect.TypeFor[record.Wearer](), "draft": reflect.TypeFor[record.Draft](), "technique": reflect.TypeFor[record.Technique](), "page": reflect.TypeFor[record.Page](),
}

// A place is a word of a record that is private, as the types tell.
type place struct {
	path  []string // * stands for any entry of a list or group
	among bool     // its value is one of some words, which can be no secret
	free  bool     // anything may stand there
}

// privatePlaces walks a type of record. A wearer's file is private as a whole.
func privatePlaces(t reflect.Type, path []string, private bool, tag reflect.StructTag, out *[]place) {
	switch {
	case t == reflect.TypeFor[record.FreeYAML]():
		if private {
			*out = append(*out, place{slices.Clone(path), false, true})
		}
	case strings.HasPrefix(t.Name(), "Private["):
		privatePlaces(t.Field(0).Type, path, true, tag, out)
	case t.Kind() == reflect.Pointer:
		privatePlaces(t.Elem(), path, private, tag, out)
	case t.Kind() == reflect.Slice:
		elem := t.Elem()
		if strings.HasPrefix(elem.Name(), "Named[") {
			v, _ := elem.FieldByName("V")
			elem = v.Type
		}
		privatePlaces(elem, append(path, "*"), private, tag, out)
	case t.Kind() == reflect.Struct && grouped(t):
		for i := range t.NumField() {
			f := t.Field(i)
			if key, _, _ := strings.Cut(f.Tag.Get("yaml"), ","); key != "" && key != "-" {
				privatePlaces(f.Type, append(path, key), private, f.Tag, out)
			}
		}
	case private:
		*out = append(*out, place{slices.Clone(path), tag.Get("one-of") != "", false})
	}
}

func grouped(t reflect.Type) bool {
	for i := range t.NumField() {
		if key := t.Field(i).Tag.Get("yaml"); key != "" && key != "-" {
			return true
		}
	}
	return false
}

// at are the values that stand at a place of a tree.
func at(n *yaml.Node, path []string) (out []*yaml.Node) {
	if len(path) == 0 {
		return []*yaml.Node{n}
	}
	for i, each := range n.Content {
		if n.Kind == yaml.MappingNode && (i%2 == 0 || path[0] != "*" && n.Content[i-1].Value != path[0]) {
			continue
		}
		out = append(out, at(each, path[1:])...)
	}
	return out
}

// TestEveryPrivatePlaceIsSown: the schema's types say what is private; a new
// private place fails here until something is sown there.
func TestEveryPrivatePlaceIsSown(t *testing.T) {
	if len(fileTypes) != len(record.FileKinds) {
		t.Fatalf("%d kinds of file are known here, there are %d", len(fileTypes), len(record.FileKinds))
	}
	files, secrets := sown.Sowing{Room: 1}.Workroom()
	where := map[string]string{
		"workroom": "content/workroom.yaml", "build": "content/builds/" + madeup.Build + "/build.yaml", "cloth": "content/cloth/*.yaml", "wearer": "content/wearers/*.yaml",
	}
	places := 0
	for _, k := range record.FileKinds {
		var list []place
		privatePlaces(fileTypes[k.Name], nil, k.Name == "wearer", "", &list)
		places += len(list)
		if len(list) > 0 && where[k.Name] == "" {
			t.Errorf("nothing is sown in a %s, which has private places", k.Name)
			continue
		}
		for name, text := range files {
			if ok, _ := path.Match(where[k.Name], name); !ok {
				continue
			}
			var doc yaml.Node
			if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
				t.Fatalf("%s: %v\n%s", name, err, text)
			}
			for _, p := range list {
				values := at(doc.Content[0], p.path)
				if len(values) == 0 {
					t.Errorf("%s: nothing is sown at %s", name, strings.Join(p.path, "."))
				}
				for _, v := range values {
					if text, _ := yaml.Marshal(v); !p.among && !p.number() && len(sown.Search("x.txt", text, secrets)) == 0 {
						t.Errorf("%s: what stands at %s is no secret: %s", name, strings.Join(p.path, "."), text)
					}
				}
			}
		}
	}
	if places < 20 { // the walk itself must find some
		t.Errorf("%d private places", places)
	}
}

// number is true of the one place whose value is a number of two digits.
func (p place) number() bool { return strings.HasSuffix(strings.Join(p.path, "."), "for.age") }

// TestWhatIsSownIsRead: each value that was sown in a record is one of the
// secrets that the reader lists, and the workroom has no errors.
func TestWhatIsSownIsRead(t *testing.T) {
	for seed := range uint64(10) {
		files, secrets := sown.Sowing{Room: seed}.Workroom()
		dir := t.TempDir()
		if err := madeup.Write(dir, files); err != nil {
			t.Fatal(err)
		}
		room, faults, err := record.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		b, more := room.ReadBuild(room.Builds[0])
		if all := append(faults, more...); fault.HasErrors(all) {
			t.Fatalf("seed %d: %v\n%s", seed, all, files["content/builds/"+madeup.Build+"/build.yaml"])
		}
		read := ""
		for _, s := range append(room.Secrets(), b.Secrets...) {
			read += s.Open(record.ToProve).Text + "\n"
		}
		found := map[string]bool{}
		for _, s := range sown.Search("x.txt", []byte(read), secrets) {
			found[s.Forms[0]] = true
		}
		for _, s := range secrets {
			if s.InRecord() && s.Place != "wearer: file name" && !found[s.Forms[0]] {
				t.Errorf("seed %d: what was sown as %s is not read: %v", seed, s.Place, s.Forms)
			}
		}
		room.Close()
	}
}

// TestSearchKnowsNumbers: an amount is found wherever it stands by itself, and
// not in a number that only holds its digits.
func TestSearchKnowsNumbers(t *testing.T) {
	secret := []sown.Secret{{Place: "x", Forms: []string{"73 331.74"}}}
	for text, want := range map[string]bool{
		"73 331.74": true, "EUR73 331.74.": true, "(73 331.74)": true, "173 331.74 and 73 331.74": true,
		"130.73 331.748 l": false, "30.73 331.74 l": false, "173 331.74": false, "73 331.748": false,
	} {
		if got := len(sown.Search("x.txt", []byte(text), secret)) > 0; got != want {
			t.Errorf("%q: found %v", text, got)
		}
	}
}

// TestSearchFindsEveryForm: the search must find what it is there for.
func TestSearchFindsEveryForm(t *testing.T) {
	secret := []sown.Secret{{Place: "x", Forms: []string{"quzabcdef"}}}
	for name, text := range map[string]string{
		"plain.txt": "for Quzabcdef.", "tag.html": "<b>Quz</b>abcdef", "entity.html": "Q&#117;zabcdef", "json.html": `{"a":"Quz\u0061bcdef"}`,
		"link.html": "/x?q=Quz%61bcdef", "uri.css": "url(data:text/plain;base64,Zm9yIFF1emFiY2RlZiE=)", "Quzabcdef.txt": "", "hex.pdf": "<00510075007A006100620063006400650066> Tj",
		"parts.pdf": "[(Quz) -20 (abc\\144ef)] TJ",
	} {
		if len(sown.Search(name, []byte(text), secret)) != 1 {
			t.Errorf("%s: not found in %s", name, text)
		}
	}
	if found := sown.Search("a.html", []byte("<p>Quzabcde</p>"), secret); len(found) > 0 {
		t.Error("found what is not there")
	}
}

// TestSaltsDifferInSecretsAlone: two workrooms of other salts have no secret in
// common, and as many.
func TestSaltsDifferInSecretsAlone(t *testing.T) {
	for seed := range uint64(5) {
		_, a := sown.Sowing{Room: seed}.Workroom()
		files, b := sown.Sowing{Room: seed, Salt: 1}.Workroom()
		if len(a) != len(b) || len(a) < 60 {
			t.Errorf("seed %d: %d secrets and %d", seed, len(a), len(b))
		}
		for name, text := range files {
			for _, s := range sown.Search(name, []byte(text), a) {
				t.Errorf("seed %d: %s has a secret of the other: %s %v", seed, name, s.Place, s.Forms)
			}
		}
	}
}
