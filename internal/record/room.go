package record

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A Room is an opened workroom: everything but the builds is read, the builds
// are known by name and read one at a time, because there may be thousands.
type Room struct {
	Dir        string
	FS         fs.FS // the workroom's folder; nothing outside, and nothing but plain files, can be reached through it
	Workroom   *Workroom
	Cloths     []*Cloth
	Wearers    map[string]Private[*Wearer]
	Techniques []*Technique
	Pages      []*Page
	Drafts     []*Draft
	Builds     []BuildFile

	root       *os.Root
	cloths     map[string]*Cloth
	techniques map[string]*Technique
	builds     map[string]int
	pages      map[string]*Page
	stamps     []*Stamps         // of the folders of Builds; nil where they were not taken
	peeked     map[string]peeked // by path
	secrets    []Private[Secret]
	ways       ways
	before     *Room // what was peeked at before; nil once opened
	alone      bool  // one build is listed, and no other was looked for
}

// A BuildFile is a build that has not been read yet.
type BuildFile struct {
	Slug string // the name of its folder
	Path string // of build.yaml, slash-separated, from the workroom's folder
	Name string // as its record says it, for links; the slug where it does not
}

// Find returns the workroom's folder: dir itself or the nearest above that
// holds content/workroom.yaml.
func Find(dir string) (string, bool) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", false
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "content", "workroom.yaml")); err == nil {
			return dir, true
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", false
		}
		dir = up
	}
}

// Open reads a workroom. The faults are those of every file but the builds;
// the error says that there is no workroom to read at all.
func Open(dir string) (*Room, []fault.Fault, error) { return open(dir, nil, "") }

// OpenFor opens a workroom for what needs one build alone, by the name of its folder:
// where that has a record, no other build is looked for. Else it is Open.
func OpenFor(dir, slug string) (*Room, []fault.Fault, error) { return open(dir, nil, slug) }

// Again reads the workroom of a room as it is now. The names of builds whose
// records did not change since are not looked up anew. The room itself stays
// as it is; it may be closed already.
func (r *Room) Again() (*Room, []fault.Fault, error) { return open(r.Dir, r, "") }

func open(dir string, before *Room, slug string) (*Room, []fault.Fault, error) {
	root, err := openRoot(dir)
	if err != nil {
		return nil, nil, err
	}
	r := unread(dir, root)
	r.before = before
	return r, r.read(slug), nil
}

// unread is a workroom of which nothing was read yet.
func unread(dir string, root *os.Root) *Room {
	return &Room{
		Dir: dir, FS: disk.FS(root), root: root, Workroom: &Workroom{},
		Wearers: map[string]Private[*Wearer]{}, cloths: map[string]*Cloth{},
		techniques: map[string]*Technique{}, builds: map[string]int{}, pages: map[string]*Page{},
		peeked: map[string]peeked{},
	}
}

// read reads all but the builds, and lists those; slug names the only one wanted, if any.
func (r *Room) read(slug string) []fault.Fault {
	var faults fault.Faults
	r.readWorkroom(&faults)
	r.readShelf(&faults)
	r.readProse(&faults)
	r.readWays()
	r.readDrafts(&faults)
	if r.alone = r.listOne(slug); !r.alone {
		r.listBuilds(&faults)
	}
	r.check(&faults)
	r.before = nil
	return faults.Sorted()
}

// Close lets go of the folder.
func (r *Room) Close() error { return r.root.Close() }

// Cloth returns the cloth of that file name.
func (r *Room) Cloth(slug string) (*Cloth, bool) { c, ok := r.cloths[slug]; return c, ok }

// Technique returns the technique of that file name.
func (r *Room) Technique(slug string) (*Technique, bool) { t, ok := r.techniques[slug]; return t, ok }

// BuildNamed returns the build of that folder name, unread. A room that was opened for
// one build looks for another when it is asked for.
func (r *Room) BuildNamed(slug string) (BuildFile, bool) {
	if i, ok := r.builds[slug]; ok {
		return r.Builds[i], true
	}
	if r.alone {
		file, _, ok := r.lookFor(slug)
		return file, ok
	}
	return BuildFile{}, false
}

// BuildSlugs are the names of the folders of all builds.
func (r *Room) BuildSlugs() (all []string) {
	if !r.alone {
		for _, b := range r.Builds {
			all = append(all, b.Slug)
		}
		return all
	}
	entries, _ := fs.ReadDir(r.FS, "content/builds")
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			all = append(all, e.Name())
		}
	}
	return all
}

// BareUnit is what a bare length is in where a file says nothing.
func (r *Room) BareUnit() measure.Unit { return unitNamed(r.Workroom.Units.Or("mm")) }

func unitNamed(s string) measure.Unit {
	switch s {
	case "cm":
		return measure.UnitCM
	case "in":
		return measure.UnitIn
	}
	return measure.UnitMM
}

// decodeFile reads one YAML file into v. The root node is returned for what
// needs it; nil where there was none.
func (r *Room) decodeFile(src *fault.Source, v any, faults *fault.Faults) (*yaml.Node, []byte, *decoder) {
	text, ok := readFile(r.FS, src, mostRecord, faults)
	if !ok {
		return nil, nil, nil
	}
	if text, ok = checkText(src, text, faults); !ok {
		return nil, nil, nil
	}
	node, ok := parseYAML(src, text, 0, faults)
	if !ok {
		return nil, nil, nil
	}
	d := newDecoder(src, r.bareOf(node), faults)
	d.text, d.root = text, node
	d.into(node, v)
	if together := d.tellMuch(unitsIn(v)); together {
		if b, ok := v.(*Build); ok {
			b.NotUnit = true
		}
	}
	return node, text, d
}

// unitsIn is what a file that was read says its bare lengths are in.
func unitsIn(v any) Text {
	switch v := v.(type) {
	case *Build:
		return v.Units
	case *Wearer:
		return v.Units
	case *Workroom:
		return v.Units
	}
	return Text{}
}

// UnitOf is what a bare length in a build's record is in.
func (r *Room) UnitOf(b *Build) measure.Unit {
	return unitNamed(b.Units.Or(r.Workroom.Units.Or("mm")))
}

// bareOf looks for the file's own units before its lengths are read.
func (r *Room) bareOf(node *yaml.Node) measure.Unit {
	if node.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(node.Content); i += 2 {
			if k, v := node.Content[i], node.Content[i+1]; k.Value == "units" && slices.Contains([]string{"mm", "cm", "in"}, v.Value) {
				return unitNamed(v.Value)
			}
		}
	}
	return r.BareUnit()
}

func (r *Room) readWorkroom(faults *fault.Faults) {
	src := &fault.Source{Path: "content/workroom.yaml"}
	r.Workroom.At = fault.Pos{Source: src, Line: 1, Column: 1}
	if node, text, d := r.decodeFile(src, r.Workroom, faults); node != nil {
		r.secrets = append(r.secrets, d.secrets(text, d.hides)...)
	}
}

// list returns the files of a folder with one of the endings, sorted; others
// that look like records get a warning, so that no file is silently passed over.
func (r *Room) list(dir, ext string, faults *fault.Faults) []string {
	entries, err := fs.ReadDir(r.FS, dir)
	if err != nil {
		return nil // a workroom need not have the folder
	}
	var out []string
	for _, e := range entries {
		name := e.Name()
		switch {
		case strings.HasPrefix(name, ".") || e.IsDir():
		case path.Ext(name) == ext:
			out = append(out, path.Join(dir, name))
		case slices.Contains([]string{".yml", ".yaml", ".md", ".markdown", ".txt", ".YAML", ".MD"}, path.Ext(name)):
			faults.LookAgain(fault.Pos{Source: &fault.Source{Path: path.Join(dir, name)}, Line: 1, Column: 1}, say.Of("record.name-it", strings.TrimSuffix(name, path.Ext(name)), ext), say.Of("record.this-file-is-not-read-files-here", ext))
		}
	}
	return out
}

func slugOf(p string) string { return strings.TrimSuffix(path.Base(p), path.Ext(p)) }

func (r *Room) readShelf(faults *fault.Faults) {
	for _, p := range r.list("content/cloth", ".yaml", faults) {
		src := &fault.Source{Path: p}
		c := &Cloth{Slug: slugOf(p), At: fault.Pos{Source: src, Line: 1, Column: 1}}
		if node, text, d := r.decodeFile(src, c, faults); node != nil {
			r.secrets = append(r.secrets, d.secrets(text, d.hides)...)
		}
		c.Slug, c.At = slugOf(p), fault.Pos{Source: src, Line: 1, Column: 1}
		r.Cloths = append(r.Cloths, c)
		r.cloths[c.Slug] = c
	}
	for _, p := range r.list("content/wearers", ".yaml", faults) {
		src := &fault.Source{Path: p}
		w := &Wearer{}
		node, text, d := r.decodeFile(src, w, faults)
		w.Slug, w.At = slugOf(p), fault.Pos{Source: src, Line: 1, Column: 1}
		r.secrets = append(r.secrets, Keep(Secret{At: w.At, Name: "wearer", Text: w.Slug}))
		if node != nil {
			d.lengths = true
			r.secrets = append(r.secrets, d.secrets(text, []*yaml.Node{node})...)
		}
		r.Wearers[w.Slug] = Keep(w)
	}
}

func (r *Room) readProse(faults *fault.Faults) {
	for _, p := range r.list("content/techniques", ".md", faults) {
		t := &Technique{}
		t.Body = r.readHeaded(p, t, faults)
		t.Slug, t.At = slugOf(p), fault.Pos{Source: &fault.Source{Path: p}, Line: 1, Column: 1}
		r.Techniques = append(r.Techniques, t)
		r.techniques[t.Slug] = t
	}
	for _, p := range r.list("content/pages", ".md", faults) {
		g := &Page{}
		g.Body = r.readHeaded(p, g, faults)
		g.Slug, g.At = slugOf(p), fault.Pos{Source: &fault.Source{Path: p}, Line: 1, Column: 1}
		r.Pages = append(r.Pages, g)
		r.pages[g.Slug] = g
	}
	slices.SortStableFunc(r.Pages, func(a, b *Page) int { return a.Order.Or(1000) - b.Order.Or(1000) })
}

// readHeaded reads a Markdown file: its header into v, its body as it is.
func (r *Room) readHeaded(p string, v any, faults *fault.Faults) *Prose {
	src := &fault.Source{Path: p}
	text, ok := readFile(r.FS, src, mostRecord, faults)
	if !ok {
		return nil
	}
	if text, ok = checkText(src, text, faults); !ok {
		return nil
	}
	header, body, line, ok := splitHeader(src, text, faults)
	if !ok {
		return nil
	}
	if node, ok := parseYAML(src, header, 1, faults); ok {
		d := newDecoder(src, r.BareUnit(), faults)
		d.shift, d.text = 1, header
		d.into(node, v)
	}
	return &Prose{fault.Pos{Source: src, Line: line, Column: 1}, body}
}

// ReadBuild reads one build with everything that lies beside its record, and
// checks it against the workroom. The build is never nil.
func (r *Room) ReadBuild(bf BuildFile) (*Build, []fault.Fault) {
	var faults fault.Faults
	src := &fault.Source{Path: bf.Path}
	b := &Build{}
	node, text, d := r.decodeFile(src, b, &faults)
	b.Slug, b.At, b.Folder = bf.Slug, fault.Pos{Source: src, Line: 1, Column: 1}, path.Dir(bf.Path)
	if node != nil && !faults.HasErrors() { // else it is not known what is private
		b.Text = redact(text, node, d.hides)
	}
	if node != nil {
		b.Secrets, b.Inches, b.doubled, b.words, b.repeats = d.secrets(text, d.hides), d.inches, d.doubled, d.wordsOf(node), d.repeats
	}
	notes := &fault.Source{Path: path.Join(b.Folder, "notes.md")}
	if _, err := fs.Stat(r.FS, notes.Path); err == nil {
		if text, ok := readFile(r.FS, notes, mostRecord, &faults); ok {
			if text, ok = checkText(notes, text, &faults); ok {
				b.Notes = &Prose{fault.Pos{Source: notes, Line: 1, Column: 1}, text}
			}
		}
	}
	if node != nil {
		o := &outlineReader{r: r, b: b, faults: &faults, files: map[string]patternFile{}}
		o.spreadFiles()
		b.settle()
		r.settleTechniques(b)
		o.readOutlines()
		r.readRepeats(b, &faults)
		b.settleBands()
		r.tellLittle(b, &faults)
		r.checkBuild(b, &faults)
		b.partPairs()
	}
	return b, faults.Sorted()
}
