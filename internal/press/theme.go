package press

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"html/template"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"

	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Theme is the look of a notebook: templates and the files that pages refer
// to. It never changes once it is loaded.
//
// Its files are frame.html, the outer page; pages/NAME.html, one template for
// each kind of page; parts/*.html, templates used by several; blocks/KIND.html, a
// template that writes every block of a kind; look/*.css, in
// the order of their names, but for those called like a kind of page, as search.css, which only that
// kind loads; look/icon.svg, the notebook's mark; script/*.js, each loaded on every page but
// those of one kind of page, as search.js and search-1-words.js; type/*, fonts, which a style sheet names as ../type/NAME.
type Theme struct {
	icon    notebook.Address
	pages   map[string]*template.Template
	blocks  document.Templates // its own ways to write kinds of blocks
	files   []asset
	styles  []notebook.Address
	scripts []notebook.Address          // of every page
	own     map[string]notebook.Address // of one kind of page: script/search.js and search-….js are the search page's own
	ownLook map[string]notebook.Address // of one kind of page: that of all, and look/search.css at its end
	sum     hash.Hash                   // of all that was read
}

type asset struct {
	address notebook.Address
	data    []byte
}

// pageNames are the names of the templates that a theme must have.
var pageNames = []string{"front", "build", "leaf", "record", "technique", "cloth", "builds", "techniques", "cloths", "rates", "glossary", "text", "search"}

// LoadTheme reads a theme. A file of the same name in over, where over is not
// nil, stands for the theme's own: so a workroom changes single files.
func LoadTheme(theme, over fs.FS) (*Theme, error) {
	l := layered{under: theme, over: over}
	l.sum = sha256.New()
	t := &Theme{pages: map[string]*template.Template{}, blocks: document.Templates{}, own: map[string]notebook.Address{}, ownLook: map[string]notebook.Address{}, sum: l.sum}
	if err := t.loadTemplates(l); err != nil {
		return nil, err
	}
	if err := t.loadBlocks(l); err != nil {
		return nil, err
	}
	return t, t.loadFiles(l)
}

// layered reads a file from over first, and sums up what it read.
type layered struct {
	under, over fs.FS
	sum         hash.Hash
}

func (l layered) read(name string) ([]byte, error) {
	data, err := l.find(name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fault.Wrapping(Reason(err), say.Of("press.the-themes-cannot-be-read", name, Reason(err)))
	}
	fmt.Fprintf(l.sum, "%s %d\n", name, len(data))
	l.sum.Write(data)
	return data, err
}

func (l layered) find(name string) ([]byte, error) {
	if l.over != nil {
		data, err := fs.ReadFile(l.over, name)
		if err == nil || !errors.Is(err, fs.ErrNotExist) {
			return data, err
		}
	}
	return fs.ReadFile(l.under, name)
}

// list returns the names of the files of a folder, of both layers, in order.
func (l layered) list(pattern string) []string {
	names, _ := fs.Glob(l.under, pattern)
	if l.over != nil {
		more, _ := fs.Glob(l.over, pattern)
		names = append(names, more...)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// functions are what templates may call beside the methods of their data.
var functions = template.FuncMap{
	"say":   say.Of,
	"date":  record.Day.Words,
	"label": notebook.StateWords,
	"list":  func(words []string) string { return strings.Join(words, ", ") },
}

func (t *Theme) loadTemplates(l layered) error {
	base := template.New("frame").Funcs(functions).Option("missingkey=error")
	for _, name := range append([]string{"frame.html"}, l.list("parts/*.html")...) {
		if err := parse(base, l, name); err != nil {
			return err
		}
	}
	for _, name := range pageNames {
		page, err := base.Clone()
		if err != nil {
			return err
		}
		if err := parse(page, l, "pages/"+name+".html"); err != nil {
			return err
		}
		t.pages[name] = page
	}
	return nil
}

// loadBlocks reads the templates that a theme writes kinds of blocks with.
func (t *Theme) loadBlocks(l layered) error {
	for _, name := range l.list("blocks/*.html") {
		kind := strings.TrimSuffix(path.Base(name), ".html")
		if !slices.Contains(document.Kinds, kind) {
			return errors.New(say.Of("press.the-themes-is-of-no-kind-of", name, strings.Join(document.Kinds, ", ")))
		}
		made := template.New("blocks").Funcs(functions)
		if err := parse(made, l, name); err != nil {
			return err
		}
		t.blocks[kind] = made.Lookup(name)
	}
	return nil
}

func parse(into *template.Template, l layered, name string) error {
	text, err := l.read(name)
	if errors.Is(err, fs.ErrNotExist) {
		return fault.Wrapping(Reason(err), say.Of("press.the-theme-has-no", name, Reason(err)))
	}
	if err != nil {
		return err
	}
	if _, err := into.New(name).Parse(string(text)); err != nil {
		return errors.New(say.Of("press.the-themes", name, strings.TrimPrefix(err.Error(), "template: ")))
	}
	return nil
}

// loadFiles reads style sheets, scripts and fonts and gives them names that
// change with their contents.
func (t *Theme) loadFiles(l layered) error {
	rename := []string{}
	for _, name := range l.list("type/*") {
		data, err := l.read(name)
		if err != nil {
			return err
		}
		if path.Ext(name) == ".md" || path.Ext(name) == ".txt" {
			continue
		}
		a := t.add(name, data)
		rename = append(rename, "../"+name, "../"+string(a))
	}
	if err := t.loadLook(l, strings.NewReplacer(rename...)); err != nil {
		return err
	}
	icon, err := l.read("look/icon.svg")
	switch {
	case err == nil:
		t.icon = t.add("look/icon.svg", icon)
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	return t.loadScripts(l)
}

// loadLook reads the style sheets. All become one file, so that a page waits for no
// second one; a kind of page that has a sheet called like it has that at the end of a
// file of its own. It gives fonts their names by renamed.
func (t *Theme) loadLook(l layered, renamed *strings.Replacer) error {
	var sheet []byte
	own := map[string][]byte{}
	for _, name := range l.list("look/*.css") {
		data, err := l.read(name)
		if err != nil {
			return err
		}
		if kinds := kindsOf(strings.TrimSuffix(path.Base(name), ".css")); len(kinds) > 0 {
			for _, kind := range kinds {
				own[kind] = append(own[kind], data...)
			}
		} else {
			sheet = append(append(sheet, data...), '\n')
		}
	}
	look := func(name string, text []byte) (notebook.Address, error) {
		small, err := minified("text/css", text)
		if err != nil {
			return "", fault.Wrapping(err, say.Of("press.the-themes-style-sheets", err))
		}
		return t.add(name, []byte(renamed.Replace(string(small)))), nil
	}
	all, err := look("look/plainweave.css", sheet)
	if err != nil {
		return err
	}
	t.styles = []notebook.Address{all}
	made := map[string]notebook.Address{} // kinds with the same sheet share its file
	for _, kind := range slices.Sorted(maps.Keys(own)) {
		at, known := made[string(own[kind])]
		if !known {
			if at, err = look("look/"+kind+".css", slices.Concat(sheet, own[kind])); err != nil {
				return err
			}
			made[string(own[kind])] = at
		}
		t.ownLook[kind] = at
	}
	return nil
}

// kindsOf are the kinds of pages that a file is of by its name, as build+leaf; nil where it
// is of all.
func kindsOf(name string) []string {
	kinds := strings.Split(name, "+")
	if slices.ContainsFunc(kinds, func(k string) bool { return !slices.Contains(pageNames, k) }) {
		return nil
	}
	return kinds
}

// loadScripts reads the scripts: those of one kind of page become one file, so
// that a browser asks once; any other stays a file of its own.
func (t *Theme) loadScripts(l layered) error {
	joined := map[string][]byte{}
	for _, name := range l.list("script/*.js") {
		data, err := l.read(name)
		if err != nil {
			return err
		}
		small, err := minified("text/javascript", data)
		if err != nil {
			return fault.Wrapping(err, say.Of("press.the-themes-2", name, err))
		}
		of, _, _ := strings.Cut(strings.TrimSuffix(path.Base(name), ".js"), "-")
		if kinds := kindsOf(of); len(kinds) > 0 {
			for _, kind := range kinds {
				joined[kind] = append(append(joined[kind], small...), ";\n"...)
			}
		} else {
			t.scripts = append(t.scripts, t.add(name, small))
		}
	}
	made := map[string]notebook.Address{}
	for _, kind := range slices.Sorted(maps.Keys(joined)) {
		at, known := made[string(joined[kind])]
		if !known {
			at = t.add("script/"+kind+".js", joined[kind])
			made[string(joined[kind])] = at
		}
		t.own[kind] = at
	}
	return nil
}

// minified takes out of a style sheet or script what only people read.
func minified(kind string, text []byte) ([]byte, error) {
	m := minify.New()
	m.AddFunc("text/css", css.Minify)
	m.AddFunc("text/javascript", js.Minify)
	return m.Bytes(kind, bytes.TrimSpace(text))
}

// add keeps a file under a name that holds the hash of its contents.
func (t *Theme) add(name string, data []byte) notebook.Address {
	ext := path.Ext(name)
	a := notebook.Address(strings.TrimSuffix(name, ext) + "." + hashOf(data) + ext)
	t.files = append(t.files, asset{a, data})
	return a
}

// hashOf is a short name for contents: 64 bits of their SHA-256.
func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:8])
}

func (t *Theme) writeFiles(out *target) error {
	for _, f := range t.files {
		if err := out.write(f.address, f.data); err != nil {
			return err
		}
	}
	return nil
}
