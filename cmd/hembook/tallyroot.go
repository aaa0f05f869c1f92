package main

import (
	"cmp"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A root is what a tree of changes grows from: a figure, or lines of a file.
type root struct {
	figure      *figure.Figure // nil where it is lines of a file
	name        string         // what stands on the lines: "front.side"
	file        string
	first, last int32
}

func (r *root) where() string {
	at := fmt.Sprintf("%s:%d", r.file, r.first)
	if r.last > r.first {
		at += say.Of("hembook.to", r.last)
	}
	return at
}

// changes lists what rests on the root.
func (r *root) changes(l *figure.Lineage, room *record.Room) []figure.Dependant {
	if r.figure != nil {
		return l.Of(r.figure.ID)
	}
	text, _ := fs.ReadFile(room.FS, r.file)
	ends := map[int32]int32{} // of the groups that begin on a line, the end of the longest
	for _, one := range thingsIn(text) {
		ends[one.first] = max(ends[one.first], one.last)
	}
	named := r.filesNamed(text, l)
	return l.OfPlaces(func(at fault.Pos, whole bool) bool {
		if named[at.File()] {
			return true
		}
		last := at.Line
		if whole {
			last = max(last, ends[at.Line])
		}
		return at.File() == r.file && at.Line <= r.last && last >= r.first
	})
}

// filesNamed are the records that the root's lines name, as a cloth's is named
// by what it is used for: another in its place would change all it tells.
func (r *root) filesNamed(text []byte, l *figure.Lineage) map[string]bool {
	slugs := map[string]string{}
	for _, f := range l.Figures() {
		for _, at := range f.Working.Positions() {
			if file := at.File(); file != r.file {
				slugs[strings.TrimSuffix(path.Base(file), ".yaml")] = file
			}
		}
	}
	var doc yaml.Node
	out := map[string]bool{}
	if yaml.Unmarshal(text, &doc) != nil {
		return out
	}
	var look func(n *yaml.Node)
	look = func(n *yaml.Node) {
		if file := slugs[n.Value]; file != "" && n.Kind == yaml.ScalarNode && int(r.first) <= n.Line && n.Line <= int(r.last) {
			out[file] = true
		}
		for _, v := range n.Content {
			look(v)
		}
	}
	look(&doc)
	return out
}

// findRoot finds what a word names: a figure by its ID or as tally prints it,
// a line of a file, or the name of something in the record, in the records it
// rests on, or in the workroom.
func findRoot(room *record.Room, bf record.BuildFile, l *figure.Lineage, word string) (root, error) {
	if f := figureNamed(l, word); f != nil {
		return root{figure: f}, nil
	}
	files := filesRead(bf, l)
	if r, ok, err := lineNamed(room, l, files, word); ok || err != nil {
		return r, err
	}
	for _, file := range files {
		found := thingsNamed(room, file, word)
		switch {
		case len(found) == 1:
			return root{name: found[0].path(), file: file, first: found[0].first, last: found[0].last}, nil
		case len(found) > 1:
			return root{}, misused(say.Of("hembook.which", word, choices(found)))
		}
	}
	hint := say.Of("hembook.a-figure-a-line-or-a-name", bf.Slug)
	if near := nearestOf(room, l, files, word); near != "" {
		hint = near
	}
	return root{}, misused(say.Of("hembook.has-nothing-named", bf.Slug, say.Quoted(word), hint))
}

// figureNamed finds a figure by its ID, or by what stands before its value in
// the list of figures.
func figureNamed(l *figure.Lineage, word string) *figure.Figure {
	if f := l.Figure(word); f != nil {
		return f
	}
	list := l.Figures()
	for i := range list {
		if strings.EqualFold(nameOf(list[i]), word) {
			return list[i]
		}
	}
	return nil
}

// filesRead lists the files that figures of a build rest on, its own record
// first and the workroom's last.
func filesRead(bf record.BuildFile, l *figure.Lineage) []string {
	own := path.Join("content/builds", bf.Slug, "build.yaml")
	met := map[string]bool{}
	var out []string
	for _, f := range l.Figures() {
		for _, at := range f.Working.Positions() {
			if !met[at.File()] {
				met[at.File()] = true
				out = append(out, at.File())
			}
		}
	}
	rank := func(file string) int {
		switch file {
		case own:
			return 0
		case "content/workroom.yaml":
			return 2
		}
		return 1
	}
	slices.SortFunc(out, func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b)) })
	if !met[own] {
		out = append([]string{own}, out...)
	}
	return out
}

// lineNamed reads "41", "build.yaml:41" or "linen.yaml:5". Where nothing of the
// line goes into a figure, all that begins on it is meant.
func lineNamed(room *record.Room, l *figure.Lineage, files []string, word string) (root, bool, error) {
	file, number := "", word
	if i := strings.LastIndexByte(word, ':'); i >= 0 {
		file, number = word[:i], word[i+1:]
	}
	n, err := strconv.ParseInt(strings.TrimSpace(number), 10, 32)
	if err != nil || n < 1 {
		return root{}, false, nil
	}
	r := root{file: files[0], first: int32(n), last: int32(n)}
	if file != "" {
		i := slices.IndexFunc(files, func(f string) bool { return f == file || strings.HasSuffix(f, "/"+file) })
		if i < 0 {
			return root{}, false, misused(say.Of("hembook.no-figure-rests-on-one-of", file, strings.Join(files, ", ")))
		}
		r.file = files[i]
	}
	text, err := fs.ReadFile(room.FS, r.file)
	if err != nil {
		return root{}, false, err
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	if int(n) > len(lines) {
		return root{}, false, misused(say.Of("hembook.has-lines-and-no-line", r.file, len(lines), n))
	}
	r.name = strings.TrimSpace(lines[n-1])
	if len(r.changes(l, room)) == 0 {
		for _, one := range thingsIn(text) {
			if one.first == r.first {
				r.last = max(r.last, one.last)
			}
		}
	}
	return r, true, nil
}

// A thing is a part of a record that has a name.
type thing struct {
	names       []string // from the outermost group to its own
	first, last int32    // its lines
}

func (t thing) path() string { return strings.Join(t.names, ".") }

// thingsIn lists what has a name in a YAML text, in its order.
func thingsIn(text []byte) []thing {
	var doc yaml.Node
	if yaml.Unmarshal(text, &doc) != nil || len(doc.Content) == 0 {
		return nil
	}
	var out []thing
	var look func(n *yaml.Node, names []string)
	look = func(n *yaml.Node, names []string) {
		add := func(name string, first int, v *yaml.Node) {
			inner := append(slices.Clone(names), name)
			out = append(out, thing{inner, int32(first), lastLine(v)})
			look(v, inner)
		}
		switch n.Kind {
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				add(n.Content[i].Value, n.Content[i].Line, n.Content[i+1])
			}
		case yaml.SequenceNode:
			for i, v := range n.Content {
				if v.Kind == yaml.MappingNode {
					add(ownName(v, i), v.Line, v)
				}
			}
		}
	}
	look(doc.Content[0], nil)
	return out
}

// ownName is what a group of a list is called: by its name, by what it is or
// does, else by its number.
func ownName(n *yaml.Node, i int) string {
	for _, word := range []string{"name", "what", "do"} {
		for k := 0; k+1 < len(n.Content); k += 2 {
			if v := n.Content[k+1]; n.Content[k].Value == word && v.Kind == yaml.ScalarNode {
				return v.Value
			}
		}
	}
	return strconv.Itoa(i + 1)
}

// lastLine is the last line of a node.
func lastLine(n *yaml.Node) int32 {
	last := n.Line
	if n.Kind == yaml.ScalarNode && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		last += strings.Count(n.Value, "\n")
	}
	for _, v := range n.Content {
		last = max(last, int(lastLine(v)))
	}
	return int32(last)
}

// thingsNamed are the parts of a file that a word names: by its own name, or by
// names of groups around it too, set apart by dots. Of several the one that
// stands in fewest groups is meant.
func thingsNamed(room *record.Room, file, word string) []thing {
	text, err := fs.ReadFile(room.FS, file)
	if err != nil {
		return nil
	}
	var out []thing
	for _, one := range thingsIn(text) {
		if !one.named(word) {
			continue
		}
		switch {
		case len(out) == 0 || len(one.names) == len(out[0].names):
			out = append(out, one)
		case len(one.names) < len(out[0].names):
			out = append(out[:0], one)
		}
	}
	return out
}

// named reports whether a word ends in the thing's own name, what stands before
// it being names of groups around it, in order.
func (t thing) named(word string) bool {
	if strings.EqualFold(t.path(), word) {
		return true
	}
	rest, ok := cutEnd(word, t.names[len(t.names)-1])
	for i := len(t.names) - 2; ok && rest != "" && i >= 0; i-- {
		if shorter, is := cutEnd(rest, t.names[i]); is {
			rest = shorter
		}
	}
	return ok && rest == ""
}

// cutEnd takes a name off the end of names set apart by dots.
func cutEnd(names, name string) (string, bool) {
	if strings.EqualFold(names, name) {
		return "", true
	}
	n := len(names) - len(name) - 1
	if n > 0 && names[n] == '.' && strings.EqualFold(names[n+1:], name) {
		return names[:n], true
	}
	return "", false
}

func choices(list []thing) string {
	const most = 6
	var out []string
	for _, one := range list {
		if p := one.path(); !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	if len(out) > most {
		out = append(out[:most], "…")
	}
	return strings.Join(out, ", ")
}

// nearestOf asks whether a name or figure was meant.
func nearestOf(room *record.Room, l *figure.Lineage, files []string, word string) string {
	guess := meant.For(word)
	for _, file := range files {
		text, _ := fs.ReadFile(room.FS, file)
		for _, one := range thingsIn(text) {
			own := one.names[len(one.names)-1]
			guess.Try(own)
			for _, group := range one.names[:len(one.names)-1] {
				guess.Try(group + "." + own)
			}
		}
	}
	for _, f := range l.Figures() {
		guess.Try(f.ID)
	}
	return guess.Hint()
}
