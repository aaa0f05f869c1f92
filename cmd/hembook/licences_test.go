package main

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// builtInto are the modules the program is made of on a system, each with its folder.
func builtInto(t *testing.T, system string) map[string]string {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "hembook/cmd/hembook")
	cmd.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0", "GOFLAGS=-mod=readonly")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for line := range strings.Lines(string(out)) {
		if name, dir, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
			found[name] = dir
		}
	}
	return found
}

// goRoot is where Go lies.
func goRoot(t *testing.T) string {
	t.Helper()
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}

var isLicence = regexp.MustCompile(`(?i)^(licen[sc]e|copying|notice|patents)`)

// licenceKinds are known by words that only they have.
var licenceKinds = []struct{ name, words string }{
	{"SIL Open Font License 1.1", "SIL OPEN FONT LICENSE Version 1.1"},
	{"Apache License 2.0", "http://www.apache.org/licenses/"},
	{"Mozilla Public License 2.0", "Mozilla Public License Version 2.0"},
	{"BSD 3-Clause", "Neither the name of"},
	{"BSD 2-Clause", "Redistributions in binary form must reproduce"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
}

// TestThirdParty: what is told is what is built into the program for each of the three
// systems, with the licences as they lie beside the modules.
func TestThirdParty(t *testing.T) {
	nothingBeside(t)
	modules := map[string]string{"Go ": goRoot(t)}
	for _, system := range []string{"linux", "darwin", "windows"} {
		for name, dir := range builtInto(t, system) {
			modules[name] = dir
		}
	}
	if len(modules) < 15 {
		t.Fatalf("only %d modules were found", len(modules))
	}
	var b strings.Builder
	b.WriteString("hembook is made of its own lines, under the Apache License 2.0, and of what follows.\n\n")
	for _, name := range slices.SortedFunc(maps.Keys(modules), func(a, b string) int { return cmp.Compare(strings.ToLower(a), strings.ToLower(b)) }) {
		head := name
		if strings.HasPrefix(name, "Go ") {
			head = "Go, its standard library"
		}
		b.WriteString(entryOf(t, head, modules[name]))
	}
	if *update {
		if err := os.WriteFile("THIRD-PARTY.txt", []byte(b.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile("THIRD-PARTY.txt")
	if err != nil {
		t.Fatal(err)
	}
	if string(kept) != b.String() {
		t.Errorf("THIRD-PARTY.txt is stale: go test ./cmd/hembook -run TestThirdParty -update")
	}
}

// entryOf is a module's entry: its name, its licences by name, and their texts.
func entryOf(t *testing.T, head, dir string) string {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	var kinds []string
	for _, f := range files {
		if f.IsDir() || !isLicence.MatchString(f.Name()) {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
		for _, k := range licenceKinds {
			if strings.Contains(strings.Join(strings.Fields(string(text)), " "), strings.Join(strings.Fields(k.words), " ")) {
				if k.name == "BSD 2-Clause" && slices.Contains(kinds, "BSD 3-Clause") {
					continue // its words are in the longer one too
				}
				kinds = append(kinds, k.name)
			}
		}
		texts = append(texts, strings.TrimSpace(string(text)))
	}
	if len(kinds) == 0 {
		t.Errorf("%s: no licence is known in %s", head, dir)
	}
	return fmt.Sprintf("%s%s: %s\n\n%s\n\n", thirdPartyRule, head, strings.Join(slices.Compact(slices.Sorted(slices.Values(kinds))), ", "), strings.Join(texts, "\n\n"))
}

// TestManPage: the page names every command and flag, and no line is taken for an order
// that the macros do not have.
func TestManPage(t *testing.T) {
	var page strings.Builder
	root := newRoot()
	if err := writeMan(root, &page); err != nil {
		t.Fatal(err)
	}
	for _, c := range root.Commands() {
		if !c.Hidden && c.Name() != "help" && !strings.Contains(page.String(), "\n.SS "+c.Name()+"\n") {
			t.Errorf("%s is not on the page", c.Name())
		}
	}
	orders := regexp.MustCompile(`^\.(TH|SH|SS|B|BR|I|PP|TP|nf|fi)\b`)
	for line := range strings.Lines(page.String()) {
		if strings.HasPrefix(line, ".") && !orders.MatchString(line) || strings.HasPrefix(line, "'") {
			t.Errorf("an order that is none: %q", line)
		}
	}
}
