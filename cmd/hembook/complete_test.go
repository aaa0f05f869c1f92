package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// inShell is what bash does when Tab is pressed: the words typed so far in COMP_WORDS,
// the last of them to be filled in. _init_completion stands in for the package
// bash-completion, which cuts the line into these words.
const inShell = `
_init_completion() { words=("${COMP_WORDS[@]}"); cword=$COMP_CWORD; cur="${words[cword]}"; prev="${words[cword-1]}"; }
source "$SCRIPT"
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); COMP_LINE="$*"; COMP_POINT=${#COMP_LINE}; COMP_TYPE=9
__start_hembook 2>&1
printf '%s\n' "${COMPREPLY[@]}"
`

// TestTabInBash: with what hembook completion bash prints, a real bash fills in
// commands, garments and what their records name.
func TestTabInBash(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("bash is not installed")
	}
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(program, filepath.Join(dir, "hembook")); err != nil {
		t.Skip("no link can be made: ", err)
	}
	path := "PATH=" + dir + string(os.PathListSeparator) + os.Getenv("PATH")
	script := filepath.Join(dir, "completion")
	made := exec.Command(filepath.Join(dir, "hembook"), "completion", "bash")
	out, err := made.Output()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(script, out, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		typed      string // with a slash between words; the last is to be filled in
		want, none string
	}{
		{"tal", "tally", "lay"},
		{"tally/har", "harvest-supper-dress", "plum-bias-slip"},
		{"tally/harvest-supper-dress/bo", "boning", "front"},
		{"tally/harvest-supper-dress/se", "seam", "front"},
		{"tally/harvest-supper-dress/--upward/front.s", "front.side", "back.side"},
		{"tally/harvest-supper-dress/--round/", "0", ""},
		{"tally/harvest-supper-dress/--part/se", "seams", "pieces"},
		{"pattern/tollkeepers-waistcoat/--piece/front", "front facing", "back"},
		{"pattern/tollkeepers-waistcoat/--piece/front\\ f", "front\\ facing", "back"},
		{"pattern/tollkeepers-waistcoat/--paper/l", "letter", "a4"},
		{"lay/harvest-supper-dress/--cloth/l", "lining", "shell"},
		{"lay/harvest-supper-dress/--keep", "--keep-remnants", "--cloth"},
		{"jot/plum-bias-slip/--did/sew-the-r", "sew-the-right-side", "hang-the-pieces"},
		{"clock/on/plum-bias-slip/roll", "roll-the-hem-by-hand", "fit"},
		{"pack/plum-bias-slip/--language/d", "de", "en"},
		{"begin/skirt/--units/c", "cm", "mm"},
		{"words/sel", "selvedge", "grain"},
	} {
		cmd := exec.Command(bash, append([]string{"--norc", "-c", inShell, "bash", "hembook"}, strings.Split(row.typed, "/")...)...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), path, "SCRIPT="+script)
		out, err := cmd.CombinedOutput()
		var got []string
		for _, line := range strings.Split(string(out), "\n") {
			word, _, _ := strings.Cut(strings.TrimSpace(line), "  ")
			got = append(got, word)
		}
		if err != nil || !slices.Contains(got, row.want) || row.none != "" && slices.Contains(got, row.none) {
			t.Errorf("%s: %v %s, want %s and not %s", row.typed, err, fmt.Sprintf("%.600s", out), row.want, row.none)
		}
	}
}
