package record

import (
	"bytes"
	"path"
	"regexp"
	"slices"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
)

// A SharedFile is one file of a workroom as others may have it, by its path in one.
type SharedFile struct {
	Path string
	Text []byte
}

// Share are the files by which another workroom can open a build: its record, its cloths,
// what holds for every build here, and a page in place of each technique that it names.
// Nothing private stands in them; photographs are left to the caller. It is empty where
// the build cannot be shown, and where outlines lie in files, which may hold anything.
func (r *Room) Share(b *Build) []SharedFile {
	if b.Text == nil || !b.DrawnHere() {
		return nil
	}
	record := path.Join(b.Folder, "build.yaml")
	out := []SharedFile{{record, r.shown(record, &Build{})}}
	if text := r.shown("content/workroom.yaml", &Workroom{}); text != nil {
		out = append(out, SharedFile{"content/workroom.yaml", text})
	}
	for i := range b.Cloth {
		file := path.Join("content/cloth", b.Cloth[i].V.Use.V+".yaml")
		if text := r.shown(file, &Cloth{}); text != nil {
			out = append(out, SharedFile{file, text})
		}
	}
	for _, name := range b.techniquesNamed() {
		if t := r.techniques[name]; t != nil {
			out = append(out, SharedFile{path.Join("content/techniques", name+".md"), techniqueStub(t)})
		}
	}
	return out
}

// DrawnHere reports whether all outlines of a build stand in its record.
func (b *Build) DrawnHere() bool {
	return !slices.ContainsFunc(b.Pieces, func(p Piece) bool { return p.Outline != nil && p.Outline.File.Given() })
}

// shown is a file of the workroom without what is private in it, and without remarks,
// which may repeat it; nil where there is none or it cannot be read whole.
func (r *Room) shown(file string, into any) []byte {
	var faults fault.Faults
	node, _, d := r.decodeFile(&fault.Source{Path: file}, into, &faults)
	if node == nil || faults.HasErrors() {
		return nil
	}
	hidden := map[*yaml.Node]bool{}
	for _, n := range d.hides {
		hidden[n] = true
	}
	strip(node, hidden)
	text, err := yaml.Marshal(node)
	if err != nil {
		return nil
	}
	return text
}

// linkWithin is a link to another page of a workroom, which is not given along.
var linkWithin = regexp.MustCompile(`\[([^\]]*)\]\((?:build|technique|page|cloth):[^)]*\)`)

// strip takes hidden values with their keys, groups that nothing is left in, links
// to other pages and all remarks out of a part of a file. It reports whether anything is left.
func strip(n *yaml.Node, hidden map[*yaml.Node]bool) bool {
	n.HeadComment, n.LineComment, n.FootComment = "", "", ""
	if len(n.Content) == 0 {
		if n.Kind == yaml.ScalarNode {
			n.Value = linkWithin.ReplaceAllString(n.Value, "$1")
		}
		return true
	}
	var kept []*yaml.Node
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	for i := 0; i+step <= len(n.Content); i += step {
		value := n.Content[i+step-1]
		if hidden[value] || !strip(value, hidden) {
			continue
		}
		if step == 2 {
			strip(n.Content[i], hidden)
		}
		kept = append(kept, n.Content[i:i+step]...)
	}
	n.Content = kept
	return len(kept) > 0
}

// techniquesNamed are the techniques that a build's seams, finishes and steps are made by.
func (b *Build) techniquesNamed() (out []string) {
	add := func(t Text) {
		if t.V != "" && !slices.Contains(out, t.V) {
			out = append(out, t.V)
		}
	}
	for i := range b.Seams {
		add(b.Seams[i].Technique)
	}
	for i := range b.Finishes {
		add(b.Finishes[i].Technique)
	}
	for i := range b.Work {
		add(b.Work[i].Technique)
	}
	return out
}

// techniqueStub is a page that says what a technique is, without the rest of its text,
// which leads to pages that are not there.
func techniqueStub(t *Technique) []byte {
	var out bytes.Buffer
	line := func(word, says string) {
		if says != "" {
			out.WriteString(word + ": " + quoted(says) + "\n")
		}
	}
	out.WriteString("---\n")
	line("name", t.Name.V)
	line("summary", t.Summary.V)
	line("stage", t.Stage.V)
	out.WriteString("---\n")
	if t.When.V != "" {
		out.WriteString(t.When.V + "\n")
	}
	return out.Bytes()
}

// Photographs are the pictures that a build and its cloths name, by their paths in the
// workroom.
func (r *Room) Photographs(b *Build) (out []string) {
	add := func(folder string, p Photo) {
		if full := PhotoPath(folder, p); p.Given() && full != "" && !slices.Contains(out, full) {
			out = append(out, full)
		}
	}
	for _, p := range b.allPhotos() {
		add(b.Folder, p)
	}
	for i := range b.Cloth {
		if c := r.cloths[b.Cloth[i].V.Use.V]; c != nil {
			add(path.Dir(c.At.File()), c.Picture)
		}
	}
	return out
}
