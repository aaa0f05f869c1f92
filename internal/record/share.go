package record

import (
	"bytes"
	"path"
	"regexp"
	"slices"
	"strings"

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
// Nothing private stands in them; photographs are left to the caller. Pattern files may
// hold anything, so they are drawn anew, by draws: pieces by their names, in the form
// that the name of a file ends in. Share is empty where the build cannot be shown.
func (r *Room) Share(b *Build, draws func(pieces []string, file string) []byte) []SharedFile {
	if !b.CanShare() {
		return nil
	}
	record := path.Join(b.Folder, "build.yaml")
	out := []SharedFile{{record, r.shown(record, &Build{})}}
	files, pieces := b.patternFiles()
	for i, file := range files {
		text := draws(pieces[i], file)
		if text == nil {
			return nil
		}
		out = append(out, SharedFile{path.Join(b.Folder, file), text})
	}
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

// CanShare reports whether another workroom can be given the build: nothing private is
// entangled with the rest.
func (b *Build) CanShare() bool { return b.Text != nil }

// patternFiles are the files that draw outlines, and the pieces that each draws.
func (b *Build) patternFiles() (files []string, pieces [][]string) {
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if p.Outline == nil || !p.Outline.File.Given() {
			continue
		}
		file, _, _ := strings.Cut(p.Outline.File.V, "#")
		k := slices.Index(files, file)
		if k < 0 {
			k, files, pieces = len(files), append(files, file), append(pieces, nil)
		}
		pieces[k] = append(pieces[k], p.Name.V)
	}
	return files, pieces
}

// redrawn lets outlines of a record be read from pattern files that were drawn anew, at
// true size and each piece by its own name.
func redrawn(root *yaml.Node) {
	pieces := under(root, "pieces")
	if pieces == nil || pieces.Kind != yaml.MappingNode {
		return
	}
	for i := 0; i+1 < len(pieces.Content); i += 2 {
		outline := under(pieces.Content[i+1], "outline")
		file := under(outline, "file")
		switch {
		case file != nil:
			outline.Content = atTrueSize(outline.Content)
		case outline != nil && outline.Kind == yaml.ScalarNode:
			file = outline
		default:
			continue
		}
		if name, _, named := strings.Cut(file.Value, "#"); named {
			file.Value = name + "#" + pieces.Content[i].Value
		}
	}
}

// under is what stands behind a word of a group; nil where there is no such word.
func under(group *yaml.Node, word string) *yaml.Node {
	if group == nil || group.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(group.Content); i += 2 {
		if group.Content[i].Value == word {
			return group.Content[i+1]
		}
	}
	return nil
}

// atTrueSize leaves out of an outline's words those that tell how its file was drawn.
func atTrueSize(pairs []*yaml.Node) (out []*yaml.Node) {
	for i := 0; i+1 < len(pairs); i += 2 {
		if !slices.Contains([]string{"units", "scale", "corners", "line"}, pairs[i].Value) {
			out = append(out, pairs[i], pairs[i+1])
		}
	}
	return out
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
	if _, ok := into.(*Build); ok {
		redrawn(node)
	}
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
